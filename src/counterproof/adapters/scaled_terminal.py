"""A scaled recipe in a terminal: each line with its new amount, the pots, and what does not scale."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from rich.text import Text

from counterproof import numerals
from counterproof.adapters.batch_terminal import marks
from counterproof.adapters.characters import BLUE, GREY, STRONG, Column, Page
from counterproof.adapters.reckoning import marks_of
from counterproof.press.plain_text import printable

if TYPE_CHECKING:
    from rich.console import Console

    from counterproof.batch.ratios import Ratio
    from counterproof.batch.scaling import Scaled, ScaledLine

_NAME: Final = 20
_VALUE: Final = 20
_NOTHING: Final = 0.01
"""Share below which rounding is not told: assumed, less than any kitchen notices. [1]"""


def print_scaled(scaled: Scaled, console: Console) -> None:
    """Print a recipe at another size.

    Parameters
    ----------
    scaled : Scaled
        The recipe.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    split = scaled.split
    page.put_indented([page.words(printable(scaled.written.recipe.title), STRONG)], 0)
    times = f"{numerals.plain(scaled.factor, 3)} times the recipe, serves {numerals.count(scaled.serves)}"
    page.put_indented([page.words(f"{times}; decided by {printable(scaled.because)}.")], 0)
    page.put_indented([page.words(_pots(scaled), GREY)], 0)
    page.put_line()
    heads = ("as written", "for one pot" if split.pots > 1 else "scaled", "weighs")
    _row(page, *(Text(head, style=GREY) for head in heads))
    for line in scaled.lines:
        _line(page, line, split.pots)
    if scaled.jars is not None:
        jars = scaled.jars
        said = (
            f"{jars.count} jars of {1e6 * jars.volume:.0f} ml: fill {1e6 * jars.filled.line:.0f} ml into "
            f"each and leave {100 * jars.filled.depth:.1f} cm free below the rim ({jars.filled.rule}). "
            "Straight-sided glass sold for the freezer only; lids loose until it is frozen."
        )
        _section(page, "Freeze line", [page.words(said)])
    for ratio in scaled.ratios:
        _ratio(page, ratio)
    for one in scaled.unscaled:
        texts = [page.words(printable(one.says))]
        if one.basis != "kitchen physics":
            texts.append(page.words(f"({one.basis})", GREY))
        _section(page, one.what, texts)
    marks(page, [(0, mark) for mark in scaled.marks])


def _pots(scaled: Scaled) -> str:
    split = scaled.split
    if split.litres <= 0.0:
        return "Nothing is cooked on the hob."
    name = f"the {split.vessel.name}" if split.vessel is not None else "a pot"
    room = f" of {split.room:g} L" if split.room else ""
    each = f"{numerals.plain(split.litres)} L at its fullest"
    if split.pots == 1:
        return f"One pot: {printable(name)}{room}, {each}."
    rounds = "" if split.rounds == 1 else f" in {split.rounds} rounds"
    return (
        f"{split.pots} pots, {split.at_once} at once{rounds}: each like {printable(name)}{room}, {each}. "
        "Amounts below are for one pot."
    )


def _line(page: Page, line: ScaledLine, pots: int) -> None:
    said = (
        []
        if line.measured_kg is None
        else [page.words(numerals.plain_mass(line.measured_kg), STRONG)]
    )
    effect = line.effect
    if effect is not None and abs(effect) >= _NOTHING:
        sign = "+" if effect > 0 else numerals.MINUS
        said.append(page.words(f"rounding {sign}{numerals.percent(abs(effect))}", GREY))
    if pots > 1 and line.measured_kg is not None:
        said.append(page.words(f"{numerals.plain_mass(pots * line.measured_kg)} in all", GREY))
    _columns(
        page,
        [page.words(f"{line.number}. {printable(line.as_written)}", GREY)],
        [page.words(printable(line.text)), *marks_of(page, line.marks, in_line=True)],
        said,
    )


def _ratio(page: Page, ratio: Ratio) -> None:
    told = []
    for one in ratio.shares:
        change = "" if one.holds else f" → {100 * one.after:.3g} %"
        words = page.words(f"{printable(one.name)} {100 * one.before:.3g} %{change}")
        if not one.holds:
            words.stylize(BLUE)
        told.append(words)
    lead = page.words(
        f"of the {ratio.base}, {'held' if ratio.holds else 'moved by rounding'}:", GREY
    )
    _section(page, ratio.kind, [lead, *told])


def _section(page: Page, title: str, texts: list[Text]) -> None:
    page.put_line()
    width = min(max(page.width - _NAME - 2, 20), 96)
    page.put(
        Column(page.wrapped([page.words(title, "italic")], _NAME), _NAME, "right"),
        Column(page.wrapped(texts, width), width),
    )


def _row(page: Page, before: Text, after: Text, weighs: Text) -> None:
    _columns(page, [before], [after], [weighs])


def _columns(page: Page, before: list[Text], after: list[Text], weighs: list[Text]) -> None:
    half = (page.width - _VALUE - 4) // 2
    if half < 24:
        page.put_indented(after, 0)
        page.put_indented([Text(", ").join(part for part in weighs if part.plain)])
        return
    page.put(
        Column(page.wrapped(before, half), half),
        Column(page.wrapped(after, half), half),
        Column(page.wrapped(weighs, _VALUE), _VALUE),
    )
