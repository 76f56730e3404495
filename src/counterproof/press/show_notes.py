"""Show notes of an episode, short and long, in Markdown."""

from __future__ import annotations

from collections.abc import Iterable

from counterproof.forme import Forme
from counterproof.press import side_by_side
from counterproof.press.card_copy import card_copy
from counterproof.press.figures import text_of
from counterproof.press.fixed_words import Words
from counterproof.press.harmless import link
from counterproof.press.plain_text import printable
from counterproof.press.script_notes import in_markdown
from counterproof.proof import Edition


def short_notes(forme: Forme, words: Words) -> bytes:
    """Return the short notes: the number with its range, and where it is derived.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Returns
    -------
    bytes
        One paragraph.
    """
    copy = card_copy(forme, words)
    told = words("site.short", title=copy.title, total=copy.value, range=copy.interval)
    return f"{in_markdown(told)}\n".encode()


def long_notes(forme: Forme, words: Words) -> bytes:
    """Return the long notes.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Returns
    -------
    bytes
        The number, the versions, time, keeping, cautions and allergens, the method, the sources.
    """
    edition = forme.edition
    copy = card_copy(forme, words)
    number = "" if copy.number is None else f" [{copy.number}]"
    of_the_card = {words("card.to the pot"), words("card.us cups")}
    found = (
        (
            words("site.number"),
            [f"{copy.footprint}: {copy.value}{number}; {copy.interval}.", *_batch(edition, words)],
        ),
        (words("site.versions"), _versions(edition, words)),
        (words("site.times"), [copy.times] if copy.times else []),
        (words("site.keeping"), [*copy.keeping[1], *copy.care[1]]),
        (words("site.allergens"), copy.allergens[1]),
        (words("site.method"), [one for one in copy.small if one not in of_the_card]),
        (words("site.credits"), [printable(one) for one in forme.credits]),
    )
    parts = [f"# {in_markdown(words('site.long', title=copy.title))}"]
    parts += [
        f"## {name}\n\n" + "\n".join(f"- {in_markdown(one)}" for one in sentences)
        for name, sentences in found
        if sentences
    ]
    parts.append(f"## {words('site.sources')}\n\n" + "\n".join(_sources(edition)))
    return ("\n\n".join(parts) + "\n").encode()


def _batch(edition: Edition, words: Words) -> list[str]:
    """The whole batch, under its number."""
    number = edition.number_of("batch")
    if number is None:
        return []
    one = edition.derivations[number - 1]
    return [f"{one.name}: {words.figure(text_of(one, edition.middle))} [{number}]"]


def _versions(edition: Edition, words: Words) -> list[str]:
    told = []
    for version in edition.versions:
        phrases = side_by_side.version_phrases(version, edition)
        if not phrases:
            continue
        changes = ", ".join(printable(change) for change in version.changes)
        key = "site.compared" if changes else "site.unchanged"
        text = words(
            key,
            name=printable(version.name),
            told=words.figure("; ".join(phrases)),
            **({"changes": changes} if changes else {}),
        )
        told.append(" ".join([text, *(printable(remark) for remark in version.remarks)]))
    return told


def _sources(edition: Edition) -> Iterable[str]:
    """Each source with the credit line that its licence asks for."""
    for source in edition.sources:
        address = link(source.address)
        parts = [in_markdown(printable(source.citation))]
        parts += [f"<{address}>"] if address else []
        parts += [in_markdown(printable(source.credit))] if source.credit else []
        yield f"- {' '.join(parts)}"
