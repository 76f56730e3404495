"""A recipe scaled to what there is, with its batches behind it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from counterproof.batch.corrections import sound_yields
from counterproof.batch.jarred import Jars, jars_of, litres_of
from counterproof.batch.measurable import Measuring
from counterproof.batch.planned import planned_figures
from counterproof.batch.scaling import (
    Scaled,
    having,
    measures_at,
    scaled_lines,
)
from counterproof.batch.splitting import FULL, fullest, split_over
from counterproof.batch.unscaled import Size, unscaled_of
from counterproof.batch_cases import Written, recorded
from counterproof.draws import Streams
from counterproof.errors import InputError
from counterproof.marks import Mark
from counterproof.plan.planning import plan_of
from counterproof.use_cases import Order, Workbench, mark


@dataclass(frozen=True, slots=True)
class Wish:
    """What a recipe is to be scaled to; at least one of the first four.

    Parameters
    ----------
    serves : float or None
        How many people. [servings]
    have : str or None
        What there is of one ingredient, as a recipe line.
    jars : (int, float) or None
        How many jars, and what one holds brimful. [m³]
    pot : float or None
        What the pot holds brimful. [L]
    stations : int or None
        How many cook it side by side.
    hobs : int or None
        How many rings there are.
    measuring : Measuring
        In whose measures.
    """

    serves: float | None = None
    have: str | None = None
    jars: tuple[int, float] | None = None
    pot: float | None = None
    stations: int | None = None
    hobs: int | None = None
    measuring: Measuring = "as written"


def scaled(
    order: Order, bench: Workbench, streams: Streams, wish: Wish, files: Sequence[Written] = ()
) -> Scaled:
    """A recipe brought to what there is.

    Parameters
    ----------
    order : Order
        The recipe and its kitchen.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    wish : Wish
        What it is scaled to.
    files : sequence of Written
        Its batches, whose measured yield outranks the planned one.

    Returns
    -------
    Scaled
        Lines, pots, ratios, and what does not scale.

    Raises
    ------
    InputError
        If nothing is asked for, or two things decide the size.
    """
    asked = [wish.serves, wish.have, wish.jars]
    if sum(one is not None for one in asked) > 1 or (
        all(one is None for one in asked) and wish.pot is None
    ):
        raise InputError(
            "One thing decides how much is made: people, an ingredient, jars or the pot.",
            remedy="Give one of --serves 20, --have “1.3 kg squash”, --jars 6x473ml or --pot 7L; "
            "--pot, --stations and --hobs may stand beside the others.",
        )
    reading = mark(replace(order, serves=None), bench)
    tables = bench.tables
    plan = plan_of(reading, tables, bench.coolings)
    written = Size(reading, plan, planned_figures(reading, plan, tables, streams))
    marks: list[Mark] = []
    asking = _Asking(written, order, bench, streams, files, marks)
    factor, because, jars = _factor(wish, asking)
    split = split_over(
        factor * fullest(reading, tables), reading, room=wish.pot, stations=wish.stations,
        hobs=wish.hobs,
    )  # fmt: skip
    nowhere = split.vessel is None and wish.pot is None
    if nowhere and reading.kitchen.vessels and split.litres > 0.0:
        says = (
            f"No pot of this kitchen holds {split.litres / FULL.value:.2g} L, which one pot needs to "
            "have room to boil. Name one in the kitchen file, or split it: --stations N."
        )
        marks.append(Mark("doubt", "no-pot", says))
    per = factor / split.pots
    measures = measures_at(reading, wish.measuring)
    recipe, lines, ratios = scaled_lines(reading, per, split.pots, measures, tables, bench.matcher)
    pot = mark(replace(order, serves=reading.serves * per), bench)
    pot_plan = plan_of(pot, tables, bench.coolings)
    cooked = Size(pot, pot_plan, planned_figures(pot, pot_plan, tables, streams))
    marks += [
        Mark(
            "doubt",
            "ratio-lost",
            f"Rounding moves a part of the {ratio.kind}: weigh it more finely.",
        )
        for ratio in ratios
        if not ratio.holds
    ]
    return Scaled(
        recipe, reading, factor, reading.serves * factor, because, lines, split, jars, ratios,
        unscaled_of(written, cooked, split.pots), tuple(marks),
    )  # fmt: skip


@dataclass(frozen=True)
class _Asking:
    """What a size is decided from; marks are added on the way."""

    written: Size
    order: Order
    bench: Workbench
    streams: Streams
    files: Sequence[Written]
    marks: list[Mark]


def _factor(wish: Wish, asking: _Asking) -> tuple[float, str, Jars | None]:
    """How many times the recipe, what decided it, and the jars if they did."""
    reading, tables = asking.written.reading, asking.bench.tables
    if wish.serves is not None:
        return wish.serves / reading.serves, f"{wish.serves:g} servings", None
    if wish.have is not None:
        return (*having(wish.have, reading, tables, asking.bench.matcher), None)
    if wish.jars is not None:
        return _to_jars(wish.jars, asking)
    litres = fullest(reading, tables)
    if litres <= 0.0 or wish.pot is None:
        raise InputError(
            "Nothing of this recipe is cooked in a pot on the hob.",
            remedy="Scale it by people, an ingredient or jars.",
        )
    says = f"a pot of {wish.pot:g} L, {FULL.value:.0%} full"
    return FULL.value * wish.pot / litres, says, None


def _to_jars(asked: tuple[int, float], asking: _Asking) -> tuple[float, str, Jars]:
    written, tables, marks = asking.written, asking.bench.tables, asking.marks
    brix = written.figures.get("brix")
    sugar = 0.0 if brix is None else brix.mean / 100.0
    jars = jars_of(*asked, written.reading, written.plan, tables, sugar=sugar)
    litres, source = _makes(asking)
    if not litres:
        raise InputError(
            "How much this recipe makes is not known.",
            remedy="Write weights into its lines, or record a batch.",
        )
    marks += [Mark("doubt", flag.name, flag.message) for flag in jars.filled.flags]
    if not any(keep.where == "freezer" for keep in written.reading.recipe.keep):
        says = (
            "The jars are filled to leave room for ice, though the recipe is not kept in a freezer."
        )
        marks.append(Mark("note", "freeze-line", says))
    because = (
        f"{jars.count} jars of {1e6 * jars.volume:.0f} ml, {1e6 * jars.filled.line:.0f} ml in each: "
        f"{jars.litres:.2f} L, where the recipe makes {litres:.2f} L {source}"
    )
    return jars.litres / litres, because, jars


def _makes(asking: _Asking) -> tuple[float | None, str]:
    """What the recipe makes [L], and whether batches say so or the plan."""
    written, files = asking.written, asking.files
    if files:
        found = recorded(asking.order, asking.bench, asking.streams, files)
        measured = sound_yields(found.evidence)[0]
        if measured is not None:
            count = len(measured.values)
            source = (
                "as one batch gave it" if count == 1 else f"as {count} batches gave it on average"
            )
            return 1000.0 * measured.mean, source
    return litres_of(written.reading, written.plan, asking.bench.tables), "as planned"
