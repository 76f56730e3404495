"""Foods and factors in a terminal: every figure with its source, ranges drawn on a common scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import fields
from typing import TYPE_CHECKING, Any

from rich.text import Text

from counterproof import numerals
from counterproof.adapters.characters import (
    GREY,
    GUTTER,
    STRONG,
    Column,
    Page,
    axis,
    drawn_interval,
    ground,
)
from counterproof.adapters.reckoning import figure, side
from counterproof.press.intervals import Scale, common_scale
from counterproof.press.plain_text import printable
from counterproof.reading.allergen_schemes import SCHEMES, TITLES, name_under

if TYPE_CHECKING:
    from rich.console import Console

    from counterproof.accounts import FactorAccount, FoodAccount
    from counterproof.draws import Range
    from counterproof.looking_up import Found, Used
    from counterproof.rows import Factor, Food, Provenance, Tables

TOLD_IN_FULL = 4
"""Factors told in full; of further ones only basis and range, so that a search fits a screen."""

PER_KG = f"{numerals.CO2E} per kg"

CONTENTS = (
    ("energy_kcal", "energy", "kcal"),
    ("protein_g", "protein", "g"),
    ("fat_g", "fat", "g"),
    ("carbohydrate_g", "carbohydrate", "g"),
    ("sugars_g", "of it sugars", "g"),
    ("fibre_g", "of it fibre", "g"),
    ("sodium_mg", "sodium", "mg"),
    ("alcohol_g", "alcohol", "g"),
    ("citric_acid_g", "citric acid", "g"),
    ("water_g", "water", "g"),
)


def print_foods(
    said: str,
    found: Found[Food],
    first: FoodAccount | None,
    tables: Tables,
    console: Console,
) -> None:
    """Print what words found among the foods: one in full where they name it, else a list.

    Parameters
    ----------
    said : str
        The words.
    found : Found
        The foods.
    first : FoodAccount or None
        The account of the first, where it is to be told in full.
    tables : Tables
        With the source records.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    if first is not None:
        _food(page, first, tables)
        others = found.rows[1:]
        if others:
            names = ", ".join(food.name for food in others[:12])
            more = f" and {len(others) - 12} more" if len(others) > 12 else ""
            side(page, "Also found", [page.words(printable(f"{names}{more}"), GREY)])
        return
    if not found.rows:
        _nothing(page, said, "food", found.nearest)
        return
    for food in found.rows:
        page.put_indented(
            [page.words(food.name, STRONG) + page.words(f"  {food.food_class}", GREY)], 0
        )
    _left_off(page, found.left_off)


def print_used(used: Sequence[Used], console: Console) -> None:
    """Print the foods that a recipe uses, each with its lines.

    Parameters
    ----------
    used : sequence of Used
        Foods and lines.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    for one in used:
        name = page.words(one.food.name, STRONG)
        page.put_indented([name + page.words(f"  {one.food.food_class}", GREY)], 0)
        page.put_indented([page.words(printable(line)) for line in one.lines])


def print_factors(
    said: str, found: Found[Factor], accounts: Sequence[FactorAccount], console: Console
) -> None:
    """Print what words found among the factors, each as an interval on a common scale.

    Parameters
    ----------
    said : str
        The words.
    found : Found
        The factors.
    accounts : sequence of FactorAccount
        Of each of them.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    if not accounts:
        _nothing(page, said, "factor", found.nearest)
        return
    scale = common_scale(one.worth for one in accounts)
    _scale_head(page, f"{numerals.CO2E} per kg or litre", scale)
    for at, one in enumerate(accounts):
        row = one.factor
        told = [page.words(f"per {row.unit}, {row.basis}")]
        if at < TOLD_IN_FULL:
            told = [
                page.words(f"per {row.unit}, {row.basis}; {row.boundary}"),
                page.words(_percentiles(row), GREY),
                page.words(_stages(one), GREY),
                page.words(f"GWP: {row.gwp}", GREY),
                page.words(_source(row.provenance), GREY),
                page.words(_for_foods(one.foods), GREY),
                page.words("the kitchen's own table" if one.own else ""),
            ]
        _interval_row(page, f"{row.item}, {row.set} set", told, one.worth, scale)
    if len(accounts) > TOLD_IN_FULL:
        page.put_indented(
            [page.words("Say more words to see one of the later ones in full.", GREY)], 0
        )
    _left_off(page, found.left_off)


def _food(page: Page, account: FoodAccount, tables: Tables) -> None:
    food = account.food
    page.put_indented([page.words(food.name, STRONG)], 0)
    own = "; from the kitchen's own table" if account.own else ""
    page.put_indented([page.words(f"{food.food_class}, {food.kind}{own}", GREY)], 0)
    if food.note:
        page.put_indented([page.words(printable(food.note))], 0)
    meant = [one for one in account.names if not one.fit]
    names = ", ".join(
        f"{one.name} ({one.region.upper()})" if one.region else one.name for one in meant
    )
    side(page, "Names", [page.words(printable(names))])
    standing = ", ".join(one.name for one in account.names if one.fit)
    if standing:
        side(page, "Stands for", [page.words(printable(standing))])
    rows = account.rows
    _told(page, "Weights", [(_weight(row), row.provenance) for row in rows["household"]])
    _told(
        page,
        "Density",
        [
            (f"{row.form or 'as it is'}: {row.kg_per_litre:g} kg per litre", row.provenance)
            for row in rows["densities"]
        ],
    )
    _told(
        page,
        "Edible share",
        [
            (
                f"{100 * row.share:.0f} %" + (f", without {row.refuse}" if row.refuse else ""),
                row.provenance,
            )
            for row in rows["edible"]
        ],
    )
    _told(page, "In 100 g", [(_contents(row), row.provenance) for row in rows["composition"]])
    _told(
        page,
        "Yields",
        [(_yield(row, tables.foods[row.becomes].name), row.provenance) for row in rows["yields"]],
    )
    _told(page, "Allergens", [(_allergen(row), row.provenance) for row in rows["allergens"]])
    _told(
        page,
        "Season",
        [
            (f"{row.condition}: {row.ratio:.2g} times, {row.item} over {row.over}", row.provenance)
            for row in rows["seasons"]
        ],
    )
    if account.links:
        page.put_line()
        scale = common_scale(one.worth for one in account.links)
        _scale_head(page, PER_KG, scale)
    for one in account.links:
        bases = ", ".join(dict.fromkeys(factor.basis for factor in one.factors))
        told = [
            page.words(f"{one.link.item}: {one.link.fit}; per kg {bases}"),
            page.words(one.link.why, GREY),
            page.words(_source(one.factors[0].provenance), GREY),
        ]
        _interval_row(page, f"{one.link.set} set", told, one.worth, scale)
    _sources(page, account, tables)


def _told(page: Page, title: str, rows: Sequence[tuple[str, Provenance]]) -> None:
    side(
        page,
        title,
        [
            page.words(printable(said)) + page.words(f"  {_source(where)}", GREY)
            for said, where in rows
        ],
    )


def _weight(row: Any) -> str:
    named = ", ".join(part for part in (row.size, row.measure, row.form) if part)
    grams = numerals.plain_mass(row.kg)
    bought = ", as bought" if row.as_bought else ""
    spread = f", give or take {100 * row.spread:.0f} %" if row.spread else ""
    return f"{named}: {grams}{bought}{spread}"


def _yield(row: Any, becomes: str) -> str:
    times = f"{row.factor:g} times its weight ({row.low:g}–{row.high:g})"
    return f"{row.method}, becomes {becomes}: {times}"


def _contents(row: Any) -> str:
    return ", ".join(
        f"{name} {getattr(row, field):g} {unit}"
        for field, name, unit in CONTENTS
        if getattr(row, field) is not None
    )


def _allergen(row: Any) -> str:
    named = {TITLES[scheme]: name_under(scheme, row) for scheme in SCHEMES}
    lists = "; ".join(
        f"{title}: {name if name is not None else 'not named'}" for title, name in named.items()
    )
    return f"{row.allergen}, {row.status} ({lists})"


def _source(where: Provenance) -> str:
    told = ", ".join(part for part in (where.source, where.locator) if part)
    if where.obtained == "assumed":
        return printable(f"[assumed: {where.note}]")
    note = f"; {where.note}" if where.note else ""
    return printable(f"[{told}, {where.obtained}{note}]")


def _percentiles(row: Factor) -> str:
    gap = numerals.SPACE
    named = (
        ("5", row.p05),
        ("10", row.p10),
        ("50", row.p50),
        ("90", row.p90),
        ("95", row.p95),
    )
    told = [
        f"{name}{gap}%{gap}{numerals.number(value, 2)}"
        for name, value in named
        if value is not None
    ]
    middle = f"{row.middle} {numerals.number(row.mean, 2)}"
    if not told:
        spread = "" if row.spread is None else f", give or take a factor of {row.spread:g}"
        return f"published: {middle}{spread}"
    studies = "" if row.studies is None else f"; {row.studies} studies"
    return f"published: {middle}; percentiles {', '.join(told)}{studies}"


def _stages(one: FactorAccount) -> str:
    told = ", ".join(f"{row.stage} {numerals.number(row.mean, 2)}" for row in one.stages)
    return f"stages: {told}" if told else ""


def _for_foods(foods: Sequence[tuple[str, str]]) -> str:
    names = [name if fit == "same" else f"{name} ({fit})" for name, fit in foods]
    more = f" and {len(names) - 8} more" if len(names) > 8 else ""
    return f"stands for: {', '.join(names[:8])}{more}" if names else "stands for no food"


def _scale_head(page: Page, unit: str, scale: Scale) -> None:
    if not page.wide:
        page.put_indented([page.words(unit, GREY)], 0)
        return
    page.put(
        Column((), page.left + GUTTER, gap=0),
        Column((), page.line),
        Column((page.words(unit, GREY), axis(page, scale)), page.scale),
    )


def _interval_row(page: Page, name: str, told: Iterable[Text], worth: Range, scale: Scale) -> None:
    shown = figure(page, numerals.shown(worth))
    drawn = drawn_interval(page, scale, worth, "mean")
    head = page.words(printable(name), STRONG)
    if page.wide:
        left, words = page.wrapped([head], page.left), page.wrapped(told, page.line)
        more = max(len(left), len(words), len(shown))
        page.put(
            Column(left, page.left, "right", GUTTER),
            Column(words, page.line),
            Column((drawn, *[ground(page, scale)] * more), page.scale),
            Column(shown, page.value),
        )
        return
    page.put_indented([head], 0)
    lead = drawn + Text("  ") if page.drawn else Text()
    page.put_indented([lead + Text("  ").join(shown)])
    page.put_indented(told)


def _sources(page: Page, account: FoodAccount, tables: Tables) -> None:
    used = {
        row.provenance.source
        for rows in (
            *account.rows.values(),
            [factor for one in account.links for factor in one.factors],
        )
        for row in rows
        if "provenance" in {field.name for field in fields(row)}
    }
    side(
        page,
        "Sources",
        [
            page.words(f"{name}: {printable(tables.sources[name].citation)}")
            for name in sorted(used)
            if name in tables.sources
        ],
    )


def _nothing(page: Page, said: str, what: str, nearest: Sequence[str]) -> None:
    page.put_indented([page.words(printable(f"No {what} is found for “{said}”."))], 0)
    if nearest:
        page.put_indented([page.words("Nearest:", GREY)], 0)
        page.put_indented([page.words(printable(name)) for name in nearest])


def _left_off(page: Page, count: int) -> None:
    if count:
        page.put_indented([page.words(f"{count} more; say more words.", GREY)], 0)
