"""The proof in a terminal: the same three columns as the sheet, in characters.

From 100 columns on, the left margin, the line and the right margin stand beside each other, with
the interval drawn on the common scale; in a narrower terminal the margins fold under the line.
Piped into a file or another program, the same words come without drawing or colour.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len
from rich.text import Text

from counterproof import numerals
from counterproof.adapters.characters import (
    BLUE,
    FOLD,
    GREY,
    GUTTER,
    STRONG,
    Column,
    Page,
    axis,
    drawn_interval,
    ground,
)
from counterproof.adapters.reckoning import (
    allergens,
    comparison,
    figure,
    foot,
    marks_of,
    reckoning_row,
    side,
    signs,
    total,
)
from counterproof.adapters.time_lines import timeline
from counterproof.press import around, footing, margins, wording
from counterproof.press.intervals import Scale, line_scale
from counterproof.press.plain_text import printable
from counterproof.proof import Edition, LineProof, StepProof

if TYPE_CHECKING:
    from rich.console import Console

    from counterproof.comparison.paired import Comparison
    from counterproof.errors import CounterproofError


def print_proof(edition: Edition, console: Console) -> None:
    """Print the whole proof: every line between its margins, and what stands under the recipe.

    Parameters
    ----------
    edition : Edition
        What is shown.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    _head(page, edition, (wording.serving_phrase(edition), wording.attention(edition)))
    scale = line_scale(edition)
    _rows(page, edition, scale)
    _around(page, edition, scale)
    timeline(page, edition)
    total(page, edition)
    foot(page, edition)


def print_mark(edition: Edition, console: Console) -> None:
    """Print how each line and step was understood, without any footprint.

    Parameters
    ----------
    edition : Edition
        What is shown.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    _head(page, edition, (wording.attention(edition),))
    _rows(page, edition, None)
    timeline(page, edition)
    side(page, "Allergens", allergens(page, edition))
    side(page, "Assumed", [page.words(printable(words)) for words in edition.assumed])
    side(page, "Cautions", [page.words(printable(words)) for words in edition.cautions])
    signs(page, wording.all_marks(edition))


def print_comparison(compared: Comparison, console: Console) -> None:
    """Print servings of recipes or versions beside each other, and every pair of them.

    Parameters
    ----------
    compared : Comparison
        Servings and their pairs.
    console : Console
        Where it is printed.
    """
    comparison(Page(console), compared)


def print_error(error: CounterproofError, console: Console) -> None:
    """Print what went wrong, where, and what to do next; the technical name comes last.

    Parameters
    ----------
    error : CounterproofError
        What went wrong.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    where = printable(error.file or "")
    if error.line is not None:
        where = f"{where}, line {error.line}" if where else f"line {error.line}"
    lead = page.words(f"{where}: " if where else "", STRONG)
    page.put_indented([lead + page.words(printable(error.message))], 0)
    page.put_indented(
        [page.words(printable(error.remedy), BLUE) + page.words(f" ({error.kind})", GREY)], 0
    )


def _head(page: Page, edition: Edition, phrases: tuple[str, ...]) -> None:
    page.put_indented([page.words(wording.title(edition), STRONG)], 0)
    page.put_indented([page.words(wording.yield_(edition), GREY)], 0)
    page.put_indented([page.words(" ".join(wording.sentence(phrase) for phrase in phrases))], 0)
    page.put_indented(marks_of(page, edition.marks, in_line=False), 0)


def _rows(page: Page, edition: Edition, scale: Scale | None) -> None:
    heading = wording.column_heading(edition)
    for kind, holders in (("Ingredients", edition.lines), ("Method", edition.steps)):
        if not holders:
            continue
        _heads(page, kind, heading, scale)
        section = ""
        for holder in holders:
            if holder.section != section:
                section = holder.section
                _section(page, section, scale)
            _row(page, holder, edition, scale)


def _around(page: Page, edition: Edition, scale: Scale) -> None:
    if not edition.apart:
        return
    _heads(page, around.TITLE, wording.column_heading(edition), scale, "belongs to")
    for part in edition.apart:
        told = [page.words(around.apart_text(edition, part))]
        shares = (around.apart_share(part), around.apart_shares(edition, part))
        told.append(page.words(wording.sentence(*shares), GREY))
        drawn = drawn_interval(page, scale, part.kgco2e, edition.middle)
        shown = figure(page, numerals.shown(part.kgco2e, edition.middle))
        name = around.NAMES.get(part.what, part.what)
        reckoning_row(page, scale, name, told, drawn, shown)


def _heads(
    page: Page, title: str, heading: str, scale: Scale | None, left: str = "understood as"
) -> None:
    page.put_line()
    if not page.wide:
        told = f"{title} ({heading})" if scale else title
        page.put_indented([page.words(told, STRONG)], 0)
        return
    columns = [
        Column((page.words(left, GREY),), page.left, "right", 1),
        Column((), 1, gap=1),
        Column((), 4, gap=1),
        Column((page.words(title, STRONG),), page.line),
    ]
    if scale:
        labels = page.wrapped([page.words(heading, GREY)], page.scale + page.value + 2)
        blank = [Text()] * (len(labels))
        columns = [
            Column((*blank, *column.lines), column.width, column.justify, column.gap)
            for column in columns
        ]
        columns.append(Column((*labels, axis(page, scale)), page.scale))
    page.put(*columns)


def _section(page: Page, section: str, scale: Scale | None) -> None:
    name = page.words(printable(section), "italic")
    if page.wide:
        rules = (ground(page, scale),) if scale else ()
        page.put(
            Column((), page.left + GUTTER, gap=0),
            Column((name,), page.line),
            Column(rules, page.scale),
        )
    elif section:
        page.put_line()
        page.put_indented([name], 0)


def _row(page: Page, holder: LineProof | StepProof, edition: Edition, scale: Scale | None) -> None:
    middle = edition.middle
    text = page.words(printable(holder.as_written))
    pressing, notes = margins.marks_by_weight(holder.marks)
    if pressing:
        text += page.words(" ") + page.sign(pressing[0].level)
    in_line = isinstance(holder, LineProof)
    facts = _facts(page, holder, edition, scale)
    number = page.words(f"{holder.number}.", GREY)
    if not page.wide:
        page.put(
            Column((number,), 4, "right", 1), Column(page.wrapped([text], page.line), page.line)
        )
        page.put_indented(marks_of(page, pressing, in_line=in_line), FOLD)
        page.put_indented(facts, FOLD)
        page.put_indented(marks_of(page, notes, in_line=in_line), FOLD)
        if scale:
            page.put_indented(_folded_value(page, holder, middle, scale), FOLD)
        return
    left = page.wrapped(
        [*marks_of(page, pressing, in_line=in_line, signed=False), *facts], page.left
    )
    noted = page.wrapped(marks_of(page, notes, in_line=in_line, signed=False), page.left)
    signs = [Text()] * (len(left) + len(noted))
    if pressing:
        signs[0] = page.sign(pressing[0].level)
    if noted:
        signs[len(left)] = page.sign("note")
    written = list(page.wrapped([text], page.line))
    columns = [
        Column((*left, *noted), page.left, "right", 1),
        Column(tuple(signs), 1, gap=1),
        Column((number,), 4, "right", 1),
    ]
    if scale is None:
        page.put(*columns, Column(tuple(written), page.line))
        page.put_line()
        return
    value = _value(page, holder, middle)
    height = max(len(left) + len(noted), len(written), len(value)) + 1
    if holder.kgco2e is not None and written:
        written[0] = _led(page, written[0])
    drawn = [
        drawn_interval(page, scale, holder.kgco2e, middle),
        *[ground(page, scale)] * (height - 1),
    ]
    page.put(
        *columns,
        Column(tuple(written), page.line),
        Column(tuple(drawn), page.scale),
        Column(value, page.value),
    )


def _led(page: Page, written: Text) -> Text:
    """A line of type with the dotted leader that takes the eye to its mark."""
    written.rstrip()
    room = page.line - cell_len(written.plain) - 1
    return (
        written + page.words(" " + ("." if page.ascii else "·") * room, GREY)
        if room > 2
        else written
    )


def _facts(
    page: Page, holder: LineProof | StepProof, edition: Edition, scale: Scale | None
) -> list[Text]:
    middle = edition.middle
    if isinstance(holder, LineProof):
        return [
            page.words(printable(holder.food or ""), STRONG),
            page.words(margins.amount(holder, middle)),
            page.words(_link(holder, edition) if scale else "", GREY),
            page.words(margins.certainty(holder), GREY),
        ]
    return [
        page.words(printable(holder.understood), STRONG),
        page.words(margins.step_energy(holder, middle)),
    ]


def _link(line: LineProof, edition: Edition) -> str:
    number = footing.source_number(edition, line.source)
    return f"{margins.link(line)} [{number}]" if number else margins.link(line)


def _value(page: Page, holder: LineProof | StepProof, middle: str) -> tuple[Text, ...]:
    if holder.kgco2e is None:
        why = margins.why_not_counted(holder)
        return page.wrapped([page.words(why, GREY)], page.value)
    return figure(page, numerals.shown(holder.kgco2e, middle))


def _folded_value(
    page: Page, holder: LineProof | StepProof, middle: str, scale: Scale
) -> list[Text]:
    if holder.kgco2e is None:
        return [page.words(margins.why_not_counted(holder), GREY)]
    told = numerals.shown(holder.kgco2e, middle)
    if not page.drawn:
        median = f"; median {told.median}" if told.median else ""
        return [page.words(f"{told.text}{median}")]
    drawn = drawn_interval(page, scale, holder.kgco2e, middle)
    return [drawn + Text("  ") + Text("  ").join(figure(page, told))]
