"""The data package descriptor and the licence page that ship beside the tables."""

from __future__ import annotations

from pathlib import Path

import frictionless
import pytest

import counterproof
from counterproof.adapters.datapackage import written
from counterproof.adapters.forms import FORMS
from counterproof.adapters.tables import load_tables

DATA = Path(counterproof.__file__).parent / "data"


@pytest.mark.parametrize("name", ["datapackage.json", "LICENSES.md"])
def test_what_ships_is_what_the_tables_say(name: str) -> None:
    shipped = (DATA / name).read_text(encoding="utf-8")
    assert shipped == written()[name], "run: python -m counterproof.adapters.datapackage"


def test_an_independent_reader_finds_the_package_valid() -> None:
    # Frictionless framework: types, constraints, keys, foreign keys, byte counts and hashes.
    report = frictionless.validate(str(DATA / "datapackage.json"))
    faults = [task.name for task in report.tasks if not task.valid]
    assert (report.valid, faults) == (True, [])
    assert [task.name for task in report.tasks] == [form.name for form in FORMS]


def test_an_independent_reader_finds_a_planted_fault(tmp_path: Path) -> None:
    for file in [*DATA.glob("*.csv"), DATA / "datapackage.json"]:
        (tmp_path / file.name).write_bytes(file.read_bytes())
    links = tmp_path / "links.csv"
    links.write_text(links.read_text(encoding="utf-8") + "nothing,global,Rice,same,1,,,,assumed,\n")
    report = frictionless.validate(str(tmp_path / "datapackage.json"))
    kinds = {error.type for task in report.tasks if task.name == "links" for error in task.errors}
    assert {"hash-count", "byte-count", "foreign-key"} <= kinds


def test_every_source_is_credited() -> None:
    page = (DATA / "LICENSES.md").read_text(encoding="utf-8")
    for source in load_tables().sources.values():
        assert source.licence in page
        assert source.credit in page
