"""What a batch file says, sorted into the figures of a batch.

Facts become figures by the words beside them, each with half the width of its range. What two
facts say differently is marked; nothing is averaged in silence.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Final

from counterproof.batch.labels import lines_meant, vessel_in
from counterproof.batch.made import Made, Measured
from counterproof.batch.record_talk import Fact, record_of
from counterproof.batch.weigh_in import weigh_in
from counterproof.batch.weighed import WeighIn
from counterproof.marks import Mark
from counterproof.physics.boiling import boiling_point
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.pot import first_named, is_at_table, is_in_pot
from counterproof.reading.model import Reading
from counterproof.sourced import Sourced

JUG: Final = Sourced(
    0.02, "1", 0.5, "assumed", "", "a measuring jug or a filled jar, read at eye level"
)
METER: Final = Sourced(0.02, "1", 0.5, "assumed", "", "a plug meter")
WATCH: Final = Sourced(30.0, "s", 0.0, "assumed", "", "a time of day written to the minute")
SUGAR_METER: Final = Sourced(
    0.5, "°Bx", 0.5, "assumed", "", "a kitchen refractometer or hydrometer"
)
THERMOMETER: Final = Sourced(1.0, "K", 0.5, "assumed", "", "a kitchen thermometer")

_PULP: Final = re.compile(
    r"\b(?:pulp|solids?|squeezed|left in|dregs|marc|strained off|in the cloth)\b"
)
_LIQUID: Final = re.compile(
    r"\b(?:juice|liquid|liquor|strained|ran through|dripped|through the cloth)\b"
)
_AFTER: Final = re.compile(
    r"\b(?:after|afterwards|cooked|in the pot|at the end|before straining)\b"
)
_FINISHED: Final = re.compile(
    r"\b(?:made|yield\w*|finished|in all|in total|altogether|all of it|result|filled)\b"
)
_NAMED: Final = (("pulp", _PULP), ("after_kg", _AFTER), ("made_kg", _FINISHED), ("liquid", _LIQUID))
_SIMMERED: Final = re.compile(r"simmer|boil|cook")
_WORD: Final = re.compile(r"[^\W\d_]{4,}")


def servings_of(text: str, written: float) -> float:
    """For how many a batch was made.

    Parameters
    ----------
    text : str
        The batch file's text.
    written : float
        What the recipe says. [servings]

    Returns
    -------
    float
        The recipe's own where the file says nothing. [servings]
    """
    said = [fact for fact in record_of(text).facts if fact.kind == "serves"]
    if not said:
        return written
    last = said[-1]
    return last.value * written if last.name == "times" else last.value


def made_of(text: str, reading: Reading, day: str, file: str) -> Made:
    """What a batch file says was made.

    Parameters
    ----------
    text : str
        The file's text.
    reading : Reading
        The recipe as understood, at the batch's servings.
    day : str
        The batch's day, ISO 8601.
    file : str
        Its name, for messages.

    Returns
    -------
    Made
        Every fact in a figure, a remark or a mark.
    """
    record = record_of(text)
    weighing = weigh_in(record.readings, reading.lines, reading.kitchen)
    sorting = _Sorting(reading, weighing, [*weighing.marks, *record.marks])
    for fact in record.facts:
        sorting.take(fact)
    return replace(sorting.made(day, file), clocked=record.clocked)


def in_the_pot(reading: Reading) -> tuple[int, ...]:
    """Lines that are in the pot when it is first kept hot.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.

    Returns
    -------
    tuple of int
        Their numbers.
    """
    hot = [
        step.written.number
        for step in reading.steps
        for process in step.processes
        if process.appliance == "hob" and _SIMMERED.match(process.kind)
    ]
    first = first_named(reading)
    last = hot[0] if hot else 10_000
    return tuple(
        line.written.number
        for line in reading.lines
        if is_in_pot(line, first[line.written.number], last) and not is_at_table(line)
    )


@dataclass
class _Sorting:
    """Sorts facts into figures."""

    reading: Reading
    weighing: WeighIn
    marks: list[tuple[int, Mark]]
    figures: dict[str, Measured] = field(default_factory=dict)
    lines: dict[int, Measured] = field(default_factory=dict)
    around: dict[str, Measured] = field(default_factory=dict)
    events: dict[str, float] = field(default_factory=dict)
    food: list[tuple[int, float, float]] = field(default_factory=list)
    jars: list[tuple[float, float | None, str]] = field(default_factory=list)
    eaten: float | None = None
    tasted: list[str] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    filled: list[Fact] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Begin with what was weighed in."""
        for line in self.weighing.lines:
            if line.number is not None:
                at = line.differences[-1].at
                self.lines[line.number] = Measured(line.kg, line.half, at)
        if self.weighing.lost:
            gone = self.weighing.lost
            kg = -sum(one.kg for one in gone)
            self.figures["steam"] = Measured(kg, sum(one.half for one in gone), gone[-1].at)

    def take(self, fact: Fact) -> None:
        """Sort one fact."""
        {
            "weight": self._weight, "volume": self._volume, "energy": self._energy,
            "brix": self._brix, "jars": self._jars, "eaten": self._eaten,
            "tasted": self._tasted, "remark": self._remark, "temperature": self._temperature,
            "lasted": self._lasted, "event": self._event,
        }.get(fact.kind, self._nothing)(fact)  # fmt: skip

    def _nothing(self, fact: Fact) -> None:
        """For how many it was made is read before the recipe is."""

    def _volume(self, fact: Fact) -> None:
        self._figure("made_m3", fact, JUG.value * fact.value)

    def _energy(self, fact: Fact) -> None:
        before = self.figures.get("energy_kwh")
        kwh = fact.value + (before.value if before else 0.0)
        self.figures["energy_kwh"] = Measured(kwh, METER.value * kwh, fact.at)

    def _brix(self, fact: Fact) -> None:
        name = "brix_of_juice" if _LIQUID.search(f"{fact.name} {fact.text}".lower()) else "brix"
        self._figure(name, fact, SUGAR_METER.value)

    def _jars(self, fact: Fact) -> None:
        self.jars.append((fact.value, fact.each, fact.name))
        self.filled.append(fact)

    def _eaten(self, fact: Fact) -> None:
        self.eaten = fact.value

    def _tasted(self, fact: Fact) -> None:
        self.tasted.append(fact.name)

    def _remark(self, fact: Fact) -> None:
        self.remarks.append(fact.name)

    def _lasted(self, fact: Fact) -> None:
        if _SIMMERED.match(fact.name):
            self._figure("simmering_s", fact, WATCH.value)
        elif fact.name.startswith("heat"):
            self._figure("heating_s", fact, WATCH.value)
        else:
            self.remarks.append(fact.text)

    def _event(self, fact: Fact) -> None:
        if fact.time is not None:
            self.events.setdefault(fact.name, fact.time)

    def _figure(self, name: str, fact: Fact, half: float) -> None:
        before = self.figures.get(name)
        if before is not None and abs(before.value - fact.value) > before.half + half:
            says = (
                f"“{fact.text}” says another value than line {before.at} of the same thing; the "
                "first is kept. Strike one out."
            )
            self.marks.append((fact.at, Mark("doubt", "said-twice", says)))
            return
        self.figures.setdefault(name, Measured(fact.value, half, fact.at))

    def _weight(self, fact: Fact) -> None:
        """A weight by the words beside it; a vessel named there is taken off."""
        kg = self._without_vessel(fact)
        if kg is None:
            return
        step = self.weighing.state.step
        said = fact.name.lower()
        name = _figure_named(said, self.reading.recipe.title)
        found = lines_meant(said, self.reading.lines, frozenset())
        if found.sure and name in {"", "title"}:
            number = found.lines[0].written.number
            self.lines.setdefault(number, Measured(kg, step, fact.at))
        elif name:
            weighed = Fact(fact.at, fact.text, "weight", kg, fact.name)
            self._figure("made_kg" if name == "title" else name, weighed, step)
        else:
            says = (
                f"“{fact.text}”: the weight of what? Say it beside the number, such as “pulp 870 g”, "
                "“juice 1.4 kg”, “after simmering 2.9 kg” or “made 1.5 kg”. It is not counted."
            )
            self.marks.append((fact.at, Mark("doubt", "weight-of-what", says)))

    def _without_vessel(self, fact: Fact) -> float | None:
        """A weight less that of the vessel its line names; None where that cannot be. [kg]"""
        vessel = vessel_in(fact.text, self.reading.kitchen)
        if vessel is None:
            return fact.value
        if vessel.empty_kg is None:
            kind, says = (
                "unknown-vessel",
                f"The kitchen file does not say what the {vessel.name} weighs",
            )
            says += " empty. Not counted: weigh it once and write it there."
        elif fact.value < vessel.empty_kg:
            kind, says = (
                "less-than-empty",
                f"“{fact.text}” is less than the {vessel.name} weighs empty.",
            )
            says += " Not counted."
        else:
            return fact.value - vessel.empty_kg
        self.marks.append((fact.at, Mark("fault", kind, says)))
        return None

    def _temperature(self, fact: Fact) -> None:
        if fact.name != "food":
            self.around[fact.name] = Measured(fact.value, THERMOMETER.value, fact.at)
            return
        boil = float(boiling_point(self.reading.kitchen.altitude_m))
        if fact.value > boil + 8.0:
            celsius = fact.value - ZERO_CELSIUS
            says = (
                f"“{fact.text}”: {celsius:.4g} °C is above the boil here ({boil - ZERO_CELSIUS:.3g} °C). "
                f"Is it {celsius:.4g} °F? It is not counted."
            )
            choices = (f"{celsius:.4g} °F",)
            self.marks.append((fact.at, Mark("fault", "above-the-boil", says, choices)))
        elif fact.time is None:
            says = f"“{fact.text}”: when? A temperature needs its time. It is kept as a remark."
            self.marks.append((fact.at, Mark("note", "without-a-time", says)))
            self.remarks.append(fact.text)
        else:
            self.food.append((fact.at, fact.time, fact.value))

    def made(self, day: str, file: str) -> Made:
        """All of it, with what follows from two figures."""
        self._spans()
        self._steam()
        self._filled()
        warm, cool = self._courses()
        return Made(
            day, file, self.reading.serves, self.lines, self.figures, self.around, warm, cool,
            self.events, tuple(self.jars), self.eaten, tuple(self.tasted), tuple(self.remarks),
            self.weighing, tuple(sorted(self.marks, key=lambda pair: pair[0])),
        )  # fmt: skip

    def _spans(self) -> None:
        on, boil, off = (self.events.get(name) for name in ("on", "boil", "off"))
        if on is not None and boil is not None and boil > on:
            self.figures.setdefault("heating_s", Measured(boil - on, 2 * WATCH.value, 0))
        if boil is not None and off is not None and off > boil:
            self.figures.setdefault("simmering_s", Measured(off - boil, 2 * WATCH.value, 0))

    def _steam(self) -> None:
        """What boiled off, from what was in the pot before and after."""
        after = self.figures.pop("after_kg", None)
        if after is None or "steam" in self.figures:
            return
        cooked = in_the_pot(self.reading)
        known = [self.lines[number] for number in cooked if number in self.lines]
        missing = [number for number in cooked if number not in self.lines]
        if missing:
            names = ", ".join(
                line.split.name for line in self.reading.lines if line.written.number in missing
            )
            says = f"What boiled off cannot be told: {names} went in unweighed."
            self.marks.append((after.at, Mark("note", "steam-unknown", says)))
            return
        kg = sum(one.value for one in known) - after.value
        half = sum(one.half for one in known) + after.half
        if kg < -half:
            says = (
                f"After cooking there is {-1000 * kg:.0f} g more in the pot than went in. Was the "
                "vessel weighed with it? Name it in the line. It is not counted."
            )
            self.marks.append((after.at, Mark("fault", "more-than-went-in", says)))
            return
        self.figures["steam"] = Measured(max(kg, 0.0), half, after.at)

    def _filled(self) -> None:
        if self.filled and all(fact.each is not None for fact in self.filled):
            cubic = sum(fact.value * (fact.each or 0.0) for fact in self.filled)
            self.figures.setdefault(
                "made_m3", Measured(cubic, JUG.value * cubic, self.filled[-1].at)
            )

    def _courses(self) -> tuple[tuple[tuple[float, float], ...], tuple[tuple[float, float], ...]]:
        """Temperatures while it warmed, and while it cooled: parted at the hottest, or at “off”."""
        points = sorted((time, kelvin) for _, time, kelvin in self.food)
        if not points:
            return (), ()
        off = self.events.get("off")
        if off is None:
            hottest = max(points, key=lambda point: point[1])
            off = hottest[0] if hottest is not points[-1] or len(points) == 1 else float("inf")
        warm = tuple(point for point in points if point[0] < off)
        return warm, tuple(point for point in points if point[0] >= off)


def _figure_named(said: str, title: str) -> str:
    """The figure that words beside a weight mean; "title" where they name the dish."""
    for name, words in _NAMED:
        if words.search(said):
            return name
    return "title" if _stems(said) & _stems(title) else ""


def _stems(text: str) -> frozenset[str]:
    return frozenset(word.rstrip("s") for word in _WORD.findall(text.lower()))
