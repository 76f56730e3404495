"""Constants of the first model of cooking, each with its source or the reason it is assumed.

This is a first model and labelled so wherever its numbers are shown: water-like heat, one
efficiency a hob, one rate of boil-off. The kitchen physics takes its place.
"""

from __future__ import annotations

from typing import Final

from counterproof.sourced import Sourced

SPECIFIC_HEAT: Final = Sourced(
    4186.0, "J/(kg K)", 0.10, "assumed", "",
    "water at 20 °C; moist foods hold 3.5–4.0 kJ/(kg K), within the spread",
)  # fmt: skip
HOB_EFFICIENCY: Final = {
    "gas": Sourced(
        0.40, "1", 0.15, "sweeney-2014", "abstract",
        "one measured case 0.37, a government label programme 0.32",
    ),
    "solid plate": Sourced(
        0.70, "1", 0.10, "assumed", "",
        "a little below smooth ceramic (0.74): the heavy plate stores heat",
    ),
    "ceramic": Sourced(0.74, "1", 0.08, "sweeney-2014", "abstract", ""),
    "induction": Sourced(
        0.87, "1", 0.06, "sweeney-2014", "abstract", "84–90 %; less for small pans"
    ),
}  # fmt: skip
SIMMER_SHARE: Final = Sourced(
    0.2, "1", 0.35, "assumed", "",
    "share of the hob's power that keeps a covered pot simmering: about 2 on a dial of 10, "
    "common practice with no source",
)  # fmt: skip
OPEN_POT: Final = Sourced(
    1.8, "1", 0.25, "assumed", "",
    "an open pot at the simmer against a covered one; tests of lids give 1.4 to 3",
)  # fmt: skip
FRY_SHARE: Final = Sourced(
    0.5, "1", 0.30, "assumed", "", "share of the hob's power while frying: a medium heat"
)
BOIL_SHARE: Final = Sourced(
    0.45, "1", 0.30, "assumed", "", "share of the hob's power at a full boil"
)
BOIL_OFF_OPEN: Final = Sourced(
    0.6, "kg/h", 0.5, "assumed", "",
    "an open pot at the simmer; 100 W net boils off 0.16 kg/h (latent heat 2256 kJ/kg)",
)  # fmt: skip
BOIL_OFF_COVERED: Final = Sourced(
    0.1, "kg/h", 0.5, "assumed", "", "what slips out under a lid; no measured pan data found"
)
OVEN_PREHEAT: Final = Sourced(
    0.35, "kWh", 0.3, "assumed", "",
    "an electric oven of about 65 litres to 180 °C, 10–15 minutes at 2–2.5 kW with the element on most of the time",
)  # fmt: skip
OVEN_HOLD: Final = Sourced(
    0.8, "kW", 0.3, "assumed", "",
    "mean power at 180 °C; a label cycle with a wet load takes about 0.8 kWh (from memory)",
)  # fmt: skip
GAS_OVEN: Final = Sourced(
    1.8, "1", 0.2, "assumed", "",
    "gas oven against electric, final energy: about 6 % against 11 % with a test block (from memory)",
)  # fmt: skip
GRILL_POWER: Final = Sourced(2.0, "kW", 0.25, "assumed", "", "an electric grill element")
MICROWAVE_POWER: Final = Sourced(
    1.3, "kW", 0.2, "assumed", "", "drawn from the socket by an 800 W oven at about 60 %"
)
SLOW_COOKER_POWER: Final = Sourced(0.15, "kW", 0.3, "assumed", "", "the low setting")
KETTLE_EFFICIENCY: Final = Sourced(
    0.81, "1", 0.08, "plug-meter-kettle", "single test", "350 ml, 17 to 100 °C, 0.04 kWh"
)
BLENDER_KWH: Final = Sourced(0.01, "kWh", 0.5, "assumed", "", "a minute or two at 400 W")
PULP_SHARE: Final = Sourced(
    0.40, "1", 0.35, "assumed", "",
    "mass of strained solids left in the cloth over their mass before; depends on pressing: weigh it",
)  # fmt: skip
MASHED_SHARE: Final = Sourced(
    0.10, "1", 0.5, "assumed", "",
    "what a sieve keeps back when soft food is rubbed through it: skins, seeds and strings",
)  # fmt: skip
ABSORBED_SHARE: Final = Sourced(
    0.35, "1", 0.35, "assumed", "",
    "share of cooking water that stays with drained pasta, rice or pulses",
)  # fmt: skip
DEFAULT_MINUTES: Final[dict[str, Sourced]] = {
    kind: Sourced(minutes, "min", 0.5, "assumed", "", "no time is stated")
    for kind, minutes in (
        ("boil", 5.0), ("simmer", 15.0), ("poach", 10.0), ("steam", 10.0), ("fry", 8.0),
        ("cook", 10.0), ("bake", 35.0), ("grill", 8.0), ("toast", 3.0), ("melt", 3.0),
        ("microwave", 3.0), ("slow_cook", 360.0),
    )
}  # fmt: skip
