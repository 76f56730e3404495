"""The proof as one self-contained page: no script, no outside request, light and dark, on paper too.

The page is the recipe itself. Each line keeps its place in the middle; what it was understood to
be stands in the left margin beside it, what it adds to one serving in the right margin, on one
scale for the whole column. `sheet.html.j2` is the setting, `sheet.css` the house style; this
module only puts the words and drawings of an Edition where they belong.
"""

from __future__ import annotations

from jinja2 import Environment, StrictUndefined

from counterproof import numerals
from counterproof.press import (
    around,
    footing,
    giving,
    harmless,
    intervals,
    margins,
    packs,
    signs,
    times,
    wording,
)
from counterproof.press.around_rows import apart_rows, fate_key, fizz_rows, pack_strips
from counterproof.press.drawing import set_in
from counterproof.press.fonts import font_faces
from counterproof.press.plain_text import printable
from counterproof.press.setting import (
    line_row,
    opinion_rows,
    sections,
    stage_key,
    step_row,
    strip,
    time_bars,
    total_row,
    version_rows,
)
from counterproof.press.shipped import shipped
from counterproof.proof import Edition

_ALWAYS_CUT = "0123456789.,:;()–−+%·×“”’ "
_STYLE_GOES_HERE = "/* faces and style */"


def sheet(edition: Edition) -> str:
    """Return the proof as one self-contained HTML page.

    Parameters
    ----------
    edition : Edition
        Everything the page shows, already worked out.

    Returns
    -------
    str
        HTML, the same bytes for the same Edition.
    """
    scale = intervals.line_scale(edition)
    serving = intervals.serving_scale(edition)
    packed = packs.report_of(edition)
    page = (
        Environment(
            autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
        )
        .from_string(shipped("sheet.html.j2"))
        .render(
            edition=edition,
            title=wording.title(edition),
            lines=sections(line_row(line, scale, edition) for line in edition.lines),
            steps=sections(step_row(step, scale, edition.middle) for step in edition.steps),
            axis=set_in(intervals.axis(scale, title=f"Scale of the lines, {numerals.CO2E}")),
            serving_axis=set_in(
                intervals.axis(serving, title=f"Scale of whole servings, {numerals.CO2E}")
            ),
            ground=set_in(intervals.empty_interval(scale)),
            serving_ground=set_in(intervals.empty_interval(serving)),
            total=total_row(edition, serving),
            versions=version_rows(edition, serving),
            opinions=opinion_rows(edition, serving),
            apart=apart_rows(edition, scale),
            gas=fizz_rows(edition, serving),
            packed=packed,
            pack_strips=() if packed is None else pack_strips(packed),
            fate_key=() if packed is None else fate_key(packed),
            strip=strip(edition),
            key=stage_key(edition),
            timeline=time_bars(edition),
            time_key=[
                (set_in(times.swatch(hands_on=True)), "needs hands"),
                (set_in(times.swatch(hands_on=False)), "waits"),
            ],
            footing=footing,
            giving=giving,
            around=around,
            margins=margins,
            packs=packs,
            wording=wording,
            numerals=numerals,
            cross=set_in(signs.registration_cross()),
            signs={level: set_in(signs.sign(level)) for level in ("note", "doubt", "fault")},
            leader=set_in(signs.leader()),
            printable=printable,
            linkable=harmless.link,
        )
    )
    faces = font_faces("".join(sorted(set(page) | set(_ALWAYS_CUT))))
    return page.replace(_STYLE_GOES_HERE, f"{faces}\n{shipped('sheet.css')}", 1)
