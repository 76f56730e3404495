"""Which food or foods a split line names: states, alternatives, juice and zest, two in one line."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from counterproof.marks import Mark
from counterproof.reading.foods import THRESHOLD, Match, Matcher
from counterproof.reading.modifiers import FORMS, HARMLESS
from counterproof.reading.settling import is_heading
from counterproof.reading.spellings import SPELLINGS
from counterproof.reading.suited import spooned, suited
from counterproof.reading.told_apart import told_apart

if TYPE_CHECKING:
    from counterproof.reading.model import Split
    from counterproof.rows import Food

_JOINT = re.compile(r"\band\b|&|\bplus\b")
_AND = re.compile(r"\s+and\s+|\s*&\s*|\s+plus\s+", re.IGNORECASE)
# "cooked according to the packet" says what will be done, not what is measured.
_STILL_TO_DO = frozenset(
    {
        "according", "until", "in", "as", "for", "to", "per", "following", "al", "with", "at",
        "over", "on", "separately", "then", "ahead",
    }
)  # fmt: skip
_STATES = frozenset({"dried", "canned", "frozen", "smoked", "ground", "cooked"})
_SAYING_STATES = frozenset(word for word, state in FORMS.items() if state in _STATES)
_BEGINNINGS = {word[:4] for word in _SAYING_STATES} | {
    word[:4] for word, spelt in SPELLINGS.items() if not _SAYING_STATES.isdisjoint(spelt.split())
}
_MAY_SAY_A_STATE = re.compile(rf"\b(?:{'|'.join(sorted(_BEGINNINGS))})", re.ASCII)
_PARTS = ("juice", "zest", "peel", "rind", "yolk", "white")
_SKINS = frozenset({"zest", "peel", "rind"})
_STAND_IN = 0.7  # another citrus fruit's zest in place of one the table lacks
_SEASONINGS = frozenset({"salt", "spices", "dried herbs"})
_MOST_TOGETHER, _MOST_EACH = 4, 10  # foods in one line; "1 tsp each" makes a longer list plain
# Nouns that "and" may share between what stands before them.
_SHARED = frozenset(
    {"juice", "zest", "powder", "paste", "mince", "extract", "essence", "stock", "seed", "leave"}
)
_PEPPER = frozenset({"pepper", "peppers"})
_SURE = 0.8  # both halves of "salt and pepper" must be this sure before a line is two foods


class Meant(NamedTuple):
    """What a line's name was understood to be.

    `fruit` is the whole fruit whose juice or zest is meant; `also` are further foods of the same
    line ("salt and pepper"); `alternatives` those the cook would take instead.
    """

    match: Match
    called: str
    fruit: Food | None = None
    also: tuple[Match, ...] = ()
    alternatives: tuple[Food, ...] = ()
    unread: tuple[str, ...] = ()  # alternatives that are no known food
    marks: tuple[Mark, ...] = ()


def meant(split: Split, matcher: Matcher, region: str = "") -> Meant:
    """Which foods a line names.

    Parameters
    ----------
    split : Split
        The line's parts; its `meaning` has been written over its name already.
    matcher : Matcher
        The food table's names.
    region : str
        "uk", "us", "au" or "": decides names that differ.

    Returns
    -------
    Meant
        The food, and whatever else the line names.
    """
    name = split.name.strip()
    if not name or is_heading(split):
        name = ""
        return Meant(Match(None, 0.0, None, ()), name)
    hints = _states(split, matcher)
    slashed = [piece.strip() for piece in name.split("/") if piece.strip()] if "/" in name else []
    if len(slashed) > 1 and not matcher.knows(name):
        name, *rest = slashed
        split = replace(split, name=name, alternatives=(*rest, *split.alternatives))
    name = _counted(split, name, matcher)
    drawn = _drawn_from(split, name, matcher, region)
    if drawn is not None:
        return drawn
    several = _several(name, split, matcher, hints, region)
    if several is not None:
        return several
    match = told_apart(_completed(name, split, matcher, hints, region), split, matcher, region)
    match = suited(match, name, split, matcher, region)
    alternatives, unread = _alternatives(split, matcher, region, match)
    marks = _raw_or_cooked(split, match, matcher, hints, region)
    if match.food is not None and (alternatives or unread):
        others = ", ".join(f"“{other}”" for other in split.alternatives)
        marks += (
            Mark(
                "note",
                "alternative",
                f"The first choice, {match.food.name}, is taken; {others} would count differently.",
                tuple(food.name for food in alternatives),
            ),
        )
    elif match.food is None and alternatives:
        other = matcher.match(split.alternatives[0], region=region)
        if other.food is not None:
            marks = (
                Mark(
                    "doubt",
                    "alternative",
                    f"“{name}” is not known here; its alternative {other.food.name} is taken.",
                    (other.food.name,),
                ),
            )
            match = other
    return Meant(match, name, alternatives=alternatives, unread=unread, marks=marks)


def _states(split: Split, matcher: Matcher) -> frozenset[str]:
    """States of the food said outside its name: by the container or the preparation."""
    if split.meaning:  # the cook has said what it is, form and all
        return frozenset()
    found: set[str] = set()
    if split.container == "tin" or "tin" in [quantity.measure for quantity in split.quantities]:
        found.add("canned")
    said = split.preparation.lower()
    if not said or (said.isascii() and _MAY_SAY_A_STATE.search(said) is None):
        return frozenset(found)
    for clause in said.split(","):
        own = matcher.words(clause)
        for place, word in enumerate(own[:4]):
            state = FORMS.get(word)
            if state not in _STATES:
                continue
            following = own[place + 1] if place + 1 < len(own) else ""
            if state == "cooked" and (word != "cooked" or following in _STILL_TO_DO):
                continue
            if state == "ground" and following == "in":
                continue
            found.add(state)
    return frozenset(found)


def _counted(split: Split, name: str, matcher: Matcher) -> str:
    """The name that counting makes plain: "1 chicken" is a whole one, "½ pepper" no spice."""
    by_piece = bool(split.quantities) and split.quantities[0].measure == "piece"
    if split.container or not (by_piece or "whole" in split.preparation.lower().split()):
        return name
    said = matcher.words(name)
    if by_piece and "pepper" in said and {*said} - HARMLESS == {"pepper"}:
        return "bell pepper"
    return f"whole {name}" if matcher.knows(name, "whole") else name


def _raw_or_cooked(
    split: Split, match: Match, matcher: Matcher, hints: frozenset[str], region: str
) -> tuple[Mark, ...]:
    """The doubt about "200 g rice, cooked": weighed before or after?"""
    if match.food is None or "cooked" not in hints:
        return ()
    if "cooked" in matcher.words(f"{split.measured_as} {split.name}"):
        return ()
    raw = matcher.match(split.name, region=region).food
    if raw is None or raw == match.food:
        return ()
    message = (
        f"“{split.name}, cooked” is read as the weight after cooking ({match.food.name}). If it "
        f"is weighed before, write “(meaning {raw.name})” after it."
    )
    return (Mark("doubt", "raw-or-cooked", message, (match.food.name, raw.name)),)


def _drawn_from(split: Split, name: str, matcher: Matcher, region: str) -> Meant | None:
    """Read "juice of ½ lime": the juice is the food, the lime is what is counted."""
    asked = [part for part in _PARTS if f"{part} of" in split.flags] if split.flags else []
    if not asked:
        return None
    whole = matcher.match(name, region=region)
    found: list[Match] = []
    for part in asked:
        match = matcher.match(f"{name} {part}", region=region)
        if match.food is None and part in _SKINS:
            match = matcher.match(f"{name} zest", region=region)
            if match.food is None and whole.food is not None and whole.food.food_class == "fruit":
                match = matcher.match("orange zest")._replace(certainty=_STAND_IN)
        if match.food is not None and match.food != whole.food and match.certainty >= _STAND_IN:
            found.append(match)
    if not found:
        return None
    return Meant(found[0], name, fruit=whole.food, also=tuple(found[1:]))


def _listed_seasonings(split: Split, pieces: list[str], matcher: Matcher) -> list[str]:
    """Seasonings after a comma ("Salt, plenty of black pepper"), which are no preparation."""
    if split.quantities or (not split.preparation and not split.comment):
        return []
    first = matcher.match(pieces[0]).food if pieces else None
    if first is None or first.food_class not in _SEASONINGS:
        return []
    clauses = _AND.sub(",", f"{split.preparation},{split.comment}").split(",")
    found = [(clause.strip(), matcher.match(clause).food) for clause in clauses if clause.strip()]
    return [
        clause
        for clause, food in found
        if food is not None and food.food_class in _SEASONINGS and food != first
    ]


def _pieces(name: str, split: Split, matcher: Matcher) -> list[str]:
    """The names that a name with "and" in it, or seasonings after a comma, may be; none if it is one."""
    each = "each of several" in split.flags
    if split.quantities and not each and not _is_joint(name):
        return []
    pieces = [piece for piece in _AND.split(name) if piece.strip()]
    if len(pieces) > 1 or each:
        pieces = [part for piece in pieces for part in piece.split(",") if part.strip()]
    if len(pieces) > 1 and matcher.goes_by(name):
        pieces = [name]
    pieces += _listed_seasonings(split, pieces, matcher)
    return pieces if 2 <= len(pieces) <= (_MOST_EACH if each else _MOST_TOGETHER) else []


def _is_joint(name: str) -> bool:
    said = name.lower()
    return ("and" in said or "&" in said or "plus" in said) and _JOINT.search(said) is not None


def _with_shared_noun(piece: str, last: list[str], matcher: Matcher) -> str:
    """A member of a list with the noun it shares: "lemon" of "lemon and lime juice"."""
    if len(last) < 2 or " " in piece.strip() or last[-1].lower().rstrip("s") not in _SHARED:
        return piece
    borrowed = f"{piece} {last[-1]}"
    return borrowed if matcher.knows(borrowed) else piece


def _several(
    name: str, split: Split, matcher: Matcher, hints: frozenset[str], region: str
) -> Meant | None:
    """Read "salt and pepper": two foods in one line, where the table has no such name as a whole."""
    pieces = _pieces(name, split, matcher)
    if not pieces:
        return None
    last = pieces[-1].split()
    found: list[Match] = []
    called: list[str] = []
    for written in pieces:
        piece = _with_shared_noun(written, last, matcher)
        if found and piece.strip().lower() in _PEPPER and _class(found[-1].food) == "vegetables":
            piece = "bell pepper"  # "tomatoes and pepper"
        match = matcher.match(piece, hints=hints, region=region)
        if match.certainty < _SURE and len(last) > 1:
            match = matcher.match(f"{piece} {last[-1]}", region=region)
        if match.food is None or match.certainty < _SURE:
            return None
        if match.food not in [other.food for other in found]:
            found.append(match)
            called.append(piece)
    if len(found) < 2:
        return Meant(found[0], name)
    if any(match.food is not None and match.food.food_class == "spices" for match in found):
        # Among spices by the teaspoon, coriander is the spice and not the herb.
        powders = [spooned(*pair, split, matcher) for pair in zip(found, called, strict=True)]
        found = [
            match if powder is match else powder._replace(certainty=_SURE)
            for match, powder in zip(found, powders, strict=True)
        ]
    return Meant(found[0], name, also=tuple(found[1:]))


def _completed(
    name: str, split: Split, matcher: Matcher, hints: frozenset[str], region: str
) -> Match:
    """The name's match, completed by the head it shares with its alternatives."""
    match = matcher.match(name, hints=hints, region=region)
    lender = split.alternatives[-1].split() if split.alternatives else []
    if lender and matcher.words(lender[-1])[-1:] != matcher.words(name)[-1:]:
        # "raspberry or strawberry jam" is two jams, but "cream or dry sherry" is no cream sherry:
        # what stands before the shared head must be of a kind.
        other = matcher.match(" ".join(lender[:-1]), region=region).food
        akin = None not in (match.food, other) and _class(match.food) == _class(other)
        borrowed = f"{name} {lender[-1]}"
        if match.certainty < THRESHOLD or (akin and matcher.knows(borrowed)):
            for place in range(max(0, len(lender) - 2), len(lender)):
                borrowed = f"{name} {' '.join(lender[place:])}"
                lent = matcher.match(borrowed, hints=hints, region=region)
                if lent.certainty > max(THRESHOLD, match.certainty - 0.1):
                    return lent
    if match.food is None and split.preparation:
        # The grammar may have taken a word of the name for a preparation ("Ground, beef").
        lead = split.preparation.split(",")[0].split()
        if lead and len(lead) <= 2 and matcher.knows(f"{' '.join(lead)} {name}"):
            return matcher.match(f"{' '.join(lead)} {name}", hints=hints, region=region)
    return match


def _class(food: Food | None) -> str | None:
    return None if food is None else food.food_class


def _alternatives(
    split: Split, matcher: Matcher, region: str, taken: Match
) -> tuple[tuple[Food, ...], tuple[str, ...]]:
    found: list[Food] = []
    unread: list[str] = []
    for other in split.alternatives:
        match = matcher.match(other, region=region)
        if match.food is None:
            if set(matcher.words(other)) - HARMLESS:
                unread.append(other)
        elif match.food != taken.food and match.food not in found:
            found.append(match.food)
    return tuple(found), tuple(unread)
