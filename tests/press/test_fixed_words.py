"""The fixed words: complete, used, and alike in every language in all but the words."""

from __future__ import annotations

import re
from pathlib import Path
from string import Formatter

import pytest

import counterproof.press
from counterproof.errors import UsageFault
from counterproof.press.fixed_words import LANGUAGES, words_in

HOUSE = Path(counterproof.press.__file__).parent
ENGLISH = words_in("en")
GROUPS = ("tokens", "stages", "processes", "allergens")  # looked up by a table's own word


def _fields(phrase: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(phrase) if name is not None}


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_key_is_missing_or_left_over(language: str) -> None:
    assert set(words_in(language).phrases) == set(ENGLISH.phrases)


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_is_filled_in_is_the_same(language: str) -> None:
    words = words_in(language)
    wrong = [
        key for key, phrase in words.phrases.items()
        if _fields(phrase) != _fields(ENGLISH.phrases[key])
    ]  # fmt: skip
    assert wrong == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_phrase_is_empty_or_carries_a_number_of_ours(language: str) -> None:
    for key, phrase in words_in(language).phrases.items():
        assert phrase.strip(), key
        assert not re.search(r"\d[.,]\d", phrase), f"{key}: a figure belongs to the proof"


def test_every_phrase_is_used() -> None:
    used = "\n".join(
        place.read_text(encoding="utf-8")
        for place in HOUSE.rglob("*")
        if place.suffix in {".py", ".j2", ".typ"}
    )
    groups = {*GROUPS, *re.findall(r"\.named\(\s*[\"']([a-z _]+)[\"']", used)}
    spoken = set(re.findall(r"f[\"']([a-z ]+)\.\{", used))  # a key put together from its group
    idle = [
        key
        for key in ENGLISH.phrases
        if key.partition(".")[0] not in groups | spoken
        and f'{key}"' not in used
        and f"{key}'" not in used
    ]
    assert idle == []


def test_every_phrase_asked_for_is_there() -> None:
    asked = {
        key
        for place in HOUSE.rglob("*")
        if place.suffix in {".py", ".j2"}
        for key in re.findall(
            r"\bwords\(\s*[\"']([a-z ]+\.[a-z _]+)[\"']", place.read_text(encoding="utf-8")
        )
    }
    assert len(asked) > 20
    assert asked <= set(ENGLISH.phrases)


def test_german_writes_a_comma_and_its_own_units() -> None:
    german = words_in("de")
    assert german.figure("0.64 kg CO₂e (0.42–0.93)") == "0,64 kg CO₂e (0,42–0,93)"
    assert german.told("1 h 20 min to 2 h") == "1 Std. 20 Min. bis 2 Std."
    assert german.figure("Poore et al. 2018.") == "Poore et al. 2018."
    assert ENGLISH.told("at least 2 h") == "at least 2 h"


def test_a_language_that_is_not_shipped_is_one_clear_error() -> None:
    with pytest.raises(UsageFault, match="it has: en, de"):
        words_in("tlh")
