"""The recipe card: one copy in four forms, its numbers the proof's own, its PDFs readable."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from collections.abc import Callable
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from counterproof import numerals
from counterproof.adapters.typst_setting import composing_room
from counterproof.draws import Streams
from counterproof.forme import Forme, Measures, Paper, Trim
from counterproof.locking_up import Manuscript, locked_up
from counterproof.press import card
from counterproof.press.card import SHEETS
from counterproof.press.card_copy import LineCopy, card_copy
from counterproof.press.fixed_words import words_in
from counterproof.press.part import Piece, Setting
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench
from counterproof.vetting_cases import Episode

STEW, BAKE, PIE = "01-squash-and-bean-stew", "04-barley-mushroom-bake", "06-lentil-and-leek-pie"
DemoForme = Callable[..., Forme]
needs_poppler = pytest.mark.skipif(
    shutil.which("pdftotext") is None, reason="NOT HELD: pdftotext and pdffonts are not installed"
)


def made(forme: Forme) -> dict[str, bytes]:
    """The card's files."""
    with composing_room(forme.date) as set_job:
        return {
            piece.name: set_job(piece.name, piece.content)
            if isinstance(piece.content, Setting)
            else piece.content
            for piece in _pieces(forme)
        }


def _pieces(forme: Forme) -> tuple[Piece, ...]:
    return card.pieces(forme, words_in(forme.language))


def _pdf(forme: Forme, name: str = "card/card.pdf") -> bytes:
    piece = next(piece for piece in _pieces(forme) if piece.name == name)
    assert isinstance(piece.content, Setting)
    with composing_room(forme.date) as set_job:
        return set_job(name, piece.content)


def _told(pdf: bytes, folder: Path, tool: str, *options: str) -> str:
    place = folder / "card.pdf"
    place.write_bytes(pdf)
    command = [tool, *options, str(place), *(["-"] if tool == "pdftotext" else [])]
    done = subprocess.run(command, capture_output=True, check=True)  # noqa: S603 (poppler on our file)
    return done.stdout.decode()


@pytest.fixture(scope="session")
def written_forme(bench: Workbench) -> Callable[..., Forme]:
    """A recipe text, locked up."""

    def forme(text: str, **trim: Any) -> Forme:
        order = Order(read_text(text), Kitchen(), name="Supper")
        manuscript = Manuscript(Episode(order))
        streams = Streams(seed=1, n=500)
        return locked_up(manuscript, bench, streams, date="2026-11-25", trim=Trim(**trim))

    return forme


def test_every_weight_is_the_proofs_own_figure(demo_forme: DemoForme) -> None:
    forme = demo_forme(STEW)
    copy = card_copy(forme, words_in("en"))
    rows = [row for part in copy.lines for row in part.rows if isinstance(row, LineCopy)]
    assert len(rows) == len(forme.edition.lines)
    for row, line in zip(rows, forme.edition.lines, strict=True):
        assert line.mass_kg is not None
        shown = numerals.mass(line.mass_kg, forme.edition.middle)
        assert row.weight == f"{shown.middle}{numerals.SPACE}{shown.unit}"


def test_total_and_stages_are_rounded_as_everywhere(demo_forme: DemoForme) -> None:
    edition = demo_forme(STEW).edition
    copy = card_copy(demo_forme(STEW), words_in("en"))
    shown = numerals.shown(edition.serving, edition.middle)
    assert copy.value == f"{shown.middle}{numerals.SPACE}{shown.unit}"
    assert shown.low in copy.interval
    assert [(stage.stage, stage.value) for stage in copy.stages] == [
        (stage, numerals.shown(value, edition.middle).middle) for stage, value in edition.stages
    ]


def test_no_line_or_step_is_dropped_in_any_form(demo_forme: DemoForme) -> None:
    forme = demo_forme(PIE)
    files = {piece.name: piece.content for piece in _pieces(forme)}
    pdf = files["card/card.pdf"]
    assert isinstance(pdf, Setting)
    printed = json.loads(pdf.assets["card.json"])
    rows = [row["words"] for part in printed["lines"] for row in part["rows"]]
    steps = [row["words"] for part in printed["steps"] for row in part["rows"]]
    text = " ".join(files["card/card.txt"].decode().split())  # type: ignore[union-attr]
    for line, row in zip(forme.edition.lines, rows, strict=True):
        told = row.replace(" (US: tomato paste)", "")
        assert told == line.as_written
        assert row in text
    for step, row in zip(forme.edition.steps, steps, strict=True):
        assert row == step.as_written
        assert row in text


@pytest.mark.parametrize(
    ("measures", "there", "not_there"),
    [
        ("metric", ["190 °C / fan 170 °C / gas 5"], ["°F", " oz", "tomato paste"]),
        ("us", ["375 °F / 190 °C"], ["gas 5\n"]),
        ("both", ["190 °C / 375 °F / fan 170 °C / gas 5", "1 lb 10 oz"], []),
    ],
)
def test_measures_and_dials_follow_the_choice(
    demo_forme: DemoForme, measures: Measures, there: list[str], not_there: list[str]
) -> None:
    forme = demo_forme(BAKE, trim=Trim(measures=measures))
    text = next(p.content for p in _pieces(forme) if p.name == "card/card.txt")
    assert isinstance(text, bytes)
    lines = text.decode().split("Keeping")[0]
    assert all(words in lines for words in there)
    assert not any(words in lines for words in not_there)


def test_plain_text_fits_a_mail(demo_forme: DemoForme) -> None:
    for name in (STEW, BAKE, PIE):
        text = next(p.content for p in _pieces(demo_forme(name)) if p.name == "card/card.txt")
        assert isinstance(text, bytes)
        assert max(map(len, text.decode().splitlines())) <= 72


def test_german_has_its_words_its_comma_and_the_recipe_as_it_is(demo_forme: DemoForme) -> None:
    forme = demo_forme(STEW, language="de")
    page = next(p.content for p in _pieces(forme) if p.name == "card/card.html")
    assert isinstance(page, bytes)
    text = page.decode()
    assert '<html lang="de">' in text
    assert "Zutaten" in text
    assert "0,64\N{NO-BREAK SPACE}kg" in text
    assert '<h1 lang="en">Squash and white-bean stew</h1>' in text
    body = text[text.index("<body>") : text.index("<svg")]
    assert not re.search(r"\d\.\d+\N{NO-BREAK SPACE}k?g", body)


class _Seen(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.addresses: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.addresses += [value or "" for name, value in attrs if name in {"href", "src"}]


HOSTILE = """# </title><script>alert(1)</script> {{ 7*7 }} #set page(fill: red)

Serves 2

- 300 g red lentils </td><img src=x onerror=alert(2)>
- 1 tbsp oil #panic("no") $x$ @preview \\ `code` *bold* <label>
- =HYPERLINK("http://example.org") 200 g rice

1. Fry for 5 minutes. #image("/etc/passwd") <!-- javascript:alert(3)
"""


def test_what_a_cook_wrote_stays_words(written_forme: Callable[..., Forme]) -> None:
    files = made(written_forme(HOSTILE))
    seen = _Seen()
    seen.feed(files["card/card.html"].decode())
    assert "script" not in seen.tags
    assert "img" not in seen.tags
    assert seen.addresses == []
    assert "{{ 7*7 }}" in files["card/card.html"].decode()


def test_no_source_holds_a_word_of_the_recipe(written_forme: Callable[..., Forme]) -> None:
    sources = [
        {p.content.source for p in _pieces(written_forme(text)) if isinstance(p.content, Setting)}
        for text in (HOSTILE, "# Toast\n\n- 2 slices bread\n\n1. Toast it.\n")
    ]
    assert sources[0] == sources[1]


@needs_poppler
@pytest.mark.parametrize("paper", SHEETS)
def test_faces_are_embedded_and_ours(demo_forme: DemoForme, paper: Paper, tmp_path: Path) -> None:
    told = _told(_pdf(demo_forme(STEW, trim=Trim(paper=paper))), tmp_path, "pdffonts")
    fonts = [row.split() for row in told.splitlines()[2:]]
    assert fonts
    for name, *rest in fonts:
        assert re.fullmatch(r"[A-Z]{6}\+Source(Serif|Sans)Pro-\w+", name)
        assert rest[-5:-2] == ["yes", "yes", "yes"]  # embedded, subset, with its Unicode map


@needs_poppler
@pytest.mark.parametrize(
    ("paper", "size"),
    # ISO 216 in points of 1/72 in; US letter and a 6 by 4 in card exactly
    [("a5", (420, 595)), ("a4", (595, 842)), ("letter", (612, 792)), ("index", (432, 288))],
)
@pytest.mark.published
def test_sheets_have_their_size(
    demo_forme: DemoForme, paper: Paper, size: tuple[int, int], tmp_path: Path
) -> None:
    told = _told(_pdf(demo_forme(STEW, trim=Trim(paper=paper))), tmp_path, "pdfinfo")
    found = re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", told)
    assert found is not None
    assert [float(one) for one in found.groups()] == pytest.approx(size, abs=0.6)
    assert int(re.search(r"Pages:\s+(\d+)", told)[1]) <= (3 if paper == "index" else 2)  # type: ignore[index]
    assert "Tagged:          yes" in told


@needs_poppler
@pytest.mark.parametrize("name", ["card/card.pdf", "card/card-large.pdf"])
def test_text_is_read_in_order(demo_forme: DemoForme, name: str, tmp_path: Path) -> None:
    forme = demo_forme(STEW)
    told = " ".join(_told(_pdf(forme, name), tmp_path, "pdftotext", "-raw").split())
    told = told.replace("- ", "-")
    wanted = ["Squash and white-bean stew", "serves 10", "Ingredients", "2 medium squash",
              "2 small loaves", "Method", "Heat the oil", "Scatter over", "Keeping", "Take care",
              "Allergens", "Footprint of one serving", "production", "No critical review"]  # fmt: skip
    places = [told.find(words.replace("- ", "-")) for words in wanted]
    assert -1 not in places
    assert places == sorted(places)


def test_the_same_forme_gives_the_same_bytes(demo_forme: DemoForme) -> None:
    assert made(demo_forme(STEW)) == made(replace(demo_forme(STEW)))


def test_signs_that_no_face_has_are_marked_and_named(written_forme: Callable[..., Forme]) -> None:
    text = "# 豆腐 and Борщ\n\nServes 2\n\n- 300 g tofu (豆腐)\n\n1. Fry for 5 minutes.\n"
    pdf, _, page, plain = (piece.content for piece in _pieces(written_forme(text)))
    assert isinstance(pdf, Setting)
    printed = json.loads(pdf.assets["card.json"])
    assert printed["title"] == "◊◊ and Борщ"
    assert any("U+8C46, U+8150" in sentence for sentence in printed["small"])
    assert isinstance(page, bytes)
    assert isinstance(plain, bytes)
    assert "豆腐 and Борщ" in page.decode()
    assert "豆腐" in plain.decode()
    _pdf(written_forme(text))  # PDF/A refuses a sign without a glyph


SIXTY = "# " + "A very long title that goes on " * 8 + "\n\nServes 40\n\n" + "".join(
    f"- {10 * n} g onions, for pan number {n}\n" for n in range(1, 61)
) + "\n1. Simmer for 20 minutes.\n"  # fmt: skip
TWELVE = (
    "---\nversions:\n"
    + "".join(f"  v{n}: {{swap: {{potatoes: {100 * n} g rice}}}}\n" for n in range(1, 13))
    + "---\n# Twelve ways\n\nServes 4\n\n- 1 kg potatoes\n\n1. Boil for 20 minutes.\n"
)


@pytest.mark.parametrize("paper", SHEETS)
@pytest.mark.parametrize(
    "text", [SIXTY, TWELVE, "# Toast\n\n- 2 slices bread\n\n1. Toast it.\n"], ids=["60", "12", "1"]
)
def test_hard_recipes_are_set_on_every_paper(
    written_forme: Callable[..., Forme], text: str, paper: Paper
) -> None:
    files = made(written_forme(text, paper=paper))
    assert files["card/card.pdf"].startswith(b"%PDF-")
    assert files["card/card-large.pdf"].startswith(b"%PDF-")


def test_servings_that_are_not_said_are_told_as_assumed(
    written_forme: Callable[..., Forme],
) -> None:
    copy = card_copy(written_forme("# Toast\n\n- 2 slices bread\n"), words_in("en"))
    assert any("does not say how many it serves" in what for _, what in copy.open)
