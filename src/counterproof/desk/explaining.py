"""Any number explained: how it came about, its percentiles drawn, its sources."""

from __future__ import annotations

from typing import Final

from counterproof import numerals
from counterproof.desk.leaves import leaf
from counterproof.draws import Range
from counterproof.errors import UnreadableFile
from counterproof.press import giving, intervals, wording
from counterproof.press.setting import set_in
from counterproof.proof import Derivation, Edition, LineProof, Term

_MID: Final = "50%"


def explained(edition: Edition, key: str) -> str:
    """Return the derivation of a number as a piece of the page.

    Parameters
    ----------
    edition : Edition
        The proof it stands in.
    key : str
        Which number: "line:3", "mass:3", "serving", "stage:packaging", …

    Returns
    -------
    str
        HTML.

    Raises
    ------
    UnreadableFile
        If the proof has no such number.
    """
    found = derivation(edition, key)
    if found is None:
        raise UnreadableFile(
            "The proof holds no such number any more.", remedy="Close this and ask again."
        )
    sources = {source.id: source for source in edition.sources}
    drawn = ""
    if not _exact(found.value):
        scale = intervals.common_scale([found.value])
        drawn = set_in(
            intervals.interval(scale, found.value, edition.middle, title=found.name, y=_MID)
        )
        axis = set_in(intervals.axis(scale, title=f"Scale, {found.unit}"))
    else:
        axis = set_in("")
    return str(leaf("why.html.j2", of=found, drawn=drawn, axis=axis, sources=sources, shown=_shown))


def derivation(edition: Edition, key: str) -> Derivation | None:
    """Return how a number came about.

    Parameters
    ----------
    edition : Edition
        The proof.
    key : str
        Which number.

    Returns
    -------
    Derivation or None
        The proof's own; else what the proof tells of it in words. None where it has no such
        number.
    """
    for found in edition.derivations:
        if found.key == key:
            return found
    kind, _, name = key.partition(":")
    make = _TOLD.get(kind)
    return None if make is None else make(edition, name)


def _exact(value: Range) -> bool:
    return value.p05 == value.p95


def _shown(value: Range, unit: str, middle: str) -> str:
    """A term's value with the digits it deserves, in its own unit."""
    if unit == "kg":
        return numerals.mass(value, middle).text
    if unit == "kWh":
        return numerals.energy(value, middle).text
    if unit in {"1", "share"}:
        return numerals.percent(numerals.middle_value(value, middle))
    if _exact(value):
        return f"{numerals.plain(value.mean)}{numerals.SPACE}{unit}".strip()
    return numerals.shown(value, middle, unit).text


def _one(value: float) -> Range:
    return Range(value, value, value, value)


def _numbered(name: str, rows: int) -> int | None:
    place = int(name) - 1 if name.isdecimal() and len(name) < 6 else -1
    return place if 0 <= place < rows else None


def _line(edition: Edition, name: str) -> LineProof | None:
    return next((line for line in edition.lines if str(line.number) == name), None)


def _of_serving(edition: Edition, name: str) -> Derivation | None:
    del name
    terms = [
        Term(line.as_written, line.kgco2e, numerals.CO2E, line.source or "")
        for line in edition.lines
        if line.kgco2e is not None
    ]
    terms += [
        Term(step.as_written, step.kgco2e, numerals.CO2E)
        for step in edition.steps
        if step.kgco2e is not None
    ]
    terms += [Term(one.name, one.kgco2e, numerals.CO2E, one.source) for one in edition.activities]
    return Derivation("serving", wording.sum_of(edition), edition.serving, numerals.CO2E, tuple(terms))  # fmt: skip


def _of_yield(edition: Edition, name: str) -> Derivation | None:
    del name
    terms = (
        Term("servings, as written or as asked", _one(edition.serves)),
        Term("everything that goes in, less what leaves the pot, shared out among them"),
    )
    kg = edition.serving_mass_kg or 0.0
    return Derivation("yield", wording.yield_(edition), _one(kg), "kg", terms)


def _of_line(edition: Edition, name: str) -> Derivation | None:
    line = _line(edition, name)
    if line is None or line.kgco2e is None:
        return None
    terms = [Term(f"written: {line.as_written}")]
    if line.mass_kg is not None:
        terms.append(Term(f"{line.food}, {line.quantity}, in the whole batch", line.mass_kg, "kg"))
    terms.append(Term(line.factor or "", None, "", line.source or ""))
    terms += [Term(f"of it {stage}", _one(value), numerals.CO2E) for stage, value in line.stages.items()]  # fmt: skip
    if line.share is not None:
        terms.append(Term("of the serving’s total", _one(line.share), "share"))
    return Derivation(f"line:{name}", line.as_written, line.kgco2e, numerals.CO2E, tuple(terms))


def _of_mass(edition: Edition, name: str) -> Derivation | None:
    line = _line(edition, name)
    if line is None or line.mass_kg is None:
        return None
    terms = (Term(f"written: {line.as_written}"), Term(f"understood: {line.quantity}"))
    return Derivation(f"mass:{name}", f"{line.food}, what goes in", line.mass_kg, "kg", terms)


def _of_reading(edition: Edition, name: str) -> Derivation | None:
    line = _line(edition, name)
    if line is None:
        return None
    terms = tuple(
        Term(food, _one(share), "share")
        for food, share in ((line.food or "no food", line.certainty), *line.runners_up)
    )
    says = f"how surely “{line.as_written}” is {line.food}"
    return Derivation(f"reading:{name}", says, _one(line.certainty), "share", terms)


def _of_step(edition: Edition, name: str) -> Derivation | None:
    step = next((one for one in edition.steps if str(one.number) == name), None)
    if step is None or step.kgco2e is None:
        return None
    terms = [Term(f"written: {step.as_written}"), Term(f"understood: {step.understood}")]
    if step.kwh is not None:
        terms.append(Term("energy for the whole batch", step.kwh, "kWh"))
    return Derivation(f"step:{name}", step.as_written, step.kgco2e, numerals.CO2E, tuple(terms))


def _of_energy(edition: Edition, name: str) -> Derivation | None:
    step = next((one for one in edition.steps if str(one.number) == name), None)
    if step is None or step.kwh is None:
        return None
    terms = (Term(f"written: {step.as_written}"), Term(f"understood: {step.understood}"))
    return Derivation(f"energy:{name}", "energy of this step", step.kwh, "kWh", terms)


def _of_stage(edition: Edition, name: str) -> Derivation | None:
    value = dict(edition.stages).get(name)
    if value is None:
        return None
    terms = [
        Term(line.as_written, _one(line.stages[name]), numerals.CO2E, line.source or "")
        for line in edition.lines
        if line.stages.get(name)
    ]
    terms += [
        Term(one.name, one.kgco2e, numerals.CO2E, one.source)
        for one in edition.activities
        if one.stage == name
    ]
    if name == "cooking":
        terms += [Term(step.as_written, step.kgco2e, numerals.CO2E) for step in edition.steps if step.kgco2e]  # fmt: skip
    return Derivation(f"stage:{name}", f"{name}, of one serving", value, numerals.CO2E, tuple(terms))  # fmt: skip


def _of_version(edition: Edition, name: str) -> Derivation | None:
    version = next((one for one in edition.versions if one.name == name), None)
    if version is None:
        return None
    terms = [Term(change) for change in version.changes]
    if version.difference is not None:
        terms.append(Term("version less recipe, draw by draw", version.difference, numerals.CO2E))
    if version.ratio is not None:
        terms.append(Term("ratio of the means", _one(version.ratio), ""))
    if version.share_lower is not None:
        terms.append(Term("draws in which it is lower", _one(version.share_lower), "share"))
    terms += [Term(remark) for remark in version.remarks]
    return Derivation(f"version:{name}", f"{name}, one serving", version.serving, numerals.CO2E, tuple(terms))  # fmt: skip


def _of_opinion(edition: Edition, name: str) -> Derivation | None:
    place = _numbered(name, len(edition.second_opinion))
    if place is None:
        return None
    called, value, covered = edition.second_opinion[place]
    terms = (
        Term(f"every line valued in the {called} set, where it has a factor"),
        Term("of the mass has one there", _one(covered), "share"),
    )
    return Derivation(f"opinion:{name}", f"one serving in the {called} set", _one(value), numerals.CO2E, terms)  # fmt: skip


def _of_coverage(edition: Edition, name: str) -> Derivation | None:
    terms = tuple(
        Term(f"with a factor that fits as: {fit}", _one(share), "share")
        for fit, share in edition.coverage_by_fit.items()
    )
    del name
    says = "share of the mass that has a factor"
    return Derivation("coverage", says, _one(edition.coverage_mass), "share", terms)


def _of_settle(edition: Edition, name: str) -> Derivation | None:
    place = _numbered(name, len(edition.settle_next))
    if place is None:
        return None
    what, share = edition.settle_next[place]
    terms = (
        Term("how much of the total’s variance goes with this input, over all draws"),
        Term("what can be settled is settled in the line or in the kitchen"),
    )
    return Derivation(f"settle:{name}", what, _one(share), "share", terms)


def _of_time(edition: Edition, name: str) -> Derivation | None:
    del name
    if edition.timeline is None:
        return None
    terms = [Term(f"{task.does}: {task.says}") for task in edition.timeline.tasks]
    total = sum(task.lasts[1] for task in edition.timeline.tasks) / 60.0
    return Derivation("time", wording.TIME_RULE, _one(total), "min", tuple(terms))


def _of_task(edition: Edition, name: str) -> Derivation | None:
    tasks = () if edition.timeline is None else edition.timeline.tasks
    place = _numbered(name, len(tasks))
    if place is None:
        return None
    low, middle, high = (seconds / 60.0 for seconds in tasks[place].lasts)
    value = Range(middle, low, middle, high)
    return Derivation(f"task:{name}", tasks[place].does, value, "min", (Term(tasks[place].says),))


def _of_gives(edition: Edition, name: str) -> Derivation | None:
    del name
    terms = tuple(
        Term(f"{words}, {unit}", _one(amount), unit)
        for key, words, unit in giving.NAMES
        if (amount := edition.nutrition.get(key)) is not None
    )
    energy = edition.nutrition.get("energy_kcal") or 0.0
    return Derivation("gives", "what a serving gives", _one(energy), "kcal", terms)


def _of_costs(edition: Edition, name: str) -> Derivation | None:
    del name
    if edition.cost is None:
        return None
    terms = (Term("by the cook’s own prices"), *(Term(f"without a price: {one}") for one in edition.cost.not_priced))  # fmt: skip
    return Derivation("costs", "what a serving costs", edition.cost.per_serving, edition.cost.currency, terms)  # fmt: skip


_TOLD: Final = {
    "serving": _of_serving,
    "yield": _of_yield,
    "line": _of_line,
    "mass": _of_mass,
    "reading": _of_reading,
    "step": _of_step,
    "energy": _of_energy,
    "stage": _of_stage,
    "version": _of_version,
    "opinion": _of_opinion,
    "coverage": _of_coverage,
    "settle": _of_settle,
    "time": _of_time,
    "task": _of_task,
    "gives": _of_gives,
    "costs": _of_costs,
}
