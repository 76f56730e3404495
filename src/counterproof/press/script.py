"""The script of an episode: to be read aloud, as captions, and with its notes."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any, Final

from counterproof import numerals
from counterproof.forme import Forme
from counterproof.press.captions import as_subrip, as_webvtt, cues
from counterproof.press.fixed_words import Words
from counterproof.press.lettering import set_in_our_letters, type_case
from counterproof.press.page import page
from counterproof.press.part import ACCESSIBLE, Piece, Setting
from counterproof.press.plain_text import printable
from counterproof.press.script_copy import (
    WORDS_A_MINUTE,
    Paragraph,
    Run,
    paragraphs,
    seconds_said,
    words_said,
)
from counterproof.press.script_notes import (
    HOLDS,
    as_markdown,
    feet,
    listed,
    mark_of,
    shared_conditions,
)
from counterproof.press.shipped import shipped
from counterproof.script_proof import ScriptProof, Spoken

WRITTEN_IN: Final = "en"
"""Language of scripts: that of figures and claims."""


def pieces(forme: Forme, words: Words) -> Iterator[Piece]:
    """Return the script in all its forms.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Yields
    ------
    Piece
        A large page to read from as HTML and PDF, captions as SubRip and WebVTT, notes as
        Markdown and HTML; nothing where the episode has no script.
    """
    script = forme.script
    if script is None:
        return
    copy = paragraphs(script)
    yield Piece("script/reading.html", _reading_page(copy, script, forme, words))
    yield Piece("script/reading.pdf", _reading_print(copy, script, forme, words))
    found = cues(copy)
    yield Piece("script/captions.srt", as_subrip(found))
    yield Piece("script/captions.vtt", as_webvtt(found, _rule(words)))
    yield Piece("script/notes.md", as_markdown(script, forme, words))
    yield Piece("script/notes.html", _notes_page(copy, script, forme, words))


def _title(script: ScriptProof, forme: Forme) -> str:
    return printable(script.title or forme.edition.title)


def _rate() -> str:
    return numerals.count(WORDS_A_MINUTE)


def _rule(words: Words) -> str:
    return words("script.time rule", rate=_rate())


def _time(copy: Sequence[Paragraph], words: Words) -> str:
    said = sum(words_said(one.runs) for one in copy if one.of == "speech")
    minutes, seconds = divmod(round(seconds_said(said)), 60)
    return words("script.time", time=f"{minutes}:{seconds:02d} min", rate=_rate())


def _without_title(copy: Sequence[Paragraph], script: ScriptProof) -> list[Paragraph]:
    """The passages without the heading that the page has as its own."""
    first = copy[0] if copy else None
    if first is not None and first.of == "heading" and _text(first) == script.title:
        return [*copy[1:]]
    return [*copy]


def _text(one: Paragraph) -> str:
    return "".join(run.text for run in one.runs).strip()


def _margin(
    one: Paragraph, verdicts: dict[int | None, Spoken], words: Words
) -> list[dict[str, Any]]:
    """What stands beside a paragraph: its figures in digits, and claims that may not be said."""
    notes: list[dict[str, Any]] = []
    for run in one.runs:
        if run.kind == "figure":
            text = words.figure(run.text)
            notes.append({"text": text, "number": run.number, "verdict": "", "fails": False})
        elif run.kind == "claim":
            found = verdicts.get(run.number)
            verdict = "cannot be judged" if found is None else found.verdict
            told = words(f"script.{verdict}")
            fails = verdict not in HOLDS
            notes.append({"text": run.text, "number": run.number, "verdict": told, "fails": fails})
    return notes


def _passages(copy: Sequence[Paragraph], script: ScriptProof, words: Words) -> list[dict[str, Any]]:
    verdicts: dict[int | None, Spoken] = {
        one.number: one for one in script.spoken if one.kind == "claim" and one.number is not None
    }
    return [
        {
            "of": one.of,
            "text": _text(one),
            "runs": [_run(run) for run in one.runs],
            "margin": _margin(one, verdicts, words),
        }
        for one in _without_title(copy, script)
    ]


def _run(run: Run) -> dict[str, Any]:
    return {"kind": run.kind, "text": run.text, "said": run.said}


def _reading_page(
    copy: Sequence[Paragraph], script: ScriptProof, forme: Forme, words: Words
) -> bytes:
    return page(
        "reading.html.j2",
        language=words.language,
        written_in=WRITTEN_IN,
        heading=words("script.script", title=_title(script, forme)),
        title=_title(script, forme),
        time=words.figure(_time(copy, words)),
        rule=_rule(words),
        margin=words("script.margin"),
        passages=_passages(copy, script, words),
    )


def _reading_print(
    copy: Sequence[Paragraph], script: ScriptProof, forme: Forme, words: Words
) -> Setting:
    title = _title(script, forme)
    told = {
        "language": words.language,
        "written_in": WRITTEN_IN,
        "heading": words("script.script", title=title),
        "title": title,
        "time": words.figure(_time(copy, words)),
        "rule": _rule(words),
        "page": words("card.page", title=title, page="{page}", pages="{pages}"),
        "passages": _passages(copy, script, words),
    }
    case = type_case()
    document = json.dumps(_in_letters(told, case), ensure_ascii=False).encode()
    source = shipped("typst", "script.typ")
    return Setting(source, {"script.json": document}, standards=ACCESSIBLE)


def _in_letters(told: dict[str, Any], case: frozenset[int]) -> dict[str, Any]:
    """The document in our letters; blanks at the ends of runs stay."""
    set_in: dict[str, Any] = set_in_our_letters(told, case)
    for passage, as_set in zip(told["passages"], set_in["passages"], strict=True):
        for run, run_set in zip(passage["runs"], as_set["runs"], strict=True):
            for key in ("text", "said"):
                before = " " if run[key][:1] == " " else ""
                after = " " if run[key][-1:] == " " and run[key].strip() else ""
                run_set[key] = f"{before}{run_set[key]}{after}"
    return set_in


def _common(script: ScriptProof, words: Words) -> str:
    told = shared_conditions(script)
    return words("script.common", conditions="; ".join(told)) if told else ""


def _notes_page(
    copy: Sequence[Paragraph], script: ScriptProof, forme: Forme, words: Words
) -> bytes:
    marks = iter([mark_of(one, script, forme) for one in script.spoken])
    passages = [
        {
            "of": one.of,
            "text": _text(one),
            "runs": [
                {**_run(run), "mark": next(marks) if run.kind in {"figure", "claim"} else None}
                for run in one.runs
            ],
        }
        for one in copy
    ]
    if passages and passages[0]["of"] == "heading" and passages[0]["text"] == script.title:
        del passages[0]  # the page has it as its own
    heading = words("script.notes", title=_title(script, forme))
    return page(
        "notes.html.j2",
        language=words.language,
        written_in=WRITTEN_IN,
        heading=heading,
        passages=passages,
        common=_common(script, words),
        feet_heading=words("script.feet"),
        feet=feet(script, forme, words),
        more=listed(script, words),
    )
