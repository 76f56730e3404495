"""Setting by Typst: our faces only, fresh folders, the same bytes for the same day."""

from __future__ import annotations

import struct
import tempfile
from pathlib import Path

import pytest
import typst

from counterproof.adapters.typst_setting import composing_room
from counterproof.errors import SettingFailed
from counterproof.press.lettering import FACES
from counterproof.press.part import ACCESSIBLE, SANS_FACE, SERIF_FACE, Setting, picture

DAY = "2026-11-25"
PAGE = """#import "house.typ": *
#let told = json("told.json")
#show: house.with(title: told.title, lang: "en")
#heading(told.title)
#told.words
"""


def page(words: str) -> Setting:
    """A page that says something."""
    asset = f'{{"title": "Stew", "words": "{words}"}}'.encode()
    return Setting(PAGE, {"told.json": asset}, standards=ACCESSIBLE)


def drawing(words: str) -> str:
    """A drawing with type in it."""
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 180" width="320" height="180">'
        f'<text x="10" y="90" font-family="{SANS_FACE}" font-size="40">{words}</text></svg>'
    )


def test_the_same_job_gives_the_same_bytes_in_another_room() -> None:
    with composing_room(DAY) as first, composing_room(DAY) as second:
        assert first("page.pdf", page("one")) == second("page.pdf", page("one"))


def test_the_day_is_an_argument() -> None:
    with composing_room(DAY) as first, composing_room("2026-11-26") as second:
        assert first("page.pdf", page("one")) != second("page.pdf", page("one"))


def test_two_jobs_with_assets_of_one_name_do_not_mix() -> None:
    with composing_room(DAY) as set_job:
        one = set_job("one.png", picture(drawing("one"), width=320, height=180))
        two = set_job("two.png", picture(drawing("two"), width=320, height=180))
        again = set_job("one.png", picture(drawing("one"), width=320, height=180))
    assert one != two
    assert one == again


def test_a_picture_has_the_size_that_was_asked() -> None:
    with composing_room(DAY) as set_job:
        made = set_job("still.png", picture(drawing("still"), width=320, height=180))
    assert struct.unpack(">II", made[16:24]) == (320, 180)  # PNG, IHDR: width, height


def test_our_faces_carry_the_names_that_settings_use(tmp_path: Path) -> None:
    from importlib.resources import files  # noqa: PLC0415 (this test alone looks into the packages)

    for package, file in FACES:
        (tmp_path / file).write_bytes(files(package).joinpath("files", file).read_bytes())
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(tmp_path)]
    )
    found = {(font.family, font.style, font.weight) for font in fonts.fonts()}
    assert found == {
        (family, *cut)
        for family in (SERIF_FACE, SANS_FACE)
        for cut in (("normal", 400), ("italic", 400), ("normal", 600))
    }


@pytest.mark.parametrize(
    ("source", "why"),
    [
        ('#text(font: "No Such Face")[x]', "unknown font family"),
        ('#image("../../../etc/hostname.svg")', "cannot|not found|outside|denied"),
        ("#let x = (", "unclosed|expected"),
    ],
)
def test_what_typst_refuses_or_warns_of_is_one_clear_error(source: str, why: str) -> None:
    job = Setting(f'#set document(title: "t")\n{source}')
    with composing_room(DAY) as set_job, pytest.raises(SettingFailed, match=why) as caught:
        set_job("card/card.pdf", job)
    assert caught.value.file == "card/card.pdf"
    assert tempfile.gettempdir() not in caught.value.message


def test_a_picture_without_words_is_refused_on_an_accessible_page() -> None:
    source = '#set document(title: "t")\n#image("drawing.svg")'
    job = Setting(source, {"drawing.svg": drawing("x").encode()}, standards=ACCESSIBLE)
    with composing_room(DAY) as set_job, pytest.raises(SettingFailed, match="alt"):
        set_job("page.pdf", job)


def test_a_picture_of_two_pages_is_refused() -> None:
    job = Setting("one\n#pagebreak()\ntwo", format="png")
    with composing_room(DAY) as set_job, pytest.raises(SettingFailed, match="more than one page"):
        set_job("still.png", job)


def test_nothing_is_left_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    with composing_room(DAY) as set_job:
        set_job("page.pdf", page("one"))
    assert list(tmp_path.iterdir()) == []
