"""A printer's signs: the registration cross, the leader line, and a correction sign for each doubt.

Drawn as paths, so that no font has to own them; hidden from screen readers, since each only repeats
what stands beside it in words.
"""

from __future__ import annotations

from counterproof.press.drawing import PAGE, Inks, hairline, rounded, stroke, tag


def standing(name: str, inside: str, *, width: float, height: float) -> str:
    """Return a small sign that only repeats what stands beside it in words: hidden from readers.

    Parameters
    ----------
    name : str
        Name for the style sheet.
    inside : str
        SVG elements.
    width : float
        Its width, > 0. [px]
    height : float
        Its height, > 0. [px]

    Returns
    -------
    str
        SVG.
    """
    return tag(
        "svg",
        inside,
        xmlns="http://www.w3.org/2000/svg",
        class_=f"sign {name}",
        width=width,
        height=height,
        viewBox=f"0 0 {rounded(width)} {rounded(height)}",
        aria_hidden="true",
    )


def registration_cross(inks: Inks = PAGE) -> str:
    """Return the cross in a circle by which a printer lays one plate over another.

    Parameters
    ----------
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    circle = tag("circle", cx=11.5, cy=11.5, r=5.5, fill="none", stroke=inks.ink, stroke_width=0.75)
    return standing(
        "registration",
        circle
        + hairline("11.5", "0", "11.5", "23", inks.ink)
        + hairline("0", "11.5", "23", "11.5", inks.ink),
        width=23,
        height=23,
    )


def caret(inks: Inks = PAGE) -> str:
    """Return the caret: something has to be put in here. It stands for a doubt.

    Parameters
    ----------
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    return standing(
        "caret",
        stroke("M2 13 L7.4 3.2 Q7.9 2.4 8.3 3.3 L12.4 13.4", inks.blue, 1.5),
        width=15,
        height=16,
    )


def deletion_loop(inks: Inks = PAGE) -> str:
    """Return the deletion loop: taken out of the count. It stands for a fault.

    Parameters
    ----------
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    path = "M1.6 13.6 C5 14.4 8.6 11.6 10.6 7.6 C12.2 4.4 11.6 1.6 9.4 2 C7 2.5 6.4 6 7.8 8.6 C9 10.9 11.4 12.8 13.6 11.4"
    return standing("loop", stroke(path, inks.blue, 1.5), width=15, height=16)


def stet_dots(inks: Inks = PAGE) -> str:
    """Return the dots under a word that let it stand. They stand for a note.

    Parameters
    ----------
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    dots = "".join(tag("circle", cx=x, cy=11, r=1.05, fill=inks.blue) for x in (2.5, 6, 9.5, 13))
    return standing("stet", dots, width=15, height=16)


def sign(level: str, inks: Inks = PAGE) -> str:
    """Return the correction sign of a mark's level: note, doubt or fault.

    Parameters
    ----------
    level : str
        note, doubt or fault.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    return {"doubt": caret, "fault": deletion_loop}.get(level, stet_dots)(inks)


def leader(inks: Inks = PAGE) -> str:
    """Return the pencil line that leads from a line of the recipe to its mark in the margin.

    Parameters
    ----------
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    return tag(
        "svg",
        tag("line", x1="0", y1="100%", x2="100%", y2="0", stroke=inks.blue, stroke_width=1),
        xmlns="http://www.w3.org/2000/svg",
        class_="leader",
        width="100%",
        height="100%",
        aria_hidden="true",
    )
