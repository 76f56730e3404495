"""The type put into the page."""

from __future__ import annotations

import io

import pytest
from fontTools.ttLib import TTFont  # type: ignore[import-untyped] # it ships no types

from counterproof.press.fonts import FACES, Face, cut, font_faces

FIGURES = "0123456789"


def _cut(face: Face, characters: str) -> TTFont:
    return TTFont(io.BytesIO(cut(face, characters)))


@pytest.mark.parametrize("face", FACES, ids=lambda face: face.file)
def test_a_cut_face_carries_our_name_and_its_licence(face: Face) -> None:
    # SIL Open Font License 1.1, clause 3: a modified version may not use the reserved name;
    # clause 2: each copy holds the copyright notice and the licence.
    names = {record.nameID: str(record) for record in _cut(face, FIGURES)["name"].names}
    assert names[1] == face.family
    assert not any("Source" in names[key] for key in (1, 2, 4, 6))
    assert "SIL Open Font License" in names[13]
    assert names[0]


@pytest.mark.parametrize("face", FACES, ids=lambda face: face.file)
def test_figures_are_tabular(face: Face) -> None:
    font = _cut(face, FIGURES)
    characters = font.getBestCmap()
    assert len({font["hmtx"][characters[ord(figure)]][0] for figure in FIGURES}) == 1


def test_only_what_is_set_is_in_the_page() -> None:
    small, large = cut(FACES[0], "abc"), cut(FACES[0], "abcdefghijklmnopqrstuvwxyz")
    assert len(small) < len(large)
    assert set(TTFont(io.BytesIO(small)).getBestCmap()) == {ord(sign) for sign in "abc"}


@pytest.mark.property
def test_the_same_characters_give_the_same_bytes() -> None:
    assert font_faces("stew ½₂") == font_faces("₂½ wets")


def test_a_character_that_no_face_has_is_left_to_the_reader() -> None:
    assert cut(FACES[0], "a\N{HOT PEPPER}")
