"""What a recipe card says beside the proof: lines scaled and measured, steps with time and heat.

The weight on a card is the proof's own figure. Here stands the rest: the line's words with the
amount scaled to the servings asked, what another place calls the food, ounces and cups, and a
step's temperature on the dials of different ovens.
"""

from __future__ import annotations

import re
from typing import Final

from counterproof.cups_and_ounces import us_measure, us_weight
from counterproof.forme import Card, CardLine, CardStep, Heat
from counterproof.in_words import minutes_in_words, quantity_in_words
from counterproof.local_names import local_name
from counterproof.reading.durations import GAS_MARKS, temperatures
from counterproof.reading.model import MarkedLine, MarkedStep, Process, Quantity, Reading
from counterproof.rows import Tables
from counterproof.units import MEASURES, unit_kg

_FAN: Final = 20.0
"""How much lower a fan oven is set. [°C] Common practice, no source."""

_DIAL_F: Final = 25.0
"""Step of a US oven dial. [°F] Common practice, no source."""

_NEAR_MARK: Final = 10.0
"""How far from a gas mark a temperature may lie and still be told by it. [°C] Assumed."""

_OVEN_KINDS: Final = frozenset({"bake", "roast", "preheat", "grill"})
_OVEN_WORDS: Final = re.compile(r"\b(?:oven|fan|gas mark|gas \d)\b", re.IGNORECASE)
_FAN_BEHIND: Final = re.compile(r"\s*\(?\s*fan\b", re.IGNORECASE)
_OVEN_LEAST: Final = 60.0  # [°C]: below, a temperature in an oven step is the food's
_SURELY_OVEN: Final = (
    110.0  # [°C]: no food is that hot all through; where it stands, less is food's
)
_SAME_DIAL: Final = 8.0  # [°C]: conversions of one setting lie nearer than this
_SHARES: Final = (0.0, 0.25, 1 / 3, 0.5, 2 / 3, 0.75, 1.0)
_WHOLE_FROM: Final = 10.0
_THOUSAND: Final = 1000.0
_LARGER: Final = {"g": "kg", "ml": "l"}
_SMALLER: Final = {"kg": "g", "l": "ml"}


def measured_out(reading: Reading, tables: Tables) -> Card:
    """Return what a recipe card says beside the proof.

    Parameters
    ----------
    reading : Reading
        The recipe for the servings asked.
    tables : Tables
        Densities of foods.

    Returns
    -------
    Card
        Lines and steps.
    """
    return Card(
        lines=tuple(_line(line, reading.scale, tables) for line in reading.lines),
        steps=tuple(_step(step) for step in reading.steps),
        makes=reading.recipe.makes or "" if reading.scale == 1 else "",
    )


def _line(line: MarkedLine, scale: float, tables: Tables) -> CardLine:
    called = next((part.text for part in line.split.parts if part.kind == "name"), "")
    mass = line.mass.mean if line.mass is not None and not line.also else None
    return CardLine(
        number=line.written.number,
        words=line.written.text if scale == 1 else _scaled(line, scale),
        called=called,
        local=local_name(line.food.id, line.split.name) if line.food else None,
        us_weight="" if mass is None else us_weight(mass),
        us_measure=_cups(line, mass, tables),
        weighs_as_written=mass is not None and _written_kg(line, scale) == round(mass, 6),
    )


def _written_kg(line: MarkedLine, scale: float) -> float | None:
    """The mass that stands in the line itself, where it is one number and no pack. [kg]"""
    quantity = line.quantity
    if quantity is None or quantity.low != quantity.high or line.split.container:
        return None
    if MEASURES.get(quantity.measure) != "mass":
        return None
    return round(quantity.low * line.split.packs * unit_kg(quantity.measure) * scale, 6)


def _cups(line: MarkedLine, mass: float | None, tables: Tables) -> str:
    """Cups and spoons of what is poured or spooned."""
    if mass is None or line.food is None or line.split.container:
        return ""
    quantity = line.quantity
    spooned = quantity is not None and MEASURES.get(quantity.measure) == "volume"
    if spooned and quantity is not None and quantity.measure in {"pinch", "dash"}:
        return ""
    density = next((row for row in tables.densities.get(line.food.id, ()) if not row.form), None)
    if density is None or not (spooned or line.food.kind in {"liquid", "powder"}):
        return ""
    return us_measure(1000.0 * mass / density.kg_per_litre)


def _scaled(line: MarkedLine, scale: float) -> str:
    """The line's words with its amount scaled; the cook's other words stay as they are."""
    split = line.split
    if not split.quantities:
        return line.written.text
    amount = _amounts(line, scale)
    words: list[str] = []
    named = False
    for part in split.parts:
        if part.kind == "amount":
            if amount:
                words.append(amount)
            amount = ""
            continue
        if part.kind == "preparation" and named:
            words[-1] += ","
        words.append(f"({part.text})" if part.kind == "comment" else part.text)
        named = named or part.kind == "name"
    return " ".join(words)


def _amounts(line: MarkedLine, scale: float) -> str:
    """The amount scaled, and what the cook wrote beside it as the same in other measures."""
    first, *others = (_amount(quantity, line, scale) for quantity in line.split.quantities)
    return f"{first} ({'; '.join(others)})" if others else first


def _amount(quantity: Quantity, line: MarkedLine, scale: float) -> str:
    split, measure = line.split, quantity.measure
    kind = MEASURES.get(measure)
    packs, times = (split.packs * scale, 1.0) if split.container else (split.packs, scale)
    ends = (quantity.low * times, quantity.high * times)
    if kind == "mass" and measure in {"oz", "lb"}:
        return "–".join(dict.fromkeys(us_weight(end * unit_kg(measure)) for end in ends))
    if measure in _LARGER and ends[0] >= _THOUSAND:
        ends, measure = (ends[0] / _THOUSAND, ends[1] / _THOUSAND), _LARGER[measure]
    elif measure in _SMALLER and ends[1] < 1:
        ends, measure = (ends[0] * _THOUSAND, ends[1] * _THOUSAND), _SMALLER[measure]
    lead = "" if packs == 1 else f"{_fraction(_counted(packs))} × "
    if measure in {*_LARGER, *_SMALLER}:
        unit = "L" if measure == "l" else measure
        said = f"{'–'.join(dict.fromkeys(_weighed(end) for end in ends))} {unit}"
    else:
        named = next((part.text for part in split.parts if part.kind == "name"), "")
        if kind == "count" and re.search(rf"\b{re.escape(measure)}", named):
            measure = "piece"  # "3 celery sticks": the name says it
        said = quantity_in_words(Quantity(_counted(ends[0]), _counted(ends[1]), measure), 1, "")
    if split.container and measure != split.container:
        said = f"{said} {split.container}{'s' if packs > 1 else ''}"
    if split.size and kind == "count":
        number, _, rest = said.partition(" ")
        said = f"{number} {split.size} {rest}".strip()
    return lead + said


def _fraction(value: float) -> str:
    """A number of packs, its fraction as a sign."""
    return quantity_in_words(Quantity(value, value, "piece"), 1, "").strip()


def _weighed(value: float) -> str:
    """What a scale or a jug shows: three digits at most, two below ten of a small unit."""
    return f"{value:.0f}" if value >= _WHOLE_FROM else f"{value:.3g}"


def _counted(value: float) -> float:
    """What is counted or spooned: the kitchen fraction beside it; the weight tells the rest."""
    if value >= _WHOLE_FROM:
        return float(f"{value:.0f}")
    whole = int(value)
    shares = _SHARES if whole else (0.125, *_SHARES)
    return min((whole + share for share in shares if whole + share), key=lambda n: abs(n - value))


def _step(step: MarkedStep) -> CardStep:
    text = step.written.text
    return CardStep(
        step.written.number,
        tuple((process.kind, time) for process in step.processes if (time := _time(process))),
        _heats(text, step.processes),
    )


def _time(process: Process) -> str:
    return minutes_in_words(*process.minutes) if process.minutes else ""


def _heats(text: str, processes: tuple[Process, ...]) -> tuple[Heat, ...]:
    """Every temperature of a step, once; of an oven's two settings the one without the fan."""
    found = temperatures(text)
    still = [one.celsius for one in found if not _FAN_BEHIND.match(text, one.end)]
    fans = [one.celsius + _FAN for one in found if _FAN_BEHIND.match(text, one.end)]
    oven = bool(_OVEN_WORDS.search(text)) or any(one.kind in _OVEN_KINDS for one in processes)
    least = _OVEN_LEAST if max((*still, *fans), default=0.0) < _SURELY_OVEN else _SURELY_OVEN
    dials = [celsius for celsius in still or fans if oven and celsius >= least]
    told: list[float] = []
    for celsius in dials:  # "190 °C/375 °F/gas 5" says one thing three times
        if all(abs(celsius - other) > _SAME_DIAL for other in told):
            told.append(celsius)
    heats = [_oven(celsius) for celsius in told]
    heats += [
        Heat(f"{celsius:.0f} °C", f"{celsius * 1.8 + 32:.0f} °F")
        for celsius in dict.fromkeys(still)
        if celsius not in dials
    ]
    return tuple(dict.fromkeys(heats))


def _oven(celsius: float) -> Heat:
    """An oven's setting on four dials; one that was written in °F is rounded to ten degrees C."""
    fahrenheit = _DIAL_F * round((celsius * 1.8 + 32) / _DIAL_F)
    dial = celsius if celsius % 5 == 0 else 10.0 * round(celsius / 10)
    nearest = min(abs(dial - degrees) for degrees in GAS_MARKS.values())
    marks = [mark for mark, degrees in GAS_MARKS.items() if abs(dial - degrees) == nearest]
    told = "–".join({0.25: "¼", 0.5: "½"}.get(mark, f"{mark:g}") for mark in marks)
    return Heat(
        f"{dial:.0f} °C",
        f"{fahrenheit:.0f} °F",
        f"{dial - _FAN:.0f} °C",
        told if nearest <= _NEAR_MARK else "",
    )
