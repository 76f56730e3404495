"""The kitchen on the desk: where it is cooked, in plain words, saved to the kitchen's own file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from counterproof.desk import documents
from counterproof.desk.leaves import leaf as filled
from counterproof.desk.opened import Leaf, Opened
from counterproof.errors import BrokenSettings, InputError, NotFilledIn
from counterproof.recipe.kitchen import DEFAULTS, Kitchen
from counterproof.recipe.kitchen_file import HOBS, OVENS, read_kitchen
from counterproof.recipe.rewriting import changed_yaml

_STOVE: Final = ("hob", "oven")


@dataclass(frozen=True, slots=True)
class Setting:
    """One thing a kitchen file says, as it is asked for in words.

    Parameters
    ----------
    path : tuple of str
        Keys in the file, from the outside in.
    field : str
        Field of `Kitchen` it decides.
    label : str
        For people.
    unit : str
        Printed behind it, and written with it where the file wants it so.
    choices : tuple of str
        What it may be, where that is a closed list.
    hint : str
        What stands where nothing is said and no default is known.
    """

    path: tuple[str, ...]
    field: str
    label: str
    unit: str = ""
    choices: tuple[str, ...] = ()
    hint: str = ""

    @property
    def key(self) -> str:
        """Its name in what is sent."""
        return "-".join(self.path)


GROUPS: Final = (
    ("Where", (
        Setting(("region",), "region", "country or grid", hint="uk, us, eu, world, or FRA, ESP …"),
        Setting(("altitude_m",), "altitude_m", "above the sea", "m"),
        Setting(("month",), "month", "month", hint="none: season left open"),
    )),
    ("The stove", (
        Setting(("hob", "kind"), "hob", "hob", choices=HOBS),
        Setting(("hob", "power"), "hob_watts", "a ring on full", "kW"),
        Setting(("hob", "rings"), "rings", "rings", hint="four, for a plan of the day"),
        Setting(("oven", "kind"), "oven", "oven", choices=OVENS),
        Setting(("oven", "count"), "ovens", "ovens", hint="one, for a plan of the day"),
    )),
    ("Warm and cold", (
        Setting(("room_celsius",), "room_celsius", "the room", "°C"),
        Setting(("fridge", "celsius"), "fridge_celsius", "the fridge", "°C"),
        Setting(("fridge", "litres"), "fridge_litres", "it holds", "L"),
        Setting(("fridge", "kwh_per_year"), "fridge_kwh_per_year", "it takes", "kWh a year"),
        Setting(("freezer", "celsius"), "freezer_celsius", "the freezer", "°C"),
        Setting(("freezer", "litres"), "freezer_litres", "it holds", "L"),
        Setting(("freezer", "kwh_per_year"), "freezer_kwh_per_year", "it takes", "kWh a year"),
    )),
    ("Water and fizz", (
        Setting(("tap_celsius",), "tap_celsius", "cold from the tap", "°C"),
        Setting(("tap_alkalinity",), "tap_alkalinity", "alkalinity", "meq/L"),
        Setting(("fizz", "gas"), "gas", "gas in the cylinder",
                choices=("by-product", "biogenic", "captured")),
        Setting(("fizz", "litres"), "fizz_litres", "a machine makes in its life", "L"),
    )),
    ("How figures are told", (
        Setting(("middle",), "middle", "middle value", choices=("mean", "median")),
        Setting(("range_for",), "range_for", "range for", choices=("one-purchase", "the-average")),
    )),
)  # fmt: skip
"""What is asked for, in the groups in which a cook would walk through a kitchen."""

_SETTINGS: Final = {setting.key: setting for _, settings in GROUPS for setting in settings}


def kitchen_file_of(folder: Opened, kitchen: Kitchen) -> Path:
    """Return the file a kitchen is kept in; the folder's own where it has none yet.

    Parameters
    ----------
    folder : Opened
        What is open.
    kitchen : Kitchen
        The kitchen a recipe is cooked in.

    Returns
    -------
    Path
        Inside the folder.
    """
    if kitchen.file is not None and Path(kitchen.file).name != "season.yaml":
        return Path(kitchen.file)
    return folder.root / "kitchen.yaml"


def kitchen_page(folder: Opened, leaf: Leaf, kitchen: Kitchen) -> dict[str, Any]:
    """Return the page of a kitchen.

    Parameters
    ----------
    folder : Opened
        What is open.
    leaf : Leaf
        A recipe that is cooked in it.
    kitchen : Kitchen
        The kitchen.

    Returns
    -------
    dict
        `html`, `over` (the revision of its file) and `text` (the file).
    """
    file = kitchen_file_of(folder, kitchen)
    now = documents.standing(file, folder.root)
    why = {default.name: default.sentence() for default in DEFAULTS}
    html = filled(
        "kitchen.html.j2",
        folder=folder,
        leaf=leaf,
        here="kitchen",
        groups=GROUPS,
        stands={key: shown(setting, kitchen) for key, setting in _SETTINGS.items()},
        unsaid={key: why.get(setting.field, "") for key, setting in _SETTINGS.items()
                if setting.field not in kitchen.stated},
        file=file.relative_to(folder.root).as_posix(),
    )  # fmt: skip
    return {"html": str(html), "over": now.revision, "text": now.text}


def shown(setting: Setting, kitchen: Kitchen) -> str:
    """Return what stands in an entry: what the cook said, or nothing.

    Parameters
    ----------
    setting : Setting
        The entry.
    kitchen : Kitchen
        The kitchen.

    Returns
    -------
    str
        In the unit of the entry; empty where nothing was said.
    """
    if setting.field not in kitchen.stated:
        return ""
    value = getattr(kitchen, setting.field)
    if setting.unit == "kW":
        return f"{value / 1000:g}"
    if isinstance(value, tuple):
        low, high = value
        return f"{low:g}" if low == high else f"{low:g}-{high:g}"
    return f"{value:g}" if isinstance(value, float) else str(value)


def changed_kitchen(text: str, told: Mapping[str, str], kitchen: Kitchen, file: str) -> str:
    """Return a kitchen file with what was told in it, every other line as it was.

    Parameters
    ----------
    text : str
        The file's text.
    told : mapping of str to str
        Entry → what was written; entries that stand as they did are left alone.
    kitchen : Kitchen
        As the file reads now.
    file : str
        Its name, for messages.

    Returns
    -------
    str
        A text that reads as a kitchen.

    Raises
    ------
    NotFilledIn
        If an entry cannot be used; it says which and why.
    BrokenSettings
        If the file itself cannot be changed in place.
    """
    faults: dict[str, str] = {}
    for key, written in told.items():
        setting = _SETTINGS.get(key)
        value = written.strip()
        if setting is None or value == shown(setting, kitchen):
            continue
        if not value:
            faults[key] = "To leave it to its default, take its line out of the file below."
            continue
        try:
            changed = changed_yaml(text, setting.path, _written(setting, value), file)
            read_kitchen(changed, file)
        except BrokenSettings as fault:
            faults[key] = f"{fault.message} {fault.remedy}"
        else:
            text = changed
    if faults:
        raise NotFilledIn(faults)
    return text


def _written(setting: Setting, value: str) -> str:
    """A value as the file wants it: with its unit where it takes one."""
    with_unit = setting.unit in {"kW", "meq/L"} and not value[-1].isalpha()
    return f"{value} {setting.unit}" if with_unit else value


def saved_kitchen(folder: Opened, kitchen: Kitchen, told: Mapping[str, Any]) -> dict[str, Any]:
    """Save a kitchen, from its entries or from the file's own text.

    Parameters
    ----------
    folder : Opened
        What is open.
    kitchen : Kitchen
        The kitchen as it reads now.
    told : mapping
        `over`: the revision it was changed over; `entries`, or `text` where the file itself was
        changed.

    Returns
    -------
    dict
        `over`: the file's new revision.

    Raises
    ------
    ChangedOnDisk
        If the file has changed since.
    InputError
        If it cannot be used or written.
    """
    folder.writable()
    file = kitchen_file_of(folder, kitchen)
    now = documents.standing(file, folder.root)
    over, text, entries = told.get("over"), told.get("text"), told.get("entries")
    if not isinstance(over, str):
        raise InputError("The request says no revision.", remedy="Load the page anew.")
    if isinstance(text, str):
        read_kitchen(text, file.name)
    elif isinstance(entries, dict):
        said = {str(key): str(value) for key, value in entries.items()}
        text = changed_kitchen(now.text, said, kitchen, file.name)
    else:
        raise InputError("The request says no kitchen.", remedy="Load the page anew.")
    return {"over": documents.saved(file, text, over, folder.root).revision}
