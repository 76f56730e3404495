"""Whose cups and spoons a recipe uses, and so whose names for foods: said, or guessed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counterproof.marks import Mark
from counterproof.units import HOLDS

if TYPE_CHECKING:
    from counterproof.recipe.model import Recipe
    from counterproof.units import System

# Words that only one side of the Atlantic uses in recipes; common practice.
_US = re.compile(
    r"\b(?:cilantro|zucchini|eggplants?|scallions?|arugula|rutabaga|all[- ]purpose|confectioners"
    r"|heavy cream|half[- ]and[- ]half|cornstarch|powdered sugar|granulated sugar|kosher salt"
    r"|garbanzo|ground (?:beef|pork|turkey|lamb)|cups?|sticks?|quarts?|qts?|broiler?|skillet"
    r"|molasses|graham|ketchup|bell peppers?|fahrenheit|\d+ ?°? ?f)\b|\d ?°f",
    re.IGNORECASE,
)
_UK = re.compile(
    r"\b(?:courgettes?|aubergines?|spring onions?|rocket|swedes?|caster|plain flour|strong flour"
    r"|self[- ]raising|icing sugar|double cream|single cream|cornflour|mince|tinned|tins?|treacle"
    r"|golden syrup|beetroots?|mangetout|rapeseed oil|back bacon|streaky|gas mark|hob|clingfilm"
    r"|sultanas|bicarbonate|coriander leaves|wholemeal|kitchen paper|grams?|\d+ ?g|\d+ ?ml)\b",
    re.IGNORECASE,
)
_DEPENDS = re.compile(
    r"\b(?:cups?|c|tbsps?|tablespoons?|tsps?|teaspoons?|pints?|pts?|quarts?|qts?|fl\.? ?oz|shots?)\b",
    re.IGNORECASE,
)


def measures_used(recipe: Recipe) -> tuple[System, str, Mark | None]:
    """Whose measures and food names a recipe uses.

    Parameters
    ----------
    recipe : Recipe
        As written.

    Returns
    -------
    tuple of System, str, Mark or None
        Measures, region of food names ("uk", "us", "au" or ""), and a note where it was guessed
        and a line depends on it.
    """
    if recipe.measures is not None:
        region = {"us": "us", "uk": "uk", "au": "au", "metric": ""}[recipe.measures]
        return recipe.measures, region, None
    lines = "\n".join(line.text for line in recipe.lines)
    text = f"{lines}\n" + "\n".join(step.text for step in recipe.steps)
    us, uk = len(_US.findall(text)), len(_UK.findall(text))
    system: System = "uk" if uk > us else "us"
    region = system if us != uk else ""
    if not _DEPENDS.search(lines):
        return system, region, None
    cup = HOLDS[system]["cup"].ml
    why = "from the recipe’s own words" if us != uk else "for want of a sign in the recipe"
    return (
        system,
        region,
        Mark(
            "note",
            "measures-guessed",
            f"Cups and spoons are taken as {system.upper()} ones ({why}): a cup of {cup:.0f} ml. "
            "To settle it, write `measures: uk` at the top, or `us`, `metric` or `au` for "
            "American, metric or Australian ones.",
        ),
    )
