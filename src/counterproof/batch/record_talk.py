"""The small language of a batch record: what was weighed, timed, measured and tasted, line by line.

A line may say several things: `11:40 into 5 pint jars, 230 ml each, 71 °C`. What cannot be read is
kept as a remark, and where it holds a number it is asked about; a temperature without its unit is
asked about too, never guessed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final, Literal

from counterproof.batch.record_words import (
    AMBIENT,
    BRIX,
    BULLET,
    CLOCK,
    EATEN,
    EVENTS,
    HEADING,
    INTO,
    JARS,
    JARS_SIZED,
    KWH,
    LASTED,
    LATER,
    METER,
    SERVES,
    SHARES,
    SPAN,
    TASTED,
    TEMPERATURE,
    TIMES,
    VOLUME,
    N,
)
from counterproof.batch.weights import WEIGHT, weight_of
from counterproof.marks import Level, Mark
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.recipe.servings import number_said
from counterproof.units import measure_named, unit_ml

Kind = Literal[
    "event", "temperature", "weight", "volume", "energy", "brix", "jars", "eaten", "tasted",
    "lasted", "serves", "remark",
]  # fmt: skip
WEIGHED_IN: Final = re.compile(
    r"(?:weighed[- ]in|weigh[- ]in|weights?|weighed|scales?|on the scale)\b", re.IGNORECASE
)
"""Heading of a section of scale readings."""
LONGEST: Final = 300
"""Characters of a line that are searched for measurements: assumed; a longer one is a story, and
is kept as a remark."""
DAY: Final = 86400.0  # [s]


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing a record says.

    Parameters
    ----------
    at : int
        Line of the file, from 1.
    text : str
        The line as written.
    kind : Kind
        What kind of thing it is.
    value : float
        How much. [K, kg, m³, kWh, °Bx, 1 or s, by kind]
    name : str
        Of what: the words beside it; of an event its name.
    time : float or None
        When, since midnight of the batch's day, or since the first event where no clock is
        given. [s]
    each : float or None
        Of jars: what is in one. [m³]
    """

    at: int
    text: str
    kind: Kind
    value: float = 0.0
    name: str = ""
    time: float | None = None
    each: float | None = None


@dataclass(frozen=True)
class Record:
    """A batch file as it was read.

    Parameters
    ----------
    facts : tuple of Fact
        In the order written.
    readings : str
        Scale readings, with an empty line for each line of the file before and between them, so
        that their lines are numbered as in the file.
    marks : tuple of (int, Mark)
        By line of the file.
    clocked : bool
        Whether times are of day; else they count from when the first was taken.
    """

    facts: tuple[Fact, ...]
    readings: str
    marks: tuple[tuple[int, Mark], ...]
    clocked: bool = False


def record_of(text: str) -> Record:
    """Read a batch file.

    Parameters
    ----------
    text : str
        The file's text.

    Returns
    -------
    Record
        Every line in facts, readings or marks; headings and comments say nothing.
    """
    reader = _Reader()
    for at, line in enumerate(text.splitlines(), 1):
        reader.take(at, line)
    return reader.record()


_Teller = Callable[[int, str, str, "re.Match[str]"], "Fact | None"]
"""What makes a fact of what stands in a line: its number, its words, what is left, where."""


@dataclass
class _Reader:
    """Takes a file's lines one by one; remembers clock and section."""

    facts: list[Fact] = field(default_factory=list)
    readings: list[str] = field(default_factory=list)
    marks: list[tuple[int, Mark]] = field(default_factory=list)
    scale: bool = False
    anchor: float = 0.0
    clock: float | None = None
    fresh: bool = True

    def take(self, at: int, line: str) -> None:
        """Take one line."""
        heading = HEADING.fullmatch(line.strip())
        if heading is not None:
            self.scale = WEIGHED_IN.match(heading["title"]) is not None
            self.readings.append("")
            self.fresh = True
            return
        if self.scale:
            self.readings.append(line)
            return
        self.readings.append("")
        said = BULLET.sub("", line, count=1).strip()
        if not said or said.startswith(("<!--", "---")):
            return
        self._say(at, said)

    def _say(self, at: int, said: str) -> None:
        if len(said) > LONGEST:
            self.facts.append(Fact(at, said, "remark", name=said))
            return
        tasted = TASTED.match(said)
        if tasted is not None:
            self.facts.append(Fact(at, said, "tasted", name=tasted["words"] or said))
            return
        before = len(self.facts)
        marked = len(self.marks)
        rest, time, event = self._when(at, said)
        self._measured(at, said, rest, time)
        if event:
            self.facts.append(Fact(at, said, "event", name=event, time=time))
        if len(self.facts) == before and len(self.marks) == marked:
            self.facts.append(Fact(at, said, "remark", name=said, time=time))
            if re.search(r"\d", rest):
                self._mark(
                    at, "doubt", "not-read",
                    f"“{said}” is kept as a remark: its number is not understood. Give it a unit "
                    "and say what was measured, such as “pulp 870 g” or “0.45 kWh”.",
                )  # fmt: skip

    def _when(self, at: int, said: str) -> tuple[str, float | None, str]:
        """What is left of a line without its time, when it was, and what happened then."""
        clock = CLOCK.search(said)
        later = LATER.search(said)
        time: float | None = None
        rest = said
        if clock is not None:
            time = self._of_day(at, clock)
            rest = f"{said[: clock.start()]} {said[clock.end() :]}"
        elif later is not None and LASTED.search(said) is None:
            time = self.anchor + _seconds(later["span"])
            rest = f"{said[: later.start()]} {said[later.end() :]}"
        bare = LASTED.sub(" ", rest)
        event = (
            next((name for name, pattern in EVENTS if pattern.search(bare)), "")
            if time is not None
            else ""
        )
        if clock is not None and time is not None and (event or self.fresh):
            self.anchor, self.fresh = time, False
        return rest, time, event

    def _of_day(self, at: int, clock: re.Match[str]) -> float:
        hours = int(clock["h"])
        half = (clock["half"] or "").lower()
        if half and hours <= 12:
            hours = hours % 12 + (12 if half == "pm" else 0)
        time = 3600.0 * hours + 60.0 * int(clock["m"])
        if self.clock is not None:
            days = int(self.clock // DAY)
            time += DAY * days
            if time < self.clock - DAY / 2:  # past midnight
                time += DAY
            elif time < self.clock - 1e-9:
                self._mark(
                    at, "doubt", "time-goes-back",
                    f"{clock[0].strip()} comes after a later time. It is taken as written; put the "
                    "lines in order, or correct the time.",
                )  # fmt: skip
        self.clock = max(time, self.clock or 0.0)
        return time

    def _measured(self, at: int, said: str, rest: str, time: float | None) -> None:
        """All that a line measures, each stretch read once."""
        rest = self._each(at, said, rest, LASTED, self._lasted)
        for pattern, reader in (
            (SERVES, self._serves), (EATEN, self._eaten), (BRIX, self._brix),
            (METER, self._meter), (KWH, self._energy), (JARS_SIZED, self._jars),
            (JARS, self._jars),
        ):  # fmt: skip
            rest = self._each(at, said, rest, pattern, reader)
        rest = self._temperatures(at, said, rest, time)
        rest = self._each(at, said, rest, VOLUME, self._volume)
        self._weights(at, said, rest, time)

    def _each(
        self, at: int, said: str, rest: str, pattern: re.Pattern[str], reader: _Teller
    ) -> str:
        for found in pattern.finditer(rest):
            fact = reader(at, said, rest, found)
            if fact is not None:
                self.facts.append(fact)
        return pattern.sub(" ", rest)

    def _lasted(self, at: int, said: str, _: str, found: re.Match[str]) -> Fact:
        return Fact(at, said, "lasted", _seconds(found["span"]), found["what"].lower())

    def _serves(self, at: int, said: str, _: str, found: re.Match[str]) -> Fact:
        number = found["n"] or found["m"]
        if number:
            return Fact(at, said, "serves", float(number), "servings")
        return Fact(at, said, "serves", TIMES[found["word"].lower()], "times")

    def _eaten(self, at: int, said: str, _: str, found: re.Match[str]) -> Fact:
        number = found["n"] or found["m"]
        word = (found["word"] or found["pre"] or "").lower()
        return Fact(at, said, "eaten", _float(number) / 100.0 if number else SHARES[word])

    def _brix(self, at: int, said: str, rest: str, found: re.Match[str]) -> Fact:
        name = _beside(rest, found)
        return Fact(at, said, "brix", _float(found["n"] or found["m"]), name)

    def _meter(self, at: int, said: str, rest: str, found: re.Match[str]) -> Fact | None:
        kwh = _float(found["b"]) - _float(found["a"])
        if kwh < 0.0:
            self._mark(
                at, "fault", "meter-goes-back",
                f"“{said}”: the meter shows less after than before. It is not counted; correct it.",
            )  # fmt: skip
            return None
        return Fact(at, said, "energy", kwh, _beside(rest, found))

    def _energy(self, at: int, said: str, rest: str, found: re.Match[str]) -> Fact:
        per = 1.0 if found["u"].lower() == "kwh" else 0.001
        return Fact(at, said, "energy", _float(found["n"]) * per, _beside(rest, found))

    def _jars(self, at: int, said: str, rest: str, found: re.Match[str]) -> Fact:
        number = found["n"].lower()
        count = 12.0 if number == "a dozen" else number_said(number)
        each = None
        if found["each"]:
            each = _cubic(found["each"], found["u"])
        else:
            beside = VOLUME.search(rest, found.end()) or VOLUME.search(rest)
            if beside is not None and re.search(r"\beach\b|\bper\b|filled to", rest, re.IGNORECASE):
                each = _cubic(beside["n"], beside["u"])
        return Fact(at, said, "jars", count, (found["what"] or "jars").strip(), each=each)

    def _volume(self, at: int, said: str, rest: str, found: re.Match[str]) -> Fact | None:
        cubic = _cubic(found["n"], found["u"])
        if any(fact.at == at and fact.each == cubic for fact in self.facts):
            return None  # said of the jars
        return Fact(at, said, "volume", cubic, _beside(rest, found))

    def _temperatures(self, at: int, said: str, rest: str, time: float | None) -> str:
        for found in TEMPERATURE.finditer(rest):
            unit = (found["u"] or found["v"] or found["w"] or "").upper()[:1]
            number = _float(found["n"].replace("−", "-"))
            if not unit:
                self._mark(
                    at, "fault", "which-degrees",
                    f"“{said}”: {number:g} degrees of which scale? It is not counted. Write "
                    f"{number:g} °C or {number:g} °F.",
                    (f"{number:g} °C", f"{number:g} °F"),
                )  # fmt: skip
                continue
            kelvin = {
                "C": number + ZERO_CELSIUS, "F": (number + 459.67) * 5 / 9, "K": number
            }[unit]  # fmt: skip
            lead = rest[: found.start()]
            ambient = AMBIENT.search(lead)
            where = "food"
            if ambient is not None and not INTO.search(lead[: ambient.start("where")]):
                word = ambient["where"].lower()
                where = {"refrigerator": "fridge", "hall": "room", "kitchen": "room"}.get(
                    word, word
                )
                where = "tap" if "tap" in where else where
            self._not_twice(Fact(at, said, "temperature", kelvin, where, time))
        left = TEMPERATURE.sub(" ", rest)
        bare = re.fullmatch(rf"[\s,;:-]*(?P<n>{N})[\s,;.]*", left)
        if bare is not None and time is not None and left == rest:
            self._mark(
                at, "fault", "which-degrees",
                f"“{said}”: {bare['n']} of what? If it is a temperature, write {bare['n']} °C or "
                f"{bare['n']} °F. It is not counted.",
                (f"{bare['n']} °C", f"{bare['n']} °F"),
            )  # fmt: skip
            return " "
        return left

    def _not_twice(self, fact: Fact) -> None:
        """Keep a temperature, unless another of the same thing was read at the same time."""
        for place, other in enumerate(self.facts):
            same = other.kind == "temperature" and other.name == fact.name
            if not (same and other.time == fact.time and fact.time is not None):
                continue
            if abs(other.value - fact.value) > 0.05:
                del self.facts[place]
                self._mark(
                    fact.at, "fault", "two-readings",
                    f"Two temperatures at one time, {other.value - ZERO_CELSIUS:.4g} and "
                    f"{fact.value - ZERO_CELSIUS:.4g} °C: neither is counted. Strike one out, or "
                    "correct its time.",
                )  # fmt: skip
            return
        self.facts.append(fact)

    def _weights(self, at: int, said: str, rest: str, time: float | None) -> None:
        for found in WEIGHT.finditer(rest):
            weight = weight_of(found, "g")
            if weight.stated:
                self.facts.append(Fact(at, said, "weight", weight.kg, _beside(rest, found), time))

    def _mark(
        self, at: int, level: Level, kind: str, message: str, choices: tuple[str, ...] = ()
    ) -> None:
        self.marks.append((at, Mark(level, kind, message, choices)))

    def record(self) -> Record:
        """All of it."""
        clocked = self.clock is not None
        return Record(tuple(self.facts), "\n".join(self.readings), tuple(self.marks), clocked)


def _beside(rest: str, found: re.Match[str]) -> str:
    """The words around a quantity, up to the next comma."""
    before = re.split(r"[,;]", rest[: found.start()])[-1]
    after = re.split(r"[,;]", rest[found.end() :])[0]
    return re.sub(r"\s+", " ", f"{before} {after}").strip(" .:–-")


def _float(text: str) -> float:
    return float(text.replace(",", "."))


def _cubic(number: str, unit: str) -> float:
    return _float(number) * unit_ml(measure_named(unit) or "ml") * 1e-6


def _seconds(span: str) -> float:
    found = re.fullmatch(SPAN, span.strip(), re.IGNORECASE)
    if found is None:
        return 0.0
    return 3600.0 * _float(found["h"] or "0") + 60.0 * _float(found["m"] or "0")
