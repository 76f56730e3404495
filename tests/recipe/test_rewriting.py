"""One value of a settings file changed in place, every other character as it was."""

from __future__ import annotations

import pytest

from counterproof.errors import BrokenSettings
from counterproof.recipe.kitchen_file import read_kitchen
from counterproof.recipe.rewriting import changed_front_matter, changed_yaml
from counterproof.recipe.text import read_text

KITCHEN = """# Ours
region: uk                # where

hob:
  kind: induction         # kind
  power: 2 kW             # of the ring
room_celsius: 17          # the hall

fridge: {litres: 380, celsius: 4}   # big
vessels:
  - {name: stew pot, litres: 8}
"""


@pytest.mark.parametrize(
    ("path", "value", "old", "new"),
    [
        (("hob", "power"), "1.3 kW", "  power: 2 kW             # of", "  power: 1.3 kW           # of"),
        (("room_celsius",), 16.5, "room_celsius: 17          #", "room_celsius: 16.5        #"),
        (("fridge", "celsius"), 6.0, "celsius: 4}", "celsius: 6}"),
        (("fridge", "kwh_per_year"), 170, "celsius: 4}", "celsius: 4, kwh_per_year: 170}"),
        (("hob", "simmer_loss"), 1.6, "room_celsius", "  simmer_loss: 1.6\nroom_celsius"),
    ],
)  # fmt: skip
def test_only_the_value_changes(path: tuple[str, ...], value: object, old: str, new: str) -> None:
    assert changed_yaml(KITCHEN, path, value) == KITCHEN.replace(old, new)


@pytest.mark.parametrize(
    ("text", "path", "value"),
    [
        ("", ("tap_celsius",), 9.0),
        ("", ("freezer", "celsius"), -20.0),
        ("hob: gas  # old", ("hob", "power"), "3 kW"),
        ("region: uk", ("altitude_m",), 900),
    ],
)
def test_a_key_that_is_not_there_is_added(text: str, path: tuple[str, ...], value: object) -> None:
    kitchen = read_kitchen(changed_yaml(text, path, value))
    stated = {"tap_celsius", "freezer_celsius", "hob_watts", "altitude_m"} & kitchen.stated
    assert len(stated) == 1
    assert kitchen.region == ("uk" if "uk" in text else "world")


def test_what_is_no_yaml_is_not_touched() -> None:
    with pytest.raises(BrokenSettings):
        changed_yaml("hob: [", ("hob", "power"), "2 kW", "kitchen.yaml")


@pytest.mark.parametrize("head", ["", "---\nmeasures: uk\n---\n\n", "---\neaten: 0.8\n---\n"])
def test_a_recipe_gets_its_setting_with_or_without_settings_before(head: str) -> None:
    soup = f"{head}# Soup\n\n- 1 kg leeks\n\n1. Simmer for 20 minutes.\n"
    changed = changed_front_matter(soup, "eaten", 0.93)
    recipe = read_text(changed)
    assert recipe.eaten == pytest.approx(0.93)
    assert recipe.title == "Soup"
    assert recipe.measures == ("uk" if "uk" in head else None)
    assert changed.endswith(soup[len(head) :])
