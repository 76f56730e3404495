"""Standard normal values at given probabilities, without a statistics library."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Draws = NDArray[np.float64]

_CENTRE = (
    (
        2509.0809287301226727,
        33430.575583588128105,
        67265.770927008700853,
        45921.953931549871457,
        13731.693765509461125,
        1971.5909503065514427,
        133.14166789178437745,
        3.387132872796366608,
    ),
    (
        5226.495278852854561,
        28729.085735721942674,
        39307.89580009271061,
        21213.794301586595867,
        5394.1960214247511077,
        687.1870074920579083,
        42.313330701600911252,
        1.0,
    ),
)
_SHOULDER = (
    (
        7.7454501427834140764e-4,
        0.0227238449892691845833,
        0.24178072517745061177,
        1.27045825245236838258,
        3.64784832476320460504,
        5.7694972214606914055,
        4.6303378461565452959,
        1.42343711074968357734,
    ),
    (
        1.05075007164441684324e-9,
        5.475938084995344946e-4,
        0.0151986665636164571966,
        0.14810397642748007459,
        0.68976733498510000455,
        1.6763848301838038494,
        2.05319162663775882187,
        1.0,
    ),
)
_TAIL = (
    (
        2.01033439929228813265e-7,
        2.71155556874348757815e-5,
        0.0012426609473880784386,
        0.026532189526576123093,
        0.29656057182850489123,
        1.7848265399172913358,
        5.4637849111641143699,
        6.6579046435011037772,
    ),
    (
        2.04426310338993978564e-15,
        1.4215117583164458887e-7,
        1.8463183175100546818e-5,
        7.868691311456132591e-4,
        0.0148753612908506148525,
        0.13692988092273580531,
        0.59983220655588793769,
        1.0,
    ),
)


def _rational(at: Draws, parts: tuple[tuple[float, ...], tuple[float, ...]]) -> Draws:
    above, below = (np.full_like(at, part[0]) for part in parts)
    for up, down in zip(parts[0][1:], parts[1][1:], strict=True):
        above *= at
        above += up
        below *= at
        below += down
    return above / below


def normal_quantile(u: Draws) -> Draws:
    """Standard normal values at the probabilities `u`.

    Parameters
    ----------
    u : (n,) array
        Probabilities, 10⁻³⁰⁰ to 1 − 10⁻¹⁶, strictly inside (0, 1). [1]

    Returns
    -------
    (n,) array
        Values, to about 1 part in 10¹⁵. [1]

    References
    ----------
    Wichura M. J. (1988), Algorithm AS 241: the percentage points of the normal distribution,
    Applied Statistics 37:477–484, routine PPND16.
    """
    off = u - 0.5
    central = off * _rational(0.180625 - off * off, _CENTRE)
    outer = np.flatnonzero(np.abs(off) > 0.425)
    if outer.size:
        near = u[outer]
        root = np.sqrt(-np.log(np.minimum(near, 1.0 - near)))
        values = _rational(root - 1.6, _SHOULDER)
        far = root > 5.0
        if far.any():
            values[far] = _rational(root[far] - 5.0, _TAIL)
        central[outer] = np.copysign(values, off[outer])
    return central
