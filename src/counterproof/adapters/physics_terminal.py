"""One kitchen answer in a terminal: the sentence, its quantities, the verdicts, the curve."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from counterproof.adapters.characters import BLUE, GREY, STRONG, Column, Page
from counterproof.adapters.plotting import drawn, listed
from counterproof.adapters.reckoning import side
from counterproof.physics.answer import Answer, Verdict
from counterproof.press import kitchen_answers
from counterproof.press.kitchen_curves import plot_of
from counterproof.press.kitchen_headlines import headline

if TYPE_CHECKING:
    from rich.console import Console
    from rich.text import Text

    from counterproof.rows import Source, Tables

_LABEL = 24
"""Columns of a quantity's name."""


def print_answer(answer: Answer, tables: Tables, console: Console, middle: str = "mean") -> None:
    """Print one answer.

    Parameters
    ----------
    answer : Answer
        The answer.
    tables : Tables
        With the source records.
    console : Console
        Where it is printed.
    middle : str
        "mean" or "median": which value stands in the middle.
    """
    page = Page(console)
    said = headline(answer, middle)
    page.put_indented([page.words(said, STRONG)], 0)
    page.put_line()
    for name, value in kitchen_answers.lines(answer, middle):
        _line(page, name, value)
    _curve(page, answer)
    _section(page, "Verdicts", [_verdict(page, verdict) for verdict in answer.verdicts])
    passing = "Would pass" if answer.process == "cool" else "Advice"
    _section(page, passing, [page.words(said) for said in kitchen_answers.passing(answer)])
    _section(page, "In stages", [page.words(said) for said in kitchen_answers.staged(answer)])
    _section(
        page,
        "Mind",
        [
            page.sign(flag.level)
            + page.words(
                f" {kitchen_answers.sentence(flag.message)}", BLUE if flag.level != "note" else ""
            )
            for flag in answer.flags
        ],
    )
    _section(page, "Cautions", [page.words(said) for said in answer.cautions])
    _section(
        page,
        "Assumed",
        [page.words(kitchen_answers.assumption(said), GREY) for said in answer.assumed],
    )
    _section(page, "Sources", _sources(page, answer, tables.sources))


def _line(page: Page, name: str, value: str) -> None:
    width = max(page.width - _LABEL - 2, 16)
    page.put(
        Column(page.wrapped([page.words(name, GREY)], _LABEL), _LABEL, "right"),
        Column(page.wrapped([page.words(value)], width), width),
    )


def _section(page: Page, title: str, texts: list[Text]) -> None:
    """A heading in the column of names and what it heads beside it."""
    if not texts:
        return
    page.put_line()
    if page.width < 2 * _LABEL + 12:
        side(page, title, texts)
        return
    width = min(page.width - _LABEL - 2, 96)
    page.put(
        Column((page.words(title, "italic"),), _LABEL, "right"),
        Column(page.wrapped(texts, width), width),
    )


def _verdict(page: Page, verdict: Verdict) -> Text:
    pressing = verdict.verdict in {"over", "too close"}
    lead = page.words(verdict.verdict, f"{STRONG} {BLUE}" if pressing else STRONG)
    return (
        lead
        + page.words(f": {kitchen_answers.sentence(verdict.message)}")
        + page.words(f" ({verdict.rule}, {verdict.source})", GREY)
    )


def _sources(page: Page, answer: Answer, known: Mapping[str, Source]) -> list[Text]:
    told = []
    for name in answer.sources:
        record = known.get(name)
        credit = f"  {record.credit}" if record is not None else ""
        told.append(page.words(name) + page.words(credit, GREY))
    return told


def _curve(page: Page, answer: Answer) -> None:
    plot = plot_of(answer)
    if plot is None:
        return
    page.put_line()
    if page.drawn:
        for line in drawn(page, plot):
            page.put_line(line)
    else:
        _line(page, "curve", listed(plot))
