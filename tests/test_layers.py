"""The layer contract lists every module, so that a new one must be placed before it passes."""

from __future__ import annotations

import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
HOUSE = ROOT / "src" / "counterproof"


def test_every_module_has_its_floor() -> None:
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]
    listed = {
        (container.removeprefix("counterproof").lstrip("."), module.strip("( )"))
        for contract in contracts["contracts"]
        if contract["type"] == "layers"
        for container in contract["containers"]
        for layer in contract["layers"]
        for module in layer.replace(":", "|").split("|")
    }
    listed = {(container, module.strip()) for container, module in listed}
    there = set()
    for file in HOUSE.rglob("*.py"):
        parts = file.relative_to(HOUSE).with_suffix("").parts
        if parts[-1] != "__init__":
            there.add((".".join(parts[:-1]), parts[-1]))
    rooms = [p.parent.relative_to(HOUSE).parts for p in HOUSE.glob("*/**/__init__.py")]
    packages = {(".".join(parts[:-1]), parts[-1]) for parts in rooms}
    assert there | packages == listed
