"""The plate a still is drawn on: its cut, its safe area, its type, and where every word stands.

A plate gathers drawings and words. It knows the box of every word it holds, so that a test can
hold all of them against the safe area and against each other.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from html import escape
from typing import Final, Literal

from counterproof.press import outlines
from counterproof.press.drawing import Inks, rounded, stroke, tag
from counterproof.press.outlines import Box, Style
from counterproof.press.part import SANS_FACE
from counterproof.press.signs import registration_cross

INKS: Final = Inks("#14171b", "#4d555e", "#cdd3da", "#2457b5", "#fcfdfe", SANS_FACE)
"""The sheet's inks, the grey a little darker: footage is seen from further off than paper."""

GRAPHICS_SAFE: Final = 0.05
"""Share of width and height kept clear at every edge. EBU R 95 (Safe areas for 16:9 television
production) keeps 5 % for graphics; value from memory."""

_CLEAR_ABOVE, _CLEAR_BELOW = 0.08, 0.14
"""What an upright film keeps clear, where players lay names and buttons over it; assumed, from
common practice with no source."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A size of picture and how type is laid on it; all lengths in px.

    Parameters
    ----------
    name : {"wide", "tall"}
        As in the name of the file.
    width, height : int
        Of the picture.
    safe : Box
        Where words may stand.
    title, statement, text, small : float
        Sizes of type: the dish, what the still says, its words, its small print.
    """

    name: Literal["wide", "tall"]
    width: int
    height: int
    safe: Box
    title: float
    statement: float
    text: float
    small: float

    @property
    def upright(self) -> bool:
        """Whether it is taller than wide."""
        return self.height > self.width


LEAST_TYPE: Final = 38.0
"""Smallest type on a still. [px] A phone upright shows 1080 px as some 360 points, where this is
12 to 13 points; common practice for small print on screens is 12, no source."""

WIDE: Final = Cut(
    "wide", 1920, 1080,
    Box(GRAPHICS_SAFE * 1920, GRAPHICS_SAFE * 1080, 0.95 * 1920, 0.95 * 1080),
    title=50, statement=84, text=48, small=38,
)  # fmt: skip
TALL: Final = Cut(
    "tall", 1080, 1920,
    Box(GRAPHICS_SAFE * 1080, _CLEAR_ABOVE * 1920, 0.95 * 1080, (1 - _CLEAR_BELOW) * 1920),
    title=48, statement=82, text=46, small=38,
)  # fmt: skip
CUTS: Final = (WIDE, TALL)


LEAD: Final = 1.22
_LEAD_SERIF: Final = 1.12
"""From base line to base line, in type sizes: of words, and of what is set larger. [1]"""


@dataclass(frozen=True, slots=True)
class Written:
    """Words on a plate, and the box that their ink fills."""

    words: str
    box: Box
    size: float
    colour: str


@dataclass
class Plate:
    """What is on a still so far."""

    cut: Cut
    inks: Inks = INKS
    written: list[Written] = field(default_factory=list)
    drawn: list[str] = field(default_factory=list)
    slips: list[Box] = field(default_factory=list)

    def write(
        self,
        words: str,
        x: float,
        y: float,
        *,
        size: float,
        style: Style = "sans",
        colour: str = "",
        anchor: Literal["start", "middle", "end"] = "start",
    ) -> Box:
        """Put words on the plate.

        Parameters
        ----------
        words : str
            On one line, in our letters.
        x, y : float
            Where the anchor stands on the base line. [px]
        size : float
            Of the type, > 0. [px]
        style : Style
            The face.
        colour : str
            Ink; the plate's own black if left out.
        anchor : str
            Which part of the words stands at x.

        Returns
        -------
        Box
            What the ink fills. [px]
        """
        long = outlines.width(words, style, size)
        left = x - {"start": 0.0, "middle": long / 2, "end": long}[anchor]
        ink = colour or self.inks.ink
        made, box = outlines.outlined(words, style, size, (left, y), ink)
        self.drawn.append(made)
        self.written.append(Written(words, box, size, ink))
        self.slips.append(box.grown(min(0.4 * size, 28.0), min(0.35 * size, 24.0)))
        return box

    def paragraph(
        self,
        words: str,
        x: float,
        y: float,
        *,
        room: float,
        sizes: tuple[float, ...],
        most: int,
        style: Style = "sans",
        colour: str = "",
    ) -> float:
        """Put words on the plate in as many lines as they need.

        Parameters
        ----------
        words : str
            In our letters.
        x, y : float
            Left end of the first base line. [px]
        room : float
            Length that a line may have. [px]
        sizes : tuple of float
            Of the type, the largest first; the first that fits is taken. [px]
        most : int
            Lines at most; in the smallest size the rest ends in "…".
        style : Style
            The face.
        colour : str
            Ink; the plate's own black if left out.

        Returns
        -------
        float
            The last base line. [px]
        """
        size, lines = outlines.fitted(words, style, sizes, room, most)
        lead = _LEAD_SERIF if style.startswith("serif") else LEAD
        for at, line in enumerate(lines):
            self.write(line, x, y + at * lead * size, size=size, style=style, colour=colour)
        return y + (len(lines) - 1) * lead * size

    def draw(self, svg: str, around: Box | None = None) -> None:
        """Put a drawing on the plate.

        Parameters
        ----------
        svg : str
            SVG elements in the plate's own pixels.
        around : Box or None
            What it fills, where paper has to lie under it on an overlay. [px]
        """
        self.drawn.append(svg)
        if around is not None:
            self.slips.append(around)

    def line(
        self, path: str, colour: str = "", weight: float = 3.0, *, paper: Box | None = None
    ) -> None:
        """Put a pencil line on the plate.

        Parameters
        ----------
        path : str
            SVG path data. [px]
        colour : str
            Ink; the plate's own black if left out.
        weight : float
            Thickness. [px]
        paper : Box or None
            What paper has to lie under it on an overlay. [px]
        """
        self.draw(stroke(path, colour or self.inks.ink, weight), paper)

    def pulled(self, title: str, description: str, *, overlay: bool = False) -> str:
        """Return the still as one drawing that needs nothing else.

        Parameters
        ----------
        title, description : str
            What it shows, in words.
        overlay : bool
            On slips of paper with nothing between them, to lie over footage.

        Returns
        -------
        str
            SVG of the cut's size.
        """
        ground = self._slips() if overlay else self._sheet()
        words = tag("title", escape(title)) + tag("desc", escape(description))
        return tag(
            "svg",
            words + ground + "".join(self.drawn),
            xmlns="http://www.w3.org/2000/svg",
            role="img",
            width=self.cut.width,
            height=self.cut.height,
            viewBox=f"0 0 {self.cut.width} {self.cut.height}",
        )

    def _sheet(self) -> str:
        """White paper to the edges, with a registration cross at each corner."""
        wide, high, inset, side = self.cut.width, self.cut.height, 14.0, 46.0
        paper = tag("rect", width=wide, height=high, fill=self.inks.paper)
        cross = registration_cross(self.inks)
        corners = [
            (x, y) for x in (inset, wide - inset - side) for y in (inset, high - inset - side)
        ]
        return paper + "".join(
            tag("g", cross, transform=f"translate({rounded(x)} {rounded(y)}) scale(2)")
            for x, y in corners
        )

    def _slips(self) -> str:
        """Paper under every word and drawing and nowhere else, as slips pasted on a proof."""
        made = "".join(
            tag(
                "rect", x=box.left, y=box.top, width=box.right - box.left,
                height=box.bottom - box.top, fill=self.inks.paper,
            )
            for box in self.slips
        )  # fmt: skip
        return tag("g", made, opacity=SLIP)


SLIP: Final = 0.96
"""How much of the footage a slip covers. [1] A house choice: type on it keeps its contrast."""
