"""A kitchen answer in one sentence, each kind of question in its own words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from counterproof.physics.answer import Answer
from counterproof.press.kitchen_quantities import as_range, quantity

_RULINGS: Final = {
    "over": "that is over the limit",
    "too close": "too close to the limit to call",
    "within": "within the limit",
    "no rule": "no rule was found",
}


def headline(answer: Answer, middle: str = "mean") -> str:
    """The answer in one sentence.

    Parameters
    ----------
    answer : Answer
        The answer.
    middle : str
        "mean" or "median": which value stands in the middle.

    Returns
    -------
    str
        With its full stop.
    """

    def result(key: str) -> str:
        return quantity(key, answer.result[key], middle)

    def given(key: str) -> str:
        return quantity(key, answer.inputs[key], middle)

    words = _SENTENCES[answer.process](answer, result, given)
    return f"{words[:1].upper()}{words[1:]}."


def _what(answer: Answer, given: Callable[[str], str]) -> str:
    parts = []
    if as_range(answer.inputs.get("water_kg")) and answer.inputs["water_kg"]:
        parts.append(f"{given('water_kg')} of water")
    if answer.inputs.get("food_kg"):
        parts.append(f"{given('food_kg')} of {answer.inputs.get('food', 'food')}")
    return " and ".join(parts)


_Say = Callable[[str], str]


def _heat(answer: Answer, result: _Say, given: _Say) -> str:
    span = f"{_what(answer, given)} from {given('from_celsius')} to {given('to_celsius')}"
    named = given("appliance")
    on = f"{'an' if named[:1] in 'aeiou' else 'a'} {named}"
    if answer.inputs.get("wanted_time_s"):
        return f"heating {span} in {given('wanted_time_s')} takes {result('power_w')} of {on}"
    return f"{span} takes {result('time_s')} and {result('input_j')} on {on}"


def _simmer(answer: Answer, result: _Say, given: _Say) -> str:
    kept = "boiling" if answer.inputs.get("hard") else "simmering"
    if answer.inputs.get("boil_off_kg"):
        return (
            f"{given('boil_off_kg')} boil off in {result('time_s')} of {kept}, for "
            f"{result('input_j')}"
        )
    return (
        f"{kept} {_what(answer, given)} for {result('time_s')} takes {result('input_j')}; "
        f"{result('evaporated_kg')} evaporates"
    )


def _fry(answer: Answer, result: _Say, given: _Say) -> str:
    return (
        f"frying {_what(answer, given)} for {given('time_s')} takes {result('input_j')}; "
        f"{result('evaporated_kg')} of water leaves"
    )


def _bake(_: Answer, result: _Say, given: _Say) -> str:
    return (
        f"baking at {given('celsius')} for {given('time_s')} takes {result('input_j')}, "
        f"{result('preheat_j')} of it to preheat for {result('preheat_s')}"
    )


def _kettle(answer: Answer, result: _Say, given: _Say) -> str:
    return (
        f"the kettle takes {result('time_s')} and {result('input_j')} for {_what(answer, given)} "
        f"from {given('from_celsius')} to {given('to_celsius')}"
    )


def _microwave(answer: Answer, result: _Say, given: _Say) -> str:
    return (
        f"the microwave oven takes {result('time_s')} and {result('input_j')} for "
        f"{_what(answer, given)} from {given('from_celsius')} to {given('to_celsius')}"
    )


def _cool(answer: Answer, *_: _Say) -> str:
    order = list(_RULINGS)
    judged = min(answer.verdicts, key=lambda verdict: order.index(verdict.verdict))
    span = next(
        (span for span in answer.result["spans"] if span["rule"] == judged.rule),
        next(iter(answer.result["spans"]), None),
    )
    where = {"fridge": "in the fridge", "room": "in the room"}.get(
        answer.inputs["where"], "in an ice bath"
    )
    if span is None:
        return f"cooling {answer.inputs['food']} {where}: {_RULINGS[judged.verdict]}"
    fall = f"from {quantity('celsius', span['from_celsius'])} to " + quantity(
        "celsius", span["to_celsius"]
    )
    time = quantity("time_s", span["seconds"], "median")
    if time.endswith("never"):
        return (
            f"{where} the {answer.inputs['food']} may never fall {fall}; {_RULINGS[judged.verdict]}"
        )
    return (
        f"{where} the {answer.inputs['food']} takes {time} to fall {fall}; "
        f"{_RULINGS[judged.verdict]}"
    )


def _freeze(answer: Answer, result: _Say, given: _Say) -> str:
    fill = ""
    if answer.inputs["vessel"] in {"jar", "bottle"}:
        fill = f"; fill it to {result('fill_to_ml')}"
    return (
        f"the {given('volume_ml')} {answer.inputs['vessel']} of {answer.inputs['food']} is frozen "
        f"to {given('until_celsius')} inside after {result('time_s')}{fill}"
    )


def _thaw(answer: Answer, result: _Say, given: _Say) -> str:
    where = {"fridge": "in the fridge", "water": "in cold water", "counter": "on the counter"}.get(
        answer.inputs["where"], "in the microwave oven"
    )
    advice = "not planned there"
    if answer.result["start_before_s"] is not None:
        advice = f"allow {result('start_before_s')}"
    return (
        f"the {given('volume_ml')} {answer.inputs['vessel']} of {answer.inputs['food']} takes "
        f"{result('time_s')} to thaw {where}; {advice}"
    )


def _carbonate(answer: Answer, result: _Say, given: _Say) -> str:
    asked = answer.inputs
    if "wanted_g_per_l" in asked:
        place = "in the glass" if asked["in_glass"] else "in the water"
        if asked.get("celsius") is None:
            return f"{given('wanted_g_per_l')} {place} takes water at {result('celsius')} or colder"
        return (
            f"{given('wanted_g_per_l')} {place} takes {result('gauge_bar')} on the gauge at "
            f"{given('celsius')}"
        )
    return (
        f"water at {given('celsius')} under {result('gauge_bar')} on the gauge takes up "
        f"{result('co2_g_per_l')} of carbon dioxide, {result('volumes')} volumes"
    )


def _steep(answer: Answer, result: _Say, given: _Say) -> str:
    shape = "tea leaf" if answer.inputs["extract"] == "leaf" else (
        f"{given('size_m')} {answer.inputs['shape']}s"
    )  # fmt: skip
    told = (
        f"{shape} give up {result('extracted_share')} of what can be drawn out in "
        f"{given('time_s')} at {given('celsius')}"
    )
    if "gain_half_the_size" in answer.result:
        told += f"; cut half as large, {result('gain_half_the_size')} times as much"
    return told


def _mix(answer: Answer, result: _Say, given: _Say) -> str:
    sour = answer.result["acid_g_per_l"]
    acid = "" if isinstance(sour, float) and sour == 0.0 else f", {result('acid_g_per_l')} of acid"
    amounts = answer.result.get("parts_ml")
    if amounts:
        parts = ", ".join(
            f"{quantity('part_ml', amount)} of {name}" for name, amount in amounts.items()
        )
        return f"{parts} make {result('brix')} °Brix{acid} in {result('volume_ml')}"
    told = f"the drink has {result('brix')} °Brix{acid} at {result('celsius')}"
    if answer.inputs.get("wanted_celsius") is not None:
        return f"{given('ice_g')} of ice bring it to {given('wanted_celsius')}: {told}"
    return told


_SENTENCES: Final[Mapping[str, Callable[[Answer, _Say, _Say], str]]] = {
    "heat": _heat, "simmer": _simmer, "fry": _fry, "bake": _bake, "kettle": _kettle,
    "microwave": _microwave, "cool": _cool, "freeze": _freeze, "thaw": _thaw,
    "carbonate": _carbonate, "steep": _steep, "mix": _mix,
}  # fmt: skip
