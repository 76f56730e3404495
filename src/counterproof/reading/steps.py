"""Instruction sentences → processes with their times, temperatures, lid and appliance.

The kinds are the keys of `process_words.RANKS`. Several processes in a sentence are several
processes, in the order written; `main_process` says which one carries the step.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from counterproof.reading.durations import Duration, Temperature, durations, temperatures
from counterproof.reading.model import MarkedStep, Process
from counterproof.reading.process_words import (
    APPLIANCES,
    HEATED,
    IMPLIED,
    LOOKALIKES,
    PROCESS,
    RANKS,
)
from counterproof.recipe.model import WrittenLine

_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z0-9(])|\n+")
_LID_ON = re.compile(
    r"\b(?:with (?:the |a |its )?lid on|lid on|put (?:the|a) (?:\w+ )?lid|place a lid|closed its lid"
    r"|tight lid|tightly covered|covered|cover(?:ing)?)\b"
    r"(?! (?:with|in) (?:\w+ ){0,2}(?:water|remaining|parchment|paper|stock|milk|oil|sauce))"
)
_LID_OFF = re.compile(
    r"\b(?:uncovered|without (?:a |the )?lid|(?:open|remove|take off|lift) the lid|lid off)\b"
)
_LID_PARTIAL = re.compile(
    r"\b(?:part(?:ly|ially)[- ]covered|lid (?:slightly )?ajar|half[- ]covered)\b"
)
_NOT_A_LID = re.compile(
    r"\bcover(?: \w+){0,4} with (?:\w+ ){0,2}(?:parchment|baking|greaseproof|paper|water|remaining)"
    r"|\b(?:to|not|will|enough[^.]{0,80}to) cover\b|then cover with the|cover with"
)
_DRAINED = re.compile(r"\bdrain(?:ing)?\b|\bpour off\b|\btip away\b")
_CLOTH = re.compile(r"\bcover\w*\b[^.;]{0,120}\b(?:cloth|towel|foil|wrap|film|plate|lid|filter)\b")
# A time said of one of these words belongs to the process that the sentence goes on to name.
_TIMELESS = frozenset({"add", "transfer", "prep", "serve", "strain", "preheat", "melt"})


@dataclass(frozen=True, slots=True)
class _Found:
    kind: str
    start: int
    end: int


def read_step(written: WrittenLine) -> MarkedStep:
    """What one step does, as processes in the order written.

    Parameters
    ----------
    written : WrittenLine
        The step as the cook wrote it; any number of sentences.

    Returns
    -------
    MarkedStep
        Its processes; a step in which none is recognised keeps an empty tuple and no mark,
        because a remark is not a fault.
    """
    told = tuple((one, sentence_processes(one)) for one in sentences(written.text))
    return MarkedStep(written, tuple(p for _, processes in told for p in processes), (), told)


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a step.

    Parameters
    ----------
    text : str
        A step as written.

    Returns
    -------
    tuple of str
        In order; together they hold every word of the step.
    """
    return tuple(_SENTENCE.split(text))


def main_process(processes: tuple[Process, ...]) -> Process | None:
    """The process that carries a sentence: the timed one, else the one of the lowest rank.

    Parameters
    ----------
    processes : tuple of Process
        As `sentence_processes` returns them.

    Returns
    -------
    Process or None
        None where there is none.
    """
    timed = [p for p in processes if p.minutes]
    if timed:
        first = timed[0]
        heated = [p for p in processes[: processes.index(first)] if p.kind in HEATED]
        # "bake until golden, cool for an hour": the hour is not what the step is about
        return heated[0] if heated and first.kind in {"cool", "rest"} else first
    warm = [p for p in processes if p.celsius is not None]
    if warm:
        return warm[0]
    return min(processes, key=lambda p: RANKS[p.kind], default=None)


def sentence_processes(sentence: str) -> tuple[Process, ...]:
    """The processes of one sentence.

    Parameters
    ----------
    sentence : str
        One sentence in any case; its length is taken as it is.

    Returns
    -------
    tuple of Process
        In the order written.
    """
    sentence = " ".join(sentence.split())
    text = sentence.lower().replace("’", "'").replace("‑", "-")
    found = _process_words(text)
    times = [d for d in durations(text) if d.role == "for"]
    degrees = temperatures(sentence)
    if not found:
        return (_unnamed(text, times, degrees),) if times or degrees else ()
    lid = _lid(text)
    named = _appliance(text)
    processes = [
        Process(_kind(word.kind, text, named), None, None, None, _appliance_of(word, named))
        for word in found
    ]
    for time in times:
        place = _owner(time, found, text)
        if processes[place].minutes is None:
            kind = processes[place].kind
            processes[place] = replace(
                processes[place],
                # "ladle in the stock, stirring, for 20 minutes": what takes time is cooking
                kind="cook" if kind in {"add", "transfer"} else kind,
                minutes=(time.low, time.high),
            )
    processes = [_parting(p, text) if p.kind == "strain" else p for p in processes]
    if degrees:
        place = _heated(found, processes)
        processes[place] = replace(processes[place], celsius=degrees[0].celsius)
    if lid is not None:
        main = main_process(tuple(processes))
        processes = [replace(p, covered=lid) if p is main else p for p in processes]
    return tuple(processes)


def _process_words(text: str) -> list[_Found]:
    clean = LOOKALIKES.sub(lambda m: " " * len(m[0]), text)
    found: list[_Found] = []
    for match in PROCESS.finditer(clean):
        kind = str(match.lastgroup)
        if found and found[-1].kind == kind and match.start() - found[-1].end < 12:
            continue  # "mix and stir", "strain through a sieve": one process
        found.append(_Found(kind, match.start(), match.end()))
    return found


def _unnamed(text: str, times: list[Duration], degrees: tuple[Temperature, ...]) -> Process:
    """A sentence that gives a time or a temperature for what an earlier one named."""
    minutes = (times[0].low, times[0].high) if times else None
    celsius = degrees[0].celsius if degrees else None
    return Process("unspecified", minutes, celsius, _lid(text), _appliance(text))


def _owner(time: Duration, found: list[_Found], text: str) -> int:
    """Index of the process a time belongs to: the last able one before it in its clause, else after."""
    before = [i for i, word in enumerate(found) if word.start < time.start]
    after = [i for i, word in enumerate(found) if word.start >= time.start]
    clause = max(text.rfind(";", 0, time.start), text.rfind(". ", 0, time.start))
    able = [i for i in before if found[i].kind not in _TIMELESS and found[i].start > clause]
    if able:
        return able[-1]
    able = [i for i in after if found[i].kind not in _TIMELESS]
    if able:
        return able[0]
    able = [i for i in before if found[i].kind not in _TIMELESS]
    if able:
        return able[-1]
    return before[-1] if before else after[0]


def _heated(found: list[_Found], processes: list[Process]) -> int:
    """Index of the process a temperature belongs to: the first heated one, else the timed one."""
    for i, word in enumerate(found):
        if word.kind in HEATED or word.kind in {"dry", "ferment", "rise"}:
            return i
    return next((i for i, p in enumerate(processes) if p.minutes), 0)


def _lid(text: str) -> bool | None:
    if _LID_OFF.search(text):
        return False
    if _LID_PARTIAL.search(text) or _CLOTH.search(text):
        return True
    stripped = _NOT_A_LID.sub(" ", text)
    return True if _LID_ON.search(stripped) else None


def _appliance(text: str) -> str | None:
    return next((name for name, pattern in APPLIANCES if pattern.search(text)), None)


def _appliance_of(word: _Found, named: str | None) -> str | None:
    implied = IMPLIED.get(word.kind)
    if named is None or implied is None:
        return implied
    cold = {"fridge", "freezer"}
    if (named in cold) != (implied in cold):
        return implied
    if named in {"food processor", "blender"} and implied != "blender":
        return implied
    return named


def _parting(process: Process, text: str) -> Process:
    """What straining takes away: to drain keeps the solids, to strain keeps the liquid."""
    return replace(process, leaves="liquid" if _DRAINED.search(text) else "solids")


def _kind(kind: str, text: str, named: str | None) -> str:
    """The kind once the appliance is known: cooking in the oven is baking."""
    if kind == "cook" and named == "oven" and "out of" not in text:
        return "bake"
    if kind == "cook" and named == "slow cooker":
        return "slow_cook"
    if kind == "cook" and named == "microwave":
        return "microwave"
    if kind == "cook" and named == "grill":
        return "grill"
    if kind == "cool" and named == "fridge":
        return "chill"
    return kind
