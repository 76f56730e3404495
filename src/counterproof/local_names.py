"""What a food is called elsewhere: one pair of names, UK and US, for a food that has two.

A vocabulary of the kitchen, common knowledge without a source. Every name stands in the table of
names for its food, which a test holds; the table knows many more, but not which of them a cook
on the other side would write on a card.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

PAIRS: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "almonds-flaked": ("flaked almond", "sliced almond"),
        "aubergine": ("aubergine", "eggplant"),
        "aubergine-baby": ("baby aubergine", "baby eggplant"),
        "beetroot": ("beetroot", "beet"),
        "beetroot-cooked": ("cooked beetroot", "cooked beet"),
        "bread-wholemeal": ("wholemeal bread", "whole wheat bread"),
        "broad-beans": ("broad bean", "fava bean"),
        "butter-beans-cooked": ("cooked butter bean", "cooked lima bean"),
        "cherries-glace": ("glacé cherry", "candied cherry"),
        "chinese-leaf": ("chinese leaf", "napa cabbage"),
        "coriander-fresh": ("coriander", "cilantro"),
        "cornflour": ("cornflour", "cornstarch"),
        "courgette": ("courgette", "zucchini"),
        "courgette-baby": ("baby courgette", "baby zucchini"),
        "filo-pastry": ("filo pastry", "phyllo pastry"),
        "flour": ("plain flour", "all-purpose flour"),
        "flour-self-raising": ("self-raising flour", "self-rising flour"),
        "flour-wholemeal": ("wholemeal flour", "whole wheat flour"),
        "gherkins": ("gherkin", "dill pickle"),
        "lettuce-cos": ("cos lettuce", "romaine lettuce"),
        "mange-tout": ("mangetout", "snow pea"),
        "oil-groundnut": ("groundnut oil", "peanut oil"),
        "oil-vegetable": ("rapeseed oil", "canola oil"),
        "onion-spring": ("spring onion", "scallion"),
        "pak-choi": ("pak choi", "bok choy"),
        "passata": ("passata", "strained tomato"),
        "pitta": ("pitta bread", "pita bread"),
        "raisins": ("sultana", "golden raisin"),
        "rocket": ("rocket", "arugula"),
        "soya-milk": ("soya milk", "soy milk"),
        "sugar": ("caster sugar", "superfine sugar"),
        "sugar-icing": ("icing sugar", "powdered sugar"),
        "swede": ("swede", "rutabaga"),
        "sweetcorn-canned": ("tinned sweetcorn", "canned corn"),
        "sweetcorn-frozen": ("frozen sweetcorn", "frozen corn"),
        "tomato-paste": ("tomato purée", "tomato paste"),
        "tomatoes-canned": ("tinned tomato", "canned tomato"),
        "treacle": ("black treacle", "molasses"),
        "vanilla-pod": ("vanilla pod", "vanilla bean"),
    }
)
"""Food id → its name in the UK and in the US, in the singular."""


def local_name(food: str, written: str) -> tuple[str, str] | None:
    """Return what a food is called on the other side, where the name written is of one side.

    Parameters
    ----------
    food : str
        Id of the food.
    written : str
        The name as the cook wrote it, in singular or plural.

    Returns
    -------
    tuple of str and str, or None
        "uk" or "us", and the name there, in the singular.
    """
    said = f" {_plain(written)} "
    pair = PAIRS.get(food)
    for place, (here, there) in enumerate((pair, pair[::-1]) if pair else ()):
        if any(f" {_plain(here)}{ending} " in said for ending in ("", "s", "es")):
            return ("us", "uk")[place], there
    return None


def _plain(name: str) -> str:
    return name.casefold().replace("-", " ")
