"""Words that claim more than a number can carry, with the rule that speaks of them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from counterproof.claims.loose import blanked
from counterproof.claims.script import Script
from counterproof.rows import Overclaim


@dataclass(frozen=True, slots=True)
class Flagged:
    """A word that overclaims, where it stands, and the rules.

    Parameters
    ----------
    line : int
        The line it stands on, from 1.
    as_written : str
        The word.
    rules : tuple of Overclaim
        One a region.
    """

    line: int
    as_written: str
    rules: tuple[Overclaim, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "line": self.line,
            "as_written": self.as_written,
            "rules": [
                {
                    "region": rule.region,
                    "rule": rule.rule,
                    "since": rule.since,
                    "says": rule.says,
                    "source": rule.provenance.source or None,
                    "note": rule.provenance.note,
                }
                for rule in self.rules
            ],
        }


def overclaims_in(
    script: Script, rules: Iterable[Overclaim], regions: Iterable[str]
) -> tuple[Flagged, ...]:
    """Every word of a script that overclaims where its audience lives.

    Parameters
    ----------
    script : Script
        The script.
    rules : iterable of Overclaim
        Words and rules, by region.
    regions : iterable of str
        Where the audience lives; none named: everywhere.

    Returns
    -------
    tuple of Flagged
        In the order they stand; never judged by a number.
    """
    text = blanked(script)
    asked = set(regions)
    by_word: dict[str, list[Overclaim]] = {}
    for rule in rules:
        if not asked or rule.region in {*asked, "world"}:
            by_word.setdefault(rule.word, []).append(rule)
    if not by_word:
        return ()
    # Longest first: "carbon neutral" is one claim, not two.
    words = sorted(by_word, key=len, reverse=True)
    spelled = "|".join("[ -]".join(map(re.escape, re.split("[ -]", word))) for word in words)
    pattern = re.compile(rf"(?<![\w-])(?:{spelled})(?!\w)", re.IGNORECASE)
    found = []
    for match in pattern.finditer(text):
        named = by_word[" ".join(re.split("[ -]", match[0].casefold()))]
        found.append(Flagged(script.line_of(match.start()), match[0], tuple(named)))
    return tuple(found)
