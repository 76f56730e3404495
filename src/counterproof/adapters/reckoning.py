"""What stands under the recipe in a terminal: totals, versions, comparisons and the small print."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import zip_longest
from typing import TYPE_CHECKING

from rich.text import Text

from counterproof import numerals
from counterproof.adapters.characters import (
    BLUE,
    GREY,
    GUTTER,
    STRONG,
    Column,
    Page,
    axis,
    drawn_interval,
    ground,
    hatched,
)
from counterproof.adapters.packs_terminal import fizz_texts, pack_texts
from counterproof.draws import Range
from counterproof.marks import Mark
from counterproof.press import footing, giving, hatching, margins, side_by_side, wording
from counterproof.press.intervals import Scale, common_scale, serving_scale
from counterproof.press.plain_text import printable
from counterproof.proof import Edition

if TYPE_CHECKING:
    from counterproof.comparison.paired import Comparison, Pair


def marks_of(
    page: Page, marks: Iterable[Mark], *, in_line: bool, signed: bool = True
) -> list[Text]:
    """Marks in words, each doubt with the texts that settle it.

    Parameters
    ----------
    page : Page
        Where it is printed.
    marks : iterable of Mark
        Marks of a line, a step or the whole recipe.
    in_line : bool
        Whether its choices are written into an ingredient line.
    signed : bool
        Whether each begins with its sign.

    Returns
    -------
    list[Text]
        Paragraphs.
    """
    made = []
    for mark in marks:
        lead = page.sign(mark.level) + Text(" ") if signed else Text()
        style = GREY if mark.level == "note" else BLUE
        made.append(lead + page.words(printable(mark.message), style))
        if mark.choices:
            made.append(page.words(margins.settle_lead(in_line=in_line), GREY))
        made += [page.words(words) for words in margins.choices(mark, in_line=in_line)]
    return made


def figure(page: Page, told: numerals.Shown) -> tuple[Text, ...]:
    """A number with its interval, for a narrow column.

    Parameters
    ----------
    page : Page
        Where it is printed.
    told : Shown
        A range as printed.

    Returns
    -------
    tuple[Text, ...]
        Short lines: the middle, the interval, the median where it lies apart.
    """
    parts = [page.words(told.middle, STRONG)]
    if not told.exact:
        parts.append(page.words(told.span, GREY))
    if told.median:
        parts.append(page.words(f"median {told.median}", GREY))
    return tuple(parts)


def serving_heads(page: Page, title: str, scale: Scale) -> None:
    """Print a heading over the scale of whole servings.

    Parameters
    ----------
    page : Page
        Where it is printed.
    title : str
        The heading.
    scale : Scale
        The common scale.
    """
    page.put_line()
    if not page.wide:
        page.put_indented([page.words(f"{title} (whole servings, {numerals.CO2E})", STRONG)], 0)
        return
    page.put(
        Column((), page.left + GUTTER, gap=0),
        Column((Text(), page.words(title, STRONG)), page.line),
        Column(
            (page.words(f"whole servings, {numerals.CO2E}", GREY), axis(page, scale)), page.scale
        ),
    )


def reckoning_row(
    page: Page,
    scale: Scale,
    name: str,
    told: Sequence[Text],
    drawn: Text,
    figure: tuple[Text, ...],
) -> None:
    """Print a row under the recipe, on the scale of whole servings or on that of the lines.

    Parameters
    ----------
    page : Page
        Where it is printed.
    scale : Scale
        The common scale.
    name : str
        What stands in the left margin.
    told : sequence of Text
        What stands in the middle.
    drawn : Text
        The interval.
    figure : tuple[Text, ...]
        The number.
    """
    if page.wide:
        words = page.wrapped(told, page.line)
        more = max(len(words), len(figure)) - 1
        page.put(
            Column(page.wrapped([page.words(name, STRONG)], page.left), page.left, "right", GUTTER),
            Column(words, page.line),
            Column((drawn, *[ground(page, scale)] * more), page.scale),
            Column(figure, page.value),
        )
        return
    page.put_indented([page.words(name, STRONG)], 0)
    page.put_indented(told)
    lead = drawn + Text("  ") if page.drawn else Text()
    page.put_indented([lead + Text("  ").join(figure)])


def total(page: Page, edition: Edition) -> None:
    """Print the total, the versions and the second opinion on one scale.

    Parameters
    ----------
    page : Page
        Where it is printed.
    edition : Edition
        What is shown.
    """
    scale = serving_scale(edition)
    serving_heads(page, "Total", scale)
    told = [
        page.words(wording.sum_phrase(edition), STRONG),
        page.words(wording.sentence(wording.batch_phrase(edition), *wording.per_phrases(edition))),
    ]
    drawn = drawn_interval(page, scale, edition.serving, edition.middle)
    shown = figure(page, numerals.shown(edition.serving, edition.middle))
    reckoning_row(page, scale, edition.serving_name, told, drawn, shown)
    if edition.versions:
        page.put_line()
        _side_head(page, "Versions, on the same draws")
        _versions(page, edition, scale)
    opinions = footing.opinions(edition)
    if opinions:
        page.put_line()
        _side_head(page, "Second opinion: the total in other factor sets")
    for opinion in opinions:
        reckoning_row(
            page,
            scale,
            f"{opinion.name} set",
            [page.words(wording.sentence(opinion.coverage))],
            drawn_interval(page, scale, opinion.value, "mean", "o" if page.ascii else "○"),
            (page.words(opinion.shown, STRONG),),
        )


def _versions(page: Page, edition: Edition, scale: Scale) -> None:
    middle = edition.middle
    for version in edition.versions:
        told = [page.words(printable(change)) for change in version.changes]
        told.append(
            page.words(wording.sentence(*side_by_side.version_phrases(version, edition)), GREY)
        )
        told += [page.words(printable(remark), GREY) for remark in version.remarks]
        drawn = drawn_interval(page, scale, version.serving, middle, "o" if page.ascii else "●")
        shown = figure(page, numerals.shown(version.serving, middle))
        reckoning_row(page, scale, printable(version.name), told, drawn, shown)


def _side_head(page: Page, title: str) -> None:
    page.put_indented([page.words(title, "italic")], page.left + GUTTER if page.wide else 0)


def side(page: Page, title: str, texts: Sequence[Text]) -> None:
    """A heading in the left margin and what it heads beside it, or below where it is narrow.

    Parameters
    ----------
    page : Page
        Where it is printed.
    title : str
        The heading.
    texts : sequence of Text
        Paragraphs; without any, nothing is printed.
    """
    if not any(text.plain for text in texts):
        return
    page.put_line()
    if not page.wide:
        page.put_indented([page.words(title, "italic")], 0)
        page.put_indented(texts)
        return
    width = page.width - page.left - GUTTER
    page.put(
        Column((page.words(title, "italic"),), page.left, "right", GUTTER),
        Column(page.wrapped(texts, width), width),
    )


def foot(page: Page, edition: Edition) -> None:
    """Print what stands under the total: stages, coverage, and all that makes it judgeable.

    Parameters
    ----------
    page : Page
        Where it is printed.
    edition : Edition
        What is shown.
    """
    side(page, "Stages", _stages(page, edition))
    side(page, "Packs", pack_texts(page, edition))
    side(page, "Fizz", fizz_texts(page, edition))
    side(page, "Coverage", [page.words(wording.sentence(*footing.coverage_phrases(edition)))])
    side(
        page,
        "What to settle next",
        [page.words(words) for words in footing.settle_phrases(edition)],
    )
    side(page, "Assumed", [page.words(printable(words)) for words in edition.assumed])
    side(page, "A serving gives", [page.words(w) for w in giving.nutrition_phrases(edition)])
    side(page, "A serving costs", [page.words(w) for w in giving.cost_phrases(edition)])
    side(page, "Allergens", allergens(page, edition))
    side(page, "Cautions", [page.words(printable(words)) for words in edition.cautions])
    side(page, "Sources", [page.words(words) for words in footing.source_phrases(edition)])
    basis = [page.words(f"{name}: {value}") for name, value in footing.basis_rows(edition)]
    side(page, "Basis", [*basis, page.words(footing.review(edition))])
    signs(page, wording.all_marks(edition))


def _stages(page: Page, edition: Edition) -> list[Text]:
    made = []
    width = min(page.width - (page.left + GUTTER if page.wide else 5), 72)
    fields, zero = hatching.stage_fields(edition.stages, edition.middle)
    if page.drawn and fields:
        made += [
            hatched(fields, zero, width),
            page.words(wording.sentence(wording.below_zero(edition))),
        ]
    for stage, value in edition.stages:
        told = numerals.shown(value, edition.middle).text
        lead = f"{hatching.letter(stage)}  " if page.drawn else ""
        made.append(page.words(f"{lead}{stage} {told}"))
    return made


def allergens(page: Page, edition: Edition) -> list[Text]:
    """The allergen statement.

    Parameters
    ----------
    page : Page
        Where it is printed.
    edition : Edition
        What is shown.

    Returns
    -------
    list[Text]
        Paragraphs.
    """
    return [
        page.words(f"{what}: {which}" if what else which)
        for what, which in footing.allergen_phrases(edition)
    ]


def signs(page: Page, marks: Sequence[Mark]) -> None:
    """Print what the signs used in this proof mean.

    Parameters
    ----------
    page : Page
        Where it is printed.
    marks : sequence of Mark
        All marks of the proof.
    """
    levels = [level for level in ("doubt", "fault", "note") if any(m.level == level for m in marks)]
    side(
        page,
        "Signs",
        [page.sign(level) + page.words(f"  {margins.SIGN_MEANINGS[level]}") for level in levels],
    )


def comparison(page: Page, compared: Comparison) -> None:
    """Put servings beside each other on one scale, then every pair of them on shared draws.

    Parameters
    ----------
    page : Page
        Where it is printed.
    compared : Comparison
        Servings and their pairs.
    """
    middle = compared.items[0][1].basis.middle if compared.items else "mean"
    scale = common_scale(found.serving for _, found in compared.items)
    serving_heads(page, "One serving of each", scale)
    for (name, found), cost in zip_longest(compared.items, compared.costs):
        drawn = drawn_interval(page, scale, found.serving, middle, "o" if page.ascii else "●")
        told = [page.words(_function(found.function.kg, found.function.kcal))]
        if cost is not None:
            amount = giving.money(cost.per_serving, cost.currency, middle)
            told.append(page.words(f"{amount} for {numerals.percent(cost.coverage)} of the mass"))
        shown = figure(page, numerals.shown(found.serving, middle))
        reckoning_row(page, scale, printable(name), told, drawn, shown)
    servings = {name: found.serving for name, found in compared.items}
    for pair in compared.pairs:
        names = f"{printable(pair.a)} against {printable(pair.b)}"
        side(
            page,
            names,
            [*_pair(page, pair, servings, middle), *marks_of(page, pair.marks, in_line=False)],
        )


def _function(kg: float | None, kcal: float | None) -> str:
    parts = [] if kg is None else [numerals.plain_mass(kg)]
    if kcal is not None:
        parts.append(f"{numerals.plain(kcal, numerals.MOST_DIGITS)}{numerals.SPACE}kcal")
    return ", ".join(parts)


def _pair(page: Page, pair: Pair, servings: Mapping[str, Range], middle: str) -> list[Text]:
    if pair.difference is None:
        return [page.words(f"This comparison cannot be judged: {printable(pair.reason or '')}")]
    told = side_by_side.against(
        printable(pair.b),
        pair.difference,
        middle,
        ratio=pair.ratio.of_means if pair.ratio else None,
        share_lower=pair.share_a_lower,
        factor_set=pair.factor_set,
    )
    told += side_by_side.totals_apart(servings[pair.a], servings[pair.b], pair.difference)
    shared = ", ".join(printable(name) for name in pair.shares_draws_of)
    return [
        page.words(wording.sentence(*told)),
        page.words(f"On the same draws of: {shared}." if shared else "", GREY),
        *(
            page.words(giving.break_even_phrase(even.per, even.at, even.share_never, middle))
            for even in pair.break_even
        ),
    ]
