"""Every footprint on what the press makes, typeset and drawn too, has the digits of figures.csv."""

from __future__ import annotations

import csv
import html
import io
import re
from collections.abc import Callable

import pytest

from counterproof.forme import Forme
from counterproof.press.fixed_words import words_in
from counterproof.press.folder import PARTS, pieces_of
from counterproof.press.part import Setting

READ = (".html", ".txt", ".md", ".srt", ".vtt", ".svg")
NUMBER = re.compile(r"\d+(?:\.\d+)?")
# the colophon also shows factors and terms, the handout other servings: no figures of the episode
SURFACES = [part for part in PARTS if part not in {"colophon", "handout"}]


def _words(name: str, content: bytes) -> str:
    text = content.decode()
    if name.endswith((".html", ".svg")):
        text = re.sub(r"<style.*?</style>", "", text, flags=re.DOTALL)
        text = re.sub(r"<script.*?</script>", "", text, flags=re.DOTALL)
        text = html.unescape(re.sub(r"<[^>]+>", " ", text))
    return " ".join(text.split())


def _surfaces(forme: Forme) -> dict[str, str]:
    """Every text that the press shows, what Typst is handed included."""
    found = {}
    for _, piece in pieces_of(forme, SURFACES):
        if isinstance(piece.content, Setting):
            for name, asset in piece.content.assets.items():
                if name.endswith((".json", ".svg")):
                    found[f"{piece.name}: {name}"] = _words(name, asset)
        elif piece.name.endswith(READ):
            found[piece.name] = _words(piece.name, piece.content)
    return found


@pytest.mark.parametrize("name", ["01-squash-and-bean-stew", "02-rhubarb-cordial"])
def test_a_footprint_on_any_surface_has_the_digits_of_the_figures(
    demo_forme: Callable[..., Forme], name: str
) -> None:
    forme = demo_forme(name)
    table = next(
        piece.content
        for _, piece in pieces_of(forme, ("data",))
        if piece.name == "data/figures.csv"
    )
    assert isinstance(table, bytes)
    printed = {
        digits
        for row in csv.DictReader(io.StringIO(table.decode()))
        for digits in NUMBER.findall(row["shown"])
    }
    surfaces = _surfaces(forme)
    assert len(surfaces) > 5
    strange = [
        (surface, text[max(0, found.start() - 60) : found.end() + 20])
        for surface, text in surfaces.items()
        for found in re.finditer(r"(\d+(?:\.\d+)?) kg CO₂e", text)
        if found[1] not in printed
    ]
    assert strange == []


def test_german_surfaces_write_the_same_digits_with_a_comma(
    demo_forme: Callable[..., Forme],
) -> None:
    english, german = demo_forme("01-squash-and-bean-stew"), words_in("de")
    forme = demo_forme("01-squash-and-bean-stew", language="de")

    def card(one: Forme) -> list[str]:
        text = next(
            piece.content for _, piece in pieces_of(one, ("card",)) if piece.name == "card/card.txt"
        )
        assert isinstance(text, bytes)
        return re.findall(r"[\d.,]+ kg CO₂e|~[\d.,]+ k?g", _words("card.txt", text))

    assert [german.figure(number) for number in card(english)] == card(forme)
    assert len(card(forme)) > 5
