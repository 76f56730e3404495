"""From the bottle into the glass: what is done to a fizzy drink, and what it keeps."""

from __future__ import annotations

from dataclasses import dataclass

from counterproof.physics import fizz_loss
from counterproof.physics.values import Draws, Take, taken_share
from counterproof.sourced import Sourced


@dataclass(frozen=True, slots=True)
class Serving:
    """What happens between opening and drinking.

    Parameters
    ----------
    poured : bool
        Whether it is poured once, gently.
    stirred : bool
        Whether something is stirred in while it fizzes.
    warmed : float
        Degrees it warms by, ≥ 0. [K]
    stood : float
        Time in an open glass, ≥ 0. [s]
    flat : float
        Volume of flat concentrate over that of carbonated water, ≥ 0. [1]
    """

    poured: bool = True
    stirred: bool = False
    warmed: float = 0.0
    stood: float = 0.0
    flat: float = 0.0

    def kept(self, take: Take) -> float | Draws:
        """Return the share of the gas that is not lost.

        Parameters
        ----------
        take : Take
            Where draws come from.

        Returns
        -------
        float or (n,) array
            Share. [1]
        """
        poured = taken_share(take, "fizz|poured", fizz_loss.POURED) if self.poured else 0.0
        stirred = taken_share(take, "fizz|stirred", fizz_loss.STIRRED) if self.stirred else 0.0
        return fizz_loss.kept(
            poured=poured,
            stirred=stirred,
            warmed=self.warmed,
            stood=self.stood,
            per_degree=take("fizz|warmed", fizz_loss.WARMED),
            rate=take("fizz|stood", fizz_loss.STOOD),
        )

    @property
    def fizzy_share(self) -> float:
        """Carbonated water over the whole drink, by volume. [1]"""
        return 1.0 / (1.0 + self.flat)

    @property
    def constants(self) -> tuple[Sourced, ...]:
        """What it assumes."""
        used = (
            (self.poured, fizz_loss.POURED),
            (self.stirred, fizz_loss.STIRRED),
            (self.warmed > 0.0, fizz_loss.WARMED),
            (self.stood > 0.0, fizz_loss.STOOD),
        )
        return tuple(constant for asked, constant in used if asked)

    def inputs(self) -> dict[str, float | bool]:
        """Return what is printed of it."""
        return {
            "poured": self.poured,
            "stirred": self.stirred,
            "warmed_k": self.warmed,
            "stood_s": self.stood,
            "flat_per_fizzy": self.flat,
        }
