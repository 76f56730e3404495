"""A serving and its versions as things people can see, drawn to one scale beside a person."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from counterproof.claims.figure import Figure
from counterproof.claims.likenesses import liken
from counterproof.claims.seen import Seen, Surroundings
from counterproof.desk.leaves import leaf
from counterproof.draws import Streams
from counterproof.footprint.held import Held
from counterproof.footprint.model import Footprint
from counterproof.press.drawing import PAGE, set_in
from counterproof.press.likenesses import to_scale
from counterproof.proof import Derivation, Term
from counterproof.reading.named_versions import names_beside
from counterproof.use_cases import Assessed, Workbench, assessed
from counterproof.vetting_cases import drawn_alike

MOST: Final = 4
"""Most servings drawn side by side: assumed, more of them grow too small to be told apart."""

TOLD: Final = 5
"""Most likenesses told in words: assumed, the best of them come first."""


@dataclass(frozen=True, slots=True)
class Pictured:
    """A serving pictured: the piece of the page, and how each count came about."""

    html: str
    derivations: tuple[Derivation, ...]


def pictured(base: Assessed, bench: Workbench, streams: Streams, held: Held) -> Pictured:
    """Return a recipe's serving, and its versions', as likenesses.

    Parameters
    ----------
    base : Assessed
        The recipe worked out.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    held : Held
        What was worked out already.

    Returns
    -------
    Pictured
        Empty where nothing pictures it with a count that can be seen.
    """
    order = base.order
    around = Surroundings(order.kitchen, bench.tables, streams)
    names = ["as written"]
    found = [_likened(base.footprint, around)]
    for name in names_beside(order.recipe)[: MOST - 1]:
        changed = replace(order, version=name, name=name)
        other = assessed(changed, bench, streams, verdicts=False, held=held)
        names.append(name)
        found.append(_likened(other.footprint, around))
    alike = drawn_alike([seen for seen in found if seen]) if found[0] else ()
    shown = [name for name, seen in zip(names, found, strict=True) if seen]
    drawn = (
        to_scale(alike, "One serving, drawn to scale", PAGE, names=shown, fluid=True)
        if alike
        else ""
    )
    told = found[0][:TOLD]
    html = leaf("under/likenesses.html.j2", told=told, drawn=set_in(drawn), names=names)
    return Pictured(str(html).strip(), tuple(_derived(at, seen) for at, seen in enumerate(told, 1)))


def _likened(footprint: Footprint, around: Surroundings) -> tuple[Seen, ...]:
    figure = Figure(footprint.draws, footprint.static, "kg CO2e")
    return liken(figure, around)


def _derived(at: int, seen: Seen) -> Derivation:
    terms = (
        Term("one serving", opens="serving"),
        *(Term(condition) for condition in seen.conditions),
        *((Term(seen.warning),) if seen.warning else ()),
        Term("where the size comes from", source=seen.source),
    )
    return Derivation(f"likeness:{at}", seen.sentence, seen.count, seen.names, terms)
