"""The quantities of a kitchen answer line by line, its stages, and what would make it pass."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from counterproof.physics.answer import Answer
from counterproof.press.kitchen_quantities import quantity
from counterproof.press.plain_text import printable

_LABELS: Final[Mapping[str, str]] = {
    "water_kg": "water",
    "food_kg": "weight of the food",
    "pot_kg": "the empty pot",
    "ice_celsius": "the ice at",
    "room_celsius": "the room",
    "ambient_celsius": "there",
    "altitude_m": "above the sea",
    "time_s": "time",
    "useful_j": "heat that counts",
    "input_j": "energy bought",
    "evaporated_kg": "evaporated",
    "power_w": "power",
    "into_pot_j": "into the pot",
    "into_pot_w": "into the pot",
    "vessel_j": "into the vessel",
    "dry_loss_j": "lost without steam",
    "dry_loss_w": "lost without steam",
    "latent_loss_j": "lost as steam",
    "boil_celsius": "the boil",
    "evaporation_kg_per_h": "evaporates",
    "share_of_full_power": "of full power",
    "celsius": "temperature",
    "warming_j": "to heat the pan",
    "lost_j": "lost",
    "preheat_s": "preheating",
    "preheat_j": "preheating",
    "hold_j": "keeping hot",
    "load_j": "into food and dish",
    "hold_w": "keeping hot",
    "body_j": "into the kettle",
    "loss_j": "lost",
    "overrun_j": "after the boil",
    "dish_j": "into the dish",
    "oven_loss_j": "lost in the oven",
    "danger_zone_s": "between 57 and 5 °C",
    "heat_j": "heat",
    "ice_kg": "ice",
    "fridge_peak_celsius": "fridge, at most",
    "expansion_share": "swells by",
    "headspace_ml": "room to leave",
    "headspace_mm": "below the rim",
    "headspace_rule": "by",
    "fill_to_ml": "fill to",
    "contents_kg": "contents",
    "heat_removed_j": "heat taken out",
    "freezing_celsius": "begins to freeze",
    "largest_ml": "largest vessel",
    "start_before_s": "time to allow",
    "share_in_time": "in time",
    "co2_g_per_l": "carbon dioxide",
    "volumes": "volumes",
    "volumes_at_sixty_fahrenheit": "volumes at 60 °F",
    "volumes_ideal_gas": "volumes, ideal gas",
    "carbonic_acid_g_per_l": "of it as acid",
    "equilibrium_g_per_l": "in the end",
    "partial_bar": "of the gas alone",
    "absolute_bar": "in all",
    "gauge_bar": "on the gauge",
    "air_left_bar": "air left",
    "gas_used_g": "gas used",
    "gas_dissolved_g": "into the water",
    "gas_head_g": "into the head space",
    "gas_purged_g": "let out with the air",
    "gas_passed_g": "past the valve",
    "cylinder_bar": "in the cylinder",
    "cylinder_liquid_share": "of it liquid",
    "cylinder_full_of_liquid_celsius": "full of liquid from",
    "room_added_ppm": "a leak adds",
    "specific_gravity": "specific gravity",
    "ph": "pH",
    "kept_share": "kept in pouring",
    "in_glass_g_per_l": "in the glass",
    "cold_over_room_share": "4 °C over 20 °C",
    "uptake_share": "taken up",
    "litres_per_cylinder": "a cylinder gives",
    "room_needed_m3": "room it needs",
    "room_bears_g": "room bears",
    "extracted_share": "drawn out",
    "gain_twice_as_long": "twice as long",
    "gain_10_k_hotter": "10 °C hotter",
    "gain_half_the_size": "half the size",
    "time_for_wanted_s": "time for the share",
    "flavours_l": "the bottle makes",
    "cylinder_state": "the cylinder holds",
    "dilution_share": "diluted by",
    "brix": "°Brix",
    "density_kg_per_l": "density",
    "acid_g_per_l": "acid, as citric",
    "alcohol_vol_share": "alcohol by volume",
    "mass_kg": "weight",
    "volume_ml": "volume",
    "sugar_g_per_l": "sugar",
    "sugar_acid_ratio": "sugar to acid",
    "co2_volumes": "volumes",
    "contraction_share": "shrinks by",
    "ice_melted_g": "ice melted",
    "ice_left_g": "ice left",
    "fizz_last_g_per_l": "fizz added last",
    "stirred_after_g_per_l": "stirred after it",
    "order_gain_share": "last over stirred",
    "open_glass_holds_g_per_l": "an open glass holds",
}
_TIMES: Final = frozenset(
    {"gain_twice_as_long", "gain_10_k_hotter", "gain_half_the_size", "cold_over_room_share",
     "order_gain_share"}
)  # fmt: skip
"""Quantities that are so many times another."""
_SHARES: Final = frozenset({"share_of_full_power", "share_in_time"})
_INNER: Final = frozenset(
    {"interpolant_error_share", "solver_runs", "planned", "co2_mole_fraction"}
)
"""How it was computed; in JSON, not in print."""


def lines(answer: Answer, middle: str = "mean") -> list[tuple[str, str]]:
    """The quantities of an answer, one a line.

    Parameters
    ----------
    answer : Answer
        The answer.
    middle : str
        "mean" or "median": which value stands in the middle.

    Returns
    -------
    list of (str, str)
        Label and value, in the order of the result.
    """
    made: list[tuple[str, str]] = []
    if answer.process == "cool":
        middle = "median"  # of its three ends the verdicts speak, and the middle one is drawn
    for key, value in answer.result.items():
        if key in _INNER or value is None or (answer.process == "mix" and _is_none(value)):
            continue
        if key in _SPECIAL:
            made += _SPECIAL[key](value, middle)
        elif isinstance(value, str) and key not in _LABELS:
            continue
        elif not isinstance(value, Mapping | list | tuple):
            made.append((label(key), told(key, value, middle)))
        elif isinstance(value, Mapping) and "p05" in value:
            made.append((label(key), quantity(key, value, middle)))
    return made


def _is_none(value: Any) -> bool:
    """Whether nothing of it is in the drink: no ice, no alcohol, no gas."""
    return isinstance(value, float) and value == 0.0


def told(key: str, value: Any, middle: str = "mean") -> str:
    """A quantity of an answer, or of what it was asked with, in print.

    Parameters
    ----------
    key : str
        Its key; it ends in its unit.
    value : object
        A number, a range or words.
    middle : str
        "mean" or "median": which value stands in the middle.

    Returns
    -------
    str
        With its unit.
    """
    if key in _TIMES:
        return f"{quantity('', value, middle)} times"
    return quantity("of_share" if key in _SHARES else key, value, middle)


def label(key: str) -> str:
    """What a key is called in print.

    Parameters
    ----------
    key : str
        Of a result.

    Returns
    -------
    str
        In a cook's words; the key without its unit where none are kept.
    """
    known = _LABELS.get(key)
    if known is not None:
        return known
    words = key.rpartition("_")[0] if "_" in key else key
    return words.replace("_", " ")


def _spans(spans: Any, middle: str) -> list[tuple[str, str]]:
    seen = {}
    for span in spans:
        ends = f"{_degrees(span['from_celsius'])} to {_degrees(span['to_celsius'])}"
        seen[ends] = quantity("span_s", span["seconds"], middle)
    return list(seen.items())


def _degrees(celsius: float) -> str:
    return quantity("at_celsius", celsius)


def _beside(value: Any, middle: str) -> list[tuple[str, str]]:
    names = {"plank_s": "by Plank's formula", "pham_s": "by Pham's formula"}
    return [
        (names.get(key, key), quantity(key, time, middle))
        for key, time in value.items()
        if time is not None
    ]


def _sweet(value: Any, middle: str) -> list[tuple[str, str]]:
    low, high = (quantity("sweet_g_per_l", value[key], middle) for key in value)
    return [("as sweet as", low if low == high else f"{low} to {high}")] if low else []


def _by_size(value: Any, middle: str) -> list[tuple[str, str]]:
    return [
        (f"cut to {size.replace('_', ' ')}", f"{quantity('', gain, middle)} times")
        for size, gain in value.items()
    ]


def _before(value: Any, middle: str) -> list[tuple[str, str]]:
    warm, sweet = (quantity(key, value[key], middle) for key in ("celsius", "brix"))
    return [("before the ice", f"{warm}, {sweet} °Brix")]


def _parts(value: Any, middle: str) -> list[tuple[str, str]]:
    return [(name, quantity("part_g", amount, middle)) for name, amount in value.items()]


_SPECIAL: Final[Mapping[str, Callable[[Any, str], list[tuple[str, str]]]]] = {
    "spans": _spans,
    "beside": _beside,
    "sweetness": _sweet,
    "gain_by_size": _by_size,
    "before_ice": _before,
    "parts_g": _parts,
}


def staged(answer: Answer) -> list[str]:
    """The plan in stages, where there is one of more than one stage.

    Parameters
    ----------
    answer : Answer
        The answer.

    Returns
    -------
    list of str
        One sentence a stage.
    """
    plan = answer.result.get("plan") or ()
    if len(plan) < 2:
        return []
    return [
        f"{stage['where']}: {_degrees(stage['from_celsius'])} to {_degrees(stage['to_celsius'])}, "
        f"{quantity('time_s', stage['time_s'])}"
        for stage in plan
    ]


def passing(answer: Answer) -> list[str]:
    """What would make the answer pass, or the advice it gives.

    Parameters
    ----------
    answer : Answer
        The answer.

    Returns
    -------
    list of str
        One sentence each.
    """
    said = [change["says"] for change in answer.result.get("would_pass") or ()]
    order = answer.result.get("order")
    return [*said, *([order] if isinstance(order, str) else [])]


def sentence(said: str) -> str:
    """Words as a sentence.

    Parameters
    ----------
    said : str
        Words.

    Returns
    -------
    str
        With a capital and a full stop, fit to be printed.
    """
    words = printable(said)
    words = f"{words[:1].upper()}{words[1:]}"
    return words if words.endswith((".", "!", "?")) else f"{words}."


def assumption(said: str) -> str:
    """What is assumed before its number: nobody reads a bare 0.55.

    Parameters
    ----------
    said : str
        As an answer tells it: the number, then the reason.

    Returns
    -------
    str
        The reason, then the number.
    """
    number, colon, reason = said.removeprefix("assumed ").partition(": ")
    if not colon:
        return sentence(said)
    return sentence(f"{reason.rstrip('.')} ({number.removesuffix(' ± 0%')})")
