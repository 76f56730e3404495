"""Whatever is typed: one clear doubt or an answer, never a crash, never long."""

from __future__ import annotations

import contextlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.claims.captions import cues
from counterproof.claims.grammar import asked, figured
from counterproof.claims.loose import blanked, loose_in_script
from counterproof.claims.script import read_script, resolved
from counterproof.claims.spoken_numbers import numbers_in
from counterproof.errors import NotUnderstood

WORDS = st.lists(
    st.sampled_from(
        [
            "one",
            "serving",
            "of",
            "this",
            "recipe",
            "with",
            "beef",
            "the",
            "bread",
            "'s",
            "share",
            "in",
            "as",
            "a",
            "ratio",
            ",",
            "/",
            "×",
            "<",
            ">",
            "is",
            "less",
            "than",
            "half",
            "quarter",
            "at",
            "least",
            "three",
            "times",
            "(",
            ")",
            "plus",
            "minus",
            "26",
            "kg",
            "CO2e",
            "balloons",
            "90",
            "C",
            "to",
            "21",
            "C",
            "time",
            "for",
            "litres",
            "soup",
            "cool",
            "from",
            "between",
            "and",
            "per",
            "1000",
            "kcal",
            '"',
            ":",
            "%",
            "most",
            "about",
            "of",
        ]
    ),
    max_size=30,
).map(" ".join)
ANY = st.one_of(WORDS, st.text(max_size=120))


@pytest.mark.property
@given(ANY)
@settings(max_examples=400, deadline=2000)
def test_any_words_are_understood_or_refused(text: str) -> None:
    for reader in (figured, asked):
        with contextlib.suppress(NotUnderstood):
            reader(text)


@pytest.mark.property
@given(ANY)
@settings(max_examples=200, deadline=2000)
def test_a_script_without_expressions_stays_as_it_is(text: str) -> None:
    with contextlib.suppress(NotUnderstood):
        script = read_script(text)
        if not script.expressions:
            assert resolved(script, {}) == script.text
    numbers_in(text)
    cues(text)


@pytest.mark.parametrize(
    "text",
    [
        "a" * 300_000,
        "1 " * 150_000,
        "half a " * 40_000,
        "[" * 300_000,
        "(" * 300_000,
        "`" * 300_000,
        "<!--" * 70_000,
        ". " * 150_000,
        "twenty-" * 40_000,
        "[x" * 100_000,
        "9,999," * 40_000,
        "\n" * 300_000,
        "[^1]: " * 40_000,
        "https://" * 30_000,
    ],
)
def test_long_texts_come_to_an_end(text: str) -> None:
    # What is guarded against grows with the square of the length and would take hours.
    script = read_script(text)
    assert not script.expressions
    assert len(blanked(script)) == len(script.text)
    assert not cues(text)
    loose_in_script(script, ())
