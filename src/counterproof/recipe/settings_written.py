"""The settings of a recipe, written so that they read back equal."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

from counterproof.recipe.model import Bought, Pack, Recipe, Version
from counterproof.recipe.servings import shown_number

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 _%/.()–-]*[A-Za-z0-9%.)]|[A-Za-z]")
_WORDS_OF_YAML = frozenset({"true", "false", "null", "yes", "no", "on", "off", "y", "n"})


def settings_of(recipe: Recipe) -> dict[str, Any]:
    """Return the settings of a recipe as plain values, those left unsaid not among them.

    Title, serves and makes are not among them: they stand in the text.

    Parameters
    ----------
    recipe : Recipe
        The recipe.

    Returns
    -------
    dict
        Keys and values as the front matter has them.
    """
    versions = {one.name: _said_of(one) for one in recipe.versions}
    said: dict[str, Any] = {
        "measures": recipe.measures,
        "kitchen": recipe.kitchen,
        "pack": [_pack(one) for one in recipe.pack],
        "keep": [{"where": one.where, "days": one.days} for one in recipe.keep],
        "eaten": recipe.eaten,
        "bought": _said_of_bought(recipe.bought),
        "carried_over": list(recipe.carried_over),
        "oven_shared_by": None if recipe.oven_shared_by == 1 else recipe.oven_shared_by,
        "also_count": list(recipe.also_count),
        "trip": recipe.trip,
        "credits": list(recipe.credits),
        "versions": versions,
    }
    return {key: value for key, value in said.items() if value not in (None, [], {})}


def _pack(pack: Pack) -> dict[str, Any]:
    said = {"container": pack.container, "lid": pack.lid}
    return _present({**said, "uses": None if pack.uses == 1 else pack.uses})


def _said_of(version: Version) -> dict[str, Any]:
    return _present(
        {
            "swap": dict(version.swap) or None,
            "pack": None if version.pack is None else [_pack(one) for one in version.pack],
            "keep": None
            if version.keep is None
            else [{"where": one.where, "days": one.days} for one in version.keep],
            "kitchen": None if version.kitchen is None else dict(version.kitchen),
            "serves": version.serves,
            "bought": _said_of_bought(version.bought),
            "skips": list(version.skips) or None,
        }
    )


def _said_of_bought(bought: Bought | None) -> dict[str, Any] | None:
    if bought is None:
        return None
    said = {"what": bought.what, "container": bought.container, "region": bought.region}
    return _present({**said, "warmed": bought.warmed})


def _present(said: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in said.items() if value is not None}


def written_settings(said: Mapping[str, Any]) -> str:
    """Return settings as YAML, one key a line and one version a line, so that it diffs well.

    Parameters
    ----------
    said : mapping
        Settings as plain values.

    Returns
    -------
    str
        YAML that reads back equal; empty where nothing is said.
    """
    rows: list[str] = []
    for key, value in said.items():
        if key == "versions":
            rows.append("versions:")
            rows += [f"  {_flow(name)}: {_flow(version)}" for name, version in value.items()]
        elif isinstance(value, list) and len(value) == 1 and isinstance(value[0], dict):
            rows.append(f"{key}: {_flow(value[0])}")
        else:
            rows.append(f"{key}: {_flow(value)}")
    return "".join(f"{row}\n" for row in rows)


def _flow(value: Any) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_flow(str(k))}: {_flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(_flow(one) for one in value) + "]"
    if isinstance(value, bool) or value is None:
        return {True: "true", False: "false", None: "null"}[value]
    if isinstance(value, int | float):
        return shown_number(value)
    text = str(value)
    if _PLAIN.fullmatch(text) and text.casefold() not in _WORDS_OF_YAML:
        return text
    shown = json.dumps(text, ensure_ascii=False)
    return "".join(sign if sign.isprintable() else f"\\U{ord(sign):08x}" for sign in shown)
