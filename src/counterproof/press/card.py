"""The recipe card on paper, in large type, as a page and as plain text."""

from __future__ import annotations

import json
import textwrap
from dataclasses import asdict, dataclass, replace
from typing import Any, Final, Literal

from counterproof.forme import Forme
from counterproof.press import drawing, hatching, intervals, signs
from counterproof.press.card_copy import CardCopy, card_copy
from counterproof.press.card_page import card_page, card_text
from counterproof.press.drawing import SHEET, Inks
from counterproof.press.fixed_words import Words
from counterproof.press.lettering import lacking, set_in_our_letters, texts_in, type_case
from counterproof.press.part import ACCESSIBLE, SANS_FACE, Piece, Setting
from counterproof.press.shipped import shipped

PRINTED: Final = Inks(SHEET.ink, SHEET.grey, SHEET.hair, SHEET.blue, "none", SANS_FACE)
"""Inks of a drawing that Typst prints: the sheet's colours, the face under its own name."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A cut of paper and how a card is laid on it; lengths in mm, type sizes in points.

    `sizes` are tried from the largest down; on one page none below `least_on_one` is taken.
    `drawn` is how wide a drawing is before it is fitted to its column. [px]
    """

    width: float
    height: float
    margin_x: float
    margin_y: float
    sizes: tuple[float, ...]
    least_on_one: float
    laid: Literal["under", "beside", "front and back"] = "under"
    drawn: float = 440.0


_INCH: Final = 25.4
SHEETS: Final = {
    # ISO 216; US letter and index card in inches by their names
    "a5": Sheet(148, 210, 13, 13, (10, 9.5, 9, 8.5, 8), 8.5),
    "a4": Sheet(210, 297, 18, 18, (11, 10.5, 10, 9.5, 9), 9, "beside", 300.0),
    "letter": Sheet(8.5 * _INCH, 11 * _INCH, 18, 17, (11, 10.5, 10, 9.5, 9), 9, "beside", 300.0),
    "index": Sheet(6 * _INCH, 4 * _INCH, 10, 9, (8.5, 8, 7.5), 8, "front and back", 260.0),
}
LARGE_TYPE: Final = 18.0
"""Type of the large edition. [pt] Common practice for large print is 16 to 18 pt, no source."""

_FOOT: Final = 60  # characters of a title that the foot of a page has room for
_AXIS: Final = 22.0
_INTERVAL: Final = 18.0


def pieces(forme: Forme, words: Words) -> tuple[Piece, ...]:
    """Return the recipe card in all its forms.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Returns
    -------
    tuple of Piece
        PDF, PDF in large type, HTML, plain text.
    """
    copy = card_copy(forme, words)
    sheet = SHEETS[forme.trim.paper]
    large = SHEETS["letter" if forme.trim.paper in {"letter", "index"} else "a4"]
    large = replace(
        large, sizes=(LARGE_TYPE,), least_on_one=LARGE_TYPE, laid="under", drawn=360.0, margin_x=20
    )
    case = type_case()
    return (
        Piece("card/card.pdf", _printed(copy, sheet, forme, words, case)),
        Piece("card/card-large.pdf", _printed(copy, large, forme, words, case)),
        Piece("card/card.html", card_page(copy, forme, words)),
        Piece("card/card.txt", card_text(copy).encode()),
    )


def _printed(
    copy: CardCopy, sheet: Sheet, forme: Forme, words: Words, case: frozenset[int]
) -> Setting:
    written: dict[str, Any] = copy.to_dict()
    page = words(
        "card.page",
        title=textwrap.shorten(copy.title, _FOOT, placeholder=" …"),
        page="{page}",
        pages="{pages}",
    )
    missing = lacking(texts_in(written), case)
    if missing:
        written["small"] = [*copy.small, words("card.lacking", signs=", ".join(missing))]
    printed = set_in_our_letters({**written, "page": page}, case)
    assets = {
        "card.json": json.dumps(printed, ensure_ascii=False).encode(),
        "sheet.json": json.dumps({**asdict(sheet), "strip": bool(copy.stages)}).encode(),
        "strip.svg": _strip(copy, forme, sheet.drawn).encode(),
        "interval.svg": _interval(copy, forme, sheet.drawn, words.decimal_sign).encode(),
        **{
            f"{level}.svg": signs.sign(level, PRINTED).encode()
            for level in ("note", "doubt", "fault")
        },
        **{
            f"stage-{stage.stage.replace(' ', '-')}.svg": _swatch(stage.stage).encode()
            for stage in copy.stages
        },
    }
    source = shipped("typst", "card.typ")
    return Setting(source, assets, "pdf", standards=ACCESSIBLE)


def _strip(copy: CardCopy, forme: Forme, width: float) -> str:
    """One serving as a hatched strip."""
    edition = forme.edition
    strip = hatching.stage_strip(
        edition.stages, edition.middle, title=copy.footprint, description="", inks=PRINTED
    )
    inset = drawing.tag("svg", strip, x=0.5, width=width - 1, height=hatching.STRIP_HEIGHT + 1)
    return drawing.in_frame(inset, width=width, height=hatching.STRIP_HEIGHT + 1)


def _interval(copy: CardCopy, forme: Forme, width: float, decimal_sign: str) -> str:
    """The total as an interval on a scale from zero, its ticks above it."""
    edition = forme.edition
    scale = intervals.common_scale([edition.serving])
    axis = intervals.axis(scale, title=copy.footprint, inks=PRINTED, decimal_sign=decimal_sign)
    drawn = intervals.interval(
        scale, edition.serving, edition.middle, title=copy.interval, y="50%", inks=PRINTED
    )
    below = drawing.tag("svg", drawn, y=_AXIS, width="100%", height=_INTERVAL)
    return drawing.in_frame(axis + below, width=width, height=_AXIS + _INTERVAL)


def _swatch(stage: str) -> str:
    inner = hatching.patterns(PRINTED, (stage,)) + hatching.swatch(stage, PRINTED)
    return drawing.in_frame(inner, width=24, height=14)
