"""A recipe read from schema.org data (JSON-LD), other people's or our own."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from counterproof.errors import NotARecipe
from counterproof.marks import Mark
from counterproof.recipe.front_matter import front_from
from counterproof.recipe.headings import heads_ingredients
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.recipe.schema_org_words import (
    DEEPEST,
    OURS,
    cleaned,
    prose,
    split_lines,
    words_in,
)
from counterproof.recipe.servings import servings_said, statement
from counterproof.recipe.settings_tree import Tree
from counterproof.recipe.text import HOW_TO_WRITE_ONE, UNTITLED, no_method

_STEP_NAME = re.compile(r"(?:step|schritt)?\s*\d+\.?|step", re.IGNORECASE)
_ADDRESS = re.compile(r"https://[^\s\"'<>]{1,500}$")
_LEAD = re.compile(r"(?:\d{1,2}[.)]|[-•*▢])\s+(?=\S)")


def read_json(text: str, file: str | None = None) -> Recipe:
    """Read a recipe from the text of a JSON-LD file.

    Parameters
    ----------
    text : str
        The file's text.
    file : str or None
        Its name, for messages.

    Returns
    -------
    Recipe
        The recipe.

    Raises
    ------
    NotARecipe
        If it is no JSON, or holds no recipe.
    """
    try:
        document = json.loads(text.removeprefix("\ufeff"), strict=False)
    except json.JSONDecodeError as fault:
        raise NotARecipe(
            f"The file is not JSON that can be read: {fault.msg}.",
            remedy="Save it again from where it came, or give the recipe as plain text.",
            file=file,
            line=fault.lineno,
        ) from None
    except (ValueError, RecursionError):
        raise NotARecipe(
            "The file is not JSON that can be read.",
            remedy="Save it again from where it came, or give the recipe as plain text.",
            file=file,
        ) from None
    return from_json_ld(document, file)


def recipes_in(document: Any) -> list[dict[str, Any]]:
    """Return every schema.org Recipe in a JSON-LD document, in order.

    Parameters
    ----------
    document : object
        Decoded JSON: an object, a list, or an ``@graph``; recipes may lie at any depth.

    Returns
    -------
    list of dict
        The recipes, references by ``@id`` followed.
    """
    by_id: dict[str, dict[str, Any]] = {}
    found: list[dict[str, Any]] = []
    _walk(document, found, by_id, 0)
    return [{key: _followed(value, by_id) for key, value in one.items()} for one in found]


def _walk(
    node: Any, found: list[dict[str, Any]], by_id: dict[str, dict[str, Any]], depth: int
) -> None:
    if depth > DEEPEST:
        return
    if isinstance(node, dict):
        name = node.get("@id")
        if isinstance(name, str) and len(node) > 1:
            by_id.setdefault(name, node)
        if _is_a(node, "recipe"):
            found.append(node)
            return
        node = list(node.values())
    if isinstance(node, list):
        for one in node:
            _walk(one, found, by_id, depth + 1)


def _followed(value: Any, by_id: Mapping[str, dict[str, Any]]) -> Any:
    if isinstance(value, list):
        return [_followed(one, by_id) for one in value]
    if isinstance(value, dict) and set(value) == {"@id"}:
        return by_id.get(str(value["@id"]), value)
    return value


def _is_a(node: Mapping[str, Any], kind: str) -> bool:
    types = node.get("@type", ())
    types = types if isinstance(types, list) else [types]
    return any(
        isinstance(one, str) and re.split(r"[/:#]", one.strip())[-1].casefold() == kind
        for one in types
    )


def from_json_ld(document: Any, file: str | None = None) -> Recipe:
    """Read the recipe in a JSON-LD document.

    Parameters
    ----------
    document : object
        Decoded JSON.
    file : str or None
        Where it came from, for messages.

    Returns
    -------
    Recipe
        The first recipe that has ingredients; others are noted in its marks.

    Raises
    ------
    NotARecipe
        If there is none.
    """
    return chosen(recipes_in(document), file)


def chosen(found: list[dict[str, Any]], file: str | None) -> Recipe:
    """Return the first recipe with ingredients among those found.

    Parameters
    ----------
    found : list of dict
        schema.org recipes.
    file : str or None
        Where they came from.

    Returns
    -------
    Recipe
        The recipe, with a note where there are others.

    Raises
    ------
    NotARecipe
        If there is none, or none with ingredients.
    """
    if not found:
        raise NotARecipe(
            "There is no schema.org recipe in it.",
            remedy=f"Copy the recipe's words into a text file. {HOW_TO_WRITE_ONE}",
            file=file,
        )
    read = [_recipe(one, file) for one in found]
    full = [recipe for recipe in read if recipe.lines]
    if not full:
        raise NotARecipe(
            "The recipe in it has no ingredients.",
            remedy=f"Copy the recipe's words into a text file. {HOW_TO_WRITE_ONE}",
            file=file,
        )
    others = [recipe.title for recipe in full[1:] if recipe.title != full[0].title]
    if not others:
        return full[0]
    names = ", ".join(f'"{title}"' for title in others[:5])
    note = Mark(
        "note",
        "several-recipes",
        f'There are other recipes here; "{full[0].title}" is read, not {names}.',
    )
    return replace(full[0], marks=(*full[0].marks, note))


def _recipe(node: Mapping[str, Any], file: str | None) -> Recipe:
    ours = node.get(OURS)
    exact = isinstance(ours, dict)
    extra: dict[str, Any] = ours if isinstance(ours, dict) else {}
    front = front_from(Tree(_settings_in(extra), {}), file=file)
    serves, makes, more = _yield(node.get("recipeYield", node.get("yield")), exact=exact)
    if front.serves or front.makes:  # said by us, and exactly
        serves, makes, more = None, None, []
    lines = _ingredients(
        _both(node.get("recipeIngredient"), node.get("ingredients")),
        extra.get("sections"),
        exact=exact,
    )
    steps: list[tuple[str, str]] = []
    _instructions(node.get("recipeInstructions"), "", steps, exact=exact, depth=0)
    intro = prose(node.get("description"), exact=exact)
    title = next(iter(words_in(node.get("name"), exact=exact)), "")
    marks = list(front.marks)
    if not title:
        marks.append(Mark("note", "no-title", "The recipe has no title."))
    if not steps:
        marks.append(no_method())
    notes = prose(extra.get("notes"), exact=exact)
    return Recipe(
        title=title or UNTITLED,
        lines=lines,
        steps=tuple(
            WrittenLine(number, text, section) for number, (text, section) in enumerate(steps, 1)
        ),
        serves=front.serves or serves,
        makes=front.makes or makes,
        intro="\n".join([*([intro] if intro else []), *more]),
        notes=notes,
        measures=front.measures,
        kitchen=front.kitchen,
        pack=front.pack,
        keep=front.keep,
        eaten=front.eaten,
        bought=front.bought,
        carried_over=front.carried_over,
        credits=front.credits or _credits(node),
        oven_shared_by=front.oven_shared_by,
        also_count=front.also_count,
        trip=front.trip,
        versions=front.versions,
        marks=tuple(marks),
        file=file,
    )


def _credits(node: Mapping[str, Any]) -> tuple[str, ...]:
    """Whose recipe it was and where it stood, as the page says; our own pages say it in settings."""
    if isinstance(node.get(OURS), dict):
        return ()
    authors = ", ".join(dict.fromkeys(words_in(node.get("author"), exact=False)))
    page = node.get("mainEntityOfPage")
    place = page.get("@id", page.get("url")) if isinstance(page, dict) else page
    address = next(
        (one for one in (node.get("url"), place) if isinstance(one, str) and _ADDRESS.match(one)),
        "",
    )
    told = ", ".join(part for part in (authors, address) if part)
    return (f"After a recipe by {told}",) if authors else (f"After {told}",) if told else ()


def _settings_in(extra: Mapping[str, Any]) -> dict[str, Any]:
    settings = extra.get("settings")
    return (
        {str(key): value for key, value in settings.items()} if isinstance(settings, dict) else {}
    )


def _yield(value: Any, *, exact: bool) -> tuple[tuple[float, float] | None, str | None, list[str]]:
    """Return servings, what it makes, and yield texts that say neither anew."""
    serves, makes, more = None, None, []
    for text in words_in(value, exact=exact):
        said = statement(text)
        servings = servings_said(text) or (said.serves if said else None)
        other = said.makes if said else None if servings else text
        if servings and serves in (None, servings):
            serves = servings
        elif servings:
            more.append(text)
        if other and makes is None:
            makes = other
        elif other and other != makes:
            more.append(other)
    return serves, makes, more


def _both(new: Any, old: Any) -> Any:
    """Return ingredients under today's key and under the one it replaced, each line once."""
    if isinstance(new, list) and isinstance(old, list):
        return [*new, *(one for one in old if one not in new)]
    return new or old


def _ingredients(value: Any, sections: Any, *, exact: bool) -> tuple[WrittenLine, ...]:
    if isinstance(value, dict) and "itemListElement" in value:
        value = value["itemListElement"]
    texts = words_in(split_lines(value), exact=exact)
    if exact:
        named = sections if isinstance(sections, list) and len(sections) == len(texts) else []
        named = [cleaned(str(one), exact=True) for one in named] or [""] * len(texts)
        return tuple(
            WrittenLine(number, text, section)
            for number, (text, section) in enumerate(zip(texts, named, strict=True), 1)
        )
    lines: list[WrittenLine] = []
    section = ""
    for place, text in enumerate(texts):
        words = _LEAD.sub("", text, count=1) if not re.match(r"\d", text) else text
        following = texts[place + 1] if place + 1 < len(texts) else ":"
        if heads_ingredients(words) and not heads_ingredients(following):
            section = words.rstrip(": ")
        else:
            lines.append(WrittenLine(len(lines) + 1, words, section))
    return tuple(lines)


def _instructions(
    value: Any, section: str, steps: list[tuple[str, str]], *, exact: bool, depth: int
) -> None:
    if depth > DEEPEST:
        return
    if isinstance(value, list):
        for one in value:
            _instructions(one, section, steps, exact=exact, depth=depth + 1)
    elif isinstance(value, dict):
        _step(value, section, steps, exact=exact, depth=depth)
    else:
        for text in words_in(value if exact else split_lines(value), exact=exact):
            words = text if exact else _LEAD.sub("", text, count=1)
            steps.append((words, section))


def _step(
    node: Mapping[str, Any], section: str, steps: list[tuple[str, str]], *, exact: bool, depth: int
) -> None:
    name = next(iter(words_in(node.get("name"), exact=exact)), "")
    inner = node.get("itemListElement", node.get("steps"))
    if _is_a(node, "howtosection") or (inner and not _is_a(node, "howtostep")):
        _instructions(inner, name.rstrip(": ") or section, steps, exact=exact, depth=depth + 1)
        return
    texts = words_in(node.get("text"), exact=exact) or words_in(
        node.get("description"), exact=exact
    )
    if not texts and inner:
        texts = [" ".join(words_in(inner, exact=exact))]
    text = texts[0] if texts else ""
    label = "" if _STEP_NAME.fullmatch(name) else name.rstrip(".…: ")
    if label and not text.casefold().startswith(label.casefold()):
        text = f"{label}: {text}" if text else name
    if text:
        steps.append((text, section))
