"""Amounts, shares, places and packs that cannot be: a doubt or one clear error each, never a number."""

from __future__ import annotations

import pytest

from counterproof.draws import Streams
from counterproof.errors import BrokenFrontMatter, BrokenSettings
from counterproof.marks import Mark
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.kitchen_file import read_kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Assessed, Order, Workbench, assessed

SOUP = (
    "---\nserves: 2\n{front}\n---\n# Soup\n\n- 500 g carrots\n{line}\n\n1. Simmer for 20 minutes.\n"
)


def _found(bench: Workbench, streams: Streams, front: str = "", line: str = "") -> Assessed:
    recipe = read_text(SOUP.format(front=front, line=line), file="soup.md")
    return assessed(Order(recipe, Kitchen()), bench, streams, verdicts=False)


def _open(found: Assessed) -> list[Mark]:
    return [mark for mark in found.marks if mark.level != "note"]


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("- -3 onions", "odd-number"),
        ("- -200 g onions", "odd-number"),
        ("- 0 onions", "no-amount"),
        ("- 1e9 g sugar", "unknown-food"),
    ],
)
def test_amounts_that_cannot_be_are_doubted(
    bench: Workbench, streams: Streams, line: str, kind: str
) -> None:
    found = _found(bench, streams, line=line)
    assert kind in {mark.kind for mark in _open(found)}
    assert found.footprint.static > 0


def test_an_absurd_amount_is_doubted(bench: Workbench, streams: Streams) -> None:
    found = _found(bench, streams, line="- 5000 kg rice")
    (mark,) = found.footprint.marks[0]
    assert (mark.level, mark.kind) == ("doubt", "absurd-serving")
    assert "2500" in mark.message.replace("\N{NARROW NO-BREAK SPACE}", "")
    assert 0 not in _found(bench, streams, line="- 1 kg rice").footprint.marks


@pytest.mark.parametrize(
    ("front", "says"),
    [
        ("eaten: 1.5", "is no share"),
        ("eaten: 120 %", "is no share"),
        ("eaten: -0.2", "is no share"),
        ("pack: {container: jar, uses: 0}", "outside 0.01 to 100000 uses"),
        ("pack: {container: jar, uses: -3}", "outside"),
        ("keep: [{where: attic, days: 3}]", "fridge, freezer, cupboard"),
        ("keep: [{where: fridge, days: -3}]", "outside 0 to 3650 days"),
        ("oven_shared_by: 0", "outside 1 to 50 dishes"),
        ("also_count: [flying]", "shopping trip, washing up, appliances"),
        ("versions: {a: {skips: [0]}}", "outside 1 to 200 steps"),
    ],
)
def test_settings_that_cannot_be_name_file_line_and_remedy(
    bench: Workbench, streams: Streams, front: str, says: str
) -> None:
    with pytest.raises(BrokenFrontMatter, match=says) as raised:
        _found(bench, streams, front=front)
    assert (raised.value.file, raised.value.line) == ("soup.md", 3)
    assert raised.value.remedy


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("hob: {kind: lava}", "gas, solid plate, ceramic, induction"),
        ("oven: steam train", "fan, conventional, gas"),
        ("region: Narnia", "uk, us, eu, world"),
        ("fizz: {gas: helium}", "by-product, biogenic, captured"),
        ("fridge: {kwh_per_year: -3}", "outside 1 to 20000"),
    ],
)
def test_a_kitchen_that_cannot_be_names_what_may_be(text: str, says: str) -> None:
    with pytest.raises(BrokenSettings, match=says) as raised:
        read_kitchen(text, file="kitchen.yaml")
    assert (raised.value.file, raised.value.line) == ("kitchen.yaml", 1)


def test_a_step_that_is_not_there_cannot_be_skipped(bench: Workbench, streams: Streams) -> None:
    recipe = read_text(SOUP.format(front="versions: {a: {skips: [9]}}", line=""))
    found = assessed(Order(recipe, Kitchen(), "a"), bench, streams, verdicts=False)
    assert "no-such-step" in {mark.kind for mark in found.reading.marks}
