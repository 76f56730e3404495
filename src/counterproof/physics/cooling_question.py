"""What is asked about a cooling dish, and how far the rules' clocks have run."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from counterproof.physics.cooling_changes import Limit
from counterproof.physics.cooling_rules import CoolingRule
from counterproof.physics.cooling_scene import Dish, Run, Spot
from counterproof.physics.fitting import Fit


@dataclass(frozen=True, slots=True)
class Cooling:
    """What is asked.

    Parameters
    ----------
    dish : Dish
        What cools, and in what.
    start : float
        Temperature of the food, the same all through. [K]
    spot : Spot
        Where it cools.
    food : str
        What it is called in the answer.
    authorities : tuple of str
        Whose rules are asked: keys of `cooling_rules.RULES`.
    already : float or None
        Time since the food passed 57 °C, where it starts below; None if nobody knows. [s]
    """

    dish: Dish
    start: float
    spot: Spot = field(default_factory=Spot)
    food: str = "water"
    authorities: tuple[str, ...] = ("us",)
    already: float | None = None

    def clock(self, rule: CoolingRule) -> float:
        """Where a rule's clock starts for this food.

        Parameters
        ----------
        rule : CoolingRule
            The rule.

        Returns
        -------
        float
            Its clock, or the start where that is lower or the rule names none. [K]
        """
        return self.start if rule.clock is None else min(self.start, rule.clock.value)


def limits_left(
    asked: Cooling,
    rules: Sequence[CoolingRule],
    cooled: Run,
    fit: Fit | None = None,
    last: tuple[float, float] | None = None,
) -> tuple[Limit, ...]:
    """What the rules still allow, from the start or from the last measured temperature.

    Parameters
    ----------
    asked : Cooling
        The question.
    rules : sequence of CoolingRule
        The rules; what is only quoted from memory gets a verdict but binds nothing.
    cooled : Run
        The modelled cooling.
    fit : Fit or None
        What measuring said.
    last : (float, float) or None
        Time and temperature of the last measurement. [s, K]

    Returns
    -------
    tuple of Limit
        Goals not yet reached; a time of 0 or less where a limit is used up. The clock of a
        measured food counts as started as early as the fast end says.
    """
    passed, now = (0.0, asked.start) if last is None else last
    limits = []
    for rule in rules:
        if rule.known != "read" or now <= rule.goal.value:
            continue
        clock = asked.clock(rule)
        spent = 0.0
        if rule.clock is not None and asked.start < rule.clock.value:
            spent = passed + (asked.already or 0.0)
        elif now < clock:
            early = cooled.until_each((clock,))[0]
            begun = 0.0 if fit is None else fit.between(np.zeros_like(early), early).p05
            spent = max(passed - begun, 0.0)
        elif rule.clock is None:
            spent = passed
        limits.append(Limit(min(clock, now), rule.goal.value, rule.limit.value - spent))
    return tuple(limits)
