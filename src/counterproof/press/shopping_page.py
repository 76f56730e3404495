"""A shopping list as one self-contained page, to print or to carry on a telephone."""

from __future__ import annotations

from importlib.resources import files

from jinja2 import Environment, StrictUndefined

from counterproof.batch.to_buy import ShoppingList
from counterproof.press import signs
from counterproof.press.fonts import font_faces
from counterproof.press.setting import set_in
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
    page = environment.from_string(_part("shopping.html.j2")).render(
        heading=heading(listed),
        parts=entries(listed),
        closing=closing(listed),
        cross=set_in(signs.registration_cross()),
    )
    faces = font_faces("".join(sorted(set(page))))
    style = f"{faces}\n{_part('sheet.css')}\n{_part('shopping.css')}"
    return page.replace(_STYLE_GOES_HERE, style, 1)


def _part(name: str) -> str:
    return files("counterproof.press").joinpath(name).read_text(encoding="utf-8")
