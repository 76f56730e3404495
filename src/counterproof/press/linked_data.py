"""The recipe as schema.org data for a web page: what its reader needs, with nutrition and time."""

from __future__ import annotations

import json
from typing import Any, Final

from counterproof import numerals
from counterproof.forme import Forme
from counterproof.press.giving import NAMES
from counterproof.press.part import Piece
from counterproof.press.plain_text import printable
from counterproof.proof import Edition

PICTURE: Final = "og.png"
"""Name of the picture beside the page; the page's address goes in front of it."""

_NUTRIENTS: Final = {
    "energy_kcal": "calories",
    "protein_g": "proteinContent",
    "fat_g": "fatContent",
    "carbohydrate_g": "carbohydrateContent",
    "sugars_g": "sugarContent",
    "fibre_g": "fiberContent",
}
"""Nutrients that schema.org has a word for; of salt it knows only the sodium."""


def recipe_data(forme: Forme) -> dict[str, Any]:
    """Return the recipe as schema.org data.

    Parameters
    ----------
    forme : Forme
        The episode.

    Returns
    -------
    dict
        The recipe that our reader reads back equal, with picture, day, time and nutrition.
    """
    edition = forme.edition
    minutes = edition.timeline.minutes if edition.timeline is not None else 0
    more = {
        "image": [PICTURE],
        "datePublished": forme.date,
        "totalTime": duration(minutes) if minutes else "",
        "nutrition": _nutrition(edition),
        "creditText": " ".join(printable(one) for one in forme.credits),
    }
    return {**forme.linked_data, **{key: value for key, value in more.items() if value}}


def duration(minutes: int) -> str:
    """Return a time as ISO 8601 writes a duration.

    Parameters
    ----------
    minutes : int
        Time, > 0. [min]

    Returns
    -------
    str
        Such as "PT1H45M", "P2DT4H".
    """
    days, rest = divmod(minutes, 1440)
    hours, left = divmod(rest, 60)
    clock = (f"{hours}H" if hours else "") + (f"{left}M" if left else "")
    return "P" + (f"{days}D" if days else "") + (f"T{clock}" if clock else "")


def _nutrition(edition: Edition) -> dict[str, str]:
    """What one serving gives, with the digits it has on every surface."""
    told = {
        _NUTRIENTS[key]: f"{numerals.plain(amount)} {unit}"
        for key, _, unit in NAMES
        if key in _NUTRIENTS and (amount := edition.nutrition.get(key)) is not None
    }
    if not told:
        return {}
    size = edition.serving_mass_kg
    serving = {} if size is None else {"servingSize": _plain(numerals.plain_mass(size))}
    return {"@type": "NutritionInformation", **serving, **told}


def _plain(text: str) -> str:
    return text.replace(numerals.SPACE, " ")


def piece(forme: Forme) -> Piece:
    """Return the recipe's data as a file.

    Parameters
    ----------
    forme : Forme
        The episode.

    Returns
    -------
    Piece
        JSON-LD.
    """
    text = json.dumps(recipe_data(forme), ensure_ascii=False, indent=2)
    return Piece("site/recipe.json", f"{text}\n".encode())


def inside_html(data: dict[str, Any]) -> str:
    """Return data as the words of a script element, which nothing in it can end.

    Parameters
    ----------
    data : dict
        JSON-LD.

    Returns
    -------
    str
        JSON in which <, > and & are written by their numbers, as JSON allows in its strings.
    """
    text = json.dumps(data, ensure_ascii=False, indent=2)
    for sign in "<>&":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return text
