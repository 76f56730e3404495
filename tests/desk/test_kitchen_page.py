"""The kitchen on the desk: shown in words, saved in place, every other line as it was."""

from pathlib import Path
from typing import Any

import pytest

from counterproof.desk.kitchen_page import GROUPS, changed_kitchen, shown
from counterproof.errors import NotFilledIn
from counterproof.recipe.kitchen_file import KITCHEN_KEYS, read_kitchen

Asking = Any
FILE = """# ours
region: uk   # the grid
hob:
  kind: gas
  power: 2 kW   # weighed in
fridge: {litres: 300, celsius: 5}
tap_alkalinity: 1-2 meq/L
vessels:
  - {name: pot, litres: 8}
"""


def _saved(asking: Asking, **told: Any) -> Any:
    page = asking.page("/leaf/kitchen")
    body = {"name": page["name"], "over": page["over"], **told}
    return asking.client.post("/kitchen-saved", json=body)


def test_every_setting_of_a_kitchen_file_has_an_entry_or_stands_in_the_file_below() -> None:
    entered = {setting.path[0] for _, settings in GROUPS for setting in settings}
    assert set(KITCHEN_KEYS) - entered == {"vessels", "tools", "own_factors"}


def test_what_the_cook_said_stands_in_its_entry() -> None:
    kitchen = read_kitchen(FILE)
    stands = {s.key: shown(s, kitchen) for _, settings in GROUPS for s in settings}
    assert stands["region"] == "uk"
    assert (stands["hob-kind"], stands["hob-power"]) == ("gas", "2")
    assert (stands["fridge-celsius"], stands["fridge-kwh_per_year"]) == ("5", "")
    assert stands["tap_alkalinity"] == "1-2"
    assert stands["month"] == ""


def test_what_stands_as_it_did_is_left_alone() -> None:
    kitchen = read_kitchen(FILE)
    told = {s.key: shown(s, kitchen) for _, settings in GROUPS for s in settings}
    assert changed_kitchen(FILE, told, kitchen, "kitchen.yaml") == FILE


def test_a_change_keeps_comments_and_all_other_lines() -> None:
    kitchen = read_kitchen(FILE)
    told = {"hob-kind": "induction", "hob-power": "1.8", "month": "November", "hob-rings": "5"}
    changed = changed_kitchen(FILE, told, kitchen, "kitchen.yaml")
    now = read_kitchen(changed)
    assert (now.hob, now.hob_watts, now.rings, now.month) == ("induction", 1800.0, 5, 11)
    assert "# weighed in" in changed
    assert "# ours\nregion: uk   # the grid\n" in changed
    assert "{name: pot, litres: 8}" in changed


def test_each_fault_stands_beside_its_entry() -> None:
    with pytest.raises(NotFilledIn) as caught:
        changed_kitchen(FILE, {"region": "atlantis 9", "fridge-celsius": "40", "month": "June"}, read_kitchen(FILE), "k")  # fmt: skip
    assert set(caught.value.faults) == {"region", "fridge-celsius"}


def test_an_entry_emptied_says_how_to_leave_it_out() -> None:
    with pytest.raises(NotFilledIn, match="take its line out"):
        changed_kitchen(FILE, {"region": ""}, read_kitchen(FILE), "k")


def test_a_kitchen_is_saved_to_its_file(asking: Asking) -> None:
    answer = _saved(asking, entries={"altitude_m": "1200"})
    assert answer.status_code == 200, answer.text
    assert read_kitchen((asking.root / "kitchen.yaml").read_text()).altitude_m == 1200
    assert answer.json()["over"] == asking.page("/leaf/kitchen")["over"]


def test_the_file_itself_is_saved_and_read_first(asking: Asking) -> None:
    assert _saved(asking, text="region: fr nonsense\n").status_code == 422
    assert _saved(asking, text="region: FRA\n").status_code == 200
    assert (asking.root / "kitchen.yaml").read_text() == "region: FRA\n"


def test_a_kitchen_changed_on_disk_is_not_written_over(asking: Asking) -> None:
    over = asking.page("/leaf/kitchen")["over"]
    (asking.root / "kitchen.yaml").write_text("region: us\n")
    body = {"name": None, "over": over, "entries": {"altitude_m": "3"}}
    body["name"] = asking.page("/leaf/kitchen")["name"]
    assert asking.client.post("/kitchen-saved", json=body).status_code == 409
    assert (asking.root / "kitchen.yaml").read_text() == "region: us\n"


def test_a_kitchen_outside_the_folder_is_neither_shown_nor_written(
    asking: Asking, tmp_path: Path
) -> None:
    (tmp_path / "elsewhere.yaml").write_text("region: us\n")
    text = asking.recipe.read_text(encoding="utf-8").removeprefix("---\n")
    front = "---\nkitchen: ../../../elsewhere.yaml\n"
    asking.recipe.write_text(front + (text if "---" in text else f"---\n{text}"), encoding="utf-8")
    answer = asking.client.get("/leaf/kitchen", params={"name": asking.folder.first})
    assert answer.status_code == 422
    assert str(tmp_path) not in answer.text


def test_a_stranger_gets_no_kitchen(asking: Asking) -> None:
    assert asking.stranger.get("/leaf/kitchen").status_code == 401
    assert asking.stranger.post("/kitchen-saved", json={}).status_code == 401
