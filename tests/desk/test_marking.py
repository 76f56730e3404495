"""Marks in stages: what each changes on the page, and that stale ones are dropped."""

from __future__ import annotations

import asyncio
import json
import re
from concurrent.futures import ThreadPoolExecutor
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from counterproof.desk.explaining import derivation, explained
from counterproof.desk.marking import Asked, Marker
from counterproof.desk.opened import opened
from counterproof.errors import UnreadableFile

Asking = Any
EPISODE = "01-barley-pot"


class Unexplained(HTMLParser):
    """The words of a piece of the page that hold a digit and open no derivation."""

    VOID = frozenset({"br", "input", "path", "line", "circle", "rect", "meta", "link", "ellipse"})

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[tuple[str, dict[str, str | None]]] = []
        self.found: list[str] = []
        self.keys: set[str] = set()
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        if key := told.get("data-why"):
            self.keys.add(key)
        if tag not in self.VOID:
            self.open.append((tag, told))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        pass

    def handle_endtag(self, tag: str) -> None:
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        if not re.search(r"[0-9]", data):
            return
        for tag, told in self.open:
            if "data-why" in told or "data-quoted" in told or tag in {"title", "desc", "svg"}:
                return
        self.found.append(data)


def marked(asking: Asking, **more: Any) -> list[dict[str, Any]]:
    """The stages of the recipe as it stands."""
    told = asking.page()
    asked = {"tab": "a", "revision": 1, "name": EPISODE, "text": told["text"], "over": told["over"], "fresh": True}  # fmt: skip
    answer = asking.client.post("/marks", json={**asked, **more})
    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"].startswith("application/x-ndjson")
    return [json.loads(line) for line in answer.text.splitlines()]


def at(asking: Asking, words: str) -> str:
    """The line of the file that holds some words, as the desk counts."""
    lines = asking.page()["text"].split("\n")
    return str(next(place for place, line in enumerate(lines, 1) if words in line))


def test_reading_comes_first_then_footprints_then_versions_then_pictures(asking: Asking) -> None:
    stages = marked(asking)
    assert [stage["stage"] for stage in stages] == ["read", "valued", "beside", "pictured"]
    read, valued, beside, pictured = stages
    barley = at(asking, "pearl barley")
    assert "pearl barley" in read["rows"][barley]
    assert "200" in read["rows"][barley]
    assert "kg" in valued["right"][barley]
    assert "lamb" in beside["under"]["versions"]
    assert "lamb" not in valued["under"]["total"]
    assert "versions" not in valued["under"]
    assert "to scale" in pictured["under"]["likenesses"]
    assert all(stage["revision"] == 1 for stage in stages)


def test_a_doubt_offers_the_line_as_it_reads_once_settled(asking: Asking) -> None:
    text = asking.page()["text"].replace("- 2 onions, chopped", "*   2 tins tomato soop")
    rows = marked(asking, text=text)[0]["rows"]
    choices = [choice for row in rows.values() for choice in re.findall(r'data-settled="([^"]*)"', row)]  # fmt: skip
    assert choices
    assert all(re.search(r"\(meaning .+\)$", choice) for choice in choices)


def test_every_mark_stands_beside_its_own_line(asking: Asking) -> None:
    read, valued = marked(asking)[:2]
    zorbs = at(asking, "zorbs")
    assert "mark fault" in read["rows"][zorbs]
    assert "not counted" in valued["right"][zorbs]
    lines = asking.page()["text"].split("\n")
    for row in (read["rows"], valued["facts"], valued["right"]):
        for place in row:
            assert lines[int(place) - 1].lstrip().startswith(("-", "1.", "2."))


def test_what_runs_over_several_lines_has_its_footprint_beside_the_last(asking: Asking) -> None:
    text = asking.page()["text"].replace("2 onions, chopped", "2 onions,\n  chopped very\n  small")
    read, valued = marked(asking, text=text)[:2]
    first = text.split("\n").index("- 2 onions,") + 1
    assert str(first) in read["rows"]
    assert str(first) not in valued["right"]
    assert str(first + 2) in valued["right"]


def test_a_fault_in_the_settings_is_told_with_its_line(asking: Asking) -> None:
    text = asking.page()["text"].replace("measures: uk", "measures: [")
    (stage,) = marked(asking, text=text)
    assert stage["stage"] == "fault"
    assert stage["line"] in {2, 3, 4}
    assert stage["remedy"]


def test_every_digit_opens_a_derivation_and_every_derivation_is_there(asking: Asking) -> None:
    stages = marked(asking)
    html = "".join(
        piece
        for stage in stages
        for part in ("rows", "facts", "right", "under")
        for piece in stage.get(part, {}).values()
    )
    page = Unexplained(html + stages[1]["head"])
    assert page.found == []
    assert len(page.keys) > 40
    told = asking.desk.marker.told(asking.folder.leaf(EPISODE))
    assert told is not None
    for key in page.keys:
        assert derivation(told.edition, key, told.more) is not None, key
        answer = asking.client.get("/why", params={"name": EPISODE, "key": key})
        assert answer.status_code == 200, key
        assert 'id="why-head"' in answer.json()["html"]


def test_every_digit_beside_a_script_opens_a_derivation(asking: Asking) -> None:
    told = asking.page("/leaf/script")
    asked = {"tab": "s", "revision": 1, "name": EPISODE, "text": told["text"], "over": told["over"], "fresh": True}  # fmt: skip
    answer = asking.client.post("/vetted", json=asked)
    (stage,) = [json.loads(line) for line in answer.text.splitlines()]
    assert 'data-why="serving"' in " ".join(stage["rows"].values())
    assert "holds" in " ".join(stage["right"].values())
    pieces = [*stage["rows"].values(), *stage["right"].values(), *stage["under"].values()]
    page = Unexplained("".join(pieces))
    assert page.found == []
    for key in page.keys:
        assert asking.client.get("/why", params={"name": EPISODE, "key": key}).status_code == 200


def test_a_number_that_is_not_there_is_said_so(asking: Asking) -> None:
    marked(asking)
    told = asking.desk.marker.told(asking.folder.leaf(EPISODE))
    for key in ("line:99", "", "nothing", "assumed:0", "task:x", "<script>"):
        with pytest.raises(UnreadableFile):
            explained(told.edition, key)
        assert asking.client.get("/why", params={"name": EPISODE, "key": key}).status_code == 422


def test_words_of_the_recipe_never_become_mark_up(asking: Asking) -> None:
    bad = "<img src=x onerror=alert(1)>"
    text = asking.page()["text"].replace("Barley pot", bad).replace("pearl barley", f"pearl barley {bad}")  # fmt: skip
    text = text.replace("frobnicated zorbs", bad).replace("lamb:", '"<b>lamb</b>":')
    for stage in marked(asking, text=text):
        del stage["revision"]
        for told in ("title", "said"):  # set as text, never as mark-up
            stage.pop(told, None)
        assert "<img" not in json.dumps(stage)
        assert "<b>lamb" not in json.dumps(stage)


def test_a_newer_text_makes_an_older_one_stale(season: Path) -> None:
    folder = opened(str(season))
    leaf = folder.leaf(None)
    text = leaf.recipe.read_text()
    marker = Marker(draws=200)

    async def gathered(revision: int) -> list[str]:
        asked = Asked("tab", revision, leaf, text.replace("200 g", f"{200 + revision} g"))
        return [stage["stage"] async for stage in marker.stages(asked, folder)]

    async def typed() -> list[list[str]]:
        tasks = []
        for revision in range(1, 9):
            tasks.append(asyncio.create_task(gathered(revision)))
            await asyncio.sleep(0.01)
        return await asyncio.gather(*tasks)

    with ThreadPoolExecutor(1) as apart:  # the browser's tests keep a loop running in this one
        found = apart.submit(asyncio.run, typed()).result()
    marker.close()
    assert found[-1] == ["read", "valued", "beside", "pictured"]
    assert all("beside" not in stages for stages in found[:-1])


def test_a_line_of_which_one_food_has_no_weight_is_explained_too(asking: Asking) -> None:
    text = asking.page()["text"].replace("- 2 onions", "- salt, pepper and stock\n- 2 onions")
    stages = marked(asking, text=text)
    assert stages[-1]["stage"] == "pictured"
    told = asking.desk.marker.told(asking.folder.leaf(EPISODE))
    found = {one.key: one for one in told.edition.derivations}
    assert found["mass:2"].value.mean > 0


def test_a_fault_of_our_own_is_told_and_the_page_goes_on(
    asking: Asking, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise IndexError

    monkeypatch.setattr("counterproof.desk.marking.valued_stage", broken)
    read, fault = marked(asking)
    assert (read["stage"], fault["stage"]) == ("read", "fault")
    assert "IndexError" in fault["message"]
    assert "could not be marked" in caplog.text
    monkeypatch.undo()
    assert marked(asking)[-1]["stage"] == "pictured"


def test_two_pages_do_not_make_each_other_stale(season: Path) -> None:
    folder = opened(str(season))
    leaf = folder.leaf(None)
    marker = Marker(draws=200)
    one, other = (Asked(tab, at, leaf, leaf.recipe.read_text()) for tab, at in (("a", 1), ("b", 9)))
    marker._note(one)
    marker._note(other)
    assert not marker.stale(one)
    assert not marker.stale(other)
    marker.close()


def test_marking_drafts_what_is_typed(asking: Asking) -> None:
    told = asking.page()
    text = told["text"] + "\nA last word.\n"
    marked(asking, text=text, fresh=False)
    draft = asking.recipe.with_name(".recipe.md.draft")
    assert json.loads(draft.read_text())["text"] == text
    assert draft.stat().st_mode & 0o777 == 0o600


def test_a_derivation_never_rounds_a_number_another_way(asking: Asking) -> None:
    stages = marked(asking)
    told = asking.desk.marker.told(asking.folder.leaf(EPISODE))
    total = re.search(r"([\d.]+)\s*kg", stages[1]["said"])
    assert total is not None
    html = explained(told.edition, "serving")
    assert f">{total[1]}" in html.replace("\xa0", " ")
    for found in told.edition.derivations:
        page = explained(told.edition, found.key)
        head = re.search(r'class="sum" data-quoted>([^<]*)<', page)
        line = re.search(r'class="lead" data-quoted>([^<]*)<', page)
        if head is None or line is None:
            continue
        span = re.search(r"\(([^)]*)\)", head[1])
        assert span is not None or head[1].replace("\xa0", " ").split()[0] in line[1]
        if span is not None:
            assert span[1] in line[1]
