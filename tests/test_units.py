"""Kitchen measures against their definitions, against a general unit library, and round trips."""

from __future__ import annotations

from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import QuantityError
from counterproof.units import (
    CONTAINERS,
    HOLDS,
    MEASURES,
    PLURALS,
    System,
    measure_named,
    unit_kg,
    unit_m,
    unit_ml,
)

SYSTEMS: tuple[System, ...] = ("us", "uk", "metric", "au")


# NIST Handbook 44, appendix C (general tables of units of measurement): 1 gallon = 231 cubic
# inches = 3.785 411 784 L, 1 pint = 473.176 473 mL, 1 fluid ounce = 29.573 529 562 5 mL,
# 1 pound = 453.592 37 g, 1 ounce = 28.349 523 125 g, 1 inch = 2.54 cm. Read from memory.
@pytest.mark.published
@pytest.mark.parametrize(
    ("measure", "ml"),
    [
        ("gallon", 3785.411784),
        ("quart", 946.352946),
        ("pint", 473.176473),
        ("cup", 236.5882365),
        ("gill", 118.29411825),
        ("floz", 29.5735295625),
        ("tbsp", 14.78676478125),
        ("tsp", 4.92892159375),
    ],
)
def test_us_measures_are_their_definitions(measure: str, ml: float) -> None:
    assert unit_ml(measure, "us") == pytest.approx(ml, rel=1e-12)


# Weights and Measures Act 1985 (UK), schedule 1: gallon 4.54609 dm³, quart a quarter of it,
# pint an eighth, gill a quarter pint, fluid ounce a twentieth of a pint.
@pytest.mark.published
@pytest.mark.parametrize(
    ("measure", "ml"),
    [
        ("gallon", 4546.09),
        ("quart", 1136.5225),
        ("pint", 568.26125),
        ("gill", 142.0653125),
        ("floz", 28.4130625),
    ],
)
def test_imperial_measures_are_their_definitions(measure: str, ml: float) -> None:
    assert unit_ml(measure, "uk") == pytest.approx(ml, rel=1e-12)


@pytest.mark.published
def test_weights_are_their_definitions() -> None:
    # International yard and pound agreement, 1959: 1 lb = 0.45359237 kg exactly.
    assert unit_kg("lb") == 0.45359237
    assert unit_kg("oz") * 16 == pytest.approx(unit_kg("lb"), rel=1e-15)
    assert unit_m("inch") == 0.0254


# Pint is a general unit library; only units both define exactly are compared.
@pytest.mark.parametrize(
    ("measure", "system", "name"),
    [
        ("cup", "us", "cup"),
        ("tbsp", "us", "tablespoon"),
        ("tsp", "us", "teaspoon"),
        ("floz", "us", "fluid_ounce"),
        ("pint", "us", "pint"),
        ("quart", "us", "quart"),
        ("gallon", "us", "gallon"),
        ("gill", "us", "gill"),
        ("floz", "uk", "imperial_fluid_ounce"),
        ("pint", "uk", "imperial_pint"),
        ("gallon", "uk", "imperial_gallon"),
        ("dl", "metric", "deciliter"),
    ],
)
def test_volumes_agree_with_pint(measure: str, system: System, name: str) -> None:
    units: pint.UnitRegistry[Any] = pint.UnitRegistry()
    assert unit_ml(measure, system) == pytest.approx(
        units.Quantity(1.0, name).to("milliliter").magnitude, rel=1e-9
    )


@pytest.mark.property
@given(
    st.floats(0.01, 1e4),
    st.sampled_from(sorted(HOLDS["us"])),
    st.sampled_from(sorted(HOLDS["us"])),
    st.sampled_from(SYSTEMS),
)
def test_a_volume_changed_to_another_measure_and_back_is_the_same(
    value: float, one: str, other: str, system: System
) -> None:
    there = value * unit_ml(one, system) / unit_ml(other, system)
    assert there * unit_ml(other, system) / unit_ml(one, system) == pytest.approx(value, rel=1e-12)


def test_every_system_names_the_same_measures_and_orders_them() -> None:
    for system in SYSTEMS:
        assert set(HOLDS[system]) == set(HOLDS["us"])
        sizes = [
            unit_ml(measure, system)
            for measure in ("pinch", "dash", "tsp", "dessertspoon", "tbsp", "cup", "pint", "quart")
        ]
        assert sizes == sorted(sizes)


@pytest.mark.parametrize(
    ("word", "measure"),
    [
        ("T", "tbsp"),
        ("t", "tsp"),
        ("C", "cup"),
        ("c", "cup"),
        ("c.", "cup"),
        ("Tbsp.", "tbsp"),
        ("TBSP", "tbsp"),
        ("tablespoons", "tbsp"),
        ("lbs.", "lb"),
        ("Litres", "l"),
        ("millilitres", "ml"),
        ("grammes", "g"),
        ("cans", "tin"),
        ("tins", "tin"),
        ("leaves", "leaf"),
        ("bunches", "bunch"),
        ("envelopes", "sachet"),
        ("glug", "splash"),
        ("onion", None),
        ("", None),
    ],
)
def test_unit_words_find_their_measure(word: str, measure: str | None) -> None:
    assert measure_named(word) == measure


def test_every_measure_is_found_by_its_own_id() -> None:
    for measure in MEASURES:
        if measure != "cm-piece":
            assert measure_named(measure) == measure
    assert set(MEASURES) >= CONTAINERS
    assert all(measure_named(word) for word in PLURALS)


def test_a_measure_of_another_kind_is_refused_with_what_is_taken() -> None:
    for function, wrong, right in (
        (unit_ml, "kg", "cup"),
        (unit_kg, "cup", "oz"),
        (unit_m, "g", "cm"),
    ):
        with pytest.raises(QuantityError, match=right):
            function(wrong)
