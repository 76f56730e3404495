"""What an episode brings to the press, locked up: everything that is published and nothing else.

A printer's forme is the type of a sheet, locked in its frame and ready to print. Ours is the
proof of the episode with what only the press needs beside it. `locking_up` makes it from the
results of the use cases; the modules of `press` turn it into files and calculate nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from counterproof.proof import Edition
from counterproof.script_proof import ScriptProof

Paper = Literal["a5", "a4", "letter", "index"]
Measures = Literal["metric", "us", "both"]


@dataclass(frozen=True, slots=True)
class Trim:
    """How the card is cut and measured.

    Parameters
    ----------
    paper : str
        "a5", "a4", "letter" (US) or "index" (6 by 4 inches).
    measures : str
        "metric", "us" or "both": weights, spoons, degrees, and with them the names of foods.
    """

    paper: Paper = "a5"
    measures: Measures = "both"


@dataclass(frozen=True, slots=True)
class CardLine:
    """An ingredient line as the card shows it, for the servings asked.

    Parameters
    ----------
    number : int
        Its place among the lines, from 1; its weight is that of the proof's line.
    words : str
        As the cook wrote it; where the recipe is scaled, with the amount scaled.
    called : str
        The name in it, as written; "" where there is none.
    local : tuple of str and str, or None
        Region ("uk", "us") and the name of the food there, where it is another.
    us_weight : str
        What goes into the pot, in pounds and ounces; "" where nobody would weigh it so.
    us_measure : str
        The same in cups and spoons, for what is poured or spooned; "" for all else.
    weighs_as_written : bool
        Whether the line itself gives this very weight.
    """

    number: int
    words: str
    called: str
    local: tuple[str, str] | None
    us_weight: str
    us_measure: str
    weighs_as_written: bool


@dataclass(frozen=True, slots=True)
class Heat:
    """A temperature of a step on the dials of different kitchens.

    Parameters
    ----------
    celsius : str
        As written, or rounded to what a dial shows. [°C]
    fahrenheit : str
        Likewise. [°F]
    fan : str
        The same oven with its fan on; "" outside an oven. [°C]
    gas : str
        Gas mark; "" where there is none.
    """

    celsius: str
    fahrenheit: str
    fan: str = ""
    gas: str = ""


@dataclass(frozen=True, slots=True)
class CardStep:
    """A step as the card shows it.

    Parameters
    ----------
    number : int
        Its place among the steps, from 1.
    does : tuple of (str, str)
        What takes time in it, and how long: ("simmer", "20 min").
    heats : tuple of Heat
        Its temperatures.
    """

    number: int
    does: tuple[tuple[str, str], ...]
    heats: tuple[Heat, ...]


@dataclass(frozen=True, slots=True)
class Card:
    """What a recipe card holds beside the proof, measured out for the servings asked.

    Parameters
    ----------
    lines : tuple of CardLine
        One for every ingredient line.
    steps : tuple of CardStep
        One for every step.
    makes : str
        The cook's own words for the yield, or "" where there are none or they no longer hold.
    """

    lines: tuple[CardLine, ...] = ()
    steps: tuple[CardStep, ...] = ()
    makes: str = ""


@dataclass(frozen=True, slots=True)
class Appointment:
    """What the plan of a recipe asks of a day.

    Parameters
    ----------
    does : {"cook", "freeze", "thaw", "eat"}
        Cook; freeze by then; start thawing; eat by then.
    day : str
        ISO 8601.
    told : tuple of str
        What the tables say of the stay that ends or begins, and whom to ask.
    """

    does: Literal["cook", "freeze", "thaw", "eat"]
    day: str
    told: tuple[str, ...] = ()


@dataclass(frozen=True)
class Forme:
    """One episode, ready for the press.

    Parameters
    ----------
    edition : Edition
        The proof, its derivations filled in.
    date : str
        The day it is pressed for, ISO 8601.
    language : str
        Of the fixed words: "en" or another that is shipped.
    trim : Trim
        How the card is cut and measured.
    card : Card
        Lines and steps measured out for it.
    script : ScriptProof or None
        The script as it will be said; None where the episode has none.
    results : mapping
        The results in their JSON form, as `footprint --json` gives them.
    matrices : mapping of str to str
        File → content: the product system for an LCA engine.
    linked_data : mapping
        The recipe as schema.org data, read back equal.
    appointments : tuple of Appointment
        The plan on the calendar.
    """

    edition: Edition
    date: str
    language: str = "en"
    trim: Trim = Trim()
    card: Card = Card()
    script: ScriptProof | None = None
    results: Mapping[str, Any] = field(default_factory=dict)
    matrices: Mapping[str, str] = field(default_factory=dict)
    linked_data: Mapping[str, Any] = field(default_factory=dict)
    appointments: tuple[Appointment, ...] = ()
