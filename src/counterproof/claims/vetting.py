"""A script vetted: every figure worked out, every claim asked."""

from __future__ import annotations

from dataclasses import replace

from counterproof.claims.likelihood import LEVEL
from counterproof.claims.material import Material
from counterproof.claims.saying import System
from counterproof.claims.script import Script
from counterproof.claims.seen import Surroundings
from counterproof.claims.verdicts import Vetted, spoken
from counterproof.claims.vetting_claims import vetted_claim
from counterproof.claims.vetting_figures import vetted_figure


def vetted(
    script: Script,
    material: Material,
    around: Surroundings,
    *,
    level: float = LEVEL,
    system: System = "metric",
) -> Vetted:
    """All figures and claims of a script.

    Parameters
    ----------
    script : Script
        The script.
    material : Material
        What may be spoken of.
    around : Surroundings
        For likenesses.
    level : float
        Share of draws from which a sentence is kept. [1]
    system : System
        Whose units.

    Returns
    -------
    Vetted
        Loose numbers and words that overclaim are added by `loose` and `overclaims`.
    """
    figures = tuple(
        vetted_figure(one, material, around, system)
        for one in script.expressions
        if one.kind == "figure"
    )
    claims = [
        vetted_claim(one, material, level=level)
        for one in script.expressions
        if one.kind == "claim"
    ]
    shown = spoken(figures, claims)
    told = tuple(
        replace(claim, sentence=script.sentence_of(claim.expression, shown)) for claim in claims
    )
    return Vetted(script, figures, told)
