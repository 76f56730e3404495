"""A line made fit to be read: one kind of space, of dash and of letter.

Nothing a cook would miss is lost: marks of other alphabets stay unless they imitate Latin
letters inside a Latin word. The fraction slash (⁄) is kept for the printed fractions ½, ⅓ …,
so that "10 g/½ oz" and "2 1½-pound fish" can still be told from written divisions.
"""

from __future__ import annotations

import re
import unicodedata
from html import unescape
from typing import Final

_FRACTIONS: Final = {
    char: " " + unicodedata.normalize("NFKC", char) for char in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
}
_PLAIN: Final[dict[str, str]] = {
    **_FRACTIONS,
    **dict.fromkeys("\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008", " "),
    **dict.fromkeys("\u2009\u200a\u202f\u205f\u3000\t\n\r\x0b\x0c\u2028\u2029\x85", " "),
    **dict.fromkeys("‐‑‒–—―−－", "-"),
    "—": " - ",
    **dict.fromkeys("‘’ʼ`´", "'"),
    **dict.fromkeys("“”″", '"'),
    "×": "x",
    "∕": "/",
    "[": "(",
    "]": ")",
    "{": "(",
    "}": ")",
}
_LOOK_ALIKES: Final = str.maketrans(
    "АВЕКМНОРСТУХаеосрухіїјѕԁԛԝΑΒΕΖΗΙΚΜΝΟΡΤΥΧοѵ",
    "ABEKMHOPCTYXaeocpyxiijsdqwABEZHIKMNOPTYXov",
)
_LEADING_FRACTION: Final = re.compile(r"(?<=[(/\-]) (?=\d+⁄)")
_WORD: Final = re.compile(r"\w+")
_LATIN: Final = re.compile(r"[A-Za-z]")
_TAG: Final = re.compile(r"</?[A-Za-z][^<>]{0,400}>")
_LIST_SIGN: Final = re.compile(r"\s*(?:(?:[-*+•·▪◦‣■□☐☑✓✔>]|\(\s*\)|\\)\s*(?=\D|\d))+")
_SPACES: Final = re.compile(r"\s{2,}")
_EMPHASIS: Final = re.compile(r"\*\*|__|(?<!\w)[*_](?=\w)|(?<=\w)[*_](?!\w)")
_ODD: Final = re.compile(r"[^A-Za-z0-9 ,.()/'%-]")


def _without_look_alikes(match: re.Match[str]) -> str:
    word = match.group()
    if word.isascii() or not _LATIN.search(word):
        return word
    return word.translate(_LOOK_ALIKES)


def _kept(char: str) -> str:
    category = unicodedata.category(char)
    if category in {"Cf", "Cc", "Cs", "Co", "Cn"}:
        return ""
    if category in {"So", "Sk"} or char in "\ufe0f\ufe0e":
        return " "
    if category[0] == "M":
        return char
    folded = unicodedata.normalize("NFKC", char)
    return folded if folded.isprintable() else " "


def _with_plain_signs(text: str, odd: set[str]) -> str:
    """Replace the odd characters of a line, and what they stand for in a page."""
    if "&" in odd:
        text = unescape(text)
        odd.update(_ODD.findall(text))
    if "<" in odd:
        text = _TAG.sub(" ", text)
    for char in odd:
        if char in _PLAIN:
            text = text.replace(char, _PLAIN[char])
    if "⁄" in text and ("- " in text or "/ " in text or "( " in text):
        text = _LEADING_FRACTION.sub("", text)
    return text


def tidied(text: str) -> str:
    """Return a line with plain spaces, dashes, quotes and letters, and no list sign.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        Printable text without leading, trailing or double spaces.
    """
    found = _ODD.findall(text)
    if not found and text[:1].isalnum() and "  " not in text:
        return text.rstrip()
    text = _with_plain_signs(text, set(found))
    if not text.isascii() and not text.replace("⁄", "/").isascii():
        text = unicodedata.normalize("NFC", text)
        text = "".join([c if c.isascii() or c == "⁄" else _kept(c) for c in text])
        text = _WORD.sub(_without_look_alikes, text)
    text = text.replace("(s)", "s")
    if "*" in text or "_" in text:
        text = _EMPHASIS.sub("", text)
    if not text[:1].isalnum():
        match = _LIST_SIGN.match(text)
        if match:
            text = text[match.end() :]
    if "  " in text or not text.isprintable():
        text = _SPACES.sub(" ", text)
    return text.strip()
