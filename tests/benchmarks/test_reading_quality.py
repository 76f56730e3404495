"""The measuring script counts what it says it counts, and the page says what was measured."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

from counterproof.reading.lines import split_line

HOUSE = Path(__file__).parents[2]


def loaded() -> ModuleType:
    """The script as a module."""
    path = HOUSE / "benchmarks" / "reading_quality.py"
    spec = importlib.util.spec_from_file_location("reading_quality", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


SCRIPT = loaded()


def row(line: str, values: str, units: str, name: str = "leeks", words: str = "") -> dict[str, str]:
    """A labelled line without a first amount, so that all amounts are compared."""
    return {
        "input": line,
        "quantity_gold": words,
        "quantity_values": values,
        "unit_gold": units,
        "name_gold": name,
        "derived_first_quantity_min": "",
        "derived_first_quantity_max": "",
        "derived_first_unit": "",
    }


@pytest.mark.parametrize(
    ("line", "values", "units"),
    [
        ("250 g/9 oz leeks", "250.0|9.0", "g oz"),
        ("2 x 400 g tins leeks", "2.0|400.0", "g tin"),
        ("2-3 leeks", "2.0|3.0", ""),
        ("1 lb 8 oz leeks", "1.0|8.0", "lb oz"),
        ("1 cup plus 2 tbsp leeks", "1.0|2.0", "cup tablespoon"),
        ("small handful leeks", "", "small handful"),
        ("leeks", "", ""),
    ],
)
def test_a_right_reading_counts_as_right(line: str, values: str, units: str) -> None:
    assert SCRIPT.all_amounts_right(row(line, values, units), split_line(line))


@pytest.mark.parametrize(
    ("line", "values", "units"),
    [
        ("250 g/9 oz leeks", "250.0", "g"),  # one too many
        ("250 g leeks", "250.0|9.0", "g oz"),  # one too few
        ("250 g leeks", "250.0", "oz"),
        ("25 g leeks", "250.0", "g"),
        ("2-3 leeks", "2.0", ""),
        ("2 leeks", "", ""),
        ("leeks", "2.0", ""),  # not answered
        ("handful leeks", "", "small handful"),
    ],
)
def test_a_wrong_reading_counts_as_wrong(line: str, values: str, units: str) -> None:
    assert not SCRIPT.all_amounts_right(row(line, values, units), split_line(line))


def test_the_first_amount_is_held_against_its_own_label() -> None:
    label = row("250 g/9 oz leeks", "250.0|9.0", "g oz") | {
        "derived_first_quantity_min": "9.0",
        "derived_first_quantity_max": "9.0",
        "derived_first_unit": "oz",
    }
    swapped = split_line("9 oz leeks")
    assert SCRIPT.first_amount_right(label, swapped)
    assert not SCRIPT.first_amount_right(label, split_line("8 oz leeks"))


@pytest.mark.parametrize(
    ("label", "line", "right"),
    [
        ("leeks", "2 leeks, sliced", True),
        ("young leek", "2 leeks", False),
        ("butter or margarine", "butter or margarine", True),
        ("butter", "margarine", False),
        ("bay leaf", "2 bay leaves", True),
    ],
)
def test_names_share_four_fifths_of_their_words(label: str, line: str, right: bool) -> None:
    assert SCRIPT.name_right(row(line, "", "", label), split_line(line)) is right


def test_the_page_is_made_from_the_measurements() -> None:
    assert SCRIPT.PAGE.read_text("utf-8") == SCRIPT.rendered()
