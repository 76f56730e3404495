"""Recipes of our own in many hands: read whole, and read back equal however they are written out.

The counts were taken by eye from the files in `written/`.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from counterproof.adapters.files import read_recipe
from counterproof.recipe.markup import file_lines, plain
from counterproof.recipe.model import Recipe
from counterproof.recipe.schema_org import read_json
from counterproof.recipe.schema_org_written import to_json_ld
from counterproof.recipe.text import read_text, same_words, write_text

WRITTEN = Path(__file__).parent / "written"

# file, title, ingredient lines, steps, serves, makes
BY_EYE = [
    ("01-plain-paste.txt", "Chickpea and spinach curry", 11, 4, None, None),
    ("02-us-cups.md", "Skillet cornbread", 9, 3, (8, 8), None),
    ("03-wrapped.txt", "BRAISED RED CABBAGE", 7, 2, (6, 8), None),
    ("04-setext-and-boxes.md", "Granola", 7, 3, None, "1 big jar"),
    ("05-for-the.md", "Fish pie", 10, 4, (4, 4), None),
    ("06-emphasis.md", "Pancakes", 4, 2, None, None),
    ("07-table.md", "Flapjacks", 4, 2, None, "16 squares"),
    ("08-inline.txt", "Vinaigrette", 5, 1, None, None),
    ("09-two-parts.md", "Dumplings in broth", 6, 4, None, None),
    ("10-steps-named.txt", "Lemonade (makes 6 glasses)", 4, 3, None, "6 glasses"),
    ("11-emoji.md", "🍲 Miso noodle soup", 6, 3, (2, 2), None),
    ("12-long-intro.md", "Bread for the week", 5, 3, None, "2 loaves"),
    ("13-no-method.txt", "Shopping for the salad", 6, 0, None, None),
    ("14-numbers-in-title.txt", "5-bean chilli", 4, 2, None, None),
    ("15-method-first.md", "Poached pears", 5, 2, None, None),
    ("16-sub-steps.md", "Onion tart", 7, 4, (6, 8), "one 23 cm tart"),
    ("17-drink.md", "Hot apple toddy", 6, 2, (1, 1), None),
    ("18-crlf-bom.txt", "Overnight oats", 5, 2, (2, 2), None),
    ("19-capitals-no-colon.txt", "RICE PUDDING", 5, 2, (4, 4), None),
    ("20-dual-amounts.md", "Beef and ale stew", 9, 2, (6, 6), None),
    ("21-quoted-reply.txt", "Hummus as I make it", 5, 2, None, None),
    ("22-meaning.md", "Tomato sauce", 3, 2, (4, 4), None),
    ("23-comments.md", "Leek vichyssoise", 3, 2, None, None),
    ("24-versions.md", "Black bean chilli", 4, 1, (4, 4), "4 jars"),
    ("25-letter.txt", "Dear all, here's the apple cake again", 7, 3, None, None),
    ("26-flat-markdown.md", "Gazpacho", 6, 2, None, "about 1.5 litres"),
    ("27-page-graph.html", "Red pepper & tomato soup", 4, 2, (4, 4), None),
    ("28-page-microdata.html", "Cheese straws", 4, 2, None, "24 straws"),
    ("29-page-broken-block.html", "Beetroot salad", 3, 2, (2, 2), "2 as a starter"),
    ("30-strings.json", "Salted lassi", 4, 2, (2, 2), None),
    ("31-sections.json", "Lasagne of greens", 6, 3, (6, 6), "1 large dish"),
    ("32-not-only-ascii.md", "Żurek jak u nas – sour rye soup", 7, 3, (4, 5), None),
]
FILES = sorted(path.name for path in WRITTEN.iterdir())
TEXTS = [name for name in FILES if name.endswith((".md", ".txt"))]


def read(name: str) -> Recipe:
    return read_recipe((WRITTEN / name).read_bytes(), name)


def test_every_file_was_counted_by_eye() -> None:
    assert [row[0] for row in BY_EYE] == FILES


@pytest.mark.parametrize("row", BY_EYE, ids=FILES)
def test_parts(row: tuple[str, str, int, int, tuple[float, float] | None, str | None]) -> None:
    name, title, lines, steps, serves, makes = row
    recipe = read(name)
    assert recipe.title == title
    assert len(recipe.lines) == lines
    assert len(recipe.steps) == steps
    assert recipe.serves == serves
    assert recipe.makes == makes
    assert [line.number for line in recipe.lines] == list(range(1, lines + 1))


@pytest.mark.parametrize("name", TEXTS)
def test_no_word_of_a_text_is_lost(name: str) -> None:
    text = (WRITTEN / name).read_text(encoding="utf-8-sig")
    recipe = read(name)
    parts = [recipe.title, recipe.intro, recipe.notes, recipe.makes or ""]
    for line in (*recipe.lines, *recipe.steps):
        parts += [line.text, line.section]
    kept = set(re.findall(r"\w+", " ".join(parts).casefold()))
    markup = {"x", "amount", "what", "take", "serves", "makes", "yield", "step", "for", "people"}
    heads = {"ingredients", "method", "steps", "directions", "instructions", "need", "you", "ll"}
    heads |= {"will", "to", "make", "it", "do", "how", "s", "notes", "four"}
    body = re.sub(r"\A---.*?\n---\n", "", text, flags=re.DOTALL)
    body = re.sub(r"<!--.*?-->", "", body, flags=re.DOTALL)
    said = set(re.findall(r"\w+", " ".join(map(plain, file_lines(body))).casefold()))
    lost = {word for word in said - kept - markup - heads if not word.isdigit()}
    assert lost == set()


@pytest.mark.parametrize("name", TEXTS)
def test_each_line_stands_where_it_says(name: str) -> None:
    lines = file_lines((WRITTEN / name).read_text(encoding="utf-8"))
    recipe = read(name)
    for line in (*recipe.lines, *recipe.steps):
        assert line.at is not None
        first_word = re.findall(r"\w+", line.text)[0]
        assert first_word in lines[line.at - 1]


@pytest.mark.property
@pytest.mark.parametrize("name", FILES)
def test_text_reads_back_equal(name: str) -> None:
    recipe = read(name)
    written = write_text(recipe)
    assert same_words(read_text(written), recipe)
    assert write_text(read_text(written)) == written


@pytest.mark.property
@pytest.mark.parametrize("name", FILES)
def test_json_ld_reads_back_equal(name: str) -> None:
    recipe = read(name)
    assert same_words(read_json(json.dumps(to_json_ld(recipe))), recipe)


def test_sections() -> None:
    recipe = read("16-sub-steps.md")
    assert [line.section for line in recipe.lines] == ["Pastry"] * 3 + ["Filling"] * 4
    assert [step.section for step in recipe.steps] == ["Pastry"] * 2 + ["Filling"] * 2


def test_a_dish_in_two_parts_keeps_both_names() -> None:
    recipe = read("09-two-parts.md")
    assert [line.section for line in recipe.lines] == ["The broth"] * 3 + ["The dumplings"] * 3
    assert [step.section for step in recipe.steps] == ["The broth"] * 2 + ["The dumplings"] * 2


def test_a_measure_at_the_head_of_a_wrapped_line_begins_no_step() -> None:
    text = (
        "# Soup\n\n- 1 onion\n\n## Method\n\n"
        "1. Cool it quickly and then ladle it into shallow trays that are no deeper than\n"
        "5 cm, and put them in the fridge.\n2. Eat.\n"
    )
    first, second = read_text(text).steps
    assert first.text.endswith("no deeper than 5 cm, and put them in the fridge.")
    assert second.text == "Eat."


def test_wrapped_lines_are_one_line() -> None:
    first = read("03-wrapped.txt").lines[0]
    assert first.text.endswith("very finely shredded")
    assert first.at == 7


def test_comments_are_no_part_of_the_recipe() -> None:
    recipe = read("23-comments.md")
    assert [line.text for line in recipe.lines] == ["4 leeks", "500 g potatoes", "1 litre stock"]
    assert "dairy" not in write_text(recipe)


def test_front_matter_in_full() -> None:
    recipe = read("24-versions.md")
    beef, in_glass, on_gas, in_france = recipe.versions
    assert recipe.serves == (4, 4)
    assert recipe.kitchen == "../kitchen.yaml"
    assert [(one.container, one.lid, one.uses) for one in recipe.pack] == [
        ("500 ml jar", "steel", 20),
        ("paper label", None, 1),
    ]
    assert [(one.where, one.days) for one in recipe.keep] == [("fridge", 5)]
    assert recipe.bought is not None
    assert recipe.bought.region == "us"
    assert dict(beef.swap) == {"black beans": "500 g minced beef"}
    assert beef.at == 13
    assert beef.pack is None
    assert in_glass.pack == ()
    assert on_gas.kitchen == {"hob": {"kind": "gas", "power": "3 kW"}}
    assert in_france.kitchen == {"region": "FRA"}
    assert in_france.serves == 8


def test_a_page_tells_what_could_not_be_read() -> None:
    marks = read("29-page-broken-block.html").marks
    assert [(mark.kind, mark.level) for mark in marks] == [("broken-block", "note")]
    assert "1 block" in marks[0].message
