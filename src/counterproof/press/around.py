"""What stands beside no line and no step, in words: keeping, packs, carriage, fizz, waste."""

from __future__ import annotations

from counterproof import numerals
from counterproof.numerals import SPACE, percent
from counterproof.press.plain_text import printable
from counterproof.proof import ActivityProof, ApartProof, Edition, FizzProof

TITLE = "Around the recipe"

NAMES = {
    "heat": "heat of no single step",
    "keeping": "keeping",
    "packs": "packs",
    "carriage": "carriage",
    "fizz": "fizz",
    "waste": "thrown away",
    "asked for": "counted because asked for",
}
_AWAY = ", thrown away"
_DOES = {"packaging": "making them", "end of life": "what becomes of them"}
_TOLD = 3
"""Activities that a row names by their share, the largest first."""

_WHENCE = {
    "by-product": "a by-product of a fossil process",
    "biogenic": "living matter",
    "captured": "captured from the air",
}


def _of(edition: Edition, part: ApartProof) -> list[ActivityProof]:
    return [one for one in edition.activities if one.belongs == part.what]


def apart_text(edition: Edition, part: ApartProof) -> str:
    """Return what a part of the serving is, as the row that stands for it says it.

    Parameters
    ----------
    edition : Edition
        What is shown.
    part : ApartProof
        The part.

    Returns
    -------
    str
        One phrase, without a full stop.
    """
    activities = _of(edition, part)
    if part.what == "packs":
        return packs_phrase(edition, [one.name for one in activities])
    if part.what == "fizz" and edition.fizz is not None:
        gas = numerals.plain_mass(edition.fizz.charged)
        return f"{gas} of gas, and a share of cylinder, machine and bottle"
    if part.what == "waste":
        return ", ".join(
            f"{numerals.plain_mass(one.amount)} {printable(one.name).removesuffix(_AWAY)}"
            for one in activities
        )
    return ", ".join(dict.fromkeys(printable(one.name) for one in activities))


def packs_phrase(edition: Edition, activities: list[str] | None = None) -> str:
    """Return the packs of one serving.

    Parameters
    ----------
    edition : Edition
        What is shown.
    activities : list of str or None
        Only packs that one of these names begins with; None: all of them.

    Returns
    -------
    str
        Such as "0.1 × pint jar, used 40 times"; empty where there are none.
    """
    report = edition.packaging
    summed: dict[tuple[str, float], float] = {}
    for name, count, uses in () if report is None else report.packs:
        if activities is None or any(one.startswith(f"{name}, ") for one in activities):
            summed[name, uses] = summed.get((name, uses), 0.0) + count
    told = []
    for (name, uses), count in summed.items():
        used = "" if uses == 1 else f", used {numerals.count(uses)} times"
        told.append(f"{numerals.plain(count)} × {printable(name)}{used}")
    return "; ".join(told)


def apart_shares(edition: Edition, part: ApartProof) -> str:
    """Return what a part of the serving mostly is, where it is made of several things.

    Parameters
    ----------
    edition : Edition
        What is shown.
    part : ApartProof
        The part.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to divide.
    """
    if part.what == "waste":  # its row names everything already
        return ""
    shares: dict[str, float] = {}
    for one in _of(edition, part):
        name = _DOES.get(one.stage, one.stage) if part.what == "packs" else printable(one.name)
        shares[name] = shares.get(name, 0.0) + one.kgco2e.mean
    whole = sum(shares.values())
    if len(shares) < 2 or whole <= 0:
        return ""
    ranked = sorted(shares.items(), key=lambda pair: -pair[1])[:_TOLD]
    return ", ".join(f"{name} {percent(mean / whole)}" for name, mean in ranked if mean > 0)


def apart_share(part: ApartProof) -> str:
    """Return a part's share of the serving.

    Parameters
    ----------
    part : ApartProof
        The part.

    Returns
    -------
    str
        Such as "1.2 % of the serving"; empty where the serving comes to nothing.
    """
    return "" if part.share is None else f"{percent(part.share)} of the serving"


def fizz_phrases(fizz: FizzProof) -> list[str]:
    """Return where the gas of one serving goes, and whether it counts.

    Parameters
    ----------
    fizz : FizzProof
        The gas of one serving.

    Returns
    -------
    list of str
        Sentences.
    """
    mass = numerals.plain_mass
    counts = "it counts in the total" if fizz.counted else "it does not count in the total"
    whence = _WHENCE.get(fizz.origin, fizz.origin)
    goes = (
        f"{mass(fizz.charged)} of carbon dioxide a serving: {mass(fizz.dissolved)} in the water as "
        f"poured, {mass(fizz.vented)} lost while charging; another {mass(fizz.left_in_cylinder)} "
        "is left in the cylinder when it no longer fizzes."
    )
    ends = (
        f"All of it ends in the air. It comes from {whence}, so {counts}; whoever holds otherwise "
        "reads the other figure."
    )
    return [goes, ends]


def fizz_figures(fizz: FizzProof) -> list[tuple[str, float, bool]]:
    """Return the serving with and without the gas that escapes.

    Parameters
    ----------
    fizz : FizzProof
        The gas of one serving.

    Returns
    -------
    list of (str, float, bool)
        What is counted, the serving's mean [kg CO2e], and whether the total is that one.
    """
    return [
        ("the gas counted", fizz.if_counted, fizz.counted),
        ("the gas not counted", fizz.if_not, not fizz.counted),
    ]


def fizz_shown(fizz: FizzProof) -> list[str]:
    """Return both figures of the serving as printed, to the digit in which they differ.

    Parameters
    ----------
    fizz : FizzProof
        The gas of one serving.

    Returns
    -------
    list of str
        One text a figure, each with its unit.
    """
    apart = fizz.if_counted - fizz.if_not
    decimals = numerals.places(fizz.if_counted, apart) if apart > 0 else 2
    return [
        f"{numerals.number(value, decimals)}{SPACE}{numerals.CO2E}"
        for _, value, _ in fizz_figures(fizz)
    ]
