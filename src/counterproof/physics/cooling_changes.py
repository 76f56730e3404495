"""What would make a cooling pass, worked out with the same margins as the verdict.

Each change is tried on the slow end of the model, several sizes side by side, and the smallest
that stays under every limit is given; none is given where none does. Each is tried with the
fridge as it is set, and, where that cannot pass, turned down to 2 °C.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Any, Final

import numpy as np

from counterproof.physics.containers import TRAY_DEPTH
from counterproof.physics.cooling import History, time_between
from counterproof.physics.cooling_lanes import slow_lanes
from counterproof.physics.cooling_scene import Dish, Run, Spot, run
from counterproof.physics.fridge import SWING
from counterproof.physics.spread import spoken
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest
from counterproof.sourced import Sourced

TRAY_AREA: Final = Sourced(
    0.10, "m²", 0.3, "assumed", "", "a roasting or baking tray of about 26 × 38 cm"
)
COLDER: Final = Sourced(
    ZERO_CELSIUS + 2.0, "K", 0.0, "assumed", "", "a fridge turned down, where it must be colder"
)
STEAMED_OFF: Final = Sourced(
    ZERO_CELSIUS + 60.0, "K", 0.0, "assumed", "",
    "when a food goes from the worktop into trays or jars in the fridge: the Food Code's clock "
    "starts at 57 °C, and the fridge is spared what came before",
)  # fmt: skip
_JARS: Final = (0.0001, 0.00015, 0.0002, 0.00025, 0.00035, 0.0005, 0.00075, 0.001)  # [m³]
_WARM: Final = ZERO_CELSIUS + 50.0  # from here cold glass is warmed before it is filled
_MORE_TRAYS: Final = 6
_MINUTES: Final = (10, 15, 20, 25, 30, 40, 50, 60, 75, 90, 105, 120, 150, 180)


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit a change must keep, with what has passed already taken off.

    Parameters
    ----------
    clock, goal : float
        Temperatures. [K]
    time : float
        Time left. [s]
    """

    clock: float
    goal: float
    time: float


@dataclass(frozen=True, slots=True)
class Change:
    """One change that passes.

    Parameters
    ----------
    kind : str
        "ice bath", "trays" or "jars".
    says : str
        One sentence for a cook.
    count : int
        Vessels it takes. [1]
    size : float
        Depth of a tray [m], volume of a jar [m³], or time in the bath [s].
    fridge : float
        Setting of the fridge it was tried with. [K]
    """

    kind: str
    says: str
    count: int
    size: float
    fridge: float

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        key, scale = {
            "ice bath": ("minutes", 1 / 60.0),
            "trays": ("depth_m", 1.0),
            "jars": ("litres", 1000.0),
        }[self.kind]
        return {
            "change": self.kind,
            "says": self.says,
            "count": self.count,
            key: round(self.size * scale, 4),
            "fridge_celsius": round(self.fridge - ZERO_CELSIUS, 2),
        }


def changes(dish: Dish, fridge: Spot, start: float, limits: Sequence[Limit]) -> tuple[Change, ...]:
    """The smallest changes that pass, each by itself.

    Parameters
    ----------
    dish : Dish
        What cools, as it is.
    fridge : Spot
        The fridge it could go into.
    start : float
        Temperature of the food. [K]
    limits : sequence of Limit
        What must be kept.

    Returns
    -------
    tuple of Change
        Ice bath, trays, jars, as far as they pass.
    """
    set_at = largest(fridge.temperature)
    settings = sorted({set_at, min(set_at, COLDER.value)}, reverse=True)
    # With the fridge as it is set first, then colder; fewest and largest vessels first in each.
    parts = (
        _ice_bath(dish, fridge, settings, start, limits),
        _trays(dish, fridge, settings, start, limits),
        _jars(dish, fridge, settings, start, limits),
    )
    return tuple(change for change in parts if change is not None)


def _floor(limits: Sequence[Limit]) -> float:
    return min(limit.goal for limit in limits)


def _first_passing(cooled: Run, limits: Sequence[Limit]) -> int | None:
    """Place of the first draw that keeps every limit."""
    spans = cooled.spans([(limit.clock, limit.goal) for limit in limits])
    kept = (spans < np.array([[limit.time] for limit in limits])).all(axis=0)
    return int(np.argmax(kept)) if kept.any() else None


def _set_to(setting: float) -> str:
    return f"a fridge at {setting - ZERO_CELSIUS:.0f} °C"


def _standing(start: float) -> tuple[float, str]:
    if start <= STEAMED_OFF.value:
        return start, ""
    return STEAMED_OFF.value, f"Let it stand to {STEAMED_OFF.value - ZERO_CELSIUS:.0f} °C, then: "


def _trays(
    dish: Dish, spot: Spot, settings: list[float], start: float, limits: Sequence[Limit]
) -> Change | None:
    whole = largest(dish.volume * dish.portions)
    fewest = ceil(whole / (TRAY_AREA.value * TRAY_DEPTH.value) - 1e-9)
    number = np.arange(fewest, fewest + _MORE_TRAYS, dtype=float)
    counts, setting = np.tile(number, len(settings)), np.repeat(settings, number.size)
    each = whole / counts
    tray = replace(
        dish, volume=each, kind="tray", diameter=None, depth=each / TRAY_AREA.value,
        portions=counts, stirred=False, material=None, covered=False,
    )  # fmt: skip
    begins, lead = _standing(start)
    cold = replace(spot, temperature=setting)
    at = _first_passing(run(tray, cold, begins, _floor(limits), slow_lanes(counts.size)), limits)
    if at is None:
        return None
    count, depth = int(counts[at]), float(each[at] / TRAY_AREA.value)
    trays = "1 tray" if count == 1 else f"{count} trays"
    says = (
        f"{lead}spread over {trays} of {TRAY_AREA.value * 1e4:.0f} cm², {depth * 100:.1f} cm deep, "
        f"open until cold where nothing can drip in, apart from each other in "
        f"{_set_to(setting[at])}."
    )
    return Change("trays", _capital(says), count, depth, float(setting[at]))


def _jars(
    dish: Dish, spot: Spot, settings: list[float], start: float, limits: Sequence[Limit]
) -> Change | None:
    whole = largest(dish.volume * dish.portions)
    largest_first = np.array([size for size in _JARS[::-1] if size < whole])
    if not largest_first.size:
        return None
    volumes = np.tile(largest_first, len(settings))
    setting = np.repeat(settings, largest_first.size)
    counts = np.ceil(whole / volumes - 1e-9)
    jar = replace(
        dish, volume=volumes, kind="jar", diameter=None, depth=None, covered=True,
        portions=counts, stirred=False, material=None,
    )  # fmt: skip
    begins, lead = _standing(start)
    cold = replace(spot, temperature=setting)
    at = _first_passing(run(jar, cold, begins, _floor(limits), slow_lanes(counts.size)), limits)
    if at is None:
        return None
    litres, count = 1000.0 * float(volumes[at]), int(counts[at])
    warmed = "warmed " if begins > _WARM else ""
    says = (
        f"{lead}fill into {count} {warmed}jars of {litres:g} L, lids loose, apart from each other "
        f"in {_set_to(setting[at])}."
    )
    return Change("jars", _capital(says), count, litres / 1000.0, float(setting[at]))


def _capital(sentence: str) -> str:
    return sentence[0].upper() + sentence[1:]


def _ice_bath(
    dish: Dish, spot: Spot, settings: list[float], start: float, limits: Sequence[Limit]
) -> Change | None:
    if dish.vessel.material == "glass":
        return None
    bathed = replace(dish, stirred=dish.flow == "thin")
    floor = _floor(limits)
    first = run(bathed, replace(spot, where="ice-bath", fridge=None), start, floor, slow_lanes(1))
    levels = sorted({level for limit in limits for level in (limit.clock, limit.goal)})
    in_bath = first.until_each(levels)[:, 0]
    times = 60.0 * np.array(_MINUTES, dtype=float)
    left = _temperatures(first, start, floor, times)
    for setting in settings:
        onward = left > max(floor, setting + SWING.value + 0.1)
        ends = np.where(times >= in_bath[:, np.newaxis], in_bath[:, np.newaxis], np.inf)
        if onward.any():
            still = replace(bathed, stirred=False)
            cold = replace(spot, temperature=setting)
            lanes = slow_lanes(int(onward.sum()))
            after = run(still, cold, left[onward], floor, lanes).until_each(levels)
            ends[:, onward] = np.minimum(ends[:, onward], times[onward] + after)
        reached = dict(zip(levels, ends, strict=True))
        kept = np.ones(times.size, dtype=bool)
        for limit in limits:
            kept &= time_between(reached[limit.clock], reached[limit.goal]) < limit.time
        if kept.any():
            seconds = float(times[int(np.argmax(kept))])
            stirred = ", stirred now and then," if bathed.stirred else ""
            says = (
                f"Stand the {dish.kind} in iced water{stirred} for {spoken(seconds)}, with ice "
                f"left at the end, then in {_set_to(setting)}."
            )
            return Change("ice bath", says, 1, seconds, setting)
    return None


def _temperatures(cooled: Run, start: float, floor: float, times: Draws) -> Draws:
    """What a dish has cooled to at several times."""
    history: History = cooled.mixed.history
    if cooled.conducted is not None:
        history = cooled.conducted.history(np.linspace(start, floor, 21)[1:].tolist())
    return np.array([float(history.at(float(time))[0]) for time in times])
