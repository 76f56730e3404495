"""The way to the shop, as a cook says it: "20 miles at 24 mpg", "8 km at 6 l/100 km", "5 km"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from counterproof.units import IMPERIAL_GALLON, US_GALLON

MILE: Final = 1.609344  # [km], exact: international yard and pound agreement of 1959

_SAID: Final = re.compile(
    r"(?P<far>[\d.]+)\s*(?P<unit>km|kilometres?|mi|miles?)"
    r"(?:\s+(?:at|,)?\s*(?P<burns>[\d.]+)\s*(?P<per>mpg|(?:l|litres?)\s*(?:/|per)\s*100\s*km))?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Trip:
    """There and back to the shop by car.

    Parameters
    ----------
    km : float
        Whole way, > 0. [km]
    litres : float or None
        Petrol burnt on it; None where the cook does not say what the car takes. [L]
    said : str
        In the cook's words.
    """

    km: float
    litres: float | None
    said: str


def trip_said(words: str, *, us: bool = False) -> Trip | None:
    """The way to the shop.

    Parameters
    ----------
    words : str
        As the cook says it.
    us : bool
        Whether a gallon is the US one; else the imperial.

    Returns
    -------
    Trip or None
        None where the words say no distance. [km, L]
    """
    found = _SAID.fullmatch(words.strip())
    if found is None:
        return None
    km = float(found["far"]) * (MILE if found["unit"].lower().startswith("mi") else 1.0)
    if not km:
        return None
    litres = None
    if found["burns"] is not None:
        burns = float(found["burns"])
        gallon = (US_GALLON if us else IMPERIAL_GALLON) / 1000
        if found["per"].lower() != "mpg":
            litres = km * burns / 100
        elif burns:
            litres = km / MILE / burns * gallon
        else:
            return None
    return Trip(km, litres, words.strip())
