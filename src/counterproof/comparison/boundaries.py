"""Two regions, two boundaries: where one side's rows leave out what the other's hold."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Final

from counterproof.footprint.activities import energy_factor
from counterproof.footprint.model import Valuation
from counterproof.marks import Mark
from counterproof.rows import Tables

MISSING: Final[Mapping[tuple[str, str], float]] = {
    ("gas", "upstream"): 0.33,
    ("electricity", "upstream"): 0.44,
    ("electricity", "grid losses"): 0.18,
}
"""The most that a row may leave out, as a share of what it holds. [1]

Twice the UK's own figures of 2024 (UK conversion factors 2024, v1.1): well-to-tank over combustion
of natural gas, 0.03021/0.1829; well-to-tank over generation of electricity, 0.0459/0.20705;
transmission and distribution over generation, 0.0183/0.20705. Doubling is an assumption: other
countries leak and lose more. Where a grid's own losses are known they are added instead.
"""


def _lacking(found: Valuation, tables: Tables) -> dict[tuple[str, str], tuple[str, float]]:
    """What a side's energy rows leave out: (carrier, what) → region and kg CO2e resting on it."""
    sums: dict[tuple[str, str, str], float] = defaultdict(float)
    for item, mean in zip(found.charged, found.means, strict=True):
        for parameter in item.worth.parameters:
            kind, *rest = parameter.key.split("|")
            row = energy_factor(rest[0], rest[1], tables) if kind == "energy" else None
            for lacks in row.lacks.split(" and ") if row is not None and row.lacks else ():
                sums[rest[0], lacks, rest[1]] += mean
    return {(carrier, lacks): (region, kg) for (carrier, lacks, region), kg in sums.items()}


def unlike_boundaries(a: Valuation, b: Valuation, tables: Tables) -> tuple[list[Mark], str | None]:
    """What only one side's energy figures leave out, and whether the comparison rests on it.

    Parameters
    ----------
    a, b : Valuation
        The two sides, valued as they are compared.
    tables : Tables
        With what each region's rows leave out.

    Returns
    -------
    tuple of list of Mark and str or None
        Notes; and the reason why the comparison cannot be judged, where the difference is
        smaller than what is left out may be.
    """
    left, right = _lacking(a, tables), _lacking(b, tables)
    carriers = [{key.split("|")[1] for key in _energy_keys(side)} for side in (a, b)]
    marks: list[Mark] = []
    reason = None
    for (carrier, lacks), (region, kg) in {**left, **right}.items():
        both = (carrier, lacks) in left and (carrier, lacks) in right
        if both or not all(carrier in used for used in carriers):
            continue
        most = kg * MISSING.get((carrier, lacks), 1.0)
        says = f"The {carrier} figure for {region} leaves out {lacks}, the other side's does not"
        if abs(a.static - b.static) <= most:
            reason = (
                f"{says}: up to {most:.2g} kg CO2e a serving, more than the two sides differ by. "
                "The comparison cannot be judged."
            )
        marks.append(Mark("note", "boundaries-differ", f"{says}: up to {most:.2g} kg CO2e."))
    return marks, reason


def _energy_keys(found: Valuation) -> set[str]:
    return {
        parameter.key
        for item in found.charged
        for parameter in item.worth.parameters
        if parameter.key.startswith("energy|")
    }
