"""Questions of drinks as they are made: carbonate, steep."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.errors import InputError
from counterproof.kitchen_questions.amounts import Amount
from counterproof.kitchen_questions.around import Around, mass_of_water
from counterproof.physics import questions_carbonate, questions_steep
from counterproof.physics.answer import Answer
from counterproof.physics.charging import Bottle
from counterproof.physics.fizz_scene import Machine, Pressure
from counterproof.physics.serving import Serving
from counterproof.physics.steeping import Flavouring, Piece
from counterproof.sourced import Sourced

FREE: Final = Sourced(
    0.1, "1", 0.5, "assumed", "", "share of a bottle left free above its line; common practice"
)


@dataclass(frozen=True, slots=True)
class Fizz:
    """What is carbonated and with what, as a person says it.

    Parameters
    ----------
    temperature : float or None
        Of the water. [K]
    gauge, absolute, partial : float or None
        The pressure, at most one of them. [Pa]
    water : Amount or None
        Water in the bottle.
    bottle : float or None
        Brimful volume of the bottle. [m³]
    purges, pulses : int or None
        How often air is let out first; pulses or shakes. [1]
    cylinder : float or None
        Gas in the full cylinder. [kg]
    cylinder_volume : float or None
        Its inner volume. [m³]
    closed_room : float or None
        Volume of the room it might leak into. [m³]
    """

    temperature: float | None = None
    gauge: float | None = None
    absolute: float | None = None
    partial: float | None = None
    water: Amount | None = None
    bottle: float | None = None
    purges: int | None = None
    pulses: int | None = None
    cylinder: float | None = None
    cylinder_volume: float | None = None
    closed_room: float | None = None

    def pressure(self, altitude: float) -> Pressure | None:
        """Return the pressure, or None where none is given.

        Parameters
        ----------
        altitude : float
            Height above the sea. [m]

        Returns
        -------
        Pressure or None
            As given.
        """
        if self.gauge is None and self.absolute is None and self.partial is None:
            return None
        return Pressure(self.gauge, self.absolute, self.partial, altitude)

    def machine(self, temperature: float) -> Machine:
        """Return bottle, habit and cylinder.

        Parameters
        ----------
        temperature : float
            Of the water. [K]

        Returns
        -------
        Machine
            A bottle with a tenth free, where only the water is given.
        """
        bottle = None
        if self.water is not None or self.bottle is not None:
            density = mass_of_water(Amount(volume=1.0), temperature)
            if self.water is not None:
                water = mass_of_water(self.water, temperature) / density
            else:
                water = (1.0 - FREE.value) * (self.bottle or 0.0)
            bottle = Bottle(self.bottle or water / (1.0 - FREE.value), water)
        return Machine(
            bottle, self.purges, self.pulses, self.cylinder, self.cylinder_volume, self.closed_room
        )


def carbonate(
    fizz: Fizz,
    around: Around,
    *,
    want: float | None = None,
    in_glass: bool = False,
    serving: Serving | None = None,
) -> Answer:
    """Carbonate water, or find what gives a wanted fizz.

    Parameters
    ----------
    fizz : Fizz
        Water, pressure, machine.
    around : Around
        The kitchen.
    want : float or None
        Carbon dioxide wanted; then pressure or temperature is the answer. [kg/m³]
    in_glass : bool
        Whether it is wanted in the glass, after pouring.
    serving : Serving or None
        What happens until it is drunk.

    Returns
    -------
    Answer
        Strength by every measure, or what gives it.

    Raises
    ------
    InputError
        If neither a pressure nor a wanted strength is given.
    """
    pressure = fizz.pressure(around.kitchen.altitude_m)
    known = "tap_alkalinity" in around.kitchen.stated
    alkalinity = sum(around.kitchen.tap_alkalinity) / 2.0 if known else None
    if want is not None:
        served = (serving or Serving()) if in_glass else None
        temperature = fizz.temperature
        if temperature is None and pressure is None:
            temperature = around.fridge
        return questions_carbonate.carbonate_for(
            want,
            temperature=temperature,
            pressure=pressure,
            altitude=around.kitchen.altitude_m,
            alkalinity=alkalinity,
            serving=served,
            take=around.take,
        )
    if pressure is None:
        raise InputError(
            "No pressure is given.",
            remedy="Say which: --gauge 3bar (above the air), --absolute 4bar (total) or --partial "
            "4bar (of the gas alone); or what is wanted: --want 6g/L.",
        )
    temperature = around.fridge if fizz.temperature is None else fizz.temperature
    return questions_carbonate.carbonate(
        temperature,
        pressure,
        machine=fizz.machine(temperature),
        alkalinity=alkalinity,
        serving=serving,
        warm=around.place.room,
        take=around.take,
    )


@dataclass(frozen=True, slots=True)
class Steeped:
    """What is steeped, and in how much.

    Parameters
    ----------
    piece : Piece
        Shape and size.
    extract : str
        root or leaf.
    liquid, pieces : float or None
        Volumes of liquid and of pieces; None for plenty of liquid. [m³]
    """

    piece: Piece
    extract: str = "root"
    liquid: float | None = None
    pieces: float | None = None

    @property
    def ratio(self) -> float | None:
        """Liquid over pieces, by volume; None for plenty. [1]"""
        if (self.liquid is None) != (self.pieces is None):
            raise InputError(
                "The liquid counts against the pieces.",
                remedy="Give both --water 500ml and --pieces 100ml, or neither.",
            )
        return self.liquid / self.pieces if self.liquid is not None and self.pieces else None


def steep(
    steeped: Steeped,
    around: Around,
    time: float,
    temperature: float,
    *,
    want: float | None = None,
    flavouring: Flavouring | None = None,
) -> Answer:
    """Draw something out of pieces.

    Parameters
    ----------
    steeped : Steeped
        What is steeped.
    around : Around
        The kitchen.
    time : float
        How long. [s]
    temperature : float
        Of the liquid. [K]
    want : float or None
        Share wanted: then its time is part of the answer. [1]
    flavouring : Flavouring or None
        Bottle and dose.

    Returns
    -------
    Answer
        Share drawn out, and what finer, longer, hotter buys.

    Raises
    ------
    InputError
        If only one of the two volumes is given.
    """
    return questions_steep.steep(
        steeped.piece,
        time,
        temperature,
        extract=steeped.extract,
        liquid=steeped.ratio,
        wanted=want,
        flavouring=flavouring,
        take=around.take,
    )


def flavouring(bottle: float | None, dose: float | None, drink: float) -> Flavouring | None:
    """A strong extract used by the spoon.

    Parameters
    ----------
    bottle, dose : float or None
        Volume in the bottle, and used at a time. [m³]
    drink : float
        Drink that a dose flavours. [m³]

    Returns
    -------
    Flavouring or None
        None where neither bottle nor dose is given.

    Raises
    ------
    InputError
        If only one of the two is given.
    """
    if bottle is None and dose is None:
        return None
    if bottle is None or dose is None:
        raise InputError(
            "A bottle lasts by the dose.", remedy="Give both --bottle 60ml and --dose 5ml."
        )
    return Flavouring(bottle, dose, drink)
