"""An Edition set into rows between margins: what every page that shows a proof puts in place.

The self-contained sheet and the desk lay the same rows out differently; what stands in a margin,
which drawing and which words, is decided here once.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from counterproof import numerals
from counterproof.draws import Range
from counterproof.marks import Mark
from counterproof.numerals import Shown
from counterproof.press import footing, hatching, intervals, margins, side_by_side, times, wording
from counterproof.press.drawing import set_in
from counterproof.press.intervals import Scale
from counterproof.press.plain_text import printable
from counterproof.proof import Edition, LineProof, StepProof, TaskProof

LINE_HEIGHT = "1.28125em"
"""Where an interval's line stands below the top of its row: half-way up the first line of type."""


@dataclass(frozen=True, slots=True)
class Margin:
    """What stands in the right margin: a drawing, a number, or why there is none."""

    drawn: Markup
    value: Shown | None = None
    why: str = ""

    @property
    def whole(self) -> str:
        """Digits before the decimal point, which stand in one column."""
        return "" if self.value is None else self.value.middle.partition(".")[0]

    @property
    def fraction(self) -> str:
        """The point and the digits behind it."""
        if self.value is None or "." not in self.value.middle:
            return ""
        return f".{self.value.middle.partition('.')[2]}"


@dataclass(frozen=True, slots=True)
class Row:
    """A line or step between its margins."""

    kind: str  # "line" or "step"
    number: int
    text: str
    facts: tuple[tuple[str, str, str], ...]  # (class of type, words, number kept in one piece)
    marks: tuple[Mark, ...]
    right: Margin
    source: int | None = None  # the footnote to the factor


@dataclass(frozen=True, slots=True)
class Section:
    """Rows under one sub-heading of the recipe."""

    heading: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Reckoning:
    """A row under the recipe that stands on the scale of whole servings."""

    name: str
    facts: tuple[str, ...]
    told: tuple[str, ...]
    right: Margin
    sum: str = ""
    remarks: tuple[str, ...] = ()


def sections(rows: Iterable[tuple[str, Row]]) -> tuple[Section, ...]:
    """Return rows under their sub-headings.

    Parameters
    ----------
    rows : iterable of (str, Row)
        Each with the sub-heading it stands under.

    Returns
    -------
    tuple of Section
        In the order given.
    """
    return tuple(
        Section(printable(heading), tuple(row for _, row in under))
        for heading, under in groupby(rows, key=lambda pair: pair[0])
    )


def line_row(line: LineProof, scale: Scale, edition: Edition) -> tuple[str, Row]:
    """Return an ingredient line between its margins, with the sub-heading it stands under.

    Parameters
    ----------
    line : LineProof
        The line.
    scale : Scale
        The one scale of all lines.
    edition : Edition
        The proof it stands in.

    Returns
    -------
    tuple of str and Row
        Sub-heading and row.
    """
    middle = edition.middle
    facts = (
        ("food", printable(line.food or ""), ""),
        ("amount", margins.quantity(line), margins.line_mass(line, middle)),
        ("factor", margins.link(line), ""),
        ("certainty", margins.certainty(line), ""),
    )
    if line.kgco2e is None:
        right = Margin(
            set_in(intervals.empty_interval(scale)),
            why=margins.why_not_counted(line),
        )
    else:
        right = interval_margin(line.kgco2e, scale, middle)
    source = footing.source_number(edition, line.source)
    row = Row("line", line.number, printable(line.as_written), facts, line.marks, right, source)
    return line.section, row


def step_row(step: StepProof, scale: Scale, middle: str) -> tuple[str, Row]:
    """Return a step between its margins, with the sub-heading it stands under.

    Parameters
    ----------
    step : StepProof
        The step.
    scale : Scale
        The one scale of all lines.
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    tuple of str and Row
        Sub-heading and row.
    """
    facts = (
        ("food", printable(step.understood), ""),
        ("amount", "", margins.step_energy(step, middle)),
    )
    if step.kgco2e is None:
        right = Margin(set_in(intervals.empty_interval(scale)))
    else:
        right = interval_margin(step.kgco2e, scale, middle)
    row = Row("step", step.number, printable(step.as_written), facts, step.marks, right)
    return step.section, row


def interval_margin(value: Range, scale: Scale, middle: str, y: str = LINE_HEIGHT) -> Margin:
    """Return a range as it stands in the right margin.

    Parameters
    ----------
    value : Range
        What is drawn. [kg CO2e]
    scale : Scale
        The common scale.
    middle : str
        "mean" or "median": which of them stands in the middle.
    y : str
        Height of the line below the top of its row, as CSS writes it.

    Returns
    -------
    Margin
        Drawing and number.
    """
    told = numerals.shown(value, middle)
    drawn = intervals.interval(
        scale, value, middle, title=f"{told.text}: {wording.between(told)}", y=y
    )
    return Margin(set_in(drawn), told)


def total_row(edition: Edition, scale: Scale) -> Reckoning:
    """Return the total of one serving.

    Parameters
    ----------
    edition : Edition
        What is shown.
    scale : Scale
        The scale of whole servings.

    Returns
    -------
    Reckoning
        The row.
    """
    return Reckoning(
        edition.serving_name,
        (),
        (wording.batch_phrase(edition), *wording.per_phrases(edition)),
        interval_margin(edition.serving, scale, edition.middle),
        wording.sum_of(edition),
    )


def version_rows(edition: Edition, scale: Scale) -> tuple[Reckoning, ...]:
    """Return the recipe and its versions, a dot each on the scale of servings.

    Parameters
    ----------
    edition : Edition
        What is shown.
    scale : Scale
        The scale of whole servings.

    Returns
    -------
    tuple of Reckoning
        One a version.
    """
    made = []
    for version in edition.versions:
        told = numerals.shown(version.serving, edition.middle)
        drawn = intervals.interval(
            scale,
            version.serving,
            edition.middle,
            title=f"{printable(version.name)}, {told.text}",
            y=LINE_HEIGHT,
            as_dot=True,
        )
        made.append(
            Reckoning(
                printable(version.name),
                tuple(printable(change) for change in version.changes),
                tuple(side_by_side.version_phrases(version, edition)),
                Margin(set_in(drawn), told),
                remarks=tuple(printable(remark) for remark in version.remarks),
            )
        )
    return tuple(made)


def opinion_rows(edition: Edition, scale: Scale) -> tuple[Reckoning, ...]:
    """Return the total as other factor sets would have it.

    Parameters
    ----------
    edition : Edition
        What is shown.
    scale : Scale
        The scale of whole servings.

    Returns
    -------
    tuple of Reckoning
        One a set.
    """
    made = []
    for opinion in footing.opinions(edition):
        words = f"{opinion.name} set, {opinion.shown}{numerals.SPACE}{numerals.CO2E}"
        drawn = intervals.lone_dot(scale, opinion.value.mean, title=words, y=LINE_HEIGHT)
        told = Shown(opinion.shown, opinion.shown, opinion.shown, None, numerals.CO2E)
        made.append(
            Reckoning(f"{opinion.name} set", (), (opinion.coverage,), Margin(set_in(drawn), told))
        )
    return tuple(made)


def strip(edition: Edition) -> Markup:
    """Return one serving as a hatched strip of its stages.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    Markup
        SVG; empty where no stage has a value.
    """
    told = "; ".join(
        f"{stage} {numerals.shown(value, edition.middle).middle}" for stage, value in edition.stages
    )
    return set_in(
        hatching.stage_strip(
            edition.stages,
            edition.middle,
            title=f"{edition.serving_name} by life-cycle stage, {numerals.CO2E}",
            description=told,
        )
    )


def stage_key(edition: Edition) -> tuple[tuple[Markup, str, Shown], ...]:
    """Return the key of the strip.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    tuple of (Markup, str, Shown)
        Swatch, stage and value, in life-cycle order.
    """
    return tuple(
        (set_in(hatching.swatch(stage)), stage, numerals.shown(value, edition.middle))
        for stage, value in edition.stages
    )


def time_bars(edition: Edition) -> tuple[tuple[TaskProof, Markup], ...]:
    """Return the tasks of the time line, each with its bar.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    tuple of (TaskProof, Markup)
        In the order of the work.
    """
    tasks = () if edition.timeline is None else edition.timeline.tasks
    return tuple(
        (task, set_in(times.bar(bar, title=wording.task_words(task), first=place == 0)))
        for place, (task, bar) in enumerate(zip(tasks, times.bars(tasks), strict=False))
    )
