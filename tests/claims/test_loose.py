"""Loose numbers, captions, and words that overclaim."""

from __future__ import annotations

import pytest

from counterproof.claims.captions import are_captions, cues
from counterproof.claims.loose import Reference, loose_in_captions, loose_in_script
from counterproof.claims.overclaims import overclaims_in
from counterproof.claims.script import read_script
from counterproof.claims.spoken_numbers import numbers_in
from counterproof.draws import Range
from counterproof.rows import Tables


def exact(value: float) -> Range:
    return Range(value, value, value, value)


REFERENCES = (
    Reference("one serving", Range(0.55, 0.35, 0.51, 0.82), "kg CO2e", frozenset({"bowl"})),
    Reference("one serving with beef", Range(7.5, 2.3, 5.1, 22.0), "kg CO2e", frozenset({"beef"})),
    Reference("beef over this", Range(13.8, 3.9, 10.0, 45.0), "ratio", frozenset({"beef"}), either=True),
    Reference("block over this", Range(0.8, 0.7, 0.8, 0.9), "ratio", frozenset({"block"}), either=True),
    Reference("sugar, share of one serving", Range(0.38, 0.13, 0.37, 0.63), "share", frozenset({"sugar"})),
    Reference("squash in the batch", Range(2.2, 2.1, 2.2, 2.3), "kg", frozenset({"squash"})),
    Reference("the whole batch", exact(7.0), "L"),
    Reference("servings", exact(10.0), "count"),
)  # fmt: skip

PLANTED = [
    "It weighs two and a half kilos.",
    "That is a third less.",
    "About 550 g of CO2e a bowl.",
    "It is 12 times as much.",
    "Twenty minutes on the hob.",
    "A quarter of the footprint is the cheese.",
    "Some 40 % of it is sugar.",
    "Forty per cent of it is sugar.",
    "Seven litres of soup.",
    "Half a kilo a head.",
    "It takes 1.2 kWh.",
    "Three hundred grams of carbon.",
    "Twice what the can costs the climate.",
    "Two thirds of the pot is water.",
    "It drives you 4.5 miles.",
    "Ten kilometres in a car.",
    "It fills 65 balloons.",
    "That is 3/4 of the total.",
    "¾ of the total is packaging.",
    "Five-fold, at least.",
    "You save 6.9 kg every time.",
    "It is 30 percent lower.",
    "Half the footprint of beef.",
    "From 90 °C to 21 °C.",
    "It stays at four degrees.",
    "It takes 36 hours.",
    "Six and a half hours in the fridge.",
    "Between three and four times.",
    "One and a half litres of stock.",
    "It feeds 12.",
    "Serves twenty-four.",
    "614 kcal a bowl.",
    "Some 24 grams of protein.",
    "A fifth more than last year.",
    "Roughly 1,200 grams.",
    "Two hundred and fifty millilitres.",
    "Only 0.05 kg.",
    "Fourteen times better.",
    "Double the amount.",
    "We boiled eleven kettles.",
]

SPOKEN_ONLY = """# Second evening

One more time: hold up the first jar, and let three people guess.
Six evenings, six pots, and a half moon over the hill. In 1998 nobody had a freezer here.
We meet at 7:30, as on the other two evenings. Everyone takes a piece, one after another.
"""


def test_planted_numbers_are_found() -> None:
    # The issue asks for 95 % of 40.
    assert len(PLANTED) == 40
    missed = [text for text in PLANTED if not numbers_in(text)]
    assert len(missed) <= 2, missed


def test_what_is_only_counted_is_left_alone() -> None:
    found = numbers_in(SPOKEN_ONLY)
    assert len(found) <= 2, [SPOKEN_ONLY[one.start : one.end] for one in found]


@pytest.mark.parametrize(
    ("text", "contradicts", "nearest"),
    [
        ("One bowl comes to 550 g of CO2e.", False, "one serving"),
        ("One bowl comes to half a kilo of CO2e.", False, "one serving"),
        ("One bowl comes to 900 g of CO2e.", True, "one serving"),
        ("With beef it is 14 times as much.", False, "beef over this"),
        ("With beef it is five times as much.", True, "beef over this"),
        ("With block it is a fifth less.", False, "block over this"),
        ("With block it is half less.", True, "block over this"),
        ("The sugar is 38 % of it.", False, "sugar, share"),
        ("The sugar is 80 % of it.", True, "sugar, share"),
        ("The squash weighs two kilos.", False, "squash"),
        ("The squash weighs five kilos.", True, "squash"),
        ("It makes seven litres.", False, "the whole batch"),
        ("It feeds ten.", False, "servings"),
    ],
)
def test_a_number_is_set_beside_the_nearest_figure(
    text: str, contradicts: bool, nearest: str
) -> None:
    (one,) = loose_in_script(read_script(text), REFERENCES)
    assert one.contradicts is contradicts
    assert one.nearest is not None
    assert one.nearest.startswith(nearest)
    assert one.line == 1


def test_numbers_in_expressions_directions_links_and_code_are_not_loose() -> None:
    script = read_script(
        "[Wait 20 seconds.] [= one serving, 26 times] `40 %` <!-- 5 kg --> "
        "[list](http://a.example/40%25) and [^1]\n\n[^1]: see https://b.example/12kg\n"
    )
    assert loose_in_script(script, REFERENCES) == ()


SRT = """1
00:00:01,000 --> 00:00:03,500
<i>One bowl comes to</i>

2
00:00:03,500 --> 00:00:06,000
900 g of CO2e, no more.
"""

VTT = """WEBVTT

NOTE 12 kg is only a note

00:05.000 --> 00:07.000 align:start
One bowl comes to

intro
01:02:03.000 --> 01:02:05.000
900 g of CO2e, no more.
"""


@pytest.mark.parametrize(("text", "time"), [(SRT, "00:00:03.500"), (VTT, "01:02:03.000")])
def test_captions_give_the_time(text: str, time: str) -> None:
    (one,) = loose_in_captions(cues(text), REFERENCES)
    assert one.time == time
    assert one.line is None
    assert one.contradicts


def test_captions_are_known_by_name_or_first_line() -> None:
    assert are_captions("said.srt", "")
    assert are_captions("said.txt", "WEBVTT\n")
    assert not are_captions("script.md", "# Title")


def test_words_that_overclaim_are_flagged_with_their_rule(tables: Tables) -> None:
    script = read_script(
        "A green, carbon-neutral supper.\n\nThe greens are zero waste. [Eco-friendly.]\n"
    )
    flagged = overclaims_in(script, tables.overclaims, ("us", "eu"))
    assert [(one.as_written.lower(), one.line) for one in flagged] == [
        ("green", 1),
        ("carbon-neutral", 1),
        ("zero waste", 3),
    ]
    sections = {rule.region: rule.rule for rule in flagged[1].rules}
    assert "260.5" in sections["us"]
    assert "2024/825" in sections["eu"]
    assert all("from memory" in rule.provenance.note for rule in flagged[1].rules)


def test_only_rules_of_the_audience_are_asked(tables: Tables) -> None:
    script = read_script("A natural cordial.")
    assert overclaims_in(script, tables.overclaims, ("us",))
    assert not overclaims_in(script, tables.overclaims, ("eu",))
