"""Where two sides are equal: closed form, by draw, and said where there is no such place."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.comparison.break_even import break_evens
from counterproof.comparison.paired import Entry, compare
from counterproof.draws import Streams
from counterproof.footprint.assess import assess
from counterproof.reading.model import MarkedLine, Reading
from counterproof.rows import Tables

MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]


def test_a_swap_worked_by_hand(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # Both sides hold 0.4 kg onions for four. One has 0.4 kg dried beans, the other beef: valued
    # in the global set (Poore & Nemecek 2018: pulses 1.79, the beef mixture 0.5635 × 99.48 +
    # 0.4365 × 33.3 = 70.6 kg CO2e/kg), they are equal at 0.1 × 1.79 / 70.6 kg of beef a serving
    # and at 0.1 × 70.6 / 1.79 kg of beans.
    beans = made_reading(made_line("onion", 0.4), made_line("white-beans-dried", 0.4))
    beef = made_reading(made_line("onion", 0.4), made_line("beef-chuck", 0.4))
    found = compare(
        [Entry("beans", beans), Entry("beef", beef)], tiny_tables, streams=streams
    ).to_dict()["break_even"]
    by_line = {one["per"]: one for one in found}
    herd = 0.5635 * 99.48 + 0.4365 * 33.3
    of_beef = by_line["kg of beef chuck in a serving of beef"]
    of_beans = by_line["kg of white beans, dried in a serving of beans"]
    assert of_beef["at"]["mean"] == pytest.approx(0.1 * 1.79 / herd, rel=1e-3)
    assert of_beans["at"]["mean"] == pytest.approx(0.1 * herd / 1.79, rel=1e-3)
    assert (of_beef["a"], of_beef["b"]) == ("beans", "beef")
    assert of_beef["share_never"] == 0.0
    assert of_beef["at"]["p05"] < of_beef["at"]["p50"] < of_beef["at"]["p95"]


def test_at_the_break_even_the_sides_are_equal(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    beans = made_reading(made_line("white-beans-dried", 0.4, spread=0.0))
    other = assess(beans, tiny_tables, streams=streams)

    def beef(kg: float) -> Reading:
        return made_reading(made_line("beef-chuck", kg, spread=0.0))

    side = assess(beef(0.4), tiny_tables, streams=streams)
    foods = frozenset({"white-beans-dried", "beef-chuck"})
    found = break_evens(("beef", side), ("beans", other), foods, streams)
    at = next(one.at for one in found if "beef chuck" in one.per)
    assert at is not None
    again = assess(beef(at.mean * 4), tiny_tables, streams=streams)
    assert again.static == pytest.approx(other.static)


def test_never_is_said(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # Onions beside 2 kg of beef: no amount of lentils makes that side as low as onions alone.
    dear = made_reading(
        made_line("onion", 0.4), made_line("beef-chuck", 2.0), made_line("lentils-dried", 0.1)
    )
    cheap = made_reading(made_line("onion", 0.4))
    sides = [assess(one, tiny_tables, streams=streams) for one in (dear, cheap)]
    found = break_evens(
        ("dear", sides[0]), ("cheap", sides[1]), frozenset({"beef-chuck", "lentils-dried"}), streams
    )
    lentils = next(one for one in found if "lentils" in one.per)
    assert lentils.at is None
    assert lentils.share_never == 1.0
    assert lentils.to_dict()["at"] is None


def test_negative_factors_have_a_break_even_in_some_draws_only(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # Poore & Nemecek 2018: nuts from −4.02 (5 %) over −1.33 (median) to 10.79 (95 %).
    nuts = made_reading(made_line("nuts", 0.1))
    butter = made_reading(made_line("butter", 0.1))
    sides = [assess(one, tiny_tables, streams=streams) for one in (nuts, butter)]
    found = break_evens(("nuts", sides[0]), ("butter", sides[1]), frozenset({"nuts"}), streams)
    (one,) = found
    assert 0.5 < one.share_never < 0.95
    assert one.at is not None


def test_recipes_that_share_little_have_no_natural_line(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    one = made_reading(*(made_line(f, 0.1) for f in ("onion", "tomato", "butter")))
    other = made_reading(*(made_line(f, 0.1) for f in ("lentils-dried", "nuts", "beef-chuck")))
    found = compare([Entry("one", one), Entry("other", other)], tiny_tables, streams=streams)
    assert found.to_dict()["break_even"] == []


@pytest.mark.property
@given(kg=st.floats(0.05, 5.0), other_kg=st.floats(0.05, 5.0))
def test_the_break_even_does_not_depend_on_what_was_written(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, kg: float, other_kg: float
) -> None:
    # The mass that makes the sides equal is a property of the two foods and the other side.
    draws = Streams(n=200)
    beans = assess(
        made_reading(made_line("white-beans-dried", other_kg)), tiny_tables, streams=draws
    )
    foods = frozenset({"white-beans-dried", "beef-chuck"})
    places = []
    for mass in (kg, 2 * kg):
        beef = assess(made_reading(made_line("beef-chuck", mass)), tiny_tables, streams=draws)
        found = break_evens(("beef", beef), ("beans", beans), foods, draws)
        places.append(next(one.at for one in found if "beef chuck" in one.per))
    assert places[0] is not None
    assert places[1] is not None
    assert places[0].to_dict() == pytest.approx(places[1].to_dict())
    assert np.isfinite(places[0].p95)
