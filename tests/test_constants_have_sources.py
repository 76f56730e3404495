"""Every constant of the kitchen and the plan names a source that stands in the source records."""

from __future__ import annotations

import dataclasses
import importlib
import pkgutil
from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.physics import cooling_rules, hob
from counterproof.physics.values import Fit
from counterproof.sourced import Sourced

OWN = {"exact", "assumed", "derived", "common practice"}
"""What is no publication: definitions, house choices that say why, what follows from others,
and facts of the trade that nobody prints."""


def _constants(held: Any, depth: int = 0) -> Iterator[Sourced | Fit]:
    if isinstance(held, (Sourced, Fit)):
        yield held
    elif depth > 5 or isinstance(held, (str, bytes, type)):
        return
    elif isinstance(held, Mapping):
        for inner in held.values():
            yield from _constants(inner, depth + 1)
    elif isinstance(held, (tuple, list, set, frozenset)):
        for inner in held:
            yield from _constants(inner, depth + 1)
    elif dataclasses.is_dataclass(held):
        for part in dataclasses.fields(held):
            yield from _constants(getattr(held, part.name), depth + 1)


def _rooms(name: str) -> list[str]:
    package = importlib.import_module(f"counterproof.{name}")
    found = pkgutil.iter_modules(package.__path__, f"counterproof.{name}.")
    return [module.name for module in found]


SOURCES = load_tables().sources


@pytest.mark.parametrize("room", [*_rooms("physics"), *_rooms("plan")])
def test_every_constant_of_a_module_is_sourced(room: str) -> None:
    module = importlib.import_module(room)
    held = [constant for member in vars(module).values() for constant in _constants(member)]
    unknown = {constant.source for constant in held} - OWN - set(SOURCES)
    assert not unknown, f"{room}: no row of data/sources.csv for {', '.join(sorted(unknown))}"
    silent = [c for c in held if c.source == "assumed" and not c.note]
    assert not silent, f"{room}: assumed without a reason: {silent}"


def test_the_walk_finds_constants() -> None:
    assert sum(1 for member in vars(hob).values() for _ in _constants(member)) > 5
    named = {c.source for member in vars(cooling_rules).values() for c in _constants(member)}
    assert "fda-food-code" in named
