"""What a loose number of a script may be about: its own figures and those of its recipe."""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from counterproof.claims.bases import ground
from counterproof.claims.loose import Reference
from counterproof.claims.material import Material, Subject, bare, singular
from counterproof.claims.operations import Named, Portion
from counterproof.claims.verdicts import VettedFigure
from counterproof.claims.working import worked
from counterproof.draws import Range
from counterproof.errors import CounterproofError

SERVED: Final = frozenset("serving bowl glass slice helping plate portion".split())


def references_of(material: Material, figures: Sequence[VettedFigure]) -> tuple[Reference, ...]:
    """What a loose number may be about: the script's figures and the recipe's own.

    Parameters
    ----------
    material : Material
        What may be spoken of.
    figures : sequence of VettedFigure
        The script's figures.

    Returns
    -------
    tuple of Reference
        Each with the words that a sentence about it holds.
    """
    made: list[Reference] = []
    own = material.own
    for subject in material.subjects:
        if subject is not own and not subject.key.startswith("+"):
            continue
        try:
            found = material.footprint(subject, material.basis)
        except CounterproofError:
            continue
        topic: frozenset[str] = frozenset() if subject is own else _topic(subject.key[1:])
        one, batch = f"one serving of {subject.called}", f"the whole batch of {subject.called}"
        made.extend(
            Reference(one, found.serving, "kg CO2e", topic | said)
            for said in (frozenset(), *(frozenset({word}) for word in SERVED))
        )
        made.append(Reference(batch, found.batch, "kg CO2e", topic | {"batch"}))
        if subject is own:
            made += _own(material)
        else:
            made += _against(subject, material, topic)
    made.extend(
        Reference(vetted_one.expression.text, vetted_one.figure.range, vetted_one.figure.unit)
        for vetted_one in figures
        if vetted_one.figure is not None and vetted_one.figure.unit != "price"
    )
    return tuple(made)


def _topic(words: str) -> frozenset[str]:
    return frozenset(singular(word) for word in bare(words.casefold()).split()) - {
        "in",
        "the",
        "with",
    }


def _exact(value: float) -> Range:
    return Range(value, value, value, value)


def _own(material: Material) -> list[Reference]:
    reading, _ = material.entry(material.own)
    found = material.footprint(material.own, material.basis)
    made = [Reference("servings", _exact(reading.serves), "count")]
    if found.function.kg is not None:
        made.append(Reference("the weight of one serving", _exact(found.function.kg), "kg"))
    if found.function.litres is not None:
        litres = _exact(found.function.litres * reading.serves)
        made.append(Reference("the whole batch", litres, "L"))
    whole = found.static
    for line in reading.lines:
        part = found.of_line(line.written.number)
        for constituent in line.constituents:
            head = singular(constituent.food.name.split(",")[0].split()[-1].casefold())
            topic = frozenset({head})
            name = constituent.food.name
            if constituent.mass is not None:
                mass = Range.of(constituent.mass.draws(material.streams), constituent.mass.mean)
                made.append(Reference(f"{name} in the batch", mass, "kg", topic))
            if part is not None and part.share is not None and whole > 0:
                share = part.kgco2e.scaled(1 / whole)
                made.append(Reference(f"{name}, share of one serving", share, "share", topic))
    return made


def _against(subject: Subject, material: Material, topic: frozenset[str]) -> list[Reference]:
    name = subject.names[0] if subject.names else subject.called
    sides = Portion(Named(name)), Portion(Named("this recipe"))
    try:
        on = ground(material, material.basis, *sides)
        if on.refused:
            return []
        ratio = worked(sides[0], material, on.basis).over(worked(sides[1], material, on.basis))
    except CounterproofError:
        return []
    if ratio is None:
        return []
    return [
        Reference(f"{subject.called} over this recipe", ratio.range, "ratio", topic, either=True)
    ]
