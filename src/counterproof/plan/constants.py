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
LITRE_APART: Final = 0.35
"""Share by which stated litres may differ from computed kilograms: assumed, soups to syrups. [1]"""
LEVEL: Final = Sourced(1.0, "1", 0.15, "assumed", "", "a level in a pot judged by eye")
BED: Final = Sourced(
    1.0, "1", 0.15, "assumed", "", "solids in the pot: their weight, and what they take up or lose"
)
