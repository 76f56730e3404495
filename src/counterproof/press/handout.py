"""The handout: one page on which a student moves what goes in and how many it is cooked for.

Every place of the two controls is worked out and set beforehand; the page's script only shows
one of them and hides the others, so that no number is made or rounded in the browser. Without
scripts the recipe as written stands there, and the tables hold all the rest.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Final

from markupsafe import Markup

from counterproof import numerals
from counterproof.forme import Forme, Position
from counterproof.press import hatching, intervals
from counterproof.press.drawing import set_in
from counterproof.press.figures import lower_in, shown_in
from counterproof.press.fixed_words import Words
from counterproof.press.intervals import Scale
from counterproof.press.page import page
from counterproof.press.part import Piece
from counterproof.press.plain_text import printable
from counterproof.press.shipped import shipped
from counterproof.press.side_by_side import totals_apart
from counterproof.press.wording import title

PAGE: Final = "handout/handout.html"
_POLICY_GOES_HERE: Final = "policy-goes-here"
_STYLE: Final = re.compile(r"<style>(.*?)</style>", re.DOTALL)
_SCRIPT: Final = re.compile(r"<script>(.*?)</script>", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Place:
    """One place of the two controls, set."""

    version: int
    serves: int
    name: str
    serving: str
    value: str
    unit: str
    span: str
    said: str
    against: tuple[str, ...]
    changes: str
    interval: Markup
    strip: Markup
    key: tuple[tuple[Markup, str, str], ...]
    cooked_for: str
    ratio: str
    lower: str
    stages: dict[str, str]


def pieces(forme: Forme, words: Words) -> tuple[Piece, ...]:
    """Return the handout.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Returns
    -------
    tuple of Piece
        One HTML file; none where no place was worked out.
    """
    return (Piece(PAGE, handout(forme, words)),) if forme.positions else ()


def handout(forme: Forme, words: Words) -> bytes:
    """Return the handout as one page that needs nothing else.

    Parameters
    ----------
    forme : Forme
        The episode, with every place of the controls.
    words : Words
        Fixed words.

    Returns
    -------
    bytes
        HTML; its policy names the checksums of its one style and its one script.
    """
    edition = forme.edition
    serves = sorted({position.serves for position in forme.positions})
    versions = list(dict.fromkeys(position.version for position in forme.positions))
    scale = intervals.common_scale([position.serving for position in forme.positions])
    rooms = _Rooms(forme, words, scale, serves, versions)
    places = [_place(rooms, position) for position in forme.positions]
    own = serves.index(edition.serves) if edition.serves in serves else 0
    first = next(place for place in places if (place.version, place.serves) == (0, own))
    stages = list(dict.fromkeys(name for place in places for name in place.stages))
    made = page(
        "handout.html.j2",
        style="handout.css",
        words=words,
        language=words.language,
        title=printable(title(edition)),
        places=places,
        first=first,
        versions=[next(place for place in places if place.version == at) for at in range(len(versions))],
        servings=[_servings(words, count) for count in serves],
        own=own,
        base=[place for place in places if place.serves == own],
        stages=stages,
        unit=first.unit,
        axis=set_in(
            intervals.axis(
                scale,
                title=words("handout.scale", unit=first.unit),
                decimal_sign=words.decimal_sign,
            )
        ),
        patterns=set_in(hatching.patterns()),
        basis=_basis(forme, words),
        draws=str(edition.basis.get("draws", "")),
        script=Markup(shipped("handout.js")),  # noqa: S704 (our own script)
    )  # fmt: skip
    return _guarded(made.decode()).encode()


@dataclass(frozen=True, slots=True)
class _Rooms:
    """What every place is set with."""

    forme: Forme
    words: Words
    scale: Scale
    serves: Sequence[float]
    versions: Sequence[str]


def _place(rooms: _Rooms, position: Position) -> Place:
    forme, words = rooms.forme, rooms.words
    middle = forme.edition.middle
    shown = shown_in(words, position.serving, middle)
    value = f"{shown.middle}{numerals.SPACE}{shown.unit}"
    name = _name(words, position.version)
    servings = _servings(words, position.serves)
    between = (
        words("card.no range")
        if shown.exact
        else words("card.range", low=shown.low, high=shown.high)
    )
    batch = shown_in(words, position.batch, middle)
    if position.serves == 1:
        said = words("handout.answer one", version=name, serving=value, between=between)
    else:
        said = words(
            "handout.answer", version=name, serves=servings, serving=value, between=between,
            batch=f"{batch.middle}{numerals.SPACE}{batch.unit}",
        )  # fmt: skip
    stages = tuple(
        (stage, words.named("stages", stage), shown_in(words, part, middle).middle)
        for stage, part in position.stages
    )
    told = words(
        "handout.strip alt", unit=shown.unit, told="; ".join(f"{n} {v}" for _, n, v in stages)
    )
    ratio = "" if position.ratio is None else words.figure(numerals.plain(position.ratio))
    lower = (
        "" if position.share_lower is None else words.told(numerals.percent(position.share_lower))
    )
    return Place(
        rooms.versions.index(position.version),
        rooms.serves.index(position.serves),
        name,
        words("handout.result"),
        shown.middle,
        shown.unit,
        shown.span,
        said,
        _against(rooms, position, ratio),
        "; ".join(printable(change) for change in position.changes),
        set_in(
            intervals.interval(rooms.scale, position.serving, middle, title=f"{value} ({shown.span})", y="50%")
        ),
        set_in(
            hatching.stage_strip(
                position.stages, middle, title=words("handout.strip"), description=told, defined=True
            )
        ),
        tuple(
            (set_in(hatching.swatch(stage)), named, part)
            for stage, named, part in stages
        ),
        servings,
        ratio,
        lower,
        {named: part for _, named, part in stages},
    )  # fmt: skip


def _against(rooms: _Rooms, position: Position, ratio: str) -> tuple[str, ...]:
    """How a version fares against the recipe as written, cooked for as many."""
    words = rooms.words
    phrases = []
    if ratio:
        phrases.append(words("stills.times", ratio=ratio))
    if position.share_lower is not None:
        phrases.append(lower_in(words, position.share_lower))
    if not phrases:
        return ()
    told = [words("handout.against", against=", ".join(phrases))]
    if position.factor_set:
        told.append(words("handout.compared", set=printable(position.factor_set)))
    base = next(
        one for one in rooms.forme.positions if one.version == "" and one.serves == position.serves
    )
    if position.difference is not None and totals_apart(
        position.serving, base.serving, position.difference
    ):
        told.append(words("handout.other factors"))
    return tuple(told)


def _name(words: Words, version: str) -> str:
    if not version:
        return words("stills.as written")
    return words("stills.bought") if version == "bought" else printable(version)


def _servings(words: Words, count: float) -> str:
    if count == 1:
        return words("card.serving")
    return words("handout.servings", n=words.figure(numerals.count(count)))


def _basis(forme: Forme, words: Words) -> str:
    basis = {key: printable(str(value)) for key, value in forme.edition.basis.items()}
    told = {key: basis.get(key, "") for key in ("seed", "draws", "version")}
    return words("handout.basis", sets=basis.get("factor_sets", ""), date=forme.date, **told)


def _guarded(made: str) -> str:
    """The page with its policy: this style and this script, faces from the page, nothing else."""
    styles = " ".join(_checksum(part) for part in _STYLE.findall(made))
    scripts = " ".join(_checksum(part) for part in _SCRIPT.findall(made))
    policy = (
        f"default-src 'none'; style-src {styles}; script-src {scripts}; font-src data:; "
        "base-uri 'none'; form-action 'none'"
    )
    return made.replace(_POLICY_GOES_HERE, policy, 1)


def _checksum(part: str) -> str:
    return f"'sha256-{b64encode(sha256(part.encode()).digest()).decode('ascii')}'"
