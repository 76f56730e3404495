"""Keyed, stratified draws, and the uncertain numbers that use them."""

from counterproof.draws.distributions import (
    Blend,
    Distribution,
    Lognormal,
    Normal,
    Parameter,
    Uniform,
)
from counterproof.draws.products import Product, Range
from counterproof.draws.quantiles import Draws, normal_quantile
from counterproof.draws.streams import DRAWS, Streams, stream

__all__ = [
    "DRAWS",
    "Blend",
    "Distribution",
    "Draws",
    "Lognormal",
    "Normal",
    "Parameter",
    "Product",
    "Range",
    "Streams",
    "Uniform",
    "normal_quantile",
    "stream",
]
