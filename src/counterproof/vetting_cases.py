"""Likening a quantity and vetting a script: two further things a person asks for."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from counterproof import __version__
from counterproof.claims.captions import cues
from counterproof.claims.figure import Figure, Unit
from counterproof.claims.grammar import plain
from counterproof.claims.likelihood import LEVEL
from counterproof.claims.likenesses import liken
from counterproof.claims.loose import loose_in_captions, loose_in_script
from counterproof.claims.material import BOUGHT, Material, Subject, bare, version_names
from counterproof.claims.overclaims import overclaims_in
from counterproof.claims.phrases import phrase
from counterproof.claims.references import references_of
from counterproof.claims.saying import System
from counterproof.claims.script import Script, read_script
from counterproof.claims.seen import Seen, Surroundings
from counterproof.claims.theirs import Theirs, their_number
from counterproof.claims.verdicts import Vetted, VettedFigure
from counterproof.claims.vetting import vetted
from counterproof.claims.working import worked
from counterproof.costing import Cost
from counterproof.draws import Streams
from counterproof.errors import QuantityError
from counterproof.footprint.held import Held
from counterproof.plan.model import Plan
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.use_cases import Order, Workbench, assessed


@dataclass(frozen=True)
class Episode:
    """What a script is vetted beside.

    Parameters
    ----------
    order : Order
        The episode's recipe as written.
    others : tuple of Order
        The season's other recipes.
    audience : tuple of str
        Regions the audience lives in.
    """

    order: Order
    others: tuple[Order, ...] = ()
    audience: tuple[str, ...] = ()


def material_of(
    episode: Episode, bench: Workbench, streams: Streams, held: Held | None = None
) -> Material:
    """What a script may speak of.

    Parameters
    ----------
    episode : Episode
        The recipe and the season's others.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    held : Held or None
        What was worked out on the same tables and streams; it grows.

    Returns
    -------
    Material
        The recipe first, its versions, what is bought instead, then the others.
    """
    shared = held or Held()

    def work(order: Order) -> Callable[[], tuple[Reading, Plan, Cost | None]]:
        def worked_out() -> tuple[Reading, Plan, Cost | None]:
            found = assessed(order, bench, streams, held=shared)
            return found.reading, found.plan, found.cost

        return worked_out

    subjects: list[Subject] = []
    for own, order in ((True, episode.order), *((False, other) for other in episode.others)):
        title = order.recipe.title
        called = "this recipe" if own else title
        key = "" if own else title
        subjects.append(Subject(key, called, version_names(title, None, own=own), work(order)))
        subjects.extend(
            Subject(
                f"{key}+{version.name}",
                f"{called} with {bare(version.name.casefold())}",
                version_names(title, version.name, own=own),
                work(replace(order, version=version.name)),
            )
            for version in order.recipe.versions
        )
        bought = order.recipe.bought
        if bought is not None:
            names = (
                (*BOUGHT, bare(bought.what.casefold())) if own else (bare(bought.what.casefold()),)
            )
            subjects.append(
                Subject(f"{key}+bought", f"bought {bought.what}", names, work(replace(order, version="bought")))
            )  # fmt: skip
    return Material(subjects, bench.tables, streams, episode.audience, shared)


def vetted_script(
    text: str,
    episode: Episode,
    bench: Workbench,
    streams: Streams,
    *,
    file: str | None = None,
    level: float = LEVEL,
    system: System = "metric",
    material: Material | None = None,
) -> Vetted:
    """A script, every figure and claim of it.

    Parameters
    ----------
    text : str
        The script.
    episode : Episode
        What it is vetted beside.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    file : str or None
        Its name, for messages.
    level : float
        Share of draws from which a sentence is kept. [1]
    system : System
        Whose units.
    material : Material or None
        What it may speak of, where that is at hand already.

    Returns
    -------
    Vetted
        Figures, claims, loose numbers, words that overclaim.
    """
    material = material or material_of(episode, bench, streams)
    around = Surroundings(episode.order.kitchen, bench.tables, streams)
    script = read_script(text, file)
    found = vetted(script, material, around, level=level, system=system)
    references = references_of(material, found.figures)
    return replace(
        found,
        loose=loose_in_script(script, references),
        overclaims=overclaims_in(script, bench.tables.overclaims, episode.audience),
        file=file,
        basis=_basis(material, level),
    )


def vetted_captions(
    text: str,
    script: str | None,
    episode: Episode,
    bench: Workbench,
    streams: Streams,
) -> Vetted:
    """What was really said, held against the figures of the episode and its script.

    Parameters
    ----------
    text : str
        SubRip or WebVTT.
    script : str or None
        The script, whose figures are held against it.
    episode : Episode
        What it is vetted beside.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.

    Returns
    -------
    Vetted
        Loose numbers with their times; no figures or claims, since captions hold none.
    """
    material = material_of(episode, bench, streams)
    around = Surroundings(episode.order.kitchen, bench.tables, streams)
    figures: tuple[VettedFigure, ...] = ()
    if script is not None:
        figures = vetted(read_script(script), material, around).figures
    said = loose_in_captions(cues(text), references_of(material, figures))
    return Vetted(Script("", (), ""), (), (), said, basis=_basis(material, LEVEL))


def vetted_theirs(text: str, bench: Workbench, streams: Streams) -> Theirs:
    """Someone else's number: which choices would give it.

    Parameters
    ----------
    text : str
        Such as "99 kg per kg beef".
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.

    Returns
    -------
    Theirs
        It never enters a total of ours.
    """
    return their_number(text, bench.tables, bench.matcher, streams)


def likened_quantity(
    text: str,
    kitchen: Kitchen,
    bench: Workbench,
    streams: Streams,
    *,
    celsius: float = 20.0,
    episode: Episode | None = None,
) -> tuple[Figure, tuple[Seen, ...]]:
    """A quantity as things people can see.

    Parameters
    ----------
    text : str
        "0.8 kg CO2", "0.55 kg CO2e", "7 litres", "1.2 kWh", or the plain words of a script
        where an episode is named.
    kitchen : Kitchen
        Whose hob, kettle, pots and region.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    celsius : float
        Temperature of a gas. [°C]
    episode : Episode or None
        What plain words are about.

    Returns
    -------
    tuple of Figure and tuple of Seen
        The quantity, and its likenesses with counts between 1 and 300, the best first.

    Raises
    ------
    QuantityError
        If it has no unit that can be likened.
    """
    figure = _quantity(text, streams.n)
    if figure is None and episode is not None:
        material = material_of(episode, bench, streams)
        figure = worked(phrase(plain(text)), material, material.basis)
    if figure is None:
        raise QuantityError(
            f"“{text}” is no quantity that can be likened.",
            remedy="Give a number with a unit, such as 0.8kgCO2, 550gCO2e, 7L or 1.2kWh.",
        )
    around = Surroundings(kitchen, bench.tables, streams, celsius + 273.15)
    return figure, liken(figure, around)


def drawn_alike(pictured: Sequence[Sequence[Seen]]) -> tuple[Seen, ...]:
    """One likeness of each quantity, all of one kind that can be drawn.

    Parameters
    ----------
    pictured : sequence of sequence of Seen
        The likenesses of each quantity, the best first.

    Returns
    -------
    tuple of Seen
        Of the kind that is best for the first; empty where they have none in common.
    """
    for seen in pictured[0]:
        alike = [next((one for one in some if one.kind == seen.kind), None) for some in pictured]
        found = tuple(one for one in alike if one is not None)
        if seen.shape != "none" and len(found) == len(pictured):
            return found
    return ()


_QUANTITY: Final = re.compile(
    r"^\s*(?P<number>\d{1,9}(?:\.\d{1,9})?|\.\d{1,9})\s*(?P<unit>mg|g|kg|t|ml|l|wh|kwh|litres?|liters?)\s*"
    r"(?:of\s+)?(?P<gas>co2eq?|co2-eq|co₂e|co2|co₂|carbon dioxide)?\s*$",
    re.IGNORECASE,
)
_SIZES: Final[dict[str, tuple[Unit, float]]] = {
    "mg": ("kg", 1e-6), "g": ("kg", 1e-3), "kg": ("kg", 1.0), "t": ("kg", 1000.0),
    "ml": ("L", 1e-3), "l": ("L", 1.0), "wh": ("kWh", 1e-3), "kwh": ("kWh", 1.0),
}  # fmt: skip


def _quantity(text: str, n: int) -> Figure | None:
    match = _QUANTITY.match(text)
    if match is None:
        return None
    name = match["unit"].lower()
    unit, size = _SIZES["l" if name.startswith("lit") else name]
    gas = (match["gas"] or "").lower()
    if gas and unit == "kg":
        unit = "kg CO2" if gas in {"co2", "co₂", "carbon dioxide"} else "kg CO2e"
    elif gas or unit == "kg":
        return None
    return Figure.exact(float(match["number"]) * size, unit, n)


def _basis(material: Material, level: float) -> dict[str, Any]:
    found = material.footprint(material.own, material.basis)
    return {
        **found.basis.to_dict(),
        "kept_from": level,
        "audience": list(material.audience),
        "region": material.kitchen_region,
        "vetted_by": __version__,
    }
