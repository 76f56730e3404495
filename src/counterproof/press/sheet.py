"""The proof as one self-contained page: no script, no outside request, light and dark, on paper too.

The page is the recipe itself. Each line keeps its place in the middle; what it was understood to
be stands in the left margin beside it, what it adds to one serving in the right margin, on one
scale for the whole column. `sheet.html.j2` is the setting, `sheet.css` the house style; this
module only puts the words and drawings of an Edition where they belong.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from importlib.resources import files
from itertools import groupby

from jinja2 import Environment, StrictUndefined
from markupsafe import Markup

from counterproof import numerals
from counterproof.draws import Range
from counterproof.marks import Mark
from counterproof.numerals import Shown
from counterproof.press import (
    drawing,
    footing,
    giving,
    hatching,
    intervals,
    margins,
    times,
    wording,
)
from counterproof.press.fonts import font_faces
from counterproof.press.intervals import Scale
from counterproof.press.plain_text import printable
from counterproof.proof import Edition, LineProof, StepProof, TaskProof

LINE_HEIGHT = "1.28125em"
"""Where an interval's line stands below the top of its row: half-way up the first line of type."""

_ALWAYS_CUT = "0123456789.,:;()–−+%·×“”’ "
_STYLE_GOES_HERE = "/* faces and style */"


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


def sheet(edition: Edition) -> str:
    """Return the proof as one self-contained HTML page.

    Parameters
    ----------
    edition : Edition
        Everything the page shows, already worked out.

    Returns
    -------
    str
        HTML, the same bytes for the same Edition.
    """
    scale = intervals.line_scale(edition)
    serving = intervals.serving_scale(edition)
    page = (
        Environment(
            autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
        )
        .from_string(_part("sheet.html.j2"))
        .render(
            edition=edition,
            title=wording.title(edition),
            lines=_sections(_line_row(line, scale, edition) for line in edition.lines),
            steps=_sections(_step_row(step, scale, edition.middle) for step in edition.steps),
            axis=_set_in(intervals.axis(scale, title=f"Scale of the lines, {numerals.CO2E}")),
            serving_axis=_set_in(
                intervals.axis(serving, title=f"Scale of whole servings, {numerals.CO2E}")
            ),
            ground=_set_in(intervals.empty_interval(scale)),
            serving_ground=_set_in(intervals.empty_interval(serving)),
            total=_total(edition, serving),
            versions=_versions(edition, serving),
            opinions=_opinions(edition, serving),
            strip=_strip(edition),
            key=_stage_key(edition),
            timeline=_timeline(edition),
            time_key=[
                (_set_in(times.swatch(hands_on=True)), "needs hands"),
                (_set_in(times.swatch(hands_on=False)), "waits"),
            ],
            footing=footing,
            giving=giving,
            margins=margins,
            wording=wording,
            numerals=numerals,
            cross=_set_in(drawing.registration_cross()),
            signs={level: _set_in(drawing.sign(level)) for level in ("note", "doubt", "fault")},
            leader=_set_in(drawing.leader()),
            printable=printable,
            linkable=_linkable,
        )
    )
    faces = font_faces("".join(sorted(set(page) | set(_ALWAYS_CUT))))
    return page.replace(_STYLE_GOES_HERE, f"{faces}\n{_part('sheet.css')}", 1)


def _sections(rows: Iterable[tuple[str, Row]]) -> tuple[Section, ...]:
    return tuple(
        Section(printable(heading), tuple(row for _, row in under))
        for heading, under in groupby(rows, key=lambda pair: pair[0])
    )


def _line_row(line: LineProof, scale: Scale, edition: Edition) -> tuple[str, Row]:
    middle = edition.middle
    facts = (
        ("food", printable(line.food or ""), ""),
        ("amount", margins.quantity(line), margins.line_mass(line, middle)),
        ("factor", margins.link(line), ""),
        ("certainty", margins.certainty(line), ""),
    )
    if line.kgco2e is None:
        right = Margin(
            _set_in(intervals.empty_interval(scale)),
            why=margins.why_not_counted(line),
        )
    else:
        right = _interval(line.kgco2e, scale, middle)
    source = footing.source_number(edition, line.source)
    row = Row("line", line.number, printable(line.as_written), facts, line.marks, right, source)
    return line.section, row


def _step_row(step: StepProof, scale: Scale, middle: str) -> tuple[str, Row]:
    facts = (
        ("food", printable(step.understood), ""),
        ("amount", "", margins.step_energy(step, middle)),
    )
    if step.kgco2e is None:
        right = Margin(_set_in(intervals.empty_interval(scale)))
    else:
        right = _interval(step.kgco2e, scale, middle)
    row = Row("step", step.number, printable(step.as_written), facts, step.marks, right)
    return step.section, row


def _interval(value: Range, scale: Scale, middle: str) -> Margin:
    told = numerals.shown(value, middle)
    drawn = intervals.interval(
        scale, value, middle, title=f"{told.text}: {wording.between(told)}", y=LINE_HEIGHT
    )
    return Margin(_set_in(drawn), told)


def _total(edition: Edition, scale: Scale) -> Reckoning:
    return Reckoning(
        edition.serving_name,
        (),
        (wording.batch_phrase(edition), *wording.per_phrases(edition)),
        _interval(edition.serving, scale, edition.middle),
        wording.sum_of(edition),
    )


def _versions(edition: Edition, scale: Scale) -> tuple[Reckoning, ...]:
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
                tuple(wording.version_phrases(version, edition)),
                Margin(_set_in(drawn), told),
                remarks=tuple(printable(remark) for remark in version.remarks),
            )
        )
    return tuple(made)


def _opinions(edition: Edition, scale: Scale) -> tuple[Reckoning, ...]:
    made = []
    for opinion in footing.opinions(edition):
        words = f"{opinion.name} set, {opinion.shown}{numerals.SPACE}{numerals.CO2E}"
        drawn = intervals.lone_dot(scale, opinion.value.mean, title=words, y=LINE_HEIGHT)
        told = Shown(opinion.shown, opinion.shown, opinion.shown, None, numerals.CO2E)
        made.append(
            Reckoning(f"{opinion.name} set", (), (opinion.coverage,), Margin(_set_in(drawn), told))
        )
    return tuple(made)


def _strip(edition: Edition) -> Markup:
    told = "; ".join(
        f"{stage} {numerals.shown(value, edition.middle).middle}" for stage, value in edition.stages
    )
    return _set_in(
        hatching.stage_strip(
            edition.stages,
            edition.middle,
            title=f"{edition.serving_name} by life-cycle stage, {numerals.CO2E}",
            description=told,
        )
    )


def _stage_key(edition: Edition) -> tuple[tuple[Markup, str, Shown], ...]:
    return tuple(
        (_set_in(hatching.swatch(stage)), stage, numerals.shown(value, edition.middle))
        for stage, value in edition.stages
    )


def _timeline(edition: Edition) -> tuple[tuple[TaskProof, Markup], ...]:
    tasks = () if edition.timeline is None else edition.timeline.tasks
    return tuple(
        (task, _set_in(times.bar(bar, title=wording.task_words(task), first=place == 0)))
        for place, (task, bar) in enumerate(zip(tasks, times.bars(tasks), strict=False))
    )


def _set_in(drawn: str) -> Markup:
    """A drawing as it is put into the page: the drawer has escaped every word in it."""
    return Markup(drawn)  # noqa: S704 (our own drawing, its words escaped by the drawer)


def _linkable(address: str) -> bool:
    """Whether an address may become a link: a link is followed by hand, never fetched."""
    return address.startswith(("https://", "http://"))


def _part(name: str) -> str:
    return files("counterproof.press").joinpath(name).read_text(encoding="utf-8")
