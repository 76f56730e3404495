"""The data tables held against their forms and against one another.

What a table says of another is checked here; what it says by itself, in `columns`.
"""

from __future__ import annotations

import hashlib
from collections import defaultdict
from typing import TYPE_CHECKING

from counterproof.adapters.columns import Sheet
from counterproof.adapters.forms import FORMS
from counterproof.adapters.own_table import own_sheets
from counterproof.rows import Own

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

SUM_TOLERANCE = 1e-6  # above the rounding of stages and shares written with a few more digits


def checked(
    contents: Mapping[str, bytes], own: tuple[str, str] | None = None
) -> tuple[dict[str, Sheet], Own | None]:
    """Every table read and held against all rules but those between the cells of a row.

    Parameters
    ----------
    contents : mapping
        File name → content.
    own : tuple of str and str, or None
        Name and text of the cook's own table, which replaces rows or adds to them.

    Returns
    -------
    tuple
        The tables by name, and what the cook's own replaced or added.

    Raises
    ------
    TableError
        If a table breaks a rule; it names file, line and remedy.
    """
    sheets = {form.name: Sheet.read(form, contents[form.file]) for form in FORMS}
    held = None
    if own is not None:
        name, text = own
        held = _laid_over(sheets, own_sheets(text, name), name, own_content(text))
    for sheet in sheets.values():
        sheet.check(sheets)
    _check_others(sheets["names"], set(sheets["foods"].columns["id"]))
    _check_containers(sheets["packs_sold"], set(sheets["containers"].columns["id"]))
    _check_factors(sheets)
    _check_fates(sheets["fates"])
    return sheets, held


def own_content(text: str) -> bytes:
    """The bytes of a cook's own table, line ends as one newline.

    Parameters
    ----------
    text : str
        The table.

    Returns
    -------
    bytes
        What its checksum is taken of.
    """
    return text.encode().replace(b"\r\n", b"\n")


def _laid_over(
    sheets: dict[str, Sheet], own: Mapping[str, Sheet], file: str, content: bytes
) -> Own:
    """Put the cook's own rows in the place of ours, and tell which they are."""
    named: set[tuple[str, ...]] = set()
    for table, sheet in own.items():
        sheet.check_key()
        kind = "factors" if table.startswith("factors_") else table
        keys = [key if isinstance(key, tuple) else (key,) for key in sheet.joined(sheet.form.key)]
        named.update((kind, *key) for key in keys)
        sheets[table] = sheets[table].under(sheet)
    # What is told about a factor of ours is not told about the one in its place.
    new = {key[1:] for key in named if key[0] == "factors"}
    for table in ("factor_stages", "factor_shapes"):
        sheets[table] = sheets[table].without(("set", "item"), new)
        if table in own:
            sheets[table] = sheets[table].under(own[table])
    return Own(file, hashlib.sha256(content).hexdigest(), frozenset(named))


def _check_others(sheet: Sheet, known: set[str]) -> None:
    """Hold that every food a name may mean as well is a food."""
    for index, others in enumerate(sheet.columns["others"]):
        missing = [other for other in others.split() if other not in known] if others else []
        if missing:
            raise sheet.fault(
                index,
                f'"others" names "{missing[0]}", which is not in the table foods.',
                "Name foods by their id, with one blank between two.",
            )


def _check_containers(sheet: Sheet, known: set[str]) -> None:
    """Hold that a pack on sale comes in a container that is known, or says nothing of it."""
    for index, container in enumerate(sheet.columns["container"]):
        if container and container not in known:
            raise sheet.fault(
                index,
                f'"container" says "{container}", which is not in the table containers.',
                "Name a container by its id, or leave the cell empty.",
            )


def _check_factors(sheets: Mapping[str, Sheet]) -> None:
    """Hold all that names a factor against the factors, which stand in several files."""
    means: dict[tuple[str, str], float] = {}
    for name in ("factors_global", "factors_literature", "factors_national"):
        sheet = sheets[name]
        means |= zip(sheet.joined(("set", "item")), sheet.columns["mean"], strict=True)
    mixed = set(sheets["mixtures"].joined(("set", "name")))
    for name, known in (
        ("mixtures", means.keys()),
        ("factor_stages", means.keys()),
        ("factor_shapes", means.keys()),
        ("links", means.keys() | mixed),
    ):
        sheet = sheets[name]
        for index, key in enumerate(sheet.joined(("set", "item"))):
            if key not in known:
                raise sheet.fault(
                    index,
                    f'the {key[0]} set has no factor "{key[1]}".',
                    f"Add it to the factors of the {key[0]} set, or correct the spelling.",
                )
    _check_sums(
        sheets["mixtures"],
        zip(
            sheets["mixtures"].joined(("set", "name")),
            sheets["mixtures"].columns["share"],
            strict=True,
        ),
        dict.fromkeys(mixed, 1.0),
        "the shares of the mixture",
    )
    stages = sheets["factor_stages"]
    _check_sums(
        stages,
        zip(stages.joined(("set", "item")), stages.columns["mean"], strict=True),
        means,
        "the stages of the factor",
    )


def _check_fates(sheet: Sheet) -> None:
    names = sheet.joined(("family", "region"))
    parts = zip(names, sheet.columns["share"], strict=True)
    _check_sums(sheet, parts, dict.fromkeys(names, 1.0), "the fates of")


def _check_sums(
    sheet: Sheet,
    parts: Iterable[tuple[tuple[str, str], float]],
    wholes: Mapping[tuple[str, str], float],
    what: str,
) -> None:
    sums: defaultdict[tuple[str, str], float] = defaultdict(float)
    last: dict[tuple[str, str], int] = {}
    for index, (key, part) in enumerate(parts):
        sums[key] += part
        last[key] = index
    for key, total in sums.items():
        if abs(total - wholes[key]) > SUM_TOLERANCE:
            raise sheet.fault(
                last[key],
                f'{what} "{key[1]}" sum to {total:.6g}, not to {wholes[key]:.6g}.',
                "Correct the parts.",
            )
