"""The closed set of operations the script's language can mean. Nothing else can be asked for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterproof.claims.figure import Unit

Taken = Literal["footprint", "weight", "volume", "energy", "kcal", "protein", "gas", "cost"]
"""What is taken of a portion."""

Relation = Literal["<", ">", "<=", ">=", "about"]


@dataclass(frozen=True, slots=True)
class Named:
    """A recipe, a version, or something bought, by the words it was called."""

    words: str


@dataclass(frozen=True, slots=True)
class Portion:
    """One serving of something, or its whole batch, and what is taken of it."""

    of: Named
    whole: bool = False
    taken: Taken = "footprint"


@dataclass(frozen=True, slots=True)
class Lines:
    """Ingredient lines of a portion, by the names of their foods."""

    names: tuple[str, ...]
    of: Portion


@dataclass(frozen=True, slots=True)
class Phase:
    """A life-cycle stage of a portion; `place` narrows storage to fridge or freezer."""

    stage: str
    of: Portion
    place: str = ""


@dataclass(frozen=True, slots=True)
class Literally:
    """An amount that stands in the script itself."""

    value: float
    unit: Unit


@dataclass(frozen=True, slots=True)
class Cooling:
    """The time a dish takes to cool. [L, m, °C]"""

    food: str
    litres: float | None
    depth: float | None
    start: float
    end: float
    where: Literal["room", "fridge", "ice-bath"]


@dataclass(frozen=True, slots=True)
class Scaled:
    """Something times a plain number."""

    factor: float
    of: Quantity


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum, or with `sign` −1 a difference."""

    left: Quantity
    right: Quantity
    sign: int


@dataclass(frozen=True, slots=True)
class Ratio:
    """One thing against another; `share` where the first is part of the second."""

    left: Quantity
    right: Quantity
    share: bool = False


@dataclass(frozen=True, slots=True)
class Liken:
    """A figure as a likeness, by its kind."""

    of: Quantity
    kind: str


@dataclass(frozen=True, slots=True)
class Per:
    """A portion's footprint per something else that the portion gives."""

    of: Quantity
    per: Literal["1000 kcal", "100 g protein", "kg"]


Quantity = Portion | Lines | Phase | Literally | Cooling | Scaled | Sum | Ratio | Liken | Per


@dataclass(frozen=True, slots=True)
class Figured:
    """What `[= …]` asks for, and the unit it wants it in."""

    quantity: Quantity
    unit: str | None = None
    by_stage: bool = False


@dataclass(frozen=True, slots=True)
class Asked:
    """What `[? …]` asks: left, relation, right; `high` closes a "between"."""

    left: Quantity
    relation: Relation
    right: Quantity
    high: Quantity | None = None
    words: str = ""  # the words in quotation marks before it, if any

    @property
    def sides(self) -> tuple[Quantity, ...]:
        """All that is set against each other."""
        return (self.left, self.right, *((self.high,) if self.high is not None else ()))


def parts(quantity: Quantity) -> tuple[Quantity, ...]:
    """Return what an operation is made of, itself first.

    Parameters
    ----------
    quantity : Quantity
        Any operation.

    Returns
    -------
    tuple of Quantity
        All of its tree.
    """
    if isinstance(quantity, (Sum, Ratio)):
        return (quantity, *parts(quantity.left), *parts(quantity.right))
    if isinstance(quantity, (Scaled, Liken, Per)):
        return (quantity, *parts(quantity.of))
    return (quantity,)


def portions(*quantities: Quantity) -> tuple[Portion, ...]:
    """Return every portion that is spoken of, each once.

    Parameters
    ----------
    *quantities : Quantity
        Any operations.

    Returns
    -------
    tuple of Portion
        In the order of first mention.
    """
    found: dict[Portion, None] = {}
    for quantity in quantities:
        for part in parts(quantity):
            if isinstance(part, Portion):
                found[part] = None
            elif isinstance(part, (Lines, Phase)):
                found[part.of] = None
    return tuple(found)
