"""The answer to one kitchen question, in the form every surface and `physics X --json` share."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

import numpy as np

from counterproof.physics.flags import Flag
from counterproof.physics.values import ZERO_CELSIUS, Draws
from counterproof.sourced import Sourced

Ruling = Literal["within", "too close", "over", "no rule"]


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a rule says to a result.

    Parameters
    ----------
    rule : str
        Name of the rule, such as "two-stage cooling, first stage".
    verdict : Ruling
        within, too close, over, or no rule.
    message : str
        One sentence: the limit, the modelled value, what to do.
    source : str
        Id of a row of `data/sources.csv`, or "common practice".
    """

    rule: str
    verdict: Ruling
    message: str
    source: str

    def to_dict(self) -> dict[str, str]:
        """Return the JSON form."""
        return {
            "rule": self.rule,
            "verdict": self.verdict,
            "message": self.message,
            "source": self.source,
        }


@dataclass(frozen=True, slots=True)
class Curve:
    """A temperature history, middle values.

    Parameters
    ----------
    seconds : tuple of float
        Times, rising. [s]
    celsius : tuple of float
        Temperatures at these times. [°C]
    """

    seconds: tuple[float, ...]
    celsius: tuple[float, ...]

    @classmethod
    def of(cls, seconds: Draws, temperatures: Draws) -> Curve:
        """Make a curve from arrays.

        Parameters
        ----------
        seconds : (m,) array
            Times, rising. [s]
        temperatures : (m,) array
            Temperatures. [K]

        Returns
        -------
        Curve
            The curve.
        """
        celsius = np.asarray(temperatures) - ZERO_CELSIUS
        return cls(tuple(float(s) for s in np.asarray(seconds)), tuple(float(c) for c in celsius))

    def to_dict(self) -> dict[str, list[float]]:
        """Return the JSON form."""
        return {"seconds": list(self.seconds), "celsius": list(self.celsius)}


@dataclass(frozen=True, slots=True)
class Answer:
    """One question, answered.

    Parameters
    ----------
    process : str
        heat, simmer, fry, bake, kettle, microwave, cool, …
    inputs : mapping
        What was asked, defaults included; the unit in each key.
    result : mapping
        Named quantities, the unit in each key. A number, draws (printed as a range), or a list
        or mapping of these.
    verdicts : tuple of Verdict
        What the rules say.
    curve : Curve or None
        Temperature over time, where there is one.
    cautions : tuple of str
        What could hurt someone; each defers to local codes.
    sources : tuple of str
        Ids of rows of `data/sources.csv` that decide the result.
    assumed : tuple of str
        What the result assumes, one sentence each; they join `marks` as notes.
    flags : tuple of Flag
        What the result must say about itself; "marks" in JSON.
    """

    process: str
    inputs: Mapping[str, Any]
    result: Mapping[str, Any]
    verdicts: tuple[Verdict, ...] = ()
    curve: Curve | None = None
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    flags: tuple[Flag, ...] = field(default=())

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        notes = tuple(Flag("assumed", said, "note") for said in self.assumed)
        return {
            "process": self.process,
            "inputs": {key: printed(value) for key, value in self.inputs.items()},
            "result": {key: printed(value) for key, value in self.result.items()},
            "verdicts": [verdict.to_dict() for verdict in self.verdicts],
            "curve": None if self.curve is None else self.curve.to_dict(),
            "cautions": list(self.cautions),
            "sources": list(self.sources),
            "marks": [flag.to_dict() for flag in (*self.flags, *notes)],
        }


def printed(value: Any) -> Any:
    """A value as JSON holds it: finite draws as a range, a number that is not finite as null.

    Parameters
    ----------
    value : Any
        A number, draws, text, or a list or mapping of these.

    Returns
    -------
    Any
        Plain numbers, texts, lists and dictionaries.
    """
    if isinstance(value, Mapping):
        return {key: printed(inner) for key, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [printed(inner) for inner in value]
    if isinstance(value, np.ndarray):
        return _range(value)
    if isinstance(value, float):
        return float(value) if np.isfinite(value) else None
    return value


def _range(draws: Draws) -> float | dict[str, float] | None:
    """Return the range of the finite draws, a plain number where all are the same."""
    held = draws[np.isfinite(draws)]
    if held.size == 0:
        return None
    if held.min() == held.max():
        return float(held.flat[0])
    low, middle, high = np.quantile(held, (0.05, 0.5, 0.95))
    spread = {"mean": np.mean(held), "p05": low, "p50": middle, "p95": high}
    return {key: float(inner) for key, inner in spread.items()}


def credited(*constants: Sourced | str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What decides a result: source ids, and sentences for what is assumed.

    Parameters
    ----------
    *constants : Sourced or str
        The constants used, or bare source ids.

    Returns
    -------
    tuple of (tuple of str, tuple of str)
        Source ids and assumptions, each once, in order.
    """
    sources: dict[str, None] = {}
    assumed: dict[str, None] = {}
    for constant in constants:
        if isinstance(constant, str):
            sources[constant] = None
        elif constant.source == "assumed":
            assumed[_sentence(constant)] = None
        elif constant.source != "exact":
            sources[constant.source] = None
    return tuple(sources), tuple(assumed)


def _sentence(constant: Sourced) -> str:
    unit = "" if constant.unit == "1" else f" {constant.unit}"
    return f"assumed {constant.value:g}{unit} ± {constant.spread:.0%}: {constant.note}"
