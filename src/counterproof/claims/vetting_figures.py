"""A figure of a script worked out: in words, in a unit, by stage or as a likeness."""

from __future__ import annotations

from counterproof.claims.bases import ground
from counterproof.claims.figure import Figure
from counterproof.claims.grammar import figured as read_figure
from counterproof.claims.likenesses import likened
from counterproof.claims.material import Basis, Material
from counterproof.claims.operations import Figured, Liken, Phase, Portion, Quantity, parts
from counterproof.claims.portions import stage_draws, subject_of
from counterproof.claims.saying import CO2E, DIMENSIONS, Said, System, said, shown_parts
from counterproof.claims.script import Expression
from counterproof.claims.seen import Surroundings
from counterproof.claims.verdicts import VettedFigure
from counterproof.claims.working import settled, worked
from counterproof.errors import CounterproofError, NotUnderstood
from counterproof.marks import Mark
from counterproof.physics import carbon_dioxide
from counterproof.rows import STAGES


def vetted_figure(
    expression: Expression, material: Material, around: Surroundings, system: System = "metric"
) -> VettedFigure:
    """One figure of a script, worked out.

    Parameters
    ----------
    expression : Expression
        A `[= …]`.
    material : Material
        What may be spoken of.
    around : Surroundings
        For likenesses.
    system : System
        Whose units.

    Returns
    -------
    VettedFigure
        With a doubt where the words are not understood.
    """
    try:
        asked = read_figure(expression.text)
        quantity = settled(asked.quantity, material)
        asked = Figured(quantity, asked.unit, asked.by_stage)
        if asked.by_stage:
            return _by_stage(expression, asked, material)
        inner = quantity.of if isinstance(quantity, Liken) else quantity
        basis = _ground_for(inner, material)
        figure = worked(inner, material, basis)
        if isinstance(quantity, Liken):
            return _likened(expression, asked, figure, quantity.kind, around)
        told = _in_unit(figure, asked.unit, around)
        told_as = said(told, middle=material.middle, system=system, unit=asked.unit)
    except CounterproofError as doubt:
        mark = Mark("doubt", "not-understood", f"{doubt.message} {doubt.remedy}")
        return VettedFigure(expression, None, None, None, None, (mark,))
    return VettedFigure(expression, asked, told, told_as)


def _ground_for(quantity: Quantity, material: Material) -> Basis:
    """A ratio or difference between recipes is worked out in one covering set."""
    sides = [
        part for part in parts(quantity) if isinstance(part, Portion) and part.taken == "footprint"
    ]
    keys = {subject_of(one, material).key for one in sides}
    if len(keys) < 2:
        return material.basis
    found = ground(material, material.basis, quantity)
    if found.refused:
        raise NotUnderstood(found.refused, remedy="The two cannot be set against each other.")
    return found.basis


def _in_unit(figure: Figure, unit: str | None, around: Surroundings) -> Figure:
    if unit is None or figure.unit in DIMENSIONS[unit]:
        return figure
    if figure.unit == "kg CO2" and "L" in DIMENSIONS[unit]:
        each = 1000.0 / float(carbon_dioxide.density(around.temperature, around.pressure))
        told = f"gas at {around.temperature - 273.15:.0f} °C and 1 atm"
        return Figure(
            figure.draws * each, figure.mean * each, "L", (*figure.conditions, told), figure.sources
        )
    raise NotUnderstood(
        f"It is counted in {figure.unit}, not in {unit}.", remedy="Leave the unit out."
    )


def _likened(
    expression: Expression, asked: Figured, figure: Figure, kind: str, around: Surroundings
) -> VettedFigure:
    seen = likened(figure, kind, around)
    if seen is None:
        raise NotUnderstood(
            f"{figure.unit} cannot be shown as {kind}.",
            remedy="Try balloons, kettles, car kilometres, glasses or bottles.",
        )
    words = seen.words
    if kind == "habit":
        words = seen.sentence.removeprefix("Once a week for a year it comes to ").rstrip(".")
    marks = (Mark("note", "likeness", f"Say with it: {seen.warning}."),) if seen.warning else ()
    return VettedFigure(expression, asked, figure, Said(words, ""), seen, marks)


def _by_stage(expression: Expression, asked: Figured, material: Material) -> VettedFigure:
    """The stages of a portion, rounded so that the parts shown add up to the total shown."""
    of = next((part for part in parts(asked.quantity) if isinstance(part, (Portion, Phase))), None)
    if not isinstance(of, Portion):
        raise NotUnderstood(
            "Only a portion divides by stage.", remedy="Say “one serving, by stage”."
        )
    found = material.footprint(subject_of(of, material), material.basis)
    scale = found.serves if of.whole else 1.0
    told = [
        (stage, mean * scale)
        for stage in STAGES
        for _, mean, counted in [stage_draws(stage, found, material)]
        if counted and mean
    ]
    size, sign = (1.0, "kg") if found.static * scale >= 0.995 else (1000.0, "g")
    decimals = 1 if size == 1.0 else 0
    shown = shown_parts([mean * size for _, mean in told], decimals)
    words = ", ".join(
        f"{stage} {value} {sign}" for (stage, _), value in zip(told, shown, strict=True)
    )
    figure = worked(of, material, material.basis)
    return VettedFigure(expression, asked, figure, Said(f"{words} {CO2E}", ""))
