"""Script, colophon, web site and data of recipes that are unlike the demo's."""

from __future__ import annotations

import csv
import io
import json

import icalendar
import pytest

from counterproof.adapters.typst_setting import composing_room
from counterproof.draws import Streams
from counterproof.forme import Forme
from counterproof.locking_up import Manuscript, locked_up
from counterproof.press import colophon, data, script, site
from counterproof.press.fixed_words import words_in
from counterproof.press.part import Setting
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench
from counterproof.vetting_cases import Episode

FOODS = ("onions", "carrots", "leeks", "potatoes", "tomatoes", "apples", "pears", "lemons")
MANY = "# Sixty lines\n\nServes 4\n\n" + "".join(
    f"- {100 + place} g {FOODS[place % len(FOODS)]}\n" for place in range(60)
)
VERSIONS = "".join(
    f'  v{place}: {{swap: {{"leeks": "{place}00 g beef"}}}}\n' for place in range(1, 13)
)
RECIPES = {
    "sixty ingredients": MANY,
    "one ingredient": "# One\n\n- 1 apple\n",
    "twelve versions": f"---\nserves: 2\nversions:\n{VERSIONS}---\n# Twelve\n\n- 300 g leeks\n",
    "no servings, nothing known": "# Moon\n\n- 3 spoons of moon dust\n\n1. Wait.\n",
    "a long title": f"# {'Very long ' * 40}\n\nServes 2\n\n- 200 g rice\n",
    "other scripts": (
        "# Суп 漢字 \N{RIGHT-TO-LEFT OVERRIDE}שלום 🍲\n\nServes 2\n\n- 200 g рис\n- 1 onion\n\n1. Варить 10 минут.\n"
    ),
    "signs of Typst, TeX and HTML": (
        '# $x^2$ #let <b> \\textbf{a} & %\n\nServes 2\n\n- 200 g rice #read("x") <i>\n\n1. =1+1\n'
    ),
}
SCRIPT = '# Об супе\n\nIt is [= one serving of this recipe]. [? "low": this recipe is less than 100 kg].\n'


def pressed(text: str, bench: Workbench, script_text: str | None) -> Forme:
    order = Order(read_text(text), Kitchen(), name="it")
    manuscript = Manuscript(Episode(order), script_text, "script.md" if script_text else None)
    return locked_up(manuscript, bench, Streams(seed=1, n=200), date="2026-11-25")


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("kind", list(RECIPES))
def test_every_part_is_made_and_set(kind: str, language: str, bench: Workbench) -> None:
    forme = pressed(RECIPES[kind], bench, SCRIPT)
    words = words_in(language)
    made: dict[str, bytes] = {}
    with composing_room(forme.date) as room:
        for part in (script, colophon, site, data):
            for piece in part.pieces(forme, words):
                content = piece.content
                if isinstance(content, Setting):
                    content = room(piece.name, content)
                made[piece.name] = content
    assert made["colophon/colophon.pdf"].startswith(b"%PDF-")
    rows = list(csv.DictReader(io.StringIO(made["data/figures.csv"].decode())))
    assert len(rows) == len(forme.edition.derivations)
    assert json.loads(made["site/recipe.json"])["@type"] == "Recipe"
    assert not icalendar.Calendar.from_ical(made["data/plan.ics"]).errors
    assert "\N{RIGHT-TO-LEFT OVERRIDE}".encode() not in made["colophon/colophon.html"]


def test_a_script_of_a_recipe_that_cannot_be_counted_says_so(bench: Workbench) -> None:
    forme = pressed(RECIPES["no servings, nothing known"], bench, SCRIPT)
    notes = {piece.name: piece.content for piece in script.pieces(forme, words_in("en"))}
    text = notes["script/notes.md"]
    assert isinstance(text, bytes)
    assert "[^c" in text.decode()
