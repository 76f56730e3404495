"""What an episode brings to the press, locked up: everything that is published and nothing else.

A printer's forme is the type of a sheet, locked in its frame and ready to print. Ours is the
proof of the episode with what only the press needs beside it. `locking_up` makes it from the
results of the use cases; the modules of `press` turn it into files and calculate nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from counterproof.claims.seen import Seen
from counterproof.draws import Range
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


@dataclass(frozen=True, slots=True)
class Likened:
    """One serving as a number of things that can be drawn to scale.

    Parameters
    ----------
    version : str
        Name of the version; "" for the recipe as written.
    seen : Seen
        What stands for it, with its shape and size.
    celsius : float
        Temperature of the gas. [°C]
    key : str
        Of the derivation of the count.
    """

    version: str
    seen: Seen
    celsius: float
    key: str


@dataclass(frozen=True, slots=True)
class Deadline:
    """What a rule asks of something that cools.

    Parameters
    ----------
    clock : float or None
        Temperature at which its clock starts; None for the start of cooling. [°C]
    goal : float
        Temperature to reach. [°C]
    limit : float
        Time allowed. [s]
    told, takes : str
        Both in words: "2 h", "6 h to 9 h".
    verdict : str
        within, too close, over or no rule.
    locator : str
        Where the rule stands.
    key : str
        Of the derivation of the time; "" where it never ends.
    """

    clock: float | None
    goal: float
    limit: float
    told: str
    takes: str
    verdict: str
    locator: str
    key: str


@dataclass(frozen=True, slots=True)
class Course:
    """How something hot cools, as modelled, and what the rules ask.

    Parameters
    ----------
    step : int
        The step that begins it.
    litres : float
        The whole of it. [L]
    vessel : str
        Where it goes cold: pot, tray, jar or bottle.
    vessels : int
        How many of them. [1]
    places : tuple of str
        ice bath, counter, fridge, freezer, in turn.
    celsius : tuple of float
        Temperatures on the way down. [°C]
    fast, middle, slow : tuple of float
        Time from the start to each, infinite for never. [s]
    deadlines : tuple of Deadline
        One a rule.
    """

    step: int
    litres: float
    vessel: str
    vessels: int
    places: tuple[str, ...]
    celsius: tuple[float, ...]
    fast: tuple[float, ...]
    middle: tuple[float, ...]
    slow: tuple[float, ...]
    deadlines: tuple[Deadline, ...]


@dataclass(frozen=True, slots=True)
class Position:
    """What the handout shows where its two controls stand at one place.

    Parameters
    ----------
    version : str
        Name of the version; "" for the recipe as written.
    changes : tuple of str
        What is otherwise in it, in plain words.
    serves : float
        Servings cooked at once. [1]
    serving, batch : Range
        One serving, and all of them. [kg CO2e]
    stages : tuple of (str, Range)
        One serving in life-cycle order. [kg CO2e]
    ratio : float or None
        Times the recipe as written, of the means, for as many servings. [1]
    share_lower : float or None
        Share of draws in which it is below that. [1]
    factor_set : str or None
        The set in which the two are compared.
    difference : Range or None
        This less that, in the set compared in; None for the recipe itself, or where the two
        cannot be judged. [kg CO2e]
    """

    version: str
    changes: tuple[str, ...]
    serves: float
    serving: Range
    batch: Range
    stages: tuple[tuple[str, Range], ...]
    ratio: float | None
    share_lower: float | None
    factor_set: str | None
    difference: Range | None


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
    credits : tuple of str
        Credit lines that the recipe asks for: whose it was, whose photographs.
    appointments : tuple of Appointment
        The plan on the calendar.
    likened : tuple of Likened
        What a serving is drawn as: the recipe, and a version beside it where that can be pictured.
    courses : tuple of Course
        What cools, in the order of the steps.
    positions : tuple of Position
        Every place of the handout's controls.
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
    credits: tuple[str, ...] = ()
    appointments: tuple[Appointment, ...] = ()
    likened: tuple[Likened, ...] = ()
    courses: tuple[Course, ...] = ()
    positions: tuple[Position, ...] = ()
