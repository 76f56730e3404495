"""The commonest lines are told by their words alone, and come to what the grammar comes to."""

# ruff: noqa: SIM905 (a list of amounts is read as a line, not as thirty quoted strings)

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.reading.clauses import begins_with_work, may_be_work
from counterproof.reading.lines import by_grammar, split_line
from counterproof.reading.plain_lines import plain_line
from counterproof.reading.tidying import tidied
from counterproof.reading.words import MANNER, PREPARATION, WORD_CLASSES
from counterproof.reading.written_amounts import amounts
from counterproof.units import UNIT_WORDS

AMOUNTS = (
    "1|2|12|½|1½|1 1/2|0.5|2-3|250 g|1 kg|50 ml/2 fl oz|1 lb 2 oz|200g/7oz|2 tbsp|1 cup|2 tins"
    "|1 tin/400 g|3 large|2 heaped tsp|5 cm|5cm/2in|1 tbsp.|2 tubes/90 g|100"
).split("|")
NAMES = (
    "leeks|rye flour|garlic cloves|large eggs|fresh basil|fresh bay leaf|lemon juice|whole milk"
    "|extra-virgin oil|fist-size beets|taco-size wraps|cook's salt|fillet steak|average-size figs|small tin peas"
    "|good-quality|Swede|chopped dill|salt and pepper|x|spoon oil|measuring spoon oil|cm-thick ham"
    "|eggs in shell|barley 100 g|white/red onions|spring onion-|of oats|per head rice|egg|crème fraîche"
).split("|")
CLAUSES = (
    "finely chopped|peeled|skin removed|or swede|skin on|juice only|zested|divided|to taste"
    "|cut into 2 cm pieces|rinsed (well)|about 200 g|plus extra|mashed with butter, or not"
    "|chopped - coarsely|rinsed 250 ml|nettles|and dill|chopped , sliced|boiled,|1 of them|each halved"
).split("|")
LINES = st.builds(
    lambda amount, name, clauses: ", ".join((f"{amount} {name}", *clauses)),
    st.sampled_from(AMOUNTS),
    st.lists(st.sampled_from(NAMES), min_size=1, max_size=2).map(" ".join),
    st.lists(st.sampled_from(CLAUSES), max_size=3),
)


@pytest.mark.property
@settings(max_examples=1000, deadline=None)
@given(LINES, st.sampled_from(["us", "metric"]))
def test_a_plain_line_has_the_parts_that_the_grammar_finds(line: str, system: str) -> None:
    written = tidied(line)
    row = amounts(written, 0, system)  # type: ignore[arg-type]
    plain = plain_line(line, written, row)
    assert plain is None or plain == by_grammar(line, written, system)  # type: ignore[arg-type]


@pytest.mark.property
@settings(max_examples=400, deadline=None)
@given(LINES)
def test_amounts_read_beforehand_are_the_amounts_of_the_line(line: str) -> None:
    written = tidied(line)
    assert by_grammar(line, written, "us", amounts(written, 0, "us")) == by_grammar(
        line, written, "us"
    )


@pytest.mark.parametrize("unit", sorted(UNIT_WORDS))
def test_every_unit_is_read_alike_both_ways(unit: str) -> None:
    for line in (
        f"2 {unit} leeks",
        f"2 {unit}. leeks",
        f"2 {unit.upper()} leeks",
        f"2 leek {unit}",
    ):
        assert split_line(line) == by_grammar(line, tidied(line), "us")


@pytest.mark.parametrize(
    "line",
    [
        "200 g rye flour",
        "50 ml/2 fl oz strong coffee",
        "3 large leeks, finely chopped",
        "2 tbsp fresh basil, leaves only, torn",
    ],
)
def test_the_commonest_lines_need_no_grammar(line: str) -> None:
    assert plain_line(line, tidied(line), amounts(line, 0, "us")) is not None


def test_a_word_of_work_begins_no_remark_and_no_amount() -> None:
    work = [word for word, kind in WORD_CLASSES.items() if kind in {PREPARATION, MANNER}]
    assert all(begins_with_work(word) and may_be_work(word) for word in work)


def test_capitals_do_not_hide_a_second_food() -> None:
    split = split_line("8 MUSHROOMS STUFFED WITH SOFT CHEESE")
    assert (split.name, split.preparation) == ("MUSHROOMS", "STUFFED WITH SOFT CHEESE")


@pytest.mark.parametrize("number", ["2", "1½", "2-3", "0.5"])
@pytest.mark.parametrize(("word", "measure"), [("spoon", "tbsp"), ("mug", "cup"), ("shot", "shot")])
def test_a_volume_in_the_singular_is_a_unit_after_any_number(
    number: str, word: str, measure: str
) -> None:
    split = split_line(f"{number} {word} rum")
    assert (split.quantities[0].measure, split.name) == (measure, "rum")
