"""The tally of a weigh-in: every reading once, summed by line, in the recipe's order."""

from __future__ import annotations

from collections.abc import Sequence

from counterproof.batch.asked_at_the_scale import COARSE, too_coarse
from counterproof.batch.weighed import Difference, State, Weighed, WeighIn
from counterproof.batch.weights import grams
from counterproof.marks import Mark
from counterproof.reading.model import MarkedLine


def tallied(lines: Sequence[MarkedLine], state: State, *, step_said: bool) -> WeighIn:
    """A weigh-in as it stands, line by line.

    Parameters
    ----------
    lines : sequence of MarkedLine
        The recipe's lines.
    state : State
        After the last reading.
    step_said : bool
        Whether somebody said how finely the scale reads.

    Returns
    -------
    WeighIn
        Every difference in one line, or marked.
    """
    counted = [one for one in state.differences if not one.lost]
    summed = [*_listed(lines, counted), *_unlisted(counted)]
    marks = [*state.marks, *_more_out(summed, state.step)]
    marks += [
        (one.differences[-1].at, too_coarse(one, state.step))
        for one in summed
        if one.kg > 1e-9 and one.half > COARSE * one.kg
    ]
    if counted and not step_said:
        says = f"The scale is taken to read to {grams(state.step, state.step)}. "
        tell = "Say it if it does not: “scale to 5 g”, here or among the kitchen’s tools."
        marks.append((0, Mark("note", "scale-step", f"{says}{tell}")))
    done = {one.number for one in summed}
    return WeighIn(
        tuple(one for one in summed if one.kg > 1e-9),
        tuple(n for line in lines if (n := line.written.number) not in done),
        tuple(one for one in state.differences if one.lost),
        tuple(marks),
        state,
    )


def _listed(lines: Sequence[MarkedLine], counted: Sequence[Difference]) -> list[Weighed]:
    found = []
    for line in lines:
        own = tuple(one for one in counted if one.line == line.written.number)
        if own:
            found.append(_summed(line.written.number, line.split.name or line.written.text, own))
    return found


def _unlisted(counted: Sequence[Difference]) -> list[Weighed]:
    by_name: dict[str, list[Difference]] = {}
    for one in counted:
        if one.line is None and one.label:
            by_name.setdefault(one.label.casefold(), []).append(one)
    return [_summed(None, own[0].label, tuple(own)) for own in by_name.values()]


def _summed(number: int | None, name: str, own: tuple[Difference, ...]) -> Weighed:
    return Weighed(number, name, sum(one.kg for one in own), sum(one.half for one in own), own)


def _more_out(summed: Sequence[Weighed], step: float) -> list[tuple[int, Mark]]:
    return [
        (
            one.differences[-1].at,
            Mark(
                "fault",
                "more-out-than-in",
                f"More {one.name} came out than went in ({grams(one.kg, step)}).",
            ),
        )
        for one in summed
        if one.kg < -1e-9
    ]
