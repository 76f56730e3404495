"""The sentences that every surface prints, so that terminal and sheet say the same thing."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from counterproof.draws import Range
from counterproof.marks import Mark
from counterproof.press import numerals
from counterproof.press.numerals import SPACE, Shown, percent, shown
from counterproof.press.plain_text import printable
from counterproof.proof import Edition, LineProof, StepProof, VersionProof

NO_REVIEW = "No critical review; not a comparative assertion in the sense of ISO 14044."
CROSS_CONTACT = "cross-contact not assessed"

LEVEL_NAMES = {"note": "Note", "doubt": "Doubt", "fault": "Fault"}
SIGN_MEANINGS = {
    "doubt": "doubt: a choice is open",
    "fault": "fault: not counted",
    "note": "note: it stands, but is worth knowing",
}
RANGE_KINDS = {
    "one-purchase": "what any one purchase may be, across producers",
    "the-average": "how well the average is known; a lower bound",
}
_BASIS_NAMES = {
    "functional_unit": "functional unit",
    "boundary": "boundary",
    "middle": "middle value",
    "range_for": "range",
    "gwp": "GWP",
    "factor_sets": "factor sets",
    "seed": "seed",
    "draws": "draws",
    "version": "version",
    "data_sha256": "data checksum (SHA-256)",
}
_PER_NAMES = {
    "kg": "per kg",
    "litre": "per litre",
    "1000_kcal": f"per 1000{SPACE}kcal",
    "100_g_protein": f"per 100{SPACE}g of protein",
}


@dataclass(frozen=True, slots=True)
class Opinion:
    """What another factor set says of one serving."""

    name: str
    value: Range
    shown: str
    coverage: str


def title(edition: Edition) -> str:
    """Return the recipe's title with its version."""
    name = printable(edition.title)
    return f"{name}, {printable(edition.version)}" if edition.version else name


def sentence(*phrases: str) -> str:
    """Return phrases as one sentence, with its capital and its full stop."""
    told = "; ".join(phrase for phrase in phrases if phrase)
    return f"{told[:1].upper()}{told[1:]}." if told else ""


def yield_(edition: Edition) -> str:
    """Return what the recipe gives and how large a serving is."""
    parts = [f"serves {numerals.count(edition.serves)}"]
    size = serving_size(edition)
    parts.append(f"{edition.serving_name} is {size}" if size else edition.serving_name)
    return "; ".join(parts)


def serving_size(edition: Edition) -> str:
    """Return the serving's mass and volume, as far as they are known."""
    sizes = []
    if edition.serving_mass_kg is not None:
        sizes.append(numerals.plain_mass(edition.serving_mass_kg))
    if edition.serving_litres is not None:
        sizes.append(numerals.plain_volume(edition.serving_litres))
    return ", ".join(sizes)


def amount(line: LineProof, middle: str) -> str:
    """Return a line's quantity and mass as understood, in one phrase."""
    parts = (quantity(line), line_mass(line, middle))
    return " · ".join(part for part in parts if part)


def quantity(line: LineProof) -> str:
    """Return a line's quantity as understood, a number never parted from its unit."""
    return re.sub(r"(?<=\d) (?=\w{1,2}\b)", SPACE, printable(line.quantity))


def line_mass(line: LineProof, middle: str) -> str:
    """Return the edible mass of a line with its range."""
    return "" if line.mass_kg is None else numerals.mass(line.mass_kg, middle).text


def link(line: LineProof) -> str:
    """Return the factor that stands for a line and how well it fits."""
    if line.factor is None:
        return ""
    fit = f" ({line.fit})" if line.fit and line.fit != "same" else ""
    return f"{printable(line.factor)}{fit}"


def certainty(line: LineProof) -> str:
    """Return the runners-up of a reading that is in doubt, with certainties; else nothing."""
    if not line.runners_up or not any(mark.level != "note" for mark in line.marks):
        return ""
    told = [(line.food, line.certainty)] if line.food else []
    told += list(line.runners_up)
    return ", ".join(f"{printable(name)} {percent(share)}" for name, share in told)


def why_not_counted(holder: LineProof | StepProof) -> str:
    """Return why a line has no footprint, in a few words; its marks say more.

    A step without energy needs no reason: most steps take none.
    """
    if isinstance(holder, StepProof):
        return ""
    for mark in marks_by_weight(holder.marks)[0]:
        return f"not counted: {mark.kind.replace('-', ' ')}"
    if holder.food is None:
        return "not counted: no food was recognised"
    if holder.mass_kg is None:
        return "not counted: no weight could be given"
    return "not counted: no factor is linked to this food"


def settle_lead(*, in_line: bool) -> str:
    """Return the words above a mark's choices."""
    return "Settle it by writing into the line" if in_line else "Settle it by writing"


def choices(mark: Mark, *, in_line: bool) -> list[str]:
    """Return a mark's choices in the very words that settle it."""
    told = [printable(choice) for choice in mark.choices]
    return [f"(meaning {choice})" for choice in told] if in_line else told


def marks_by_weight(marks: Iterable[Mark]) -> tuple[list[Mark], list[Mark]]:
    """Return what needs attention, faults first, and what is only worth knowing."""
    told = list(marks)
    pressing = [mark for mark in told if mark.level == "fault"]
    pressing += [mark for mark in told if mark.level == "doubt"]
    return pressing, [mark for mark in told if mark.level == "note"]


def all_marks(edition: Edition) -> list[Mark]:
    """Return every mark of the proof."""
    beside_lines = [mark for line in edition.lines for mark in line.marks]
    beside_steps = [mark for step in edition.steps for mark in step.marks]
    return [*edition.marks, *beside_lines, *beside_steps]


def attention(edition: Edition) -> str:
    """Return how much is open, in words."""
    marks = all_marks(edition)
    doubts = sum(mark.level == "doubt" for mark in marks)
    faults = sum(mark.level == "fault" for mark in marks)
    parts = []
    if doubts:
        parts.append("1 doubt is open" if doubts == 1 else f"{doubts} doubts are open")
    if faults:
        parts.append(
            "1 fault is not counted" if faults == 1 else f"{faults} faults are not counted"
        )
    return "; ".join(parts) if parts else "no doubt is open"


def between(value: Shown) -> str:
    """Return what the interval says, and the median where it lies apart."""
    if value.exact:
        return "no range is known"
    told = f"nine draws in ten lie between {value.low} and {value.high}"
    return f"{told}; half of them below {value.median}" if value.median else told


def sum_of(edition: Edition) -> str:
    """Return what one serving is, behind its number."""
    size = serving_size(edition)
    return f"{edition.serving_name} of {size}" if size else edition.serving_name


def sum_phrase(edition: Edition) -> str:
    """Return the total as its heading: the number, its unit and what it is of."""
    value = shown(edition.serving, edition.middle)
    return f"{value.middle}{SPACE}{value.unit}, {sum_of(edition)}"


def serving_phrase(edition: Edition) -> str:
    """Return the total of one serving in one phrase."""
    value = shown(edition.serving, edition.middle)
    return f"{edition.serving_name}: {value.middle}{SPACE}{value.unit}; {between(value)}"


def batch_phrase(edition: Edition) -> str:
    """Return the total of the whole batch in one phrase."""
    return f"the whole batch, {numerals.count(edition.serves)} servings: {shown(edition.batch, edition.middle).text}"


def per_phrases(edition: Edition) -> list[str]:
    """Return the total on its other bases, those that are known."""
    return [
        f"{_PER_NAMES.get(key, key.replace('_', ' '))}: {numerals.plain(value)}{SPACE}{numerals.CO2E}"
        for key, value in edition.per.items()
        if value is not None
    ]


def step_energy(step: StepProof, middle: str) -> str:
    """Return the energy of a step."""
    return "" if step.kwh is None else numerals.energy(step.kwh, middle).text


def version_phrases(version: VersionProof, middle: str) -> list[str]:
    """Return how a version compares with the recipe on shared draws."""
    if version.difference is None:
        return []
    return against(
        "the recipe",
        version.difference,
        middle,
        ratio=version.ratio,
        share_lower=version.share_lower,
        factor_set=version.factor_set,
    )


def against(  # noqa: PLR0913 - a comparison is its other side and four numbers
    other: str,
    difference: Range,
    middle: str,
    *,
    ratio: float | None,
    share_lower: float | None,
    factor_set: str | None,
) -> list[str]:
    """Return how one serving compares with another on shared draws."""
    told = shown(difference, middle)
    phrases = [] if ratio is None else [f"{numerals.plain(ratio)} times {other}"]
    phrases.append(f"difference {numerals.signed(told)}{SPACE}{told.unit} ({told.span})")
    if share_lower is not None:
        phrases.append(f"lower than {other} in {percent(share_lower)} of the draws")
    if factor_set:
        phrases.append(f"compared in the {printable(factor_set)} set")
    return phrases


def coverage_phrases(edition: Edition) -> list[str]:
    """Return how much of the mass has a factor and how well the factors fit."""
    told = [f"{percent(edition.coverage_mass)} of the mass has a factor"]
    if edition.coverage_by_fit:
        fits = ", ".join(
            f"{fit} {percent(share)}" for fit, share in edition.coverage_by_fit.items()
        )
        told.append(f"by fit: {fits}")
    return told


def opinions(edition: Edition) -> list[Opinion]:
    """Return the total as the other factor sets would have it."""
    return [
        Opinion(
            printable(name),
            Range(value, value, value, value),
            numerals.plain(value),
            f"covers {percent(coverage)} of the mass",
        )
        for name, value, coverage in edition.second_opinion
    ]


def settle_phrases(edition: Edition) -> list[str]:
    """Return what to settle next, each with its share of the total's variance."""
    return [
        f"{percent(share)} of the variance: {printable(what)}"
        for what, share in edition.settle_next
    ]


def allergen_phrases(edition: Edition) -> list[tuple[str, str]]:
    """Return the allergen statement as (what, which) pairs; it promises nothing."""
    told = []
    if edition.allergens_present:
        told.append(("present", _list(edition.allergens_present)))
    if edition.allergens_read_label:
        told.append(("read the label for", _list(edition.allergens_read_label)))
    if edition.allergens_unknown:
        told.append(
            ("not known, so this statement is incomplete", _list(edition.allergens_unknown, "; "))
        )
    found = edition.allergens_present or edition.allergens_read_label
    lead = "No others found" if found else "None found"
    told.append(("", f"{lead} among the ingredients as written; {CROSS_CONTACT}."))
    return told


def _list(words: Iterable[str], between_them: str = ", ") -> str:
    return between_them.join(printable(word) for word in words)


def source_phrases(edition: Edition) -> list[str]:
    """Return each source with its address, its licence and the credit line it asks for."""
    told = []
    for source in edition.sources:
        parts = [source.citation, source.address]
        parts.append(f"Licence: {source.licence}." if source.licence else "")
        parts.append(source.credit)
        told.append(" ".join(printable(part) for part in parts if part))
    return told


def basis_rows(edition: Edition) -> list[tuple[str, str]]:
    """Return the basis block: everything needed to reproduce and judge the total."""
    told = {key: str(value) for key, value in edition.basis.items()}
    told.setdefault("middle", edition.middle)
    told.setdefault("range_for", edition.range_for)
    kind = RANGE_KINDS.get(told["range_for"])
    if kind:
        told["range_for"] += f": {kind}; from the 5th to the 95th percentile"
    order = [key for key in _BASIS_NAMES if key in told]
    order += [key for key in told if key not in _BASIS_NAMES]
    return [(_BASIS_NAMES.get(key, key.replace("_", " ")), printable(told[key])) for key in order]
