"""The handout: every place of its controls, complete without scripts, nothing from outside."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Iterator
from dataclasses import replace
from hashlib import sha256
from html.parser import HTMLParser

import pytest

from counterproof import numerals
from counterproof.adapters.files import demo_season, episodes
from counterproof.forme import Forme
from counterproof.press.fixed_words import words_in
from counterproof.press.handout import handout, pieces

EPISODES = [episode.name for episode in episodes(demo_season())]
MadeForme = Callable[..., Forme]


class Read(HTMLParser):
    """Sections with whether they are hidden, rows of tables, and where things come from."""

    def __init__(self) -> None:
        super().__init__()
        self.sections: list[tuple[str, bool]] = []
        self.rows: list[list[str]] = []
        self.addresses: list[str] = []
        self.policy = ""
        self._cell = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.addresses += [str(value) for name, value in attrs if name in {"src", "href", "action"}]
        if tag == "section":
            self.sections.append((str(told["data-place"]), "hidden" in told))
        if tag == "meta" and told.get("http-equiv") == "Content-Security-Policy":
            self.policy = str(told["content"])
        if tag == "tr":
            self.rows.append([])
        if tag in {"td", "th"}:
            self.rows[-1].append("")
            self._cell = True

    def handle_endtag(self, tag: str) -> None:
        if tag in {"td", "th"}:
            self._cell = False

    def handle_data(self, data: str) -> None:
        if self._cell:
            self.rows[-1][-1] += data


def read(forme: Forme, language: str = "en") -> tuple[str, Read]:
    page = handout(forme, words_in(language)).decode()
    found = Read()
    found.feed(page)
    return page, found


def every_place(forme: Forme) -> Iterator[str]:
    versions = list(dict.fromkeys(position.version for position in forme.positions))
    serves = sorted({position.serves for position in forme.positions})
    for position in forme.positions:
        yield f"{versions.index(position.version)}-{serves.index(position.serves)}"


@pytest.mark.parametrize("episode", EPISODES)
def test_every_place_is_there_and_one_is_shown(episode: str, demo_forme: MadeForme) -> None:
    forme = demo_forme(episode)
    _, found = read(forme)
    assert [name for name, _ in found.sections] == list(every_place(forme))
    assert [hidden for _, hidden in found.sections].count(False) == 1
    shown = next(name for name, hidden in found.sections if not hidden)
    serves = sorted({position.serves for position in forme.positions})
    assert shown == f"0-{serves.index(forme.edition.serves)}"


@pytest.mark.parametrize("episode", EPISODES)
def test_the_table_holds_every_place_as_the_proof_prints_it(
    episode: str, demo_forme: MadeForme
) -> None:
    forme = demo_forme(episode)
    middle = forme.edition.middle
    _, found = read(forme)
    rows = [row[1:] for row in found.rows if len(row) == 5]
    for position in forme.positions:
        value = numerals.shown(position.serving, middle)
        ratio = "–" if position.ratio is None else numerals.plain(position.ratio)
        lower = "–" if position.share_lower is None else numerals.percent(position.share_lower)
        assert [value.middle, value.span, ratio, lower] in rows


@pytest.mark.parametrize("episode", EPISODES)
def test_the_recipes_own_place_is_the_proof(episode: str, demo_forme: MadeForme) -> None:
    forme = demo_forme(episode)
    edition = forme.edition
    own = {one.version: one for one in forme.positions if one.serves == edition.serves}
    assert own[""].serving == edition.serving
    assert own[""].batch == edition.batch
    assert own[""].stages == edition.stages
    for version in edition.versions:
        if version.difference is not None:
            place = own[version.name]
            assert place.serving == version.serving
            assert (place.ratio, place.share_lower) == (version.ratio, version.share_lower)


def test_nothing_comes_from_outside_and_the_policy_says_so(demo_forme: MadeForme) -> None:
    page, found = read(demo_forme(EPISODES[0]))
    assert found.addresses == []
    (style,) = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
    (script,) = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    for kind, part in (("style-src", style), ("script-src", script)):
        checksum = b64encode(sha256(part.encode()).digest()).decode()
        assert f"{kind} 'sha256-{checksum}'" in found.policy
    assert "default-src 'none'" in found.policy
    assert "unsafe" not in found.policy
    assert not re.search(r'\sstyle="|\son[a-z]+="', page)


def test_hostile_text_is_shown_as_text(demo_forme: MadeForme) -> None:
    forme = demo_forme(EPISODES[0])
    evil = "</script><script>alert(1)</script>"
    positions = tuple(
        replace(one, version=one.version and evil, changes=(evil,) if one.version else ())
        for one in forme.positions
        if one.version in {"", "chicken"}
    )
    hostile = replace(forme, positions=positions, edition=replace(forme.edition, title=evil))
    page, found = read(hostile)
    assert "alert(1)</script>" not in page
    assert page.count("<script>") == 1
    assert any(evil in row[0] for row in found.rows)


def test_a_recipe_alone_has_one_control(demo_forme: MadeForme) -> None:
    forme = demo_forme(EPISODES[0])
    alone = tuple(one for one in forme.positions if not one.version)
    page, _ = read(replace(forme, positions=alone))
    assert page.count('type="radio"') == 1
    assert "no versions" in page
    assert pieces(replace(forme, positions=()), words_in("en")) == ()


def test_german_words_and_figures(demo_forme: MadeForme) -> None:
    page, found = read(demo_forme(EPISODES[0]), "de")
    assert '<html lang="de">' in page
    value = numerals.shown(demo_forme(EPISODES[0]).edition.serving).middle.replace(".", ",")
    assert any(value in row for row in found.rows)
    assert handout(demo_forme(EPISODES[0]), words_in("de")) == page.encode()
