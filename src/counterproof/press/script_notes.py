"""The notes to a script: what stands behind each figure and claim, as footnotes."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from counterproof.forme import Forme
from counterproof.numerals import percent
from counterproof.press.figures import text_of
from counterproof.press.fixed_words import Words
from counterproof.press.plain_text import printable
from counterproof.script_proof import Asked, ScriptProof, Spoken

HOLDS: Final = ("holds", "holds on its basis")


@dataclass(frozen=True, slots=True)
class Foot:
    """A footnote: its mark, its paragraphs, and where its number is derived.

    `fails` says that a claim may not be said as it stands.
    """

    mark: int
    paragraphs: tuple[str, ...]
    number: int | None
    derivation: str
    fails: bool


def mark_of(spoken: Spoken, script: ScriptProof, forme: Forme) -> int:
    """Return the mark of a figure's or claim's footnote.

    Parameters
    ----------
    spoken : Spoken
        Of the script.
    script : ScriptProof
        The script.
    forme : Forme
        The episode.

    Returns
    -------
    int
        The number of its derivation; behind all of those where it has none.
    """
    if spoken.number is not None:
        return spoken.number
    open_ones = [one for one in script.spoken if one.number is None]
    return len(forme.edition.derivations) + 1 + open_ones.index(spoken)


def feet(script: ScriptProof, forme: Forme, words: Words) -> tuple[Foot, ...]:
    """Return the footnotes of a script.

    Parameters
    ----------
    script : ScriptProof
        The script.
    forme : Forme
        The episode, with the derivations.
    words : Words
        Fixed words.

    Returns
    -------
    tuple of Foot
        One for each number, by number.
    """
    common = shared_conditions(script)
    found: dict[int, Foot] = {}
    for spoken in script.spoken:
        mark = mark_of(spoken, script, forme)
        if mark in found:
            continue
        if spoken.kind == "figure":
            told = _figure(spoken, forme, words, common)
        else:
            told = _claim(spoken, forme, words)
        derivation = ""
        if spoken.number is not None:
            derivation = words("script.derivation", number=str(spoken.number))
        found[mark] = Foot(
            mark,
            tuple(printable(text) for text in told),
            spoken.number,
            derivation,
            spoken.kind == "claim" and spoken.verdict not in HOLDS,
        )
    return tuple(found[mark] for mark in sorted(found))


def shared_conditions(script: ScriptProof) -> tuple[str, ...]:
    """Return the conditions that all figures of a script have in common.

    Parameters
    ----------
    script : ScriptProof
        The script.

    Returns
    -------
    tuple of str
        Told once for all; none where there is but one figure.
    """
    told = [one.conditions for one in script.spoken if one.kind == "figure" and one.conditions]
    if len(told) < 2:
        return ()
    return tuple(one for one in told[0] if all(one in other for other in told))


def _figure(one: Spoken, forme: Forme, words: Words, common: Collection[str]) -> Iterator[str]:
    edition = forme.edition
    if one.number is None:
        yield words("script.not worked out")
    else:
        derivation = edition.derivations[one.number - 1]
        shown = words.figure(text_of(derivation, edition.middle))
        yield f"{derivation.name}: {shown}."
    own = [told for told in one.conditions if told not in common]
    if own:
        yield words("script.conditions", conditions="; ".join(own))
    yield from _rest(one, forme, words)


def _claim(one: Spoken, forme: Forme, words: Words) -> Iterator[str]:
    verdict = words(f"script.{one.verdict}")
    lead = words("script.claim note", verdict=verdict)
    if one.share is not None:
        share = words.told(percent(one.share))
        told = words("script.share", share=share, likelihood=one.likelihood)
        lead = words("script.claim note", verdict=f"{verdict}; {told}")
    yield f"{one.asks}. {lead}" if one.asks else lead
    if one.reason:
        yield one.reason
    if one.basis:
        yield words("script.on basis", basis=one.basis)
    yield from _elsewhere(one.others, words)
    if one.strongest:
        yield words("script.strongest", sentence=one.strongest.rstrip("."))
    yield from _rest(one, forme, words)


def _elsewhere(others: Sequence[Asked], words: Words) -> Iterator[str]:
    """How a claim fares on its other bases: where it holds, where not, where it is not asked."""
    for key, holds in (("holds too", True), ("fails on", False), ("not asked", None)):
        told = [_basis(one, words) for one in others if one.holds is holds]
        if told:
            yield words(f"script.{key}", bases=", ".join(told))


def _basis(one: Asked, words: Words) -> str:
    aside = one.inapplicable.rstrip(".")
    if one.share is not None:
        aside = words.told(percent(one.share))
    return f"{one.basis} ({aside})" if aside else one.basis


def _rest(one: Spoken, forme: Forme, words: Words) -> Iterator[str]:
    listed_ones = {source.id for source in forme.edition.sources}
    cited = [name for name in one.sources if name in listed_ones]
    if cited:
        yield words("script.sources", sources=", ".join(cited))
    for what in one.open:
        yield words("script.open", what=what.rstrip("."))


_MARKDOWN: Final = re.compile(r"([\\`*_\[\]<>#|])")


def in_markdown(text: str) -> str:
    """Return words that Markdown leaves as they are.

    Parameters
    ----------
    text : str
        Plain words.

    Returns
    -------
    str
        With a backslash before every sign that would mean something.
    """
    return _MARKDOWN.sub(r"\\\1", text)


def as_markdown(script: ScriptProof, forme: Forme, words: Words) -> bytes:
    """Return the script as it will be said, with its notes as Markdown footnotes.

    Parameters
    ----------
    script : ScriptProof
        The script.
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Returns
    -------
    bytes
        The cook's Markdown as it was written; footnotes named by the number of the derivation.
    """
    said = "".join(
        run
        if isinstance(run, str)
        else f"{in_markdown(run.words)}[^c{mark_of(run, script, forme)}]"
        for run in script.text
    )
    notes = [_foot(foot) for foot in feet(script, forme, words)]
    more = [
        f"## {name}\n\n" + "\n".join(f"- {in_markdown(one)}" for one in sentences)
        for name, sentences in listed(script, words)
        if sentences
    ]
    common = shared_conditions(script)
    if common:
        told = words("script.common", conditions="; ".join(common))
        more.insert(0, f"*{in_markdown(printable(told))}*")
    return ("\n\n".join([said.strip(), *more, "\n".join(notes)]).rstrip() + "\n").encode()


def listed(script: ScriptProof, words: Words) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return what else is to be said of a script: loose numbers, words that overclaim.

    Parameters
    ----------
    script : ScriptProof
        The script.
    words : Words
        Fixed words.

    Returns
    -------
    tuple of (str, tuple of str)
        Headings, each with its sentences.
    """
    return (
        (words("script.loose"), tuple(printable(one) for one in script.loose)),
        (words("script.overclaims"), tuple(printable(one) for one in script.overclaims)),
    )


def _foot(foot: Foot) -> str:
    paragraphs = [in_markdown(one) for one in foot.paragraphs]
    if foot.number is not None:
        place = f"../colophon/colophon.html#n{foot.number}"
        paragraphs.append(f"[{in_markdown(foot.derivation)}]({place})")
    return f"[^c{foot.mark}]: {' '.join(paragraphs)}"
