"""Roots and amplitudes against printed tables, and against a solver of another kind."""

from __future__ import annotations

import numpy as np
import pytest

from counterproof.errors import OutOfRange
from counterproof.physics.modes import Shape, bessel, modes

SHAPES: tuple[Shape, ...] = ("slab", "cylinder", "sphere")
DIMENSIONS = {"slab": 1.0, "cylinder": 2.0, "sphere": 3.0}


@pytest.mark.published
@pytest.mark.parametrize(
    ("biot", "slab", "cylinder", "sphere"),
    [
        # Coefficients of the one-term approximation, Incropera and others (2007), table 5.1,
        # printed to four digits; from memory, without sight of the page.
        (0.01, (0.0998, 1.0017), (0.1412, 1.0025), (0.1730, 1.0030)),
        (0.1, (0.3111, 1.0161), (0.4417, 1.0246), (0.5423, 1.0298)),
        (1.0, (0.8603, 1.1191), (1.2558, 1.2071), (1.5708, 1.2732)),
        (10.0, (1.4289, 1.2620), (2.1795, 1.5677), (2.8363, 1.9249)),
        (100.0, (1.5552, 1.2731), (2.3809, 1.6015), (3.1102, 1.9990)),
    ],
)
def test_first_roots_and_amplitudes_are_those_of_the_textbook(
    biot: float,
    slab: tuple[float, float],
    cylinder: tuple[float, float],
    sphere: tuple[float, float],
) -> None:
    for shape, (root, amplitude) in zip(SHAPES, (slab, cylinder, sphere), strict=True):
        found = modes(shape, biot, 1)
        # One unit of the last printed digit.
        assert found.roots[0] == pytest.approx(root, abs=1e-4)
        assert found.centre[0] == pytest.approx(amplitude, abs=1e-4)


@pytest.mark.published
def test_bessel_functions_have_their_tabulated_values() -> None:
    # Abramowitz & Stegun (1964), tables 9.1 and 9.5: J0(1), J1(1), J0(10), J1(10), first zeros.
    zeroth, first = bessel(np.array([1.0, 10.0, 2.4048255577, 3.8317059702]))
    assert zeroth[0] == pytest.approx(0.7651976866, abs=1e-10)
    assert first[0] == pytest.approx(0.4400505857, abs=1e-10)
    assert zeroth[1] == pytest.approx(-0.2459357645, abs=1e-10)
    assert first[1] == pytest.approx(0.0434727462, abs=1e-10)
    assert abs(zeroth[2]) < 1e-10
    assert abs(first[3]) < 1e-10


@pytest.mark.property
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("biot", [0.001, 0.01, 0.3, 1.0, 7.0, 100.0, 1e4])
def test_what_flows_out_is_what_is_lost_mode_by_mode(shape: Shape, biot: float) -> None:
    # d(mean)/dFo = −k Bi θ(surface), k = 1, 2, 3: the heat balance of each mode.
    found = modes(shape, biot)
    lost = found.roots**2 * found.mean
    out = DIMENSIONS[shape] * biot * found.surface
    assert np.abs(lost / out - 1.0).max() < 1e-6
    assert (np.diff(found.roots) > 0.0).all()


@pytest.mark.property
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("biot", [0.1, 1.0, 10.0])
def test_modes_agree_with_finite_volumes(shape: Shape, biot: float) -> None:
    power = DIMENSIONS[shape] - 1.0
    for fourier in (0.05, 0.3, 1.0):
        centre, mean = _finite_volumes(power, biot, fourier)
        found = modes(shape, biot)
        assert found.left(np.array(fourier), "centre") == pytest.approx(centre, abs=0.003)
        assert found.left(np.array(fourier), "mean") == pytest.approx(mean, abs=0.003)


def _finite_volumes(power: float, biot: float, fourier: float) -> tuple[float, float]:
    """Explicit finite volumes on 60 shells: knows nothing of modes."""
    shells = 60
    faces = np.linspace(0.0, 1.0, shells + 1)
    volumes = np.diff(faces ** (power + 1.0)) / (power + 1.0)
    areas = faces[1:] ** power
    width = 1.0 / shells
    outer = 1.0 / (1.0 / biot + 0.5 * width)
    theta = np.ones(shells)
    step = 0.2 * width**2
    for _ in range(round(fourier / step)):
        flow = np.append(areas[:-1] * (theta[:-1] - theta[1:]) / width, outer * theta[-1])
        theta -= step * np.diff(np.insert(flow, 0, 0.0)) / volumes
    return float(theta[0]), float((theta * volumes).sum() / volumes.sum())


@pytest.mark.property
@pytest.mark.parametrize("shape", SHAPES)
def test_draws_give_what_single_numbers_give(shape: Shape) -> None:
    biots = np.array([0.02, 0.5, 30.0])
    together = modes(shape, biots)
    for at, biot in enumerate(biots):
        assert modes(shape, float(biot)).roots == pytest.approx(together.roots[at], rel=1e-11)


@pytest.mark.property
def test_the_centre_notices_nothing_at_first_and_then_falls() -> None:
    found = modes("cylinder", 5.0)
    fourier = np.linspace(0.0, 2.0, 400)
    left = np.array([float(found.left(np.array(each), "centre")) for each in fourier])
    assert left[0] == 1.0
    assert left[1] == pytest.approx(1.0, abs=1e-9)
    assert (np.diff(left) <= 1e-12).all()


def test_no_heat_transfer_is_refused() -> None:
    with pytest.raises(OutOfRange, match="above 0 W"):
        modes("slab", 0.0)
