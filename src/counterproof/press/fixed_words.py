"""The fixed words of the press, one file a language, for a bilingual friend to translate.

The files are package data (`press/words/en.yaml`, `de.yaml`), part of the program as its modules
are, and are read as such. A key is "surface.phrase"; what stands in braces is filled in. Numbers
arrive as text from `numerals`, written with a point; here they get the language's decimal sign.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from ruamel.yaml import YAML

from counterproof.errors import UsageFault
from counterproof.press.shipped import shipped

LANGUAGES: Final = ("en", "de")
"""What ships; each has a file of its own."""

_WORD: Final = re.compile(r"at least|up to|[a-z]+")
_POINT: Final = re.compile(r"(?<=\d)\.(?=\d)")


@dataclass(frozen=True, slots=True)
class Words:
    """The fixed words of one language.

    Parameters
    ----------
    language : str
        As in `lang`: "en", "de".
    decimal_sign : str
        What stands between units and tenths.
    phrases : mapping of str to str
        "surface.phrase" → the words.
    """

    language: str
    decimal_sign: str
    phrases: Mapping[str, str]

    def __call__(self, key: str, /, **told: str) -> str:
        """Return a phrase, what stands in braces filled in."""
        phrase = self.phrases[key]
        return phrase.format(**told) if told else phrase

    def figure(self, text: str) -> str:
        """Return a number as this language writes it.

        Parameters
        ----------
        text : str
            From `numerals`, with a decimal point.

        Returns
        -------
        str
            The same digits with the language's decimal sign.
        """
        return text if self.decimal_sign == "." else _POINT.sub(self.decimal_sign, text)

    def told(self, text: str) -> str:
        """Return a time or a size, worded in English, as this language tells it.

        Parameters
        ----------
        text : str
            Digits and units, such as "1 h 20 min to 2 h 15 min" or "1.05 litres".

        Returns
        -------
        str
            Each word from `tokens`, the digits with the language's decimal sign.
        """
        told = _WORD.sub(lambda word: self.phrases.get(f"tokens.{word[0]}", word[0]), text)
        return self.figure(told)

    def named(self, group: str, name: str) -> str:
        """Return the name of one of a closed list, such as a stage or an allergen.

        Parameters
        ----------
        group : str
            The list: stages, processes, allergens.
        name : str
            As the tables call it.

        Returns
        -------
        str
            Its name here; the tables' own where the list does not have it.
        """
        return self.phrases.get(f"{group}.{name}", name)


def words_in(language: str) -> Words:
    """Return the fixed words of a language.

    Parameters
    ----------
    language : str
        One of `LANGUAGES`.

    Returns
    -------
    Words
        Its phrases.

    Raises
    ------
    UsageFault
        If it is not shipped.
    """
    if language not in LANGUAGES:
        raise UsageFault(
            f"The press has no words in “{language}”; it has: {', '.join(LANGUAGES)}.",
            remedy="Take one of these, or translate press/words/en.yaml into a file of its own.",
        )
    text = shipped("words", f"{language}.yaml")
    tree: dict[str, Any] = YAML(typ="safe", pure=True).load(text)
    sign = str(tree.pop("decimal sign"))
    return Words(language, sign, dict(_flat(tree)))


def _flat(tree: Mapping[str, Any], above: str = "") -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    for key, value in tree.items():
        name = f"{above}{key}"
        if isinstance(value, Mapping):
            found.extend(_flat(value, f"{name}."))
        else:
            found.append((name, str(value)))
    return found
