"""The drawer: small functions that return SVG text in the house look.

Black, greys and one pencil blue, and hairlines that stay hairlines at every size. Every surface
draws with these functions and the three modules built on them, `signs`, `intervals` and `hatching`.

Lengths inside a drawing are in CSS pixels. Where a drawing has to fit a column whose width only
the page knows, horizontal places are per cent of it and nothing is stretched.
"""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class Inks:
    """What a drawing is printed with: colours and a type face, as SVG understands them."""

    ink: str
    grey: str
    hair: str
    blue: str
    paper: str
    face: str


PAGE = Inks("var(--ink)", "var(--grey)", "var(--hair)", "var(--blue)", "var(--paper)", "inherit")
"""On a page: the page's own properties, so that a drawing follows light and dark."""

SHEET = Inks("#14171b", "#5a636d", "#cdd3da", "#2457b5", "#fcfdfe", "Counterproof Sans")
"""On its own: the literal colours of the white sheet."""


def rounded(value: float) -> str:
    """Return a length with at most two decimals and no trailing zeros, the same on every run.

    Parameters
    ----------
    value : float
        A length. [px or %]

    Returns
    -------
    str
        The same text on every run.
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def tag(name: str, inside: str = "", **attributes: str | float | None) -> str:
    """Return one SVG element; `_` in a name stands for `-`, and None leaves an attribute out.

    Parameters
    ----------
    name : str
        Name of the element.
    inside : str
        Elements or escaped text inside it.
    **attributes : str, float or None
        Its attributes.

    Returns
    -------
    str
        The element, its attributes escaped.
    """
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{_attribute(value)}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{written}>{inside}</{name}>" if inside else f"<{name}{written}/>"


def _attribute(value: str | float) -> str:
    return escape(value) if isinstance(value, str) else rounded(value)


def framed(
    inside: str,
    *,
    title: str,
    description: str = "",
    width: float | str = "100%",
    height: float | str = "100%",
    css_class: str | None = None,
    view_box: str | None = None,
) -> str:
    """Return a whole drawing that a screen reader can name.

    Parameters
    ----------
    inside : str
        SVG elements.
    title, description : str
        What it shows, in words; `description` may be left out.
    width, height : float or str
        Size, > 0, or a share of the place it stands in. [px or %]
    css_class : str or None
        For the page's style sheet.
    view_box : str or None
        Where given, the drawing grows and shrinks with its width.

    Returns
    -------
    str
        An `svg` element with role, title and description.
    """
    words = tag("title", escape(title))
    if description:
        words += tag("desc", escape(description))
    return tag(
        "svg",
        words + inside,
        xmlns="http://www.w3.org/2000/svg",
        class_=css_class,
        role="img",
        width=width,
        height=height if view_box is None else None,
        viewBox=view_box,
    )


def stroke(path: str, colour: str, width: float = 1.0) -> str:
    """Return an open path with round ends, as a pencil leaves it.

    Parameters
    ----------
    path : str
        SVG path data.
    colour : str
        As SVG understands it.
    width : float
        Of the pencil, > 0. [px]

    Returns
    -------
    str
        SVG.
    """
    return tag(
        "path",
        d=path,
        fill="none",
        stroke=colour,
        stroke_width=width,
        stroke_linecap="round",
        stroke_linejoin="round",
    )


def hairline(x1: str, y1: str, x2: str, y2: str, colour: str) -> str:
    """Return a one-pixel rule that is never blurred.

    Parameters
    ----------
    x1, y1, x2, y2 : str
        Its ends. [px or %]
    colour : str
        As SVG understands it.

    Returns
    -------
    str
        SVG.
    """
    return tag(
        "line",
        x1=x1,
        y1=y1,
        x2=x2,
        y2=y2,
        stroke=colour,
        stroke_width=1,
        shape_rendering="crispEdges",
    )


def label(
    words: str,
    x: str,
    y: float,
    *,
    colour: str,
    face: str,
    size: float = 11,
    anchor: str = "middle",
) -> str:
    """Return a short piece of type.

    Parameters
    ----------
    words : str
        What is written; escaped here.
    x : str
        Where it stands. [px or %]
    y : float
        Its base line. [px]
    colour : str
        As SVG understands it.
    face : str
        Type face.
    size : float
        Type size, > 0. [px]
    anchor : str
        Which part of it stands at x: start, middle or end.

    Returns
    -------
    str
        SVG.
    """
    return tag(
        "text",
        escape(words),
        x=x,
        y=y,
        fill=colour,
        font_family=face,
        font_size=size,
        text_anchor=anchor,
    )


def in_frame(inside: str, *, width: float, height: float) -> str:
    """Return drawings made for a place of any size, set into one of a given size.

    Parameters
    ----------
    inside : str
        SVG whose widths and places may be per cent.
    width : float
        Width of the frame, > 0. [px]
    height : float
        Height of the frame, > 0. [px]

    Returns
    -------
    str
        SVG that stands on its own, for a file or the typesetter.
    """
    return tag(
        "svg",
        inside,
        xmlns="http://www.w3.org/2000/svg",
        width=width,
        height=height,
        viewBox=f"0 0 {rounded(width)} {rounded(height)}",
    )


def enlarged(
    inside: str, *, left: float, top: float, width: float, height: float, times: float
) -> str:
    """Return drawings set into a part of a larger one, their lines thicker in proportion.

    Parameters
    ----------
    inside : str
        SVG whose widths and places may be per cent.
    left, top : float
        Where its corner stands. [px]
    width, height : float
        Of the place it fills, > 0. [px]
    times : float
        How many times as thick its lines become, > 0. [1]

    Returns
    -------
    str
        SVG.
    """
    return tag(
        "svg",
        inside,
        x=left,
        y=top,
        width=width,
        height=height,
        viewBox=f"0 0 {rounded(width / times)} {rounded(height / times)}",
        overflow="visible",
    )


def set_in(drawn: str) -> Markup:
    """Return a drawing as it is put into a page: the drawer has escaped every word in it.

    Parameters
    ----------
    drawn : str
        SVG from our own drawer.

    Returns
    -------
    Markup
        The same.
    """
    return Markup(drawn)  # noqa: S704 (our own drawing, its words escaped by the drawer)
