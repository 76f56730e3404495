"""The one place where data tables are read: files in, frozen and checked rows out."""

from __future__ import annotations

import gc
import hashlib
import importlib.resources
from collections import defaultdict
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, TypeVar

from counterproof import __version__
from counterproof.adapters.columns import Sheet
from counterproof.adapters.forms import FORMS
from counterproof.adapters.own_table import own_sheets
from counterproof.errors import TableError
from counterproof.life_cycle_rows import LifeCycle
from counterproof.rows import Own, Tables
from counterproof.shop_rows import Shop

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping
    from importlib.resources.abc import Traversable
    from pathlib import Path

Row = TypeVar("Row")
Key = TypeVar("Key")

SUM_TOLERANCE = 1e-6  # above the rounding of stages and shares written with a few more digits


def load_tables(folder: Path | None = None, own: tuple[str, str] | None = None) -> Tables:
    """All data tables, each row checked.

    Parameters
    ----------
    folder : Path or None
        Where the CSV files lie; None for those that ship inside the package.
    own : tuple of str and str, or None
        Name and text of the cook's own table, which replaces rows or adds to them.

    Returns
    -------
    Tables
        Frozen rows in SI units, indexed for use, with the checksum of all files.

    Raises
    ------
    TableError
        If a file is missing or a row breaks a rule; it names file, line and remedy.
    """
    with uncollected():
        return _loaded(folder, own)


@contextmanager
def uncollected() -> Iterator[None]:
    """Hold off the search for garbage while a hundred thousand things that stay are made.

    What stands in the end is passed over by every later search.
    """
    searching = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if searching:
            gc.freeze()
            gc.enable()


def _loaded(folder: Path | None, own: tuple[str, str] | None) -> Tables:
    contents = table_contents(folder)
    sheets = {form.name: Sheet.read(form, contents[form.file]) for form in FORMS}
    held = None
    if own is not None:
        name, text = own
        contents["own_factors"] = text.encode().replace(b"\r\n", b"\n")
        held = _laid_over(sheets, own_sheets(text, name), name, contents["own_factors"])
    for sheet in sheets.values():
        sheet.check(sheets)
    _check_others(sheets["names"], set(sheets["foods"].columns["id"]))
    _check_containers(sheets["packs_sold"], set(sheets["containers"].columns["id"]))
    _check_factors(sheets)
    _check_fates(sheets["fates"])
    of: dict[str, tuple[Any, ...]] = {name: sheet.rows() for name, sheet in sheets.items()}
    factors = of["factors_global"] + of["factors_literature"] + of["factors_national"]
    return Tables(
        foods=_indexed(of["foods"], lambda row: row.id),
        names=of["names"],
        household=_grouped(of["household"], lambda row: row.food),
        densities=_grouped(of["densities"], lambda row: row.food),
        composition=_indexed(of["composition"], lambda row: row.food),
        edible=_indexed(of["edible"], lambda row: row.food),
        yields=_grouped(of["yields"], lambda row: row.food),
        allergens=_grouped(of["allergens"], lambda row: row.food),
        factors=_indexed(factors, lambda row: (row.set, row.item)),
        stages=_grouped(of["factor_stages"], lambda row: (row.set, row.item)),
        links=_grouped(of["links"], lambda row: row.food),
        mixtures=_grouped(of["mixtures"], lambda row: (row.set, row.name)),
        energy=_indexed(of["energy"], lambda row: (row.carrier, row.region)),
        sources=_indexed(of["sources"], lambda row: row.id),
        sha256=checksum(contents),
        version=__version__,
        shapes=_indexed(of["factor_shapes"], lambda row: (row.set, row.item)),
        seasons=_grouped(of["seasons"], lambda row: row.food),
        harvests=_indexed(of["harvests"], lambda row: row.food),
        likenesses=_grouped(of["likenesses"], lambda row: row.kind),
        overclaims=of["overclaims"],
        life_cycle=_life_cycle(of),
        shop=Shop(
            _grouped(of["packs_sold"], lambda row: row.food),
            _indexed(of["shop_parts"], lambda row: row.food_class),
        ),
        own=held,
    )


def _life_cycle(of: Mapping[str, tuple[Any, ...]]) -> LifeCycle:
    return LifeCycle(
        materials=_indexed(of["materials"], lambda row: row.id),
        contents=_indexed(of["recycled_content"], lambda row: (row.material, row.region)),
        containers=_indexed(of["containers"], lambda row: row.id),
        parts=_grouped(of["container_parts"], lambda row: row.container),
        disposal=_grouped(of["disposal"], lambda row: (row.material, row.region)),
        fates=_grouped(of["fates"], lambda row: (row.family, row.region)),
        carriage=_indexed(of["carriage"], lambda row: (row.mode, row.region)),
        chains=_grouped(of["chains"], lambda row: row.chain),
        regions=_indexed(of["regions"], lambda row: row.id),
        losses=_indexed(of["grid_losses"], lambda row: row.region),
        burdens=_indexed(of["burdens"], lambda row: (row.item, row.kind)),
    )


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


def table_contents(folder: Path | None = None) -> dict[str, bytes]:
    """The bytes of every table file, line ends as one newline.

    Parameters
    ----------
    folder : Path or None
        Where the CSV files lie; None for those that ship inside the package.

    Returns
    -------
    dict
        File name → content.

    Raises
    ------
    TableError
        If a file is missing.
    """
    root: Traversable = folder or importlib.resources.files("counterproof") / "data"
    contents = {}
    for form in FORMS:
        try:
            # A checkout may turn line ends around; the checksum must not see it.
            contents[form.file] = (root / form.file).read_bytes().replace(b"\r\n", b"\n")
        except OSError as error:
            raise TableError(
                "this table is missing.",
                remedy=f"Put {form.file} back into the data folder, or install the package again.",
                file=form.file,
            ) from error
    return contents


def checksum(contents: Mapping[str, bytes]) -> str:
    """SHA-256 over the names and contents of table files, sorted by name.

    Parameters
    ----------
    contents : mapping
        File name → content, as `table_contents` gives it.

    Returns
    -------
    str
        Hexadecimal digest.
    """
    digest = hashlib.sha256()
    for name in sorted(contents):
        digest.update(name.encode() + b"\0" + contents[name])
    return digest.hexdigest()


def _check_others(sheet: Sheet, known: set[str]) -> None:
    """Hold that every food a name may mean as well is a food."""
    for index, others in enumerate(sheet.columns["others"]):
        missing = [other for other in others.split() if other not in known]
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


def _indexed(rows: Iterable[Row], key: Callable[[Row], Key]) -> dict[Key, Row]:
    return {key(row): row for row in rows}


def _grouped(rows: Iterable[Row], key: Callable[[Row], Key]) -> dict[Key, tuple[Row, ...]]:
    groups: defaultdict[Key, list[Row]] = defaultdict(list)
    for row in rows:
        groups[key(row)].append(row)
    return {name: tuple(group) for name, group in groups.items()}
