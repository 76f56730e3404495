"""What every question is asked around: the tables, the kitchen, the draws, and what is heated."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

from counterproof.draws import Lognormal, Parameter, Streams
from counterproof.errors import InputError
from counterproof.kitchen_physics import LIKE_VEGETABLES, WATER, is_known, makeup_of, place_of
from counterproof.kitchen_questions.amounts import Amount
from counterproof.physics import food_properties, water
from counterproof.physics.answer import Answer
from counterproof.physics.flags import Flag
from counterproof.physics.food_properties import Makeup
from counterproof.physics.heating import Contents
from counterproof.physics.places import Place
from counterproof.physics.values import ZERO_CELSIUS, Draws
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.kitchen_file import with_changes
from counterproof.rows import Food, Tables
from counterproof.sourced import Sourced
from counterproof.use_cases import Workbench


@dataclass(frozen=True)
class Around:
    """Where a question is asked.

    Parameters
    ----------
    bench : Workbench
        Tables and matcher.
    kitchen : Kitchen
        The kitchen, whose temperatures and appliances are the defaults.
    streams : Streams
        The draws.
    """

    bench: Workbench
    kitchen: Kitchen
    streams: Streams

    def take(self, key: str, constant: Sourced, /) -> float | Draws:
        """Return draws of an uncertain constant, or its number where it is exact.

        Parameters
        ----------
        key : str
            What the constant is.
        constant : Sourced
            The constant.

        Returns
        -------
        float or (n,) array
            Lognormal, its mean kept. [the constant's unit]
        """
        if constant.spread == 0.0:
            return constant.value
        drawn = Lognormal.from_spread(constant.value, constant.spread)
        return self.streams.values(Parameter(key, drawn))

    @property
    def place(self) -> Place:
        """Room and height above the sea."""
        return place_of(self.kitchen)

    @property
    def tap(self) -> float:
        """Temperature of cold tap water. [K]"""
        return ZERO_CELSIUS + self.kitchen.tap_celsius

    @property
    def fridge(self) -> float:
        """Temperature of the fridge. [K]"""
        return ZERO_CELSIUS + self.kitchen.fridge_celsius

    @property
    def freezer(self) -> float:
        """Temperature of the freezer. [K]"""
        return ZERO_CELSIUS + self.kitchen.freezer_celsius

    def at_most_the_boil(self, end: float | None) -> float | None:
        """Return a wanted temperature; None for one that is the boil to a twentieth of a degree.

        Parameters
        ----------
        end : float or None
            Wanted; None for the boil. [K]

        Returns
        -------
        float or None
            Water boils at 99.97 °C at sea level: who says 100 °C means the boil. [K]
        """
        near = end is not None and abs(end - self.place.boil) < 0.05
        return None if near else end

    def elsewhere(self, *, altitude: float | None = None, room: float | None = None) -> Around:
        """Return the same with another room or height.

        Parameters
        ----------
        altitude : float or None
            Height above the sea. [m]
        room : float or None
            Temperature of the room. [K]

        Returns
        -------
        Around
            What is None stays as the kitchen says.
        """
        kitchen = self.kitchen
        if altitude is not None:
            kitchen = replace(kitchen, altitude_m=altitude)
        if room is not None:
            kitchen = replace(kitchen, room_celsius=room - ZERO_CELSIUS)
        return replace(self, kitchen=kitchen)

    def with_tap(self, alkalinity: str) -> Around:
        """Return the same with other water in the tap.

        Parameters
        ----------
        alkalinity : str
            As a kitchen file or a water report has it: "2.1 meq/L", "105 mg/L as CaCO3".

        Returns
        -------
        Around
            Its kitchen changed.

        Raises
        ------
        BrokenSettings
            If it is no alkalinity.
        """
        return replace(self, kitchen=with_changes(self.kitchen, {"tap_alkalinity": alkalinity}))


def mass_of_water(amount: Amount, temperature: float) -> float:
    """The mass of an amount of water.

    Parameters
    ----------
    amount : Amount
        By volume or by weight.
    temperature : float
        At which a volume was measured. [K]

    Returns
    -------
    float
        Mass. [kg]
    """
    if amount.volume is None:
        return amount.mass or 0.0
    return amount.volume * float(water.density(temperature))


@dataclass(frozen=True, slots=True)
class Stuff:
    """A food as it was read: what it is called, what it is made of.

    Parameters
    ----------
    name : str
        As it is printed.
    makeup : Makeup
        What it is made of.
    sugar : float
        Dissolved sugar, of the mass. [1]
    liquid : bool
        Whether it moves like a thin liquid.
    food_class : str
        Its class in the tables.
    flags : tuple of Flag
        How it was read, where that is not what was said.
    sources : tuple of str
        Where its composition comes from.
    """

    name: str = "water"
    makeup: Makeup = field(default_factory=lambda: food_properties.WATER)
    sugar: float = 0.0
    liquid: bool = True
    food_class: str = WATER
    flags: tuple[Flag, ...] = ()
    sources: tuple[str, ...] = ()

    @property
    def is_water(self) -> bool:
        """Whether it is counted as plain water."""
        return self.food_class == WATER

    def told(self, answer: Answer, **inputs: Any) -> Answer:
        """Return an answer that also says how the food was read.

        Parameters
        ----------
        answer : Answer
            What the physics says.
        **inputs : Any
            Further inputs to print.

        Returns
        -------
        Answer
            With the food's name, flags and sources.
        """
        return replace(
            answer,
            inputs={"food": self.name, **answer.inputs, **inputs},
            sources=tuple(dict.fromkeys((*answer.sources, *self.sources))),
            flags=tuple(dict.fromkeys((*answer.flags, *self.flags))),
        )


def stuff(said: str | None, around: Around) -> Stuff:
    """What a person means by a food.

    Parameters
    ----------
    said : str or None
        Its name; None for water.
    around : Around
        With tables and matcher.

    Returns
    -------
    Stuff
        Water, or a food with what it is made of; one that is not known is counted like
        vegetables, with a doubt that says so.
    """
    if said is None:
        return Stuff()
    match = around.bench.matcher.match(said)
    if match.food is None:
        near = [runner.food.name for runner in match.runners_up]
        hint = f" Known are {', '.join(near)}." if near else ""
        message = (
            f"no food is known here as “{said}”: it is counted like cooked vegetables, 88 % water, "
            f"and as thick.{hint}"
        )
        makeup = food_properties.makeup(LIKE_VEGETABLES)
        unknown = Flag("food-unknown", message)
        return Stuff(said, makeup, 0.0, liquid=False, food_class="", flags=(unknown,))
    return of_food(match.food, said, around.bench.tables)


def of_food(food: Food, said: str, tables: Tables) -> Stuff:
    """A food of the tables, with what must be said about it.

    Parameters
    ----------
    food : Food
        The food.
    said : str
        What the person called it.
    tables : Tables
        With compositions.

    Returns
    -------
    Stuff
        The food as the physics takes it.
    """
    flags: tuple[Flag, ...] = ()
    if said.strip().casefold() != food.name.casefold():
        flags = (Flag("food-read", f"“{said}” is counted as {food.name}.", "note"),)
    made_of = tables.composition.get(food.id)
    known = is_known(food.id, tables)
    if not known and food.food_class != WATER:
        message = (
            f"what {food.name} is made of is not known here: it is counted like vegetables, "
            "88 % water."
        )
        flags = (*flags, Flag("makeup-unknown", message))
    sources: tuple[str, ...] = ()
    if known and made_of is not None and made_of.provenance.source:
        sources = (made_of.provenance.source,)
    if food.food_class == WATER:
        return Stuff(food.name, flags=flags)
    sugar = ((made_of.sugars_g if made_of is not None else None) or 0.0) / 100.0
    return Stuff(
        food.name,
        food_properties.makeup(makeup_of(food.id, tables)),
        sugar,
        food.kind == "liquid",
        food.food_class,
        flags,
        sources,
    )


@dataclass(frozen=True, slots=True)
class Load:
    """What is heated.

    Parameters
    ----------
    water : Amount or None
        Water by itself.
    food : str or None
        Name of a food.
    mass : float or None
        Mass of that food. [kg]
    """

    water: Amount | None = None
    food: str | None = None
    mass: float | None = None

    def read(self, around: Around, start: float) -> tuple[Contents, Stuff]:
        """Return the contents of the pot, and how the food was read.

        Parameters
        ----------
        around : Around
            Tables and kitchen.
        start : float
            Temperature at which volumes were measured. [K]

        Returns
        -------
        tuple of (Contents, Stuff)
            Nothing where nothing is given.

        Raises
        ------
        InputError
            If a food comes without its mass, or a mass without its food.
        """
        if self.food is not None and self.mass is None:
            raise InputError(
                f"How much {self.food} is not said.", remedy="Give its weight, such as --mass 500g."
            )
        if self.food is None and self.mass is not None:
            raise InputError(
                "A weight is given, but not of what.",
                remedy="Name the food, such as --food potatoes, or give --water 1L.",
            )
        poured = 0.0 if self.water is None else mass_of_water(self.water, start)
        what = stuff(self.food, around)
        mass = self.mass or 0.0
        if what.is_water:
            return Contents(poured + mass), what
        return Contents(poured, mass, what.makeup), what


def document(answer: Answer, tables: Tables) -> dict[str, Any]:
    """An answer as JSON holds it, every source with its citation.

    Parameters
    ----------
    answer : Answer
        The answer.
    tables : Tables
        With the source records.

    Returns
    -------
    dict
        As contracts promise it; a source without a record stands with its id alone.
    """
    cited = []
    for name in answer.sources:
        record = tables.sources.get(name)
        if record is None:
            cited.append({"id": name, "citation": None, "address": None})
        else:
            cited.append({"id": name, "citation": record.citation, "address": record.address})
    return {**answer.to_dict(), "sources": cited}


def needs_attention(answer: Answer) -> bool:
    """Whether an answer is more than done: a verdict that does not hold, or a doubt.

    Parameters
    ----------
    answer : Answer
        The answer.

    Returns
    -------
    bool
        True for a verdict "over" or "too close", or a flag that is more than a note.
    """
    judged = any(verdict.verdict in {"over", "too close"} for verdict in answer.verdicts)
    return judged or any(flag.level != "note" for flag in answer.flags)
