"""What stands beside an answer on cooling: cautions, flags, and the constants that decide it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from counterproof.physics import convection, food_properties, fridge, moving_air
from counterproof.physics.cautions import DEFER
from counterproof.physics.containers import SHALLOW, constants
from counterproof.physics.cooling_changes import STEAMED_OFF, TRAY_AREA, Change, Limit
from counterproof.physics.cooling_lanes import SLOW_END
from counterproof.physics.cooling_question import Cooling
from counterproof.physics.cooling_scene import BATH_SWING, Run
from counterproof.physics.fitting import PRIOR, READING, Fit
from counterproof.physics.flags import Flag, unique
from counterproof.physics.iced_water import SWIRLED
from counterproof.physics.spread import spoken
from counterproof.physics.values import largest, smallest
from counterproof.physics.vessels import LID_LEAK
from counterproof.sourced import Sourced

MEASURE: Final = (
    "This is a model, good to about a third. Measure the thickest part with a clean probe "
    f"thermometer; what has stayed warm too long is thrown away, not reheated. {DEFER}"
)
GLASS: Final = (
    "Hot glass bursts in cold water or on cold stone: about 40 °C of sudden difference is its "
    f"limit. Warm jars first, cool them in air. {DEFER}"
)
CROWDED: Final = (
    "A hot dish warms the fridge and what is in it: stand it apart, covered only loosely until it "
    f"is cold. {DEFER}"
)
_CROWDS: Final = 2.0  # [K] by which a fridge warms before it is worth a caution
_GLASS_SHOCK: Final = Sourced(
    40.0, "K", 0.25, "assumed", "", "soda-lime glass, sudden difference; from memory"
)


def cautions_of(asked: Cooling, cooled: Run) -> tuple[str, ...]:
    """What could hurt someone.

    Parameters
    ----------
    asked : Cooling
        The question.
    cooled : Run
        The modelled cooling.

    Returns
    -------
    tuple of str
        Cautions, each deferring to local codes.
    """
    said = [MEASURE]
    glass = asked.dish.vessel.material == "glass"
    if glass and asked.start - smallest(asked.spot.ambient) > _GLASS_SHOCK.value:
        said.append(GLASS)
    warms = float(cooled.mixed.peak[1]) - largest(asked.spot.ambient)
    if asked.spot.where == "fridge" and warms > _CROWDS:
        said.append(CROWDED)
    return tuple(said)


def constants_of(
    asked: Cooling, fit: Fit | None, passing: Sequence[Change]
) -> tuple[Sourced | str, ...]:
    """What decides an answer: constants and bare ids of sources.

    Parameters
    ----------
    asked : Cooling
        The question.
    fit : Fit or None
        What measuring said.
    passing : sequence of Change
        Changes that pass.

    Returns
    -------
    tuple of Sourced or str
        For `credited`.
    """
    dish, spot = asked.dish, asked.spot
    sized = dish.diameter is not None or dish.depth is not None
    used: list[Sourced | str] = [SLOW_END, *constants(dish.kind, dish.vessel, sized=sized)]
    used += ["choi-okos-1986"] if dish.makeup.get("water", 0.0) < 1.0 else []
    if spot.where == "ice-bath":
        used += [BATH_SWING, "churchill-chu-1975"]
        used += [SWIRLED] if dish.stirred else []
    else:
        used += ["churchill-chu-1975", "mcadams-1954"]
        loose = dish.covered and dish.kind in {"pot", "tray"}
        used += [LID_LEAK] if loose else []
    if spot.where == "fridge":
        used += list(fridge.CONSTANTS) if spot.fridge is not None else [fridge.SWING]
    if spot.speed > 0.0:
        used += [moving_air.ACROSS, moving_air.ALONG]
    if dish.flow == "thick" or not dish.stirred:
        used += [food_properties.CONDUCTIVITY_SPREAD, "carslaw-jaeger-1959"]
    used += [PRIOR, READING] if fit is not None else []
    used += [TRAY_AREA] if any(change.kind == "trays" for change in passing) else []
    return tuple(used)


def flags_of(
    asked: Cooling,
    cooled: Run,
    fit: Fit | None,
    limits: Sequence[Limit],
    passing: Sequence[Change],
) -> tuple[Flag, ...]:
    """What the answer must say about itself.

    Parameters
    ----------
    asked : Cooling
        The question.
    cooled : Run
        The modelled cooling.
    fit : Fit or None
        What measuring said.
    limits : sequence of Limit
        What a change had to keep; none where none was looked for.
    passing : sequence of Change
        Changes that pass.

    Returns
    -------
    tuple of Flag
        Each once.
    """
    dish, spot, pot = asked.dish, asked.spot, asked.dish.vessel
    ambient = spot.ambient
    flags = list(food_properties.validity(asked.start, dish.makeup))
    if spot.where != "ice-bath":
        flags += convection.validity(asked.start, ambient, height=pot.depth, diameter=pot.diameter)
        flags += moving_air.validity(ambient, pot.diameter, spot.speed)
    if dish.kind == "tray" and largest(pot.depth) > SHALLOW.value:
        flags.append(
            Flag(
                "deep-tray",
                f"The tray is {100 * largest(pot.depth):.1f} cm deep; shallow pans are "
                f"{100 * SHALLOW.value:.1f} cm (3 inches) or less.",
            )
        )
    if cooled.conducted is not None and dish.flow == "thin":
        flags.append(
            Flag(
                "between-models",
                "A thin liquid left alone mixes itself in part: the fast end is that of a mixed "
                "liquid, middle and slow end are those of one that does not move. Stirring helps.",
                "note",
            )
        )
    if fit is not None and not fit.agrees:
        flags.append(
            Flag(
                "measured-disagrees",
                "What was measured fits no curve of this vessel and place: check sizes, where the "
                "probe stood and when the clock was started; trust the thermometer.",
            )
        )
    if any(limit.time <= 0.0 for limit in limits):
        flags.append(
            Flag(
                "time-used-up",
                "The time that a rule allows is used up already: what has stayed warm too long is "
                "thrown away, not reheated.",
            )
        )
    elif limits and not passing:
        flags.append(
            Flag(
                "nothing-passes",
                "No single change that was tried passes with its margin: combine smaller, "
                "shallower portions with an ice bath, and measure.",
            )
        )
    divided = any(change.kind != "ice bath" for change in passing)
    if divided and spot.where == "room" and asked.start > STEAMED_OFF.value:
        slowest = float(cooled.until_each((STEAMED_OFF.value,))[0, 2])
        flags.append(
            Flag(
                "standing-first",
                f"Standing to 60 °C may take {spoken(slowest)} here; home advice is to have food "
                "in the fridge within 2 hours.",
                "note",
            )
        )
    return unique(flags)
