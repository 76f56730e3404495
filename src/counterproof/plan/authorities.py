"""Who says it, in a few words, for print beside a rule."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

AUTHORITIES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "fda-food-code": "US FDA Food Code",
        "us-internal-temperatures": "US chart of minimum internal temperatures",
        "uk-core-temperature": "UK advice on cooking",
        "uk-temperature-control": "UK temperature rules",
        "us-cold-storage": "US cold food storage chart",
        "us-cold-storage-older": "US cold food storage chart, older edition",
        "usda-foodkeeper": "USDA FoodKeeper data",
        "usda-nal-leftovers": "USDA, leftovers",
        "nz-mpi-leftovers": "New Zealand MPI, leftovers",
        "usda-two-hours": "USDA two-hour rule",
        "cdc-honey": "US CDC, as quoted",
        "cdc-cooling": "US CDC on cooling",
        "psu-oil": "US university extension, foods in oil",
        "unl-soup": "US university extension, soups",
        "nchfp-headspace": "US national home-preservation center, headspace",
    }
)
"""Short names by id of a source; the full citation stands in `data/sources.csv`."""


def authority(source: str) -> str:
    """Who says it.

    Parameters
    ----------
    source : str
        Id of a source, or "common practice".

    Returns
    -------
    str
        A short name; the id itself where none is kept.
    """
    return AUTHORITIES.get(source, source)
