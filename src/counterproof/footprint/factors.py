"""From a food to its emission factor: which set, which item, with what deviation."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import exp, expm1, log, log1p, sqrt
from typing import Literal

import numpy as np

from counterproof.draws import Blend, Distribution, Draws, Lognormal, Normal, Parameter, Streams
from counterproof.footprint.season import Applied
from counterproof.footprint.shapes import Percentiles, published_points, solved_shape
from counterproof.reading.fits import FITS
from counterproof.rows import STAGES, Factor, FactorSet, Fit, Link, Stage, Tables

RangeFor = Literal["one-purchase", "the-average"]

SETS: tuple[FactorSet, ...] = ("global", "national", "literature")
"""Factor sets in order of preference among equal fits.

First the one with the producers' spread; then the one with a single boundary and stages; last
the medians of studies whose boundaries differ.
"""

OF_A_CLASS: frozenset[Fit] = frozenset({"same", "other form", "class average"})
"""Fits of a food that the global set's classes hold; a relative is not one of them."""

LINK_DEVIATION: Mapping[Fit, float] = {
    "same": 1.0,
    "other form": 1.1,
    "relative": 1.3,
    "class average": 1.6,
}
"""Geometric standard deviation of a food about the factor it is linked to. [1]

Class average: measured, the geometric standard deviation from farm to retail of 104 raw vegetables
is 1.60, of 36 pulses 1.61, of 66 raw fruits 1.79 (AGRIBALYSE 3.1.1, foods of one subgroup). Other
form (dried from fresh, paste from whole) and relative: assumptions, which affect every food so
linked; a conversion of mass is known to about a tenth, and a relative stands between the two.
"""

BETWEEN_SETS = 0.46
"""Log standard deviation of one food's factor between the three sets, over 26 staples. [1]

The sets: Poore & Nemecek 2018, SU-EATABLE LIFE 2021, AGRIBALYSE 3.1.1.
"""


@dataclass(frozen=True, slots=True)
class Component:
    """One factor's part in what stands for a food: the whole, or a share of a mixture."""

    share: float
    factor: Factor
    parameter: Parameter  # kg CO2e per unit of the factor
    stages: tuple[float, ...]  # mean by stage, in the order of rows.STAGES, same unit
    staged: bool  # whether the source says how the factor divides by stage


@dataclass(frozen=True)
class Valued:
    """What stands for a food: factors, their mass basis, and the food's own deviation.

    Its means are asked for again and again, and worked out once.

    Parameters
    ----------
    link : Link
        The link that was followed.
    components : tuple of Component
        One, or the parts of a mixture; their shares sum to 1.
    deviation : Parameter or None
        Of the food about what it is linked to, mean 1; None where it is the same food. [1]
    purchase : Parameter or None
        Which part of a mixture a purchase is and what that part is; None where there is but one
        part, or where the mixture itself is asked for. [kg CO2e per unit of the factor]
    season : Applied or None
        What season or carriage multiplies it by, where they are known. [1]
    without : tuple of Stage
        Stages taken out of the factor, because something specific stands in their place.
    """

    link: Link
    components: tuple[Component, ...]
    deviation: Parameter | None
    purchase: Parameter | None = None
    season: Applied | None = None
    without: tuple[Stage, ...] = ()

    @cached_property
    def stages(self) -> tuple[float, ...]:
        """Mean by stage, in the order of `rows.STAGES`. [kg CO2e per kg of the food]"""
        return tuple(
            0.0 if stage in self.without else mean
            for stage, mean in zip(STAGES, self._whole_stages, strict=True)
        )

    @cached_property
    def replaced(self) -> Mapping[Stage, float]:
        """Mean of the stages taken out. [kg CO2e per kg of the food]"""
        whole = dict(zip(STAGES, self._whole_stages, strict=True))
        return {stage: whole[stage] for stage in self.without}

    @cached_property
    def _whole_stages(self) -> tuple[float, ...]:
        usual = [
            self.link.per * sum(part.share * part.stages[at] for part in self.components)
            for at in range(len(STAGES))
        ]
        if self.season is not None:
            row = self.season.row
            usual[STAGES.index(row.stage)] += (row.ratio - 1) * sum(usual)
        return tuple(usual)

    @property
    def staged(self) -> bool:
        """Whether the source says how the factor divides by stage."""
        return all(part.staged for part in self.components)

    @property
    def as_bought(self) -> bool:
        """Whether the factor is per mass as bought, not per edible mass."""
        return self.components[0].factor.basis == "as bought"

    @cached_property
    def terms(self) -> tuple[tuple[float, Parameter], ...]:
        """What is drawn: parameters and their weights, without the food's own deviation."""
        if self.purchase is not None:
            return ((1.0, self.purchase),)
        return tuple((part.share, part.parameter) for part in self.components)

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        """The factors' parameters, without the food's own deviation."""
        return tuple(parameter for _, parameter in self.terms)

    @property
    def drawn_from(self) -> tuple[Hashable, ...]:
        """Everything that the draws follow from."""
        season = None if self.season is None else self.season.parameter
        taken_out = sum(self.replaced.values())
        return (self.terms, self.link.per, self.deviation, season, taken_out)

    @cached_property
    def mean(self) -> float:
        """Expected kg CO2e per kg of the food."""
        return self.whole - sum(self.replaced.values())

    @cached_property
    def whole(self) -> float:
        """Expected kg CO2e per kg of the food, no stage taken out."""
        usual = self.link.per * sum(
            part.share * part.parameter.distribution.mean for part in self.components
        )
        return usual if self.season is None else usual * self.season.row.ratio

    def draws(self, streams: Streams) -> Draws:
        """Return the draws of kg CO2e per kg of the food.

        Parameters
        ----------
        streams : Streams
            Seed, number of draws, and the draws already made.

        Returns
        -------
        (n,) array
            A new array. [kg CO2e per kg of the food]
        """
        drawn: Draws = np.zeros(streams.n)
        for weight, parameter in self.terms:
            drawn += weight * streams.values(parameter)
        drawn *= self.link.per
        if self.deviation is not None:
            drawn *= streams.values(self.deviation)
        if self.season is not None:
            drawn *= streams.values(self.season.parameter)
        if self.without:
            # Stages after the farm are constants: taking one out moves every draw alike.
            drawn -= sum(self.replaced.values())
        return drawn


def best_link(food: str, factor_set: FactorSet, tables: Tables) -> Link | None:
    """Best-fitting link of a food in one set.

    Parameters
    ----------
    food : str
        Food.id.
    factor_set : FactorSet
        The set to look in.
    tables : Tables
        All tables.

    Returns
    -------
    Link or None
        The first of equally well fitting ones; None where the set has nothing for the food.
    """
    links = [link for link in tables.links.get(food, ()) if link.set == factor_set]
    return min(links, key=lambda link: FITS.index(link.fit), default=None)


def base_link(food: str, tables: Tables) -> Link | None:
    """Link that values a food in a total.

    Parameters
    ----------
    food : str
        Food.id.
    tables : Tables
        All tables.

    Returns
    -------
    Link or None
        The global set's where the food is one of its classes, another form of one, or a member
        of one; otherwise the best-fitting one of all sets, the global set's among equals; None
        where there is none.

    Notes
    -----
    A member of a class (lentils among pulses) stays in the global set although its own figure
    in another set fits better: a total that mixes sets makes false swaps, since the global set
    is the highest for most foods. Its own deviation about the class says how little is known.
    """
    links = [link for name in SETS if (link := best_link(food, name, tables)) is not None]
    if links and links[0].set == "global" and links[0].fit in OF_A_CLASS:
        return links[0]
    return min(links, key=lambda link: FITS.index(link.fit), default=None)


def _purchase_distribution(factor: Factor, tables: Tables) -> Distribution:
    """What a randomly bought item may be."""
    points = published_points(factor)
    if points is not None:
        stored = tables.shapes.get((factor.set, factor.item))
        tails, body = solved_shape(factor) if stored is None else (stored.tails, stored.body)
        return Percentiles(*points, tails, body)
    if factor.mean <= 0:
        return Normal(factor.mean, abs(factor.mean) * (_deviation(factor) - 1))
    if factor.middle == "median":
        return Lognormal.from_median(factor.mean, _deviation(factor))
    return Lognormal(factor.mean, log(_deviation(factor)))


def _deviation(factor: Factor) -> float:
    # A source without a grade: the only dispersion ever measured here is that between sets.
    return exp(BETWEEN_SETS) if factor.spread is None else factor.spread


def _average_distribution(factor: Factor, purchase: Distribution) -> Distribution:
    """How well the mean is known; a lower bound, since sets share sources and errors."""
    mean = purchase.mean
    if not isinstance(purchase, Percentiles):
        if mean <= 0:
            return purchase
        return Lognormal(mean, max(BETWEEN_SETS, log(_deviation(factor))))
    middles = (np.arange(2000) + 0.5) / 2000
    # Studies count, never farms: farms of one study are clustered.
    error = float(purchase.quantile(middles).std()) / sqrt(max(1, factor.studies or 1))
    if mean <= 0 or purchase.values[1] < 0:
        between = abs(mean) * sqrt(expm1(BETWEEN_SETS**2))
        return Normal(mean, sqrt(error**2 + between**2))
    return Lognormal(mean, sqrt(log1p((error / mean) ** 2) + BETWEEN_SETS**2))


def factor_parameter(
    factor: Factor, tables: Tables, *, range_for: RangeFor, food: str, purchase: str = "home"
) -> Parameter:
    """Keyed parameter of a factor.

    Parameters
    ----------
    factor : Factor
        A row of a factor table. [kg CO2e per unit of the factor]
    tables : Tables
        All tables; a solved shape is taken from there, or solved here.
    range_for : RangeFor
        one-purchase: what a randomly bought item may be. the-average: how well the mean is
        known, a lower bound.
    food : str
        Food.id: under one-purchase two foods of one class are bought apart.
    purchase : str
        "home", or the name of a second purchase of the same food.

    Returns
    -------
    Parameter
        Of the same mean in both cases. [kg CO2e per unit of the factor]

    Notes
    -----
    one-purchase: through the published percentiles; else lognormal with the source's geometric
    standard deviation, exp(0.46) where it gives none. the-average: the error of the mean within
    the set, standard deviation / √studies, combined with the dispersion between sets (0.46 as a
    log standard deviation). The floor by fit is the link's own deviation, which multiplies it.
    Where percentiles are negative the errors add (normal) instead of multiplying.
    """
    distribution = _purchase_distribution(factor, tables)
    key = f"factor|{factor.set}|{factor.item}"
    if range_for == "the-average":
        return Parameter(key, _average_distribution(factor, distribution))
    return Parameter(f"{key}|{food}|{purchase}", distribution)


def _component(
    share: float, factor: Factor, tables: Tables, *, range_for: RangeFor, food: str, purchase: str
) -> Component:
    parameter = factor_parameter(factor, tables, range_for=range_for, food=food, purchase=purchase)
    rows = tables.stages.get((factor.set, factor.item), ())
    means: dict[str, float] = dict.fromkeys(STAGES, 0.0)
    for row in rows:
        if row.stage in means and row.stage != "production":
            means[row.stage] += row.mean
    # Production, with losses and conversion, is what no other stage holds.
    rest = parameter.distribution.mean - sum(means.values())
    means["production"] = 0.0 if abs(rest) < 1e-12 else rest
    return Component(share, factor, parameter, tuple(means.values()), bool(rows))


def valued(link: Link, tables: Tables, *, range_for: RangeFor, purchase: str = "home") -> Valued:
    """What stands for a food, by one link.

    Parameters
    ----------
    link : Link
        The link to follow.
    tables : Tables
        All tables.
    range_for : RangeFor
        one-purchase or the-average.
    purchase : str
        "home", or the name of a second purchase of the same food.

    Returns
    -------
    Valued
        Factors with keyed parameters, the food's deviation, and means by stage.

    Notes
    -----
    A name that spans classes is a mixture by stated shares. What is bought once is one of its
    parts, with the share as its probability (a piece of beef comes from one herd); the average
    is the sum over its parts. Both have the same mean.
    """
    parts = tables.mixtures.get((link.set, link.item))
    named = [(part.item, part.share) for part in parts] if parts else [(link.item, 1.0)]
    components = tuple(
        _component(
            share,
            tables.factors[link.set, item],
            tables,
            range_for=range_for,
            food=link.food,
            purchase=purchase,
        )
        for item, share in named
    )
    spread = LINK_DEVIATION[link.fit]
    deviation = (
        None if spread == 1.0 else Parameter(f"link|{link.food}", Lognormal(1.0, log(spread)))
    )
    bought = None
    if len(components) > 1 and range_for == "one-purchase":
        bought = Parameter(
            f"factor|{link.set}|{link.item}|{link.food}|{purchase}",
            Blend(
                tuple(part.share for part in components),
                tuple(part.parameter.distribution for part in components),
            ),
        )
    return Valued(link, components, deviation, bought)
