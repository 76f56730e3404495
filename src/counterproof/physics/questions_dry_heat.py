"""Questions of dry heat: fry, bake."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, frying, hob, oven, vessels, water
from counterproof.physics.answer import Answer, credited
from counterproof.physics.cautions import CORE, HOT_FAT
from counterproof.physics.flags import refuse_unless_positive, unique
from counterproof.physics.heating import Contents, start_remarks
from counterproof.physics.places import LAWS, Place, Ring, leaks, with_spread
from counterproof.physics.values import (
    ZERO_CELSIUS,
    Draws,
    Take,
    largest,
    middle,
    smallest,
    taken_share,
)
from counterproof.sourced import Sourced

BAKED_CORE: Final = Sourced(
    368.15, "K", 0.015, "assumed", "", "mean end temperature of baked food, 95 °C; roasts less"
)
DISH: Final = Sourced(
    1.0, "kg", 0.5, "assumed", "", "a baking dish or tin, glass or earthenware 850 J/(kg K)"
)
_DISH_HEAT: Final = vessels.MATERIAL_HEAT["glass"]


def fry(
    contents: Contents,
    time: float | Draws,
    *,
    fat: float = 0.015,
    deep: bool = False,
    start: float = 281.15,
    ring: Ring | None = None,
    place: Place | None = None,
    take: Take = middle,
) -> Answer:
    """What frying takes: in a pan, or in a pot of deep fat.

    Parameters
    ----------
    contents : Contents
        The food; water of its own on top makes no sense in a pan and is refused.
    time : float or (n,) array
        Frying time. [s]
    fat : float
        Fat in the pan, or in the pot if `deep`. [kg]
    deep : bool
        Whether it swims in fat.
    start : float
        Temperature of the food. [K]
    ring : Ring or None
        Hob and pan; None for the defaults.
    place : Place or None
        The kitchen; None for the defaults.
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `useful_j`, `input_j`, `evaporated_kg`, power while frying and the pan's preheating.

    Raises
    ------
    OutOfRange
        If there is no food, no time, or too little fat to fry deep in.
    """
    ring, place = ring or Ring(), place or Place()
    refuse_unless_positive("The power", ring.power)
    refuse_unless_positive("The fat", fat, zero=True)
    if not smallest(contents.food) > 0.0 or largest(contents.water) > 0.0:
        raise OutOfRange(
            "Frying is for food, not for water.", remedy="Give a mass of food and no water."
        )
    makeup = contents.makeup
    if deep and fat < 0.3:
        raise OutOfRange(
            f"{1000 * fat:.0f} g of fat is not deep.", remedy="Give 300 g or more, or fry in a pan."
        )
    heat_of = frying.FAT_TEMPERATURE if deep else frying.PAN_TEMPERATURE
    temperature = take("fat temperature" if deep else "pan temperature", heat_of)
    asked = frying.Frying(
        _pan(ring, fat, take, deep=deep), fat, temperature, place.air, leaks(take)
    )
    portion = frying.Portion(
        with_spread(contents, take),
        start,
        frying.CORE.value,
        makeup.get("water", 0.0) * taken_share(take, "fried off", frying.FRIED_OFF),
    )
    done = frying.fried(asked, portion, time)
    efficiency, full = ring.efficiency(take), ring.full(take)
    bought = done.delivered / efficiency
    sources, assumed = credited(
        *LAWS, "choi-okos-1986", hob.efficiency_of(ring.kind), heat_of, frying.FRIED_OFF,
        frying.CORE, *(() if deep else (frying.PAN_MASS, frying.PAN_DIAMETER)),
    )  # fmt: skip
    return Answer(
        process="fry",
        inputs={"food_kg": contents.food, "fat_kg": fat, "deep": deep, "time_s": time,
                "from_celsius": start - ZERO_CELSIUS, **ring.inputs(asked.pan), **place.inputs()},
        result={
            "useful_j": done.useful,
            "input_j": bought,
            "evaporated_kg": done.evaporated,
            "warming_j": done.warming,
            "lost_j": done.lost,
            "power_w": done.mean_power / efficiency,
            "preheat_s": done.warming / (full * efficiency),
            "celsius": temperature - ZERO_CELSIUS,
        },
        cautions=(HOT_FAT, CORE),
        sources=sources,
        assumed=assumed,
        flags=unique((*frying.remarks(temperature, done.mean_power, full * efficiency),
                      *start_remarks(contents, start))),
    )  # fmt: skip


def _pan(ring: Ring, fat: float, take: Take, *, deep: bool) -> vessels.Pot:
    if deep:
        volume = fat / float(food_properties.density(frying.OIL, 443.15))
        return vessels.pot_for(volume, diameter=ring.diameter, mass=ring.pot_mass, covered=False)
    diameter = frying.PAN_DIAMETER.value if ring.diameter is None else ring.diameter
    mass = take("pan|mass", frying.PAN_MASS) if ring.pot_mass is None else ring.pot_mass
    return vessels.Pot(diameter, 0.04, mass, ring.material, covered=False)


@dataclass(frozen=True, slots=True)
class Cavity:
    """The oven a dish is baked in.

    Parameters
    ----------
    kind : str
        fan, conventional or gas.
    power : float or (n,) array or None
        What it takes while it heats; None for a common one. [W]
    share : float
        This dish's share of preheating and holding, above 0 to 1. [1]
    """

    kind: str = "fan"
    power: float | Draws | None = None
    share: float = 1.0

    def oven(self, place: Place, take: Take) -> oven.Oven:
        """Return the oven with what is uncertain about it.

        Parameters
        ----------
        place : Place
            The kitchen.
        take : Take
            Where draws come from.

        Returns
        -------
        Oven
            The oven.

        Raises
        ------
        OutOfRange
            If the kind is unknown.
        """
        if self.kind not in oven.POWER:
            raise OutOfRange(
                f"“{self.kind}” is not a kind of oven known here.",
                remedy=f"Kinds are: {', '.join(oven.POWER)}.",
            )
        power = self.power
        if power is None:
            power = take(f"oven power|{self.kind}", oven.POWER[self.kind])
        into = taken_share(take, f"oven|{self.kind}", oven.INTO_OVEN[self.kind])
        holding = taken_share(take, f"oven holding|{self.kind}", oven.HOLDING[self.kind])
        return oven.Oven(
            body=take("oven|body", oven.BODY),
            loss=oven.loss_of(holding, power, into),
            power=power,
            into=into,
            room=place.room,
        )


def bake(
    temperature: float | Draws,
    time: float | Draws,
    contents: Contents | None = None,
    *,
    start: float = 293.15,
    cavity: Cavity | None = None,
    place: Place | None = None,
    take: Take = middle,
) -> Answer:
    """What an oven takes to preheat and to bake.

    Parameters
    ----------
    temperature : float or (n,) array
        Oven temperature. [K]
    time : float or (n,) array
        Baking time after preheating. [s]
    contents : Contents or None
        What is baked; None for the empty oven.
    start : float
        Temperature of food and dish. [K]
    cavity : Cavity or None
        The oven and the dish's share of it; None for the defaults.
    place : Place or None
        The kitchen; None for the defaults.
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `input_j` and its parts, `useful_j` (heat in the food, steam included),
        `evaporated_kg`, `preheat_s`.

    Raises
    ------
    OutOfRange
        If the oven never gets that hot, or a time or share makes no sense.
    """
    cavity, place = cavity or Cavity(), place or Place()
    refuse_unless_positive("The power", cavity.power)
    if contents is not None:
        refuse_unless_positive("The water", contents.water, zero=True)
        refuse_unless_positive("The food", contents.food, zero=True)
    hot = cavity.oven(place, take)
    useful: float | Draws = 0.0
    steam: float | Draws = 0.0
    dish: float | Draws = 0.0
    if contents is not None and largest(contents.mass) > 0.0:
        contents = with_spread(contents, take)
        core = BAKED_CORE.value
        steam = contents.moisture * taken_share(take, "baked off", oven.DRIED_OUT)
        useful = contents.heat(start, core) + steam * water.latent_heat(core)
        dish = take("baking dish", DISH) * _DISH_HEAT.value * (temperature - start)
    done = oven.bake(hot, temperature, time, useful + dish, cavity.share)
    load = () if contents is None else (oven.DRIED_OUT, BAKED_CORE, DISH, "choi-okos-1986")
    own = () if cavity.power is not None else (oven.POWER[cavity.kind],)
    sources, assumed = credited(
        oven.BODY, oven.HOLDING[cavity.kind], oven.INTO_OVEN[cavity.kind], *own, *load
    )
    return Answer(
        process="bake",
        inputs={
            "oven": cavity.kind,
            "celsius": temperature - ZERO_CELSIUS,
            "time_s": time,
            "power_w": oven.POWER[cavity.kind].value if cavity.power is None else cavity.power,
            "share": cavity.share,
            "contents_kg": 0.0 if contents is None else contents.mass,
            "from_celsius": start - ZERO_CELSIUS,
            **place.inputs(),
        },
        result={
            "input_j": done.bought,
            "useful_j": useful,
            "evaporated_kg": steam,
            "preheat_s": done.preheat_time,
            "preheat_j": done.preheat,
            "hold_j": done.hold,
            "load_j": done.load,
            "hold_w": oven.hold(hot, temperature),
        },
        cautions=(CORE,),
        sources=sources,
        assumed=assumed,
        flags=(
            *oven.validity(temperature),
            *(() if contents is None else start_remarks(contents, start)),
        ),
    )
