"""The kitchen questions as a person types them: keys, units, exit statuses, printed values."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.cli import main
from counterproof.cli.option_tables import commands, renewed

PAGE = Path(__file__).parents[1] / "docs" / "physics_questions.md"
RANGE = {"mean", "p05", "p50", "p95"}
FEW = ("--draws", "200")

# Question → what it is asked with, and the keys contracts promise.
ASKED: dict[str, tuple[tuple[str, ...], set[str]]] = {
    "heat": (
        ("--water", "1L", "--to", "90C"),
        {"time_s", "useful_j", "input_j", "evaporated_kg"},
    ),
    "simmer": (
        ("--water", "2L", "--time", "20min"),
        {"useful_j", "input_j", "evaporated_kg"},
    ),
    "fry": (
        ("--food", "potatoes", "--mass", "500g", "--time", "10min"),
        {"useful_j", "input_j", "evaporated_kg"},
    ),
    "bake": (("--temperature", "180C", "--time", "40min"), {"input_j"}),
    "kettle": (("--water", "1L"), {"time_s", "useful_j", "input_j", "evaporated_kg"}),
    "microwave": (
        ("--food", "lentils", "--mass", "400g", "--to", "75C"),
        {"time_s", "useful_j", "input_j"},
    ),
    "cool": (("--volume", "2L", "--from", "90C"), {"spans", "danger_zone_s"}),
    "freeze": (("--volume", "473ml"), {"time_s", "expansion_share", "headspace_ml"}),
    "thaw": (("--volume", "473ml"), {"time_s"}),
    "carbonate": (
        ("--temperature", "4C", "--gauge", "3bar"),
        {"co2_g_per_l", "volumes", "co2_mole_fraction", "ph"},
    ),
    "steep": (
        ("--size", "5mm", "--time", "10min", "--temperature", "96C"),
        {"extracted_share"},
    ),
    "mix": (
        ("30 ml lime juice", "15 g honey", "300 ml sparkling water", "--fizz", "6g/L"),
        {"brix", "density_kg_per_l", "acid_g_per_l", "co2_g_per_l", "celsius",
         "alcohol_vol_share"},
    ),
}  # fmt: skip


class Told:
    """What a command said, and how it left."""

    def __init__(self, status: int, out: str, err: str) -> None:
        self.status, self.out, self.err = status, out, err

    @property
    def document(self) -> dict[str, Any]:
        found = json.loads(self.out)
        assert isinstance(found, dict)
        return found

    def mean(self, key: str) -> float:
        value = self.document["result"][key]
        return float(value["mean"] if isinstance(value, dict) else value)


Ask = Callable[..., Told]


@pytest.fixture
def ask(capsys: pytest.CaptureFixture[str]) -> Ask:
    def run(process: str, *options: str, as_json: bool = True) -> Told:
        with pytest.raises(SystemExit) as leave:
            main(("physics", process, *options, *(("--json",) if as_json else ())))
        found = capsys.readouterr()
        assert isinstance(leave.value.code, int)
        return Told(leave.value.code, found.out, found.err)

    return run


def test_every_question_is_asked_here() -> None:
    assert set(ASKED) == set(commands())


@pytest.mark.parametrize("process", ASKED)
def test_a_question_gives_the_promised_keys_and_json_alone(ask: Ask, process: str) -> None:
    options, keys = ASKED[process]
    found = ask(process, *options, *FEW)
    document = found.document
    assert set(document) == {
        "process", "inputs", "result", "verdicts", "curve", "cautions", "sources", "marks"
    }  # fmt: skip
    assert document["process"] == process
    assert keys <= set(document["result"])
    assert found.err == ""
    judged = {verdict["verdict"] for verdict in document["verdicts"]}
    assert judged <= {"within", "too close", "over", "no rule"}
    open_doubt = any(mark["level"] != "note" for mark in document["marks"])
    assert found.status == (1 if open_doubt or judged & {"over", "too close"} else 0)


@pytest.mark.parametrize("process", ASKED)
def test_every_source_named_is_on_record(ask: Ask, process: str) -> None:
    document = ask(process, *ASKED[process][0], *FEW).document
    for source in document["sources"]:
        assert source["citation"], f"{source['id']} has no row in data/sources.csv"
    known = {*load_tables().sources, "common practice"}
    assert {verdict["source"] for verdict in document["verdicts"]} <= known


@pytest.mark.parametrize("process", ASKED)
def test_a_question_is_answered_in_words(ask: Ask, process: str) -> None:
    found = ask(process, *ASKED[process][0], *FEW, as_json=False)
    first = found.out.strip().partition("\n\n")[0].replace("\n", " ")
    assert re.fullmatch(r"[A-Z0-9].+\d.+\.", first), first
    assert not re.search(r"\bsafe", found.out, re.IGNORECASE)
    assert "\x1b" not in found.out
    assert "None" not in found.out
    assert max(len(line) for line in found.out.splitlines()) <= 80


@pytest.mark.parametrize(
    ("options", "says", "takes"),
    [
        (("heat", "--water", "1"), "--water “1” has no unit", "ml"),
        (("heat", "--water", "1L", "--to", "90"), "--to “90” has no unit", "C, F, K"),
        (("heat", "--water", "1furlong"), "neither a volume nor a weight", "kg"),
        (("kettle", "--water", "1L", "--power", "2L"), "--power “2L”", "kW"),
        (("carbonate", "--gauge", "3"), "--gauge “3” has no unit", "psi"),
        (("cool", "--volume", "2L", "--measured", "80C"), "--measured", "30min=60C"),
        (("steep", "--size", "5mm", "--time", "9min", "--temperature", "90C", "--want", "1"),
         "--want", "per cent"),
    ],
)  # fmt: skip
def test_a_bare_number_is_told_which_units_are_taken(
    ask: Ask, options: tuple[str, ...], says: str, takes: str
) -> None:
    found = ask(*options)
    error = found.document["error"]
    assert found.status == 2
    assert error["kind"] == "QuantityError"
    assert says in error["message"]
    assert takes in error["remedy"]


@pytest.mark.parametrize(
    "options",
    [
        ("heat",),
        ("heat", "--food", "potatoes"),
        ("heat", "--mass", "1kg"),
        ("heat", "--water", "1L", "--to", "150C"),
        ("simmer", "--water", "1L"),
        ("cool",),
        ("cool", "--volume", "1L", "--where", "ice-bath", "--ambient", "4C"),
        ("fry", "--food", "potatoes", "--mass", "1kg", "--time", "9min", "--deep"),
        ("carbonate", "--temperature", "4C"),
        ("carbonate", "--gauge", "3bar", "--absolute", "4bar"),
        ("mix", "some moonbeams"),
        ("mix", "30 ml lime juice", "--want-brix", "8"),
        ("bake", "--temperature", "180C"),
        ("nothing",),
    ],
)
def test_what_cannot_be_answered_says_what_to_do(ask: Ask, options: tuple[str, ...]) -> None:
    found = ask(*options)
    assert found.status == 2
    assert found.document["error"]["message"]
    assert found.document["error"]["remedy"]


@pytest.mark.published
def test_useful_heat_of_a_litre_agrees_with_the_steam_tables(ask: Ask) -> None:
    # IAPWS-95 by the reference kitchen: enthalpy of water, 419.1 − 83.9 kJ/kg from 20 to 100 °C
    # at 1 atm, which is 0.0931 kWh/kg; three digits printed.
    found = ask("heat", "--water", "1kg", "--from", "20C", "--to", "100C", *FEW)
    assert found.mean("useful_j") / 3.6e6 == pytest.approx(0.0931, abs=0.00005)
    assert found.status == 0


@pytest.mark.published
def test_cooling_is_held_to_the_two_stages_of_the_food_code(ask: Ask) -> None:
    # US FDA, Food Code, 3-501.14(A): 57 to 21 °C in 2 hours, to 5 °C or less in 6 in all.
    found = ask("cool", "--volume", "4L", "--from", "95C", *FEW)
    spans = [(round(s["from_celsius"]), round(s["to_celsius"]))
             for s in found.document["result"]["spans"]]  # fmt: skip
    assert spans == [(57, 21), (57, 5)]
    first, whole = found.document["verdicts"][:2]
    assert first["source"] == whole["source"] == "fda-food-code"
    assert "the limit is 2 h" in first["message"]
    assert "the limit is 6 h" in whole["message"]
    assert first["verdict"] == "over"
    assert found.document["result"]["would_pass"]
    assert found.status == 1


@pytest.mark.published
def test_the_cylinder_has_the_saturation_pressure_of_carbon_dioxide(ask: Ask) -> None:
    # Span & Wagner 1996, saturation pressure at 0 °C: 3.485 MPa; held to the 1 % asked.
    found = ask("carbonate", "--temperature", "4C", "--gauge", "3bar", "--room", "0C", "--cylinder",
                "425g", "--cylinder-volume", "0.6L", *FEW)  # fmt: skip
    assert found.document["result"]["cylinder_bar"] == pytest.approx(34.85, rel=0.01)


@pytest.mark.published
def test_honey_water_has_the_sugar_of_the_nutrient_table(ask: Ask) -> None:
    # USDA SR28, NDB 19296: 82.12 g of sugars in 100 g of honey; by hand 50 g in 500 g is
    # 41.06 g, 8.212 °Brix. Drawn weights stray by 2 % each, so the mean is held to 0.5 %.
    found = ask("mix", "50 g honey", "450 g water")
    assert found.mean("brix") == pytest.approx(8.212, rel=0.005)


def test_what_a_question_gives_it_takes_back(ask: Ask) -> None:
    forward = ask("carbonate", "--temperature", "4C", "--gauge", "1.5bar", *FEW)
    held = forward.mean("co2_g_per_l")
    back = ask("carbonate", "--temperature", "4C", "--want", f"{held:.6f}g/L", *FEW)
    assert back.mean("gauge_bar") == pytest.approx(1.5, rel=1e-3)
    warm = ask("carbonate", "--gauge", "1.5bar", "--want", f"{held:.6f}g/L", *FEW)
    assert warm.mean("celsius") == pytest.approx(4.0, abs=0.02)
    reduced = ask("simmer", "--water", "2L", "--boil-off", "300g", "--no-lid", *FEW)
    assert reduced.mean("evaporated_kg") == pytest.approx(0.3)
    quick = ask("heat", "--water", "1L", "--time", "5min", *FEW)
    again = ask("heat", "--water", "1L", "--power", f"{quick.mean('power_w'):.3f}W", *FEW)
    assert again.mean("time_s") == pytest.approx(300.0, rel=0.02)


def test_a_drink_is_made_to_measure(ask: Ask) -> None:
    found = ask("mix", "1 l sugar syrup", "1 l lime juice", "1 l water", "--want-brix", "8",
                "--want-acid", "4g/L", "--volume", "330ml")  # fmt: skip
    assert found.mean("brix") == pytest.approx(8.0, rel=1e-6)
    assert found.mean("acid_g_per_l") == pytest.approx(4.0, rel=1e-6)
    assert found.mean("volume_ml") == pytest.approx(330.0, rel=1e-6)
    assert set(found.document["result"]["parts_g"]) == {"sugar syrup", "lime juice", "water"}


def test_ice_brings_a_drink_to_what_is_wanted(ask: Ask) -> None:
    found = ask("mix", "200 ml apple juice", "--want-temperature", "6C", *FEW)
    assert found.mean("celsius") == pytest.approx(6.0, abs=0.3)
    assert found.document["inputs"]["ice_g"] > 10


def test_ranges_come_from_draws_and_repeat(ask: Ask) -> None:
    options = ("--water", "1L", "--to", "90C", "--draws", "400")
    once, again = ask("heat", *options), ask("heat", *options)
    other = ask("heat", *options, "--seed", "2")
    assert once.out == again.out
    assert once.document["result"]["time_s"] != other.document["result"]["time_s"]
    time = once.document["result"]["time_s"]
    assert set(time) == RANGE
    assert time["p05"] < time["p50"] < time["p95"]
    assert isinstance(once.document["result"]["useful_j"], float)


def test_the_kitchen_gives_the_defaults(ask: Ask, tmp_path: Path) -> None:
    place = tmp_path / "kitchen.yaml"
    place.write_text(
        "hob: {kind: gas, power: 3 kW}\naltitude_m: 2000\ntap_celsius: 8\n"
        "vessels:\n  - {name: small pot, litres: 2, diameter: 16 cm, empty_weight: 900 g}\n"
    )
    inputs = ask("heat", "--water", "1L", "--kitchen", str(place), *FEW).document["inputs"]
    assert inputs["appliance"] == "gas hob"
    assert inputs["power_w"] == 3000
    assert inputs["from_celsius"] == pytest.approx(8.0)
    assert inputs["diameter_m"] == pytest.approx(0.16)
    assert 93.0 < inputs["to_celsius"] < 94.0
    own = ask("heat", "--water", "1L", "--kitchen", str(place), "--altitude", "0m", *FEW)
    assert own.document["inputs"]["to_celsius"] == pytest.approx(99.97, abs=0.01)


def test_a_food_no_table_knows_is_a_doubt_and_no_end(ask: Ask) -> None:
    found = ask("heat", "--food", "moonbeam gruel", "--mass", "1kg", *FEW)
    assert found.status == 1
    assert "food-unknown" in {mark["kind"] for mark in found.document["marks"]}
    assert found.document["inputs"]["food"] == "moonbeam gruel"


def test_a_measured_temperature_forecasts_the_rest(ask: Ask) -> None:
    found = ask("cool", "--volume", "2L", "--from", "90C", "--measured", "30min=75C",
                "--measured", "60min=62C", *FEW)  # fmt: skip
    assert [m["seconds"] for m in found.document["inputs"]["measured"]] == [1800, 3600]
    assert found.document["result"]["from_last_measured"]


def test_the_page_holds_every_option_as_it_is() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert renewed(page) == page, (
        "run python -m counterproof.cli.option_tables docs/physics_questions.md"
    )
    assert set(re.findall(r"<!-- options: (\w+) -->", page)) == set(commands())


def _examples() -> list[str]:
    return re.findall(
        r"^    counterproof physics (.+)$", PAGE.read_text(encoding="utf-8"), re.MULTILINE
    )


@pytest.mark.parametrize("line", _examples())
def test_the_examples_of_the_page_have_answers(ask: Ask, line: str) -> None:
    words = [quoted or bare for quoted, bare in re.findall(r'"([^"]+)"|(\S+)', line)]
    assert ask(words[0], *words[1:], *FEW).status in {0, 1}
