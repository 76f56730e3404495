"""A weigh-in: running scale readings become ingredient lines, each with its range.

A pure function of the text: the whole weigh-in is read anew whenever a line has come, so nothing
depends on when it was typed, and an interrupted one is taken up from its text.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any, Final

from counterproof.batch.asked_at_the_scale import NEVER, OWN_WEIGHT_APART, bare, off_step
from counterproof.batch.labels import lines_meant, vessel_in, vessel_named
from counterproof.batch.scale_talk import Said, scale_talk
from counterproof.batch.tally import tallied
from counterproof.batch.weighed import Difference, State, WeighIn
from counterproof.batch.weights import FINEST_ASSUMED, HEAVIEST, finest_step, grams
from counterproof.batch.whose_weight import line_weighed
from counterproof.marks import Mark
from counterproof.reading.model import MarkedLine
from counterproof.recipe.kitchen import Kitchen

_WHY_DOWN: Final = (
    "If it was misread, write “no, 1665” with the right number; if something came out, "
    "“-what 1600”; if the scale was set to nothing, “tare” on a line before."
)


def weigh_in(
    text: str, lines: Sequence[MarkedLine], kitchen: Kitchen, *, first: int = 1
) -> WeighIn:
    """What a weigh-in says of a recipe's lines.

    Parameters
    ----------
    text : str
        Running scale readings, one a line.
    lines : sequence of MarkedLine
        The recipe's lines as understood.
    kitchen : Kitchen
        Its vessels' empty weights, and how finely its scale reads.
    first : int
        Number of the text's first line, for messages.

    Returns
    -------
    WeighIn
        Every reading counted once, or marked.
    """
    step = finest_step(kitchen)
    start = State(step=FINEST_ASSUMED if step is None else step)
    weighing = _Weighing(lines, kitchen, [start])
    for said in scale_talk(text, first=first):
        weighing.take(said)
    return tallied(lines, weighing.now, step_said=step is not None or weighing.said_step)


@dataclass
class _Weighing:
    """Folds what was said into states, and keeps the earlier ones for "undo"."""

    lines: Sequence[MarkedLine]
    kitchen: Kitchen
    states: list[State]
    taken: list[Said] = field(default_factory=list)
    said_step: bool = False

    @property
    def now(self) -> State:
        """After the last line that counted."""
        return self.states[-1]

    def take(self, said: Said) -> None:
        """Take one line."""
        if said.does == "undo":
            self._undo(said)
            return
        if said.does == "correct":
            self._correct(said)
            return
        self._push(said, self._after(said))

    def _push(self, said: Said, state: State) -> None:
        self.taken.append(said)
        self.states.append(state)

    def _undo(self, said: Said) -> None:
        if not self.taken:
            self._note(said, "note", "nothing-to-undo", "There is nothing to take back.")
            return
        self.taken.pop()
        self.states.pop()

    def _correct(self, said: Said) -> None:
        place = next((n for n in range(len(self.taken) - 1, -1, -1) if self.taken[n].weight), None)
        if place is None:
            self._note(
                said, "fault", "nothing-to-correct",
                "There is no reading before this one to correct. Write what it is: “+onions 1655”.",
            )  # fmt: skip
            return
        wrong = self.taken[place]
        right = said.weight
        if wrong.does == "pour" and said.then is None:  # "bottle 812 → 640", "no, 645"
            right = wrong.weight
        then = said.then or (said.weight if wrong.does == "pour" else None)
        label = said.label or wrong.label
        later = self.taken[place + 1 :]
        del self.taken[place:], self.states[place + 1 :]
        again = replace(wrong, at=said.at, label=label, weight=right, then=then, also=())
        for one in (again, *later):
            self._push(one, self._after(one))

    def _after(self, said: Said) -> State:
        heavy = [w for w in (said.weight, said.then) if w is not None and w.kg > HEAVIEST]
        if heavy:
            return self._marked(
                said, "fault", "too-heavy",
                f"“{said.text}”: {heavy[0].kg:g} kg is more than a kitchen scale carries. "
                f"A bare number is in {heavy[0].unit} here; write its unit.",
            )  # fmt: skip
        if said.also:
            two = " and ".join(grams(w.kg, self.now.step) for w in _weights(said))
            return self._marked(
                said, "fault", "two-readings",
                f"“{said.text}” holds two readings at one time, {two}. {NEVER} Write one a line, "
                "or “bottle 812 → 640” for what is poured.",
            )  # fmt: skip
        taken = {
            "step": self._step, "tare": self._tare, "stand": self._stand, "add": self._add,
            "take out": self._take_out, "lose": self._lose, "pour": self._pour,
            "check": self._check, "unit": self._nothing,
        }.get(said.does, self._unclear)  # fmt: skip
        return taken(said)

    def _nothing(self, _: Said) -> State:
        return replace(self.now)

    def _unclear(self, said: Said) -> State:
        return self._marked(
            said, "fault", "not-understood",
            f"“{said.text}” is no reading of a scale. Write “1240 pot” for what stands on it, "
            "“+onions 1655” for what went in, “bottle 812 → 640” for what is poured.",
        )  # fmt: skip

    def _step(self, said: Said) -> State:
        self.said_step = True
        return replace(self.now, step=said.step)

    def _tare(self, said: Said) -> State:
        if said.label:  # another vessel: nothing is in it yet
            return replace(self.now, base=0.0, vessel=said.label, spread=0.0, held=0.0)
        return replace(self.now, base=0.0, spread=0.0)

    def _stand(self, said: Said) -> State:
        """Something is put on the scale: a vessel, with or without what it weighs."""
        vessel = vessel_named(said.label, self.kitchen)
        if said.weight is None:
            if vessel is not None and vessel.empty_kg is not None:
                return replace(
                    self.now, base=vessel.empty_kg, vessel=vessel.name, spread=0.0, held=0.0
                )
            return self._marked(
                said, "fault", "unknown-vessel", self._unknown(said, vessel is None)
            )
        found = lines_meant(said.label, self.lines, frozenset())
        if vessel is None and found.sure and vessel_in(said.label, self.kitchen) is None:
            return self._by_itself(said)
        state = replace(self.now, base=said.weight.kg, vessel=said.label, spread=0.0, held=0.0)
        if vessel is None or vessel.empty_kg is None:
            return state
        apart = said.weight.kg - vessel.empty_kg
        if abs(apart) <= OWN_WEIGHT_APART * self.now.step + 1e-9:
            return state
        doubt = Mark(
            "doubt", "vessel-weight",
            f"The {vessel.name} weighs {grams(vessel.empty_kg, self.now.step)} empty in the kitchen "
            f"file and {grams(said.weight.kg, self.now.step)} here: another pot, a lid, or something "
            "in it? What follows is counted from the scale.",
        )  # fmt: skip
        return replace(state, marks=(*state.marks, (said.at, doubt)))

    def _unknown(self, said: Said, nameless: bool) -> str:
        known = ", ".join(
            f"{one.name} ({grams(one.empty_kg, self.now.step)})"
            for one in self.kitchen.vessels
            if one.empty_kg is not None
        )
        lead = (
            f"“{said.label}” is no vessel of this kitchen"
            if nameless
            else f"The kitchen file does not say what the {said.label} weighs empty"
        )
        tail = f"It knows: {known}. " if known else ""
        return f"{lead}, and the line has no number. {tail}Weigh it: “1240 {said.label}”."

    def _by_itself(self, said: Said) -> State:
        """Something with no plus before it that is an ingredient: it is asked, not guessed."""
        base = self.now.base
        shown = "" if said.weight is None else grams(said.weight.kg, self.now.step)
        choices = [f"+{said.label} {shown}"]
        if base is not None and said.weight is not None:
            choices.append(f"+{said.label} {grams(base + said.weight.kg, self.now.step)}")
        return self._marked(
            said, "fault", "plus-missing",
            f"“{said.text}”: is {shown} what the scale shows with the {said.label} in, or what the "
            f"{said.label} weighs by itself? {NEVER} Write “+” before it and what the scale shows.",
            tuple(choices),
        )  # fmt: skip

    def _add(self, said: Said) -> State:
        state, weight = self.now, said.weight
        if weight is None:
            return self._unclear(said)
        if state.base is None:
            return self._marked(
                said, "fault", "no-vessel",
                f"“{said.text}”: nothing stands on the scale yet. Begin with “1240 pot”, the name of "
                "a vessel the kitchen knows, or “tare”.",
            )  # fmt: skip
        kg = weight.kg - state.base
        if kg < -1e-9:
            down = grams(-kg, state.step)
            return self._marked(
                said, "fault", "went-down",
                f"“{said.text}”: the reading went down by {down}, though something was added. "
                f"{NEVER} {_WHY_DOWN}",
            )  # fmt: skip
        return self._differs(said, kg, weight.kg)

    def _take_out(self, said: Said) -> State:
        state, weight = self.now, said.weight
        if weight is None or state.base is None:
            return self._unclear(said)
        kg = weight.kg - state.base
        if kg > 1e-9:
            return self._marked(
                said, "fault", "went-up",
                f"“{said.text}”: the reading went up by {grams(kg, state.step)}, though something "
                f"came out. {NEVER} Write “no, …” with the right number.",
            )  # fmt: skip
        return self._differs(said, kg, weight.kg)

    def _lose(self, said: Said) -> State:
        state, weight = self.now, said.weight
        if weight is None or state.base is None:
            return self._unclear(said)
        kg = weight.kg - state.base
        if kg > 1e-9:
            return self._take_out(said)
        says = f"{bare(weight.kg, state.step)} − {grams(state.base, state.step)}"
        half = state.step + state.spread
        gone = Difference(said.at, said.label, kg, half, says, lost=True, held=state.held)
        return replace(
            state, base=weight.kg, spread=0.0, held=state.held + kg,
            differences=(*state.differences, gone),
        )  # fmt: skip

    def _check(self, said: Said) -> State:
        """A bare number: as expected it says nothing; else it is asked what happened."""
        state, weight = self.now, said.weight
        if weight is None:
            return self._unclear(said)
        if state.base is None:
            return self._marked(
                said, "fault", "no-vessel",
                f"“{said.text}”: what stands on the scale? Write it beside the number: “1240 pot”.",
            )  # fmt: skip
        kg = weight.kg - state.base
        if abs(kg) <= state.step + state.spread + 1e-9:
            return state
        if kg < 0.0:
            return self._marked(
                said, "fault", "went-down",
                f"The reading went down by {grams(-kg, state.step)} without a word. {NEVER} "
                f"{_WHY_DOWN}",
            )  # fmt: skip
        return self._marked(
            said, "fault", "without-a-word",
            f"The reading went up by {grams(kg, state.step)} without a word. {NEVER} Write what "
            f"went in: “+onions {bare(weight.kg, state.step)}”.",
        )  # fmt: skip

    def _pour(self, said: Said) -> State:
        state = self.now
        if said.weight is None or said.then is None:
            return self._unclear(said)
        kg = said.weight.kg - said.then.kg
        if kg < -1e-9:
            return self._marked(
                said, "fault", "went-up",
                f"“{said.text}”: it weighs more after pouring than before. {NEVER} Turn the numbers "
                "round if they are the wrong way.",
            )  # fmt: skip
        says = f"{bare(said.weight.kg, state.step)} − {grams(said.then.kg, state.step)}"
        line, marks = self._line_of(said, kg, poured=True)
        poured = Difference(said.at, said.label, kg, state.step, says, line)
        # What is poured goes into the pot, which is off the scale meanwhile.
        base = None if state.base is None else state.base + kg
        return replace(
            state, base=base, spread=state.spread + state.step, held=state.held + kg,
            differences=(*state.differences, poured), marks=(*state.marks, *marks),
        )  # fmt: skip

    def _differs(self, said: Said, kg: float, shown: float) -> State:
        state = self.now
        before = state.base or 0.0
        says = f"{bare(shown, state.step)} − {grams(before, state.step)}"
        line, marks = self._line_of(said, kg)
        half = state.step + state.spread if before else 0.5 * state.step + state.spread
        made = Difference(said.at, said.label, kg, half, says, line)
        finer = off_step(shown, state.step)
        if finer:
            marks = (*marks, (said.at, finer))
        return replace(
            state, base=shown, spread=0.0, held=state.held + kg,
            differences=(*state.differences, made), marks=(*state.marks, *marks),
        )  # fmt: skip

    def _line_of(
        self, said: Said, kg: float, *, poured: bool = False
    ) -> tuple[int | None, tuple[tuple[int, Mark], ...]]:
        line, marks = line_weighed(said.label, kg, self.lines, self.now, poured=poured)
        return line, tuple((said.at, mark) for mark in marks)

    def _note(self, said: Said, level: Any, kind: str, message: str) -> None:
        """A mark that "undo" does not take back with a reading."""
        for place, state in enumerate(self.states):
            self.states[place] = replace(
                state, marks=(*state.marks, (said.at, Mark(level, kind, message)))
            )

    def _marked(
        self, said: Said, level: Any, kind: str, message: str, choices: tuple[str, ...] = ()
    ) -> State:
        mark = Mark(level, kind, message, choices)
        return replace(self.now, marks=(*self.now.marks, (said.at, mark)))


def _weights(said: Said) -> list[Any]:
    return [one for one in (said.weight, said.then, *said.also) if one is not None]
