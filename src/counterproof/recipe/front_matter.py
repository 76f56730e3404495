"""The settings a recipe may carry above its title, read with the line of every fault."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Annotated, Any, Literal, get_args

from pydantic import BeforeValidator

from counterproof.errors import BrokenFrontMatter
from counterproof.marks import Mark
from counterproof.recipe.kitchen_file import KITCHEN_KEYS, known_changes
from counterproof.recipe.model import (
    AlsoCount,
    Bought,
    Keep,
    Measures,
    Pack,
    Version,
)
from counterproof.recipe.servings import servings_said
from counterproof.recipe.settings import Settings, UnknownKey, checked
from counterproof.recipe.settings_tree import Tree, listed, yaml_tree
from counterproof.recipe.trip import trip_said
from counterproof.recipe.values import Number, Words, between, one_of, shortened

ALSO: tuple[AlsoCount, ...] = get_args(AlsoCount)


def _servings(value: object) -> object:
    if isinstance(value, list) and len(value) == 2:
        value = f"{value[0]}-{value[1]}"
    found = None
    if isinstance(value, int | float) and not isinstance(value, bool) and 0 < value < 1e6:
        found = (float(value), float(value))
    elif isinstance(value, str):
        found = servings_said(value)
    if found is None:
        raise ValueError(f'{shortened(value)} is no number of servings; write 4, or "4-6"')
    return found


def _share(value: object) -> object:
    said = value
    if isinstance(value, str) and (match := re.fullmatch(r"([\d.]+)\s*%", value.strip())):
        value = float(match[1]) / 100
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 < value <= 1:
        raise ValueError(f"{shortened(said)} is no share; write 0.9 or 90 % for nine tenths")
    return float(value)


def _swaps(value: object) -> object:
    if not isinstance(value, dict) or not value:
        raise ValueError('write it as {"words of a line": "the line in its place"}')
    for words, line in value.items():
        if not words.strip() or not isinstance(line, str) or not line.strip():
            raise ValueError(
                f"{shortened(words)} is swapped for {shortened(line)}; "
                "write the line that stands in its place"
            )
    return {" ".join(k.split()): " ".join(v.split()) for k, v in value.items()}


class PackSettings(Settings):
    """What the result is kept in."""

    container: Words
    lid: Words | None = None
    uses: Annotated[Number, between(0.01, 100_000, "uses")] = 1.0


class KeepSettings(Settings):
    """One stay on the way to the plate."""

    where: Annotated[
        Literal["fridge", "freezer", "cupboard"], one_of("fridge", "freezer", "cupboard")
    ]
    days: Annotated[Number, between(0, 3650, "days")]


def _trip(said: object) -> object:
    if trip_said(str(said)) is None:
        raise ValueError(
            f"{shortened(said)} is no way to the shop; write 8 km, 20 miles at 24 mpg, or "
            "8 km at 6 l/100 km"
        )
    return str(said).strip()


def _what(said: object) -> object:
    """Take "bought: rhubarb lemonade" for its `what`."""
    return {"what": said} if isinstance(said, str) else said


class BoughtSettings(Settings):
    """The bought alternative."""

    what: Words
    container: Words | None = None
    region: Words | None = None
    warmed: Words | None = None


class VersionSettings(Settings):
    """What one version changes."""

    swap: Annotated[dict[str, str], BeforeValidator(_swaps)] | None = None
    pack: tuple[PackSettings, ...] | None = None
    keep: tuple[KeepSettings, ...] | None = None
    kitchen: dict[str, Any] | None = None
    serves: Annotated[tuple[float, float], BeforeValidator(_servings)] | None = None
    bought: Annotated[BoughtSettings, BeforeValidator(_what)] | None = None
    skips: tuple[Annotated[int, between(1, 200, "steps")], ...] = ()


class FrontMatter(Settings):
    """Everything that may stand above the title."""

    title: Words | None = None
    serves: Annotated[tuple[float, float], BeforeValidator(_servings)] | None = None
    makes: Words | None = None
    measures: (
        Annotated[Literal["us", "uk", "metric", "au"], one_of("us", "uk", "metric", "au")] | None
    ) = None
    kitchen: Words | None = None
    pack: tuple[PackSettings, ...] | None = None
    keep: tuple[KeepSettings, ...] | None = None
    eaten: Annotated[float, BeforeValidator(_share)] | None = None
    bought: BoughtSettings | None = None
    carried_over: tuple[Words, ...] | None = None
    oven_shared_by: Annotated[Number, between(1, 50, "dishes")] = 1.0
    also_count: tuple[Annotated[AlsoCount, one_of(*ALSO)], ...] | None = None
    trip: Annotated[str, BeforeValidator(_trip)] | None = None
    credits: tuple[Words, ...] = ()
    versions: dict[str, VersionSettings] | None = None


@dataclass(frozen=True)
class Front:
    """Front matter in the recipe's own types; the fields are those of `Recipe`."""

    title: str = ""
    serves: tuple[float, float] | None = None
    makes: str | None = None
    measures: Measures | None = None
    kitchen: str | None = None
    pack: tuple[Pack, ...] = ()
    keep: tuple[Keep, ...] = ()
    eaten: float | None = None
    bought: Bought | None = None
    carried_over: tuple[str, ...] = ()
    oven_shared_by: float = 1.0
    also_count: tuple[AlsoCount, ...] = ()
    trip: str | None = None
    credits: tuple[str, ...] = ()
    versions: tuple[Version, ...] = ()
    marks: tuple[Mark, ...] = field(default=())


def read_front_matter(text: str, *, file: str | None, first_line: int) -> Front:
    """Read the settings above a recipe's title.

    Parameters
    ----------
    text : str
        The YAML between the two rules.
    file : str or None
        The recipe file.
    first_line : int
        Line of the file in which the YAML begins, from 1.

    Returns
    -------
    Front
        What was said; a key that is not known is a doubt in its marks.

    Raises
    ------
    BrokenFrontMatter
        If it is no YAML or a value cannot be used; all such values at once.
    """
    tree = yaml_tree(text, error=BrokenFrontMatter, file=file, first_line=first_line)
    return front_from(tree, file=file)


def front_from(tree: Tree, *, file: str | None) -> Front:
    """Return settings, from YAML or from our own key in a JSON-LD document, as a `Front`.

    Parameters
    ----------
    tree : Tree
        The settings as written.
    file : str or None
        The recipe file.

    Returns
    -------
    Front
        What was said.
    """
    for path, short in ((("pack",), "container"), (("keep",), "where"), (("bought",), "what")):
        tree = listed(tree, path, short) if path != ("bought",) else _short(tree)
    for key in ("carried_over", "also_count", "credits"):
        if isinstance(tree.values.get(key), str):
            tree = Tree({**tree.values, key: [tree.values[key]]}, tree.lines)
    named = tree.values.get("versions")
    for name in named if isinstance(named, dict) else ():
        tree = _kitchen_keys(tree, name)
        tree = listed(tree, ("versions", name, "pack"), "container")
        tree = listed(tree, ("versions", name, "keep"), "where")
    said, unknown = checked(
        FrontMatter, tree, error=BrokenFrontMatter, file=file, what="the settings above the recipe"
    )
    versions = []
    for name, version in (said.versions or {}).items():
        made, passed_over = _version(name, version, tree, file)
        versions.append(made)
        unknown = (*unknown, *passed_over)
    return Front(
        title=said.title or "",
        serves=said.serves,
        makes=said.makes,
        measures=said.measures,
        kitchen=said.kitchen,
        pack=_packs(said.pack or ()),
        keep=_keeps(said.keep or ()),
        eaten=said.eaten,
        bought=_bought(said.bought),
        carried_over=said.carried_over or (),
        oven_shared_by=said.oven_shared_by,
        also_count=said.also_count or (),
        trip=said.trip,
        credits=said.credits,
        versions=tuple(versions),
        marks=tuple(
            Mark("doubt", "unknown-key", key.sentence(), (key.nearest,) if key.nearest else ())
            for key in sorted(unknown, key=lambda one: one.line or 0)
        ),
    )


def _short(tree: Tree) -> Tree:
    """Take "bought: rhubarb lemonade" for its `what`."""
    said = tree.values.get("bought")
    if isinstance(said, str):
        return Tree({**tree.values, "bought": {"what": said}}, tree.lines)
    return tree


def _kitchen_keys(tree: Tree, name: str) -> Tree:
    """Take kitchen keys set directly in a version ("hob: gas") for its `kitchen` block."""
    said = tree.values["versions"][name]
    direct = [key for key in said if key in KITCHEN_KEYS] if isinstance(said, dict) else []
    if not direct or not isinstance(said.get("kitchen", {}), dict):
        return tree
    rest = {key: value for key, value in said.items() if key not in direct}
    rest["kitchen"] = {**(said.get("kitchen") or {}), **{key: said[key] for key in direct}}
    versions = {**tree.values["versions"], name: rest}
    lines = dict(tree.lines)
    lines.setdefault(("versions", name, "kitchen"), tree.line(("versions", name, direct[0])) or 1)
    return Tree({**tree.values, "versions": versions}, lines)


def _version(
    name: str, said: VersionSettings, tree: Tree, file: str | None
) -> tuple[Version, tuple[UnknownKey, ...]]:
    """A version, and the keys of its kitchen that mean nothing."""
    line = tree.line(("versions", name))
    kitchen: dict[str, Any] | None = None
    unknown: tuple[UnknownKey, ...] = ()
    if said.kitchen is not None:
        here = ("versions", name, "kitchen")
        lines = {path[len(here) :]: at for path, at in tree.lines.items() if path[:3] == here}
        for key in said.kitchen:
            lines.setdefault((key,), tree.line(here) or 1)
        kitchen, unknown = known_changes(
            Tree(said.kitchen, lines), error=BrokenFrontMatter, file=file
        )
    made = Version(
        name=name,
        swap=said.swap or {},
        pack=None if said.pack is None else _packs(said.pack),
        keep=None if said.keep is None else _keeps(said.keep),
        kitchen=kitchen,
        serves=None if said.serves is None else sum(said.serves) / 2,
        at=line,
        bought=_bought(said.bought),
        skips=said.skips,
    )
    return made, unknown


def _bought(said: BoughtSettings | None) -> Bought | None:
    if said is None:
        return None
    return Bought(said.what, said.container, said.region, said.warmed)


def _packs(said: Sequence[PackSettings]) -> tuple[Pack, ...]:
    return tuple(Pack(one.container, one.lid, one.uses) for one in said)


def _keeps(said: Sequence[KeepSettings]) -> tuple[Keep, ...]:
    return tuple(Keep(one.where, one.days) for one in said)
