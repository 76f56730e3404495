"""What a still is about, whatever its cut: words, numbers, and how it is drawn on a plate."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Final

from counterproof import numerals
from counterproof.draws import Range
from counterproof.forme import Forme
from counterproof.press.figures import shown_in
from counterproof.press.fixed_words import Words
from counterproof.press.lettering import in_our_letters, type_case
from counterproof.press.outlines import Box
from counterproof.press.stills.plate import Plate
from counterproof.press.wording import serving_size, title
from counterproof.proof import Edition

BLUE_AT: Final = 0.5
"""Height of a short number's base line above that of its figure, in type sizes. [1]"""


@dataclass(frozen=True)
class Subject:
    """What one still tells.

    Parameters
    ----------
    kind : str
        Name of the still.
    statement : str
        What it says, in a line.
    alt : str
        What a person who cannot see it has to know.
    spoken : str
        One sentence to say while it is shown.
    keys : tuple of str
        Of the derivations of its figures.
    draw : callable
        Puts its field on a plate, inside a box.
    table : bytes
        Further numbers as CSV; empty where the figures are all.
    """

    kind: str
    statement: str
    alt: str
    spoken: str
    keys: tuple[str, ...]
    draw: Callable[[Plate, Box], None]
    table: bytes = b""


@dataclass(frozen=True, slots=True)
class Copy:
    """An episode with its fixed words: what every still takes its words from."""

    forme: Forme
    words: Words

    @property
    def edition(self) -> Edition:
        """The proof."""
        return self.forme.edition

    def letters(self, text: str) -> str:
        """Return a cook's words in our letters.

        Parameters
        ----------
        text : str
            As written.

        Returns
        -------
        str
            On one line, with a lozenge for what no face has.
        """
        return in_our_letters(text, _case())

    def title(self) -> str:
        """Return the name of the dish."""
        return self.letters(title(self.edition))

    def serving(self) -> str:
        """Return what one serving is, in words."""
        size = serving_size(self.edition)
        if not size:
            return self.words("card.serving")
        return self.words("card.serving of", size=self.words.told(size))

    def value(self, value: Range) -> numerals.Shown:
        """Return a footprint as it is printed.

        Parameters
        ----------
        value : Range
            Mean and percentiles. [kg CO2e]

        Returns
        -------
        Shown
            In this language's figures.
        """
        return shown_in(self.words, value, self.edition.middle)

    def amount(self, value: Range) -> str:
        """Return a footprint's middle with its unit.

        Parameters
        ----------
        value : Range
            Mean and percentiles. [kg CO2e]

        Returns
        -------
        str
            Such as "0.64 kg CO₂e".
        """
        told = self.value(value)
        return f"{told.middle}{numerals.SPACE}{told.unit}"

    def version(self, name: str) -> str:
        """Return what a version is called.

        Parameters
        ----------
        name : str
            As the cook calls it; "" or "as written" for the recipe, "bought" for what is bought.

        Returns
        -------
        str
            In our letters.
        """
        if name in {"", "as written"}:
            return self.words("stills.as written")
        return self.words("stills.bought") if name == "bought" else self.letters(name)

    def number(self, key: str) -> str:
        """Return the short number of a figure.

        Parameters
        ----------
        key : str
            Of its derivation.

        Returns
        -------
        str
            Digits; empty where the proof has no such number.
        """
        number = self.edition.number_of(key)
        return "" if number is None else str(number)


@cache
def _case() -> frozenset[int]:
    """The signs that our faces have, read once: the files are part of the program."""
    return type_case()


def numbered(
    plate: Plate, words: str, number: str, x: float, y: float, *, size: float, anchor: str = "end"
) -> Box:
    """Put a figure on a plate with its short number raised behind it, in blue.

    Parameters
    ----------
    plate : Plate
        The plate.
    words : str
        The figure.
    number : str
        Its short number; "" for none.
    x, y : float
        Where figure and number end, or begin, on the base line. [px]
    size : float
        Of the type. [px]
    anchor : {"start", "end"}
        Which end of both stands at x.

    Returns
    -------
    Box
        What the figure fills. [px]
    """
    small = plate.cut.small
    room = NUMBER_ROOM * small if number else 0.0
    right = x - room if anchor == "end" else x
    box = plate.write(
        words,
        right,
        y,
        size=size,
        style="sans semibold",
        anchor="end" if anchor == "end" else "start",
    )
    if number:
        plate.write(
            number,
            box.right + 0.18 * small,
            y - BLUE_AT * size * 0.7,
            size=small,
            colour=plate.inks.blue,
        )
    return box


NUMBER_ROOM: Final = 1.5
"""Room for a short number behind its figure, of up to two digits, in sizes of its type. [1]"""


def plated(copy: Copy, subject: Subject, plate: Plate) -> None:
    """Put a still on a plate: dish, statement, field and foot.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.
    subject : Subject
        What the still tells.
    plate : Plate
        The plate; it is filled.
    """
    cut, inks = plate.cut, plate.inks
    left, right = margins(cut.upright, cut.width)
    top = cut.safe.top + (0.9 if cut.upright else 1.3) * cut.title
    room = right - left
    y = plate.paragraph(
        copy.title(), left, top, room=room, sizes=(cut.title, 0.9 * cut.title, 40.0),
        most=2 if cut.upright else 1, style="serif italic", colour=inks.grey,
    )  # fmt: skip
    y = plate.paragraph(
        subject.statement, left, y + 1.2 * cut.statement, room=room,
        sizes=(cut.statement, 0.85 * cut.statement, 0.7 * cut.statement),
        most=4 if cut.upright else 2, style="serif",
    )  # fmt: skip
    foot = cut.safe.bottom - 0.5 * cut.small
    numbers = [number for key in subject.keys if (number := copy.number(key))]
    if numbers:
        words = copy.words("stills.foot")
        lines = 2 if cut.upright else 1
        size, _ = cut.small, None
        foot -= (lines - 1) * 1.22 * size
        plate.paragraph(words, left, foot, room=room, sizes=(size,), most=lines, colour=inks.blue)
    field = Box(left, y + 0.75 * cut.statement, right, foot - 2.0 * cut.small)
    subject.draw(plate, field)


def margins(upright: bool, width: float) -> tuple[float, float]:
    """Return where the column of a still begins and ends.

    Parameters
    ----------
    upright : bool
        Whether the still is taller than wide.
    width : float
        Of the picture. [px]

    Returns
    -------
    tuple of float
        Left and right. [px]
    """
    edge = 84.0 if upright else 132.0
    return edge, width - edge
