"""What stands around a recipe, set into rows: its parts, the gas both ways, the strips of packs."""

from __future__ import annotations

from markupsafe import Markup

from counterproof import numerals
from counterproof.numerals import Shown
from counterproof.press import around, hatching, intervals, packs
from counterproof.press.drawing import set_in
from counterproof.press.intervals import Scale
from counterproof.press.setting import LINE_HEIGHT, Margin, Reckoning, interval_margin
from counterproof.proof import Edition, PackagingProof


def apart_rows(edition: Edition, scale: Scale) -> tuple[Reckoning, ...]:
    """Return what stands beside no line and no step: keeping, packs, carriage, fizz, waste.

    Parameters
    ----------
    edition : Edition
        What is shown.
    scale : Scale
        The one scale of all that adds up to the serving.

    Returns
    -------
    tuple of Reckoning
        One a part of the serving.
    """
    return tuple(
        Reckoning(
            around.NAMES.get(part.what, part.what),
            (around.apart_text(edition, part),),
            (around.apart_share(part), around.apart_shares(edition, part)),
            interval_margin(part.kgco2e, scale, edition.middle),
        )
        for part in edition.apart
    )


def fizz_rows(edition: Edition, scale: Scale) -> tuple[Reckoning, ...]:
    """Return the serving with the gas that escapes counted and not, an open dot each.

    Parameters
    ----------
    edition : Edition
        What is shown.
    scale : Scale
        The scale of whole servings.

    Returns
    -------
    tuple of Reckoning
        Two, or none where nothing was fizzed at home.
    """
    fizz = edition.fizz
    if fizz is None:
        return ()
    made = []
    for (name, value, stands), words in zip(
        around.fizz_figures(fizz), around.fizz_shown(fizz), strict=True
    ):
        shown = words.partition(numerals.SPACE)[0]
        drawn = intervals.lone_dot(scale, value, title=f"{name}, {words}", y=LINE_HEIGHT)
        told = Shown(shown, shown, shown, None, numerals.CO2E)
        as_total = ("the total is told so",) if stands else ()
        made.append(Reckoning(name, (), as_total, Margin(set_in(drawn), told)))
    return tuple(made)


def pack_strips(report: PackagingProof) -> tuple[tuple[str, str, Markup], ...]:
    """Return the packs of one serving as hatched strips on one scale of mass.

    Parameters
    ----------
    report : PackagingProof
        Ours, with the bought alternative's.

    Returns
    -------
    tuple of (str, str, Markup)
        Whose, how heavy, and the strip.
    """
    return tuple((one.name, one.told, set_in(one.drawn)) for one in packs.strips(report))


def fate_key(report: PackagingProof) -> tuple[tuple[Markup, str, str], ...]:
    """Return the key of the strips of packs.

    Parameters
    ----------
    report : PackagingProof
        Ours, with the bought alternative's.

    Returns
    -------
    tuple of (Markup, str, str)
        Swatch, fate and masses.
    """
    return tuple(
        (set_in(hatching.swatch(fate)), packs.WHERE[fate], packs.fate_masses(report, fate))
        for fate in packs.fates_of(report)
    )
