"""A cook's own foods and factors: a YAML file whose rows are rows of our tables.

Sections bear the names of the tables, rows the names of their columns, and each row is held
against the same form as our own. Two sections are easier to write than the tables they become:
`factors` and `links` may leave out the set, and then stand in all three, so that a comparison
finds the cook's figure whichever set it is made in.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, get_args

from counterproof.adapters.cells import cells
from counterproof.adapters.columns import Place, Sheet
from counterproof.adapters.form import Form
from counterproof.adapters.forms import FORMS
from counterproof.errors import BrokenSettings, TableError
from counterproof.recipe.settings import nearest
from counterproof.recipe.settings_tree import yaml_tree
from counterproof.rows import FactorSet

SETS: tuple[str, ...] = get_args(FactorSet)
FACTORS = "factors"

TAKEN: Mapping[str, Mapping[str, str]] = {
    "foods": {"kind": "solid"},
    "household": {"as_bought": "false"},
    FACTORS: {"unit": "kg", "middle": "mean"},
    "links": {"fit": "same", "per": "1"},
}
"""What a column holds where the cook leaves it out; all other columns are empty then."""


def own_sheets(text: str, file: str) -> dict[str, Sheet]:
    """The tables in a cook's own file, cell by cell as our own are read.

    Parameters
    ----------
    text : str
        YAML: sections named for tables, each a list of rows.
    file : str
        Its name, for messages.

    Returns
    -------
    dict
        Table → Sheet, not yet held against the tables they refer to.

    Raises
    ------
    TableError
        If it is no such YAML, or a cell is not what its column may hold; it names file and line.
    """
    try:
        tree = yaml_tree(text.removeprefix("\ufeff"), error=BrokenSettings, file=file, first_line=1)
    except BrokenSettings as fault:
        raise TableError(
            fault.message, remedy=fault.remedy, file=fault.file, line=fault.line
        ) from None
    forms = {form.name: form for form in FORMS}
    lines: dict[str, list[tuple[list[str], Place]]] = {}
    sections = (FACTORS, *(name for name in forms if not name.startswith("factors_")))
    for section, rows in tree.values.items():
        if section not in sections:
            raise _unknown("section", section, sections, (file, tree.line((section,)) or 1))
        if not isinstance(rows, list):
            raise TableError(
                f'"{section}" holds no list of rows.',
                remedy=f'Write "{section}:" and under it one "- {{column: value, …}}" a row.',
                file=file,
                line=tree.line((section,)),
            )
        for at, row in enumerate(rows):
            place = (file, tree.line((section, at)) or 1)
            for table, written in _spread(section, row, place):
                lines.setdefault(table, []).append(
                    (_texts(forms[table], section, written, place), place)
                )
    return {
        table: Sheet.of_cells(
            forms[table], [texts for texts, _ in rows], tuple(place for _, place in rows)
        )
        for table, rows in lines.items()
    }


def _spread(section: str, row: Any, place: Place) -> list[tuple[str, dict[str, Any]]]:
    """The tables a row belongs to: one, or that of each set where it names none."""
    if not isinstance(row, dict):
        raise TableError(
            f"this is no row of {section}.",
            remedy="Write it as {column: value, …}.",
            file=place[0],
            line=place[1],
        )
    if section not in {FACTORS, "links"}:
        return [(section, row)]
    named = row.get("set")
    if named is not None and named not in SETS:
        raise _unknown("set", str(named), SETS, place)
    chosen = SETS if named is None else (str(named),)
    return [
        (f"factors_{one}" if section == FACTORS else section, {**row, "set": one}) for one in chosen
    ]


def _texts(form: Form, section: str, row: dict[str, Any], place: Place) -> list[str]:
    columns = tuple(cells(form))
    for name in row:
        if name not in columns:
            raise _unknown("column", name, columns, place)
    taken = {**TAKEN.get(section, {}), **({"obtained": "read"} if "obtained" in columns else {})}
    return [_text(row.get(name, taken.get(name))) for name in columns]


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    return " ".join(str(value).split())


def _unknown(what: str, name: str, known: tuple[str, ...], place: Place) -> TableError:
    near = nearest(name, known)
    return TableError(
        f'there is no {what} "{name}".',
        remedy=f'Did you mean "{near}"?' if near else f"Known are: {', '.join(known)}.",
        file=place[0],
        line=place[1],
    )
