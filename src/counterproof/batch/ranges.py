"""Ranges of sums of uncertain amounts, as batches need them."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from counterproof.draws import Product, Range, Streams
from counterproof.physics.spread import Spread
from counterproof.reading.model import MarkedLine


def range_of(products: Iterable[Product], streams: Streams) -> Range:
    """The range of a sum of products.

    Parameters
    ----------
    products : iterable of Product
        Its parts; none at all is nothing. [any unit]
    streams : Streams
        Seed and number of draws.

    Returns
    -------
    Range
        Mean and percentiles. [the same unit]
    """
    parts = list(products)
    drawn = np.zeros(streams.n)
    for part in parts:
        drawn += part.draws(streams)
    return Range.of(drawn, sum(part.mean for part in parts))


def range_of_spread(spread: Spread) -> Range:
    """The range that three percentiles of a time say.

    Parameters
    ----------
    spread : Spread
        A time. [s]

    Returns
    -------
    Range
        With its mean. [s]
    """
    return Range(spread.mean, spread.p05, spread.p50, spread.p95)


def mass_of_line(line: MarkedLine, streams: Streams) -> Range | None:
    """What a line is taken to weigh.

    Parameters
    ----------
    line : MarkedLine
        The line as understood.
    streams : Streams
        Seed and number of draws.

    Returns
    -------
    Range or None
        None where a part of it could not be weighed. [kg]
    """
    masses = [part.mass for part in line.constituents]
    known = [mass for mass in masses if mass is not None]
    if not known or len(known) < len(masses):
        return None
    return range_of(known, streams)
