"""What batches teach about the recipe and the kitchen: changes that are offered, never made unasked."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

from counterproof import numerals
from counterproof.batch.beside import Row, Scatter
from counterproof.batch.fits import HeatingFit
from counterproof.batch.made import Made
from counterproof.batch.weights import FINEST_ASSUMED, grams
from counterproof.batch.written_in import weighed_words
from counterproof.draws import Range
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.rewriting import changed_front_matter, changed_yaml
from counterproof.recipe.text import weighed
from counterproof.sourced import Sourced

Where = Literal["recipe", "kitchen"]
APART: Final = Sourced(
    1.0, "K", 0.0, "assumed", "", "a fridge, room or tap is worth correcting from one degree on"
)
MOST: Final = Sourced(
    3.0, "1", 0.0, "assumed", "",
    "a pot loses at most so many times what the model gives; beyond it the lid was off or the "
    "setting another",
)  # fmt: skip
_LITRES: Final = re.compile(r"\d+(?:[.,]\d+)?(?=\s*(?:litres?|liters?|l|ml)\b)", re.IGNORECASE)
_AROUND: Final[dict[str, tuple[tuple[str, ...], str]]] = {
    "fridge": (("fridge", "celsius"), "fridge_celsius"),
    "freezer": (("freezer", "celsius"), "freezer_celsius"),
    "room": (("room_celsius",), "room_celsius"),
    "tap": (("tap_celsius",), "tap_celsius"),
}


@dataclass(frozen=True, slots=True)
class Correction:
    """A change to the recipe or the kitchen that batches speak for.

    Parameters
    ----------
    name : str
        What it is accepted by, such as "hob-power".
    where : Where
        recipe or kitchen.
    now, becomes : str
        What stands there, and what would.
    because : str
        One sentence for a cook.
    change : callable
        Makes the change in the file's text.
    """

    name: str
    where: Where
    now: str
    becomes: str
    because: str
    change: Callable[[str], str]

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "name": self.name,
            "where": self.where,
            "now": self.now,
            "becomes": self.becomes,
            "because": self.because,
        }


@dataclass(frozen=True)
class Evidence:
    """What corrections are drawn from.

    Parameters
    ----------
    reading : Reading
        The recipe as written, at its own size.
    batches : sequence of Made
        The batches.
    rows : sequence of tuple of Row
        Plan beside fact, one a batch.
    scatter : sequence of Scatter
        Over all batches, at the recipe's own size.
    heating : sequence of HeatingFit
        Those batches that measured it.
    """

    reading: Reading
    batches: Sequence[Made]
    rows: Sequence[tuple[Row, ...]]
    scatter: Sequence[Scatter]
    heating: Sequence[HeatingFit]


def corrections_of(evidence: Evidence) -> tuple[Correction, ...]:
    """The changes that batches speak for.

    Parameters
    ----------
    evidence : Evidence
        Recipe, kitchen and batches.

    Returns
    -------
    tuple of Correction
        Those of the recipe first.
    """
    kitchen = evidence.reading.kitchen
    found = [
        _weights(evidence), _makes(evidence), _eaten(evidence), _hob(evidence, kitchen),
        _simmer(evidence, kitchen), *_around(evidence, kitchen),
    ]  # fmt: skip
    return tuple(one for one in found if one is not None)


def _weights(evidence: Evidence) -> Correction | None:
    """Lines that are still by eye, or whose weights lie elsewhere, get the mean of the batches."""
    lines = {line.written.number: line for line in evidence.reading.lines}
    wanted: dict[int, str] = {}
    names = []
    for one in evidence.scatter:
        line = lines.get(one.number or 0)
        if line is None or line.written.at is None:
            continue
        apart = one.planned is None or not one.planned.p05 <= one.mean <= one.planned.p95
        if "weighed" in line.split.flags and not apart:
            continue
        if not apart and line.quantity is not None and line.quantity.measure in {"g", "kg"}:
            continue
        half = max(one.deviation or 0.0, _half(evidence, line.written.number))
        step = FINEST_ASSUMED
        wanted[line.written.at] = weighed_words(one.mean, max(round(half / step), 1) * step, step)
        names.append(f"{line.split.name} {grams(one.mean, step)}")
    if not wanted:
        return None

    def change(text: str) -> str:
        for at, words in wanted.items():
            text = weighed(text, at, words)
        return text

    count = len(evidence.batches)
    because = f"Weighed in {_batches(count)}; still by eye in the recipe, or another weight there."
    return Correction("weights", "recipe", "by eye", ", ".join(names), because, change)


def _half(evidence: Evidence, number: int) -> float:
    return max(
        (made.lines[number].half for made in evidence.batches if number in made.lines), default=0.0
    )


def _makes(evidence: Evidence) -> Correction | None:
    makes = evidence.reading.recipe.makes
    made, left_out = sound_yields(evidence)
    found = _LITRES.search(makes or "")
    if made is None or makes is None or found is None:
        return None
    unit = 1.0 if re.match(r"\s*ml", makes[found.end() :], re.IGNORECASE) else 1000.0
    said = float(found[0].replace(",", ".")) / (unit * 1000.0 if unit == 1.0 else unit)
    if unit == 1.0:
        said = float(found[0].replace(",", ".")) * 1e-6
    spread = max(made.deviation or 0.0, 0.04 * made.mean)
    if abs(made.mean - said) <= spread:
        return None
    new = (
        f"{1e6 * made.mean:.0f}"
        if unit == 1.0
        else f"{1000.0 * made.mean:.2f}".rstrip("0").rstrip(".")
    )
    becomes = f"{makes[: found.start()]}{new}{makes[found.end() :]}"
    because = (
        f"{_batches(len(made.values), capital=True)} gave {1000 * made.mean:.2f} L on average."
    )
    if left_out:
        because += f" Left out, as kept hot for another time: {', '.join(left_out)}."

    def change(text: str) -> str:
        return text.replace(makes, becomes, 1)

    return Correction("yield", "recipe", makes, becomes, because, change)


def sound_yields(evidence: Evidence) -> tuple[Scatter | None, list[str]]:
    """Yields of the batches that were cooked as written, and the days of the others.

    Parameters
    ----------
    evidence : Evidence
        Recipe, kitchen and batches.

    Returns
    -------
    tuple of Scatter or None and list of str
        Yields at the recipe's own size [m³], those of all batches where none was kept hot for
        about the time written; and the days of the batches left out.
    """
    sound: list[tuple[str, float]] = []
    other: list[tuple[str, float]] = []
    for made, rows in zip(evidence.batches, evidence.rows, strict=True):
        by_name = {row.name: row for row in rows}
        if "made_m3" not in by_name:
            continue
        cubic = by_name["made_m3"].measured.value * evidence.reading.serves / made.serves
        time = by_name.get("simmering_s")
        apart = time is not None and time.ruling == "beyond the plan"
        (other if apart else sound).append((made.day, cubic))
    kept = sound or other
    if not kept:
        return None, []
    left_out = [day for day, _ in other] if sound else []
    return Scatter("made_m3", "made", "m³", None, tuple(cubic for _, cubic in kept)), left_out


def _eaten(evidence: Evidence) -> Correction | None:
    shares = [made.eaten for made in evidence.batches if made.eaten is not None]
    now = evidence.reading.recipe.eaten
    if not shares:
        return None
    mean = round(sum(shares) / len(shares), 2)
    if abs(mean - (1.0 if now is None else now)) < 0.02 or not 0.0 < mean <= 1.0:
        return None
    because = f"So much was eaten of {_batches(len(shares))}."
    stands = "all" if now is None else f"{now:.0%}"

    def change(text: str) -> str:
        return changed_front_matter(text, "eaten", mean)

    return Correction("eaten", "recipe", stands, f"{mean:.0%}", because, change)


def _hob(evidence: Evidence, kitchen: Kitchen) -> Correction | None:
    fits = [fit for fit in evidence.heating if fit.misfit < 9.0]
    if not fits or kitchen.hob == "gas":
        return None
    power = _joint([fit.power for fit in fits])
    if power.p05 <= kitchen.hob_watts <= power.p95:
        return None
    watts = float(f"{power.mean:.2g}")
    becomes = f"{watts / 1000:g} kW"
    shown = numerals.shown(power.scaled(0.001), "mean", "kW").text
    because = f"Temperatures of {_batches(len(fits))} fit a ring that takes {shown} while it heats."

    def change(text: str) -> str:
        return changed_yaml(text, ("hob", "power"), becomes, kitchen.file)

    now = f"{kitchen.hob_watts / 1000:g} kW"
    return Correction("hob-power", "kitchen", now, becomes, because, change)


def _joint(ranges: Sequence[Range]) -> Range:
    """Several ranges of one thing: the mean of their ends."""
    count = len(ranges)
    return Range(
        sum(one.mean for one in ranges) / count, sum(one.p05 for one in ranges) / count,
        sum(one.p50 for one in ranges) / count, sum(one.p95 for one in ranges) / count,
    )  # fmt: skip


def _simmer(evidence: Evidence, kitchen: Kitchen) -> Correction | None:
    """Loss a minute against the model's, where both steam and time were measured."""
    factors = []
    for rows in evidence.rows:
        by_name = {row.name: row for row in rows}
        steam, time = by_name.get("steam"), by_name.get("simmering_s")
        if steam is None or steam.planned is None or steam.planned.mean <= 0.0:
            continue
        longer = 1.0
        if time is not None and time.planned is not None and time.planned.mean > 0.0:
            longer = time.measured.value / time.planned.mean
        if longer <= 0.0:
            continue
        expected = steam.planned.scaled(longer)
        measured = steam.measured
        if not 1.0 / MOST.value <= measured.value / expected.mean <= MOST.value:
            continue  # another way of cooking, not another pot
        factors.append(
            (measured.value / expected.mean, measured.value + measured.half < expected.p05
             or measured.value - measured.half > expected.p95)
        )  # fmt: skip
    if not factors or not any(apart for _, apart in factors):
        return None
    times = float(f"{kitchen.simmer_loss * sum(one for one, _ in factors) / len(factors):.2g}")
    because = (
        f"In {_batches(len(factors))} the pot lost {times:g} times the water that the model gives for "
        "the time it was kept hot: a lid ajar, a higher setting, or a wider pot."
    )

    def change(text: str) -> str:
        return changed_yaml(text, ("hob", "simmer_loss"), times, kitchen.file)

    now = f"{kitchen.simmer_loss:g} times the model"
    return Correction("simmer-loss", "kitchen", now, f"{times:g} times the model", because, change)


def _around(evidence: Evidence, kitchen: Kitchen) -> list[Correction]:
    found = []
    for name, (path, field) in _AROUND.items():
        measured = [made.around[name].value for made in evidence.batches if name in made.around]
        if not measured:
            continue
        celsius = round(sum(measured) / len(measured) - ZERO_CELSIUS, 1)
        stands = float(getattr(kitchen, field))
        if abs(celsius - stands) < APART.value:
            continue
        because = f"Measured in {_batches(len(measured))}."
        found.append(
            Correction(
                f"{name}-temperature", "kitchen", f"{stands:g} °C", f"{celsius:g} °C", because,
                _setting(path, celsius, kitchen.file),
            )
        )  # fmt: skip
    return found


def _setting(path: tuple[str, ...], value: float, file: str | None) -> Callable[[str], str]:
    def change(text: str) -> str:
        return changed_yaml(text, path, value, file)

    return change


def _batches(count: int, *, capital: bool = False) -> str:
    words = {1: "one batch", 2: "two batches", 3: "three batches"}.get(count, f"{count} batches")
    return words[0].upper() + words[1:] if capital else words


def accepted(
    offered: Sequence[Correction], names: Sequence[str]
) -> Mapping[Where, tuple[Correction, ...]]:
    """The corrections that a cook accepts, by the file they change.

    Parameters
    ----------
    offered : sequence of Correction
        What is offered.
    names : sequence of str
        What is accepted; each is one of their names.

    Returns
    -------
    mapping of Where to tuple of Correction
        Empty where nothing is accepted.
    """
    chosen = [one for one in offered if one.name in names]
    return {
        where: tuple(one for one in chosen if one.where == where)
        for where in ("recipe", "kitchen")
        if any(one.where == where for one in chosen)
    }
