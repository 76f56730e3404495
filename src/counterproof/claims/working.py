"""Operations into figures: what each asks for, worked out on a stated basis."""

from __future__ import annotations

from dataclasses import replace

from counterproof.claims.figure import Figure
from counterproof.claims.kitchen_times import Unworked, cooling_time
from counterproof.claims.material import Basis, Material
from counterproof.claims.operations import (
    Cooling,
    Liken,
    Lines,
    Literally,
    Per,
    Phase,
    Portion,
    Quantity,
    Ratio,
    Scaled,
    Sum,
)
from counterproof.claims.phrases import portion
from counterproof.claims.portions import lines_figure, phase_figure, portion_figure, subject_of
from counterproof.errors import NotUnderstood


def worked(quantity: Quantity, material: Material, basis: Basis) -> Figure:
    """A quantity as a figure.

    Parameters
    ----------
    quantity : Quantity
        What is asked for.
    material : Material
        What may be spoken of.
    basis : Basis
        On what it is worked out.

    Returns
    -------
    Figure
        With draws that are aligned with those of every other figure of the script.

    Raises
    ------
    NotUnderstood
        If it names something that is not there, or adds what cannot be added.
    """
    key = (quantity, basis)
    if key not in material.figures:
        material.figures[key] = _worked(quantity, material, basis)
    return material.figures[key]


def _worked(  # noqa: PLR0911 - one return for each operation of the closed set
    quantity: Quantity, material: Material, basis: Basis
) -> Figure:
    n = material.streams.n
    if isinstance(quantity, Literally):
        return Figure.exact(quantity.value, quantity.unit, n)
    if isinstance(quantity, Scaled):
        return worked(quantity.of, material, basis).times(quantity.factor)
    if isinstance(quantity, Sum):
        return _sum(quantity, material, basis)
    if isinstance(quantity, Ratio):
        return _ratio(quantity, material, basis)
    if isinstance(quantity, Per):
        return worked(quantity.of, material, replace(basis, per=quantity.per))
    if isinstance(quantity, Cooling):
        return cooling_time(quantity, material.entry(material.own)[0].kitchen, material.streams)
    if isinstance(quantity, Liken):
        raise NotUnderstood(
            "A likeness is a picture, not an amount to reckon with.",
            remedy="Compare the figures themselves.",
        )
    if isinstance(quantity, Portion):
        return portion_figure(quantity, material, basis)
    if isinstance(quantity, Lines):
        return lines_figure(quantity, material, basis)
    return phase_figure(quantity, material, basis)


def settled(quantity: Quantity, material: Material) -> Quantity:
    """A quantity in which every bare name is either a recipe's portion or ingredient lines.

    Parameters
    ----------
    quantity : Quantity
        As the phrases gave it.
    material : Material
        What may be spoken of.

    Returns
    -------
    Quantity
        Names that are no recipe's are foods of the episode's own recipe.

    Raises
    ------
    NotUnderstood
        If a name is neither.
    """
    if isinstance(quantity, (Sum, Ratio)):
        return replace(
            quantity,
            left=settled(quantity.left, material),
            right=settled(quantity.right, material),
        )
    if isinstance(quantity, (Scaled, Liken, Per)):
        return replace(quantity, of=settled(quantity.of, material))
    if isinstance(quantity, Portion):
        words = quantity.of.words
        if material.found(words) is not None:
            return quantity
        if material.lines(words, material.own):
            return Lines((words,), replace(portion("this recipe"), taken=quantity.taken))
        raise material.unknown(words)
    if isinstance(quantity, Lines):
        subject = subject_of(quantity.of, material)
        for name in quantity.names:
            if not material.lines(name, subject):
                raise material.unknown(name)
    if isinstance(quantity, Phase):
        subject_of(quantity.of, material)
    return quantity


def _sum(quantity: Sum, material: Material, basis: Basis) -> Figure:
    left, right = (worked(side, material, basis) for side in (quantity.left, quantity.right))
    _same_unit(left, right)
    return left.plus(right, float(quantity.sign))


def _ratio(quantity: Ratio, material: Material, basis: Basis) -> Figure:
    left, right = (worked(side, material, basis) for side in (quantity.left, quantity.right))
    _same_unit(left, right)
    found = left.over(right, "share" if quantity.share else "ratio")
    if found is None:
        raise Unworked(
            "What it is set against is not above zero in enough draws; no ratio is given.",
            remedy="Give the difference: “… minus …”.",
        )
    return found


def _same_unit(left: Figure, right: Figure) -> None:
    if left.unit != right.unit:
        raise NotUnderstood(
            f"One side is counted in {left.unit}, the other in {right.unit}.",
            remedy="Set like against like: footprint against footprint, weight against weight.",
        )
