"""One value of a YAML file changed in place: comments, order and every other line stay."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from typing import Any, Final

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

from counterproof.errors import BrokenSettings

_FENCE: Final = "---"


def changed_yaml(text: str, path: Sequence[str], value: object, file: str | None = None) -> str:
    """A YAML text with one value set.

    Parameters
    ----------
    text : str
        The file's text; may be empty.
    path : sequence of str
        Keys from the outside in, one or two.
    value : object
        What to set: a number or words.
    file : str or None
        Its name, for messages.

    Returns
    -------
    str
        The same text with the value in its place, or a new line for it.

    Raises
    ------
    BrokenSettings
        If the text is no YAML, or if the key holds something that cannot be changed in place.

    Notes
    -----
    The change is made in the text itself, where the value stands; it is then read back, and
    refused if anything else than this value had changed.
    """
    before = _tree(text, file)
    shown = _shown(value)
    for candidate in (
        _in_block(text, path, shown),
        _in_flow(text, path, shown),
        _added(text, path, shown, before),
    ):
        if candidate is not None and _tree(candidate, file) == _with(before, path, value):
            return candidate
    raise BrokenSettings(
        f"{' '.join(path)} cannot be set to {shown} without touching other lines.",
        remedy=f"Write it by hand: {': '.join((*path, shown))}.",
        file=file,
    )


def changed_front_matter(text: str, key: str, value: object, file: str | None = None) -> str:
    """A recipe's text with one of its settings set, where it has any settings or none.

    Parameters
    ----------
    text : str
        The recipe file's text.
    key : str
        The setting.
    value : object
        A number or words.
    file : str or None
        Its name, for messages.

    Returns
    -------
    str
        With the setting between the two lines of ``---``.
    """
    lines = text.splitlines(keepends=True)
    if not lines or lines[0].rstrip() != _FENCE:
        return f"{_FENCE}\n{key}: {_shown(value)}\n{_FENCE}\n\n{text}"
    end = next(n for n in range(1, len(lines)) if lines[n].rstrip() in {_FENCE, "..."})
    block = changed_yaml("".join(lines[1:end]), (key,), value, file)
    return "".join((lines[0], block, *lines[end:]))


def _shown(value: object) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _in_block(text: str, path: Sequence[str], shown: str) -> str | None:
    """`  power: 2 kW   # comment` below `hob:`, or `room_celsius: 17` on the outside."""
    lines = text.splitlines(keepends=True)
    begin, indent = 0, ""
    if len(path) > 1:
        head = next(
            (
                n
                for n, line in enumerate(lines)
                if re.match(rf"{re.escape(path[0])}\s*:\s*(?:#.*)?$", line)
            ),
            None,
        )
        if head is None:
            return None
        begin, indent = head + 1, r"[ ]+"
    for n in range(begin, len(lines)):
        if len(path) > 1 and re.match(r"\S", lines[n]) and not lines[n].startswith("#"):
            return None
        found = re.match(
            rf"(?P<lead>{indent}{re.escape(path[-1])}\s*:\s*)(?P<value>[^#\n]*?)(?P<tail>\s*(?:#.*)?\r?\n?)$",
            lines[n],
        )
        if found is not None and found["value"] and found["value"][0] not in "{[":
            room = len(found["value"]) + len(found["tail"]) - len(found["tail"].lstrip(" "))
            tail = found["tail"].lstrip(" ")
            padded = shown.ljust(room) if tail.startswith("#") else shown
            gap = " " if tail.startswith("#") and not padded.endswith(" ") else ""
            lines[n] = f"{found['lead']}{padded}{gap}{tail}"
            return "".join(lines)
    return None


def _in_flow(text: str, path: Sequence[str], shown: str) -> str | None:
    """`fridge: {litres: 380, celsius: 4}`, where the key stands in the braces or not."""
    if len(path) != 2:
        return None
    found = re.search(rf"(?m)^{re.escape(path[0])}\s*:\s*\{{(?P<inside>[^{{}}\n]*)\}}", text)
    if found is None:
        return None
    inside = found["inside"]
    key = re.compile(rf"(?P<lead>(?:^|,)\s*{re.escape(path[1])}\s*:\s*)[^,]+")
    new = key.sub(lambda one: f"{one['lead']}{shown}", inside, count=1)
    if not key.search(inside):
        new = f"{inside.rstrip()}, {path[1]}: {shown}" if inside.strip() else f"{path[1]}: {shown}"
    return f"{text[: found.start('inside')]}{new}{text[found.end('inside') :]}"


def _added(text: str, path: Sequence[str], shown: str, before: dict[str, Any]) -> str | None:
    """A new line: below its block where there is one, else at the end."""
    lines = text.splitlines(keepends=True)
    if lines and not lines[-1].endswith(("\n", "\r")):
        lines[-1] += "\n"
    if len(path) == 1:
        return "".join((*lines, f"{path[0]}: {shown}\n"))
    held = before.get(path[0])
    if held is None:
        return "".join((*lines, f"{path[0]}: {{{path[1]}: {shown}}}\n"))
    for n, line in enumerate(lines):
        bare = re.match(
            rf"{re.escape(path[0])}\s*:\s*(?P<word>[^#\s{{][^#\n]*?)?\s*(?P<tail>#.*)?\r?\n$", line
        )
        if bare is None:
            continue
        if bare["word"]:  # "hob: gas" says the kind
            tail = f"  {bare['tail']}" if bare["tail"] else ""
            lines[n] = f"{path[0]}: {{kind: {bare['word']}, {path[1]}: {shown}}}{tail}\n"
            return "".join(lines)
        last = n + 1
        indent = "  "
        while last < len(lines) and re.match(r"[ ]+\S", lines[last]):
            indent = re.match(r"[ ]+", lines[last])[0]  # type: ignore[index]
            last += 1
        lines.insert(last, f"{indent}{path[1]}: {shown}\n")
        return "".join(lines)
    return None


def _tree(text: str, file: str | None) -> dict[str, Any]:
    try:
        found = YAML(typ="safe", pure=True).load(io.StringIO(text))
    except YAMLError as fault:
        raise BrokenSettings(
            "The settings are not YAML that can be read.",
            remedy="Mend them first; nothing was changed.",
            file=file,
            line=getattr(getattr(fault, "problem_mark", None), "line", -1) + 1 or None,
        ) from None
    return dict(found) if isinstance(found, dict) else {}


def _with(before: dict[str, Any], path: Sequence[str], value: object) -> dict[str, Any]:
    read = YAML(typ="safe", pure=True).load(_shown(value))
    if len(path) == 1:
        return {**before, path[0]: read}
    held = before.get(path[0])
    inner = held if isinstance(held, dict) else ({} if held is None else {"kind": held})
    return {**before, path[0]: {**inner, path[1]: read}}
