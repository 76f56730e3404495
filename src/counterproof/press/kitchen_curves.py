"""What is drawn of a kitchen answer: the curve, the ends of its range, the limits it is held to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from counterproof.physics.answer import Answer
from counterproof.press.kitchen_quantities import time_unit

_CAPTIONS: Final = {
    "cool": "temperature, between the fast and the slow end",
    "freeze": "temperature inside",
    "thaw": "temperature inside",
}


@dataclass(frozen=True, slots=True)
class Plot:
    """What is drawn.

    Parameters
    ----------
    along, up : sequence of float
        The curve, `along` rising. [as the units say]
    along_unit, up_unit : str
        Units, printed at the ends of the scales.
    rules : sequence of float
        Limits, drawn across. [as `up_unit`]
    edges : sequence of sequence of float
        Further curves over the same places: the ends of a range. [as `up_unit`]
    caption : str
        What the curve is.
    """

    along: Sequence[float]
    up: Sequence[float]
    along_unit: str
    up_unit: str
    rules: Sequence[float] = ()
    edges: Sequence[Sequence[float]] = ()
    caption: str = ""


def plot_of(answer: Answer) -> Plot | None:
    """What is drawn of an answer.

    Parameters
    ----------
    answer : Answer
        The answer.

    Returns
    -------
    Plot or None
        None where it has no curve.
    """
    result = answer.result
    if answer.curve is not None and len(answer.curve.seconds) > 1:
        name, size = time_unit(answer.curve.seconds[-1])
        along = [second / size for second in answer.curve.seconds]
        band = result.get("band")
        edges = [band["fast_celsius"], band["slow_celsius"]] if band else []
        caption = _CAPTIONS.get(answer.process, "temperature")
        return Plot(along, answer.curve.celsius, name, "°C", _rules(answer), edges, caption)
    if "by_temperature" in result:
        curve = result["by_temperature"]
        caption = "what water takes up, by its temperature"
        return Plot(curve["celsius"], curve["co2_g_per_l"], "°C", "g/L", caption=caption)
    if "extraction_curve" in result:
        curve = result["extraction_curve"]
        name, size = time_unit(curve["seconds"][-1])
        along = [second / size for second in curve["seconds"]]
        shares = [100.0 * share for share in curve["share"]]
        return Plot(along, shares, name, "%", caption="share drawn out, over time")
    return None


def _rules(answer: Answer) -> list[float]:
    """Temperatures that the verdicts turn on."""
    spans: list[Any] = answer.result.get("spans") or []
    start = answer.inputs.get("from_celsius", 1e9)
    named = {span[key] for span in spans for key in ("from_celsius", "to_celsius")}
    named |= {answer.result[key] for key in ("freezing_celsius",) if key in answer.result}
    return sorted((float(level) for level in named if level < start), reverse=True)
