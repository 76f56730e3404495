"""Glass and sudden changes of temperature."""

from __future__ import annotations

from typing import Final, Literal

from counterproof.errors import OutOfRange
from counterproof.physics.answer import Ruling, Verdict
from counterproof.sourced import Sourced

Kind = Literal["soda-lime", "borosilicate", "toughened"]

LIMIT: Final[dict[Kind, Sourced]] = {
    "soda-lime": Sourced(
        42.0, "K", 0.2, "astm-c149-2020", "first step of the container test, from a bath of 21 °C",
        "read on a laboratory's page; explainers say about 40 K",
    ),
    "borosilicate": Sourced(
        160.0, "K", 0.2, "assumed", "",
        "explainers say 160 to 200 K; the estimate from strength and expansion gives 133 K",
    ),
    "toughened": Sourced(
        200.0, "K", 0.3, "assumed", "", "explainers say up to 200 K; a scratch ends it"
    ),
}  # fmt: skip
CALM: Final = Sourced(
    0.6, "1", 0.2, "assumed", "",
    "share of the limit below which nothing is said: scratches, age and thick bases weaken a jar",
)  # fmt: skip
STRENGTH: Final[dict[Kind, tuple[float, float, float, float]]] = {
    "soda-lime": (35e6, 0.22, 70e9, 9.0e-6),
    "borosilicate": (35e6, 0.20, 64e9, 3.3e-6),
}
"""Strength [Pa], Poisson's ratio [1], stiffness [Pa], expansion [1/K]: handbooks, from memory."""


def shock_estimate(kind: Kind) -> float:
    """Sudden difference of temperature that breaks a pane held at its surface.

    Parameters
    ----------
    kind : Kind
        soda-lime or borosilicate.

    Returns
    -------
    float
        σ (1 − ν)/(E α). [K]

    Raises
    ------
    OutOfRange
        If the strength of that glass is not known here.
    """
    if kind not in STRENGTH:
        raise OutOfRange(
            f"The strength of {kind} glass depends on how it was toughened.",
            remedy="Ask for soda-lime or borosilicate.",
        )
    strength, poisson, stiffness, expansion = STRENGTH[kind]
    return strength * (1.0 - poisson) / (stiffness * expansion)


def limit(kind: Kind) -> float:
    """Sudden difference of temperature that a jar of this glass is held to.

    Parameters
    ----------
    kind : Kind
        soda-lime, borosilicate or toughened.

    Returns
    -------
    float
        The lower of what is tested or told and what strength and expansion give. [K]
    """
    told = LIMIT[kind].value
    return min(told, shock_estimate(kind)) if kind in STRENGTH else told


def shock(kind: Kind, glass: float, meets: float, what: str) -> Verdict:
    """What a sudden change of temperature may do to a jar.

    Parameters
    ----------
    kind : Kind
        soda-lime, borosilicate or toughened.
    glass : float
        Temperature of the jar. [K]
    meets : float
        Temperature of what it is filled with or put into. [K]
    what : str
        What happens, as a cook says it: "cold jar under hot soup".

    Returns
    -------
    Verdict
        within below 0.6 of the limit, over above it, too close between.
    """
    step = abs(meets - glass)
    most = limit(kind)
    verdict: Ruling = "too close"
    if step < CALM.value * most:
        verdict = "within"
    elif step >= most:
        verdict = "over"
    advice = {
        "within": "Look at the jar for scratches and chips all the same.",
        "too close": "Go a step at a time: counter, fridge, then on.",
        "over": "Do not: warm or cool the jar in steps first.",
    }[verdict]
    message = f"{what}: {step:.0f} °C at once; {kind} glass bears about {most:.0f} °C. {advice}"
    told = LIMIT[kind].source
    source = told if told != "assumed" else "common practice"
    return Verdict("sudden change of temperature in glass", verdict, message, source)
