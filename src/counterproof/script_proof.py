"""A script as it will be said: its passages, with every figure and claim in its place.

The script's counterpart to the `Edition`: all that a reading page, captions or notes may show,
already worked out; a surface only renders it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Asked:
    """How a claim fares on another basis: whether it holds, or why it cannot be asked there."""

    basis: str
    share: float | None
    holds: bool | None
    inapplicable: str = ""


@dataclass(frozen=True, slots=True)
class Spoken:
    """A figure or a claim in its place.

    Parameters
    ----------
    kind : {"figure", "claim"}
        What it is.
    line : int
        Line of the script, from 1.
    as_written : str
        With its brackets.
    words : str
        What is said in its place.
    number : int or None
        Short number of its derivation; None where nothing could be worked out.
    span : str
        Of a figure, its interval in the same unit; "" where it has none.
    conditions : tuple of str
        What it holds under.
    sources : tuple of str
        Source.id of each source.
    open : tuple of str
        What is left open about it.
    asks : str
        Of a claim, what is compared, in words.
    verdict, reason, basis : str
        Of a claim.
    likelihood : str
        Of a claim, the term that its share of draws has earned.
    share : float or None
        Of a claim, the share of draws in which it is true. [1]
    others : tuple of Asked
        Of a claim, the other bases it was asked on.
    strongest : str
        Of a claim that fails, the strongest sentence that holds; "" where there is none.
    """

    kind: Literal["figure", "claim"]
    line: int
    as_written: str
    words: str
    number: int | None
    span: str = ""
    conditions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    asks: str = ""
    verdict: str = ""
    reason: str = ""
    basis: str = ""
    likelihood: str = ""
    share: float | None = None
    others: tuple[Asked, ...] = ()
    strongest: str = ""


@dataclass(frozen=True, slots=True)
class Passage:
    """A paragraph of a script.

    Parameters
    ----------
    kind : {"heading", "direction", "speech"}
        What it is: only speech is said.
    line : int
        Line of the script it begins on, from 1.
    runs : tuple of str or Spoken
        Its words, and the figures and claims among them, in order.
    """

    kind: Literal["heading", "direction", "speech"]
    line: int
    runs: tuple[str | Spoken, ...]


@dataclass(frozen=True, slots=True)
class ScriptProof:
    """A script as it will be said.

    Parameters
    ----------
    title : str
        Its first heading, or "".
    passages : tuple of Passage
        In order, every one on one line.
    text : tuple of str or Spoken
        All of the script as it was written, figures and claims in their places.
    loose : tuple of str
        Numbers in it that come from no figure, each with what is nearest.
    overclaims : tuple of str
        Words in it that claim more than a number can carry, each with its rule.
    """

    title: str
    passages: tuple[Passage, ...]
    text: tuple[str | Spoken, ...] = ()
    loose: tuple[str, ...] = ()
    overclaims: tuple[str, ...] = ()

    @property
    def spoken(self) -> tuple[Spoken, ...]:
        """Every figure and claim, in order."""
        return tuple(
            run for passage in self.passages for run in passage.runs if isinstance(run, Spoken)
        )
