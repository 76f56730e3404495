"""`liken` and `vet` as a person types them: exit status, JSON keys, messages."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from counterproof.adapters.files import demo_season
from counterproof.cli import main

EPISODES = demo_season() / "episodes"
STEW = str(EPISODES / "01-squash-and-bean-stew")
FEW = ["--draws", "500"]


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as left:
        main(list(arguments))
    told = capsys.readouterr()
    return int(left.value.code or 0), told.out, told.err


def document(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, Any]:
    status, out, _ = run(capsys, *arguments, "--json")
    return status, json.loads(out)


def test_liken_keeps_its_json(capsys: pytest.CaptureFixture[str]) -> None:
    status, told = document(capsys, "liken", "0.8kgCO2", "--celsius", "0")
    assert status == 0
    assert told["quantity"] == "0.8kgCO2"
    first = told["likenesses"][0]
    assert {"kind", "count", "sentence", "conditions", "source"} <= first.keys()
    balloons = next(one for one in told["likenesses"] if one["kind"] == "balloon")
    assert 27 <= balloons["count"] <= 28


def test_liken_takes_plain_words_about_a_recipe(capsys: pytest.CaptureFixture[str]) -> None:
    status, told = document(capsys, "liken", "one serving of this recipe", "--in", STEW, *FEW)
    assert status == 0
    assert set(told["likenesses"][0]["count"]) == {"mean", "p05", "p50", "p95"} or isinstance(
        told["likenesses"][0]["count"], float
    )


def test_liken_draws_to_scale(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    place = tmp_path / "balloons.svg"
    status, out, _ = run(capsys, "liken", "550gCO2e", "--draw", str(place))
    assert status == 0
    assert "balloons" in out
    assert place.read_text().startswith("<svg")


def test_liken_draws_a_pair_alike(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    place = tmp_path / "pair.svg"
    arguments = ["550gCO2e", "--beside", "7.5kgCO2e", "--draw", str(place)]
    status, _, _ = run(capsys, "liken", *arguments)
    assert status == 0
    assert "beside" in place.read_text()
    status, told = document(capsys, "liken", "550gCO2e", "--beside", "7L", "--draw", str(place))
    assert status == 2
    assert "7L" in told["error"]["message"]


@pytest.mark.parametrize("quantity", ["12", "12 apples", "kg", "-3kgCO2"])
def test_liken_says_which_quantities_are_taken(
    capsys: pytest.CaptureFixture[str], quantity: str
) -> None:
    status, out, _ = run(capsys, "liken", "--json", "--", quantity)
    assert status == 2
    assert "0.8kgCO2" in json.loads(out)["error"]["remedy"]


def test_vet_ends_with_attention_where_a_claim_fails(capsys: pytest.CaptureFixture[str]) -> None:
    status, told = document(capsys, "vet", STEW, *FEW)
    assert status == 1
    assert {"holds", "does not hold"} <= {claim["verdict"] for claim in told["claims"]}


def test_vet_ends_done_where_all_holds(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    script = tmp_path / "script.md"
    script.write_text("One bowl is [= one bowl]. [? this recipe is lower than with beef]")
    said = tmp_path / "said.md"
    arguments = [str(script), "--recipe", STEW, "--resolved", str(said), *FEW]
    status, out, _ = run(capsys, "vet", *arguments)
    assert status == 0
    assert "holds: true in" in out
    assert said.read_text().startswith("One bowl is ")
    assert "[" not in said.read_text()


def test_vet_reads_captions_beside_a_script(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    captions = tmp_path / "said.srt"
    captions.write_text("1\n00:00:01,000 --> 00:00:02,000\nOne bowl is 3 kg of CO2e.\n")
    status, told = document(capsys, "vet", str(captions), "--recipe", STEW, *FEW)
    assert status == 1
    (one,) = told["loose_numbers"]
    assert one["time"] == "00:00:01.000"
    assert one["contradicts"] is True


def test_vet_says_where_a_script_breaks(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    script = tmp_path / "script.md"
    script.write_text("First line.\nOne bowl is [= one bowl")
    status, told = document(capsys, "vet", str(script), "--recipe", STEW)
    assert status == 2
    assert told["error"]["line"] == 2
    assert told["error"]["kind"] == "NotUnderstood"


def test_vet_traces_someone_elses_number(capsys: pytest.CaptureFixture[str]) -> None:
    status, told = document(capsys, "vet", "--their", "99 kg per kg beef")
    assert status == 0
    assert "beef herd" in told["given_by"][0]["choice"]
    assert told["questions"]
    status, out, _ = run(capsys, "vet", "--their", "900 kg per kg beef")
    assert status == 1
    assert "fails" in out


def test_vet_asks_for_a_script(capsys: pytest.CaptureFixture[str]) -> None:
    status, told = document(capsys, "vet")
    assert status == 2
    assert told["error"]["kind"] == "UsageFault"
