"""What a part of the press folder is made of: files by name, finished or still to be set.

A part is a module of `press` with one function, `pieces(forme, words)`. It returns the files it
publishes. What Typst has to set, a PDF or a drawing turned into pixels, is returned as a
`Setting`: all that the setting needs, as text and bytes. The adapters set it and write it, so
that nothing here touches a file.

What a cook wrote reaches Typst as data only: as an asset that the source reads with `json()` or
`image()`, never as part of the source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from counterproof.forme import Forme
from counterproof.press.fixed_words import Words

SERIF_FACE, SANS_FACE = "Source Serif Pro", "Source Sans Pro"
"""The faces a Setting may name: each in regular, italic and semibold (weight 600)."""

PIXELS_PER_INCH = 144.0
"""Typst's own measure of a picture: two pixels a point."""


@dataclass(frozen=True, slots=True)
class Setting:
    """A job for the typesetter: one source, what it reads, and what is to come out.

    Parameters
    ----------
    source : str
        Typst; ours, the same for every recipe.
    assets : mapping of str to bytes
        What the source reads, by the name it reads it under. `house.typ` is always there.
    format : str
        What comes out.
    pixels_per_inch : float
        Of a PNG. [1/in]
    standards : tuple of str
        PDF standards that the typesetter holds the document to, or refuses it.
    """

    source: str
    assets: Mapping[str, bytes] = field(default_factory=dict)
    format: Literal["pdf", "png", "svg"] = "pdf"
    pixels_per_inch: float = PIXELS_PER_INCH
    standards: tuple[str, ...] = ()


ACCESSIBLE = ("a-2a", "ua-1")
"""PDF/A-2a and PDF/UA-1: embedded faces, tags in reading order, a text for every picture."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One file of the press folder.

    Parameters
    ----------
    name : str
        Where it lies in the folder, with / between folders: "stills/total-wide.png".
    content : bytes or Setting
        What is in it, or how it is to be set.
    """

    name: str
    content: bytes | Setting


Part = Callable[[Forme, Words], Iterable[Piece]]
"""A part of the press folder: the files it makes of a forme, its fixed words in one language."""


def picture(drawn: str, *, width: int, height: int) -> Setting:
    """Return the setting that turns a drawing into pixels.

    Parameters
    ----------
    drawn : str
        SVG with a view box of `width` by `height`, its type in `SANS_FACE` or `SERIF_FACE`.
    width, height : int
        Size of the picture. [px]

    Returns
    -------
    Setting
        A PNG of just this size; what the drawing leaves empty stays transparent.
    """
    source = (
        f"#set page(width: {width}pt, height: {height}pt, margin: 0pt, fill: none)\n"
        '#image("drawing.svg", width: 100%, height: 100%)\n'
    )
    return Setting(source, {"drawing.svg": drawn.encode()}, "png", pixels_per_inch=72.0)
