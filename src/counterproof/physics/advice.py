"""Advice for foods that hurt in their own way: what the authorities say, and where nobody says.

Each piece of advice carries its source and whether its text was read. Where no rule was found
the advice says so, and what to do all the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

from counterproof.physics.answer import Verdict
from counterproof.physics.cautions import DEFER
from counterproof.physics.cooling_rules import ASK, NO_RULE
from counterproof.physics.spread import spoken
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

Known = Literal["read", "read as quoted", "from memory", "no rule"]


@dataclass(frozen=True, slots=True)
class Advice:
    """One piece of advice.

    Parameters
    ----------
    about : str
        Key, such as ``honey-for-infants``.
    says : str
        One or two sentences.
    source : str
        Id of a row of `data/sources.csv`, or "common practice".
    locator : str
        Page, section, or how it is known.
    known : Known
        Whether the text was read, read as quoted elsewhere, is from memory, or no rule was found.
    """

    about: str
    says: str
    source: str
    locator: str
    known: Known

    @property
    def printed(self) -> str:
        """The advice with how it is known, as it is printed."""
        how = {"from memory": " (from memory: check it)", "no rule": ""}.get(self.known, "")
        return f"{self.says}{how} {DEFER}"


_ALL: Final = (
    Advice(
        "honey-for-infants",
        "Honey is not for infants under 12 months: it may hold spores that cause infant botulism.",
        "cdc-honey", "infant botulism", "read as quoted",
    ),
    Advice(
        "dried-kidney-beans",
        "Dried kidney beans: soak for at least 5 hours, throw the water away, boil hard in fresh "
        "water for at least 10 minutes (the US agency advises 30) before anything else; a slow "
        "cooker does not get hot enough.",
        "common practice", "government advice on phytohaemagglutinin", "from memory",
    ),
    Advice(
        "oil-infused",
        "Garlic, herbs or vegetables in home-made oil: keep them in the fridge from the start, use "
        "them within 4 days, or freeze them; never at room temperature.",
        "psu-oil", "preserving foods in oil; the read page says 10 days, stricter advice 4 days",
        "from memory",
    ),
    Advice(
        "cordial-at-room-temperature",
        f"Home-made cordial or fruit syrup at room temperature: {NO_RULE} Sugar and acid slow "
        "spoilage, and nobody has measured this one.",
        "common practice", "no government line found", "no rule",
    ),
    Advice(
        "juice-pressed-at-home",
        "Fresh juice: keep it cold; it has not been heated. Infants, the elderly, pregnant and "
        "unwell people should not drink it unheated.",
        "common practice", "", "from memory",
    ),
    Advice(
        "low-acid-in-jars",
        "Vegetables, beans, meat and soups closed hot in jars are not preserved by that: above pH "
        "4.6 it takes a pressure canner and a tested recipe. Keep such jars in the fridge or freeze "
        "them.",
        "common practice", "pH 4.6: 21 CFR 114 and the US home-canning guide", "from memory",
    ),
    Advice(
        "cooked-rice",
        "Cooked rice: cool it within the hour, keep it cold, reheat it once, steaming hot.",
        "common practice", "UK practice; Bacillus cereus", "from memory",
    ),
    Advice(
        "two-hours",
        "Perishable food goes into the fridge within 2 hours, within 1 hour above 32 °C (90 °F).",
        "usda-two-hours", "two-hour rule", "read as quoted",
    ),
    Advice(
        "cooling-methods",
        "To cool: shallow pans of 3 inches (7.6 cm) or less, loosely covered, not stacked, with "
        "air between them.",
        "cdc-cooling", "cooling methods, Food Code 3-501.15 as summarised", "read",
    ),
)  # fmt: skip

ADVICE: Final[Mapping[str, Advice]] = MappingProxyType({each.about: each for each in _ALL})
"""Advice by key."""

OIL_LIMIT: Final = Sourced(
    4 * 86400.0, "s", 0.0, "psu-oil", "preserving foods in oil",
    "4 days from memory, the shorter of two; the page read says 10 days",
)  # fmt: skip


def advice_on(about: str) -> Advice:
    """The advice on a food, or that none was found.

    Parameters
    ----------
    about : str
        A key of `ADVICE`, or anything else.

    Returns
    -------
    Advice
        For an unknown key: no rule, and what to do all the same.
    """
    none = Advice(about, NO_RULE, "common practice", "", "no rule")
    return ADVICE.get(about, none)


def infused_oil_verdict(time: float, *, in_fridge: bool) -> Verdict:
    """What the advice on infused oil says to a plan.

    Parameters
    ----------
    time : float
        How long it is to be kept. [s]
    in_fridge : bool
        Whether it is kept in a fridge all the time.

    Returns
    -------
    Verdict
        over at room temperature or past 4 days.
    """
    if not in_fridge:
        said = f"Home-made infused oil is never kept at room temperature; {ASK}. {DEFER}"
        return Verdict("infused oil", "over", said, OIL_LIMIT.source)
    limit = OIL_LIMIT.value
    kept = f"It is to be kept {spoken(time) if time < limit else f'{time / 86400:.0f} days'}"
    decided: Literal["within", "over"] = "over" if time > limit else "within"
    said = f"{kept}; the advice is 4 days in the fridge (from memory). {DEFER}"
    return Verdict("infused oil", decided, said, OIL_LIMIT.source)
