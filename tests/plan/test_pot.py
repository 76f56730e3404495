"""What is in the pot when something is strained or brought to the boil."""

from __future__ import annotations

from counterproof.plan.pot import first_named, is_in_pot, named_lines, said_of, way_of_straining
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark

CORDIAL = """# Cordial

Makes 1 litre

- 800 g rhubarb
- 400 g sugar
- 700 ml water

For the glass:

- 1 litre sparkling water
- ice cubes

## Method

1. Simmer the rhubarb in the water for 15 minutes.
2. Strain through muslin.
3. Stir in the sugar. Cool.
4. Serve with ice.
"""


def reading_of(text: str, bench: Workbench) -> Reading:
    return mark(Order(read_text(text), Kitchen()), bench)


def test_what_is_named_later_or_under_a_heading_for_the_table_is_not_in_the_pot(
    bench: Workbench,
) -> None:
    reading = reading_of(CORDIAL, bench)
    first = first_named(reading)
    there = [is_in_pot(line, first[line.written.number], 2) for line in reading.lines]
    assert there == [True, False, True, False, False]


def test_a_shared_word_names_the_line_whose_words_all_stand_there(bench: Workbench) -> None:
    lines = reading_of(CORDIAL, bench).lines
    assert named_lines("Pour in the water.", lines) == {3}
    assert 4 in named_lines("Top up with sparkling water.", lines)


def test_what_no_step_names_went_in_with_the_rest(bench: Workbench) -> None:
    text = "# Soup\n\n- 2 leeks\n- 1 litre stock\n\n## Method\n\n1. Simmer it all.\n"
    reading = reading_of(text, bench)
    first = first_named(reading)
    assert set(first.values()) == {None}
    assert all(is_in_pot(line, None, 1) for line in reading.lines)


def test_a_process_is_told_by_its_own_sentences(bench: Workbench) -> None:
    text = (
        "# Bake\n\n- 20 g dried porcini\n- 500 g barley\n\n## Method\n\n"
        "1. Soak the porcini for 20 minutes. Strain the porcini. Fry the barley for 2 minutes.\n"
    )
    step = reading_of(text, bench).steps[0]
    assert said_of(step, "strain") == "Strain the porcini."


def test_rubbing_through_a_sieve_keeps_little_back(bench: Workbench) -> None:
    text = (
        "# Soup\n\n- 2 leeks\n\n## Method\n\n1. Rub the soup through a sieve.\n"
        "2. Strain through muslin.\n3. Squeeze the pulp through a cloth.\n"
    )
    ways = [way_of_straining(step) for step in reading_of(text, bench).steps]
    assert ways == ["rub", "strain", "squeeze"]
