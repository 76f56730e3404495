"""The recipe card as a self-contained page and as plain text, from the same copy as on paper."""

from __future__ import annotations

import textwrap
from typing import Final

from counterproof.forme import Forme
from counterproof.press import hatching, intervals, signs
from counterproof.press.card_copy import CardCopy, LineCopy
from counterproof.press.drawing import set_in
from counterproof.press.fixed_words import Words
from counterproof.press.page import page

WIDTH: Final = 72
"""Characters of a line of plain text: what fits a mail."""

_WEIGHT, _US = 9, 16  # columns of the plain text


def card_page(copy: CardCopy, forme: Forme, words: Words) -> bytes:
    """Return the card as a page that needs nothing else.

    Parameters
    ----------
    copy : CardCopy
        Its words.
    forme : Forme
        The episode, for the drawings.
    words : Words
        Fixed words.

    Returns
    -------
    bytes
        HTML, complete without scripts.
    """
    edition = forme.edition
    scale = intervals.common_scale([edition.serving])
    strip = hatching.stage_strip(
        edition.stages, edition.middle, title=copy.footprint, description=copy.strip_told
    )
    return page(
        "card.html.j2",
        style="card.css",
        card=copy,
        signs={level: set_in(signs.sign(level)) for level in ("note", "doubt", "fault")},
        axis=set_in(intervals.axis(scale, title=copy.footprint, decimal_sign=words.decimal_sign)),
        interval=set_in(
            intervals.interval(
                scale, edition.serving, edition.middle, title=copy.interval_told, y="50%"
            )
        ),
        strip=set_in(strip),
        key=[(set_in(hatching.swatch(stage.stage)), stage) for stage in copy.stages],
    )


def card_text(copy: CardCopy) -> str:
    """Return the card as plain text.

    Parameters
    ----------
    copy : CardCopy
        Its words.

    Returns
    -------
    str
        Lines of `WIDTH` characters at most, unless a single word is longer.
    """
    told = [copy.title.upper(), "", *_filled(copy.yields), *_filled(copy.times), ""]
    told += [copy.ingredients, "-" * len(copy.ingredients)]
    for part in copy.lines:
        told += ["", part.heading] if part.heading else []
        for line in part.rows:
            if isinstance(line, LineCopy):
                told += _row(line, copy)
    told += ["", copy.method, "-" * len(copy.method)]
    for part in copy.steps:
        told += ["", part.heading] if part.heading else []
        for step in part.rows:
            if not isinstance(step, LineCopy):
                told += _filled(step.words, f"{step.number:>2}. ", "    ")
                told += _filled(f"[{step.facts}]", "    ", "    ") if step.facts else []
    for name, sentences in (copy.keeping, copy.care, copy.allergens):
        if sentences:
            told += ["", name]
            for one in sentences:
                told += _filled(one, "- ", "  ")
    number = f" [{copy.number}]" if copy.number is not None else ""
    told += ["", copy.footprint, *_filled(f"{copy.value}{number}; {copy.interval}.")]
    widest = max((len(stage.name) for stage in copy.stages), default=0)
    told += [
        f"  {hatching.letter(stage.stage)} {stage.name:<{widest}}  {stage.value}"
        for stage in copy.stages
    ]
    told += [
        "",
        *(line for _, what in copy.open for line in _filled(what)),
        *_filled(" ".join(copy.small)),
    ]
    return "\n".join(told).rstrip() + "\n"


def _row(line: LineCopy, copy: CardCopy) -> list[str]:
    near = "~" if line.near and line.weight else ""
    lead = f"{near + line.weight:>{_WEIGHT}}  " if copy.weights else ""
    lead += f"{line.us:>{_US}}  " if copy.us_measures else ""
    sign = {"doubt": " (?)", "fault": " (!)"}.get(line.mark, "")
    return _filled(line.words + sign, lead, " " * len(lead))


def _filled(text: str, lead: str = "", hanging: str = "") -> list[str]:
    if not text:
        return []
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=lead,
        subsequent_indent=hanging,
        break_long_words=False,
        break_on_hyphens=False,
    )
