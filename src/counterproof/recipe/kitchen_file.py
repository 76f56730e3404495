"""The kitchen file, and the changes a version makes to a kitchen."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any, Final

from pydantic import BeforeValidator

from counterproof.errors import BrokenSettings, QuantityError
from counterproof.recipe.kitchen import Kitchen, Vessel
from counterproof.recipe.settings import Settings, checked, refuse_unknown
from counterproof.recipe.settings_tree import Path, Tree, listed, without, yaml_tree
from counterproof.recipe.values import Number, Words, between, one_of, shortened
from counterproof.typed_quantities import parse_quantity

if TYPE_CHECKING:
    from counterproof.errors import InputError
    from counterproof.recipe.settings import UnknownKey
    from counterproof.typed_quantities import Asked

HOBS: Final = ("gas", "solid plate", "ceramic", "induction")
OVENS: Final = ("fan", "conventional", "gas")
_REGIONS: Final = {
    "gb": "uk", "gbr": "uk", "uk": "uk", "united kingdom": "uk", "usa": "us", "us": "us",
    "united states": "us", "eu": "eu", "europe": "eu", "world": "world",
}  # fmt: skip
_MONTHS: Final = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
_CACO3: Final = 50.04
"""Grams of calcium carbonate per equivalent: half its molar mass, 100.09 g/mol."""


def _quantity(kind: Asked, low: float, high: float, shown: str) -> BeforeValidator:
    def check(value: object) -> object:
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise ValueError(f"{shortened(value)} is no {kind}")  # noqa: TRY004 pydantic reads it
        try:
            found = parse_quantity(str(value), kind)
        except QuantityError as fault:
            raise ValueError(f"{fault.message.rstrip('.')} ({fault.remedy.rstrip('.')})") from None
        if not low <= found <= high:
            raise ValueError(f"{shortened(value)} is outside {shown}")
        return found

    return BeforeValidator(check)


def _region(value: object) -> object:
    word = str(value).strip()
    if word.casefold() in _REGIONS:
        return _REGIONS[word.casefold()]
    if re.fullmatch(r"[A-Za-z]{3,4}", word):
        return word.upper()
    raise ValueError(
        f"{shortened(value)} is no region; write uk, us, eu, world, a country by its three "
        "letters, such as FRA, or a US grid by its four, such as CAMX"
    )


Region = Annotated[str, BeforeValidator(_region)]
"""A region of the tables: uk, us, eu, world, three letters, or four of a US grid."""


def _month(value: object) -> object:
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 12:
        return value
    word = str(value).strip().casefold()
    if word.isdigit() and 1 <= int(word[:3]) <= 12:
        return int(word)
    named = [number for number, name in enumerate(_MONTHS, 1) if name.startswith(word)]
    if len(word) >= 3 and len(named) == 1:
        return named[0]
    raise ValueError(f"{shortened(value)} is no month; write 11 or November")


def _alkalinity(value: object) -> object:
    match = re.fullmatch(
        r"([\d.]+)\s*(?:(?:-|–|to)\s*([\d.]+)\s*)?(meq/l|mmol/l|mg/l(?:\s*(?:as\s*)?caco3)?)",
        str(value).strip().casefold(),
    )
    try:
        low, high = (float(match[1]), float(match[2] or match[1])) if match else (-1.0, -1.0)
    except ValueError:
        low = high = -1.0
    if match is None or not 0 <= low <= high:
        raise ValueError(
            f'{shortened(value)} is no alkalinity; write "2.1 meq/L", "1-2 meq/L" or '
            '"105 mg/L as CaCO3", as a water report prints it'
        )
    per = 1 / _CACO3 if match[3].startswith("mg") else 1.0
    if high * per > 20:
        raise ValueError(f"{shortened(value)} is outside 0 to 20 meq/L")
    return (low * per, high * per)


class Hob(Settings):
    """The ring in use."""

    kind: Annotated[str, one_of(*HOBS)] | None = None
    power: Annotated[float, _quantity("power", 100, 20_000, "100 W to 20 kW")] | None = None
    simmer_loss: Annotated[Number, between(0.1, 10, "times the model")] | None = None
    rings: Annotated[Number, between(1, 24, "rings")] | None = None


class Oven(Settings):
    """The oven."""

    kind: Annotated[str, one_of(*OVENS)] | None = None
    count: Annotated[Number, between(0, 12, "ovens")] | None = None


class Fridge(Settings):
    """The fridge."""

    litres: Annotated[Number, between(5, 5000, "litres")] | None = None
    kwh_per_year: Annotated[Number, between(1, 20_000, "kWh a year")] | None = None
    celsius: Annotated[Number, between(-5, 15, "°C")] | None = None


class Freezer(Settings):
    """The freezer."""

    litres: Annotated[Number, between(5, 5000, "litres")] | None = None
    kwh_per_year: Annotated[Number, between(1, 20_000, "kWh a year")] | None = None
    celsius: Annotated[Number, between(-60, -1, "°C")] | None = None


class Fizz(Settings):
    """The soda machine and its gas."""

    gas: Annotated[str, one_of("by-product", "biogenic", "captured")] | None = None
    litres: Annotated[Number, between(1, 1_000_000, "litres")] | None = None


class VesselSettings(Settings):
    """A pot, a jar or a tray."""

    name: Words
    litres: Annotated[Number, between(0.01, 1000, "litres")] | None = None
    diameter: Annotated[float, _quantity("length", 0.01, 3, "1 cm to 3 m")] | None = None
    empty_weight: Annotated[float, _quantity("mass", 0.001, 200, "1 g to 200 kg")] | None = None


class KitchenSettings(Settings):
    """Everything a kitchen file may say."""

    region: Region | None = None
    hob: Hob | None = None
    oven: Oven | None = None
    altitude_m: Annotated[Number, between(-430, 6000, "m")] | None = None
    room_celsius: Annotated[Number, between(-20, 50, "°C")] | None = None
    tap_celsius: Annotated[Number, between(0, 40, "°C")] | None = None
    tap_alkalinity: Annotated[tuple[float, float], BeforeValidator(_alkalinity)] | None = None
    fridge: Fridge | None = None
    freezer: Freezer | None = None
    fizz: Fizz | None = None
    vessels: tuple[VesselSettings, ...] | None = None
    tools: tuple[Words, ...] | None = None
    month: Annotated[int, BeforeValidator(_month)] | None = None
    own_factors: Words | None = None
    middle: Annotated[str, one_of("mean", "median")] | None = None
    range_for: Annotated[str, one_of("one-purchase", "the-average")] | None = None


KITCHEN_KEYS: Final = tuple(KitchenSettings.model_fields)


def read_kitchen(yaml_text: str, file: str | None = None) -> Kitchen:
    """Read a kitchen file.

    Parameters
    ----------
    yaml_text : str
        The file's text.
    file : str or None
        Its name, for messages.

    Returns
    -------
    Kitchen
        The kitchen; what the file does not say stands at its default.

    Raises
    ------
    BrokenSettings
        If it is no YAML, if a key is not known, or if a value cannot be used; all at once.
    """
    text = yaml_text.removeprefix("\ufeff")
    tree = yaml_tree(text, error=BrokenSettings, file=file, first_line=1)
    return replace(_changed(Kitchen(), tree, error=BrokenSettings, file=file), file=file)


def with_changes(
    kitchen: Kitchen,
    changes: Mapping[str, object],
    *,
    file: str | None = None,
    line: int | None = None,
) -> Kitchen:
    """Return a kitchen with some of its keys set otherwise.

    Parameters
    ----------
    kitchen : Kitchen
        The kitchen as it is.
    changes : mapping of str to object
        Keys and values as a kitchen file has them: ``{"hob": {"kind": "gas"}}``.
    file, line : str and int, or None
        Where the changes were written, for messages.

    Returns
    -------
    Kitchen
        The changed kitchen; what was changed counts as stated.

    Raises
    ------
    BrokenSettings
        If a key is not known, or if a value cannot be used.
    """
    lines: dict[Path, int] = {} if line is None else {(key,): line for key in changes}
    tree = Tree(dict(changes), lines)
    return _changed(kitchen, tree, error=BrokenSettings, file=file)


def known_changes(
    tree: Tree, *, error: type[InputError], file: str | None
) -> tuple[dict[str, Any], tuple[UnknownKey, ...]]:
    """Return changes to a kitchen without the keys that mean nothing.

    Parameters
    ----------
    tree : Tree
        Keys and values as a kitchen file has them, and their lines.
    error : type of InputError
        What to raise where a value cannot be used.
    file : str or None
        The file they stand in.

    Returns
    -------
    tuple of dict and tuple of UnknownKey
        The changes that can be made, and the keys that were passed over.
    """
    _, unknown = _said(tree, error=error, file=file)
    return without(tree.values, [key.path for key in unknown]), unknown


def _said(
    tree: Tree, *, error: type[InputError], file: str | None
) -> tuple[KitchenSettings, tuple[UnknownKey, ...]]:
    values = dict(tree.values)
    for key in ("hob", "oven"):
        if isinstance(values.get(key), str):  # "hob: gas" says the kind
            values[key] = {"kind": values[key]}
    tree = Tree(values, tree.lines)
    for key, short in (("vessels", "name"),):
        tree = listed(tree, (key,), short)
    if isinstance(values.get("tools"), str):
        tree = Tree({**tree.values, "tools": values["tools"].split(",")}, tree.lines)
    return checked(KitchenSettings, tree, error=error, file=file, what="the kitchen")


def _changed(kitchen: Kitchen, tree: Tree, *, error: type[InputError], file: str | None) -> Kitchen:
    said, unknown = _said(tree, error=error, file=file)
    refuse_unknown(unknown, error=error, file=file)
    new = _fields(said)
    return replace(kitchen, **new, stated=kitchen.stated | frozenset(new))


def _fields(said: KitchenSettings) -> dict[str, Any]:
    fields = {
        name: getattr(said, name)
        for name in (
            "region", "altitude_m", "room_celsius", "tap_celsius", "tap_alkalinity", "tools",
            "month", "own_factors", "middle", "range_for",
        )
    }  # fmt: skip
    fields["hob"] = said.hob and said.hob.kind
    fields["hob_watts"] = said.hob and said.hob.power
    fields["simmer_loss"] = said.hob and said.hob.simmer_loss
    fields["oven"] = said.oven and said.oven.kind
    fields["rings"] = said.hob and said.hob.rings and int(said.hob.rings)
    fields["ovens"] = None if said.oven is None or said.oven.count is None else int(said.oven.count)
    fields["gas"] = said.fizz and said.fizz.gas
    fields["fizz_litres"] = said.fizz and said.fizz.litres
    for name in ("fridge", "freezer"):
        cold = getattr(said, name)
        for key in ("celsius", "litres", "kwh_per_year"):
            fields[f"{name}_{key}"] = cold and getattr(cold, key)
    if said.vessels is not None:
        fields["vessels"] = tuple(
            Vessel(one.name, one.litres, one.diameter, one.empty_weight) for one in said.vessels
        )
    return {name: value for name, value in fields.items() if value is not None}
