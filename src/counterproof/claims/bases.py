"""The other fair bases a claim is asked on, one change at a time from the stated one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final, Literal

from counterproof.claims.figure import Unit
from counterproof.claims.material import Basis, Material, Per, Subject
from counterproof.claims.operations import Asked, Lines, Phase, Portion, Quantity, parts, portions
from counterproof.claims.portions import chosen_lines, subject_of
from counterproof.comparison.covering import covering, differing_foods
from counterproof.footprint.factors import SETS, RangeFor, best_link
from counterproof.rows import FactorSet

PER: Final[tuple[Per, ...]] = ("1000 kcal", "100 g protein", "kg")


@dataclass(frozen=True, slots=True)
class Ground:
    """What a comparison stands on: the basis, its covering set, and whether it can be judged.

    Parameters
    ----------
    basis : Basis
        With the foods that differ valued in one set.
    set : FactorSet or None
        That set; None where nothing differs, or none covers.
    refused : str
        Why it cannot be judged on it; "" where it can.
    """

    basis: Basis
    set: FactorSet | None
    refused: str = ""


@dataclass(frozen=True, slots=True)
class OtherBasis:
    """One other fair basis.

    Parameters
    ----------
    name : str
        For people: "per 1000 kcal", "national set", "range for the average", "cooked in eu".
    ground : Ground or None
        None where it does not apply.
    inapplicable : str
        Why it does not; "" where it does.
    middle : {"mean", "median"} or None
        Where only the middles are set against each other.
    """

    name: str
    ground: Ground | None
    inapplicable: str = ""
    middle: Literal["mean", "median"] | None = None


def subjects_of(material: Material, *quantities: Quantity) -> tuple[Subject, ...]:
    """Every subject that operations speak of, each once.

    Parameters
    ----------
    material : Material
        What may be spoken of.
    *quantities : Quantity
        Any operations.

    Returns
    -------
    tuple of Subject
        In the order of first mention.
    """
    found = {
        subject_of(one, material).key: subject_of(one, material) for one in portions(*quantities)
    }
    return tuple(found.values())


def _differing(material: Material, quantities: tuple[Quantity, ...]) -> frozenset[str]:
    """Foods in which what is compared differs: between recipes, or between lines of one."""
    subjects = subjects_of(material, *quantities)
    readings = [material.entry(one)[0] for one in subjects]
    foods: set[str] = set()
    for at, one in enumerate(readings):
        for other in readings[at + 1 :]:
            foods |= differing_foods(one, other)
    named = _line_foods(material, quantities)
    if len(named) > 1:
        # Lines set against each other: whatever stands on one side only is a difference.
        foods |= frozenset.union(*named) - frozenset.intersection(*named)
    return frozenset(foods)


def _line_foods(material: Material, quantities: tuple[Quantity, ...]) -> list[frozenset[str]]:
    sides = []
    for quantity in quantities:
        lines = [part for part in parts(quantity) if isinstance(part, Lines)]
        if lines and not any(isinstance(p, (Portion, Phase)) for p in parts(quantity)):
            sides.append(
                frozenset(
                    part.food.id
                    for one in lines
                    for line in chosen_lines(one, material)
                    for part in line.constituents
                )
            )
    return sides


def ground(
    material: Material,
    basis: Basis,
    *quantities: Quantity,
    among: tuple[FactorSet, ...] = SETS,
) -> Ground:
    """What things are compared on: all foods in which they differ valued in one factor set.

    Parameters
    ----------
    material : Material
        What may be spoken of.
    basis : Basis
        The basis without sets.
    *quantities : Quantity
        What is compared.
    among : tuple of FactorSet
        Sets to choose from, in order of preference.

    Returns
    -------
    Ground
        Refused where no set covers, or where every covering set decides it only by masses inside
        one factor.
    """
    foods = _differing(material, quantities)
    if not foods:
        return Ground(basis, None)
    subjects = subjects_of(material, *quantities)
    base = [
        (material.footprint(one, basis), material.entry(one, basis.region)[0]) for one in subjects
    ]
    refused = ""
    for name in among:
        found = covering(base, foods, material.tables, among=(name,))
        if found.set is None:
            names = ", ".join(sorted(material.tables.foods[food].name for food in found.missing))
            refused = refused or f"The {name} set has no figure for {names}."
            continue
        if _inside_one_factor(material, quantities, foods, name):
            refused = (
                f"In the {name} set both sides have one factor, so only their masses would "
                "decide it."
            )
            continue
        sets = frozenset((food, name) for food in found.foods)
        return Ground(replace(basis, sets=sets), name)
    return Ground(basis, None, refused or "No factor set covers all that differs.")


def _inside_one_factor(
    material: Material,
    quantities: tuple[Quantity, ...],
    foods: frozenset[str],
    name: FactorSet,
) -> bool:
    """Whether different foods stand against each other under one factor of a set."""
    items = {
        link.item for food in foods if (link := best_link(food, name, material.tables)) is not None
    }
    if len(items) != 1 or len(foods) < 2:
        return False
    named = _line_foods(material, quantities)
    if named:
        return len(set(named)) > 1
    held = [
        {part.food.id for line in material.entry(one)[0].lines for part in line.constituents}
        for one in subjects_of(material, *quantities)
    ]
    # The same foods on both sides in other amounts are honestly told apart by their masses.
    return any(foods & one != foods for one in held)


def other_bases(
    asked: Asked, material: Material, stated: Ground, unit: Unit
) -> tuple[OtherBasis, ...]:
    """Every other fair basis of a claim, the inapplicable ones with their reason.

    Parameters
    ----------
    asked : Asked
        The claim.
    material : Material
        What may be spoken of.
    stated : Ground
        What it is asked on first.
    unit : Unit
        What its sides are counted in.

    Returns
    -------
    tuple of OtherBasis
        Per energy, protein and mass; sets; the other middle; the other range; audience regions.
    """
    if unit != "kg CO2e" and unit not in {"ratio", "share"}:
        return ()
    sides = asked.sides
    if not portions(*sides):
        return ()
    plain = replace(stated.basis, sets=frozenset())
    found: list[OtherBasis] = list(_per(material, stated, sides))
    found += _sets(material, plain, stated, sides)
    other_middle: Literal["mean", "median"] = "median" if material.middle == "mean" else "mean"
    found.append(OtherBasis(f"{other_middle} in the middle", stated, middle=other_middle))
    turned: RangeFor = "the-average" if plain.range_for == "one-purchase" else "one-purchase"
    label = f"range for {turned.replace('-', ' ')}"
    among = (stated.set,) if stated.set else SETS
    found.append(
        _on(label, ground(material, replace(plain, range_for=turned), *sides, among=among))
    )
    for region in material.audience:
        label = f"cooked in {region}"
        if region == material.kitchen_region:
            continue
        moved = ground(material, replace(plain, region=region), *sides, among=among)
        found.append(_on(label, moved))
    return tuple(found)


def _on(name: str, found: Ground) -> OtherBasis:
    return OtherBasis(name, None if found.refused else found, found.refused)


def _per(material: Material, stated: Ground, sides: tuple[Quantity, ...]) -> list[OtherBasis]:
    said = portions(*sides)
    keys = {(subject_of(one, material).key, one.whole) for one in said}
    found = []
    for per in PER:
        name = f"per {per}"
        if len(keys) < 2:
            found.append(OtherBasis(name, None, "both sides are of the same serving"))
            continue
        if any(one.whole for one in said):
            found.append(OtherBasis(name, None, "a whole batch is compared"))
            continue
        lacking = [
            subject.called
            for subject in subjects_of(material, *sides)
            if not _gives(material, subject, per)
        ]
        if lacking:
            why = f"what {' and '.join(lacking)} gives is not known"
            found.append(OtherBasis(name, None, why))
            continue
        found.append(OtherBasis(name, replace(stated, basis=replace(stated.basis, per=per))))
    return found


def _gives(material: Material, subject: Subject, per: Per) -> bool:
    gives = material.footprint(subject, material.basis).function
    amount = {"1000 kcal": gives.kcal, "100 g protein": gives.protein_g, "kg": gives.kg}[per]
    # A serving of which a hundred would hardly give the unit is no food for that comparison.
    least = {"1000 kcal": 10.0, "100 g protein": 1.0, "kg": 0.0}[per]
    return amount is not None and amount > least


def _sets(
    material: Material, plain: Basis, stated: Ground, sides: tuple[Quantity, ...]
) -> list[OtherBasis]:
    found = []
    for name in SETS:
        if stated.set is None:
            found.append(_whole_set(material, plain, sides, name))
        elif name != stated.set:
            found.append(_on(f"{name} set", ground(material, plain, *sides, among=(name,))))
    return found


def _whole_set(
    material: Material, plain: Basis, sides: tuple[Quantity, ...], name: FactorSet
) -> OtherBasis:
    """One recipe and its parts, all valued in one set."""
    label = f"{name} set"
    foods: set[str] = set()
    for subject in subjects_of(material, *sides):
        found = material.footprint(subject, plain)
        foods |= {part.item.food for part in found.items if part.item.food}
    missing = sorted(
        material.tables.foods[food].name
        for food in foods
        if food in material.tables.foods and best_link(food, name, material.tables) is None
    )
    if missing:
        return OtherBasis(label, None, f"the {name} set has no figure for {', '.join(missing[:3])}")
    sets = frozenset((food, name) for food in foods if food in material.tables.foods)
    return OtherBasis(label, Ground(replace(plain, sets=sets), name))
