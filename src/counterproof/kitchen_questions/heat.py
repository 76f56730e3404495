"""Questions of heat: heat, simmer, fry, bake, kettle, microwave."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.errors import InputError
from counterproof.kitchen_physics import fitting_pot
from counterproof.kitchen_questions.amounts import Amount
from counterproof.kitchen_questions.around import Around, Load, mass_of_water
from counterproof.physics import questions_dry_heat, questions_heat, questions_plugged
from counterproof.physics.answer import Answer
from counterproof.physics.heating import Contents
from counterproof.physics.places import Ring
from counterproof.physics.questions_dry_heat import Cavity
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.sourced import Sourced

SPOONFUL: Final = Sourced(
    0.015, "kg", 0.3, "assumed", "", "fat in a frying pan where none is named: a good tablespoon"
)
_NOTHING: Final = "Give --water 1L, or a food with its weight: --food potatoes --mass 1kg."
_MEASURED_AT: Final = ZERO_CELSIUS + 20.0


@dataclass(frozen=True, slots=True)
class Setting:
    """The ring and the pot on it, as far as the person says; the rest is the kitchen's.

    Parameters
    ----------
    appliance : str or None
        gas, solid plate, ceramic or induction. None for the kitchen's hob.
    power : float or None
        Energy it takes per second. [W]
    covered : bool
        Whether a lid is on.
    diameter : float or None
        Inner diameter of the pot. [m]
    """

    appliance: str | None = None
    power: float | None = None
    covered: bool = True
    diameter: float | None = None

    def ring(self, around: Around, contents: Contents | None) -> Ring:
        """Return the ring with a pot that fits.

        Parameters
        ----------
        around : Around
            The kitchen.
        contents : Contents or None
            What goes into the pot; None for a pan.

        Returns
        -------
        Ring
            The cook's own pot where the kitchen names one that holds it.
        """
        kitchen = around.kitchen
        power = self.power
        if power is None and self.appliance is None and "hob_watts" in kitchen.stated:
            power = kitchen.hob_watts
        pot = None
        if contents is not None and self.diameter is None:
            pot = fitting_pot(kitchen, 1e3 * float(contents.volume(_MEASURED_AT)))
        return Ring(
            (self.appliance or kitchen.hob).replace("-", " "),
            power,
            self.covered,
            self.diameter if pot is None else pot.diameter_m,
            None if pot is None else pot.empty_kg,
        )


def _loaded(load: Load, what: str) -> None:
    if load.water is None and load.food is None and load.mass is None:
        raise InputError(f"What is to be {what} is not said.", remedy=_NOTHING)


def heat(
    load: Load,
    around: Around,
    setting: Setting,
    *,
    start: float | None = None,
    end: float | None = None,
    time: float | None = None,
) -> Answer:
    """Heat something up on a hob.

    Parameters
    ----------
    load : Load
        Water, food.
    around : Around
        The kitchen.
    setting : Setting
        Ring and pot.
    start : float or None
        Temperature at the start; None for that of the tap. [K]
    end : float or None
        Temperature wanted; None for the boil. [K]
    time : float or None
        Time it may take: then the power is the answer. [s]

    Returns
    -------
    Answer
        Time, energy, what evaporates.

    Raises
    ------
    InputError
        If nothing is to be heated.
    """
    _loaded(load, "heated")
    begins = around.tap if start is None else start
    end = around.at_most_the_boil(end)
    contents, what = load.read(around, begins)
    ring = setting.ring(around, contents)
    answer = questions_heat.heat(
        contents, begins, end, ring=ring, place=around.place, time=time, take=around.take
    )
    return what.told(answer)


def simmer(
    load: Load,
    around: Around,
    setting: Setting,
    *,
    time: float | None = None,
    boil_off: Amount | None = None,
    temperature: float | None = None,
    hard: bool = False,
) -> Answer:
    """Keep a pot simmering, or boil it down.

    Parameters
    ----------
    load : Load
        Water, food.
    around : Around
        The kitchen.
    setting : Setting
        Ring and pot.
    time : float or None
        How long. [s]
    boil_off : Amount or None
        Water that is to leave: then the time is the answer.
    temperature : float or None
        Kept temperature; None for just below the boil. [K]
    hard : bool
        Whether the ring stays at its power.

    Returns
    -------
    Answer
        Energy, what evaporates, the power it takes.

    Raises
    ------
    InputError
        If nothing simmers.
    """
    _loaded(load, "simmered")
    contents, what = load.read(around, _MEASURED_AT)
    answer = questions_heat.simmer(
        contents,
        time,
        boil_off=None if boil_off is None else mass_of_water(boil_off, _MEASURED_AT),
        temperature=temperature,
        hard=hard,
        ring=setting.ring(around, contents),
        place=around.place,
        take=around.take,
    )
    return what.told(answer)


def fry(
    load: Load,
    around: Around,
    setting: Setting,
    time: float,
    *,
    fat: float | None = None,
    deep: bool = False,
    start: float | None = None,
) -> Answer:
    """Fry something in a pan or in deep fat.

    Parameters
    ----------
    load : Load
        Food.
    around : Around
        The kitchen.
    setting : Setting
        Ring and pan.
    time : float
        Frying time. [s]
    fat : float or None
        Fat; None for a spoonful in a pan. [kg]
    deep : bool
        Whether it swims in fat.
    start : float or None
        Temperature of the food; None for that of the fridge. [K]

    Returns
    -------
    Answer
        Energy, what evaporates, preheating.

    Raises
    ------
    InputError
        If nothing is to be fried, or deep in nobody knows how much fat.
    """
    _loaded(load, "fried")
    begins = around.fridge if start is None else start
    if deep and fat is None:
        raise InputError(
            "How much fat is in the pot is not said.", remedy="Give its weight: --fat 1kg."
        )
    contents, what = load.read(around, begins)
    answer = questions_dry_heat.fry(
        contents,
        time,
        fat=SPOONFUL.value if fat is None else fat,
        deep=deep,
        start=begins,
        ring=setting.ring(around, None),
        place=around.place,
        take=around.take,
    )
    return what.told(answer)


def bake(
    load: Load,
    around: Around,
    temperature: float,
    time: float,
    *,
    cavity: Cavity | None = None,
    start: float | None = None,
) -> Answer:
    """Preheat an oven and bake.

    Parameters
    ----------
    load : Load
        What is baked; nothing for the empty oven.
    around : Around
        The kitchen.
    temperature : float
        Oven temperature. [K]
    time : float
        Baking time after preheating. [s]
    cavity : Cavity or None
        The oven; None for the kitchen's.
    start : float or None
        Temperature of the food; None for that of the room. [K]

    Returns
    -------
    Answer
        Energy and its parts.
    """
    begins = around.place.room if start is None else start
    contents, what = load.read(around, begins)
    answer = questions_dry_heat.bake(
        temperature,
        time,
        contents if contents.mass else None,
        start=begins,
        cavity=cavity or Cavity(around.kitchen.oven),
        place=around.place,
        take=around.take,
    )
    return what.told(answer) if contents.mass else answer


def kettle(
    water: Amount,
    around: Around,
    *,
    start: float | None = None,
    end: float | None = None,
    power: float | None = None,
) -> Answer:
    """Boil water in an electric kettle.

    Parameters
    ----------
    water : Amount
        How much.
    around : Around
        The kitchen.
    start : float or None
        Temperature of the water; None for that of the tap. [K]
    end : float or None
        Temperature wanted; None for the boil. [K]
    power : float or None
        Of the kettle. [W]

    Returns
    -------
    Answer
        Time, energy, where the rest goes.
    """
    begins = around.tap if start is None else start
    end = around.at_most_the_boil(end)
    return questions_plugged.boil_kettle(
        mass_of_water(water, begins), begins, end, power=power, place=around.place, take=around.take
    )


def microwave(
    load: Load,
    around: Around,
    end: float,
    *,
    start: float | None = None,
    power: float | None = None,
) -> Answer:
    """Heat something in a microwave oven.

    Parameters
    ----------
    load : Load
        Water, food.
    around : Around
        The kitchen.
    end : float
        Mean temperature wanted. [K]
    start : float or None
        Temperature at the start; None for that of the fridge. [K]
    power : float or None
        Rated output. [W]

    Returns
    -------
    Answer
        Time, energy.

    Raises
    ------
    InputError
        If nothing is to be heated.
    """
    _loaded(load, "heated")
    begins = around.fridge if start is None else start
    wanted = around.at_most_the_boil(end) or around.place.boil
    contents, what = load.read(around, begins)
    answer = questions_plugged.microwave_food(
        contents, begins, wanted, output=power, place=around.place, take=around.take
    )
    return what.told(answer)
