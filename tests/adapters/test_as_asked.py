"""Tables opened by their checksum hold what the same tables hold when every row is checked."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING, Any

import pytest

from counterproof.adapters.as_asked import RowsAsAsked
from counterproof.adapters.forms import FORMS
from counterproof.adapters.tables import checked_tables, load_tables, table_contents
from counterproof.errors import TableError
from counterproof.life_cycle_rows import LifeCycle
from counterproof.rows import Tables
from counterproof.shop_rows import Shop

if TYPE_CHECKING:
    from pathlib import Path

FORM = {form.name: form for form in FORMS}
YIELDS = ["pea,soup,boiled,3,2.5,3.5,src,p. 1,read,", "pea,mash,boiled,1,1,1,src,p. 2,read,"]
STAGES = ['global,"Peas, dry",farm,0.7,src,p. 3,read,', "global,Beans,farm,1,src,p. 3,read,"]


@pytest.fixture(scope="module")
def opened() -> Tables:
    return load_tables()


@pytest.fixture(scope="module")
def checked() -> Tables:
    return checked_tables(table_contents())


@pytest.mark.parametrize(
    ("part", "name"),
    [
        *((None, field.name) for field in fields(Tables)),
        *(("life_cycle", field.name) for field in fields(LifeCycle)),
        *(("shop", field.name) for field in fields(Shop)),
    ],
)
def test_every_table_is_the_same_opened_as_checked(
    opened: Tables, checked: Tables, part: str | None, name: str
) -> None:
    one: Any = getattr(getattr(opened, part) if part else opened, name)
    other: Any = getattr(getattr(checked, part) if part else checked, name)
    assert one == other
    if isinstance(other, dict):
        assert list(one) == list(other)


def test_a_changed_byte_brings_every_check_back(tmp_path: Path) -> None:
    for name, content in table_contents().items():
        (tmp_path / name).write_bytes(content)
    assert load_tables(tmp_path).sha256 == load_tables().sha256
    file = tmp_path / "edible.csv"
    file.write_text(file.read_text("utf-8") + "no-such-food,0.5,peel,,,assumed,why\n", "utf-8")
    with pytest.raises(TableError, match="no-such-food"):
        load_tables(tmp_path)


def test_the_shipped_tables_are_known_to_have_passed(opened: Tables, checked: Tables) -> None:
    assert isinstance(opened.foods, RowsAsAsked)
    assert not isinstance(checked.foods, RowsAsAsked)


def test_all_rows_of_a_key_stand_together_in_their_order() -> None:
    rows = RowsAsAsked(FORM["yields"], YIELDS, width=1, one=False)
    assert [row.becomes for row in rows["pea"]] == ["soup", "mash"]
    assert rows["pea"] is rows["pea"]
    assert rows.get("bean", ()) == ()
    assert "bean" not in rows
    with pytest.raises(KeyError):
        rows["bean"]


def test_a_key_of_two_cells_may_hold_a_comma() -> None:
    rows = RowsAsAsked(FORM["factor_stages"], STAGES, width=2, one=False)
    assert list(rows) == [("global", "Peas, dry"), ("global", "Beans")]
    assert rows["global", "Peas, dry"][0].mean == 0.7
