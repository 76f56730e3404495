"""How many a recipe serves and what it makes, from the cook's own words."""

from __future__ import annotations

import re
from dataclasses import dataclass

_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "fourteen": 14, "fifteen": 15,
    "sixteen": 16, "eighteen": 18, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50,
}  # fmt: skip
_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3}

_N = rf"(?:\d{{1,5}}(?:[.,]\d{{1,3}})?[½¼¾]?|[½¼¾⅓⅔]|\b(?:{'|'.join(_WORDS)})\b)"
_SPAN = rf"(?P<low>{_N})(?:\s*(?:-|–|—|to|or)\s*(?P<high>{_N}))?"
_ABOUT = (
    r"(?:about|around|roughly|approx(?:imately|\.)?|approximately|up to|at least|enough for|"
    r"some|circa|c\.|ca\.|~)"
)
_WHO = (
    r"(?:people|persons?|portions?|servings?|serves|diners|guests|adults|eaters|helpings?|"
    r"students|cooks|pax)"
)
_SERVES = re.compile(
    rf"(?:serves|feeds|serving|servings?|portions?|number of servings|no\.? of servings)"
    rf"\s*:?\s*(?:{_ABOUT}\s*)?{_SPAN}(?:\s*{_WHO})?",
    re.IGNORECASE,
)
_FOR = re.compile(rf"(?:enough\s+)?for\s+(?:{_ABOUT}\s*)?{_SPAN}(?:\s*{_WHO})?", re.IGNORECASE)
_COUNT = re.compile(rf"(?:{_ABOUT}\s*)?{_SPAN}\s*{_WHO}", re.IGNORECASE)
_MAKES = re.compile(
    rf"(?:makes|yields?|quantity|produces|gives)(?:\s*:)?\s*"
    rf"(?P<what>(?:{_ABOUT}\s*)*(?:(?:a|half a|an?)\s+(?:good\s+)?(?:dozen|couple|pint|litre|"
    rf"loaf|jar|batch|bottle|quart|gallon|pan|tray|pot)\b|{_N}).*)",
    re.IGNORECASE,
)
_YIELD = re.compile(r"(?:makes|yields?|quantity)\s*:\s*(?P<what>\S.*)", re.IGNORECASE)
_OTHER = re.compile(r"\s*(?:%|\d|(?:g|kg|ml|oz|minutes?|mins?|cups?|dish(?:es)?|bowls?|spoons?)\b)")
_VOLUME = re.compile(
    rf"[\s,;(]*((?:{_ABOUT}\s*)?{_N}\s*(?:litres?|liters?|l|ml|pints?|quarts?|kg|g|jars?|bottles?|"
    rf"loaves|buns|tubs?)(?:\s+in all)?)[\s).]*",
    re.IGNORECASE,
)
_AND_SERVES = re.compile(
    rf"(?P<makes>.+?)[,;.(]?\s+(?:(?:or|and|to)\s+)?(?:serves?|serving|feeds|enough for|for)\s+"
    rf"(?P<span>{_SPAN}).*",
    re.IGNORECASE,
)
_SIGNS_BEFORE = re.compile(r"^[^\w½¼¾⅓⅔~]+")  # a picture sign, a bracket
_END = re.compile(r"[\s.;,:!)\]]*")


LONGEST = 200
"""Longest line that may be a statement of yield [characters]: assumed, a line of print or two."""


@dataclass(frozen=True, slots=True)
class Statement:
    """A line that says how much the recipe gives.

    `whole` says that the line held nothing else; otherwise it is kept in the intro too.
    """

    serves: tuple[float, float] | None
    makes: str | None
    whole: bool


def number_said(text: str) -> float:
    """Return a number written in digits, as a fraction or as a word.

    Parameters
    ----------
    text : str
        "4", "1.5", "2½" or "four".

    Returns
    -------
    float
        The number.
    """
    text = text.strip().casefold()
    if text in _WORDS:
        return float(_WORDS[text])
    whole, part = text, 0.0
    if text and text[-1] in _FRACTIONS:
        whole, part = text[:-1], _FRACTIONS[text[-1]]
    return (float(whole.replace(",", ".")) if whole else 0.0) + part


def servings_said(text: str) -> tuple[float, float] | None:
    """Return the servings that a bare yield text means, or None where it means something else.

    Parameters
    ----------
    text : str
        "4", "4-6", "4 servings", "Serves 4".

    Returns
    -------
    tuple of float or None
        Low and high.
    """
    text = text.strip(" .:;")
    bare = re.fullmatch(_SPAN, text, re.IGNORECASE)
    for pattern in (_COUNT, _SERVES, _FOR):
        bare = bare or pattern.fullmatch(text)
    return None if bare is None or _span(bare)[0] <= 0 else _span(bare)


def statement(text: str) -> Statement | None:
    """Read a line that says how much the recipe gives.

    Parameters
    ----------
    text : str
        A line: "Serves 4–6", "Makes about 1.2 litres", "Yield: 2 loaves".

    Returns
    -------
    Statement or None
        What it says, or None where the line is about something else.
    """
    bare = _SIGNS_BEFORE.sub("", text.strip()).strip("()[] ")
    if not bare or len(bare) > LONGEST:
        return None
    return _serving(bare) or _for_some(bare) or _making(bare)


def _serving(bare: str) -> Statement | None:
    """Read "Serves 4", alone or with what it makes behind it."""
    match = _SERVES.match(bare)
    if match is None:
        return None
    rest = bare[match.end() :]
    if _OTHER.match(rest) or _span(match)[0] <= 0:
        return None
    if volume := _VOLUME.fullmatch(rest):
        return Statement(_span(match), volume[1].strip(), whole=True)
    more = re.match(r"[\s,;.&]*(?:and\s+)?(?=makes|yields?)", rest, re.IGNORECASE)
    second = _making(rest[more.end() :]) if more else None
    if second is not None and second.makes:
        return Statement(_span(match), second.makes, second.whole)
    return Statement(_span(match), None, _END.fullmatch(rest) is not None)


def _for_some(bare: str) -> Statement | None:
    """Read "For 4 people" and "4 servings"."""
    match = _COUNT.match(bare) or _FOR.match(bare)
    if match is None or not re.search(_WHO, match[0], re.IGNORECASE):
        return None
    if not _END.fullmatch(bare[match.end() :]) or _span(match)[0] <= 0:
        return None
    return Statement(_span(match), None, whole=True)


def _making(bare: str) -> Statement | None:
    """Read "Makes about 1.2 litres", alone or with whom it serves behind it."""
    match = _MAKES.fullmatch(bare) or _YIELD.fullmatch(bare)
    if match is None:
        return None
    what = match["what"].strip()
    serves = servings_said(what)
    if serves is not None and re.search(_WHO, what, re.IGNORECASE):
        return Statement(serves, None, whole=True)
    split = _AND_SERVES.fullmatch(what)
    served = _serving(f"serves {split['span']}") if split else None
    if split is not None and served is not None:
        return Statement(served.serves, split["makes"].strip(" ,;.("), whole=False)
    if len(what.split()) > 14 or re.search(r"[.!?]\s+\S", what):
        return None
    return Statement(None, what.rstrip(" .") or what, whole=True)


def shown_number(value: float) -> str:
    """Return a number as a cook writes it, all digits kept.

    Parameters
    ----------
    value : float
        The number. [1]

    Returns
    -------
    str
        Digits that read back as the same number.
    """
    return str(int(value)) if value == int(value) and abs(value) < 1e15 else repr(value)


def shown_servings(serves: tuple[float, float]) -> str:
    """Return "4" or "4–6".

    Parameters
    ----------
    serves : tuple of float
        Low and high.

    Returns
    -------
    str
        Words that `servings_said` reads back.
    """
    low, high = (shown_number(value) for value in serves)
    return low if serves[0] == serves[1] else f"{low}–{high}"


def _span(match: re.Match[str]) -> tuple[float, float]:
    low = number_said(match["low"])
    high = number_said(match["high"]) if match["high"] else low
    return (low, high) if low <= high else (high, low)
