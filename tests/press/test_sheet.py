"""The proof as one page: what stands on it, and that nothing in a recipe can break it."""

from __future__ import annotations

import re
import runpy
from dataclasses import replace
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest

from counterproof import numerals
from counterproof.marks import Mark
from counterproof.press.sheet import sheet
from counterproof.proof import Edition

EDITION: Edition = runpy.run_path(str(Path(__file__).with_name("sample_edition.py")))["EDITION"]
VOID = {"meta", "link", "br"}


class Page(HTMLParser):
    """The page as nested elements: text by row, classes, ids, headings, addresses."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[tuple[str, dict[str, str | None]]] = []
        self.rows: dict[str, str] = {}
        self.text = ""
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.feed(html)
        self.close()
        assert not self.open, "an element is left open"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.tags.append((tag, told))
        if tag not in VOID:
            self.open.append((tag, told))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop()[0] == tag

    def handle_data(self, data: str) -> None:
        kinds = [tag for tag, _ in self.open]
        if "style" in kinds or "title" in kinds or "desc" in kinds:
            return
        self.text += data
        for _, told in self.open:
            place = told.get("id") or ""
            if re.fullmatch(r"(?:line|step)-\d+", place):
                self.rows[place] = self.rows.get(place, "") + data


HTML = sheet(EDITION)
PAGE = Page(HTML)


def _plain(text: str) -> str:
    return " ".join(text.split())


def test_every_line_and_step_keeps_its_place() -> None:
    expected = [f"line-{line.number}" for line in EDITION.lines]
    expected += [f"step-{step.number}" for step in EDITION.steps]
    assert list(PAGE.rows) == expected
    for line in EDITION.lines:
        assert line.as_written in PAGE.rows[f"line-{line.number}"]
    for step in EDITION.steps:
        assert step.as_written in PAGE.rows[f"step-{step.number}"]


def test_every_number_beside_a_line_is_the_one_that_numerals_give() -> None:
    for line in EDITION.lines:
        row = _plain(PAGE.rows[f"line-{line.number}"])
        if line.mass_kg is not None:
            assert _plain(numerals.mass(line.mass_kg).text) in row
        if line.kgco2e is not None:
            told = numerals.shown(line.kgco2e)
            assert f"adds {told.middle} {_plain(told.unit)}, {told.span}" in row
            assert (f"median {told.median}" in row) is (told.median is not None)
    for step in EDITION.steps:
        row = _plain(PAGE.rows[f"step-{step.number}"])
        if step.kwh is not None:
            assert _plain(numerals.energy(step.kwh).text) in row


def test_the_total_and_each_version_are_shown_with_their_ranges() -> None:
    text = _plain(PAGE.text)
    for value in (EDITION.serving, *(version.serving for version in EDITION.versions)):
        told = numerals.shown(value)
        assert f"adds {told.middle} {_plain(told.unit)}, {told.span}" in text
    assert _plain(numerals.shown(EDITION.batch).text) in text


def test_every_footprint_leads_to_its_source() -> None:
    numbers = {source.id: place for place, source in enumerate(EDITION.sources, start=1)}
    targets = {told.get("id") for _, told in PAGE.tags}
    led = [told["href"] for tag, told in PAGE.tags if tag == "a" and told.get("class") == "ref"]
    assert led == [f"#source-{numbers[line.source]}" for line in EDITION.lines if line.source]
    assert {(address or "").lstrip("#") for address in led} <= targets


def test_a_line_without_a_footprint_says_why() -> None:
    assert "not counted: unknown food" in PAGE.rows["line-11"]
    bare = replace(EDITION.lines[0], kgco2e=None)
    page = Page(sheet(replace(EDITION, lines=(bare,))))
    assert "not counted: no factor is linked to this food" in page.rows["line-1"]


def test_each_doubt_offers_the_words_that_settle_it() -> None:
    for line in EDITION.lines:
        for mark in line.marks:
            row = PAGE.rows[f"line-{line.number}"]
            assert mark.message in row
            for choice in mark.choices:
                assert f"(meaning {choice})" in row
    assert "for 5 minutes" in PAGE.rows["step-3"]
    assert "(meaning for 5 minutes)" not in PAGE.text


def test_what_makes_the_total_judgeable_is_printed() -> None:
    text = _plain(PAGE.text)
    for words in (*EDITION.assumed, *EDITION.cautions):
        assert words in text
    for source in EDITION.sources:
        assert source.citation in text
        assert source.credit in text
    for value in EDITION.basis.values():
        assert str(value) in text
    for what, _ in EDITION.settle_next:
        assert what in text
    assert "No critical review; not a comparative assertion in the sense of ISO 14044." in text


def test_allergens_promise_nothing() -> None:
    text = _plain(PAGE.text)
    assert "gluten, milk, nuts" in text
    assert "cross-contact not assessed" in text
    assert "this statement is incomplete" in text
    bare = replace(EDITION, allergens_present=(), allergens_read_label=(), allergens_unknown=())
    none = _plain(Page(sheet(bare)).text)
    assert "None found among the ingredients as written; cross-contact not assessed." in none
    for page in (text, none):
        assert "free from" not in page.lower()
        assert "safe" not in page.lower().replace("food-safety", "")


def test_the_page_is_built_of_real_parts() -> None:
    tags = [tag for tag, _ in PAGE.tags]
    assert ("html", {"lang": "en"}) in PAGE.tags
    assert tags.count("h1") == tags.count("main") == 1
    headings = [int(tag[1]) for tag in tags if re.fullmatch(r"h[1-6]", tag)]
    assert all(after - before <= 1 for before, after in pairwise(headings))
    ids = [told["id"] for _, told in PAGE.tags if "id" in told and not _is_pattern(told)]
    assert len(ids) == len(set(ids))
    labels = [told["aria-labelledby"] for _, told in PAGE.tags if "aria-labelledby" in told]
    assert set(labels) <= set(ids)
    for tag, told in PAGE.tags:
        if tag == "svg" and told.get("aria-hidden") != "true":
            assert told.get("role") == "img"


def _is_pattern(told: dict[str, str | None]) -> bool:
    return (told.get("id") or "").startswith("hatching-")


def test_the_page_asks_nothing_of_the_outside() -> None:
    for tag, told in PAGE.tags:
        assert tag not in {"script", "iframe", "img", "object", "embed", "form"}
        assert "src" not in told
        assert not any(name.startswith("on") for name in told)
        if tag == "link":
            assert told["href"] == "data:,"
    css = HTML.partition("<style>")[2].partition("</style>")[0]
    assert "@import" not in css
    assert set(re.findall(r"url\(\"?([a-z]+:)", css)) == {"data:"}


def test_the_page_is_small_enough_to_send() -> None:
    assert len(HTML.encode()) < 400_000


@pytest.mark.property
def test_the_same_edition_gives_the_same_bytes() -> None:
    assert sheet(EDITION) == HTML


HOSTILE = "</p></style><script>alert(1)</script> {{ 7 * 7 }} <img src=x onerror=alert(1)> & \x1b[31m\u202e"


def _hostile() -> Edition:
    mark = Mark("doubt", "unknown-food", HOSTILE, (HOSTILE,))
    line = replace(
        EDITION.lines[0],
        as_written=HOSTILE, section=HOSTILE, quantity=HOSTILE, food=HOSTILE, factor=HOSTILE,
        fit="relative", runners_up=((HOSTILE, 0.5),), marks=(mark,),
    )  # fmt: skip
    step = replace(EDITION.steps[0], as_written=HOSTILE, understood=HOSTILE, section=HOSTILE)
    source = replace(
        EDITION.sources[0], citation=HOSTILE, address="javascript:alert(1)", credit=HOSTILE
    )
    version = replace(EDITION.versions[1], name=HOSTILE, changes=(HOSTILE,))
    return replace(
        EDITION,
        title=HOSTILE, version=HOSTILE, lines=(line,), steps=(step,), marks=(mark,),
        sources=(source,), versions=(version,), assumed=(HOSTILE,), cautions=(HOSTILE,),
        settle_next=((HOSTILE, 0.5),), allergens_unknown=(HOSTILE,), basis={"gwp": HOSTILE},
        second_opinion=((HOSTILE, 1.0, 0.9),), serving_name="one serving",
    )  # fmt: skip


def test_hostile_text_is_shown_as_text() -> None:
    html = sheet(_hostile())
    page = Page(html)
    assert not {"script", "img"} & {tag for tag, _ in page.tags}
    assert "alert(1)" in page.text
    assert "{{ 7 * 7 }}" in page.text
    assert not any((told.get("href") or "").startswith("javascript") for _, told in page.tags)
    for sign in ("\x1b", "\u202e"):
        assert sign not in html


def test_an_edition_with_next_to_nothing_can_be_set() -> None:
    line = replace(
        EDITION.lines[0], kgco2e=None, mass_kg=None, food=None, factor=None, quantity="", marks=()
    )
    nothing = replace(
        EDITION,
        lines=(line,), steps=(), marks=(), stages=(), versions=(), second_opinion=(),
        settle_next=(), assumed=(), cautions=(), sources=(), basis={}, per={}, coverage_by_fit={},
        serving_mass_kg=None,
    )  # fmt: skip
    page = Page(sheet(nothing))
    assert "not counted: no food was recognised" in page.rows["line-1"]
    assert "Method" not in page.text
