"""What the plan takes for granted where a recipe does not say, each with its reason."""

from __future__ import annotations

from typing import Final

from counterproof.sourced import Sourced

_OWN: Final = "relative spread of the physics' own constants, held against it by a test"

DEFAULT_MINUTES: Final[dict[str, Sourced]] = {
    kind: Sourced(minutes, "min", 0.5, "assumed", "", "no time is stated")
    for kind, minutes in (
        ("boil", 5.0), ("simmer", 15.0), ("poach", 10.0), ("steam", 10.0), ("fry", 8.0),
        ("cook", 10.0), ("bake", 35.0), ("grill", 8.0), ("toast", 3.0), ("melt", 3.0),
        ("slow_cook", 360.0), ("blend", 2.0),
    )
}  # fmt: skip
OPEN_ENDED: Final = Sourced(
    1.0, "1", 0.2, "assumed", "", "“at least 45 minutes”, “up to 10”: the open side is wide"
)
ROLLING: Final = Sourced(
    0.45, "1", 0.30, "assumed", "", "share of the ring's power under a pot left at a rolling boil"
)
WARM: Final = Sourced(
    353.15, "K", 0.03, "assumed", "", "what is only to be heated or warmed: 80 °C, short of a boil"
)
OVEN: Final = Sourced(453.15, "K", 0.04, "assumed", "", "no oven temperature is stated: 180 °C")
WET: Final = 0.25
"""Share of a pot's mass that is liquid above which it simmers rather than fries: assumed. [1]"""
UNNAMED_FRIED: Final = Sourced(
    0.3, "kg", 0.6, "assumed", "", "a step fries but names no ingredient: a panful"
)
HEATING: Final = Sourced(1.0, "1", 0.04, "derived", "physics.questions_heat.heat", _OWN)
HOLDING: Final = {
    True: Sourced(1.0, "1", 0.30, "derived", "physics.questions_heat.simmer, lid on", _OWN),
    False: Sourced(1.0, "1", 0.22, "derived", "physics.questions_heat.simmer, lid off", _OWN),
}
BOIL_OFF: Final = {
    True: Sourced(1.0, "1", 0.64, "derived", "physics.questions_heat.simmer, lid on", _OWN),
    False: Sourced(1.0, "1", 0.26, "derived", "physics.questions_heat.simmer, lid off", _OWN),
}
FRYING: Final = Sourced(1.0, "1", 0.20, "derived", "physics.questions_dry_heat.fry", _OWN)
PREHEATING: Final = Sourced(1.0, "1", 0.30, "derived", "physics.questions_dry_heat.bake", _OWN)
OVEN_HOLDING: Final = Sourced(1.0, "1", 0.36, "derived", "physics.questions_dry_heat.bake", _OWN)
OVEN_LOAD: Final = Sourced(1.0, "1", 0.23, "derived", "physics.questions_dry_heat.bake", _OWN)
MICROWAVING: Final = Sourced(
    1.0, "1", 0.09, "derived", "physics.questions_plugged.microwave_food", _OWN
)
KETTLE: Final = Sourced(1.0, "1", 0.05, "derived", "physics.questions_plugged.boil_kettle", _OWN)
LITRE_APART: Final = 0.2
"""Share by which stated litres may differ from computed kilograms: assumed, soups to syrups. [1]"""
LEVEL: Final = Sourced(1.0, "1", 0.15, "assumed", "", "a level in a pot judged by eye")
BED: Final = Sourced(
    1.0, "1", 0.15, "assumed", "", "solids in the pot: their weight, and what they take up or lose"
)
BAKED: Final = Sourced(
    363.15, "K", 0.02, "assumed", "", "what comes out of the oven: 90 °C all through"
)
BATHED: Final = Sourced(
    283.15, "K", 0.02, "assumed", "", "what stands in iced water “until cold”: 10 °C"
)
MOIST: Final = Sourced(
    0.5, "1", 0.2, "assumed", "", "share of water below which cooling is no matter of hours: bread"
)
THIN: Final = Sourced(
    0.1, "1", 0.5, "assumed", "", "share of solids above which a food in a pot no longer flows"
)
JAR: Final = Sourced(
    0.0005, "m³", 0.3, "assumed", "", "a jar of which no size is known: half a litre"
)
BOTTLE: Final = Sourced(0.00075, "m³", 0.3, "assumed", "", "a bottle of which no size is known")
PER_LINE: Final = Sourced(
    60.0, "s", 0.5, "assumed", "", "to fetch, wash and put away one ingredient that is to be cut up"
)
PER_KILOGRAM: Final = Sourced(
    360.0, "s", 0.35, "assumed", "", "to peel and cut a kilogram by hand: no source; time yourself"
)
WARMING: Final = Sourced(
    1.0, "1", 0.15, "assumed", "", "time to heat something up: the hob's efficiency and its setting"
)
CUTTING: Final = (2.0, 8.0)
"""A step that peels or cuts, per mention: assumed. [min]"""
OVERNIGHT: Final = (480.0, 720.0)
"""“Overnight”: assumed, 8 to 12 hours. [min]"""
LONGEST: Final = Sourced(
    86400.0, "s", 0.0, "assumed", "", "a cooling longer than a day is a verdict, not a plan"
)
USUAL_TIMES: Final[dict[str, tuple[float, float]]] = {
    "prep": (0.25, 1.5), "add": (0.25, 1.5), "transfer": (0.5, 2.0), "mix": (0.5, 3.0),
    "grind": (1.0, 5.0), "strain": (1.0, 5.0), "serve": (1.0, 5.0), "heat": (2.0, 8.0),
    "preheat": (8.0, 20.0), "kettle": (2.0, 5.0), "microwave": (2.0, 8.0), "carbonate": (1.0, 3.0),
    "rest": (5.0, 20.0), "steep": (10.0, 60.0), "soak": (30.0, 720.0), "marinate": (60.0, 720.0),
    "rise": (45.0, 120.0), "cool": (60.0, 240.0), "chill": (120.0, 480.0),
    "freeze": (480.0, 1440.0), "thaw": (480.0, 1440.0),
}  # fmt: skip
"""Times of what states none, by kind: assumed, no source; the ends count as one in twenty. [min]"""
SYRUP: Final = Sourced(
    0.2, "1", 0.3, "assumed", "", "share of sugar above which no table of leftovers fits"
)
DOUGH: Final = Sourced(
    0.5, "1", 0.2, "assumed", "", "share of flour, fat and sugar above which it is bread or cake"
)
HARD_BOIL: Final = Sourced(
    600.0, "s", 0.0, "common practice", "physics.advice: dried-kidney-beans",
    "government advice, from memory; the US agency advises 30 minutes",
)  # fmt: skip
PUDDING: Final = Sourced(
    0.3, "1", 0.3, "assumed", "", "share of fruit and sugar above which a bake is a pudding"
)
