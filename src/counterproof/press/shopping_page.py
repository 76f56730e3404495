"""A shopping list as one self-contained page, to print or to carry on a telephone."""

from __future__ import annotations

from jinja2 import Environment, StrictUndefined

from counterproof.batch.to_buy import ShoppingList
from counterproof.press import signs
from counterproof.press.drawing import set_in
from counterproof.press.fonts import font_faces
from counterproof.press.shipped import shipped
from counterproof.press.shopping import closing, entries, heading

_STYLE_GOES_HERE = "/* faces and style */"


def shopping_page(listed: ShoppingList) -> str:
    """The list as one self-contained HTML page.

    Parameters
    ----------
    listed : ShoppingList
        What has to be bought.

    Returns
    -------
    str
        HTML, the same bytes for the same list.
    """
    environment = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    page = environment.from_string(shipped("shopping.html.j2")).render(
        heading=heading(listed),
        parts=entries(listed),
        closing=closing(listed),
        cross=set_in(signs.registration_cross()),
    )
    faces = font_faces("".join(sorted(set(page))))
    style = f"{faces}\n{shipped('sheet.css')}\n{shipped('shopping.css')}"
    return page.replace(_STYLE_GOES_HERE, style, 1)
