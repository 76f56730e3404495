"""Type as outlines: how wide a line of words is, and its signs as paths.

A still goes into programs that own none of our faces and honour no style sheet, so its type is
drawn. What is measured here is what is drawn, kerning included, so a label's box is known before
anything is set.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Any, Final, Literal

from fontTools.pens.boundsPen import BoundsPen  # type: ignore[import-untyped] # it ships no types
from fontTools.pens.svgPathPen import SVGPathPen  # type: ignore[import-untyped] # as above
from fontTools.ttLib import TTFont  # type: ignore[import-untyped] # as above

from counterproof.press.drawing import rounded, tag
from counterproof.press.lettering import FACES

Style = Literal["serif", "serif italic", "serif semibold", "sans", "sans italic", "sans semibold"]
_PLACES: Final[tuple[Style, ...]] = (
    "serif", "serif italic", "serif semibold", "sans", "sans italic", "sans semibold",
)  # fmt: skip
_PAIRS: Final = 2  # type of a GPOS lookup that adjusts pairs


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on a plate; y grows downwards. [px]"""

    left: float
    top: float
    right: float
    bottom: float

    def grown(self, across: float, up: float) -> Box:
        """Return it larger on all sides.

        Parameters
        ----------
        across, up : float
            By how much on either side, and above and below. [px]

        Returns
        -------
        Box
            Around the same middle.
        """
        return Box(self.left - across, self.top - up, self.right + across, self.bottom + up)

    def within(self, other: Box) -> bool:
        """Return whether it lies inside another, edges included.

        Parameters
        ----------
        other : Box
            The larger one.

        Returns
        -------
        bool
            True inside.
        """
        return (
            self.left >= other.left
            and self.top >= other.top
            and self.right <= other.right
            and self.bottom <= other.bottom
        )

    def meets(self, other: Box) -> bool:
        """Return whether two boxes have room in common.

        Parameters
        ----------
        other : Box
            Another.

        Returns
        -------
        bool
            False where they only touch.
        """
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


@dataclass(frozen=True, slots=True)
class _Sort:
    """One sign: how far it carries on, its outline, how low and high its ink reaches."""

    advance: float
    outline: str
    low: float
    high: float


@dataclass(frozen=True)
class _Face:
    font: Any
    signs: dict[int, str]
    glyphs: Any
    units: float
    pairs: tuple[Any, ...]
    sorts: dict[str, _Sort] = field(default_factory=dict)
    kerns: dict[tuple[str, str], float] = field(default_factory=dict)

    def names(self, words: str) -> list[str]:
        """Glyph names; a sign that the face lacks becomes its own sign for that."""
        return [self.signs.get(ord(sign), ".notdef") for sign in words]

    def sort(self, name: str) -> _Sort:
        found = self.sorts.get(name)
        if found is None:
            pen, bounds = SVGPathPen(self.glyphs), BoundsPen(self.glyphs)
            self.glyphs[name].draw(pen)
            self.glyphs[name].draw(bounds)
            low, high = (bounds.bounds[1], bounds.bounds[3]) if bounds.bounds else (0.0, 0.0)
            found = _Sort(self.font["hmtx"][name][0], pen.getCommands(), low, high)
            self.sorts[name] = found
        return found

    def kern(self, left: str, right: str) -> float:
        pair = (left, right)
        if pair not in self.kerns:
            found = (_kern_of(table, left, right) for table in self.pairs)
            self.kerns[pair] = next((value for value in found if value is not None), 0.0)
        return self.kerns[pair]


def _kern_of(table: Any, left: str, right: str) -> float | None:
    """What one table says to a pair; None where it does not know the left one or the pair."""
    if left not in table.Coverage.glyphs:
        return None
    if table.Format == 1:
        row = table.PairSet[table.Coverage.glyphs.index(left)].PairValueRecord
        values = [one.Value1 for one in row if one.SecondGlyph == right]
        if not values:
            return None
        value = values[0]
    else:
        first = table.ClassDef1.classDefs.get(left, 0)
        second = table.ClassDef2.classDefs.get(right, 0)
        value = table.Class1Record[first].Class2Record[second].Value1
    return float(getattr(value, "XAdvance", 0) or 0) if value is not None else 0.0


@cache
def _face(style: Style) -> _Face:
    """A face, read once: the files are part of the program and never change."""
    package, file = FACES[_PLACES.index(style)]
    content = files(package).joinpath("files", file).read_bytes()
    font = TTFont(io.BytesIO(content), lazy=True)
    rules = font["GPOS"].table
    kerning = {
        at
        for one in rules.FeatureList.FeatureRecord
        if one.FeatureTag == "kern"
        for at in one.Feature.LookupListIndex
    }
    lookups = [rules.LookupList.Lookup[at] for at in sorted(kerning)]
    pairs = tuple(sub for one in lookups if one.LookupType == _PAIRS for sub in one.SubTable)
    units = float(font["head"].unitsPerEm)
    return _Face(font, font.getBestCmap(), font.getGlyphSet(), units, pairs)


def _set(words: str, face: _Face) -> tuple[list[tuple[_Sort, float]], float]:
    """Every sign with its place, and the length of them all. [units of the face]"""
    placed: list[tuple[_Sort, float]] = []
    at, before = 0.0, ""
    for name in face.names(words):
        at += face.kern(before, name) if before else 0.0
        sort = face.sort(name)
        placed.append((sort, at))
        at, before = at + sort.advance, name
    return placed, at


def width(words: str, style: Style, size: float) -> float:
    """Return how long a line of words is.

    Parameters
    ----------
    words : str
        Signs that our faces have.
    style : Style
        The face.
    size : float
        Of the type, > 0. [px]

    Returns
    -------
    float
        Length, kerning included. [px]
    """
    face = _face(style)
    return _set(words, face)[1] * size / face.units


def outlined(
    words: str, style: Style, size: float, at: tuple[float, float], colour: str
) -> tuple[str, Box]:
    """Return a line of words as paths, and the box that its ink fills.

    Parameters
    ----------
    words : str
        Signs that our faces have.
    style : Style
        The face.
    size : float
        Of the type, > 0. [px]
    at : tuple of float
        Left end of its base line. [px]
    colour : str
        As SVG understands it.

    Returns
    -------
    tuple of str and Box
        SVG that needs no font, and its box.
    """
    face = _face(style)
    placed, length = _set(words, face)
    scale = size / face.units
    drawn = "".join(
        tag("path", d=sort.outline, transform=f"translate({rounded(place)})" if place else None)
        for sort, place in placed
        if sort.outline
    )
    x, y = at
    moved = f"translate({rounded(x)} {rounded(y)}) scale({scale:.5g} {-scale:.5g})"
    low = min((sort.low for sort, _ in placed if sort.outline), default=0.0)
    high = max((sort.high for sort, _ in placed if sort.outline), default=0.0)
    box = Box(x, y - high * scale, x + length * scale, y - low * scale)
    return tag("g", drawn, transform=moved, fill=colour, aria_label=words), box


def wrapped(words: str, style: Style, size: float, room: float) -> list[str]:
    """Return words broken into lines that fit.

    Parameters
    ----------
    words : str
        Signs that our faces have.
    style : Style
        The face.
    size : float
        Of the type, > 0. [px]
    room : float
        Length that a line may have. [px]

    Returns
    -------
    list of str
        At least one line; a word that is too long for any is cut where it must be.
    """
    lines: list[str] = []
    line = ""
    for word in words.split(" "):
        longer = f"{line} {word}" if line else word
        if width(longer, style, size) <= room:
            line = longer
            continue
        if line:
            lines.append(line)
        while width(word, style, size) > room:
            keep = _fitting(word, style, size, room)
            lines.append(word[:keep])
            word = word[keep:]  # noqa: PLW2901 # what is left of the word is the next line's
        line = word
    return [*lines, line] if line or not lines else lines


def _fitting(word: str, style: Style, size: float, room: float) -> int:
    keep = 1
    while keep < len(word) and width(word[: keep + 1], style, size) <= room:
        keep += 1
    return keep


def fitted(
    words: str, style: Style, sizes: tuple[float, ...], room: float, most: int
) -> tuple[float, list[str]]:
    """Return words in the largest type that fits a number of lines.

    Parameters
    ----------
    words : str
        Signs that our faces have.
    style : Style
        The face.
    sizes : tuple of float
        To be tried, the largest first. [px]
    room : float
        Length that a line may have. [px]
    most : int
        Lines that there is room for, ≥ 1.

    Returns
    -------
    tuple of float and list of str
        Size and lines; in the smallest size, what does not fit ends in "…".
    """
    for size in sizes:
        lines = wrapped(words, style, size, room)
        if len(lines) <= most:
            return size, lines
    kept, last = lines[: most - 1], lines[most - 1]
    while last and width(f"{last}…", style, sizes[-1]) > room:
        last = last[:-1].rstrip()
    return sizes[-1], [*kept, f"{last}…"]
