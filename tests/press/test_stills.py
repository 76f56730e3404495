"""Every still of every demo episode: nothing cut, nothing overlapping, nothing from outside."""

from __future__ import annotations

import csv
import io
import json
import re
import struct
import zlib
from collections.abc import Callable
from dataclasses import replace
from itertools import combinations, pairwise
from xml.etree import ElementTree as ET

import pytest

from counterproof.adapters.files import demo_season, episodes, read_recipe
from counterproof.adapters.typst_setting import composing_room
from counterproof.draws import Range, Streams
from counterproof.forme import Forme
from counterproof.life_cycle_rows import FATES
from counterproof.locking_up import Manuscript, locked_up
from counterproof.press import figures_table, hatching
from counterproof.press.fixed_words import LANGUAGES, words_in
from counterproof.press.part import Piece, Setting
from counterproof.press.stills import pulling, share_card
from counterproof.press.stills.plate import CUTS, INKS, LEAST_TYPE, TALL, WIDE, Plate
from counterproof.press.stills.stages import spread
from counterproof.press.stills.subject import Copy
from counterproof.proof import VersionProof
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import STAGES
from counterproof.use_cases import Order, Workbench
from counterproof.vetting_cases import Episode

EPISODES = [episode.name for episode in episodes(demo_season())]
MadeForme = Callable[..., Forme]
SVG = "{http://www.w3.org/2000/svg}"
LEAST_CONTRAST = 4.5
"""WCAG 2.1, success criterion 1.4.3."""


def plates(forme: Forme, language: str = "en") -> dict[tuple[str, str], Plate]:
    """Every still on its plate."""
    copy = Copy(forme, words_in(language))
    made, _ = pulling.subjects(copy)
    return {
        (subject.kind, cut.name): pulling.drawn(copy, subject, cut)
        for subject in made
        for cut in CUTS
    }


def hold(plate: Plate, name: object) -> None:
    """Words lie inside the safe area, none over another, none too small to read."""
    assert plate.written
    for one in plate.written:
        assert one.box.within(plate.cut.safe), (name, one.words)
        assert one.size >= LEAST_TYPE, (name, one.words)
    for one, other in combinations(plate.written, 2):
        assert not one.box.meets(other.box), (name, one.words, other.words)


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("episode", EPISODES)
def test_every_word_stands_clear_inside_the_safe_area(
    episode: str, language: str, demo_forme: MadeForme
) -> None:
    found = plates(demo_forme(episode), language)
    assert {kind for kind, _ in found} >= {"total", "stages", "likenesses"}
    for name, plate in found.items():
        hold(plate, name)
        assert not any(one.words.endswith("…") for one in plate.written), name


def crowded(forme: Forme, versions: int) -> Forme:
    """The same with a long title and many versions of long names."""
    edition = forme.edition
    made = [
        VersionProof(
            f"version {at} with a rather long name that a cook might give it",
            (),
            Range(0.4 * at, 0.3 * at, 0.39 * at, 0.6 * at),
            Range(0.4 * at - edition.serving.mean, -0.2, 0.1, 3.0),
            0.7 * at,
            0.04 * at,
            "global",
        )
        for at in range(1, versions)
    ]
    title = "A dish whose name goes on and on, as the names of dishes in old cookery books do, " * 2
    own = VersionProof("as written", (), edition.serving, None, None, None, None)
    return replace(
        forme, edition=replace(edition, title=title.strip(), versions=(own, *made)), likened=()
    )


@pytest.mark.parametrize("versions", [2, 4, 5, 7, 12, 13])
def test_twelve_versions_and_a_long_title_find_room(versions: int, demo_forme: MadeForme) -> None:
    for name, plate in plates(crowded(demo_forme(EPISODES[0]), versions)).items():
        hold(plate, name)
        if name[0] == "swaps":
            values = [one for one in plate.written if one.words in {"0.40", "0.4"}]
            assert values


def test_a_total_of_other_factors_is_not_set_beside_the_recipes(demo_forme: MadeForme) -> None:
    forme = crowded(demo_forme(EPISODES[0]), 3)
    own, same, other = forme.edition.versions
    apart = replace(
        other, serving=Range(0.73, 0.7, 0.73, 0.76), difference=Range(9.0, 8.0, 9.0, 10.0)
    )
    shown = replace(forme, edition=replace(forme.edition, versions=(own, same, apart)))
    for (kind, _), plate in plates(shown).items():
        if kind == "swaps":
            words = {one.words for one in plate.written}
            assert {"0.40", "0.4"} & words  # its own factors are the recipe's
            assert not {"0.73", "0.730"} & words  # these are not
            assert "–" in words


def test_signs_our_faces_lack_are_marked(demo_forme: MadeForme) -> None:
    forme = demo_forme(EPISODES[0])
    forme = replace(forme, edition=replace(forme.edition, title="白菜 stew\n=evil"))
    for name, plate in plates(forme).items():
        hold(plate, name)
        assert any("◊◊ stew" in one.words for one in plate.written)
    listed = {piece.name: piece.content for piece in pulling.pieces(forme, words_in("en"))}
    text = listed["stills/stills.txt"]
    assert isinstance(text, bytes)
    assert "U+767D, U+83DC" in text.decode()


def test_a_still_that_has_nothing_to_show_says_why(demo_forme: MadeForme) -> None:
    forme = demo_forme(EPISODES[0])
    edition = replace(
        forme.edition, versions=(), packaging=None, stages=(), serving=Range(0, 0, 0, 0)
    )
    bare = replace(forme, edition=edition, likened=(), courses=())
    made, absent = pulling.subjects(Copy(bare, words_in("en")))
    assert [one.kind for one in made] == ["total"]
    assert [one.kind for one in absent] == ["swaps", "stages", "likenesses", "packs", "cooling"]
    assert all(one.why.endswith(".") for one in absent)
    pieces = {piece.name: piece.content for piece in pulling.pieces(bare, words_in("en"))}
    assert not any(name.startswith("stills/packs") for name in pieces)
    told = pieces["stills/stills.json"]
    assert isinstance(told, bytes)
    assert [one["kind"] for one in json.loads(told)["not_made"]] == [one.kind for one in absent]


def test_one_ingredient_and_no_servings_are_enough(bench: Workbench) -> None:
    recipe = read_recipe(b"# Toast\n\n- 1 slice bread\n", "toast.md")
    order = Order(recipe, Kitchen(), name=recipe.title)
    streams = Streams(seed=1, n=500)
    forme = locked_up(Manuscript(Episode(order)), bench, streams, date="2026-11-25")
    for name, plate in plates(forme).items():
        hold(plate, name)


def test_a_stage_below_zero_stands_beyond_the_zero_rule(demo_forme: MadeForme) -> None:
    forme = demo_forme(EPISODES[0])
    stages = (*forme.edition.stages[:-1], ("end of life", Range(-0.08, -0.2, -0.07, 0.01)))
    serving = Range(-0.05, -0.4, -0.04, 0.2)
    beyond = replace(forme, edition=replace(forme.edition, stages=stages, serving=serving))
    for name, plate in plates(beyond).items():
        hold(plate, name)
        if name[0] == "stages":
            assert any(one.words.startswith("\N{MINUS SIGN}") for one in plate.written)


def luminance(colour: str) -> float:
    """Relative luminance of a colour, WCAG 2.1 (definition of relative luminance)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.published
def test_every_word_can_be_read_without_colour(demo_forme: MadeForme) -> None:
    # Contrast is of luminance alone, so it holds in greyscale and for every colour vision.
    paper = luminance(INKS.paper)
    for plate in plates(demo_forme(EPISODES[1])).values():
        for one in plate.written:
            ratio = (paper + 0.05) / (luminance(one.colour) + 0.05)
            assert ratio >= LEAST_CONTRAST, one.words


def test_stages_and_fates_are_told_apart_by_their_hatching_alone() -> None:
    for names in (STAGES, FATES):
        drawn = ET.fromstring(  # noqa: S314 (our own drawing)
            f'<svg xmlns="http://www.w3.org/2000/svg">{hatching.patterns(INKS, names, 3.0)}</svg>'
        )
        strokes = {
            pattern.get("id"): pattern[0].get("d") for pattern in drawn.iter(f"{SVG}pattern")
        }
        assert len(set(strokes.values())) == len(names) == len(strokes)
        assert {path.get("stroke") for path in drawn.iter(f"{SVG}path")} == {INKS.ink}


@pytest.mark.parametrize("overlay", [False, True])
def test_a_still_needs_nothing_from_outside(overlay: bool, demo_forme: MadeForme) -> None:
    for plate in plates(demo_forme(EPISODES[1])).values():
        drawn = plate.pulled("What it says", "What it shows <&>", overlay=overlay)
        root = ET.fromstring(drawn)  # noqa: S314 (our own drawing, read by a parser not ours)
        assert root.get("viewBox") == f"0 0 {plate.cut.width} {plate.cut.height}"
        assert [root.findtext(f"{SVG}{name}") for name in ("title", "desc")] == ["What it says", "What it shows <&>"]  # fmt: skip
        assert not list(root.iter(f"{SVG}text"))
        assert "font" not in drawn
        assert "href" not in drawn
        for found in re.findall(r"url\(([^)]*)\)", drawn):
            assert f'id="{found.removeprefix("#")}"' in drawn


def header(png: bytes) -> tuple[int, int, int, bytes]:
    """Width, height, colour type and first pixel of a PNG (ISO/IEC 15948)."""
    assert png.startswith(b"\x89PNG\r\n\x1a\n")
    wide, high, depth, colour = struct.unpack(">IIBB", png[16:26])
    assert depth == 8
    at, data = 8, b""
    while at < len(png):
        (long,) = struct.unpack(">I", png[at : at + 4])
        if png[at + 4 : at + 8] == b"IDAT":
            data += png[at + 8 : at + 8 + long]
        at += 12 + long
    # the first pixel of the first row is stored as it is, whatever the row's filter
    return wide, high, colour, zlib.decompressobj().decompress(data, 5)[1:5]


def test_pictures_have_their_size_and_an_overlay_is_open_between_its_slips(
    demo_forme: MadeForme,
) -> None:
    pieces = [
        piece
        for piece in pulling.pieces(demo_forme(EPISODES[1]), words_in("en"))
        if piece.name.startswith(("stills/total", pulling.SHARED)) and piece.name.endswith(".png")
    ]
    assert len(pieces) == 5
    with composing_room("2026-11-25") as set_job:
        for piece in pieces:
            assert isinstance(piece.content, Setting)
            wide, high, colour, pixel = header(set_job(piece.name, piece.content))
            size = (share_card.WIDE, share_card.HIGH)
            for cut in CUTS:
                size = (cut.width, cut.height) if cut.name in piece.name else size
            assert (wide, high) == size
            assert colour == 6  # with an alpha channel
            clear = "overlay" in piece.name
            assert pixel == (b"\0\0\0\0" if clear else bytes.fromhex(INKS.paper[1:]) + b"\xff")


def test_the_share_card_keeps_its_words_clear(demo_forme: MadeForme) -> None:
    for episode in EPISODES:
        for forme in (demo_forme(episode), crowded(demo_forme(episode), 3)):
            plate = share_card.plated(Copy(forme, words_in("en")))
            for one in plate.written:
                assert one.box.within(plate.cut.safe), one.words
            for one, other in combinations(plate.written, 2):
                assert not one.box.meets(other.box), (one.words, other.words)


@pytest.mark.published
def test_words_keep_to_the_safe_area_of_broadcasting() -> None:
    # EBU R 95, graphics safe: 5 % in from every edge of a 16:9 picture (value from memory).
    assert (WIDE.safe.left, WIDE.safe.top) == (96.0, 54.0)
    assert (WIDE.safe.right, WIDE.safe.bottom) == pytest.approx((1824.0, 1026.0))
    assert TALL.safe.left == 54.0


@pytest.mark.parametrize("episode", EPISODES)
def test_the_numbers_beside_a_still_are_those_of_the_proof(
    episode: str, demo_forme: MadeForme
) -> None:
    forme = demo_forme(episode)
    whole = list(csv.DictReader(io.StringIO(figures_table.as_csv(forme.edition).decode())))
    copy = Copy(forme, words_in("en"))
    made, _ = pulling.subjects(copy)
    pieces = {piece.name: piece.content for piece in pulling.pieces(forme, copy.words)}
    for subject in made:
        content = pieces[f"stills/{subject.kind}.csv"]
        assert isinstance(content, bytes)
        rows = list(csv.DictReader(io.StringIO(content.decode())))
        assert [row for row in whole if row["key"] in subject.keys] == rows
        shown = [one.words for one in pulling.drawn(copy, subject, WIDE).written]
        for key in subject.keys:
            if not key.startswith("share:"):  # told in words with the ratio, under one number
                assert copy.number(key) in shown, key
        assert subject.alt
        assert subject.spoken.endswith(".")


def test_the_same_forme_gives_the_same_stills(demo_forme: MadeForme) -> None:
    def contents() -> list[Piece]:
        return list(pulling.pieces(demo_forme(EPISODES[2]), words_in("de")))

    assert contents() == contents()


@pytest.mark.property
def test_words_beside_a_strip_keep_apart_and_in_order() -> None:
    for wanted in ([5.0, 6.0, 7.0], [0.0, 50.0, 99.0], [98.0, 99.0, 100.0]):
        places = spread(wanted, 30.0, 0.0, 100.0)
        assert places[0] >= 15.0 - 1e-9
        assert places[-1] <= 85.0 + 1e-9
        for one, other in pairwise(places):
            assert other - one >= 30.0 - 1e-9
