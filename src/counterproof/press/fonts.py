"""The type a sheet is set in, cut down to the characters it uses and put into the page.

The faces come from two installed packages under the SIL Open Font License 1.1. A cut-down face
is a modified version and "Source" is a reserved name, so the cut faces carry our own family
names; copyright and licence stay in their name tables. Package files are part of the program,
as its modules are, and are read as such.
"""

from __future__ import annotations

import io
from base64 import b64encode
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Literal

from fontTools import subset  # type: ignore[import-untyped] # it ships no types
from fontTools.ttLib import TTFont  # type: ignore[import-untyped] # as above

SERIF, SANS = "Counterproof Serif", "Counterproof Sans"

COMMON = frozenset(
    chr(code) for block in (range(0x20, 0x7F), range(0xA0, 0x100)) for code in block
) | frozenset("–—‘’“”…·×−₂½⅓⅔¼¾⅛≈°→≤≥‑")
"""What nearly every page of a press folder needs: cut once for all of them, Latin-1 and signs."""

_HELD = 16  # cuts held in memory: the faces of three pages [1]
_FEATURES = ["kern", "liga", "mark", "ccmp", "locl", "lnum", "tnum"]
_NAMES = [0, 1, 2, 4, 6, 13, 14]  # copyright, family, style, full, PostScript, licence, address


@dataclass(frozen=True, slots=True)
class Face:
    """One face of a family and the package file it is cut from."""

    family: str
    package: str
    file: str
    weight: int
    style: Literal["normal", "italic"]


FACES = (
    Face(SERIF, "font_source_serif_pro", "SourceSerifPro-Regular.ttf", 400, "normal"),
    Face(SERIF, "font_source_serif_pro", "SourceSerifPro-It.ttf", 400, "italic"),
    Face(SERIF, "font_source_serif_pro", "SourceSerifPro-Semibold.ttf", 600, "normal"),
    Face(SANS, "font_source_sans_pro", "SourceSansPro-Regular.ttf", 400, "normal"),
    Face(SANS, "font_source_sans_pro", "SourceSansPro-Semibold.ttf", 600, "normal"),
)


def cut(face: Face, characters: str) -> bytes:
    """Return a face cut down to some characters, as WOFF.

    Parameters
    ----------
    face : Face
        Which face.
    characters : str
        What will be set in it; characters the face lacks are left to the reader's own fonts.

    Returns
    -------
    bytes
        The same bytes for the same characters, whatever their order.
    """
    return _cut(face, frozenset(ord(sign) for sign in characters))


@lru_cache(maxsize=_HELD)
def _cut(face: Face, signs: frozenset[int]) -> bytes:
    """A face cut down to some code points: a tenth of a second's work, so the last are held."""
    original = files(face.package).joinpath("files", face.file).read_bytes()
    options = subset.Options()
    options.hinting = False
    options.layout_features = _FEATURES
    options.notdef_outline = True
    options.drop_tables += ["name"]  # kept below; the cutter would search the whole face for names
    with TTFont(io.BytesIO(original), lazy=True, recalcTimestamp=False) as font:
        names = font["name"]
        cutter = subset.Subsetter(options)
        cutter.populate(unicodes=sorted(signs))
        cutter.subset(font)
        names.names = [record for record in names.names if record.nameID in _NAMES]
        font["name"] = names
        _rename(font, face)
        font.flavor = "woff"
        made = io.BytesIO()
        font.save(made)
    return made.getvalue()


def _rename(font: TTFont, face: Face) -> None:
    style = face.file.partition("-")[2].partition(".")[0]
    told = {
        1: face.family,
        2: style,
        4: f"{face.family} {style}",
        6: f"{face.family.replace(' ', '')}-{style}",
    }
    for record in font["name"].names:
        if record.nameID in told:
            record.string = told[record.nameID]


def font_faces(characters: str, *, at_least: frozenset[str] = frozenset()) -> str:
    """Return the style rules that hold every face of the sheet, cut to some characters.

    Parameters
    ----------
    characters : str
        What the page holds.
    at_least : frozenset of str
        What is cut in any case, so that several pages share one cut: `COMMON`.

    Returns
    -------
    str
        CSS.
    """
    signs = "".join(sorted(at_least.union(characters)))
    return "\n".join(_rule(face, signs) for face in FACES)


def _rule(face: Face, characters: str) -> str:
    data = b64encode(cut(face, characters)).decode("ascii")
    return (
        f'@font-face{{font-family:"{face.family}";font-weight:{face.weight};'
        f"font-style:{face.style};font-display:block;"
        f'src:url("data:font/woff;base64,{data}") format("woff")}}'
    )
