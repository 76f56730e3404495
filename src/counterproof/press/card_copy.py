"""The recipe card as copy: every word of it in its place, before it is set on paper or page.

PDF, page and plain text set the same copy, so they say the same thing. What the cook wrote and
what the proof says in English prose stays as it is; the fixed words follow the language.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from itertools import groupby
from typing import Any, Final

from counterproof import numerals
from counterproof.forme import CardLine, CardStep, Forme, Heat
from counterproof.numerals import Shown
from counterproof.press import wording
from counterproof.press.fixed_words import Words
from counterproof.press.plain_text import printable
from counterproof.proof import Edition, LineProof, StepProof

_ASSUMED: Final = "servings-assumed"  # a note, but a card's weights stand on it
_NO_TIME: Final = "0 s"  # as the time line tells none

WRITTEN_IN: Final = "en"
"""Language of the recipe and of what the proof says of it: the reading knows English alone."""


@dataclass(frozen=True, slots=True)
class LineCopy:
    """A line: what goes into the pot, the same in US measures, the words, a sign for a doubt."""

    weight: str
    near: bool
    us: str
    words: str
    mark: str  # "", "doubt" or "fault"


@dataclass(frozen=True, slots=True)
class StepCopy:
    """A step: its number, the cook's words, times and temperatures."""

    number: int
    words: str
    facts: str


@dataclass(frozen=True, slots=True)
class Under:
    """Lines or steps under one sub-heading of the recipe."""

    heading: str
    rows: tuple[LineCopy, ...] | tuple[StepCopy, ...]


@dataclass(frozen=True, slots=True)
class StageCopy:
    """A life-cycle stage: what the tables call it, its name here, its number."""

    stage: str
    name: str
    value: str


@dataclass(frozen=True, slots=True)
class CardCopy:
    """The whole card.

    `titled` are small headings with their sentences: keeping, care, allergens. `small` is the
    small print.
    """

    language: str
    written_in: str
    title: str
    yields: str
    times: str
    ingredients: str
    measured: str
    measured_us: str
    weights: bool  # whether the metric column is shown
    us_measures: bool
    lines: tuple[Under, ...]
    method: str
    steps: tuple[Under, ...]
    keeping: tuple[str, tuple[str, ...]]
    care: tuple[str, tuple[str, ...]]
    allergens: tuple[str, tuple[str, ...]]
    footprint: str
    value: str
    number: int | None  # under which the colophon derives it
    interval: str
    stages: tuple[StageCopy, ...]
    strip_told: str
    interval_told: str
    small: tuple[str, ...]
    open: tuple[tuple[str, str], ...]  # level of the mark, what is open

    def to_dict(self) -> dict[str, Any]:
        """Return the copy as the typesetter reads it."""
        return asdict(self)


def card_copy(forme: Forme, words: Words) -> CardCopy:
    """Return the copy of a recipe card.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Returns
    -------
    CardCopy
        Every word in its place.
    """
    edition, card, wants = forme.edition, forme.card, forme.trim.measures
    shown = numerals.shown(edition.serving, edition.middle)
    size = wording.serving_size(edition)
    serving = words("card.serving of", size=words.told(size)) if size else words("card.serving")
    span = _span(shown, words)
    stages = _stages(edition, words)
    number = edition.number_of("serving")
    return CardCopy(
        language=words.language,
        written_in=WRITTEN_IN,
        title=wording.title(edition),
        yields=_yields(forme, serving, words),
        times=_times(edition, words),
        ingredients=words("card.ingredients"),
        measured=words("card.measured"),
        measured_us=words("card.measured us"),
        weights=wants != "us",
        us_measures=wants != "metric",
        lines=_under(
            (proof.section, _line(proof, line, forme, words))
            for proof, line in zip(edition.lines, card.lines, strict=True)
        ),
        method=words("card.method"),
        steps=_under(
            (proof.section, _step(proof, step, forme, words))
            for proof, step in zip(edition.steps, card.steps, strict=True)
        ),
        keeping=(words("card.keeping"), _keeping(edition)),
        care=(words("card.care"), tuple(printable(one) for one in edition.cautions)),
        allergens=(words("card.allergens"), _allergens(edition, words)),
        footprint=words("card.footprint", what=serving),
        value=words.figure(f"{shown.middle}{numerals.SPACE}{shown.unit}"),
        number=number,
        interval=span,
        stages=stages,
        strip_told=words("card.strip", told="; ".join(f"{s.name} {s.value}" for s in stages)),
        interval_told=words("card.interval", told=span),
        small=_small(forme, number, words),
        open=_open(edition, words),
    )


def _under(rows: Iterable[tuple[str, Any]]) -> tuple[Under, ...]:
    return tuple(
        Under(printable(heading), tuple(row for _, row in under))
        for heading, under in groupby(rows, key=lambda pair: pair[0])
    )


def _yields(forme: Forme, serving: str, words: Words) -> str:
    serves = forme.edition.serves
    told = (
        words("card.serves one")
        if serves == 1
        else words("card.serves", n=words.figure(numerals.count(serves)))
    )
    return "; ".join(one for one in (told, serving, printable(forme.card.makes)) if one)


def _times(edition: Edition, words: Words) -> str:
    time = edition.timeline
    if time is None:
        return ""
    total = words.told(time.total)
    if time.hands_on == _NO_TIME:
        return words("card.time", total=total)
    return words("card.times", total=total, hands=words.told(time.hands_on))


def _line(proof: LineProof, line: CardLine, forme: Forme, words: Words) -> LineCopy:
    weight = numerals.mass(proof.mass_kg, forme.edition.middle) if proof.mass_kg else None
    levels = {mark.level for mark in proof.marks}
    return LineCopy(
        weight=""
        if weight is None
        else words.figure(f"{weight.middle}{numerals.SPACE}{weight.unit}"),
        near=weight is not None and not line.weighs_as_written,
        us=words.told(line.us_measure or line.us_weight),
        words=_called(line, forme.trim.measures),
        mark="fault" if "fault" in levels else "doubt" if "doubt" in levels else "",
    )


def _called(line: CardLine, wants: str) -> str:
    """The line with what the food is called elsewhere, where somebody from there may read it."""
    written = printable(line.words)
    if line.local is None:
        return written
    region, name = line.local
    if wants not in {"both", {"us": "us", "uk": "metric"}[region]}:
        return written
    gloss = f" ({region.upper()}: {name})"
    at = written.casefold().find(printable(line.called).casefold())
    end = at + len(printable(line.called))
    return f"{written[:end]}{gloss}{written[end:]}" if at >= 0 else f"{written}{gloss}"


def _step(proof: StepProof, step: CardStep, forme: Forme, words: Words) -> StepCopy:
    told = [f"{words.named('processes', kind)} {words.told(time)}" for kind, time in step.does]
    told += [_heat(heat, forme.trim.measures, words) for heat in step.heats]
    return StepCopy(proof.number, printable(proof.as_written), " · ".join(dict.fromkeys(told)))


def _heat(heat: Heat, wants: str, words: Words) -> str:
    metric = [heat.celsius]
    if heat.fan:
        metric.append(words("card.fan", celsius=heat.fan))
    if heat.gas:
        metric.append(words("card.gas", mark=heat.gas))
    kept = {"metric": metric, "us": [heat.fahrenheit, heat.celsius]}
    return " / ".join(kept.get(wants, [*metric[:1], heat.fahrenheit, *metric[1:]]))


def _keeping(edition: Edition) -> tuple[str, ...]:
    time = edition.timeline
    told = () if time is None else (*time.make_ahead, *time.keeps)
    return tuple(printable(one) for one in told)


def _allergens(edition: Edition, words: Words) -> tuple[str, ...]:
    def named(names: Iterable[str]) -> str:
        return ", ".join(words.named("allergens", name) for name in names)

    us = edition.allergens_us
    pairs = (
        ("card.present", named(edition.allergens_present)),
        ("card.read the label", named(edition.allergens_read_label)),
        ("card.unknown", "; ".join(printable(one) for one in edition.allergens_unknown)),
        ("card.us present", named(us.present) if us else ""),
        ("card.us read the label", named(us.read_label) if us else ""),
    )
    told = [wording.sentence(f"{words(key)}: {names}") for key, names in pairs if names]
    found = edition.allergens_present or edition.allergens_read_label
    return (*told, words("card.no others") if found else words("card.none"))


def _span(shown: Shown, words: Words) -> str:
    if shown.exact:
        return words("card.no range")
    low, high = words.figure(shown.low), words.figure(shown.high)
    if shown.median is None:
        return words("card.range", low=low, high=high)
    return words("card.range and median", low=low, high=high, median=words.figure(shown.median))


def _stages(edition: Edition, words: Words) -> tuple[StageCopy, ...]:
    return tuple(
        StageCopy(
            stage,
            words.named("stages", stage),
            words.figure(numerals.shown(value, edition.middle).middle),
        )
        for stage, value in edition.stages
    )


def _small(forme: Forme, number: int | None, words: Words) -> tuple[str, ...]:
    edition = forme.edition
    basis = {key: printable(str(value)) for key, value in edition.basis.items()}
    counted = words(
        "card.counted",
        share=words.figure(numerals.percent(edition.coverage_mass)),
        sets=basis.get("factor_sets", ""),
        seed=basis.get("seed", ""),
        draws=basis.get("draws", ""),
        version=basis.get("version", ""),
        date=forme.date,
    )
    derived = () if number is None else (words("card.colophon", number=str(number)),)
    us = () if forme.trim.measures == "metric" else (words("card.us cups"),)
    return (words("card.to the pot"), *us, counted, *derived, words("card.review"))


def _open(edition: Edition, words: Words) -> tuple[tuple[str, str], ...]:
    """What is open or not counted: first of the whole recipe, then line by line."""
    keys = {"doubt": "card.open doubt", "fault": "card.not counted"}
    whole = tuple(
        (mark.level, words("card.open", what=printable(mark.message)))
        for mark in edition.marks
        if mark.level in keys or mark.kind == _ASSUMED
    )
    lines = tuple(
        (mark.level, words(keys[mark.level], line=str(line.number), what=printable(mark.message)))
        for line in edition.lines
        for mark in line.marks
        if mark.level in keys
    )
    return whole + lines
