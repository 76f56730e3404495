"""What is said beside a line about the food it names, in words a cook understands."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counterproof.marks import Mark
from counterproof.reading.modifiers import NEVER_FOOD, VESSELS
from counterproof.reading.name_index import canonical
from counterproof.reading.spellings import words

if TYPE_CHECKING:
    from counterproof.reading.foods import Match, Matcher
    from counterproof.reading.meant import Meant
    from counterproof.rows import Food

_OWN_WORD = re.compile(r"[\w’'-]+")
_QUOTED = re.compile(r"(?<=“)[a-z]+(?=”)")
_MINUS = "-−–"
_BELOW_ZERO = re.compile(rf"[{_MINUS}](?:\d{{1,9}}(?:[.,/]\d{{1,9}})?|[½¼¾⅓⅔⅛])")
_BY_NOTHING = re.compile(r"(?<!\d)\d{1,9}/0{1,9}(?![\d.,/])")
DOUBTFUL = 0.75  # from here on a name is taken without asking; below it the choice is marked


def unknown(name: Meant, matcher: Matcher) -> Mark:
    """The fault for a line without a known food, with the nearest foods as choices.

    Parameters
    ----------
    name : Meant
        What the line names.
    matcher : Matcher
        Finds the nearest foods.

    Returns
    -------
    Mark
        "no-food", "not-food" or "unknown-food".
    """
    called = name.called
    found = words(called)
    if not found or called.rstrip().endswith(":"):
        return Mark(
            "fault",
            "no-food",
            "No food is named in this line. Write one, or make it a heading, or take it out.",
        )
    if VESSELS.issuperset(found):
        return Mark(
            "fault",
            "no-food",
            f"“{called[:80]}” names a container and nothing in it. Write what it holds; if it stays "
            "empty, take the line out.",
        )
    if not NEVER_FOOD.isdisjoint(found):
        return not_eaten(f"“{called[:80]}”")
    choices = [runner.food.name for runner in name.match.runners_up]
    choices += [food.name for food in matcher.nearest(called) if food.name not in choices]
    offer = (
        f"Is it {listed(choices[:4])}? Write “(meaning …)” after it."
        if choices
        else "Write a plainer name for it, such as the kind of food it is."
    )
    message = f"“{called[:80]}” is not a food this table knows, so it is not counted. {offer}"
    return Mark("fault", "unknown-food", message, tuple(choices[:4]))


def not_eaten(called: str) -> Mark:
    """The fault for a tool or a wrapping.

    Parameters
    ----------
    called : str
        What it is called.

    Returns
    -------
    Mark
        "not-food".
    """
    return Mark(
        "fault", "not-food", f"{called} is a tool or wrapping, not eaten: it is not counted."
    )


def unsure(name: Meant, food: Food) -> list[Mark]:
    """The doubt about a name that may mean another food, or the note on words set aside.

    Parameters
    ----------
    name : Meant
        What the line names.
    food : Food
        What was taken.

    Returns
    -------
    list of Mark
        One mark, or none.
    """
    match = name.match
    if match.certainty >= DOUBTFUL and not match.explanation:
        return []
    told = "; ".join(_as_written(note, name.called) for note in match.explanation)
    if match.certainty < DOUBTFUL:
        why = f" ({told})" if told else ""
        return [
            Mark(
                "doubt",
                "unsure-food",
                f"“{name.called}” is taken as {food.name}, but only {match.certainty:.0%} sure"
                f"{why}. Choose, or write “(meaning …)” after it.",
                (food.name, *(runner.food.name for runner in match.runners_up)),
            )
        ]
    return [Mark("note", "set-aside", f"Read as {food.name}: {told}.")] if told else []


def _as_written(note: str, called: str) -> str:
    """A remark with the cook's own words in its quotation marks, not their comparable forms."""
    own: dict[str, str] = {}
    for word in _OWN_WORD.findall(called):
        for comparable in canonical(words(word)):
            own.setdefault(comparable, word)
    return _QUOTED.sub(lambda quoted: own.get(quoted.group(), quoted.group()), note)


def said_of_name(match: Match, matcher: Matcher) -> list[Mark]:
    """What the table of names says of the very name: that it stands for another, or is open.

    Parameters
    ----------
    match : Match
        What a name was understood to be.
    matcher : Matcher
        Knows the other foods of an open name.

    Returns
    -------
    list of Mark
        One note, or none.
    """
    if match.row is None or match.food is None or not match.row.why:
        return []
    if match.row.fit:
        message = f"“{match.row.name}” is counted as {match.food.name}: {match.row.why}."
        return [Mark("note", "stands-for", message)]
    others = [food.name for food in matcher.others(match)]
    offer = f" If it is {listed(others)}, write “(meaning …)” after it." if others else ""
    message = f"“{match.row.name}” is taken as {match.food.name}: {match.row.why}.{offer}"
    choices = (match.food.name, *others) if others else ()
    return [Mark("note", "unspecified", message, choices)]


def odd_number(text: str) -> tuple[Mark, ...]:
    """The doubt about an amount below zero or divided by nothing, which nobody weighs out.

    Parameters
    ----------
    text : str
        The line as written.

    Returns
    -------
    tuple of Mark
        "odd-number", or none.
    """
    if text[:1] not in _MINUS and "/0" not in text:
        return ()
    found = _BELOW_ZERO.match(text) or _BY_NOTHING.search(text)
    if found is None:
        return ()
    written = found.group().strip()
    read = written.lstrip(_MINUS).partition("/")[0]
    return (
        Mark(
            "doubt",
            "odd-number",
            f"“{written}” is no amount that can be weighed out: read as {read}. Write the number "
            "that is meant.",
        ),
    )


def several(foods: list[Food], *, shared: bool) -> Mark:
    """The note that a line stands for several foods.

    Parameters
    ----------
    foods : list of Food
        All of them.
    shared : bool
        Whether one amount was shared out, or each was weighed by itself.

    Returns
    -------
    Mark
        "several-foods".
    """
    names = list(dict.fromkeys(food.name for food in foods))
    if len(names) == 1:
        return Mark("note", "several-foods", f"The line adds more {names[0]}; both are counted.")
    named = listed(names, "and")
    how = "its amount is shared equally between them" if shared else "each is weighed by itself"
    return Mark("note", "several-foods", f"The line stands for {named}; {how}.")


def listed(texts: list[str], word: str = "or") -> str:
    """Texts as a list for people.

    Parameters
    ----------
    texts : list of str
        At least one.
    word : str
        What joins the last to the others.

    Returns
    -------
    str
        "a, b or c".
    """
    return texts[0] if len(texts) == 1 else f"{', '.join(texts[:-1])} {word} {texts[-1]}"
