"""The script between its margins: what each figure comes to, and whether each claim holds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from counterproof.claims.material import Material
from counterproof.claims.verdicts import Vetted
from counterproof.desk.leaves import leaf, macro
from counterproof.galley import script_set
from counterproof.proof import Derivation, Edition
from counterproof.script_proof import Spoken

_ROWS: Final = "script_rows.html.j2"


@dataclass(frozen=True, slots=True)
class SetScript:
    """A script set between its margins.

    Parameters
    ----------
    stage : dict
        `rows`: line → left margin (figures, loose numbers, words that overclaim); `right`: line →
        verdicts; `under`: what will be said; `said`: how many claims may be said.
    derivations : tuple of Derivation
        What the script adds to the proof's own.
    """

    stage: dict[str, Any]
    derivations: tuple[Derivation, ...]


def set_script(vetted: Vetted, material: Material, edition: Edition) -> SetScript:
    """Return a vetted script between its margins.

    Parameters
    ----------
    vetted : Vetted
        The script, vetted.
    material : Material
        What it was vetted beside.
    edition : Edition
        The proof of its recipe.

    Returns
    -------
    SetScript
        The pieces of the page, and how each of its numbers came about.
    """
    proof, added = script_set(vetted, material, edition)
    keys = [one.key for one in (*edition.derivations, *added)]

    def key_of(spoken: Spoken) -> str:
        return "" if spoken.number is None else keys[spoken.number - 1]

    rows: dict[int, str] = {}
    right: dict[int, str] = {}
    contradicted = {
        (one.expression.line, one.expression.as_written): one.contradicted for one in vetted.claims
    }
    for one in proof.text:
        if isinstance(one, str):
            continue
        if one.kind == "figure":
            _put(rows, one.line, macro(_ROWS, "figured", one, key_of(one)))
        else:
            against = contradicted.get((one.line, one.as_written), "")
            _put(right, one.line, macro(_ROWS, "claim", one, key_of(one), against))
    for loose in vetted.loose:
        if loose.line is not None:
            _put(rows, loose.line, macro(_ROWS, "loose", loose))
    for flagged in vetted.overclaims:
        _put(rows, flagged.line, macro(_ROWS, "overclaim", flagged))
    kept = sum(claim.kept for claim in vetted.claims)
    stage = {
        "rows": rows,
        "right": right,
        "under": {"said-piece": str(leaf("said.html.j2", proof=proof, key_of=key_of))},
        "said": f"{kept} of {len(vetted.claims)} claims may be said.",
    }
    return SetScript(stage, added)


def _put(rows: dict[int, str], line: int, html: str) -> None:
    rows[line] = rows.get(line, "") + html
