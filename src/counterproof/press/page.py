"""A page of the press that needs nothing else: its template, the house style, its faces."""

from __future__ import annotations

from typing import Any, Final

from jinja2 import Environment, StrictUndefined

from counterproof.press import signs
from counterproof.press.drawing import set_in
from counterproof.press.fonts import COMMON, font_faces
from counterproof.press.shipped import shipped

_STYLE_GOES_HERE: Final = "/* faces and style */"


def page(template: str, *, style: str = "", **told: Any) -> bytes:
    """Return a page, complete and without scripts.

    Parameters
    ----------
    template : str
        Name of its template.
    style : str
        Name of a style sheet of its own, laid over that of all pages; "" for none.
    **told : Any
        What stands in it; every word is escaped.

    Returns
    -------
    bytes
        HTML, its style and its faces embedded.
    """
    room = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    made = room.from_string(shipped(template)).render(
        cross=set_in(signs.registration_cross()),
        **told,
    )
    faces = font_faces(made, at_least=COMMON)
    own = shipped(style) if style else ""
    return made.replace(_STYLE_GOES_HERE, f"{faces}\n{shipped('pages.css')}{own}", 1).encode()
