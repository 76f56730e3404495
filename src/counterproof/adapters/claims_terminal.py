"""Likenesses and a vetted script in a terminal: the script's own lines between their margins."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text

from counterproof import numerals
from counterproof.adapters.characters import BLUE, GREY, STRONG, Column, Page
from counterproof.claims.saying import said
from counterproof.press.plain_text import printable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rich.console import Console

    from counterproof.claims.figure import Figure
    from counterproof.claims.loose import Loose
    from counterproof.claims.seen import Seen
    from counterproof.claims.theirs import Theirs
    from counterproof.claims.verdicts import OnBasis, Vetted, VettedClaim, VettedFigure

_LEVELS = {"holds": "note", "holds on its basis": "doubt"}


def print_likenesses(quantity: str, figure: Figure, seen: Sequence[Seen], console: Console) -> None:
    """Print a quantity as the things that picture it.

    Parameters
    ----------
    quantity : str
        As it was given.
    figure : Figure
        What it was understood to be.
    seen : sequence of Seen
        The best first.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    told = said(figure).text
    head = page.words(printable(quantity), STRONG)
    if told.replace(numerals.SPACE, " ") != quantity:
        head += page.words(f": {told}", GREY)
    page.put_indented([head], 0)
    if not seen:
        page.put_indented([page.words("Nothing pictures it with a count between 1 and 300.")], 0)
    for one in seen:
        page.put_line()
        page.put_indented([page.words(printable(one.sentence))], 0)
        small = [*one.conditions, *((one.warning,) if one.warning else ())]
        page.put_indented([page.words(printable("; ".join(small)), GREY)])
        page.put_indented([page.words(printable(f"Source: {one.source}"), GREY)])


def print_theirs(theirs: Theirs, console: Console) -> None:
    """Print which choices would give someone else's number.

    Parameters
    ----------
    theirs : Theirs
        The number, and what would give it.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    page.put_indented([page.words(printable(f"“{theirs.text}”"), STRONG)], 0)
    page.put_indented([page.words(f"{theirs.verdict}. {printable(theirs.wording)}", BLUE)], 0)
    for head, choices in (("Given by", theirs.giving), ("Nearest otherwise", theirs.nearest)):
        if choices:
            page.put_line()
            page.put_indented([page.words(head, STRONG)], 0)
            page.put_indented(
                [
                    page.words(printable(f"{numerals.plain(one.value)} kg: {one.words}"))
                    for one in choices
                ]
            )
    page.put_line()
    page.put_indented([page.words("To ask them", STRONG)], 0)
    from counterproof.claims.theirs import QUESTIONS  # noqa: PLC0415 - as the commands do

    page.put_indented([page.words(question) for question in QUESTIONS])


def print_vetted(vetted: Vetted, console: Console) -> None:
    """Print a script with its margins: figures, verdicts and loose numbers beside their lines.

    Parameters
    ----------
    vetted : Vetted
        The script, vetted.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    page.put_indented([page.words(printable(vetted.script.title or "Script"), STRONG)], 0)
    page.put_indented([page.words(_tally(vetted))], 0)
    notes = _notes(page, vetted)
    for number, written in enumerate(vetted.resolved_lines, start=1):
        _row(page, number, written, notes.get(number, []))
    for one in vetted.loose:
        if one.line is None:
            page.put_indented([_loose(page, one)], 0)


def _tally(vetted: Vetted) -> str:
    verdicts = [claim.verdict for claim in vetted.claims]
    parts = [f"{len(vetted.figures)} figures", f"{len(vetted.claims)} claims"]
    parts += [
        f"{verdicts.count(verdict)} {words}"
        for verdict, words in (
            ("holds", "hold"),
            ("holds on its basis", "on their basis"),
            ("does not hold", "do not hold"),
            ("cannot be judged", "cannot be judged"),
        )
        if verdict in verdicts
    ]
    loose = sum(one.contradicts for one in vetted.loose)
    parts.append(f"{len(vetted.loose)} loose numbers, {loose} contradicting")
    return ", ".join(parts) + "."


def _notes(page: Page, vetted: Vetted) -> dict[int, list[Text]]:
    notes: dict[int, list[Text]] = {}
    for figure in vetted.figures:
        notes.setdefault(figure.expression.line, []).extend(_figure(page, figure))
    for claim in vetted.claims:
        notes.setdefault(claim.expression.line, []).extend(_claim(page, claim))
    for loose in vetted.loose:
        if loose.line is not None:
            notes.setdefault(loose.line, []).append(_loose(page, loose))
    for flagged in vetted.overclaims:
        words = "; ".join(f"{rule.says} ({rule.rule})" for rule in flagged.rules)
        lead = page.sign("doubt") + Text(" ")
        told = page.words(printable(f"“{flagged.as_written}”: {words}"), BLUE)
        notes.setdefault(flagged.line, []).append(lead + told)
    return notes


def _figure(page: Page, figure: VettedFigure) -> list[Text]:
    if figure.said is None:
        return [
            page.sign(mark.level) + Text(" ") + page.words(printable(mark.message), BLUE)
            for mark in figure.marks
        ]
    lead = page.words(printable(figure.said.words), STRONG)
    if figure.said.span:
        lead += page.words(f" ({figure.said.span})", GREY)
    return [lead, *(page.words(printable(mark.message), GREY) for mark in figure.marks)]


def _claim(page: Page, claim: VettedClaim) -> list[Text]:
    lead = page.sign(_LEVELS.get(claim.verdict, "fault")) + Text(" ")
    told = page.words(claim.verdict, STRONG if claim.kept else BLUE)
    if claim.share is not None:
        told += page.words(f": true in {numerals.percent(claim.share.share)}, {claim.share.term}")
    made = [lead + told]
    if claim.reason:
        made.append(page.words(printable(claim.reason), GREY if claim.kept else BLUE))
    if claim.contradicted:
        made.append(page.sign("fault") + Text(" ") + page.words(claim.contradicted, BLUE))
    failing = [one for one in claim.other_bases if one.holds is False]
    if failing:
        made.append(page.words("; ".join(_on(one) for one in failing), GREY))
    if claim.strongest is not None:
        made.append(page.words(printable(f"what holds: {claim.strongest}"), GREY))
    return made


def _on(one: OnBasis) -> str:
    share = "" if one.share is None else f" {numerals.percent(one.share.share)}"
    return f"{one.basis}:{share or ' not so'}"


def _loose(page: Page, one: Loose) -> Text:
    where = f"{one.time} " if one.time else ""
    words = f"{where}“{one.as_written}” is typed, not worked out"
    if one.nearest is not None:
        words += f"; nearest is {one.nearest}"
    if one.contradicts:
        words = f"{where}“{one.as_written}” contradicts {one.nearest}"
    level = "fault" if one.contradicts else "note"
    style = BLUE if one.contradicts else GREY
    return page.sign(level) + Text(" ") + page.words(printable(words), style)


def _row(page: Page, number: int, written: str, notes: list[Text]) -> None:
    text = page.words(printable(written.rstrip()))
    if not page.wide:
        page.put_indented([text], 0) if written.strip() else page.put_line()
        page.put_indented(notes)
        return
    line = page.width - page.left - 8
    page.put(
        Column(page.wrapped(notes, page.left), page.left, "right", 2),
        Column((page.words(str(number), GREY),), 4, "right", 2),
        Column(page.wrapped([text], line), line),
    )
