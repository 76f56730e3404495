"""What a food is for, where a line says so: for greasing, for frying, to garnish, to taste."""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

_STEMS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "for topping up": r"top(?:ping)? (?:up|off)|fill\b",
        "for greasing": "greas|oil|pan|lin|coat",
        "for dusting": "dust|roll|knead",
        "for garnish": "garnish|decorat|finish|top(?! up| off)",
        "for serving": "serv|accompan|pass|hand",
        "for deep frying": "deep[- ]fr[yi]",
        "for frying": "fry|shallow[- ]fry|cook|saut|brown|roast",
        "for brushing": "brush|bast|glaz|rub|grill|barbecu",
        "for sprinkling": "sprinkl",
        "for drizzling": "drizzl",
        "to taste": "taste|season|sweeten",
    }
)
_PURPOSE: Final = re.compile(
    r"\b(?:for|to)\s+(?:the\s+|a\s+)?(?:"
    + "|".join(f"(?P<{flag.replace(' ', '_')}>{stems})" for flag, stems in _STEMS.items())
    + ")"
)
_LONGEST: Final = 60  # characters; longer remarks tell a story


def purpose_named(lower: str) -> str:
    """Return what a remark says the food is for.

    Parameters
    ----------
    lower : str
        A clause in lower case.

    Returns
    -------
    str
        "for greasing", "for dusting", "for garnish", "for serving", "for frying", "for deep
        frying", "for brushing", "for sprinkling", "for drizzling", "for topping up", "to taste", or "".
    """
    if len(lower) > _LONGEST or not ("for " in lower or "to " in lower):
        return ""
    match = _PURPOSE.search(lower)
    return match.lastgroup.replace("_", " ") if match and match.lastgroup else ""
