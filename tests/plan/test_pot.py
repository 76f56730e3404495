"""What is in the pot when something is strained or brought to the boil."""

from __future__ import annotations

from counterproof.plan.pot import in_pot, mashed
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark

CORDIAL = """# Cordial

Makes 1 litre

- 800 g rhubarb
- 400 g sugar
- 700 ml water
- ice cubes

1. Simmer the rhubarb in the water for 15 minutes.
2. Strain through muslin.
3. Stir in the sugar.
4. Serve over ice.
"""


def reading_of(text: str, bench: Workbench) -> Reading:
    return mark(Order(read_text(text), Kitchen()), bench)


def test_what_is_named_later_is_not_in_the_pot_yet(bench: Workbench) -> None:
    reading = reading_of(CORDIAL, bench)
    strain = reading.steps[1]
    there = [in_pot(line, reading, strain) for line in reading.lines]
    assert there == [True, False, True, False]


def test_what_no_step_names_went_in_with_the_rest(bench: Workbench) -> None:
    reading = reading_of("# Soup\n\n- 2 leeks\n- 1 litre stock\n\n1. Simmer it all.\n", bench)
    assert all(in_pot(line, reading, reading.steps[0]) for line in reading.lines)


def test_rubbing_through_a_sieve_keeps_little_back(bench: Workbench) -> None:
    text = "# Soup\n\n- 2 leeks\n\n1. Rub the soup through a sieve.\n2. Strain through muslin.\n"
    first, second = reading_of(text, bench).steps
    assert mashed(first)
    assert not mashed(second)
