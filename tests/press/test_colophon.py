"""The colophon: every number under its short number, every source with what its licence asks."""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from counterproof.adapters.files import demo_season, episodes
from counterproof.adapters.typst_setting import composing_room
from counterproof.forme import Forme
from counterproof.press import colophon
from counterproof.press.colophon_copy import colophon_copy
from counterproof.press.figures import text_of
from counterproof.press.fixed_words import LANGUAGES, words_in
from counterproof.press.part import Setting
from counterproof.press.references import as_bibtex, as_csl
from counterproof.proof import SourceLine

EPISODES = [episode.name for episode in episodes(demo_season())]
MadeForme = Callable[..., Forme]

with_poppler = pytest.mark.skipif(
    shutil.which("pdftotext") is None, reason="NOT HELD: pdftotext is not installed"
)
HARD = SourceLine(
    "hard-1.0",
    "100 % of {it} & more: $5 #1 a_b ~ ^ \\ “quoted”. <b>",
    "javascript:alert(1)",
    "none",
    "=credit",
    "Costs & shares, 50 % {more} #1 under_score",
    "Someone & Daughters",
    "after 2018",
    "2026-11-25",
)


def made(forme: Forme) -> dict[str, bytes | Setting]:
    found = colophon.pieces(forme, words_in(forme.language))
    return {piece.name: piece.content for piece in found}


def page(forme: Forme) -> str:
    content = made(forme)["colophon/colophon.html"]
    assert isinstance(content, bytes)
    return content.decode()


def set_in_type(source: str, assets: dict[str, bytes]) -> bytes:
    with composing_room("2026-11-25") as room:
        return room("a test", Setting(source, assets))


def text_in(pdf: bytes, place: Path) -> str:
    file = place / "set.pdf"
    file.write_bytes(pdf)
    told = subprocess.run(  # noqa: S603 (our own file, our own options)
        ["pdftotext", "-raw", str(file), "-"],  # noqa: S607 (a tool of the machine)
        check=True,
        capture_output=True,
    )
    return " ".join(told.stdout.decode().replace("\N{NO-BREAK SPACE}", " ").split())


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", EPISODES)
def test_every_number_stands_under_its_short_number_with_all_its_steps(
    name: str, language: str, demo_forme: MadeForme
) -> None:
    forme = demo_forme(name, language=language)
    words = words_in(language)
    text = page(forme)
    for number, one in enumerate(forme.edition.derivations, start=1):
        start = text.index(f'<li value="{number}" id="n{number}">')
        entry = html.unescape(text[start : text.index("</li>", start)])
        assert words.figure(text_of(one, forme.edition.middle)) in entry
        assert entry.count("<tr>") == len(one.terms)
        for term in one.terms:
            if term.opens:
                assert f'href="#n{forme.edition.number_of(term.opens)}"' in entry
    linked = set(re.findall(r'href="#([^"]+)"', text))
    assert linked <= set(re.findall(r'id="([^"]+)"', text))


@pytest.mark.parametrize("name", EPISODES)
def test_everything_that_method_asks_with_a_total_is_told(name: str, demo_forme: MadeForme) -> None:
    # method.md, section 10: what is printed with every total.
    forme = demo_forme(name)
    edition = forme.edition
    text = html.unescape(page(forme))
    basis = edition.basis
    for key in ("boundary", "gwp", "factor_sets", "seed", "draws", "version", "data_sha256"):
        assert str(basis[key]) in text
    assert forme.date in text
    assert "not a comparative assertion in the sense of ISO 14044" in text
    assert f"middle value</dt><dd>{edition.middle}" in text
    assert edition.range_for in text
    assert "of the mass has a factor; by fit" in text
    for name_, _, _ in edition.second_opinion:
        assert f"{name_}: " in text
    for told in (*edition.assumed, *edition.cautions):
        assert told in text
    for source in edition.sources:
        assert source.citation in text
        assert source.credit in text
        assert source.licence in text
    marks = [mark for line in edition.lines for mark in line.marks]
    marks += [mark for step in edition.steps for mark in step.marks]
    for mark in marks:
        assert (mark.level == "note") or mark.message in text


def test_a_credit_line_of_the_recipe_stands_first(demo_forme: MadeForme) -> None:
    forme = demo_forme(EPISODES[0], credits=("After a recipe by a neighbour.",))
    text = page(forme)
    assert text.index("After a recipe by a neighbour.") < text.index(">Method<")
    assert ">Credits<" not in page(demo_forme(EPISODES[0]))


@with_poppler
@pytest.mark.parametrize("language", LANGUAGES)
def test_the_pdf_holds_every_number_and_can_be_read_aloud(
    language: str, demo_forme: MadeForme, tmp_path: Path
) -> None:
    forme = demo_forme("02-rhubarb-cordial", language=language)
    words = words_in(language)
    job = made(forme)["colophon/colophon.pdf"]
    assert isinstance(job, Setting)
    assert job.standards == ("a-2a", "ua-1")  # Typst refuses what does not meet them
    with composing_room(forme.date) as room:
        pdf = room("colophon.pdf", job)
        assert room("colophon.pdf", job) == pdf
    told = text_in(pdf, tmp_path)
    for one in forme.edition.derivations:
        value = words.figure(text_of(one, forme.edition.middle)).replace("\N{NO-BREAK SPACE}", " ")
        head = value.split("(")[0].strip()
        assert head in told, (one.key, head)
    for source in forme.edition.sources:
        assert source.id in told


@pytest.mark.published
@pytest.mark.parametrize("name", EPISODES)
def test_the_sources_are_csl_json_as_its_schema_has_it(name: str, demo_forme: MadeForme) -> None:
    # Citation Style Language, schemas/input/csl-data.json (draft-07 schema): an array of objects;
    # type and id are required; names and dates have the forms below; nothing else is allowed.
    sources = demo_forme(name).edition.sources
    items = json.loads(as_csl((*sources, HARD)))
    assert [item["id"] for item in items] == [source.id for source in (*sources, HARD)]
    for item in items:
        held(item)


def held(item: dict[str, Any]) -> None:
    strings = {"id", "type", "title", "DOI", "URL", "note"}
    assert {"id", "type"} <= set(item) <= strings | {"author", "issued", "accessed"}
    assert all(isinstance(item[key], str) for key in strings & set(item))
    assert item["type"] == "document"  # one of the schema's types
    for author in item.get("author", []):
        assert set(author) == {"literal"}
        assert isinstance(author["literal"], str)
    for key in {"issued", "accessed"} & set(item):
        date = item[key]
        assert set(date) in ({"date-parts"}, {"literal"})
        for parts in date.get("date-parts", []):
            assert 1 <= len(parts) <= 3
            assert all(isinstance(part, int) for part in parts)
    assert item.get("URL", "https://").startswith("https://")


def test_what_is_known_of_a_source_reaches_its_csl_item() -> None:
    source = SourceLine(
        "paper", "A. (2018). Title.", "https://doi.org/10.1000/xyz", "CC BY 4.0", "A., 2018",
        "Title", "A.", "2018-06", "2026-11-25",
    )  # fmt: skip
    (item,) = json.loads(as_csl([source]))
    assert item["DOI"] == "10.1000/xyz"
    assert item["issued"] == {"date-parts": [[2018, 6]]}
    assert item["accessed"] == {"date-parts": [[2026, 11, 25]]}
    assert item["note"] == "A. (2018). Title. Licence: CC BY 4.0. A., 2018"
    (hard,) = json.loads(as_csl([HARD]))
    assert "URL" not in hard
    assert hard["issued"] == {"literal": "after 2018"}


@with_poppler
def test_the_bibliography_is_read_by_another_program(demo_forme: MadeForme, tmp_path: Path) -> None:
    # Typst's own reader of BibTeX sets every entry, whatever signs stand in it.
    sources = {
        source.id: source for name in EPISODES for source in demo_forme(name).edition.sources
    }
    content = as_bibtex([*sources.values(), HARD])
    source = '#set page(width: 60cm)\n#bibliography("sources.bib", full: true)'
    told = text_in(set_in_type(source, {"sources.bib": content}), tmp_path)
    for one in sources.values():
        assert one.title.split(",")[0][:30] in told
    assert "Costs & shares, 50 % {more} #1 under_score" in told
    assert "Someone & Daughters" in told


def test_words_of_a_recipe_cannot_leave_their_place(demo_forme: MadeForme) -> None:
    nasty = '</style><script>alert(1)</script> [link](javascript:x) #read("/etc")'
    forme = demo_forme(EPISODES[0])
    edition = replace(
        forme.edition, title=nasty, assumed=(nasty,), sources=(HARD, *forme.edition.sources)
    )
    hostile = replace(forme, edition=edition, credits=(nasty,))
    text = page(hostile)
    assert "<script" not in text
    assert 'href="javascript' not in text
    job = made(hostile)["colophon/colophon.pdf"]
    assert isinstance(job, Setting)
    assert "alert" not in job.source
    copy = colophon_copy(hostile, words_in("en"))
    assert [source.link for source in copy.listed if source.id == HARD.id] == [""]
