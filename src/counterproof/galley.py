"""A vetted script set in type: its passages, every figure and claim with its derivation.

A galley is type that is set but not yet made up into pages.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Final

from counterproof.claims.loose import Loose
from counterproof.claims.material import Material
from counterproof.claims.script import Script, guarded
from counterproof.claims.verdicts import Vetted, VettedClaim, VettedFigure
from counterproof.proof import Derivation, Edition
from counterproof.said import Numbered
from counterproof.script_proof import Asked, Passage, ScriptProof, Spoken

_BLANK: Final = re.compile(r"\n[ \t]*(?:\n[ \t]*)+")
_HEADING: Final = re.compile(r"#{1,6} +")
_DIRECTION: Final = re.compile(r"\[(?![=?])[^\[\]]*\]\s*")


def script_set(
    vetted: Vetted, material: Material, edition: Edition
) -> tuple[ScriptProof, tuple[Derivation, ...]]:
    """A vetted script as it will be said, and the derivations it adds to the proof's.

    Parameters
    ----------
    vetted : Vetted
        The script's figures and claims.
    material : Material
        What it was vetted beside.
    edition : Edition
        The proof of its recipe.

    Returns
    -------
    tuple of ScriptProof and tuple of Derivation
        Each figure and claim with the number of its derivation.
    """
    numbered = Numbered(edition, material)
    spoken = {one.expression.start: _figure(one, numbered) for one in vetted.figures}
    spoken |= {one.expression.start: _claim(one, numbered) for one in vetted.claims}
    overclaims = tuple(
        f"line {one.line}, “{one.as_written}”: {rule.rule} ({rule.region}). {rule.says}"
        for one in vetted.overclaims
        for rule in one.rules
    )
    proof = ScriptProof(
        vetted.script.title,
        tuple(_passages(vetted.script, spoken)),
        tuple(_text(vetted.script, spoken)),
        tuple(_loose(one) for one in vetted.loose),
        overclaims,
    )
    return proof, numbered.added


def _figure(one: VettedFigure, numbered: Numbered) -> Spoken:
    figure, seen = one.figure, one.seen
    conditions = (*(figure.conditions if figure else ()), *(seen.conditions if seen else ()))
    sources = (*(figure.sources if figure else ()), *((seen.source,) if seen else ()))
    warned = (seen.warning,) if seen is not None and seen.warning else ()
    return Spoken(
        "figure",
        one.expression.line,
        one.expression.as_written,
        one.shown,
        numbered.figure(one),
        span=one.said.span if one.said is not None else "",
        conditions=tuple(dict.fromkeys(conditions)),
        sources=tuple(dict.fromkeys(sources)),
        open=(*(mark.message for mark in one.marks), *warned),
    )


def _claim(one: VettedClaim, numbered: Numbered) -> Spoken:
    share = one.share
    contradicted = f"the words say {one.contradicted}, which is not what is asked"
    return Spoken(
        "claim",
        one.expression.line,
        one.expression.as_written,
        one.words,
        numbered.claim(one),
        sources=one.sources,
        open=(contradicted,) if one.contradicted else (),
        asks=one.asks,
        verdict=one.verdict,
        reason=one.reason,
        basis=one.basis,
        likelihood="" if share is None else share.term,
        share=None if share is None else share.share,
        others=tuple(
            Asked(
                other.basis,
                None if other.share is None else other.share.share,
                other.holds,
                other.inapplicable,
            )
            for other in one.other_bases
        ),
        strongest=one.strongest or "",
    )


def _loose(one: Loose) -> str:
    where = f"line {one.line}, “{one.as_written}”"
    if one.contradicts:
        return f"{where} contradicts {one.nearest}"
    return f"{where}; nearest is {one.nearest}" if one.nearest else where


def _text(script: Script, spoken: Mapping[int, Spoken]) -> Iterator[str | Spoken]:
    at = 0
    for one in script.expressions:
        yield script.text[at : one.start]
        yield spoken[one.start]
        at = one.end
    yield script.text[at:]


def _passages(script: Script, spoken: Mapping[int, Spoken]) -> Iterator[Passage]:
    """Paragraphs, their figures in place; comments and code are not said."""
    at = 0
    for end in (*(match.span() for match in _BLANK.finditer(script.text)), None):
        stop, after = (len(script.text), len(script.text)) if end is None else end
        yield from _passage(script, spoken, at, stop)
        at = after


def _passage(
    script: Script, spoken: Mapping[int, Spoken], start: int, end: int
) -> Iterator[Passage]:
    """One paragraph; a heading may stand right above its text."""
    heading = _HEADING.match(script.text, start, end)
    if heading is not None:
        stop = script.text.find("\n", start, end)
        stop = end if stop < 0 else stop
        runs = tuple(_runs(script, spoken, heading.end(), stop))
        if runs:
            yield Passage("heading", script.line_of(start), runs)
        if stop < end:
            yield from _passage(script, spoken, stop + 1, end)
        return
    runs = tuple(_runs(script, spoken, start, end))
    if not any(isinstance(run, Spoken) or run.strip() for run in runs):
        return
    line = script.line_of(start)
    if len(runs) == 1 and isinstance(runs[0], str) and not _DIRECTION.sub("", runs[0]).strip():
        yield Passage("direction", line, (runs[0].strip(),))
    else:
        yield Passage("speech", line, runs)


def _runs(
    script: Script, spoken: Mapping[int, Spoken], start: int, end: int
) -> Iterator[str | Spoken]:
    hidden = guarded(script.text)
    at = start
    for one in script.expressions:
        if start <= one.start < end:
            yield from _words(script.text, at, one.start, hidden)
            yield spoken[one.start]
            at = one.end
    yield from _words(script.text, at, end, hidden)


def _words(text: str, start: int, end: int, hidden: list[tuple[int, int]]) -> Iterator[str]:
    """Words between two places on one line, what is guarded left out."""
    kept, at = [], start
    for begin, stop in hidden:
        if begin < end and stop > at:
            kept.append(text[at : max(begin, at)])
            at = max(at, min(stop, end))
    kept.append(text[at:end])
    said = re.sub(r"\s+", " ", "".join(kept))
    if said:
        yield said
