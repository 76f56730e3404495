"""The recipe's page: what stands in the margins of each line, and all that stands under it.

Every stage returns pieces of HTML with the place each belongs to; the page puts in only those
that have changed. Lines are named by their line in the file, since that is what is on the page.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Any, Final

from counterproof import numerals
from counterproof.desk.leaves import leaf, macro
from counterproof.draws import Streams
from counterproof.line_by_line import Sorts, line_read, step_read
from counterproof.marks import Mark
from counterproof.press import around, around_rows, footing, intervals, packs, side_by_side, wording
from counterproof.press.drawing import framed, set_in
from counterproof.press.intervals import Scale
from counterproof.press.setting import (
    Margin,
    opinion_rows,
    stage_key,
    strip,
    time_bars,
    total_row,
    version_rows,
)
from counterproof.proof import Edition, LineProof, StepProof, VersionProof
from counterproof.reading.model import MarkedLine, MarkedStep, Reading
from counterproof.recipe.kitchen import DEFAULTS
from counterproof.recipe.markup import file_lines, items
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.recipe.text import settle
from counterproof.rows import Tables
from counterproof.use_cases import Order

_MID: Final = "50%"
_ROWS: Final = "rows.html.j2"
_UNDER: Final = (
    "total",
    "versions",
    "around",
    "stages",
    "settle",
    "time",
    "coverage",
    "assumed",
    "gives",
    "costs",
    "allergens",
    "cautions",
    "sources",
    "basis",
)
_FIELDS: Final = {default.sentence(): default.name for default in DEFAULTS}
_OF_THE_SETTINGS: Final = ("eaten", "serving", "packed", "bought", "measures", "oven")
_WAIT_FOR_VERSIONS: Final = frozenset({"versions"})


Known = dict[tuple[str, int], tuple[object, str]]
"""Kind and number of a line → what it was made of, and the HTML it made."""


def read_stage(
    text: str, reading: Reading, tables: Tables, streams: Streams, known: Known
) -> dict[str, Any]:
    """Return what every line and step is understood to be.

    Parameters
    ----------
    text : str
        The recipe's text, in which a choice is written down.
    reading : Reading
        The recipe as read.
    tables : Tables
        All tables.
    streams : Streams
        Draws, for the ranges of masses.
    known : dict
        What was made for the text before; a line that is the same is not set again. It is
        brought up to date.

    Returns
    -------
    dict
        `rows`: line of the file → HTML of its left margin.
    """
    sorts = Sorts(tables, streams)
    middle = reading.kitchen.middle
    written = file_lines(text)
    rows: dict[int, str] = {}

    def once(kind: str, of: MarkedLine | MarkedStep, make: Callable[[], str]) -> None:
        number, at = of.written.number, of.written.at
        made_of = (middle, written[at - 1] if at else "", of)
        before = known.get((kind, number))
        html = before[1] if before is not None and before[0] == made_of else make()
        known[kind, number] = (made_of, html)
        _put(rows, of.written, html)

    for line in reading.lines:
        once("line", line, partial(_read_line, text, line, sorts, middle))
    for step in reading.steps:
        once("step", step, partial(_read_step, step))
    return {"rows": rows}


def _read_line(text: str, line: MarkedLine, sorts: Sorts, middle: str) -> str:
    settled = _settled(text, line.written, line.marks)
    return macro(_ROWS, "read_line", line_read(line, sorts), middle, settled)


def _read_step(step: MarkedStep) -> str:
    return macro(_ROWS, "read_step", step_read(step))


def valued_stage(text: str, edition: Edition, reading: Reading) -> dict[str, Any]:
    """Return what every line and step adds, the scale it stands on, and the total.

    Parameters
    ----------
    text : str
        The recipe's text.
    edition : Edition
        The proof without its versions.
    reading : Reading
        What the first stage has told already.

    Returns
    -------
    dict
        `rows`: line of the file → HTML of right margin and of what the left one adds; `head`,
        `axis`, `under`: pieces of the page by their place; `said`: the total in words.
    """
    scale = intervals.line_scale(edition)
    lines = {line.written.number: line for line in reading.lines}
    steps = {step.written.number: step for step in reading.steps}
    ends = _ends(
        text, [*(one.written for one in reading.lines), *(one.written for one in reading.steps)]
    )
    facts: dict[int, str] = {}
    right: dict[int, str] = {}
    for line in edition.lines:
        read = lines[line.number]
        more = [mark for mark in line.marks if mark not in read.marks]
        source = footing.source_number(edition, line.source)
        _put(facts, read.written, macro(_ROWS, "line_facts", line, source, more))
        _put(right, ends.get(read.written, read.written), _right(line, scale, edition.middle))
    for step in edition.steps:
        done = steps[step.number]
        more = [mark for mark in step.marks if mark not in done.marks]
        _put(facts, done.written, macro(_ROWS, "step_facts", step, more, edition.middle))
        _put(right, ends.get(done.written, done.written), _right(step, scale, edition.middle))
    return {
        "facts": facts,
        "right": right,
        "axis": str(set_in(intervals.axis(scale, title=f"Scale of the lines, {numerals.CO2E}"))),
        "ground": str(set_in(intervals.empty_interval(scale))),
        "head": str(leaf("head.html.j2", edition=edition, title=wording.title(edition))),
        "under": _under(
            edition, reading.recipe, (one for one in _UNDER if one not in _WAIT_FOR_VERSIONS)
        ),
        "said": wording.serving_phrase(edition),
    }


def beside_stage(edition: Edition, order: Order) -> dict[str, Any]:
    """Return what stands under the recipe, its versions among it.

    Parameters
    ----------
    edition : Edition
        The whole proof.
    order : Order
        What was worked out.

    Returns
    -------
    dict
        `under`: pieces of the page by their place; `said`: the total in words; `title`.
    """
    return {
        "under": _under(edition, order.recipe, _UNDER),
        "said": wording.serving_phrase(edition),
        "title": order.recipe.title,
    }


def _under(edition: Edition, recipe: Recipe, pieces: Iterable[str]) -> dict[str, str]:
    """The named pieces, each rendered; one without anything to say is empty."""
    serving = intervals.serving_scale(edition)
    told: Mapping[str, Any] = {
        "edition": edition,
        "axis": set_in(intervals.axis(serving, title=f"Scale of whole servings, {numerals.CO2E}")),
        "ground": set_in(intervals.empty_interval(serving)),
        "total": total_row(edition, serving),
        "total_told": _total_told(edition),
        "versions": version_rows(edition, serving),
        "versions_told": [_version_told(version, edition) for version in edition.versions],
        "opinions": opinion_rows(edition, serving),
        "strip": strip(edition),
        "key": stage_key(edition),
        "timeline": time_bars(edition),
        "assumed": [(words, *_control(words, edition, recipe)) for words in edition.assumed],
    }
    return {
        piece: str(leaf(f"under/{piece}.html.j2", **told, **_around(edition))).strip()
        for piece in pieces
    }


def _around(edition: Edition) -> dict[str, Any]:
    """What stands beside no line and no step, its packs and its gas."""
    scale = intervals.line_scale(edition)
    packed, fizz = edition.packaging, edition.fizz
    parts = {part.what for part in edition.apart}
    rows = zip(around_rows.apart_rows(edition, scale), edition.apart, strict=True)
    return {
        "apart": [(row, f"apart:{part.what}") for row, part in rows],
        "told_of": lambda row, key: [(key, words) for words in row.told if words],
        "line_axis": set_in(intervals.axis(scale, title=f"Scale of the lines, {numerals.CO2E}")),
        "pack_strips": () if packed is None else around_rows.pack_strips(packed),
        "fate_key": () if packed is None else around_rows.fate_key(packed),
        "pack_phrases": () if packed is None else packs.pack_phrases(packed),
        "packs_key": "apart:packs" if "packs" in parts else "serving",
        "fizz_key": "apart:fizz" if "fizz" in parts else "serving",
        "fizz_phrases": () if fizz is None else around.fizz_phrases(fizz),
    }


def _control(words: str, edition: Edition, recipe: Recipe) -> tuple[str, str]:
    """Where an assumption is changed: a field of the kitchen, a line of the file, the settings."""
    field = _FIELDS.get(words)
    if field is not None:
        return "field", field
    said = words.casefold()
    lines = {line.number: line.at for line in recipe.lines}
    for line in edition.lines:
        if line.food and said.startswith(line.food.casefold()) and lines.get(line.number):
            return "line", str(lines[line.number])
    if any(word in said for word in _OF_THE_SETTINGS):
        return "settings", ""
    return "", ""


def _total_told(edition: Edition) -> list[tuple[str, str]]:
    """What is told of the total, each phrase with the number it opens."""
    keys = [f"per:{key}" for key, value in edition.per.items() if value is not None]
    phrases = wording.per_phrases(edition)
    return [("batch", wording.batch_phrase(edition)), *zip(keys, phrases, strict=True)]


def _version_told(version: VersionProof, edition: Edition) -> list[tuple[str, str]]:
    """What is told of a version, each phrase with the number it opens."""
    told = []
    for phrase in side_by_side.version_phrases(version, edition):
        kind = "version"
        if " times the recipe" in phrase:
            kind = "ratio"
        elif phrase.startswith("lower than"):
            kind = "share"
        told.append((f"{kind}:{version.name}", phrase))
    return told


def _right(holder: LineProof | StepProof, scale: Scale, middle: str) -> str:
    kind = "line" if isinstance(holder, LineProof) else "step"
    if holder.kgco2e is None:
        return macro(_ROWS, "nothing", holder) if kind == "line" else ""
    told = numerals.shown(holder.kgco2e, middle)
    drawn = framed(  # the rules of the scale run behind all rows, drawn once
        intervals.mark(scale, holder.kgco2e, middle, _MID),
        title=f"{told.text}: {wording.between(told)}",
        css_class="interval",
    )
    return macro(_ROWS, "right", Margin(set_in(drawn), told), f"{kind}:{holder.number}")


def _settled(text: str, written: WrittenLine, marks: Iterable[Mark]) -> dict[str, str]:
    """Each choice of a line, and what the line of the file is once it is written down."""
    at = written.at
    choices = [choice for mark in marks for choice in mark.choices]
    if at is None:
        return {}
    return {choice: settle(text, at, choice).split("\n")[at - 1] for choice in choices}


def _ends(text: str, lines: Sequence[WrittenLine]) -> dict[WrittenLine, WrittenLine]:
    """Each line that runs on over several lines of the file, as it stands on the last of them."""
    rows = file_lines(text)
    begins = {line.at for line in lines}
    found = {}
    for line in lines:
        if line.at is None:
            continue
        last = line.at
        while last < len(rows) and last + 1 not in begins and _runs_on(rows[last]):
            last += 1
        if last != line.at:
            found[line] = replace(line, at=last)
    return found


def _runs_on(row: str) -> bool:
    """Whether a line of the file only goes on with what stands above it."""
    told = items([row])
    return bool(told) and told[0].sign == "plain"


def _put(rows: dict[int, str], written: WrittenLine, html: str) -> None:
    """Put a piece beside a line of the file, below what stands there from another part of it."""
    if written.at is not None:
        rows[written.at] = rows.get(written.at, "") + html
