"""YAML settings, read with the line of every key and all faults at once.

Front matter, kitchen and season files are read here in the same way. YAML is taken as version
1.2, so that NO stays a country. Anchors, aliases and tags are refused: nobody writes them by
hand in a recipe, and an alias can blow a small file up to a huge one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError
from rapidfuzz import fuzz, process
from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.tokens import AliasToken, AnchorToken, TagToken

from counterproof.recipe.values import shortened

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counterproof.errors import InputError

Path = tuple[int | str, ...]
Model = TypeVar("Model", bound="Settings")

_PROBLEMS = {  # part of the YAML reader's words → ours
    "expected the node content": "a bracket is opened and nothing, or no end, follows",
    "expected ',' or": "a bracket is not closed, or a comma is missing",
    "mapping values are not allowed": "there is a second colon in the line",
    "found character '\\t'": "the line begins with a tab; use blanks",
    "cannot start any token": "the line begins with a sign that needs quotes",
    "duplicate key": "a key is written twice",
    "could not find expected ':'": "the line has no colon",
    "unexpected end of stream": "a quotation mark is not closed",
    "expected <block end>": "the line is set in further or less far than those around it",
    "special characters are not allowed": "there is a sign in it that cannot be printed",
}
_IN_WORDS = {
    "missing": "is needed here and is not there",
    "model_type": "is no set of keys; write {key: value}",
    "dict_type": "is no set of keys; write {key: value}",
    "tuple_type": "is no list; write [one, two]",
}

MOST_BRACKETS = 1000
"""Most opening brackets read in one block of settings: assumed, a hundred versions have fewer."""

NEAR = 60.0
"""Similarity from which a known key is offered for an unknown one: assumed, a typing slip or two
in a short word scores above it."""


class Settings(BaseModel):
    """What every block of settings shares: keys that are not known are noticed."""

    model_config = ConfigDict(extra="forbid", frozen=True)


@dataclass(frozen=True, slots=True)
class UnknownKey:
    """A key that means nothing here, with the line it stands in and the nearest known one."""

    key: str
    line: int | None
    nearest: str | None
    known: tuple[str, ...]
    path: Path = ()

    def sentence(self) -> str:
        """Return what is to be said about it."""
        where = f"line {self.line}: " if self.line else ""
        if self.nearest:
            return f'{where}"{self.key}" is not a key known here; "{self.nearest}" is the nearest.'
        return f'{where}"{self.key}" is not a key known here; known are {", ".join(self.known)}.'


@dataclass(frozen=True, slots=True)
class Tree:
    """YAML as plain values, and the line of every key and list item, from 1."""

    values: dict[str, Any]
    lines: dict[Path, int]

    def line(self, path: Path) -> int | None:
        """Return the line of the innermost part of `path` that has one.

        Parameters
        ----------
        path : tuple
            Keys and item numbers, outermost first.

        Returns
        -------
        int or None
            The line, from 1.
        """
        for end in range(len(path), 0, -1):
            if path[:end] in self.lines:
                return self.lines[path[:end]]
        return None


def yaml_tree(text: str, *, error: type[InputError], file: str | None, first_line: int) -> Tree:
    """Read a block of YAML that must be a list of keys.

    Parameters
    ----------
    text : str
        The YAML.
    error : type of InputError
        What to raise where it cannot be used.
    file : str or None
        The file it stands in.
    first_line : int
        Line of the file in which the block begins, from 1.

    Returns
    -------
    Tree
        Plain values and their lines.

    Raises
    ------
    InputError
        If it is no YAML, or not a list of keys.
    """
    remedy = 'Write one "key: value" a line, and put a value with a colon or # in quotes.'
    if text.count("[") + text.count("{") > MOST_BRACKETS:
        raise error(
            f"The settings hold more than {MOST_BRACKETS} brackets.",
            remedy=remedy,
            file=file,
            line=first_line,
        )
    reader = YAML(typ="rt", pure=True)
    reader.allow_duplicate_keys = False
    try:
        for token in YAML(typ="rt", pure=True).scan(text):
            if isinstance(token, AliasToken | AnchorToken | TagToken):
                raise error(
                    "A value begins with &, * or !, which has a special meaning in YAML.",
                    remedy="Put the value in quotes.",
                    file=file,
                    line=first_line + token.start_mark.line,
                )
        loaded = reader.load(text)
    except MarkedYAMLError as fault:
        mark = fault.problem_mark or fault.context_mark
        what = _in_plain_words(str(fault.problem or fault.context or "the line cannot be read"))
        raise error(
            f"The settings are not YAML that can be read: {what}.",
            remedy=remedy,
            file=file,
            line=first_line + mark.line if mark else first_line,
        ) from None
    except RecursionError:
        raise error(
            "The settings are nested too deeply.", remedy=remedy, file=file, line=first_line
        ) from None
    except (YAMLError, ValueError, TypeError, ArithmeticError, LookupError) as fault:
        what = str(fault).splitlines()[0] if str(fault) else type(fault).__name__
        raise error(
            f"The settings are not YAML that can be read: {what}.",
            remedy=remedy,
            file=file,
            line=first_line,
        ) from None
    if loaded is None:
        return Tree({}, {})
    if not isinstance(loaded, Mapping):
        raise error(
            "The settings are not a list of keys.", remedy=remedy, file=file, line=first_line
        )
    lines: dict[Path, int] = {}
    try:
        values = _plain(loaded, (), lines, first_line)
    except RecursionError:
        raise error(
            "The settings are nested too deeply.", remedy=remedy, file=file, line=first_line
        ) from None
    return Tree(values, lines)


def _in_plain_words(problem: str) -> str:
    """Return what is wrong with the YAML as a cook would say it, its own words where none fit."""
    said = next((words for sign, words in _PROBLEMS.items() if sign in problem), None)
    return said or problem.splitlines()[0]


def _plain(node: Any, path: Path, lines: dict[Path, int], first: int) -> Any:
    if isinstance(node, Mapping):
        plain: dict[str, Any] = {}
        for key, value in node.items():
            name = str(key)
            lines[*path, name] = first + _row(node, key, default=lines.get(path, first) - first)
            plain[name] = _plain(value, (*path, name), lines, first)
        return plain
    if isinstance(node, Sequence) and not isinstance(node, str | bytes):
        items = []
        for number, value in enumerate(node):
            here = (*path, number)
            lines[here] = first + _row(node, number, default=lines.get(path, first) - first)
            items.append(_plain(value, here, lines, first))
        return items
    if isinstance(node, bool) or node is None:
        return node
    if isinstance(node, int):
        return int(node)
    if isinstance(node, float):
        return float(node)
    # An escape such as "\ud83c" may leave half a character, which no file and no screen takes.
    return str(node).encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def _row(node: Any, key: Any, *, default: int) -> int:
    try:
        return int(node.lc.data[key][0])
    except (AttributeError, KeyError, TypeError, IndexError):
        return default


def listed(tree: Tree, path: Path, short: str) -> Tree:
    """Set a block that may also be a list, or one word, as a list.

    Parameters
    ----------
    tree : Tree
        The settings as written.
    path : tuple
        Where the block stands.
    short : str
        The key that one word stands for.

    Returns
    -------
    Tree
        The same settings with a list at `path`.
    """
    block: Any = tree.values
    for part in path[:-1]:
        block = block.get(part) if isinstance(block, dict) else None
    if not isinstance(block, dict) or path[-1] not in block:
        return tree
    value = block[path[-1]]
    items = value if isinstance(value, list) else [value]
    lines = dict(tree.lines)
    if isinstance(value, dict):
        for place, line in tree.lines.items():
            if place[: len(path)] == path and len(place) > len(path):
                lines[*path, 0, *place[len(path) :]] = line
    items = [{short: item} if isinstance(item, str | int | float) else item for item in items]
    return Tree(_replaced(tree.values, path, None if value is None else items), lines)


def _replaced(values: dict[str, Any], path: Path, new: Any) -> dict[str, Any]:
    head = str(path[0])
    return {**values, head: new if len(path) == 1 else _replaced(values[head], path[1:], new)}


def checked(
    model: type[Model], tree: Tree, *, error: type[InputError], file: str | None, what: str
) -> tuple[Model, tuple[UnknownKey, ...]]:
    """Hold settings against their model, all faults at once.

    Parameters
    ----------
    model : type of Settings
        What is allowed.
    tree : Tree
        What was written.
    error : type of InputError
        What to raise where a value cannot be used.
    file : str or None
        The file it stands in.
    what : str
        The settings in words, for the message: "the settings above the recipe".

    Returns
    -------
    tuple of Settings and tuple of UnknownKey
        The settings, and the keys that were passed over.

    Raises
    ------
    InputError
        If a value is of the wrong kind; every such value is named with its line.
    """
    values = tree.values
    unknown: list[UnknownKey] = []
    while True:
        try:
            return model.model_validate(values), tuple(unknown)
        except ValidationError as fault:
            faults = fault.errors(include_url=False)
        extra = [one["loc"] for one in faults if one["type"] == "extra_forbidden"]
        wrong = [one for one in faults if one["type"] != "extra_forbidden"]
        if wrong:
            wrong.sort(key=lambda one: tree.line(one["loc"]) or 0)
            said = list(dict.fromkeys(_fault(tree, one) for one in wrong))
            lines = [tree.line(one["loc"]) for one in wrong]
            first = min((line for line in lines if line is not None), default=None)
            count = "One value" if len(said) == 1 else f"{len(said)} values"
            raise error(
                f"{count} in {what} cannot be used: {'; '.join(said)}.",
                remedy="Change the value, or leave the key out to take its default.",
                file=file,
                line=first,
            )
        for path in extra:
            known = _known(model, path[:-1])
            key = str(path[-1])
            unknown.append(UnknownKey(key, tree.line(path), nearest(key, known), known, path))
        values = without(values, extra)


def nearest(word: str, known: Sequence[str], at_least: float = NEAR) -> str | None:
    """Return the known word that is nearest to `word`, or None where none is near.

    Parameters
    ----------
    word : str
        What was written.
    known : sequence of str
        What is known.
    at_least : float
        Similarity from which a word counts as near, 0–100. [1]

    Returns
    -------
    str or None
        The known word, as it stands in `known`.
    """
    found = process.extractOne(word.casefold(), known, scorer=fuzz.ratio, score_cutoff=at_least)
    return None if found is None else str(found[0])


def _fault(tree: Tree, fault: Any) -> str:
    line = tree.line(fault["loc"])
    path = ", ".join(
        f"item {part + 1}" if isinstance(part, int) else str(part) for part in fault["loc"]
    )
    message = _IN_WORDS.get(fault["type"], str(fault["msg"]).removeprefix("Value error, "))
    if fault["type"] in _IN_WORDS and fault["type"] != "missing":
        message = f"{shortened(fault['input'])} {message}"
    lead = f"line {line}, " if line else ""
    return f"{lead}{path}: {message}"


def _known(model: type[Settings], path: Path) -> tuple[str, ...]:
    here: Any = model
    for part in path:
        if isinstance(part, int):
            continue
        field = here.model_fields.get(part)
        if field is None:  # a name of the cook's own, such as that of a version
            continue
        inner = next(_models(field.annotation), None)
        if inner is None:
            return ()
        here = inner
    return tuple(field.alias or name for name, field in here.model_fields.items())


def _models(annotation: Any) -> Iterator[type[Settings]]:
    if isinstance(annotation, type) and issubclass(annotation, Settings):
        yield annotation
    for part in getattr(annotation, "__args__", ()):
        yield from _models(part)


def without(values: Any, paths: Sequence[Path]) -> Any:
    """Return settings without some of their keys.

    Parameters
    ----------
    values : dict, list or plain value
        The settings, or a part of them.
    paths : sequence of tuple
        Keys and item numbers of what is left out, outermost first.

    Returns
    -------
    dict, list or plain value
        The rest.
    """
    drop = {path[0] for path in paths if len(path) == 1}
    if isinstance(values, dict):
        return {
            key: without(value, [path[1:] for path in paths if path[0] == key])
            for key, value in values.items()
            if key not in drop
        }
    if isinstance(values, list):
        return [
            without(value, [path[1:] for path in paths if path[0] == number])
            for number, value in enumerate(values)
        ]
    return values
