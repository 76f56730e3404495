"""A recipe as Markdown or plain text: read, written, and settled line by line."""

from __future__ import annotations

import re
from collections.abc import MutableMapping
from dataclasses import replace

from counterproof.errors import BrokenFrontMatter, NotARecipe
from counterproof.marks import Mark
from counterproof.recipe.front_matter import Front, read_front_matter
from counterproof.recipe.headings import heads_ingredients
from counterproof.recipe.markup import file_lines, items, spaced, written
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.recipe.servings import shown_servings, statement
from counterproof.recipe.settings_written import settings_of, written_settings
from counterproof.recipe.sorting import sorted_parts

UNTITLED = "Untitled recipe"
LONGEST_SETTINGS = 50_000
"""Longest front matter read [characters]: assumed, a thousand lines."""

HOW_TO_WRITE_ONE = (
    'Put the ingredients one a line under a heading "Ingredients", and the steps under a heading '
    '"Method".'
)

_BRACKETED = {
    lead: re.compile(rf"\s*\({lead}\s[^()]*(?:\([^()]*\)[^()]*)*\)")
    for lead in ("meaning", "weighed")
}


def read_text(
    text: str,
    file: str | None = None,
    known: MutableMapping[tuple[str, int, str | None], Front] | None = None,
) -> Recipe:
    """Read a recipe from Markdown or from plain text without any mark-up.

    Parameters
    ----------
    text : str
        The file's text: optional YAML front matter, title, ingredients, method.
    file : str or None
        Its name, for messages.
    known : mutable mapping or None
        Front matter read before, which takes longer to read than all the rest; what is read now
        is added.

    Returns
    -------
    Recipe
        Every line of the text in one of its parts, except comments (``<!-- … -->``).

    Raises
    ------
    NotARecipe
        If the text is empty or has no ingredients.
    BrokenFrontMatter
        If the front matter is no YAML or holds values that cannot be used.
    """
    lines = file_lines(text)
    front, body = _front(lines, file, known)
    found = items(lines[body:], body + 1)
    if not found:
        raise NotARecipe(
            "The file is empty." if not text.strip() else "There are settings, but no recipe.",
            remedy=HOW_TO_WRITE_ONE,
            file=file,
            line=1 if text.strip() else None,
        )
    parts = sorted_parts(found, front.serves, front.makes)
    if not parts.lines:
        raise NotARecipe(
            f"No ingredients were found in {_counted(len(found), 'line')} of text.",
            remedy=HOW_TO_WRITE_ONE,
            file=file,
            line=found[0].at,
        )
    marks = list(front.marks)
    title = front.title or parts.title
    if front.title and parts.title and parts.title != front.title:
        parts.intro.insert(0, parts.title)
    if not title:
        title = UNTITLED
        marks.append(Mark("note", "no-title", "The recipe has no title."))
    marks += [
        Mark("doubt", "other-yield", f"Line {at} says another yield than what came before it.")
        for at in parts.differing
    ]
    if parts.again is not None:
        marks.append(
            Mark(
                "doubt",
                "several-recipes",
                f"At line {parts.again} a second recipe seems to begin; all is read as one. Put it "
                "into a file of its own, or name it as a part of this dish: “For the …”.",
            )
        )
    if not parts.steps:
        marks.append(no_method())
    return Recipe(
        title=title,
        lines=tuple(parts.lines),
        steps=tuple(parts.steps),
        serves=parts.serves,
        makes=parts.makes,
        intro="\n".join(parts.intro),
        notes="\n".join(parts.notes),
        measures=front.measures,
        kitchen=front.kitchen,
        pack=front.pack,
        keep=front.keep,
        eaten=front.eaten,
        bought=front.bought,
        carried_over=front.carried_over,
        credits=front.credits,
        oven_shared_by=front.oven_shared_by,
        also_count=front.also_count,
        trip=front.trip,
        versions=front.versions,
        marks=tuple(marks),
        file=file,
    )


def no_method() -> Mark:
    """Return the note that nothing says how the recipe is cooked."""
    return Mark("note", "no-method", "The recipe has no method, so no cooking can be counted.")


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}" + ("" if number == 1 else "s")


def _front(
    lines: list[str],
    file: str | None,
    known: MutableMapping[tuple[str, int, str | None], Front] | None,
) -> tuple[Front, int]:
    """Return the front matter and the number of lines it takes."""
    start = next((number for number, line in enumerate(lines) if line.strip()), 0)
    if not lines or lines[start].rstrip() != "---":
        return Front(), 0
    end = next(
        (n for n in range(start + 1, len(lines)) if lines[n].rstrip() in {"---", "..."}), None
    )
    if end is None:
        raise BrokenFrontMatter(
            "The settings begin with --- and never end.",
            remedy="Write a second --- on a line of its own where the recipe begins.",
            file=file,
            line=start + 1,
        )
    block = "\n".join(lines[start + 1 : end])
    if len(block) > LONGEST_SETTINGS:
        raise BrokenFrontMatter(
            f"The settings take {len(block)} characters; {LONGEST_SETTINGS} are allowed.",
            remedy="Close them with --- before the recipe begins.",
            file=file,
            line=start + 1,
        )
    asked = (block, start + 2, file)
    found = None if known is None else known.get(asked)
    if found is None:
        found = read_front_matter(block, file=file, first_line=start + 2)
        if known is not None:
            known[asked] = found
    return found, end + 1


def write_text(recipe: Recipe) -> str:
    """Write a recipe as Markdown.

    Parameters
    ----------
    recipe : Recipe
        The recipe.

    Returns
    -------
    str
        A file that `read_text` reads back equal (but for line numbers, file and marks), one
        ingredient and one step a line.
    """
    easy = _written(recipe, guarded=False)
    try:
        if same_words(read_text(easy), recipe):
            return easy
    except (NotARecipe, BrokenFrontMatter):
        pass
    # Words that would be taken for something else ("Serves 4" in a note) are marked as words.
    return _written(recipe, guarded=True)


def same_words(one: Recipe, other: Recipe) -> bool:
    """Return whether two recipes say the same, wherever their lines stood.

    Parameters
    ----------
    one, other : Recipe
        The recipes.

    Returns
    -------
    bool
        True where all but line numbers, file and marks is equal.
    """
    return _bare(one) == _bare(other)


def _bare(recipe: Recipe) -> Recipe:
    return replace(
        recipe,
        lines=tuple(replace(line, at=None) for line in recipe.lines),
        steps=tuple(replace(step, at=None) for step in recipe.steps),
        versions=tuple(replace(version, at=None) for version in recipe.versions),
        marks=(),
        file=None,
        beside=(),
    )


def _written(recipe: Recipe, *, guarded: bool) -> str:
    above: dict[str, object] = {}
    if guarded:
        above["title"] = recipe.title
    top: list[str] = [] if guarded else [written("# ", recipe.title)]
    if recipe.serves is not None:
        line = f"Serves {shown_servings(recipe.serves)}"
        said = statement(line)
        if not guarded and said is not None and said.whole and said.serves == recipe.serves:
            top.append(line)
        else:
            above["serves"] = shown_servings(recipe.serves)
    if recipe.makes is not None:
        line = f"Makes {recipe.makes}"
        said = statement(line)
        if not guarded and said is not None and said.whole and said.makes == recipe.makes:
            top.append(line)
        else:
            above["makes"] = recipe.makes
    settings = written_settings({**above, **settings_of(recipe)})
    head = f"---\n{settings}---\n\n" if settings else ""
    blocks = [*top, *_prose(recipe.intro, guarded=guarded)]
    blocks.append(_listed("Ingredients", recipe.lines, guarded=guarded))
    blocks.append(_listed("Method", recipe.steps, guarded=guarded))
    if recipe.notes:
        blocks += ["## Notes", *_prose(recipe.notes, guarded=guarded)]
    return head + "\n\n".join(blocks) + "\n"


def _prose(text: str, *, guarded: bool) -> list[str]:
    """Return the blocks of intro or notes; list items stay together."""
    blocks: list[str] = []
    lists = False
    for line in text.split("\n") if text else ():
        bullet = not guarded and line.startswith("- ")
        if line.startswith("### "):
            shown = written("### ", line[4:], literal=guarded)
        elif bullet:
            shown = written("- ", line[2:])
        else:
            shown = written("", line, literal=guarded)
        if bullet and lists:
            blocks[-1] += f"\n{shown}"
        else:
            blocks.append(shown)
        lists = bullet
    return blocks


def _listed(head: str, lines: tuple[WrittenLine, ...], *, guarded: bool) -> str:
    rows = [f"## {head}"]
    section = ""
    for line in lines:
        if line.section != section:
            again = written("### ", line.section, literal=guarded) if line.section else rows[0]
            rows += ["", again, ""]
            section = line.section
        elif len(rows) == 1:
            rows.append("")
        lead = f"{line.number}. " if head == "Method" else "- "
        rows.append(written(lead, line.text, literal=guarded and heads_ingredients(line.text)))
    return "\n".join(rows)


def settle(text: str, at: int, words: str) -> str:
    """Write what a line means into the line.

    Parameters
    ----------
    text : str
        The recipe file's text.
    at : int
        The line, from 1 (`WrittenLine.at`).
    words : str
        What it means, in plain words: "chopped tomatoes, 400 g".

    Returns
    -------
    str
        The same text with "(meaning …)" at the end of that line, in place of an earlier one;
        line endings and every other line are as they were.

    Raises
    ------
    NotARecipe
        If the text has no such line.
    """
    return _beside(text, at, "meaning", words)


def weighed(text: str, at: int, words: str) -> str:
    """Write what a scale said beside a line's own words.

    Parameters
    ----------
    text : str
        The recipe file's text.
    at : int
        The line, from 1 (`WrittenLine.at`).
    words : str
        What was weighed: "28 g, give or take 1 g".

    Returns
    -------
    str
        The same text with "(weighed …)" at the end of that line, in place of an earlier one;
        line endings and every other line are as they were.

    Raises
    ------
    NotARecipe
        If the text has no such line.
    """
    return _beside(text, at, "weighed", words)


def _beside(text: str, at: int, lead: str, words: str) -> str:
    pieces = re.split(r"(\r\n|\n|\r)", text)
    place = (at - 1) * 2
    if at < 1 or place >= len(pieces) or not pieces[place].strip():
        raise NotARecipe(
            f"There is no line {at} to write in.",
            remedy="Read the recipe again and choose the line anew.",
            line=at,
        )
    line = _BRACKETED[lead].sub("", pieces[place])
    end = line.rstrip()
    comment = re.search(r"\s*<!--.*?-->$", end)
    tail = line[len(end) :] if comment is None else line[comment.start() :]
    body = end if comment is None else end[: comment.start()]
    said = spaced(words.replace("(", ", ").replace(")", " ")).replace(" ,", ",")
    pieces[place] = f"{body} ({lead} {said}){tail}" if said else f"{body}{tail}"
    return "".join(pieces)
