"""The question of steeping: how much is drawn out, and what finer, longer or hotter buys."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import steeping
from counterproof.physics.answer import Answer, credited
from counterproof.physics.cautions import SCALD
from counterproof.physics.diffusion import kernel
from counterproof.physics.flags import unique
from counterproof.physics.steeping import Flavouring, Piece
from counterproof.physics.values import ZERO_CELSIUS, Draws, Take, middle

_POINTS: Final = 25
_HOTTER: Final = 10.0  # [K]
_FINEST: Final = (1.0, 0.75, 0.5, 0.25)


def steep(
    piece: Piece,
    time: float,
    temperature: float,
    *,
    extract: str = "root",
    liquid: float | None = None,
    wanted: float | None = None,
    flavouring: Flavouring | None = None,
    take: Take = middle,
) -> Answer:
    """How much of what can be drawn out is in the liquid.

    Parameters
    ----------
    piece : Piece
        Cube, slice or rod, with its size.
    time : float
        Steeping or simmering time, > 0. [s]
    temperature : float
        Of the liquid, kept. [K]
    extract : str
        root (a fibrous root or spice) or leaf (tea caffeine, whatever the piece).
    liquid : float or None
        Volume of liquid over that of the pieces; None for plenty. [1]
    wanted : float or None
        Share wanted: then the time for it is part of the answer. [1]
    flavouring : Flavouring or None
        Bottle and dose, for how much drink it makes.
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `extracted_share`, the curve over time, and the relative gains of dicing half as fine,
        steeping twice as long, and 10 °C hotter.

    Raises
    ------
    OutOfRange
        If there is no time, or the wanted share cannot be had.
    """
    if time <= 0.0:
        raise OutOfRange("Steeping takes some time.", remedy="Give a time such as 10min.")
    leaf = extract == "leaf"
    if leaf:
        rate = take("steep|leaf", steeping.LEAF_RATE)
        energy = take("steep|leaf energy", steeping.LEAF_ACTIVATION)
    else:
        rate = take("steep|root", steeping.ROOT)
        energy = take("steep|root energy", steeping.ACTIVATION)

    form = kernel(piece.shape, liquid)

    def share(of: Piece, long: float, hot: float) -> float | Draws:
        if leaf:
            return steeping.leaf_infusion(long, hot, rate, energy)
        return form.share(steeping.fourier(of, long, steeping.diffusivity(hot, rate, energy)))

    now = share(piece, time, temperature)
    seconds = np.linspace(0.0, 2.0 * time, _POINTS)
    middles = [float(np.mean(share(piece, float(s), temperature))) for s in seconds]
    result: dict[str, Any] = {
        "extracted_share": now,
        "extraction_curve": {"seconds": [float(s) for s in seconds], "share": middles},
        "gain_twice_as_long": share(piece, 2.0 * time, temperature) / now,
        "gain_10_k_hotter": share(piece, time, temperature + _HOTTER) / now,
    }
    if not leaf:
        finer = {
            f"{1e3 * piece.size * part:.3g}_mm": share(
                replace(piece, size=piece.size * part), time, temperature
            )
            / now
            for part in _FINEST
        }
        result |= {"gain_half_the_size": finer[f"{1e3 * piece.size * 0.5:.3g}_mm"],
                   "gain_by_size": finer}  # fmt: skip
        if wanted is not None:
            middle_rate = float(
                np.mean(np.asarray(steeping.diffusivity(temperature, rate, energy)))
            )
            result["time_for_wanted_s"] = steeping.time_for(piece, wanted, middle_rate, liquid)
    elif wanted is not None:
        constant = float(np.mean(np.asarray(steeping.diffusivity(temperature, rate, energy))))
        result["time_for_wanted_s"] = -np.log1p(-wanted) / constant
    if flavouring is not None:
        result |= {"flavours_l": 1e3 * flavouring.makes, "dilution_share": flavouring.strength}
    used = (
        (steeping.LEAF_RATE, steeping.LEAF_ACTIVATION)
        if leaf
        else ("crank-1975", steeping.ROOT, steeping.ACTIVATION)
    )
    sources, assumed = credited(*used)
    return Answer(
        process="steep",
        inputs={"shape": piece.shape, "size_m": piece.size, "time_s": time,
                "celsius": temperature - ZERO_CELSIUS, "extract": extract,
                "liquid_per_piece": liquid, "wanted_share": wanted},
        result=result,
        cautions=(SCALD,) if temperature > 333.15 else (),
        sources=sources,
        assumed=assumed,
        flags=unique(steeping.validity(temperature, piece)),
    )  # fmt: skip
