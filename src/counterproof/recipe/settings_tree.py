"""YAML settings as plain values, with the line of every key.

YAML is taken as version 1.2, so that NO stays a country. Anchors, aliases and tags are refused:
nobody writes them by hand in a recipe, and an alias can blow a small file up to a huge one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.tokens import AliasToken, AnchorToken, TagToken

if TYPE_CHECKING:
    from counterproof.errors import InputError

Path = tuple[int | str, ...]

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

MOST_BRACKETS = 1000
"""Most opening brackets read in one block of settings: assumed, a hundred versions have fewer."""


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
