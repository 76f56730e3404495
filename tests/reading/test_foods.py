"""Names find their foods, and what is not known is not guessed."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.reading.fits import worse
from counterproof.reading.foods import LISTED, THRESHOLD, Matcher
from counterproof.rows import Tables


@pytest.mark.parametrize(
    ("name", "food"),
    [
        ("onion", "onion"),
        ("Onions", "onion"),
        ("good-quality organic ONIONS", "onion"),
        ("3 large onions, chopped", "onion"),
        ("peanut butter", "peanut-butter"),
        ("crunchy peanut butter", "peanut-butter"),
        ("unsalted butter", "butter-unsalted"),
        ("butter, unsalted", "butter-unsalted"),
        ("very soft unsalted butter", "butter-unsalted"),
        ("gorgonzola cheese", "blue-cheese"),
        ("haddock fillets", "haddock"),
        ("haddock steaks", "haddock"),
        ("juice of lemon", "lemon-juice"),
        ("cashew nuts", "cashews"),
        ("fine Greek sea salt", "salt"),
        ("ground ginger", "ginger-ground"),
        ("powdered ginger", "ginger-ground"),
        ("fresh root ginger", "ginger"),
        ("milk chocolate", "milk-chocolate"),
        ("chocolate milk", "chocolate-milk"),
        ("tinned chickpeas", "chickpeas-canned"),
        ("aluminum foil", "foil"),
    ],
)
def test_modifiers_spellings_and_order_do_not_hide_a_food(
    larder_matcher: Matcher, name: str, food: str
) -> None:
    match = larder_matcher.match(name)
    assert match.food is not None
    assert match.food.id == food
    assert match.certainty > 0.8


@pytest.mark.parametrize(
    ("name", "never"),
    [
        ("chicken stock", "chicken"),
        ("cashew milk", "milk"),
        ("coconut milk", "milk"),
        ("hemp milk", "milk"),
        ("ginger ale", "ginger"),
        ("onion powder", "onion"),
        ("cocoa butter", "butter"),
        ("almond flour", "flour"),
        ("lemon curd", "lemon"),
        ("tomato purée", "tomato"),
        ("chicken fat", "chicken"),
        ("vegan cheese", "cheese"),
        ("lime leaves", "lime"),
        ("rice wine", "rice-dry"),
        ("dairy-free milk", "milk"),
        ("chia egg", "egg"),
    ],
)
def test_another_head_makes_another_food(larder_matcher: Matcher, name: str, never: str) -> None:
    match = larder_matcher.match(name)
    taken = match.food.id if match.food else None
    assert taken != never or match.certainty <= 0.75, match


@pytest.mark.parametrize("name", ["cashew milk", "chicken stock", "ginger ale", "vegan cheese"])
def test_an_unknown_compound_is_offered_not_guessed(larder_matcher: Matcher, name: str) -> None:
    match = larder_matcher.match(name)
    assert match.food is None
    assert match.runners_up
    assert match.explanation


def test_a_shorter_name_inside_the_longer_is_no_runner_up(larder_matcher: Matcher) -> None:
    assert larder_matcher.match("peanut butter").runners_up == ()


def test_a_misspelling_is_read_with_less_certainty(larder_matcher: Matcher) -> None:
    match = larder_matcher.match("corgette")
    assert match.food is not None
    assert match.food.id == "courgette"
    assert 0.75 < match.certainty < 0.9
    assert any("courgette" in remark for remark in match.explanation)


def test_states_said_elsewhere_choose_the_form(larder_matcher: Matcher) -> None:
    def taken(name: str, *hints: str) -> str | None:
        food = larder_matcher.match(name, hints=hints).food
        return food.id if food else None

    assert taken("chickpeas") == "chickpeas-dry"
    assert taken("chickpeas", "canned") == "chickpeas-canned"
    assert taken("ginger", "ground") == "ginger-ground"
    assert taken("rice", "cooked") == "rice-cooked"
    assert taken("onion", "canned") == "onion"


def test_a_state_the_table_lacks_lowers_certainty_and_fit(larder_matcher: Matcher) -> None:
    plain = larder_matcher.match("haddock")
    smoked = larder_matcher.match("smoked haddock")
    assert smoked.food == plain.food
    assert smoked.certainty < plain.certainty
    assert any("smoked" in remark for remark in smoked.explanation)


def test_a_name_that_differs_between_regions_follows_the_region(larder_matcher: Matcher) -> None:
    uk = larder_matcher.match("cornflour", region="uk")
    us = larder_matcher.match("cornflour", region="us")
    unsaid = larder_matcher.match("cornflour")
    assert uk.food is not None
    assert us.food is not None
    assert (uk.food.id, us.food.id) == ("cornflour", "cornmeal")
    assert unsaid.certainty < uk.certainty
    assert {runner.food.id for runner in unsaid.runners_up} <= {"cornflour", "cornmeal"}


def test_a_name_of_one_region_is_understood_in_the_other(larder_matcher: Matcher) -> None:
    assert larder_matcher.match("zucchini", region="uk").certainty == 1.0


def test_nearest_offers_something_for_a_typing_slip(larder_matcher: Matcher) -> None:
    assert larder_matcher.nearest("haddok pie")[0].id == "haddock"
    assert larder_matcher.nearest("") == ()


def test_the_looser_fit_counts() -> None:
    assert worse("same", "relative") == "relative"
    assert worse("class average", "other form") == "class average"
    assert worse(None, "same") is None


def test_the_order_of_the_table_changes_nothing(larder: Tables, larder_matcher: Matcher) -> None:
    names = list(larder.names)
    random.Random(5).shuffle(names)  # noqa: S311 - a shuffle, no secret
    foods = dict(reversed(list(larder.foods.items())))
    other = Matcher(replace(larder, names=tuple(names), foods=foods))
    for text in ("onions", "cashew milk", "butter", "smoked haddock", "corgette", "lime", "milk"):
        assert other.match(text) == larder_matcher.match(text)


@pytest.mark.property
@given(st.text(max_size=60))
@settings(max_examples=300, deadline=None)
def test_any_text_has_a_match_or_an_honest_none(larder_matcher: Matcher, text: str) -> None:
    match = larder_matcher.match(text)
    assert 0 <= match.certainty <= 1
    assert (match.food is None) == (match.certainty < THRESHOLD)
    assert all(LISTED <= runner.certainty <= 1 for runner in match.runners_up)
    assert match == larder_matcher.match(text)


def test_every_name_of_the_shipped_table_finds_its_own_food(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    lost = []
    for row in shipped.names:
        match = shipped_matcher.match(row.name, region=row.region)
        if match.food is None or match.food.id != row.food or match.certainty < 0.75:
            lost.append((row.name, row.food, match.food and match.food.id, match.certainty))
    # A possessive is read like its bare word, so that "lady's finger" and "lady finger" meet.
    assert len(lost) <= len(shipped.names) // 500, lost


def test_every_food_is_found_by_the_name_it_is_shown_under(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    for food in shipped.foods.values():
        match = shipped_matcher.match(food.name)
        assert (match.food, match.certainty) == (food, 1.0)


@pytest.mark.parametrize(
    ("name", "food_class"),
    [
        ("chicken stock", "stocks"),
        ("vegetable bouillon", "stocks"),
        ("peanut butter", "nuts & seeds"),
        ("coconut milk", "coconut products"),
        ("ginger ale", "soft drinks"),
        ("tomato ketchup", "condiments & sauces"),
        ("almond flour", "nuts & seeds"),
        ("smoked mackerel", "fish"),
        ("baking potatoes", "vegetables"),
        ("sesame oil", "oils"),
        ("rice vinegar", "vinegars"),
        ("oat milk", "plant-based"),
        ("ground cumin", "spices"),
        ("aubergine", "vegetables"),
        ("eggplant", "vegetables"),
        ("heavy cream", "dairy"),
        ("scallions", "vegetables"),
        ("beef mince", "beef"),
        ("minced beef", "beef"),
        ("ground beef", "beef"),
    ],
)
def test_common_names_find_a_food_of_their_class(
    shipped_matcher: Matcher, name: str, food_class: str
) -> None:
    match = shipped_matcher.match(name)
    assert match.food is not None
    assert match.food.food_class == food_class
    assert match.certainty > 0.9


def test_far_fetched_names_are_not_offered(shipped_matcher: Matcher) -> None:
    assert shipped_matcher.nearest("kiwibirds in xyzzy") == ()
    assert [food.id for food in shipped_matcher.nearest("haddok bake")][:1] == ["haddock"]


def test_an_unknown_word_before_a_lone_head_is_a_doubt(shipped_matcher: Matcher) -> None:
    # "Bombay duck" is a fish: what an unknown word makes of a lone head nobody knows.
    for name in ("zanzibari duck", "krautsche beans"):
        assert shipped_matcher.match(name).certainty < 0.75
    # A name that says more than its head stands firmer.
    assert shipped_matcher.match("zanzibari peanut butter").certainty >= 0.75


@pytest.mark.parametrize("plural", ["kiwis", "rotis", "chapatis", "blinis", "zucchinis", "idlis"])
def test_a_plural_in_is_finds_its_food(shipped_matcher: Matcher, plural: str) -> None:
    one, many = shipped_matcher.match(plural.removesuffix("s")), shipped_matcher.match(plural)
    assert one.food is not None
    assert (many.food, many.certainty) == (one.food, one.certainty)


def test_a_name_with_its_preposition_needs_no_container(shipped_matcher: Matcher) -> None:
    match = shipped_matcher.match("chipotles in adobo", hints={"canned"})
    assert match.food is not None
    assert (match.food.id, match.certainty) == ("chilli-paste", 1.0)


@pytest.mark.parametrize("name", ["black beans", "butter beans", "chickpeas", "cannellini beans"])
def test_what_comes_in_a_tin_is_not_asked_whether_it_is_tinned(
    shipped_matcher: Matcher, name: str
) -> None:
    bare, tinned = shipped_matcher.match(name), shipped_matcher.match(name, hints={"canned"})
    assert tinned.food == bare.food
    assert bare.row is not None
    assert tinned.row is not None
    assert (bool(bare.row.why), bool(tinned.row.why)) == (True, False)
