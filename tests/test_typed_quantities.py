"""Typed quantities against a general unit library, and round trips."""

from __future__ import annotations

from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import QuantityError
from counterproof.typed_quantities import Asked, parse_quantity


@pytest.mark.parametrize(
    ("text", "kind", "name"),
    [
        ("39F", "temperature", "degF"),
        ("45psi", "pressure", "psi"),
        ("1.5atm", "pressure", "atm"),
        ("8in", "length", "inch"),
        ("3oz", "mass", "ounce"),
        ("2lb", "mass", "pound"),
        ("0.4kWh", "energy", "kilowatt_hour"),
    ],
)
def test_typed_quantities_agree_with_pint(text: str, kind: Asked, name: str) -> None:
    units: pint.UnitRegistry[Any] = pint.UnitRegistry()
    number = float(text.rstrip("FabcdefghijklmnopqrstuvwxyzW"))
    expected = units.Quantity(number, name).to_base_units().magnitude
    if kind == "mass":
        expected = units.Quantity(number, name).to("kg").magnitude
    assert parse_quantity(text, kind) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "kind", "si"),
    [
        ("4C", "temperature", 277.15),
        ("4 °C", "temperature", 277.15),
        ("−18C", "temperature", 255.15),
        ("32F", "temperature", 273.15),
        ("3bar", "pressure", 3e5),
        ("1L", "volume", 1e-3),
        ("1l", "volume", 1e-3),
        ("473ml", "volume", 473e-6),
        ("473 mL", "volume", 473e-6),
        ("1,5L", "volume", 1.5e-3),
        ("1.2kg", "mass", 1.2),
        ("20min", "time", 1200.0),
        ("1.5h", "time", 5400.0),
        ("2kW", "power", 2000.0),
        ("8cm", "length", 0.08),
        ("1200m", "length", 1200.0),
        ("6g/L", "concentration", 6.0),
    ],
)
def test_a_typed_quantity_is_read_in_si(text: str, kind: Asked, si: float) -> None:
    assert parse_quantity(text, kind) == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "named"),
    [
        ("4", "temperature", "4C or 39F"),
        ("3", "pressure", "psi"),
        ("", "mass", "1.2kg"),
        ("kg", "mass", "1.2kg"),
        ("4kg", "temperature", "C, F, K"),
        ("1 2 kg", "mass", "kg"),
        ("-1kg", "mass", "less than a mass can be"),
        ("-300C", "temperature", "less than a temperature can be"),
        ("5mPa", "pressure", "is not a unit of pressure"),
    ],
)
def test_a_quantity_that_cannot_be_read_says_which_units_are_taken(
    text: str, kind: Asked, named: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, kind)
    assert named in str(caught.value)
    assert caught.value.remedy


@pytest.mark.property
@given(st.floats(0.001, 1e6), st.sampled_from([("ml", 1e-6), ("L", 1e-3), ("cl", 1e-5)]))
def test_a_typed_volume_comes_back(value: float, unit: tuple[str, float]) -> None:
    name, size = unit
    assert parse_quantity(f"{value:.6f}{name}", "volume") / size == pytest.approx(value, abs=1e-6)
