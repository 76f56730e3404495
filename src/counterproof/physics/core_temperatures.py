"""Core temperatures that food authorities ask for, as rows, and what they say to a measured core."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.physics.answer import Ruling, Verdict
from counterproof.physics.cautions import DEFER
from counterproof.physics.cooling_rules import NO_RULE
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.sourced import Sourced


@dataclass(frozen=True, slots=True)
class CoreTemperature:
    """One row of a chart.

    Parameters
    ----------
    foods : str
        What it is for, in the chart's classes.
    authority : str
        "us" or "uk".
    temperature : Sourced or None
        Core temperature; None where the chart names a sign instead. [K]
    hold : Sourced or None
        Time it rests or is kept at that temperature. [s]
    sign : str
        What to see, where no temperature is given.
    """

    foods: str
    authority: str
    temperature: Sourced | None
    hold: Sourced | None = None
    sign: str = ""

    @property
    def source(self) -> str:
        """Id of the source."""
        return _US if self.authority == "us" else _UK


_US: Final = "us-internal-temperatures"
_UK: Final = "uk-core-temperature"
PROBE: Final = Sourced(
    1.0, "K", 0.5, "assumed", "", "error of a kitchen probe; check it in ice water (0 °C)"
)


def _us(foods: str, fahrenheit: float, rest: float = 0.0) -> CoreTemperature:
    kelvin = ZERO_CELSIUS + (fahrenheit - 32.0) / 1.8
    chart = "safe minimum internal temperature chart"
    core = Sourced(kelvin, "K", 0.0, _US, chart, f"{fahrenheit:.0f} °F")
    return CoreTemperature(
        foods, "us", core, Sourced(rest, "s", 0.0, _US, chart, "rest") if rest else None
    )


ROWS: Final = (
    _us("minced beef, pork, veal, lamb", 160.0),
    _us("minced turkey, chicken", 165.0),
    _us("beef, veal, lamb: steaks, roasts, chops", 145.0, 180.0),
    _us("chicken, turkey: whole and in pieces", 165.0),
    _us("duck, goose", 165.0),
    _us("stuffing", 165.0),
    _us("fresh pork", 145.0, 180.0),
    _us("fresh ham", 145.0, 180.0),
    _us("cooked ham, reheated", 140.0),
    CoreTemperature("eggs", "us", None, sign="cook until the yolk is firm"),
    _us("egg dishes", 160.0),
    _us("leftovers, casseroles", 165.0),
    _us("fish", 145.0),
    CoreTemperature(
        "shrimp, lobster, crab", "us", None, sign="the flesh is pearly and opaque"
    ),
    CoreTemperature("clams, oysters, mussels", "us", None, sign="the shells open"),
    CoreTemperature(
        "food cooked through",
        "uk",
        Sourced(ZERO_CELSIUS + 70.0, "K", 0.0, _UK, "core temperature", ""),
        Sourced(
            120.0, "s", 0.0, _UK, "core temperature",
            "equivalents such as 75 °C for 30 s are from memory; no z-value was found to compute them",
        ),
    ),
)  # fmt: skip
"""US chart (reproduced copies that agree were read), and the UK's one rule."""


def core_temperature(foods: str, authority: str = "us") -> CoreTemperature | None:
    """The row for a food.

    Parameters
    ----------
    foods : str
        `foods` of a row.
    authority : str
        us or uk; the UK's one rule holds for any food.

    Returns
    -------
    CoreTemperature or None
        None where no row is found.
    """
    if authority == "uk":
        return ROWS[-1]
    return next((row for row in ROWS if row.foods == foods and row.authority == authority), None)


def core_verdict(row: CoreTemperature | None, measured: float | None, held: float = 0.0) -> Verdict:
    """What a chart says to a measured core.

    Parameters
    ----------
    row : CoreTemperature or None
        The row.
    measured : float or None
        Lowest temperature measured in the core; None where nobody measured. [K]
    held : float
        Time it has been kept there, or has rested since. [s]

    Returns
    -------
    Verdict
        within if even the probe's error leaves it at the temperature, over if it fell short by
        more than that error (over the rule's line, on the wrong side), too close between.
    """
    if row is None:
        return Verdict("core temperature", "no rule", NO_RULE, "common practice")
    name = f"core temperature: {row.foods}"
    if row.temperature is None:
        said = f"The chart gives no temperature: {row.sign}. {DEFER}"
        return Verdict(name, "no rule", said, row.source)
    asked = row.temperature.value
    wait = 0.0 if row.hold is None else row.hold.value
    lead = f"The chart asks for {asked - ZERO_CELSIUS:.0f} °C in the core"
    if wait:
        lead += f" and {wait / 60.0:.0f} min of {'rest' if row.authority == 'us' else 'that'}"
    if measured is None:
        return Verdict(name, "too close", f"{lead}: measure it. {DEFER}", row.source)
    decided, advice = _decided(measured - asked, held - wait)
    said = f"{lead}; {measured - ZERO_CELSIUS:.0f} °C was measured. {advice} {DEFER}"
    return Verdict(name, decided, said, row.source)


def _decided(margin: float, spare: float) -> tuple[Ruling, str]:
    if margin < -PROBE.value:
        return "over", "It falls short: cook on and measure again."
    if margin < PROBE.value:
        return "too close", "That is within the probe's own error: cook on a little."
    if spare < 0.0:
        return "too close", f"It still needs {-spare / 60.0:.0f} min."
    return "within", "It is there, by this chart and this probe."
