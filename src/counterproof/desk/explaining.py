"""Any number explained: how it came about, its percentiles drawn, its sources.

Most numbers carry their derivation in the proof. Here the rest is told: what a reading was unsure
of, what was assumed and where it is changed, what a mark rests on.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from counterproof import numerals
from counterproof.desk.leaves import leaf, mark_key
from counterproof.draws import Range
from counterproof.errors import UnreadableFile
from counterproof.numerals import Shown
from counterproof.press import footing, intervals, wording
from counterproof.press.drawing import set_in
from counterproof.press.plain_text import printable
from counterproof.proof import Derivation, Edition, Term

_MID: Final = "50%"
_IN_THEIR_OWN: Final = frozenset({"kg", "kWh"})
_LEVELS: Final = {
    "note": "A note: it stands, but is worth knowing.",
    "doubt": "A doubt: a choice is open, and the figure stands on the first one.",
    "fault": "A fault: it is not counted.",
}
_IN_WORDS: Final = Range(0.0, 0.0, 0.0, 0.0)
"""Stands where what is explained is told in words and has no value of its own."""


def explained(edition: Edition, key: str, more: Sequence[Derivation] = ()) -> str:
    """Return the derivation of a number as a piece of the page.

    Parameters
    ----------
    edition : Edition
        The proof it stands in.
    key : str
        Which number: "line:3", "mass:3", "serving", "stage:packaging", …
    more : sequence of Derivation
        What a script adds to the proof's own.

    Returns
    -------
    str
        HTML.

    Raises
    ------
    UnreadableFile
        If the proof has no such number.
    """
    found = derivation(edition, key, more)
    if found is None:
        raise UnreadableFile(
            "The proof holds no such number any more.", remedy="Close this and ask again."
        )
    sources = {source.id: source for source in edition.sources}

    def cited(term: Term) -> str:
        source = sources.get(term.source)
        told = (source.citation if source else term.source, term.locator)
        return "; ".join(printable(part) for part in told if part)

    value, drawn, axis = found.value, set_in(""), set_in("")
    if value.p05 != value.p95:
        scale = intervals.common_scale([value])
        title = f"{found.name}: {shown(value, found.unit, edition.middle)}"
        interval = intervals.interval(scale, value, edition.middle, title=title, y=_MID)
        drawn, axis = set_in(interval), set_in(intervals.axis(scale, title=f"Scale, {found.unit}"))
    return str(
        leaf(
            "why.html.j2",
            of=found,
            worth="" if value is _IN_WORDS else shown(value, found.unit, edition.middle),
            drawn=drawn,
            axis=axis,
            percentiles="" if not drawn else _percentiles(value, found.unit, edition.middle),
            terms=[
                (term, "" if term.value is None else shown(term.value, term.unit, edition.middle))
                for term in found.terms
            ],
            cited=cited,
        )
    )


def derivation(edition: Edition, key: str, more: Sequence[Derivation] = ()) -> Derivation | None:
    """Return how a number came about.

    Parameters
    ----------
    edition : Edition
        The proof.
    key : str
        Which number.
    more : sequence of Derivation
        What a script adds to the proof's own.

    Returns
    -------
    Derivation or None
        The proof's own; else what the proof tells of it in words. None where it has no such
        number.
    """
    for found in (*edition.derivations, *more):
        if found.key == key:
            return found
    kind, _, name = key.partition(":")
    make = _TOLD.get(kind)
    return None if make is None else make(edition, key, name)


def shown(value: Range, unit: str, middle: str) -> str:
    """Return a value of a derivation with the digits it deserves, in its own unit.

    Parameters
    ----------
    value : Range
        The value. [`unit`]
    unit : str
        Its unit; "" for a plain number.
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    str
        One phrase.
    """
    if unit == "share":
        return numerals.percent(numerals.middle_value(value, middle))
    if value.p05 == value.p95 and unit not in _IN_THEIR_OWN:
        return f"{numerals.plain(value.mean, 3)}{numerals.SPACE}{unit}".strip()
    return _rounded(value, unit, middle).text


def _rounded(value: Range, unit: str, middle: str) -> Shown:
    """A range with the digits it deserves; masses and energy in the unit that is read."""
    if unit == "kg":
        return numerals.mass(value, middle)
    if unit == "kWh":
        return numerals.energy(value, middle)
    return numerals.shown(value, middle, unit)


def _percentiles(value: Range, unit: str, middle: str) -> str:
    """Where the draws lie, in words, every number rounded as the value itself is."""
    told = _rounded(value, unit, middle)
    median = f", the median at {told.median}" if told.median else ""
    return (
        f"The line runs from the 5th to the 95th percentile, {told.span}"
        f"{numerals.SPACE}{told.unit}; the stroke stands at the {middle}{median}."
    )


def _one(value: float) -> Range:
    return Range(value, value, value, value)


def _at(name: str, rows: int) -> int | None:
    """A place counted from one, if there is one of that number."""
    place = int(name) - 1 if name.isdecimal() and len(name) < 6 else -1
    return place if 0 <= place < rows else None


def _yield(edition: Edition, key: str, name: str) -> Derivation:
    del name
    terms = (
        Term("servings, as written or as asked", _one(edition.serves)),
        Term("what goes in, less what leaves the pot, shared out among them"),
        Term("one serving and what it sums", opens="serving"),
    )
    kg = edition.serving_mass_kg
    return Derivation(key, wording.yield_(edition), _IN_WORDS if kg is None else _one(kg), "kg", terms)  # fmt: skip


def _attention(edition: Edition, key: str, name: str) -> Derivation:
    del name
    terms = tuple(Term(mark.message) for mark in wording.all_marks(edition) if mark.level != "note")
    return Derivation(key, wording.attention(edition), _IN_WORDS, "", terms)


def _reading(edition: Edition, key: str, name: str) -> Derivation | None:
    line = next((one for one in edition.lines if str(one.number) == name), None)
    if line is None:
        return None
    terms = tuple(
        Term(food, _one(share), "share")
        for food, share in ((line.food or "no food", line.certainty), *line.runners_up)
    )
    says = f"how surely “{line.as_written}” is {line.food}"
    return Derivation(key, says, _one(line.certainty), "share", terms)


def _understood(edition: Edition, key: str, name: str) -> Derivation | None:
    step = next((one for one in edition.steps if str(one.number) == name), None)
    if step is None:
        return None
    terms = [Term(f"written: {step.as_written}")]
    if step.kwh is not None:
        terms.append(Term("energy it takes", step.kwh, "kWh", opens=f"kwh:{name}"))
    if step.kgco2e is not None:
        terms.append(Term("of one serving", step.kgco2e, numerals.CO2E, opens=f"step:{name}"))
    return Derivation(key, step.understood, _IN_WORDS, "", tuple(terms))


def _opinion(edition: Edition, key: str, name: str) -> Derivation | None:
    place = _at(name, len(edition.second_opinion))
    if place is None:
        return None
    called, value, covered = edition.second_opinion[place]
    terms = (
        Term(f"every line valued in the {called} set, where it has a factor there"),
        Term("of the mass has one", _one(covered), "share"),
    )
    return Derivation(key, f"one serving in the {called} set", _one(value), numerals.CO2E, terms)


def _coverage(edition: Edition, key: str, name: str) -> Derivation:
    del name
    terms = tuple(
        Term(f"by a factor that fits as: {fit}", _one(share), "share")
        for fit, share in edition.coverage_by_fit.items()
    )
    says = "share of the mass that has a factor"
    return Derivation(key, says, _one(edition.coverage_mass), "share", terms)


def _settle(edition: Edition, key: str, name: str) -> Derivation | None:
    place = _at(name, len(edition.settle_next))
    if place is None:
        return None
    what, share = edition.settle_next[place]
    terms = (
        Term("how much of the total’s variance goes with this one input, over all draws"),
        Term("the total it is a share of", edition.serving, numerals.CO2E, opens="serving"),
    )
    return Derivation(key, what, _one(share), "share", terms)


def _time(edition: Edition, key: str, name: str) -> Derivation | None:
    del name
    if edition.timeline is None:
        return None
    terms = tuple(
        Term(f"{task.does}: {task.says}", opens=f"task:{at}")
        for at, task in enumerate(edition.timeline.tasks, start=1)
    )
    return Derivation(key, wording.TIME_RULE, _IN_WORDS, "", terms)


def _task(edition: Edition, key: str, name: str) -> Derivation | None:
    tasks = () if edition.timeline is None else edition.timeline.tasks
    place = _at(name, len(tasks))
    if place is None:
        return None
    task = tasks[place]
    low, middle, high = (seconds / 60.0 for seconds in task.lasts)
    terms = (
        Term("needs hands" if task.hands_on else "waits"),
        *((Term("the step it belongs to", opens=f"understood:{task.step}"),) if task.step else ()),
        Term("stated in the step, or modelled or assumed where the recipe does not say"),
    )
    return Derivation(key, f"{task.does}: {task.says}", Range(middle, low, middle, high), "min", terms)  # fmt: skip


def _assumed(edition: Edition, key: str, name: str) -> Derivation | None:
    place = _at(name, len(edition.assumed))
    if place is None:
        return None
    terms = (Term("Assumed because nothing written says otherwise; what you write takes its place."),)  # fmt: skip
    return Derivation(key, edition.assumed[place], _IN_WORDS, "", terms)


def _caution(edition: Edition, key: str, name: str) -> Derivation | None:
    place = _at(name, len(edition.cautions))
    if place is None:
        return None
    terms = (Term("The rule and its source stand in the caution; local rules come first."),)
    return Derivation(key, edition.cautions[place], _IN_WORDS, "", terms)


def _basis(edition: Edition, key: str, name: str) -> Derivation | None:
    rows = footing.basis_rows(edition)
    place = _at(name, len(rows))
    if place is None:
        return None
    terms = (Term("With recipe, kitchen and tables it gives the same figures again."),)
    return Derivation(key, f"{rows[place][0]}: {rows[place][1]}", _IN_WORDS, "", terms)


def _mark(edition: Edition, key: str, name: str) -> Derivation | None:
    del name
    beside = [(f"beside: {line.as_written}", mark) for line in edition.lines for mark in line.marks]
    beside += [
        (f"beside: {step.as_written}", mark) for step in edition.steps for mark in step.marks
    ]
    beside += [("about the recipe as a whole", mark) for mark in edition.marks]
    for where, mark in beside:
        if mark_key(mark) == key:
            terms = (Term(where), Term(_LEVELS[mark.level]))
            return Derivation(key, mark.message, _IN_WORDS, "", terms)
    return None


_TOLD: Final[dict[str, Callable[[Edition, str, str], Derivation | None]]] = {
    "assumed": _assumed,
    "attention": _attention,
    "basis": _basis,
    "caution": _caution,
    "coverage": _coverage,
    "mark": _mark,
    "opinion": _opinion,
    "reading": _reading,
    "settle": _settle,
    "task": _task,
    "time": _time,
    "understood": _understood,
    "yield": _yield,
}
