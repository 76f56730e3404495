"""A portion worked out on a stated basis: the whole of it, some of its lines, one of its stages."""

from __future__ import annotations

import numpy as np

from counterproof.claims.figure import Figure, Unit, joined
from counterproof.claims.kitchen_times import Unworked
from counterproof.claims.material import Basis, Material, Subject
from counterproof.claims.operations import Lines, Phase, Portion
from counterproof.draws import Draws, Lognormal, Parameter
from counterproof.footprint.model import Footprint
from counterproof.reading.model import MarkedLine
from counterproof.rows import STAGES
from counterproof.sourced import Sourced

SPARKLING = Sourced(
    0.006, "kg/kg", 0.25, "assumed", "",
    "carbon dioxide in sparkling water: 6 g a litre, as bottled ones hold 5 to 9; what a home "
    "machine gives is worked out by `physics carbonate`",
)  # fmt: skip

FIZZY = frozenset({"water-sparkling", "water-home-carbonated"})
"""Food.id of what brings the gas."""


def subject_of(of: Portion, material: Material) -> Subject:
    """The subject a portion is of.

    Parameters
    ----------
    of : Portion
        The portion.
    material : Material
        What may be spoken of.

    Returns
    -------
    Subject
        The one named.

    Raises
    ------
    NotUnderstood
        If nothing is called so.
    """
    found = material.found(of.of.words)
    if found is None:
        raise material.unknown(of.of.words)
    return found


def _told_per(found: Footprint, of: Portion, basis: Basis) -> float:
    """What one serving is multiplied by."""
    if of.whole:
        return found.serves
    if basis.per == "serving" or of.taken != "footprint":
        return 1.0
    gives = found.function
    amount = {
        "1000 kcal": None if gives.kcal is None else gives.kcal / 1000,
        "100 g protein": None if gives.protein_g is None else gives.protein_g / 100,
        "kg": gives.kg,
    }[basis.per]
    if not amount:
        raise Unworked(
            f"What one serving gives in terms of {basis.per} is not known.",
            remedy="Compare per serving.",
        )
    return 1.0 / amount


def conditions_of(found: Footprint, material: Material, basis: Basis) -> tuple[str, ...]:
    """What a footprint holds under, in phrases.

    Parameters
    ----------
    found : Footprint
        Of one serving.
    material : Material
        The script's.
    basis : Basis
        What it was worked out on.

    Returns
    -------
    tuple of str
        Range, region, sets, warming edition.
    """
    region = basis.region or material.kitchen_region
    return (
        f"range for {basis.range_for.replace('-', ' ')}",
        f"cooked in {region.upper() if len(region) <= 3 else region}",
        f"factor sets: {', '.join(found.basis.factor_sets) or 'none'}",
        *(f"warming by {edition}" for edition in found.basis.gwp),
        *((f"per {basis.per}",) if basis.per != "serving" else ()),
    )


def portion_figure(of: Portion, material: Material, basis: Basis) -> Figure:
    """What a portion weighs, costs, gives or adds to the climate.

    Parameters
    ----------
    of : Portion
        Whose, and what of it.
    material : Material
        What may be spoken of.
    basis : Basis
        On what it is worked out.

    Returns
    -------
    Figure
        With its conditions and sources.

    Raises
    ------
    NotUnderstood
        If it names what is not there, or nothing of it is counted.
    """
    subject = subject_of(of, material)
    found = material.footprint(subject, basis)
    scale = _told_per(found, of, basis)
    sources = tuple(source.id for source in found.sources)
    if of.taken == "footprint":
        _refuse_uncounted(found)
        conditions = conditions_of(found, material, basis)
        return Figure(found.draws * scale, found.static * scale, "kg CO2e", conditions, sources)
    if of.taken == "energy":
        rows = [part.item for part in found.items if part.item.unit == "kWh"]
        if not rows:
            raise Unworked("No energy is counted here.", remedy="Ask for something else.")
        drawn = sum(
            (row.amount.draws(material.streams) for row in rows), np.zeros(material.streams.n)
        )
        mean = sum(row.amount.mean for row in rows)
        return Figure(drawn * scale / found.serves, mean * scale / found.serves, "kWh")
    if of.taken == "gas":
        return _gas(subject, material, scale / found.serves)
    if of.taken == "cost":
        cost = material.cost(subject)
        if cost is None:
            raise Unworked("No prices are known.", remedy="Put a prices.yaml beside the season.")
        value = cost.per_serving.scaled(scale)
        draws = np.interp(
            (np.arange(material.streams.n) + 0.5) / material.streams.n,
            (0.05, 0.5, 0.95),
            (value.p05, value.p50, value.p95),
        )
        return Figure(draws, value.mean, "price", currency=cost.currency)
    return _function(of, found, material, scale)


def _refuse_uncounted(found: Footprint) -> None:
    if not found.items:
        raise Unworked("Nothing of it is counted.", remedy="Settle its doubts first: `mark`.")


def _function(of: Portion, found: Footprint, material: Material, scale: float) -> Figure:
    gives = found.function
    values: dict[str, tuple[float | None, Unit]] = {
        "weight": (gives.kg, "kg"),
        "volume": (gives.litres, "L"),
        "kcal": (gives.kcal, "kcal"),
        "protein": (None if gives.protein_g is None else gives.protein_g / 1000, "kg"),
    }
    value, unit = values[of.taken]
    if value is None:
        raise Unworked(
            f"The {of.taken if of.taken != 'kcal' else 'energy'} of a serving is not known.",
            remedy="It needs a composition for nine tenths of the mass, and for a volume a drink "
            "or a soup.",
        )
    return Figure.exact(value * scale, unit, material.streams.n, ("at the middle of the masses",))


def _gas(subject: Subject, material: Material, scale: float) -> Figure:
    reading, _ = material.entry(subject)
    masses = [
        part.mass
        for line in reading.lines
        for part in line.constituents
        if part.food.id in FIZZY and part.mass is not None
    ]
    if not masses:
        raise Unworked(
            "No sparkling water stands in this recipe.", remedy="Name a recipe that has a fizz."
        )
    held = Parameter(
        "carbonation|sparkling water", Lognormal.from_spread(SPARKLING.value, SPARKLING.spread)
    )
    drawn: Draws = np.zeros(material.streams.n)
    for mass in masses:
        drawn = drawn + mass.draws(material.streams)
    drawn = drawn * material.streams.values(held) * scale
    mean = sum(mass.mean for mass in masses) * SPARKLING.value * scale
    return Figure(drawn, mean, "kg CO2", (SPARKLING.note,))


def chosen_lines(of: Lines, material: Material) -> tuple[MarkedLine, ...]:
    """The ingredient lines that are meant, each once.

    Parameters
    ----------
    of : Lines
        Names and portion.
    material : Material
        What may be spoken of.

    Returns
    -------
    tuple of MarkedLine
        In the recipe's order.
    """
    subject = subject_of(of.of, material)
    chosen = {
        line.written.number: line for name in of.names for line in material.lines(name, subject)
    }
    return tuple(chosen[number] for number in sorted(chosen))


def lines_figure(of: Lines, material: Material, basis: Basis) -> Figure:
    """What ingredient lines weigh or add to the climate.

    Parameters
    ----------
    of : Lines
        Their names, and the portion they belong to.
    material : Material
        What may be spoken of.
    basis : Basis
        On what it is worked out.

    Returns
    -------
    Figure
        With its conditions and sources.

    Raises
    ------
    NotUnderstood
        If it names what is not there, or nothing of it is counted.
    """
    subject = subject_of(of.of, material)
    lines = chosen_lines(of, material)
    if not lines:
        raise material.unknown(" and ".join(of.names))
    numbers = {line.written.number for line in lines}
    found = material.footprint(subject, basis)
    scale = _told_per(found, of.of, basis)
    told = tuple(f"counted: {line.written.text}" for line in lines)
    if of.of.taken == "weight":
        masses = [part.mass for line in lines for part in line.constituents if part.mass]
        drawn = sum((mass.draws(material.streams) for mass in masses), np.zeros(material.streams.n))
        mean = sum(mass.mean for mass in masses)
        return Figure(drawn * scale / found.serves, mean * scale / found.serves, "kg", told)
    at = [
        place
        for place, part in enumerate(found.items)
        if part.item.kind == "line" and part.item.number in numbers
    ]
    if not at:
        raise Unworked(
            f"“{lines[0].written.text}” is not counted, so nothing can be said of it.",
            remedy="Settle its doubt first: `counterproof mark` says which.",
        )
    mean = sum(found.items[place].kgco2e.mean for place in at)
    sources = joined(found.items[place].item.source for place in at)
    return Figure(
        found.item_draws[at].sum(axis=0) * scale,
        mean * scale,
        "kg CO2e",
        (*told, *conditions_of(found, material, basis)),
        sources,
    )


def phase_figure(of: Phase, material: Material, basis: Basis) -> Figure:
    """What one life-cycle stage of a portion takes or adds to the climate.

    Parameters
    ----------
    of : Phase
        The stage and the portion.
    material : Material
        What may be spoken of.
    basis : Basis
        On what it is worked out.

    Returns
    -------
    Figure
        With its conditions and sources.

    Raises
    ------
    NotUnderstood
        If it names what is not there, or nothing of it is counted.
    """
    found = material.footprint(subject_of(of.of, material), basis)
    scale = _told_per(found, of.of, basis)
    drawn, mean, counted = stage_draws(of.stage, found, material, of.place)
    if not counted:
        raise Unworked(
            f"Nothing is counted under {of.stage} here.",
            remedy="The recipe needs a step, a pack or a keep that belongs there.",
        )
    if of.of.taken == "energy":
        rows = [
            part.item
            for part in found.items
            if part.item.unit == "kWh" and part.item.stage == of.stage
        ]
        drawn = sum(
            (row.amount.draws(material.streams) for row in rows), np.zeros(material.streams.n)
        )
        total = sum(row.amount.mean for row in rows)
        return Figure(drawn * scale / found.serves, total * scale / found.serves, "kWh")
    return Figure(
        drawn * scale, mean * scale, "kg CO2e", conditions_of(found, material, basis),
        tuple(source.id for source in found.sources),
    )  # fmt: skip


def stage_draws(
    stage: str, found: Footprint, material: Material, place: str = ""
) -> tuple[Draws, float, bool]:
    """One life-cycle stage of one serving, draw by draw.

    Parameters
    ----------
    stage : str
        A stage of `rows.STAGES`.
    found : Footprint
        Of one serving.
    material : Material
        With the streams it was drawn on.
    place : str
        fridge or freezer, where storage is narrowed to one; items that name it are taken.

    Returns
    -------
    tuple of (n,) array, float and bool
        Draws and mean [kg CO2e]; whether anything is counted there at all.
    """
    at = [str(name) for name in STAGES].index(stage)
    drawn: Draws = np.zeros(material.streams.n)
    mean, counted = 0.0, False
    for row, part in enumerate(found.items):
        item = part.item
        share = item.worth.stages[at]
        if not share or (place and place not in item.name):
            continue
        counted = True
        mean += part.stages.get(STAGES[at], 0.0)
        if sum(1 for value in item.worth.stages if value) == 1:
            drawn = drawn + found.item_draws[row]
        elif stage == "production":
            rest = sum(item.worth.stages) - share
            drawn = drawn + found.item_draws[row]
            drawn = drawn - rest * item.amount.draws(material.streams) / found.serves
        else:
            drawn = drawn + share * item.amount.draws(material.streams) / found.serves
    return drawn, mean, counted
