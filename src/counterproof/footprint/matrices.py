"""The product system of a recipe as matrices, for an LCA engine.

One process a row: the serving, the batch, every line and energy use, every factor used. A column
of the technosphere says what one unit of a process takes; of the biosphere, what it emits.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterproof.footprint.activities import Rated
from counterproof.footprint.items import Item
from counterproof.footprint.model import Footprint
from counterproof.rows import STAGES, Stage

Matrix = NDArray[np.float64]


@dataclass(frozen=True)
class ProductSystem:
    """Matrices of a recipe at the mean of every parameter, and their labels.

    Parameters
    ----------
    processes : tuple of str
        Labels of the technosphere's rows and columns, and of the biosphere's columns.
    units : tuple of str
        What one unit of each process is.
    flows : tuple of str
        Labels of the biosphere's rows: CO2-equivalent by life-cycle stage.
    technosphere : (p, p) array
        1 on the diagonal, what a process takes from others negative. [unit per unit]
    biosphere : (f, p) array
        What one unit of a process emits. [kg CO2e per unit]
    characterisation : (f,) array
        Weight of each flow; 1, since factors come characterised. [kg CO2e per kg CO2e]
    demand : (p,) array
        One serving. [unit]
    gwp : tuple of str
        Assessment reports that the factors were characterised by.
    """

    processes: tuple[str, ...]
    units: tuple[str, ...]
    flows: tuple[str, ...]
    technosphere: Matrix
    biosphere: Matrix
    characterisation: Matrix
    demand: Matrix
    gwp: tuple[str, ...]

    def files(self) -> dict[str, str]:
        """Return the system as texts by file name, for the edge to write.

        Returns
        -------
        dict of str to str
            `technosphere.csv`, `biosphere.csv` and `characterisation.csv` hold one entry a line
            (row, column, value; counted from 0; zeros left out); `system.json` holds labels,
            units, demand and what the figures rest on.
        """
        labels = {
            "processes": [
                {"index": at, "name": name, "unit": unit}
                for at, (name, unit) in enumerate(zip(self.processes, self.units, strict=True))
            ],
            "flows": [
                {"index": at, "name": name, "unit": "kg CO2e"} for at, name in enumerate(self.flows)
            ],
            "demand": [
                {"process": int(at), "amount": float(self.demand[at])}
                for at in np.flatnonzero(self.demand)
            ],
            "signs": "technosphere: produced positive, taken negative",
            "gwp": list(self.gwp),
        }
        return {
            "technosphere.csv": _entries(self.technosphere),
            "biosphere.csv": _entries(self.biosphere),
            "characterisation.csv": _entries(np.diag(self.characterisation)),
            "system.json": json.dumps(labels, indent=2, ensure_ascii=False) + "\n",
        }


def _entries(matrix: Matrix) -> str:
    rows = (
        f"{row},{column},{float(matrix[row, column])!r}"
        for row, column in zip(*(axis.tolist() for axis in np.nonzero(matrix)), strict=True)
    )
    return "\n".join(["row,column,value", *rows]) + "\n"


def _left(stages: tuple[float, ...], without: tuple[Stage, ...]) -> tuple[float, ...]:
    """The means of the stages that are not taken out, zero for the others."""
    return tuple(
        0.0 if stage in without else mean for stage, mean in zip(STAGES, stages, strict=True)
    )


def _takes(item: Item) -> Iterable[tuple[str, str, float, tuple[float, ...]]]:
    """What an item takes: label and unit of the factor, its amount, its mean by stage."""
    worth = item.worth
    if isinstance(worth, Rated):
        yield f"{worth.name} ({worth.stage})", worth.unit, item.amount.mean, worth.stages
        return
    gone = f", without {' and '.join(worth.without)}" if worth.without else ""
    for part in worth.components:
        row = part.factor
        label = f"{row.item}, {row.set} set, {row.basis}{gone}"
        amount = item.amount.mean * worth.link.per * part.share
        yield label, row.unit, amount, _left(part.stages, worth.without)
        if worth.season is not None:
            # What the season adds or saves is a process of its own beside the usual factor.
            told = worth.season.row
            added = (told.ratio - 1) * sum(part.stages)
            stages = _left(
                tuple(added if stage == told.stage else 0.0 for stage in STAGES), worth.without
            )
            yield f"{label}, {told.condition} for {told.food}", row.unit, amount, stages


def product_system(found: Footprint) -> ProductSystem:
    """Matrices of an assessed recipe.

    Parameters
    ----------
    found : Footprint
        What `assess` gave.

    Returns
    -------
    ProductSystem
        Whose solution for one serving is the footprint's static value.

    Notes
    -----
    With technosphere A, biosphere B, characterisation c and demand f, the score is c · B A⁻¹ f.
    Source: Heijungs R., Suh S. (2002), The Computational Structure of Life Cycle Assessment,
    chapter 2.
    """
    names = ["one serving", "the batch"]
    units = ["serving", "batch"]
    for part in found.items:
        item = part.item
        where = (
            {"line": f"line {item.number}: ", "energy": f"step {item.number}: "}
            if item.number
            else {}
        )
        names.append(f"{where.get(item.kind, '')}{item.name}")
        units.append("whole batch")
    taken = [(at, *take) for at, part in enumerate(found.items, 2) for take in _takes(part.item)]
    factors: dict[str, tuple[str, tuple[float, ...]]] = {
        label: (unit, stages) for _, label, unit, _, stages in taken
    }
    at_factor = {label: at for at, label in enumerate(factors, len(names))}
    names += factors
    units += [unit for unit, _ in factors.values()]
    technosphere = np.eye(len(names))
    biosphere = np.zeros((len(STAGES), len(names)))
    technosphere[1, 0] = -1.0 / found.serves
    technosphere[2 : 2 + len(found.items), 1] = -1.0
    for at, label, _, amount, _ in taken:
        technosphere[at_factor[label], at] -= amount
    for label, (_, stages) in factors.items():
        biosphere[:, at_factor[label]] = stages
    demand = np.zeros(len(names))
    demand[0] = 1.0
    return ProductSystem(
        processes=tuple(names),
        units=tuple(units),
        flows=tuple(f"CO2-equivalent, {stage}" for stage in STAGES),
        technosphere=technosphere,
        biosphere=biosphere,
        characterisation=np.ones(len(STAGES)),
        demand=demand,
        gwp=found.basis.gwp,
    )
