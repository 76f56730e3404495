"""Where the packs of a serving go: hatched upright strips on one scale of mass."""

from __future__ import annotations

from counterproof import numerals
from counterproof.life_cycle_rows import FATES
from counterproof.press import hatching
from counterproof.press.figures import derived, text_of
from counterproof.press.outlines import Box
from counterproof.press.packs import fates_of, report_of
from counterproof.press.stills.plate import Plate
from counterproof.press.stills.stages import COARSE, Entry, led
from counterproof.press.stills.subject import Copy, Subject, numbered
from counterproof.proof import PackagingProof


def subject(copy: Copy) -> Subject | str:
    """Return the still of the packs.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    Subject or str
        The still, or why there is none.
    """
    words = copy.words
    report = report_of(copy.edition)
    if report is None or not any(_kg(side) for side in (report, report.bought)):
        return words("stills.no packs")
    sides = _sides(copy, report)
    told = "; ".join(_told(copy, name, side, key) for name, side, key in sides)
    ours, bought = _mass(copy, "packs"), _mass(copy, "packs:bought")
    dish = copy.title()
    return Subject(
        "packs",
        words("stills.packs"),
        words("stills.packs alt", dish=dish, told=told),
        words("stills.packs spoken bought", dish=dish, mass=ours, bought=bought)
        if report.bought is not None
        else words("stills.packs spoken", dish=dish, mass=ours),
        tuple(key for _, _, key in sides if copy.number(key)),
        lambda plate, field: _draw(copy, plate, field, report),
    )


def _kg(report: PackagingProof | None) -> float:
    return 0.0 if report is None else sum(report.by_fate.values())


def _sides(copy: Copy, report: PackagingProof) -> list[tuple[str, PackagingProof, str]]:
    if report.bought is None:
        return [(copy.words("stills.packs one"), report, "packs")]
    return [
        (copy.words("stills.packs ours"), report, "packs"),
        (copy.words("stills.packs bought"), report.bought, "packs:bought"),
    ]


def _mass(copy: Copy, key: str) -> str:
    found = derived(copy.edition, key)
    if found is None:
        return copy.words("stills.no pack")
    return copy.words.figure(text_of(found, copy.edition.middle))


def _told(copy: Copy, name: str, side: PackagingProof, key: str) -> str:
    fates = ", ".join(
        f"{copy.words.figure(numerals.plain_mass(side.by_fate[fate]))} {copy.words.named('fates', fate)}"
        for fate in FATES
        if side.by_fate.get(fate)
    )
    return copy.words("stills.packs side", name=name, mass=_mass(copy, key), fates=fates)


def _draw(copy: Copy, plate: Plate, field: Box, report: PackagingProof) -> None:
    cut = plate.cut
    sides = _sides(copy, report)
    fates = fates_of(report)
    heaviest = max(_kg(side) for _, side, _ in sides)
    strip = (
        (112.0 if cut.upright else 250.0) if len(sides) > 1 else (190.0 if cut.upright else 330.0)
    )
    gap = 64.0 if cut.upright else 70.0
    high = field.bottom - field.top - 2.9 * cut.small
    bottom = field.top + high
    plate.draw(hatching.patterns(plate.inks, fates, COARSE))
    middles: dict[str, float] = {}
    left = field.left
    for name, side, key in sides:
        y = bottom
        for fate in reversed(fates):
            tall = side.by_fate.get(fate, 0.0) / heaviest * high
            if tall > 0:
                y -= tall
                plate.draw(hatching.upright_field(fate, (left, y, strip, tall), plate.inks, 2.5))
                middles[fate] = y + tall / 2
        plate.draw("", Box(left, y, left + strip, bottom).grown(24, 16))
        if not _kg(side):
            plate.line(f"M{left:.1f} {bottom:.1f} h{strip:.1f}")
        plate.write(name, left, bottom + 1.25 * cut.small, size=cut.small, style="serif")
        numbered(
            plate, copy.words.figure(numerals.plain_mass(_kg(side))), copy.number(key), left, bottom + 2.5 * cut.small,
            size=cut.small, anchor="start",
        )  # fmt: skip
        left += strip + gap
    entries = [_entry(copy, sides, fate, middles[fate]) for fate in fates]
    led(plate, entries, Box(left - gap, field.top, field.right, bottom))


def _entry(
    copy: Copy, sides: list[tuple[str, PackagingProof, str]], fate: str, middle: float
) -> Entry:
    """What goes one way: one mass at the column's end, or both sides' under the name."""
    name = copy.words.named("fates", fate)
    told = [
        (whose, copy.words.figure(numerals.plain_mass(side.by_fate.get(fate, 0.0))))
        for whose, side, _ in sides
    ]
    if len(told) == 1:
        return Entry(name, told[0][1], "", middle)
    below = ", ".join(f"{whose}{numerals.SPACE}{mass}" for whose, mass in told)
    return Entry(name, "", "", middle, below)
