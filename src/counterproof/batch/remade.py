"""The figures of a recipe worked out anew from what was really measured."""

from __future__ import annotations

from dataclasses import replace

from counterproof.batch.made import Made, Measured
from counterproof.draws import Parameter, Product, Uniform
from counterproof.plan.model import EnergyUse, Leaving, Plan
from counterproof.plan.planning import mass_of_serving
from counterproof.reading.model import MarkedLine, Reading

_CAUSES = {"boiled off": "steam", "strained": "pulp"}


def reading_as_made(reading: Reading, made: Made) -> Reading:
    """The recipe with what was weighed in place of what was taken for granted.

    Parameters
    ----------
    reading : Reading
        The recipe as understood, at the batch's servings.
    made : Made
        The batch.

    Returns
    -------
    Reading
        Lines that were not weighed are as they were.
    """
    lines = tuple(
        _as_weighed(line, made.lines[line.written.number], made.day)
        if line.written.number in made.lines
        else line
        for line in reading.lines
    )
    eaten = reading.recipe.eaten if made.eaten is None else made.eaten
    return replace(reading, lines=lines, recipe=replace(reading.recipe, eaten=eaten or None))


def plan_as_made(plan: Plan, reading: Reading, made: Made) -> Plan:
    """The plan with the measured steam, pulp and electricity.

    Parameters
    ----------
    plan : Plan
        The plan of `reading`.
    reading : Reading
        The recipe as it was made.
    made : Made
        The batch.

    Returns
    -------
    Plan
        What was not measured is as planned.
    """
    leaving = _leaving(plan, made)
    energy = _energy(plan, made)
    served = mass_of_serving(reading, leaving)
    return replace(plan, leaving=leaving, energy=energy, serving_mass=served)


def _as_weighed(line: MarkedLine, measured: Measured, day: str) -> MarkedLine:
    """A line at its measured mass; several foods keep their shares of it."""
    whole = sum(part.mass.mean for part in line.constituents if part.mass is not None)
    if whole <= 0.0 or line.food is None:
        return line

    def scaled(product: Product | None, food: str) -> Product | None:
        if product is None:
            return None
        return _known(
            product.mean * measured.value / whole, measured, f"{food}|{line.written.number}|{day}"
        )

    also = tuple(
        part._replace(
            mass=scaled(part.mass, part.food.id),
            purchased=scaled(part.purchased, part.food.id),
        )
        for part in line.also
    )
    return replace(
        line,
        mass=scaled(line.mass, line.food.id),
        purchased=scaled(line.purchased, line.food.id),
        also=also,
    )


def _known(mean: float, measured: Measured, tail: str) -> Product:
    """A measured amount with the range of its reading."""
    share = min(measured.half / measured.value, 1.0) if measured.value > 0.0 else 0.0
    if share <= 0.0:
        return Product(mean)
    return Product(mean, (Parameter(f"weighed|{tail}", Uniform(1.0 - share, 1.0 + share)),))


def _leaving(plan: Plan, made: Made) -> tuple[Leaving, ...]:
    left = []
    for one in plan.leaving:
        measured = made.figures.get(_CAUSES.get(one.cause, ""))
        whole = sum(other.mass.mean for other in plan.leaving if other.cause == one.cause)
        if measured is None or whole <= 0.0:
            left.append(one)
            continue
        mean = one.mass.mean * measured.value / whole
        tail = f"{one.cause}|{one.food}|{one.step}|{made.day}"
        left.append(replace(one, mass=_known(mean, measured, tail)))
    return tuple(left)


def _energy(plan: Plan, made: Made) -> tuple[EnergyUse, ...]:
    measured = made.figures.get("energy_kwh")
    cooked = [one for one in plan.energy if one.stage == "cooking" and one.carrier == "electricity"]
    whole = sum(one.kwh.mean for one in cooked)
    if measured is None or whole <= 0.0:
        return plan.energy
    return tuple(
        replace(
            one,
            kwh=_known(
                one.kwh.mean * measured.value / whole,
                measured,
                f"meter|{one.name}|{one.step}|{made.day}",
            ),
            way=(),
        )
        if one in cooked
        else one
        for one in plan.energy
    )
