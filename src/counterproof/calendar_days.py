"""The plan of a recipe on the calendar: cook, freeze by, start thawing, eat by.

The recipe says where its dish is kept and for how long, one stay after the other; the day it is
cooked is an argument.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from counterproof.forme import Appointment
from counterproof.physics.cautions import DEFER
from counterproof.plan.model import Plan
from counterproof.reading.model import Reading
from counterproof.recipe.model import Keep
from counterproof.sourced import Sourced

THAWING: Final = Sourced(
    1.0, "day", 0.5, "assumed", "",
    "in the fridge, for a jar, a tub or a bag of up to about two litres; a large block takes "
    "longer: `physics thaw` works it out",
)  # fmt: skip


def appointments(reading: Reading, plan: Plan, cooked: str) -> tuple[Appointment, ...]:
    """What the plan of a recipe asks of which day.

    Parameters
    ----------
    reading : Reading
        The recipe as understood, with its plan for keeping.
    plan : Plan
        How long the dish keeps by the tables.
    cooked : str
        The day it is cooked, ISO 8601.

    Returns
    -------
    tuple of Appointment
        In the order of the days; only "cook" where nothing is kept.

    Notes
    -----
    A stay in the freezer begins on the day that the stay before it ends: freeze *by* then. What
    comes out of it thaws in the fridge: within the stay there that follows, or, where none is
    planned, on the day before it is eaten.
    """
    day = date.fromisoformat(cooked)
    limits: dict[str, str] = {kept.where: kept.says for kept in plan.timeline.keeps}
    made = [Appointment("cook", day.isoformat())]
    stays = [keep for keep in reading.recipe.keep if keep.days]
    for at, keep in enumerate(stays):
        told = (limits[keep.where],) if keep.where in limits else ()
        if keep.where == "freezer":
            made.append(Appointment("freeze", day.isoformat(), (*told, DEFER)))
            day += timedelta(days=keep.days)
            made.append(_thaw(day, stays[at + 1 :], limits))
        else:
            day += timedelta(days=keep.days)
    if stays:
        last = stays[-1]
        told = (limits[last.where],) if last.where in limits else ()
        made.append(Appointment("eat", day.isoformat(), (*told, DEFER)))
    return tuple(made)


def _thaw(day: date, after: list[Keep], limits: dict[str, str]) -> Appointment:
    """Start thawing: as a stay in the fridge begins, or a day before it is eaten."""
    cold = next((keep for keep in after if keep.where == "fridge"), None)
    if cold is None:
        day -= timedelta(days=THAWING.value)
    told = (limits["fridge"],) if cold is not None and "fridge" in limits else ()
    return Appointment("thaw", day.isoformat(), (*told, DEFER))
