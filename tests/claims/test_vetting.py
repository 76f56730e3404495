"""Vetting: verdicts, other fair bases, the strongest wording, the demo season's scripts."""

from __future__ import annotations

from typing import Any

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.claims.verdicts import Vetted, VettedClaim
from counterproof.draws import Streams
from counterproof.errors import NotUnderstood, QuantityError
from counterproof.use_cases import Workbench
from counterproof.vetting_cases import (
    Episode,
    likened_quantity,
    vetted_captions,
    vetted_script,
    vetted_theirs,
)


def vet(text: str, episode: Episode, bench: Workbench, streams: Streams, **more: Any) -> Vetted:
    return vetted_script(text, episode, bench, streams, **more)


@pytest.fixture
def claim(season: dict[str, Episode], bench: Workbench, claim_streams: Streams) -> Any:
    def one(words: str, number: str = "01") -> VettedClaim:
        return vet(f"[? {words}]", season[number], bench, claim_streams).claims[0]

    return one


@pytest.fixture
def shown(season: dict[str, Episode], bench: Workbench, claim_streams: Streams) -> Any:
    def one(words: str, number: str = "01", **more: Any) -> str:
        figure = vet(f"[= {words}]", season[number], bench, claim_streams, **more).figures[0]
        assert figure.said is not None, [mark.message for mark in figure.marks]
        return figure.said.words.replace("\N{NO-BREAK SPACE}", " ")

    return one


@pytest.mark.property
def test_a_recipe_is_never_lower_than_itself(claim: Any) -> None:
    found = claim("this recipe is lower than this recipe")
    assert found.share.share == 0
    assert found.verdict == "does not hold"
    assert claim("this recipe is at most this recipe").share.share == 1


@pytest.mark.property
def test_the_share_falls_as_more_is_claimed(claim: Any) -> None:
    shares = [
        claim(f"beef is at least {times} times this recipe").share.share
        for times in (1, 2, 4, 8, 16, 32)
    ]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] > 0.99
    assert shares[-1] < 0.5


def test_a_claim_holds_on_every_fair_basis(claim: Any) -> None:
    found = claim("this recipe is lower than with beef")
    assert found.verdict == "holds"
    assert found.share.term == "virtually certain"
    names = [one.basis for one in found.other_bases]
    assert {"per 1000 kcal", "per 100 g protein", "per kg", "cooked in eu"} <= set(names)
    assert "range for the average" in names
    assert "median in the middle" in names
    assert any(name.endswith(" set") for name in names)
    assert found.strongest is not None


def test_a_claim_may_hold_on_its_basis_alone(claim: Any) -> None:
    # Crumble with a plant-based block against beef stew: per serving clearly lower; per 100 g of
    # protein a crumble, which has hardly any, is not.
    found = claim("one serving of pear and oat crumble is lower than with chicken")
    per_protein = next(one for one in found.other_bases if one.basis == "per 100 g protein")
    assert per_protein.holds is False
    assert found.verdict == "holds on its basis"
    assert "per 100 g protein" in found.reason


def test_a_part_of_a_serving_skips_bases_that_do_not_apply(claim: Any) -> None:
    found = claim("the bread is less than a quarter of one serving")
    assert found.verdict == "does not hold"
    skipped = {one.basis: one.inapplicable for one in found.other_bases if one.inapplicable}
    assert skipped["per 1000 kcal"] == "both sides are of the same serving"
    assert found.strongest == "the bread is less than half of this recipe"


def test_lines_are_compared_inside_one_set(claim: Any) -> None:
    found = claim("the mushrooms are lower than the cheese", "04")
    assert found.basis.startswith("per serving, ")
    assert "set" in found.basis


def test_a_claim_decided_by_masses_inside_one_factor_is_not_judged_by_it(claim: Any) -> None:
    # Red and green lentils share one factor in the global and the literature set; whatever set
    # tells them apart may judge, and if none does it cannot be judged.
    found = claim("this recipe is lower than with green lentils", "06")
    assert found.verdict == "cannot be judged" or "national set" in found.basis


@pytest.mark.parametrize(
    ("words", "contradicted"),
    [
        ('"less than half": this recipe < 0.5 × beef', False),
        ('"at least twice as much with beef": this recipe < 0.5 × beef', False),
        ('"ten times less": this recipe < 0.5 × beef', True),
        ('"it is lower": this recipe < beef', False),
    ],
)
def test_words_in_quotation_marks_say_what_is_asked(
    claim: Any, words: str, contradicted: bool
) -> None:
    assert bool(claim(words).contradicted) is contradicted


def test_what_is_not_counted_cannot_be_judged(claim: Any) -> None:
    found = claim("the gas in one glass is less than 5 g of CO2", "01")
    assert found.verdict == "cannot be judged"
    assert "sparkling water" in found.reason


def test_unknown_words_leave_a_doubt_with_the_nearest(
    season: dict[str, Episode], bench: Workbench, claim_streams: Streams
) -> None:
    found = vet("[= one serving of this recipe with beaf]", season["01"], bench, claim_streams)
    (mark,) = found.figures[0].marks
    assert mark.level == "doubt"
    assert "with beef" in mark.message
    assert found.attention


def test_unlike_units_are_not_compared(claim: Any) -> None:
    found = claim("the weight of one serving is less than one serving")
    assert found.verdict == "cannot be judged"
    assert "counted in" in found.reason


def test_figures_pair_across_a_script(shown: Any) -> None:
    assert shown("this recipe minus this recipe").startswith("0")
    assert shown("this recipe against this recipe, as a ratio") == "about the same"


@pytest.mark.parametrize(
    ("words", "ends"),
    [
        ("one serving of this recipe", " g CO₂e"),
        ("the weight of one serving", " g"),
        ("the weight of the beans", " g"),
        ("the energy of the whole batch", " kWh"),
        ("the calories of one serving", " kcal"),
        ("the protein of one serving", " g"),
        ("the bread's share of one serving", " %"),
        ("one serving, per 1000 kcal", "g CO₂e"),
        ("one serving, in kettles", " kettles of a litre"),
        ("one serving, as balloons", " twelve-inch balloons"),
        ("one serving, as a year of it", " kg CO₂e"),
        ("the whole batch, as car kilometres", " kilometres"),
        ("one serving, by stage", " g CO₂e"),
    ],
)
def test_figures_are_said_in_units_for_people(shown: Any, words: str, ends: str) -> None:
    assert shown(words).endswith(ends)


def test_stages_shown_add_up(
    season: dict[str, Episode], bench: Workbench, claim_streams: Streams, shown: Any
) -> None:
    words = shown("one serving, by stage")
    grams = [int(part.split()[-2]) for part in words.removesuffix(" CO₂e").split(", ")]
    figure = vet("[= one serving]", season["01"], bench, claim_streams).figures[0].figure
    assert figure is not None
    assert sum(grams) == round(1000 * figure.mean)


def test_us_units(shown: Any) -> None:
    assert shown("one serving of this recipe", system="us").endswith("lb CO₂e") or shown(
        "one serving of this recipe", system="us"
    ).endswith("oz CO₂e")


def test_the_demo_scripts_vet_without_faults(
    season: dict[str, Episode], scripts: dict[str, str], bench: Workbench, claim_streams: Streams
) -> None:
    figures, claims, failing = 0, 0, 0
    for number, text in scripts.items():
        found = vet(text, season[number], bench, claim_streams)
        doubts = [
            mark.message for one in found.figures for mark in one.marks if mark.level != "note"
        ]
        assert not doubts, (number, doubts)
        assert not [one for one in found.loose if one.contradicts]
        assert not [claim.reason for claim in found.claims if claim.verdict == "cannot be judged"]
        figures += len(found.figures)
        claims += len(found.claims)
        failing += sum(not claim.kept for claim in found.claims)
    assert figures >= 25
    assert claims >= 12
    assert failing >= 2


def test_the_resolved_script_holds_no_expression(
    season: dict[str, Episode], scripts: dict[str, str], bench: Workbench, claim_streams: Streams
) -> None:
    found = vet(scripts["01"], season["01"], bench, claim_streams)
    assert "[=" not in found.resolved
    assert "[?" not in found.resolved
    assert "[Pass the beans round.]" in found.resolved


def test_a_planted_number_contradicts(
    season: dict[str, Episode], bench: Workbench, claim_streams: Streams
) -> None:
    text = "Made with beef, one bowl is 2 kg of CO2e. [= one serving with beef]"
    found = vet(text, season["01"], bench, claim_streams)
    assert [one.contradicts for one in found.loose] == [True]
    assert found.attention


def test_captions_are_held_against_the_script(
    season: dict[str, Episode], scripts: dict[str, str], bench: Workbench, claim_streams: Streams
) -> None:
    srt = "1\n00:00:01,000 --> 00:00:02,000\nOne bowl of it is 3 kg of CO2e.\n"
    found = vetted_captions(srt, scripts["01"], season["01"], bench, claim_streams)
    (one,) = found.loose
    assert one.time == "00:00:01.000"
    assert one.contradicts


def test_json_keeps_its_promise(
    season: dict[str, Episode], scripts: dict[str, str], bench: Workbench, claim_streams: Streams
) -> None:
    told = vet(scripts["01"], season["01"], bench, claim_streams).to_dict()
    assert {"figures", "claims", "loose_numbers"} <= told.keys()
    assert {"line", "as_written", "range", "unit", "shown"} <= told["figures"][0].keys()
    assert set(told["figures"][0]["range"]) == {"mean", "p05", "p50", "p95"}
    assert {
        "line", "sentence", "asks", "share_true", "likelihood", "verdict", "other_bases",
        "strongest_that_holds",
    } <= told["claims"][0].keys()  # fmt: skip
    assert {"line", "time", "as_written", "nearest", "contradicts"} <= told["loose_numbers"][
        0
    ].keys()


def test_the_same_script_gives_the_same_document(
    season: dict[str, Episode], scripts: dict[str, str], bench: Workbench
) -> None:
    one, other = (
        vet(scripts["06"], season["06"], bench, Streams(seed=3, n=500)).to_dict() for _ in range(2)
    )
    assert one == other


def test_someone_elses_number_is_traced_to_its_choice(
    bench: Workbench, claim_streams: Streams
) -> None:
    found = vetted_theirs("99 kg per kg beef", bench, claim_streams)
    assert found.verdict == "holds"
    assert "mean of Bovine Meat (beef herd)" in found.giving[0].words
    median = vetted_theirs("60 kg CO2e per kilo of beef", bench, claim_streams)
    assert "median" in median.giving[0].words
    assert vetted_theirs("900 kg per kg beef", bench, claim_streams).verdict == "fails"
    with pytest.raises(NotUnderstood):
        vetted_theirs("it is nine", bench, claim_streams)


def test_a_quantity_needs_a_unit_that_can_be_likened(
    season: dict[str, Episode], bench: Workbench, claim_streams: Streams
) -> None:
    kitchen = season["01"].order.kitchen
    with pytest.raises(QuantityError, match="no quantity"):
        likened_quantity("12", kitchen, bench, claim_streams)
    figure, seen = likened_quantity("0.8kgCO2", kitchen, bench, claim_streams, celsius=0.0)
    assert figure.unit == "kg CO2"
    assert seen[0].kind in {"balloon", "stockpot", "bathtub"}


def test_every_word_of_the_tables_is_loaded() -> None:
    assert len(load_tables().overclaims) > 50
