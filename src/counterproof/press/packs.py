"""The packs of one serving: what they are made of and where they go, hatched, beside the bought.

One strip for our own packs and one for those of what is bought instead, on one scale of mass, so
that the eye sees what is avoided.
"""

from __future__ import annotations

from dataclasses import dataclass

from counterproof import numerals
from counterproof.life_cycle_rows import FATES
from counterproof.press import hatching
from counterproof.press.drawing import PAGE, Inks, framed
from counterproof.press.plain_text import printable
from counterproof.proof import Edition, PackagingProof

WHERE = {
    "recycled": "recycled",
    "combusted": "burnt",
    "landfilled": "landfilled",
    "composted": "composted",
    "digested": "digested",
}
_LEAST = 5e-6
"""Mass from which a difference of packs is told. [kg] House rule: a hundredth of a gram."""


@dataclass(frozen=True, slots=True)
class PackStrip:
    """One set of packs on the common scale of mass."""

    name: str  # "ours", "bought"
    told: str  # its mass, as printed
    drawn: str  # SVG


def report_of(edition: Edition) -> PackagingProof | None:
    """Return the packs worth a report: ours, or none where neither side has any.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    PackagingProof or None
        None where nothing is packed and nobody's water went untravelled.
    """
    report = edition.packaging
    if report is None:
        return None
    sides = (report, report.bought)
    packed = any(side is not None and side.by_material for side in sides)
    return report if packed or report.not_transported else None


def _kg(report: PackagingProof) -> float:
    return sum(report.by_material.values())


def strips(report: PackagingProof, inks: Inks = PAGE) -> list[PackStrip]:
    """Return a strip for our packs and one for the bought ones, by fate, on one scale.

    Parameters
    ----------
    report : PackagingProof
        The packs of one serving.
    inks : Inks
        Colours and face.

    Returns
    -------
    list of PackStrip
        Empty where nothing is packed.
    """
    sides = [("ours" if report.bought else "a serving", report)]
    if report.bought is not None:
        sides.append(("bought", report.bought))
    longest = max(_kg(side) for _, side in sides)
    if longest <= 0:
        return []
    made = []
    for name, side in sides:
        told = numerals.plain_mass(_kg(side)) if _kg(side) else "no pack"
        parts = [(fate, side.by_fate.get(fate, 0.0) / longest) for fate in FATES]
        shown = [(fate, share) for fate, share in parts if share > 0]
        by_fate = "; ".join(fate_phrases(side)) or "nothing to throw away"
        drawn = hatching.fate_strip(shown, inks)
        made.append(
            PackStrip(
                name,
                told,
                framed(drawn, title=f"Packs {name}: {told}", description=by_fate, height=20,
                       css_class="packstrip"),
            )
        )  # fmt: skip
    return made


def fates_of(report: PackagingProof) -> list[str]:
    """Return the fates that occur, in the order of the key.

    Parameters
    ----------
    report : PackagingProof
        The packs of one serving.

    Returns
    -------
    list of str
        Of ours and of the bought ones.
    """
    sides = [report] if report.bought is None else [report, report.bought]
    return [fate for fate in FATES if any(side.by_fate.get(fate) for side in sides)]


def fate_masses(report: PackagingProof, fate: str) -> str:
    """Return what goes one way, ours and, where there is one, the bought alternative's.

    Parameters
    ----------
    report : PackagingProof
        The packs of one serving.
    fate : str
        A fate of `life_cycle_rows.FATES`.

    Returns
    -------
    str
        Such as "18 g; bought 31 g".
    """
    told = numerals.plain_mass(report.by_fate.get(fate, 0.0))
    if report.bought is None:
        return told
    return f"{told}; bought {numerals.plain_mass(report.bought.by_fate.get(fate, 0.0))}"


def fate_phrases(report: PackagingProof) -> list[str]:
    """Return which way how much goes.

    Parameters
    ----------
    report : PackagingProof
        The packs of one serving.

    Returns
    -------
    list of str
        One phrase a fate that occurs.
    """
    return [
        f"{numerals.plain_mass(kg)} {WHERE[fate]}"
        for fate in FATES
        if (kg := report.by_fate.get(fate, 0.0)) > 0
    ]


def material_phrase(report: PackagingProof) -> str:
    """Return what the packs of one serving are made of.

    Parameters
    ----------
    report : PackagingProof
        The packs of one serving.

    Returns
    -------
    str
        Heaviest first; "no pack" where there is none.
    """
    ranked = sorted(report.by_material.items(), key=lambda pair: -pair[1])
    return ", ".join(f"{printable(n)} {numerals.plain_mass(kg)}" for n, kg in ranked) or "no pack"


def pack_phrases(report: PackagingProof) -> list[str]:
    """Return what the packs are made of, what is avoided and what was not carried.

    Parameters
    ----------
    report : PackagingProof
        The packs of one serving.

    Returns
    -------
    list of str
        Sentences.
    """
    told = [f"A serving’s own packs: {material_phrase(report)}."]
    if any(uses != 1 for _, _, uses in report.packs):
        told[0] = told[0].removesuffix(".") + "; a pack used again divides by its uses."
    if report.bought is not None:
        told.append(f"Bought instead: {material_phrase(report.bought)}.")
    if report.avoided is not None and abs(report.avoided) >= _LEAST:
        less = "less" if report.avoided > 0 else "more"
        told.append(
            f"That is {numerals.plain_mass(abs(report.avoided))} {less} pack a serving than bought."
        )
    if report.not_transported:
        told.append(
            f"{numerals.plain_mass(report.not_transported)} of tap water a serving came through "
            "the pipe: nobody carried it."
        )
    return told
