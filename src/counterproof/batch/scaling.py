"""A recipe brought to the people, the pots, the jars or the squash there are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from counterproof import numerals
from counterproof.batch.jarred import Jars
from counterproof.batch.labels import lines_meant
from counterproof.batch.measurable import Amount, Measurable, Measuring, measurable
from counterproof.batch.ratios import Ratio, hanging_together, ratio_of
from counterproof.batch.reworded import line_with
from counterproof.batch.splitting import Split
from counterproof.batch.unscaled import Unscaled
from counterproof.batch.weights import FINEST_ASSUMED, finest_step
from counterproof.errors import InputError
from counterproof.marks import Mark
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_lines, read_recipe
from counterproof.reading.measures_used import measures_used
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.rows import Tables
from counterproof.units import MEASURES

ALLOWED: Final[dict[str, float]] = {
    "mass": 0.10,
    "volume": 0.20,
    "count": 0.25,
    "length": 0.25,
    "by eye": 0.30,
}
"""Share by which rounding may change an amount before it is marked, by how the amount was written:
assumed, about what the measure itself is uncertain by. [1]"""
_SMALL: Final = 1e-9


@dataclass(frozen=True, slots=True)
class ScaledLine:
    """A line at the size asked, in one pot.

    Parameters
    ----------
    number : int
        Of the recipe's line.
    as_written : str
        As the recipe has it.
    text : str
        With the amount for one pot.
    kg : float or None
        What it weighs exactly. [kg]
    measured_kg : float or None
        What the new words say, read anew. [kg]
    bought_kg : float or None
        What has to be bought for all pots. [kg]
    marks : tuple of Mark
        Where it cannot be measured, or rounding changes it by more than a twentieth.
    """

    number: int
    as_written: str
    text: str
    kg: float | None
    measured_kg: float | None
    bought_kg: float | None
    marks: tuple[Mark, ...] = ()

    @property
    def effect(self) -> float | None:
        """What rounding does to it: measured over exact, less 1. [1]"""
        if self.kg is None or self.measured_kg is None or self.kg <= _SMALL:
            return None
        return self.measured_kg / self.kg - 1.0

    def to_dict(self, pots: int) -> dict[str, Any]:
        """Return the JSON form, units in the keys.

        Parameters
        ----------
        pots : int
            How many pots there are. [1]

        Returns
        -------
        dict
            With what all pots take together.
        """
        return {
            "number": self.number,
            "as_written": self.as_written,
            "scaled": self.text,
            "mass_kg": self.kg,
            "measured_kg": self.measured_kg,
            "rounding_share": self.effect,
            "all_kg": None if self.measured_kg is None else pots * self.measured_kg,
            "purchased_all_kg": self.bought_kg,
            "marks": [mark.to_dict() for mark in self.marks],
        }


@dataclass(frozen=True)
class Scaled:
    """A recipe at another size.

    Parameters
    ----------
    recipe : Recipe
        What goes into one pot, to be read and cooked as any recipe.
    written : Reading
        The recipe as understood.
    factor : float
        How many times the recipe, all pots together. [1]
    serves : float
        How many it serves in all. [servings]
    because : str
        What decided the size, in words.
    lines : tuple of ScaledLine
        For one pot.
    split : Split
        Over pots and rounds.
    jars : Jars or None
        Where jars decided.
    ratios : tuple of Ratio
        What had to hold.
    unscaled : tuple of Unscaled
        What does not grow with it.
    marks : tuple of Mark
        About all of it.
    """

    recipe: Recipe
    written: Reading
    factor: float
    serves: float
    because: str
    lines: tuple[ScaledLine, ...]
    split: Split
    jars: Jars | None
    ratios: tuple[Ratio, ...]
    unscaled: tuple[Unscaled, ...]
    marks: tuple[Mark, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        return {
            "title": self.written.recipe.title,
            "times": self.factor,
            "serves": self.serves,
            "because": self.because,
            "split": self.split.to_dict(),
            "jars": None if self.jars is None else self.jars.to_dict(),
            "lines": [line.to_dict(self.split.pots) for line in self.lines],
            "ratios": [ratio.to_dict() for ratio in self.ratios],
            "does_not_scale": [one.to_dict() for one in self.unscaled],
            "marks": [mark.to_dict() for mark in self.marks],
        }


def having(text: str, reading: Reading, tables: Tables, matcher: Matcher) -> tuple[float, str]:
    """How many times the recipe an amount of one ingredient makes.

    Parameters
    ----------
    text : str
        Such as "1.3 kg squash".
    reading : Reading
        The recipe as understood.
    tables : Tables
        Foods, weights, densities.
    matcher : Matcher
        Built from the same tables.

    Returns
    -------
    tuple of float and str
        The factor [1], and what it rests on in words.

    Raises
    ------
    InputError
        If the amount has no weight, or no line of the recipe is of that food.
    """
    system, region, _ = measures_used(reading.recipe)
    (there,) = read_lines([WrittenLine(1, text)], tables, matcher, system=system, region=region)
    if there.food is None or there.purchased is None:
        raise InputError(
            f"“{text}” is no amount of a food that can be weighed.",
            remedy="Write it as a recipe line, such as “1.3 kg squash”.",
        )
    same = [
        line for line in reading.lines if line.food is not None and line.food.id == there.food.id
    ]
    meant = same or list(lines_meant(there.split.name, reading.lines, frozenset()).lines[:1])
    held = [line for line in meant if line.purchased is not None]
    if not held:
        raise InputError(
            f"No line of the recipe is of {there.split.name}.",
            remedy=f"Name one of: {', '.join(line.split.name for line in reading.lines)}.",
        )
    line = held[0]
    wanted = line.purchased.mean if line.purchased is not None else 0.0
    said = f"{text}, where “{line.written.text}” asks for {numerals.plain_mass(wanted)} as bought"
    return there.purchased.mean / wanted, said


@dataclass(frozen=True)
class Measures:
    """What amounts are measured with: a scale's step, and in whose measures."""

    step: float
    measuring: Measuring = "as written"


def measures_at(reading: Reading, measuring: Measuring) -> Measures:
    """What a kitchen measures with.

    Parameters
    ----------
    reading : Reading
        With the kitchen's tools.
    measuring : Measuring
        In whose measures.

    Returns
    -------
    Measures
        The finest scale named, or one to a gram.
    """
    step = finest_step(reading.kitchen)
    return Measures(FINEST_ASSUMED if step is None else step, measuring)


def scaled_lines(
    written: Reading, factor: float, pots: int, measures: Measures, tables: Tables, matcher: Matcher
) -> tuple[Recipe, tuple[ScaledLine, ...], tuple[Ratio, ...]]:
    """A recipe's lines for one pot, each in an amount that can be measured.

    Parameters
    ----------
    written : Reading
        The recipe as understood, at its own size.
    factor : float
        How many times the recipe goes into one pot, > 0. [1]
    pots : int
        How many pots there are. [1]
    measures : Measures
        What is measured with.
    tables : Tables
        Foods, weights, densities.
    matcher : Matcher
        Built from the same tables.

    Returns
    -------
    tuple of Recipe, tuple of ScaledLine and tuple of Ratio
        The recipe of one pot, its lines read anew, and the ratios that had to hold.
    """
    hangs = hanging_together(written)
    bound = {number for one in hangs for number in (*one.base, *one.parts)}
    system, _, _ = measures_used(written.recipe)
    told: list[tuple[MarkedLine, Measurable, str]] = []
    for line in written.lines:
        amount = _amount(line, factor)
        found = measurable(
            amount,
            measures.step,
            system,
            measures.measuring,
            by_weight=line.written.number in bound,
        )
        text = line_with(line.split, found) if found.text else line.written.text
        told.append((line, found, text))
    texts = [text for _, _, text in told]
    recipe = _recipe(written, factor, texts, measures.measuring)
    again = read_recipe(recipe, tables, matcher, written.kitchen)
    # American measures bring American names: where a name now means another food, it is said.
    texts = [
        text if _same_food(line, new) else _settled(line, text)
        for (line, _, text), new in zip(told, again.lines, strict=True)
    ]
    recipe = _recipe(written, factor, texts, measures.measuring)
    again = read_recipe(recipe, tables, matcher, written.kitchen)
    lines = [
        _checked(line, found, text, new, factor, pots)
        for (line, found, _), text, new in zip(told, texts, again.lines, strict=True)
    ]
    ratios = [ratio_of(one, written, again) for one in hangs]
    return recipe, tuple(lines), tuple(one for one in ratios if one is not None)


def _same_food(line: MarkedLine, new: MarkedLine) -> bool:
    before, after = (None if one.food is None else one.food.id for one in (line, new))
    return before == after


def _settled(line: MarkedLine, text: str) -> str:
    """A line that says which food it means, before what was weighed."""
    if line.food is None or "(meaning" in text:
        return text
    meaning = f" (meaning {line.food.name.replace(',', '')})"
    at = text.rfind(" (weighed ")
    return f"{text}{meaning}" if at < 0 else f"{text[:at]}{meaning}{text[at:]}"


def _amount(line: MarkedLine, factor: float) -> Amount:
    masses = [part.mass.mean for part in line.constituents if part.mass is not None]
    kg = factor * sum(masses) if masses else None
    liquid = line.food is not None and line.food.kind == "liquid"
    split = line.split
    by_weight = [one for one in split.quantities if MEASURES.get(one.measure) == "mass"]
    if by_weight and "each" not in split.flags:  # "2 squash, about 2.2 kg": the weight is the surer
        split = replace(split, quantities=(by_weight[0],))
    return Amount(split, factor, kg, liquid)


def _checked(
    line: MarkedLine, found: Measurable, text: str, new: MarkedLine, factor: float, pots: int
) -> ScaledLine:
    """A scaled line held against what its new words are read as."""
    exact = _kg(line)
    kg = None if exact is None else factor * exact
    measured = _kg(new)
    marks = [] if found.mark is None else [found.mark]
    if not _same_food(line, new):
        says = "In its new words the line means another food. Write the amount into it by hand."
        marks.append(Mark("doubt", "another-food", says))
    if kg and measured is not None and found.text and found.mark is None:
        effect = measured / kg - 1.0
        kind = MEASURES.get(line.split.quantities[0].measure, "count")
        if abs(effect) > ALLOWED.get(kind, ALLOWED["count"]):
            says = (
                f"Rounded to what can be measured it is {abs(effect):.0%} "
                f"{'more' if effect > 0 else 'less'} than {numerals.plain_mass(kg)}."
            )
            marks.append(Mark("doubt", "rounded-far", says))
    if not found.text and abs(factor - 1.0) > 0.05:
        says = f"No amount is written: take {factor:.2g} times what you took, or season by taste."
        marks.append(Mark("note", "no-amount-written", says))
    bought = [part.purchased.mean for part in line.constituents if part.purchased is not None]
    return ScaledLine(
        line.written.number,
        line.written.text,
        text,
        kg,
        measured if found.text else kg,
        factor * pots * sum(bought) if bought else None,
        tuple(marks),
    )


def _kg(line: MarkedLine) -> float | None:
    masses = [part.mass.mean for part in line.constituents if part.mass is not None]
    return sum(masses) if masses else None


def _recipe(written: Reading, factor: float, texts: Sequence[str], measuring: Measuring) -> Recipe:
    recipe = written.recipe
    serves = written.serves * factor
    lines = tuple(replace(line, text=text) for line, text in zip(recipe.lines, texts, strict=True))
    said = (
        f"Scaled: {factor:.3g} times “{recipe.title}” as written, which serves {written.serves:g}."
    )
    intro = "\n".join(part for part in (recipe.intro, said) if part)
    return replace(
        recipe,
        lines=lines,
        serves=(serves, serves),
        makes=None,
        intro=intro,
        versions=(),
        bought=None,
        measures=recipe.measures if measuring == "as written" else measuring,
    )
