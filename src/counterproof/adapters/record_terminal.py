"""Batches in a terminal: plan and fact side by side, what accounts for it, and what is offered."""

from __future__ import annotations

from pathlib import PurePath
from typing import TYPE_CHECKING, Final

from rich.text import Text

from counterproof import numerals
from counterproof.adapters.batch_terminal import marks
from counterproof.adapters.characters import BLUE, GREY, STRONG, Column, Page
from counterproof.batch.fits import moment
from counterproof.draws import Range
from counterproof.in_words import seconds_in_words
from counterproof.press.plain_text import printable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rich.console import Console

    from counterproof.batch.beside import Row, Scatter
    from counterproof.batch_cases import Batch, Recorded
    from counterproof.physics.answer import Verdict

_NAME: Final = 20
_VALUE: Final = 23


def print_recorded(recorded: Recorded, console: Console, middle: str = "mean") -> None:
    """Print batches beside their plan.

    Parameters
    ----------
    recorded : Recorded
        The batches.
    console : Console
        Where it is printed.
    middle : str
        "mean" or "median": which value stands in the middle.
    """
    page = Page(console)
    page.put_indented([page.words(printable(recorded.reading.recipe.title), STRONG)], 0)
    for batch in recorded.batches:
        _batch(page, batch, middle)
    if len(recorded.batches) > 1:
        _over(page, recorded.scatter, middle)
    _offered(page, recorded)


def amount(value: Range, unit: str, middle: str = "mean") -> str:
    """A figure of a batch as it is printed.

    Parameters
    ----------
    value : Range
        The figure. [unit]
    unit : str
        kg, m³, s, kWh or °Bx.
    middle : str
        "mean" or "median": which value stands in the middle.

    Returns
    -------
    str
        In the unit a cook reads, with its range.
    """
    if unit == "kg":
        return numerals.mass(value, middle).text
    if unit == "m³":
        return numerals.shown(value.scaled(1000.0), middle, "L").text
    if unit == "s":
        return seconds_in_words(max(value.p05, 0.0), value.p95)
    if unit == "kWh":
        return numerals.energy(value, middle).text
    return numerals.shown(value, middle, unit).text


def _batch(page: Page, batch: Batch, middle: str) -> None:
    made = batch.made
    page.put_line()
    head = page.words(made.day, STRONG) + page.words(
        f"  for {numerals.count(made.serves)}, {printable(PurePath(made.file).name)}", GREY
    )
    page.put_indented([head], 0)
    page.put_line()
    _row(page, Text(), *(Text(said, style=GREY) for said in ("planned", "made", "")))
    for row in batch.rows:
        _measured(page, row, middle)
    if batch.balance is not None:
        _balance(page, batch)
    _section(page, "Why", [page.words(said) for said in batch.reasons])
    _section(page, "Ring", _heating(page, batch))
    _section(page, "Cooling", _cooling(page, batch))
    was, now = numerals.shown(batch.planned, middle), numerals.shown(batch.as_made, middle)
    _section(
        page, "A serving", [page.words(f"as planned {was.text}"), page.words(f"as made {now.text}")]
    )
    _section(page, "Tasted", [page.words(printable(said)) for said in made.tasted])
    _section(page, "Remarks", [page.words(printable(said), GREY) for said in made.remarks])
    marks(page, made.marks)


def _measured(page: Page, row: Row, middle: str) -> None:
    measured = row.measured
    found = Range(
        measured.value, measured.value - measured.half, measured.value,
        measured.value + measured.half,
    )  # fmt: skip
    planned = "" if row.planned is None else amount(row.planned, row.unit, middle)
    verdict = Text()
    if row.ruling == "beyond the plan":
        times = (
            "beyond the plan" if row.ratio is None else f"{numerals.plain(row.ratio)} × the plan"
        )
        verdict = page.sign("doubt") + page.words(f" {times}", BLUE)
    lead = f"{row.number}. " if row.number is not None else ""
    _row(
        page,
        page.words(f"{lead}{printable(row.called)}", GREY),
        page.words(planned),
        page.words(amount(found, row.unit, middle), STRONG),
        verdict,
    )


def _balance(page: Page, batch: Batch) -> None:
    balance = batch.balance
    if balance is None:
        return
    out = " + ".join(
        f"{numerals.plain_mass(one.value)} {name}" for name, one in balance.out.items()
    )
    left = numerals.plain_mass(abs(balance.missing))
    less = "missing" if balance.missing >= 0.0 else "too much"
    said = (
        f"{numerals.plain_mass(balance.put_in.value)} in the pot = {out}; {left} {less} "
        f"(give or take {numerals.plain_mass(balance.half)}): what clings to cloth, spoon and pot."
    )
    _section(page, "Balance", [page.words(said)])


def _heating(page: Page, batch: Batch) -> list[Text]:
    heating = batch.heating
    if heating is None:
        return []
    power = numerals.shown(heating.power.scaled(0.001), "mean", "kW").text
    boils = seconds_in_words(heating.boils.p05, heating.boils.p95)
    said = f"Takes {power} while it heats, from the temperatures; to the boil in {boils}."
    on = batch.made.events.get("on")
    if on is not None and "boil" not in batch.made.events:
        early, late = (
            moment(on + end, clocked=batch.made.clocked)
            for end in (heating.boils.p05, heating.boils.p95)
        )
        said += f" It should boil between {early} and {late}."
    if heating.misfit >= 9.0:
        said += " No power comes near all points: was the setting changed on the way?"
    return [page.words(said)]


def _cooling(page: Page, batch: Batch) -> list[Text]:
    cooling = batch.cooling
    if cooling is None:
        return []
    result = cooling.answer.result
    pace = result["pace"]
    said = (
        f"Takes {numerals.plain(pace['p50'])} times as long as the model "
        f"({numerals.plain(pace['p05'])}–{numerals.plain(pace['p95'])})."
    )
    texts = [_verdict(page, one, "measured, ") for one in cooling.measured]
    texts.append(page.words(said))
    lead = "had it stayed there, " if cooling.moved else ""
    texts += [_verdict(page, one, lead) for one in cooling.answer.verdicts]
    if cooling.latest_bath is not None:
        by = moment(cooling.latest_bath, clocked=batch.made.clocked)
        told = f"Into iced water by {by} to pass, with ice left to the end."
        texts.append(page.words(told, f"{STRONG} {BLUE}"))
    elif cooling.needed and not cooling.moved:
        told = "From the last reading on, iced water alone no longer passes."
        texts.append(page.words(told, BLUE))
    if not cooling.moved:
        texts += [
            page.words(f"Would pass: {printable(one['says'])}") for one in result["would_pass"]
        ]
    texts += [page.words(printable(said), GREY) for said in cooling.answer.cautions]
    return texts


def _verdict(page: Page, one: Verdict, lead: str) -> Text:
    pressing = one.verdict in {"over", "too close"}
    ruling = page.words(f"{lead}{one.verdict}", f"{STRONG} {BLUE}" if pressing else STRONG)
    return ruling + page.words(f": {printable(one.message)}")


def _over(page: Page, scatter: Sequence[Scatter], middle: str) -> None:
    page.put_line()
    page.put_indented([page.words("Over the batches, at the recipe’s own size", STRONG)], 0)
    page.put_line()
    _row(
        page,
        Text(),
        *(Text(said, style=GREY) for said in ("planned", "mean, one batch’s spread", "")),
    )
    for one in scatter:
        spread = one.deviation
        wide = 1.645 * (spread or 0.0)
        found = Range(one.mean, max(one.mean - wide, 0.0), one.mean, one.mean + wide)
        planned = "" if one.planned is None else amount(one.planned, one.unit, middle)
        lead = f"{one.number}. " if one.number is not None else ""
        count = f"{len(one.values)} batches" if len(one.values) > 1 else "one batch"
        _row(
            page,
            page.words(f"{lead}{printable(one.called)}", GREY),
            page.words(planned),
            page.words(amount(found, one.unit, middle), STRONG),
            page.words(count, GREY),
        )


def _offered(page: Page, recorded: Recorded) -> None:
    if not recorded.corrections:
        return
    page.put_line()
    page.put_indented([page.words("Offered", STRONG)], 0)
    page.put_indented(
        [
            page.words(
                "Nothing is changed unless it is accepted: --accept NAME, as often as wanted.", GREY
            )
        ],
        0,
    )
    for one in recorded.corrections:
        page.put_line()
        change = page.words(f"{one.where}: ", GREY) + page.words(
            f"{printable(one.now)} → {printable(one.becomes)}"
        )
        _row2(
            page,
            page.words(one.name, f"{STRONG} {BLUE}"),
            [change, page.words(printable(one.because), GREY)],
        )


def _section(page: Page, title: str, texts: list[Text]) -> None:
    if texts:
        page.put_line()
        _row2(page, page.words(title, "italic"), texts)


def _row2(page: Page, name: Text, texts: list[Text]) -> None:
    width = min(max(page.width - _NAME - 2, 20), 96)
    page.put(
        Column(page.wrapped([name], _NAME), _NAME, "right"),
        Column(page.wrapped(texts, width), width),
    )


def _row(page: Page, name: Text, planned: Text, made: Text, verdict: Text) -> None:
    if page.width < _NAME + 2 * _VALUE + 12:
        if not name.plain:  # the heads of columns that are not there
            return
        page.put_indented([name], 0)
        parts = [Text("planned ", style=GREY) + planned if planned.plain else Text(), made, verdict]
        page.put_indented([Text("; ").join(part for part in parts if part.plain)])
        return
    rest = max(page.width - _NAME - 2 * _VALUE - 6, 12)
    page.put(
        Column(page.wrapped([name], _NAME), _NAME, "right"),
        Column(page.wrapped([planned], _VALUE), _VALUE),
        Column(page.wrapped([made], _VALUE), _VALUE),
        Column(page.wrapped([verdict], rest), rest),
    )
