"""What stands beside no line and no step, set into the Edition: keeping, packs, fizz, waste.

Beside `line_by_line.py`, which sets the lines and steps: these are results of the whole batch, and
the words for them are those of the trades of packing and disposal.
"""

from __future__ import annotations

from counterproof.footprint.fizz import FizzReport
from counterproof.footprint.model import Footprint
from counterproof.footprint.packaging import PackagingReport
from counterproof.proof import ActivityProof, ApartProof, FizzProof, PackagingProof


def activity_proofs(footprint: Footprint) -> tuple[ActivityProof, ...]:
    """Every activity that stands beside no line and no step.

    Parameters
    ----------
    footprint : Footprint
        Of one serving.

    Returns
    -------
    tuple of ActivityProof
        In the order charged. [kg CO2e]
    """
    return tuple(
        ActivityProof(
            name=part.item.name,
            stage=part.item.stage,
            amount=part.item.amount.mean / footprint.serves,
            unit=part.item.unit,
            kgco2e=part.kgco2e,
            factor=part.item.factor,
            source=part.item.source,
            belongs=part.item.apart,
        )
        for part in footprint.elsewhere
    )


def apart_proofs(footprint: Footprint) -> tuple[ApartProof, ...]:
    """The same activities, those that belong together as one.

    Parameters
    ----------
    footprint : Footprint
        Of one serving.

    Returns
    -------
    tuple of ApartProof
        With the range of each sum; with lines and steps they make the serving. [kg CO2e]
    """
    return tuple(
        ApartProof(what, part.kgco2e, part.share) for what, part in footprint.apart.items()
    )


def packaging_proof(
    own: PackagingReport | None, bought: PackagingReport | None
) -> PackagingProof | None:
    """The packs of one serving, beside those of what is bought instead.

    Parameters
    ----------
    own : PackagingReport or None
        Of one serving.
    bought : PackagingReport or None
        Of as much of what is bought instead; None where nothing is.

    Returns
    -------
    PackagingProof or None
        None where there is no report. [kg]
    """
    if own is None:
        return None
    return PackagingProof(
        own.packs,
        own.by_material,
        own.by_fate,
        own.not_transported,
        None if bought is None else bought.kg - own.kg,
        packaging_proof(bought, None),
    )


def fizz_proof(report: FizzReport | None) -> FizzProof | None:
    """The gas of one serving, and the serving with and without what escapes.

    Parameters
    ----------
    report : FizzReport or None
        None where nothing was fizzed at home.

    Returns
    -------
    FizzProof or None
        [kg, kg CO2e]
    """
    if report is None:
        return None
    return FizzProof(
        report.charged,
        report.dissolved,
        report.vented,
        report.left_in_cylinder,
        report.origin,
        report.counted,
        report.if_counted,
        report.if_not,
    )
