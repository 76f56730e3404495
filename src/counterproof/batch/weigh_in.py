"""A weigh-in: running scale readings become ingredient lines, each with its range.

A pure function of the text: the whole weigh-in is read anew whenever a line has come, so nothing
depends on when it was typed, and an interrupted one is taken up from its text.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any, Final

from counterproof.batch.asked_at_the_scale import (
    COARSE,
    NEVER,
    OWN_WEIGHT_APART,
    bare,
    nameless,
    off_step,
    together,
    too_coarse,
)
from counterproof.batch.labels import lines_meant, parts_of, vessel_in, vessel_named
from counterproof.batch.scale_talk import Said, scale_talk
from counterproof.batch.weighed import Difference, State, Weighed, WeighIn
from counterproof.batch.weights import FINEST_ASSUMED, HEAVIEST, finest_step, grams
from counterproof.marks import Mark
from counterproof.plan.pot import is_at_table
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
    return weighing.result(stated=step is not None)


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
        """The recipe line a label belongs to, and what is doubtful about it."""
        weighed = frozenset(one.line for one in self.now.differences if one.line is not None)
        if not said.label:
            return None, ((said.at, nameless(kg, self.now.step)),)
        parts = parts_of(said.label)
        if len(parts) > 1:
            each = [lines_meant(part, self.lines, weighed) for part in parts]
            numbers = {one.lines[0].written.number for one in each if one.lines}
            if len(numbers) > 1:
                return None, ((said.at, together(said.label, kg, self.now.step)),)
        found = lines_meant(said.label, self.lines, weighed)
        if not found.lines:
            only, mark = self._unlisted(said, kg, weighed, poured=poured)
            return only, ((said.at, mark),)
        if found.sure:
            return found.lines[0].written.number, ()
        names = tuple(line.written.text for line in found.lines)
        doubt = Mark(
            "doubt", "which-line",
            f"“{said.label}” may be {' or '.join(f'“{name}”' for name in names)}; the first is "
            "taken. Name it more closely.",
            names,
        )  # fmt: skip
        return found.lines[0].written.number, ((said.at, doubt),)

    def _unlisted(
        self, said: Said, kg: float, weighed: frozenset[int], *, poured: bool
    ) -> tuple[int | None, Mark]:
        """What fits no line by its name: a line of its own, or what a bottle can only hold."""
        if not poured:
            says = f"The recipe lists no {said.label}; it becomes a line of its own."
            return None, Mark("note", "not-listed", says)
        liquid = [
            line
            for line in self.lines
            if line.food is not None and line.food.kind == "liquid" and not is_at_table(line)
            if line.written.number not in weighed
        ]
        if len(liquid) == 1:
            says = (
                f"The {said.label} holds {liquid[0].split.name}: the only liquid not yet weighed."
            )
            return liquid[0].written.number, Mark("note", "poured", says)
        return None, Mark(
            "doubt", "poured-what",
            f"{grams(kg, self.now.step)} were poured from “{said.label}”: of what? It is listed by "
            "itself until the line names it.",
            tuple(f"{line.split.name} bottle" for line in liquid),
        )  # fmt: skip

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

    def result(self, *, stated: bool) -> WeighIn:
        """All of it, in the recipe's order."""
        state = self.now
        counted = [one for one in state.differences if not one.lost]
        lines: list[Weighed] = []
        marks = list(state.marks)
        for line in self.lines:
            own = tuple(one for one in counted if one.line == line.written.number)
            if own:
                lines.append(
                    _summed(line.written.number, line.split.name or line.written.text, own)
                )
        by_name: dict[str, list[Difference]] = {}
        for one in counted:
            if one.line is None and one.label:
                by_name.setdefault(one.label.casefold(), []).append(one)
        lines += [_summed(None, own[0].label, tuple(own)) for own in by_name.values()]
        for line_ in lines:
            if line_.kg < -1e-9:
                fault = Mark(
                    "fault", "more-out-than-in",
                    f"More {line_.name} came out than went in ({grams(line_.kg, state.step)}).",
                )  # fmt: skip
                marks.append((line_.differences[-1].at, fault))
        marks += [
            (one.differences[-1].at, too_coarse(one, state.step))
            for one in lines
            if one.kg > 1e-9 and one.half > COARSE * one.kg
        ]
        if not (stated or self.said_step) and counted:
            says = f"The scale is taken to read to {grams(state.step, state.step)}. "
            tell = "Say it if it does not: “scale to 5 g”, here or among the kitchen’s tools."
            marks.append((0, Mark("note", "scale-step", f"{says}{tell}")))
        done = {line.number for line in lines}
        return WeighIn(
            tuple(line for line in lines if line.kg > 1e-9),
            tuple(n for line in self.lines if (n := line.written.number) not in done),
            tuple(one for one in state.differences if one.lost),
            tuple(marks),
            state,
        )


def _weights(said: Said) -> list[Any]:
    return [one for one in (said.weight, said.then, *said.also) if one is not None]


def _summed(number: int | None, name: str, own: tuple[Difference, ...]) -> Weighed:
    return Weighed(number, name, sum(one.kg for one in own), sum(one.half for one in own), own)
