"""The table loader: what it hands on, and how it names a fault."""

from __future__ import annotations

import hashlib
from dataclasses import FrozenInstanceError, fields
from typing import TYPE_CHECKING

import pytest

from counterproof.adapters.cells import cells
from counterproof.adapters.forms import FORMS
from counterproof.adapters.life_cycle_forms import LIFE_CYCLE_FORMS
from counterproof.adapters.shop_forms import SHOP_FORMS
from counterproof.adapters.tables import checksum, load_tables, table_contents
from counterproof.errors import TableError
from counterproof.rows import Provenance, Tables

if TYPE_CHECKING:
    from pathlib import Path

# A pantry of two foods, written for these tests: numbers are invented and round.
TINY = {
    "sources": ["src,A table,A producer,2020,A citation,,2026-01-01,CC0,A credit"],
    "foods": ["pea,pea,vegetables,solid,piece,", "pea-soup,pea soup,vegetables,liquid,,"],
    "names": ["pea,pea,,,,", "pea,garden pea,uk,,,", "pea-soup,pea soup,,,,"],
    "household": ["pea,cup,,,0.15,0.2,false,src,p. 1,read,"],
    "densities": ["pea-soup,,1.02,src,p. 2,read,"],
    "composition": ["pea,79,5,0.4,14,5,6,0.9,,,81,5,src,p. 3,read,"],
    "edible": ["pea,0.38,pod,src,p. 4,read,"],
    "yields": ["pea,pea-soup,boiled,3,2.5,3.5,src,p. 5,read,"],
    "allergens": ["pea,celery,read the label,,,assumed,stands beside celery in the shop"],
    "factors_global": [
        "global,Peas,kg,dry,1,0.5,0.6,0.8,1.6,1.8,0.4,2.2,30,400,,mean,AR5,to retail,src,p. 6,read,",
        "global,Beans,kg,dry,2,0.5,0.6,0.8,1.6,1.8,0.4,2.2,30,400,,mean,AR5,to retail,src,p. 6,read,",
    ],
    "factors_literature": [
        "literature,Pea,kg,as bought,0.4,,,,,,,,,,1.3,median,mixed,to a depot,src,p. 7,read,"
    ],
    "factors_national": [],
    "factor_stages": [
        "global,Peas,farm,0.7,src,p. 8,read,",
        "global,Peas,retail,0.3,src,p. 8,read,",
    ],
    "factor_shapes": ["global,Peas,1.5,1"],
    "mixtures": [
        "global,Pulses,Peas,0.25,src,p. 9,read,",
        "global,Pulses,Beans,0.75,src,p. 9,read,",
    ],
    "links": [
        "pea,global,Pulses,class average,0.25,dry from fresh,src,p. 10,derived,",
        "pea,literature,Pea,same,1,,src,p. 10,read,",
    ],
    "energy": ["gas,uk,0.2,1.05,,src,p. 11,read,"],
    "seasons": ["pea,national,in season,Early peas,Peas,0.8,production,src,p. 12,derived,"],
    "harvests": ["pea,6,8,src,p. 13,read,"],
}


def laid_out(folder: Path, changed: dict[str, list[str]] | None = None) -> Path:
    """Write the tiny tables, some of them changed."""
    for form in FORMS:
        lines = [",".join(cells(form)), *{**TINY, **(changed or {})}.get(form.name, ())]
        (folder / form.file).write_text("\n".join(lines) + "\n", encoding="utf-8")
    return folder


@pytest.fixture
def tiny(tmp_path: Path) -> Tables:
    return load_tables(laid_out(tmp_path))


def test_rows_come_out_typed(tiny: Tables) -> None:
    (cup,) = tiny.household["pea"]
    assert (cup.kg, cup.spread, cup.as_bought) == (0.15, 0.2, False)
    assert cup.provenance == Provenance("src", "p. 1", "read", "")
    assert tiny.composition["pea"].alcohol_g is None
    assert tiny.factors["global", "Peas"].studies == 30
    assert [link.set for link in tiny.links["pea"]] == ["global", "literature"]
    assert [part.share for part in tiny.mixtures["global", "Pulses"]] == [0.25, 0.75]


def test_rows_are_frozen(tiny: Tables) -> None:
    with pytest.raises(FrozenInstanceError):
        tiny.foods["pea"].name = "bean"  # type: ignore[misc]


def test_every_table_has_a_place_in_tables() -> None:
    indexes = {field.name for field in fields(Tables)} - {"sha256", "version", "own"}
    renamed = {
        "factors_global": "factors",
        "factors_literature": "factors",
        "factors_national": "factors",
        "factor_stages": "stages",
        "factor_shapes": "shapes",
        **{form.name: "life_cycle" for form in LIFE_CYCLE_FORMS},
        **{form.name: "shop" for form in SHOP_FORMS},
    }
    assert {renamed.get(form.name, form.name) for form in FORMS} == indexes


def test_checksum_covers_every_file(tmp_path: Path) -> None:
    contents = table_contents(laid_out(tmp_path))
    joined = b"".join(name.encode() + b"\0" + contents[name] for name in sorted(contents))
    assert checksum(contents) == hashlib.sha256(joined).hexdigest()
    assert load_tables(tmp_path).sha256 == checksum(contents)
    assert len({checksum({**contents, name: b""}) for name in contents}) == len(contents)


def test_checksum_does_not_see_line_ends(tmp_path: Path) -> None:
    before = load_tables(laid_out(tmp_path)).sha256
    foods = tmp_path / "foods.csv"
    foods.write_bytes(foods.read_bytes().replace(b"\n", b"\r\n"))
    assert load_tables(tmp_path).sha256 == before


FAULTS = {
    "an unknown food": ("names", ["bean,bean,,,,"], 2, '"food" says "bean"'),
    "a link from an unknown food": ("links", ["bean,global,Peas,same,1,,src,,read,"], 2, "bean"),
    "an unknown source": ("densities", ["pea,,1,book,,read,"], 2, 'source "book" is unknown'),
    "a figure without a source": ("densities", ["pea,,1,,,read,"], 2, "names no source"),
    "an assumption without a reason": ("densities", ["pea,,1,,,assumed,"], 2, "no reason"),
    "a number that is none": ("densities", ["pea,,heavy,src,,read,"], 2, "allowed is a number"),
    "a number without end": ("densities", ["pea,,inf,src,,read,"], 2, "allowed is a number"),
    "a negative mass": (
        "household",
        [*TINY["household"], "pea,tbsp,,,-0.01,,false,src,,read,"],
        3,
        '"kg" is -0.01, allowed is above 0',
    ),
    "more than a hundred grams in a hundred": (
        "composition",
        ["pea,179,5,0.4,14,5,6,0.9,,,81,5,src,p. 3,read,"],
        2,
        '"water_g" is 179',
    ),
    "a duplicate": ("names", [*TINY["names"], "pea-soup,pea,,,,"], 5, "stands in line 2"),
    "a word outside a closed list": (
        "foods",
        ["pea,pea,vegetable,solid,,", "pea-soup,pea soup,vegetables,liquid,,"],
        2,
        '"food_class" is "vegetable"',
    ),
    "a word outside a type": ("allergens", ["pea,celery,perhaps,src,,read,"], 2, "read the label"),
    "a name in capitals": ("names", ["pea,Pea,,,,"], 2, "lower case"),
    "a fit without a reason": ("names", ["pea,bean,,relative,,"], 2, "says why"),
    "another food that is none": (
        "names",
        ["pea,pod,,,bean,or a bean"],
        2,
        '"others" names "bean"',
    ),
    "blanks around a cell": ("names", ["pea, pea,,,,"], 2, "no blanks before or after"),
    "an empty cell": (
        "foods",
        ["pea,,vegetables,solid,,", *TINY["foods"][1:]],
        2,
        '"name" is empty',
    ),
    "a cell too many": ("edible", ["pea,0.3,pod,src,p. 4, line 2,read,"], 2, "has 8 cells"),
    "an empty line": ("edible", ["", *TINY["edible"]], 2, "has 0 cells"),
    "a link to a missing factor": (
        "links",
        ["pea,national,Peas,same,1,,src,,read,"],
        2,
        'the national set has no factor "Peas"',
    ),
    "a link that weighs nothing": (
        "links",
        ["pea,global,Peas,same,0,,src,,read,"],
        2,
        '"per" is 0',
    ),
    "a stage of a missing factor": (
        "factor_stages",
        ["global,Oats,farm,1,src,,read,"],
        2,
        'no factor "Oats"',
    ),
    "stages that miss the mean": (
        "factor_stages",
        ["global,Peas,farm,0.7,src,,read,", "global,Peas,retail,0.2,src,,read,"],
        3,
        'the stages of the factor "Peas" sum to 0.9, not to 1',
    ),
    "shares that miss the whole": (
        "mixtures",
        ["global,Pulses,Peas,0.25,src,,read,", "global,Pulses,Beans,0.7,src,,read,"],
        3,
        'the shares of the mixture "Pulses" sum to 0.95',
    ),
    "percentiles that fall": (
        "factors_global",
        [
            "global,Peas,kg,dry,1,0.5,0.6,0.4,1.6,1.8,0.4,2.2,30,400,,mean,AR5,b,src,,read,",
            TINY["factors_global"][1],
        ],
        2,
        "percentiles rise",
    ),
    "a factor without a range": (
        "factors_literature",
        ["literature,Pea,kg,as bought,0.4,,,,,,,,,,,median,mixed,b,src,,read,"],
        2,
        "either all percentiles or a spread",
    ),
    "a yield outside its own range": (
        "yields",
        ["pea,pea-soup,boiled,4,2.5,3.5,src,,read,"],
        2,
        "between low and high",
    ),
    "a factor in the wrong file": (
        "factors_national",
        ["global,Oats,kg,dry,1,,,,,,,,,,1.3,mean,AR5,b,src,,read,"],
        2,
        '"set" is "global"',
    ),
}


@pytest.mark.parametrize(("name", "lines", "line", "says"), FAULTS.values(), ids=FAULTS.keys())
def test_a_fault_names_file_line_and_remedy(
    tmp_path: Path, name: str, lines: list[str], line: int, says: str
) -> None:
    with pytest.raises(TableError) as caught:
        load_tables(laid_out(tmp_path, {name: lines}))
    assert (caught.value.file, caught.value.line) == (f"{name}.csv", line)
    assert says in str(caught.value)
    assert caught.value.remedy.endswith(".")


def test_a_missing_table_is_named(tmp_path: Path) -> None:
    (laid_out(tmp_path) / "yields.csv").unlink()
    with pytest.raises(TableError, match=r"yields\.csv: this table is missing"):
        load_tables(tmp_path)


def test_wrong_columns_are_listed(tmp_path: Path) -> None:
    (laid_out(tmp_path) / "names.csv").write_text("food,name\n", encoding="utf-8")
    with pytest.raises(TableError, match="in this order: food, name, region"):
        load_tables(tmp_path)


def test_latin_1_is_refused(tmp_path: Path) -> None:
    (laid_out(tmp_path) / "names.csv").write_bytes(
        "food,name,region,fit,others,why\npea,purée,,,,\n".encode("latin-1")
    )
    with pytest.raises(TableError, match="not UTF-8"):
        load_tables(tmp_path)


def test_stage_sums_allow_for_rounding(tmp_path: Path) -> None:
    stages = ["global,Peas,farm,0.7,src,,read,", "global,Peas,retail,0.3000004,src,,read,"]
    tables = load_tables(laid_out(tmp_path, {"factor_stages": stages}))
    assert len(tables.stages["global", "Peas"]) == 2
