"""The first model of cooking: energy and what leaves the pot, from the steps alone.

Labelled "first model" wherever it is shown. Ingredients scale with servings; preheating,
holding and boil-off do not.
"""

from __future__ import annotations

import re
from collections import Counter
from typing import Final

from counterproof.draws import Lognormal, Parameter, Product, Uniform
from counterproof.plan import constants as c
from counterproof.plan.model import Carrier, EnergyUse, Leaving, Plan
from counterproof.plan.pot import in_pot, mashed
from counterproof.reading.model import MarkedLine, MarkedStep, Process, Reading
from counterproof.sourced import Sourced

JOULES_PER_KWH: Final = 3.6e6
LITRE_APART: Final = 0.35
"""Share by which stated litres may differ from computed kilograms: assumed, soups to syrups. [1]"""
_LITRES: Final = re.compile(r"(?P<number>\d+(?:[.,]\d+)?)\s*(?P<milli>m)?(?:l\b|litres?|liters?)")
HOB_SHARES: Final = {
    "simmer": c.SIMMER_SHARE,
    "poach": c.SIMMER_SHARE,
    "steam": c.BOIL_SHARE,
    "boil": c.BOIL_SHARE,
    "fry": c.FRY_SHARE,
    "toast": c.FRY_SHARE,
    "cook": c.SIMMER_SHARE,
    "melt": c.SIMMER_SHARE,
}
BROUGHT_TO_BOIL: Final = frozenset({"boil", "simmer", "poach", "steam"})
FIXED_POWER: Final = {
    "grill": c.GRILL_POWER,
    "microwave": c.MICROWAVE_POWER,
    "slow_cook": c.SLOW_COOKER_POWER,
}


def plan_of(reading: Reading) -> Plan:
    """Energy and leaving masses of every step of a reading.

    Parameters
    ----------
    reading : Reading
        A marked recipe; its kitchen gives hob, oven and tap.

    Returns
    -------
    Plan
        Energy by process [kWh] and what leaves the pot [kg], for the whole batch.
    """
    cooking = _Cooking(reading)
    for step in reading.steps:
        for process in step.processes:
            cooking.take(step, process)
    served = _serving_mass(reading, cooking.leaving)
    return Plan(
        energy=tuple(cooking.energy),
        leaving=tuple(cooking.leaving),
        serving_mass=served,
        serving_litres=_serving_litres(reading, served),
        assumed=_assumed(cooking),
    )


class _Cooking:
    """Collects what the processes take, and remembers whether pot and oven are hot yet."""

    def __init__(self, reading: Reading) -> None:
        self.reading = reading
        self.energy: list[EnergyUse] = []
        self.leaving: list[Leaving] = []
        self._seen: Counter[str] = Counter()
        self._boiling = False
        self._oven_hot = False

    def take(self, step: MarkedStep, process: Process) -> None:
        """Add one process."""
        if process.appliance == "hob" and process.kind in HOB_SHARES:
            self._on_the_hob(step, process)
        elif process.kind in {"bake", "preheat"}:
            self._in_the_oven(step, process)
        elif process.kind in FIXED_POWER:
            power = FIXED_POWER[process.kind]
            self.energy.append(_electric(process, step, power, _minutes(process, self._seen)))
        elif process.kind == "blend":
            self.energy.append(_electric(process, step, c.BLENDER_KWH, None))
        elif process.kind == "strain":
            self.leaving += _parted(self.reading, step, process)

    def _on_the_hob(self, step: MarkedStep, process: Process) -> None:
        minutes = _minutes(process, self._seen)
        if process.kind in BROUGHT_TO_BOIL and not self._boiling:
            self.energy.append(_heat_up(self.reading, step))
            self._boiling = True
        self.energy.append(_hob(self.reading, step, process, minutes))
        self.leaving += _boil_off(process, step, minutes)

    def _in_the_oven(self, step: MarkedStep, process: Process) -> None:
        if not self._oven_hot:
            self.energy.append(_oven(self.reading, step, process, None))
            self._oven_hot = True
        if process.kind == "bake":
            minutes = _minutes(process, self._seen)
            self.energy.append(_oven(self.reading, step, process, minutes))


def _assumed(cooking: _Cooking) -> tuple[str, ...]:
    causes = {part.cause for part in cooking.leaving}
    said = {
        "cooking energy by the first model: water-like heat, hold power by process, "
        "preheating by oven type": bool(cooking.energy),
        f"{c.PULP_SHARE.value:.0%} of strained solids stay in the cloth "
        "(weigh them to do better)": "strained" in causes,
        f"{c.ABSORBED_SHARE.value:.0%} of the cooking water stays with what is drained": (
            "drained" in causes
        ),
    }
    return tuple(text for text, so in said.items() if so)


def _serving_mass(reading: Reading, leaving: list[Leaving]) -> tuple[Product, ...]:
    """One serving as eaten: what went in less what left, over the servings."""
    lines = tuple(line.mass.scaled(1 / reading.serves) for line in reading.lines if line.mass)
    return lines + tuple(part.mass.scaled(-1 / reading.serves) for part in leaving)


def _serving_litres(reading: Reading, serving_mass: tuple[Product, ...]) -> float | None:
    """Litres of one serving where the cook says what the recipe makes and the mass bears it out.

    "Makes 1.2 litres" of a cordial says nothing of the glass it is diluted in: then None.
    """
    match = _LITRES.search((reading.recipe.makes or "").lower())
    if match is None:
        return None
    batch = float(match["number"].replace(",", ".")) / (1000.0 if match["milli"] else 1.0)
    litres = batch * reading.scale / reading.serves
    mass = sum(part.mean for part in serving_mass)
    return litres if abs(litres - mass) < LITRE_APART * mass else None


def _parameter(key: str, constant: Sourced) -> Parameter:
    return Parameter(key, Lognormal.from_spread(constant.value, constant.spread))


def _minutes(process: Process, seen: Counter[str]) -> Parameter:
    """How long a process takes, keyed by what is said of it."""
    low, high = process.minutes or (None, None)
    tail = f"{process.kind}|{low}-{high}"
    seen[tail] += 1
    key = f"minutes|{tail}|{seen[tail]}"
    if low is not None and high is not None:
        return Parameter(key, Uniform(low, high))
    stated = low if low is not None else high
    if stated is not None:  # "at least 45 minutes" and "up to 10" leave a wide open side
        return Parameter(key, Lognormal.from_spread(stated, 0.2))
    default = c.DEFAULT_MINUTES.get(process.kind, c.DEFAULT_MINUTES["cook"])
    return _parameter(key, default)


def _heat_up(reading: Reading, step: MarkedStep) -> EnergyUse:
    """Bring what is in the pot from tap or room to the boil, once."""
    kitchen = reading.kitchen
    pot = [line for line in reading.lines if line.mass and in_pot(line, reading, step)]
    mass = sum(line.mass.mean for line in pot if line.mass)
    joules = mass * (100.0 - kitchen.tap_celsius)
    efficiency = c.HOB_EFFICIENCY[kitchen.hob]
    kwh = Product(
        joules / JOULES_PER_KWH / efficiency.value,
        (
            _parameter("food|specific heat", c.SPECIFIC_HEAT),
            Parameter(f"hob|{kitchen.hob}", Lognormal.from_spread(1.0, efficiency.spread)),
        ),
    )
    return EnergyUse(
        "bring to the boil",
        _gas_or_electric(reading),
        kwh,
        step.written.number,
        appliance="hob",
    )


def _gas_or_electric(reading: Reading) -> Carrier:
    return "gas" if reading.kitchen.hob == "gas" else "electricity"


def _hob(reading: Reading, step: MarkedStep, process: Process, minutes: Parameter) -> EnergyUse:
    kitchen = reading.kitchen
    share = HOB_SHARES[process.kind]
    efficiency = c.HOB_EFFICIENCY[kitchen.hob]
    useful_kw = kitchen.hob_watts / 1000.0 * c.HOB_EFFICIENCY["ceramic"].value
    scale = useful_kw / efficiency.value / 60.0
    parameters: tuple[Parameter, ...] = (
        minutes,
        _parameter(f"hob share|{process.kind}", share),
        Parameter(f"hob|{kitchen.hob}", Lognormal.from_spread(1.0, efficiency.spread)),
    )
    if process.covered is False:
        parameters = (*parameters, _parameter("pot|open", c.OPEN_POT))
    return EnergyUse(
        _name(process),
        _gas_or_electric(reading),
        Product(scale, parameters),
        step.written.number,
        appliance="hob",
    )


def _oven(
    reading: Reading, step: MarkedStep, process: Process, minutes: Parameter | None
) -> EnergyUse:
    gas = reading.kitchen.oven == "gas"
    constant = c.OVEN_PREHEAT if minutes is None else c.OVEN_HOLD
    key = "oven|preheat" if minutes is None else "oven|hold"
    parameters: tuple[Parameter, ...] = (_parameter(key, constant),)
    if minutes is not None:
        parameters = (*parameters, minutes)
    if gas:
        parameters = (*parameters, _parameter("oven|gas", c.GAS_OVEN))
    return EnergyUse(
        "preheat the oven" if minutes is None else _name(process),
        "gas" if gas else "electricity",
        Product(1.0 if minutes is None else 1 / 60.0, parameters),
        step.written.number,
        appliance="oven",
    )


def _electric(
    process: Process, step: MarkedStep, power: Sourced, minutes: Parameter | None
) -> EnergyUse:
    key = f"appliance|{process.kind}"
    parameters: tuple[Parameter, ...] = (_parameter(key, power),)
    if minutes is not None:
        parameters = (*parameters, minutes)
    scale = 1.0 if minutes is None else 1 / 60.0
    return EnergyUse(
        _name(process),
        "electricity",
        Product(scale, parameters),
        step.written.number,
        appliance=process.appliance or process.kind,
    )


def _boil_off(process: Process, step: MarkedStep, minutes: Parameter) -> tuple[Leaving, ...]:
    if process.kind not in {"simmer", "boil", "poach"}:
        return ()
    covered = process.covered is not False and process.kind != "boil"
    rate = c.BOIL_OFF_COVERED if covered else c.BOIL_OFF_OPEN
    key = "boil-off|covered" if covered else "boil-off|open"
    mass = Product(1 / 60.0, (minutes, _parameter(key, rate)))
    return (Leaving("steam", mass, step.written.number, "boiled off", "air"),)


def _parted(reading: Reading, step: MarkedStep, process: Process) -> tuple[Leaving, ...]:
    """Mass that straining or draining takes away, line by line."""
    leaving: list[Leaving] = []
    for line in reading.lines:
        if line.mass is None or line.food is None or not in_pot(line, reading, step):
            continue
        if process.leaves == "solids" and _stays_in_cloth(line):
            share = c.MASHED_SHARE if mashed(step) else c.PULP_SHARE
            key = f"pulp|{line.food.id}"
            leaving.append(
                Leaving(
                    f"strained {line.food.name}",
                    _times(line.mass, key, share, share.value),
                    step.written.number,
                    "strained",
                    "food waste",
                    line.food.id,
                )
            )
        elif process.leaves == "liquid" and line.food.food_class == "water & ice":
            gone = 1.0 - c.ABSORBED_SHARE.value
            leaving.append(
                Leaving(
                    "drained water",
                    _times(line.mass, f"drained|{line.food.id}", c.ABSORBED_SHARE, gone),
                    step.written.number,
                    "drained",
                    "sink",
                )
            )
    return tuple(leaving)


def _stays_in_cloth(line: MarkedLine) -> bool:
    return line.food is not None and line.food.kind == "solid"


def _times(mass: Product, key: str, constant: Sourced, share: float) -> Product:
    deviation = Parameter(key, Lognormal.from_spread(1.0, constant.spread))
    return Product(mass.scale * share, (*mass.parameters, deviation))


def _name(process: Process) -> str:
    kind = process.kind.replace("_", " ")
    if not process.minutes:
        return kind
    low, high = process.minutes
    if low == high or high is None:
        return f"{kind}, {low:g} min"
    return f"{kind}, up to {high:g} min" if low is None else f"{kind}, {low:g}–{high:g} min"
