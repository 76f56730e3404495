"""The desk's templates, and what all of them may use."""

from __future__ import annotations

from functools import cache
from hashlib import sha256
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from counterproof import numerals
from counterproof.marks import Mark
from counterproof.press import (
    footing,
    giving,
    harmless,
    hatching,
    intervals,
    margins,
    signs,
    times,
    wording,
)
from counterproof.press.drawing import set_in
from counterproof.press.plain_text import printable


@cache
def _environment() -> Environment:
    made = Environment(
        loader=PackageLoader("counterproof.desk"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.globals.update(
        footing=footing,
        giving=giving,
        hatching=hatching,
        intervals=intervals,
        margins=margins,
        times=times,
        wording=wording,
        numerals=numerals,
        printable=printable,
        linkable=harmless.link,
        has_digit=has_digit,
        mark_key=mark_key,
        cross=set_in(signs.registration_cross()),
        leader=set_in(signs.leader()),
        signs={level: set_in(signs.sign(level)) for level in ("note", "doubt", "fault")},
    )
    return made


def leaf(template: str, **told: Any) -> Markup:
    """Return a template filled in.

    Parameters
    ----------
    template : str
        Its file's name.
    **told : object
        What it shows.

    Returns
    -------
    Markup
        HTML, every word in it escaped.
    """
    filled = _environment().get_template(template).render(**told)
    return Markup(filled)  # noqa: S704 (the template has escaped every word)


def macro(template: str, name: str, *told: Any) -> str:
    """Return what one macro of a template makes.

    Parameters
    ----------
    template : str
        The template's file.
    name : str
        The macro.
    *told : object
        Its arguments.

    Returns
    -------
    str
        HTML without blanks around it.
    """
    return str(getattr(_environment().get_template(template).module, name)(*told)).strip()


def has_digit(words: str) -> bool:
    """Return whether words hold a number, which then has to be explained.

    Parameters
    ----------
    words : str
        Any words of the page.

    Returns
    -------
    bool
        True where they hold a digit.
    """
    return any("0" <= sign <= "9" for sign in words)


def mark_key(mark: Mark) -> str:
    """Return the name under which a mark is explained.

    Parameters
    ----------
    mark : Mark
        A mark of the proof.

    Returns
    -------
    str
        The same for the same mark.
    """
    return f"mark:{sha256(f'{mark.kind} {mark.message}'.encode()).hexdigest()[:12]}"
