"""A cook's own foods and factors: laid over ours, checked as ours, and told wherever they count."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.adapters.cells import cells
from counterproof.adapters.form import PROVENANCE
from counterproof.adapters.forms import FORMS
from counterproof.adapters.kitchens import load_kitchen, own_table
from counterproof.adapters.own_table import own_sheets
from counterproof.adapters.tables import load_tables
from counterproof.draws import Streams
from counterproof.errors import TableError
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.rows import Tables
from counterproof.use_cases import Assessed, Order, Workbench, assessed, compared

OURS = """
sources:
  - id: our-dairy-2026
    title: A dairy's own inventory
    producer: the dairy of the hill town
    published: 2026
    citation: Inventory of the dairy, 2026, unpublished.
    accessed: 2026-11-20
    licence: own figures
factors:
  - item: Hill butter
    basis: as sold
    mean: 5.0
    spread: 1.2
    gwp: AR6, GWP100
    boundary: cradle to dairy door
    source: our-dairy-2026
    locator: sheet 1
  - item: Hill whey drink
    basis: as sold
    mean: 0.4
    spread: 1.3
    gwp: AR6, GWP100
    boundary: cradle to dairy door
    source: our-dairy-2026
    locator: sheet 2
foods:
  - {id: hill-whey-drink, name: hill whey drink, food_class: dairy, kind: liquid}
names:
  - {food: hill-whey-drink, name: whey drink of the hills}
densities:
  - {food: hill-whey-drink, kg_per_litre: 1.02, source: our-dairy-2026, locator: sheet 2}
links:
  - {food: butter, item: Hill butter, source: our-dairy-2026, obtained: derived}
  - {food: hill-whey-drink, item: Hill whey drink, source: our-dairy-2026, obtained: derived}
"""


@pytest.fixture(scope="module")
def shipped() -> Tables:
    return load_tables()


@pytest.fixture(scope="module")
def own() -> Tables:
    return load_tables(own=("own.yaml", OURS))


def _dish(tables: Tables, *lines: str) -> Assessed:
    recipe = Recipe(
        "Dish",
        tuple(WrittenLine(at, text) for at, text in enumerate(lines, 1)),
        (),
        serves=(1.0, 1.0),
    )
    return assessed(Order(recipe, load_kitchen(recipe)), Workbench.over(tables), Streams(n=1000))


def test_a_factor_of_ours_is_replaced(own: Tables, shipped: Tables) -> None:
    found = _dish(own, "200 g butter").footprint
    assert found.static == pytest.approx(0.2 * 5.0)
    assert found.static < _dish(shipped, "200 g butter").footprint.static
    assert "butter: valued by the kitchen's own table, own.yaml (Hill butter)." in found.assumed
    assert "our-dairy-2026" in [source.id for source in found.sources]


def test_a_food_of_the_cook_is_read_weighed_and_valued(own: Tables, shipped: Tables) -> None:
    found = _dish(own, "250 ml whey drink of the hills")
    (line,) = found.reading.lines
    assert line.food is not None
    assert line.food.id == "hill-whey-drink"
    assert line.mass is not None
    assert line.mass.mean == pytest.approx(0.255, rel=0.01)
    assert found.footprint.static == pytest.approx(line.mass.mean * 0.4)
    unknown = _dish(shipped, "250 ml whey drink of the hills").reading.lines[0].food
    assert unknown is None or unknown.id != "hill-whey-drink"


def test_the_basis_covers_the_cooks_table(own: Tables, shipped: Tables) -> None:
    assert own.sha256 != shipped.sha256
    again = load_tables(own=("elsewhere.yaml", OURS))
    assert again.sha256 == own.sha256
    changed = load_tables(own=("own.yaml", OURS.replace("mean: 5.0", "mean: 5.1")))
    assert changed.sha256 != own.sha256
    basis = _dish(own, "200 g butter").footprint.basis.to_dict()
    assert basis["data_sha256"] == own.sha256
    assert basis["own_factors"].startswith("own.yaml, SHA-256 ")
    assert "own_factors" not in _dish(shipped, "200 g butter").footprint.basis.to_dict()


def test_the_cooks_figure_counts_in_whichever_set_is_compared(own: Tables) -> None:
    bench = Workbench.over(own)
    butter, oil = (
        Order(Recipe(text, (WrittenLine(1, text),), (), serves=(1.0, 1.0)), load_kitchen(
            Recipe(text, (), ())), name=text)
        for text in ("200 g butter", "200 g olive oil")
    )  # fmt: skip
    (pair,) = compared([butter, oil], bench, Streams(n=1000)).pairs
    assert pair.factor_set is not None
    links = own.links["butter"]
    assert {link.item for link in links} == {"Hill butter"}
    assert {link.set for link in links} == {"global", "literature", "national"}


def test_a_replaced_factor_keeps_no_stages_of_ours(shipped: Tables) -> None:
    text = OURS.split("foods:", maxsplit=1)[0].replace(
        "item: Hill butter", "item: Tomatoes, set: global"
    )
    text = text.replace(
        "  - item: Tomatoes, set: global\n", "  - item: Tomatoes\n    set: global\n"
    )
    assert shipped.stages["global", "Tomatoes"]
    assert shipped.shapes["global", "Tomatoes"]
    over = load_tables(own=("own.yaml", text))
    assert over.factors["global", "Tomatoes"].mean == 5.0
    assert ("global", "Tomatoes") not in over.stages
    assert ("global", "Tomatoes") not in over.shapes
    assert _dish(over, "1 kg tomatoes").footprint.static == pytest.approx(5.0, rel=0.2)


FAULTS = {
    "a number that is none": ("mean: 5.0", "mean: heavy", '"mean" is "heavy"', 11),
    "a food that is not there": (
        "food: hill-whey-drink, name: whey", "food: moon-milk, name: whey", 'says "moon-milk"', 30,
    ),
    "a section that is none": ("links:", "linkz:", 'Did you mean "links"', 33),
    "a column that is none": ("    basis: as sold\n    mean: 5.0", "    base: as sold\n    mean: 5.0",
                              'Did you mean "basis"', 11),
    "a factor that is not there": (
        "item: Hill butter, source", "item: Valley butter, source", 'no factor "Valley butter"', 34,
    ),
    "a figure without a source": (
        "kg_per_litre: 1.02, source: our-dairy-2026", "kg_per_litre: 1.02", "names no source", 32,
    ),
    "a source that is not there": (
        "kg_per_litre: 1.02, source: our-dairy-2026", "kg_per_litre: 1.02, source: them",
        'source "them" is unknown', 32,
    ),
    "a density that cannot be": ("kg_per_litre: 1.02", "kg_per_litre: 102", "at most 3", 32),
    "a factor without a spread": ("    spread: 1.2\n", "", "either all percentiles or a spread", 11),
    "a class that is none": ("food_class: dairy", "food_class: milk", '"food_class" is "milk"', 28),
    "a set that is none": ("{food: butter, item", "{food: butter, set: world, item", 'no set "world"', 34),
    "no list": ("foods:\n  - {id", "foods: {id", "holds no list", 27),
    "no YAML": ("foods:", "foods: [", "not YAML", None),
}  # fmt: skip


@pytest.mark.parametrize(("before", "after", "says", "line"), FAULTS.values(), ids=FAULTS.keys())
def test_a_fault_names_file_line_and_remedy(
    before: str, after: str, says: str, line: int | None
) -> None:
    assert before in OURS
    with pytest.raises(TableError) as caught:
        load_tables(own=("own.yaml", OURS.replace(before, after, 1)))
    assert says in str(caught.value)
    assert caught.value.file == "own.yaml"
    if line is not None:
        assert caught.value.line == line
    assert caught.value.remedy[-1] in ".?"


def test_the_kitchen_names_the_file_beside_it(tmp_path: Path) -> None:
    (tmp_path / "kitchen.yaml").write_text("own_factors: ours.yaml\n", encoding="utf-8")
    (tmp_path / "ours.yaml").write_text(OURS, encoding="utf-8")
    recipe = Recipe("Dish", (), (), file=str(tmp_path / "recipe.md"))
    found = own_table(load_kitchen(recipe))
    assert found == ("ours.yaml", OURS)
    assert own_table(replace(load_kitchen(recipe), own_factors=None)) is None


def test_the_example_of_the_documentation_is_read() -> None:
    page = Path(__file__).parents[2] / "docs" / "own_factors.md"
    example = page.read_text(encoding="utf-8").split("```yaml\n")[1].split("```")[0]
    found = load_tables(own=("own_factors.yaml", example))
    assert found.foods["hill-whey-drink"].food_class == "dairy"
    assert {link.item for link in found.links["butter"]} == {"Hill butter"}


def test_the_documentation_lists_the_columns_of_the_forms() -> None:
    page = Path(__file__).parents[2] / "docs" / "own_factors.md"
    rows = re.findall(
        r"^\| `(\w+)` \| (.*?)(?: \(.*\))? \|$", page.read_text("utf-8"), re.MULTILINE
    )
    forms = {form.name: form for form in FORMS}
    assert len(rows) == 10
    for section, told in rows:
        columns = cells(forms["factors_global" if section == "factors" else section])
        kept = [
            name for name in columns if section in {"sources", "foods"} or name not in PROVENANCE
        ]
        assert told.split(", ") == kept, section


_CELL = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=12),
    st.lists(st.integers(), max_size=2),
)
_ROW = st.one_of(
    _CELL,
    st.dictionaries(
        st.sampled_from(["id", "food", "name", "set", "item", "mean", "source", "note"])
        | st.text(),
        _CELL,
        max_size=5,
    ),
)
_SECTIONS = (
    st.sampled_from(["factors", "links", "foods", "names", "sources", "seasons"]) | st.text()
)


@pytest.mark.property
@given(st.dictionaries(_SECTIONS, st.one_of(_CELL, st.lists(_ROW, max_size=3)), max_size=3))
def test_any_table_is_read_or_refused_in_words(tree: dict[str, Any]) -> None:
    fault = _refused(json.dumps(tree))  # JSON is YAML
    assert fault is None or (fault.file == "own.yaml" and fault.message and fault.remedy)


def _refused(text: str) -> TableError | None:
    try:
        own_sheets(text, "own.yaml")
    except TableError as fault:
        return fault
    return None


@pytest.mark.property
@given(st.text())
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    fault = _refused(text)
    assert fault is None or fault.remedy
