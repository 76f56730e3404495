"""Words in any case as a pattern that fails fast: most places of a line begin none of them."""

from __future__ import annotations


def any_case(*words: str) -> str:
    """Return a pattern of alternatives in any case that is told apart by its first letters.

    Parameters
    ----------
    *words : str
        Patterns, each begun by one plain letter or sign.

    Returns
    -------
    str
        A group. Where a whole pattern ignores case, every alternative is tried to its end; a set
        of two letters is tested before anything else of it.
    """
    return f"(?:{'|'.join(map(_led_by_letter, words))})"


def _led_by_letter(word: str) -> str:
    first, rest = word[0], word[1:]
    return f"[{first}{first.upper()}](?i:{rest})" if first.isalpha() and rest else f"(?i:{word})"
