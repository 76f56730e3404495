"""Settings held against what is allowed, all faults at once.

Front matter, kitchen, season, price and pantry files are read here in the same way.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError
from rapidfuzz import fuzz, process

from counterproof.errors import BrokenSettings
from counterproof.recipe.settings_tree import Path, Tree, without, yaml_tree
from counterproof.recipe.values import shortened

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from counterproof.errors import InputError

Model = TypeVar("Model", bound="Settings")

_IN_WORDS = {
    "missing": "is needed here and is not there",
    "model_type": "is no set of keys; write {key: value}",
    "dict_type": "is no set of keys; write {key: value}",
    "tuple_type": "is no list; write [one, two]",
}

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


def refuse_unknown(
    unknown: Sequence[UnknownKey], *, error: type[InputError], file: str | None
) -> None:
    """Refuse settings with keys that mean nothing, where every key must be known.

    Parameters
    ----------
    unknown : sequence of UnknownKey
        The keys that were passed over.
    error : type of InputError
        What to raise.
    file : str or None
        The file they stand in.

    Raises
    ------
    InputError
        If there is one; all are named.
    """
    if unknown:
        raise error(
            " ".join(key.sentence() for key in sorted(unknown, key=lambda one: one.line or 0)),
            remedy="Correct the key or leave it out.",
            file=file,
            line=min((key.line for key in unknown if key.line), default=None),
        )


def settings_file(
    model: type[Model],
    yaml_text: str,
    file: str | None,
    what: str,
    shaped: Callable[[Tree], Tree] | None = None,
) -> tuple[Model, Tree]:
    """Read a file that holds settings and nothing else.

    Parameters
    ----------
    model : type of Settings
        What is allowed.
    yaml_text : str
        The file's text.
    file : str or None
        Its name, for messages.
    what : str
        The settings in words, for messages: "the prices".
    shaped : callable or None
        Sets what may be written in short into the model's shape.

    Returns
    -------
    tuple of Settings and Tree
        The settings, and their lines.

    Raises
    ------
    BrokenSettings
        If it is no YAML, if a key is not known, or if a value cannot be used; all at once.
    """
    text = yaml_text.removeprefix("\ufeff")
    tree = yaml_tree(text, error=BrokenSettings, file=file, first_line=1)
    if shaped is not None:
        tree = shaped(tree)
    said, unknown = checked(model, tree, error=BrokenSettings, file=file, what=what)
    refuse_unknown(unknown, error=BrokenSettings, file=file)
    return said, tree


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
