"""Packs, fizz and what else stands around a recipe: the same words and numbers on every surface."""

from __future__ import annotations

import io
import re
import runpy
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from rich.console import Console

from counterproof import numerals
from counterproof.adapters.terminal import print_proof
from counterproof.draws import Range
from counterproof.life_cycle_rows import FATES
from counterproof.press import around, hatching, packs
from counterproof.press.intervals import line_scale
from counterproof.press.sheet import sheet
from counterproof.proof import ActivityProof, ApartProof, Edition, FizzProof, PackagingProof

SAMPLE: Edition = runpy.run_path(str(Path(__file__).with_name("sample_edition.py")))["EDITION"]
JAR = Range(0.010, 0.006, 0.009, 0.015)
COLD = Range(0.9, 0.4, 0.8, 1.7)


def _activity(name: str, stage: str, amount: float, mean: float, belongs: str) -> ActivityProof:
    told = Range(mean, mean / 2, mean, 2 * mean)
    return ActivityProof(name, stage, amount, "kg", told, "a factor", "", belongs)


BOUGHT = PackagingProof(
    (("330 ml can", 0.6, 1.0),), {"aluminium": 0.0099}, {"recycled": 0.006, "landfilled": 0.0039},
    0.0, None,
)  # fmt: skip
PACKED = PackagingProof(
    (("pint jar", 0.1, 40.0), ("400 g tin", 0.2, 1.0), ("400 g tin", 0.1, 1.0)),
    {"steel": 0.00004, "glass": 0.00076}, {"recycled": 0.0005, "combusted": 0.0003}, 0.19,
    0.0091, BOUGHT,
)  # fmt: skip
FIZZ = FizzProof(0.0011, 0.0009, 0.0002, 0.00002, "by-product", True, 0.1487, 0.1476)  # noqa: FBT003 (a record)
EDITION = replace(
    SAMPLE,
    activities=(
        _activity("60 days in the freezer", "home storage", 0.01, 0.89, "keeping"),
        _activity("1 day in the fridge", "home storage", 0.001, 0.01, "keeping"),
        _activity("pint jar, body, used 40 times", "packaging", 0.0007, 0.0097, "packs"),
        _activity("pint jar, body, thrown away", "end of life", 0.0007, 0.0003, "packs"),
        _activity("peel, bones and trimmings, thrown away", "end of life", 0.028, 0.003, "waste"),
    ),
    apart=(
        ApartProof("keeping", COLD, 0.6),
        ApartProof("packs", JAR, 0.004),
        ApartProof("waste", Range(0.003, 0.002, 0.003, 0.004), 0.001),
    ),
    packaging=PACKED,
    fizz=FIZZ,
)


def _plain(text: str) -> str:
    return " ".join(text.split())


def _page() -> str:
    return _plain(re.sub(r"<[^>]+>", " ", sheet(EDITION)))


def _terminal() -> str:
    out = io.StringIO()
    print_proof(EDITION, Console(file=out, width=400, force_terminal=False))
    return _plain(out.getvalue())


def test_each_part_is_a_row_with_its_interval_on_both_surfaces() -> None:
    for told in (_page(), _terminal()):
        for part in EDITION.apart:
            assert around.NAMES[part.what] in told
            value = numerals.shown(part.kgco2e)
            assert value.middle in told
            assert value.span in told
        assert "60 days in the freezer, 1 day in the fridge" in told
        assert "0.10 × pint jar, used 40 times" in told


def test_packs_of_lines_are_no_part_around_the_recipe() -> None:
    part = EDITION.apart[1]
    assert "tin" not in around.apart_text(EDITION, part)
    assert "0.30 × 400 g tin" in around.packs_phrase(EDITION)


def test_shares_sum_over_what_belongs_together() -> None:
    shares = around.apart_shares(EDITION, EDITION.apart[1])
    assert _plain(shares) == "making them 97 %, what becomes of them 3 %"
    assert around.apart_shares(EDITION, EDITION.apart[2]) == ""


def test_what_stands_apart_finds_room_on_the_scale() -> None:
    assert line_scale(EDITION).high > COLD.p95


def test_packs_are_told_by_material_and_fate_and_against_the_bought() -> None:
    for told in (_page(), _terminal()):
        assert "A serving’s own packs: glass 0.76 g, steel 0.04 g" in told
        assert "Bought instead: aluminium 9.9 g." in told
        assert "That is 9.1 g less pack a serving than bought." in told
        assert "190 g of tap water a serving came through the pipe" in told
        assert "recycled 0.50 g; bought 6.0 g" in told
        assert "composted" not in told


def test_strips_stand_on_one_scale_of_mass() -> None:
    ours, bought = packs.strips(PACKED)
    widths = {
        one.name: sum(
            float(rect.get("width", "0%").rstrip("%"))
            for rect in ET.fromstring(one.drawn).iter("{http://www.w3.org/2000/svg}rect")  # noqa: S314 (our own drawing)
        )
        for one in (ours, bought)
    }
    assert widths["bought"] == pytest.approx(100, abs=0.1)
    assert widths["ours"] == pytest.approx(100 * 0.0008 / 0.0099, abs=0.1)


def test_fates_are_told_apart_without_colour() -> None:
    drawn = re.findall(r"<pattern [^>]*>(.*?)</pattern>", hatching.patterns(names=FATES))
    assert len(set(drawn)) == len(FATES)
    assert len({hatching.letter(fate) for fate in FATES}) == len(FATES)


def test_the_gas_is_told_both_ways_to_the_digit_that_differs() -> None:
    shown = [_plain(words) for words in around.fizz_shown(FIZZ)]
    assert shown == ["0.149 kg CO₂e", "0.148 kg CO₂e"]
    for told in (_page(), _terminal()):
        assert "0.90 g in the water as poured, 0.20 g lost while charging" in told
        assert "the gas not counted" in told
        assert "0.148" in told


def test_without_packs_and_fizz_nothing_is_said_of_them() -> None:
    html = sheet(SAMPLE)
    for heading in ("Around the recipe", 'id="packs"', 'id="fizz"'):
        assert heading not in html
    empty = PackagingProof((), {}, {}, 0.0, None)
    assert packs.report_of(replace(SAMPLE, packaging=empty)) is None
