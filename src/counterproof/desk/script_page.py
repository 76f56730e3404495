"""The script between its margins: what each figure comes to, and whether each claim holds."""

from __future__ import annotations

from typing import Any, Final

from counterproof.claims.verdicts import Vetted
from counterproof.desk.leaves import leaf, macro

_ROWS: Final = "script_rows.html.j2"


def script_stage(vetted: Vetted) -> dict[str, Any]:
    """Return what stands beside every line of a script, and what stands under it.

    Parameters
    ----------
    vetted : Vetted
        The script, vetted.

    Returns
    -------
    dict
        `rows`: line → left margin (figures, loose numbers, words that overclaim); `right`: line →
        verdicts; `under`: what will be said, and how many verdicts there are of each kind.
    """
    rows: dict[int, str] = {}
    right: dict[int, str] = {}
    for figure in vetted.figures:
        _put(rows, figure.expression.line, macro(_ROWS, "figure", figure))
    for loose in vetted.loose:
        if loose.line is not None:
            _put(rows, loose.line, macro(_ROWS, "loose", loose))
    for flagged in vetted.overclaims:
        _put(rows, flagged.line, macro(_ROWS, "overclaim", flagged))
    for claim in vetted.claims:
        _put(right, claim.expression.line, macro(_ROWS, "claim", claim))
    said = str(leaf("said.html.j2", vetted=vetted))
    kept = sum(claim.kept for claim in vetted.claims)
    return {
        "rows": rows,
        "right": right,
        "under": {"said-piece": said},
        "said": f"{kept} of {len(vetted.claims)} claims may be said.",
    }


def _put(rows: dict[int, str], line: int, html: str) -> None:
    rows[line] = rows.get(line, "") + html
