"""The same number is never rounded in two ways: gathered over the surfaces of a demo episode."""

from __future__ import annotations

import csv
import html
import io
import re
from collections import defaultdict
from collections.abc import Callable

import pytest

from counterproof import numerals
from counterproof.adapters.files import demo_season, episodes
from counterproof.forme import Forme
from counterproof.press.figures import term_text, text_of
from counterproof.press.fixed_words import words_in
from counterproof.press.folder import PARTS
from counterproof.press.sheet import sheet

EPISODES = [episode.name for episode in episodes(demo_season())]
MadeForme = Callable[..., Forme]
CO2E = re.compile(
    r"([+−<]?\d+(?:\.\d+)?)[ \u00a0](kg|g)[ \u00a0]CO(?:₂|2)e(?![\u00a0 ]?/)(?:[ \u00a0]\(([^()]*)\))?"
)


def surfaces(forme: Forme) -> dict[str, str]:
    """Every text file of the press, tags and escapes taken away."""
    words = words_in(forme.language)
    found = {"sheet": sheet(forme.edition)}
    for part in PARTS.values():
        for piece in part(forme, words):
            if isinstance(piece.content, bytes) and not piece.name.endswith((".parquet", ".json")):
                found[piece.name] = piece.content.decode()
    return {
        name: html.unescape(re.sub(r"<style>.*?</style>|<[^>]*>", " ", text, flags=re.DOTALL))
        for name, text in found.items()
    }


@pytest.mark.parametrize("name", EPISODES)
def test_no_two_surfaces_print_a_number_with_other_digits(name: str, demo_forme: MadeForme) -> None:
    """A footprint told with an interval is one of the proof's, printed as the proof prints it."""
    forme = demo_forme(name)
    edition = forme.edition
    printed = set()
    for one in edition.derivations:
        printed.add(text_of(one, edition.middle))
        printed |= {term_text(term, edition) for term in one.terms}
    for place in forme.positions:  # what only the handout's controls show
        ranges = [place.serving, place.batch, place.difference, *(v for _, v in place.stages)]
        printed |= {numerals.shown(one, edition.middle).text for one in ranges if one is not None}
    own = {text.replace("\N{NO-BREAK SPACE}", " ") for text in printed}
    own |= {
        numerals.shown(version.difference, edition.middle).text.replace("\N{NO-BREAK SPACE}", " ")
        for version in edition.versions
        if version.difference is not None
    }
    for surface, text in surfaces(forme).items():
        for found in CO2E.finditer(text):
            if found[3] is None or not re.fullmatch(r"[\d.–<−to ]+", found[3]):
                continue
            told = found[0].replace("\N{NO-BREAK SPACE}", " ").removeprefix("+")
            assert told in own, (surface, told)


@pytest.mark.parametrize("name", EPISODES)
def test_the_serving_has_the_same_digits_wherever_it_stands(
    name: str, demo_forme: MadeForme
) -> None:
    forme = demo_forme(name)
    edition = forme.edition
    shown = numerals.shown(edition.serving, edition.middle)
    digits = shown.middle.replace(".", "").lstrip("0")
    texts = surfaces(forme)
    for surface in ("card/card.html", "card/card.txt", "colophon/colophon.html", "sheet"):
        assert shown.middle in texts[surface], surface
    for surface in ("site/notes-short.md", "site/notes-long.md"):
        assert shown.middle in texts[surface], surface
    rows = csv.DictReader(io.StringIO(texts["data/figures.csv"]))
    first = next(row for row in rows if row["key"] == "serving")
    assert first["shown"] == shown.text
    assert forme.script is not None
    said = [one.words for one in forme.script.spoken if one.number == edition.number_of("serving")]
    assert said
    for words in said:  # in grams, where that is how people read it: the same digits
        number = words.split("\N{NO-BREAK SPACE}")[0].replace(".", "").strip("0")
        assert number == digits.rstrip("0")


@pytest.mark.parametrize("name", EPISODES)
def test_one_value_has_one_text(name: str, demo_forme: MadeForme) -> None:
    """Derivations and their steps: the same value in the same unit is always the same text."""
    edition = demo_forme(name).edition
    texts: dict[tuple[object, str], set[str]] = defaultdict(set)
    for one in edition.derivations:
        for term in one.terms:
            if term.value is not None and term.opens:
                texts[term.value, term.unit].add(term_text(term, edition))
    for (value, unit), found in texts.items():
        kinds = {
            one.key.partition(":")[0]
            for one in edition.derivations
            if one.value == value and one.unit == unit
        }
        assert len(found) == 1 or len(kinds) > 1, found
