"""A kitchen answer on terminals of every width, with and without drawing and Unicode."""

from __future__ import annotations

import io

import pytest
from rich.cells import cell_len
from rich.console import Console

from counterproof.adapters.characters import Page
from counterproof.adapters.physics_terminal import print_answer
from counterproof.adapters.plotting import drawn, listed
from counterproof.adapters.tables import load_tables
from counterproof.physics.answer import Answer, Curve, Verdict
from counterproof.physics.flags import Flag
from counterproof.press.kitchen_curves import Plot
from counterproof.press.kitchen_quantities import quantity

ANSWER = Answer(
    "cool",
    {"food": "broth", "where": "room", "from_celsius": 95.0},
    {
        "spans": [
            {
                "rule": "a rule",
                "from_celsius": 57.0,
                "to_celsius": 21.0,
                "seconds": {"mean": 7000.0, "p05": 6000.0, "p50": 7200.0, "p95": 9000.0},
            }
        ],
        "danger_zone_s": {"mean": float("inf"), "p05": 9000.0, "p50": 20000.0, "p95": float("inf")},
        "would_pass": [{"says": "Spread it over two trays."}],
    },
    (Verdict("a rule", "too close", "the limit is 2 h.", "fda-food-code"),),
    Curve((0.0, 3600.0, 7200.0, 14400.0), (95.0, 60.0, 40.0, 25.0)),
    ("Measure it.",),
    ("fda-food-code", "nobody-2020"),
    ("assumed 0.5 ± 30%: depth over diameter",),
    (Flag("odd", "this is odd"),),
)


class Stream(io.BytesIO):
    """A terminal's other end."""


def printed(width: int, encoding: str = "utf-8", *, terminal: bool = True) -> str:
    raw = Stream()
    file = io.TextIOWrapper(raw, encoding=encoding, errors="strict")
    console = Console(file=file, width=width, force_terminal=terminal, color_system=None)
    print_answer(ANSWER, load_tables(), console)
    file.flush()
    return raw.getvalue().decode(encoding)


@pytest.mark.parametrize("width", [60, 80, 100, 160])
@pytest.mark.parametrize("encoding", ["utf-8", "ascii"])
def test_an_answer_fits_and_says_all(width: int, encoding: str) -> None:
    text = printed(width, encoding)
    assert max(cell_len(line) for line in text.splitlines()) <= width
    flat = " ".join(text.split())
    for said in ("to fall from 57", "too close: The limit is 2 h.", "Spread it over two trays.",
                 "Measure it.", "Depth over diameter (0.5", "This is odd.", "nobody-2020"):  # fmt: skip
        assert said in flat
    assert "or more, maybe never" in flat


def test_limits_are_ruled_with_their_value_at_the_margin() -> None:
    lines = printed(100).splitlines()
    ruled = [line for line in lines if line.rstrip().endswith(("57 °C", "21 °C")) and "- -" in line]
    assert len(ruled) == 2


def test_nothing_is_drawn_where_the_output_is_piped() -> None:
    text = printed(80, terminal=False)
    assert "•" not in text
    assert "0 h\u00a095" not in text
    assert "curve" in text


def test_the_curve_is_one_line_of_dots_without_gaps() -> None:
    page = Page(Console(file=io.StringIO(), width=100, force_terminal=True))
    plot = Plot((0.0, 1.0, 2.0), (0.0, 100.0, 0.0), "h", "°C")
    lines = [line.plain for line in drawn(page, plot)]
    columns = range(max(map(len, lines)))
    dotted = [c for c in columns if any(len(line) > c and line[c] == "•" for line in lines)]
    assert dotted == list(range(dotted[0], dotted[-1] + 1))
    assert all("•" in line for line in lines[1:14])
    assert listed(plot, 3).replace("\u00a0", " ") == "0 h 0 °C, 1.0 h 100 °C, 2.0 h 0 °C"


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("time_s", 45.0, "45 s"),
        ("time_s", 600.0, "10 min"),
        ("time_s", 7200.0, "2 h"),
        ("time_s", 3 * 86400.0, "3 days"),
        ("time_s", float("inf"), "never"),
        ("input_j", 3.6e6, "1 kWh"),
        ("input_j", 1000.0, "1 kJ"),
        ("water_kg", 0.25, "250 g"),
        ("celsius", -18.0, "−18 °C"),
        ("kept_share", 0.5, "50 %"),
        ("diameter_m", 0.16, "16 cm"),
        ("power_w", {"mean": 2000.0, "p05": 1500.0, "p50": 1980.0, "p95": 2500.0},
         "2.00 kW (1.50–2.50)"),
    ],
)  # fmt: skip
def test_a_quantity_is_read_in_the_unit_people_read(key: str, value: object, says: str) -> None:
    assert quantity(key, value).replace("\u00a0", " ") == says
