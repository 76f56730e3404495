"""What a serving gives and costs, in words: nutrients with their coverage, money with its dates."""

from __future__ import annotations

from counterproof import numerals
from counterproof.draws import Range
from counterproof.numerals import percent
from counterproof.press.plain_text import printable
from counterproof.proof import Edition

NAMES = (
    ("energy_kcal", "energy", "kcal"),
    ("protein_g", "protein", "g"),
    ("fat_g", "fat", "g"),
    ("carbohydrate_g", "carbohydrate with its fibre", "g"),
    ("sugars_g", "sugars", "g"),
    ("fibre_g", "fibre", "g"),
    ("salt_g", "salt", "g"),
)


def nutrition_phrases(edition: Edition) -> list[str]:
    """Return the nutrients of one serving, and what of its mass they rest on.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[str]
        Paragraphs; empty where nothing is known.
    """
    told, unknown, least = [], [], 1.0
    for key, name, unit in NAMES:
        amount = edition.nutrition.get(key)
        if amount is None:
            unknown.append(name)
            continue
        least = min(least, edition.nutrition_coverage.get(key, 1.0))
        told.append(f"{name} {numerals.plain(amount)}{numerals.SPACE}{unit}")
    if not told:
        return []
    lines = [", ".join(told) + "."]
    lines[0] = lines[0][0].upper() + lines[0][1:]
    share = "" if least > 0.995 else f" of at least {percent(least)} of the mass"
    lines.append(f"From the raw composition{share} of what goes in.")
    if unknown:
        lines.append(f"Too little is known for: {', '.join(unknown)}.")
    return lines


def cost_phrases(edition: Edition) -> list[str]:
    """Return what one serving costs by the cook's own prices, and how far they reach.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[str]
        Paragraphs; empty where there are no prices.
    """
    cost = edition.cost
    if cost is None:
        return []
    days = cost.first if cost.first == cost.last else f"{cost.first} to {cost.last}"
    amount = money(cost.per_serving, cost.currency, edition.middle)
    lines = [f"{amount}, for {percent(cost.coverage)} of the mass, at prices of {days}."]
    if cost.not_priced:
        named = ", ".join(printable(name) for name in cost.not_priced)
        lines.append(f"Without a price, so not counted: {named}.")
    return lines


def money(value: Range, currency: str, middle: str) -> str:
    """Return an amount of money with its interval, to the hundredth.

    Parameters
    ----------
    value : Range
        The amount. [`currency`]
    currency : str
        As the price file writes it.
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    str
        Such as "£ 1.61 (1.51–1.74)".
    """
    shown = numerals.number(numerals.middle_value(value, middle), 2)
    low, high = numerals.number(value.p05, 2), numerals.number(value.p95, 2)
    between = "" if low == high else f" ({low}{numerals.DASH}{high})"
    return f"{printable(currency)}{numerals.SPACE}{shown}{between}"


def break_even_phrase(per: str, at: Range | None, share_never: float, middle: str) -> str:
    """Return where two sides are equal, in words.

    Parameters
    ----------
    per : str
        What is varied, its unit first: "kg of beef chuck in a serving of beef", "uses of each jar".
    at : Range or None
        Where they are equal; None where hardly any draw has such a place. [unit of `per`]
    share_never : float
        Share of draws in which no amount makes them equal, 0 to 1. [1]
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    str
        One sentence.
    """
    never = "" if share_never == 0 else f"; never in {percent(share_never)} of the draws"
    if per.startswith("kg of "):
        what = printable(per.removeprefix("kg of "))
        if at is None:
            return f"No amount of {what} makes both sides equal."
        return f"Equal at {numerals.mass(at, middle).text} of {what}{never}."
    unit, _, of_what = printable(per).partition(" ")
    if at is None:
        return f"No number of {unit} {of_what} makes both sides equal."
    told = numerals.shown(at, middle, unit, finest=1).text
    return f"Equal at {told} {of_what}{never}."
