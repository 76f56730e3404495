"""Diffusion out of pieces against Crank's series and tables, and tea against its papers."""

from __future__ import annotations

from math import pi, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics import steeping
from counterproof.physics.diffusion import Shape, kernel
from counterproof.physics.steeping import Flavouring, Piece, extracted, time_for

SHAPES: tuple[Shape, ...] = ("slice", "rod", "cube")


@pytest.mark.published
@pytest.mark.parametrize(("share", "printed"), [(0.5, 0.197), (0.9, 0.848)])
def test_a_slice_gives_half_and_nine_tenths(share: float, printed: float) -> None:
    # Crank, The Mathematics of Diffusion (1975), plane sheet: Dt/l² = 0.197 and 0.848.
    assert time_for(Piece("slice", 2.0), share, 1.0) == pytest.approx(printed, abs=5e-4)


@pytest.mark.published
def test_a_rod_gives_half_at_a_sixteenth() -> None:
    # Crank 1975, cylinder: half is out at Dt/a² = 0.063.
    assert time_for(Piece("rod", 2.0), 0.5, 1.0) == pytest.approx(0.063, abs=5e-4)


@pytest.mark.published
@pytest.mark.parametrize("fourier", [0.02, 0.05, 0.2, 0.5, 1.0])
def test_slice_is_cranks_series(fourier: float) -> None:
    # Crank 1975, 4.18: 1 − Σ 8/((2n+1)²π²) exp(−D(2n+1)²π²t/4l²).
    odd = 2 * np.arange(400) + 1
    series = 1 - np.sum(8 / (odd * pi) ** 2 * np.exp(-((odd * pi) ** 2) * fourier / 4))
    assert extracted(Piece("slice", 2.0), fourier, 1.0) == pytest.approx(series, rel=0.005)


@pytest.mark.published
@pytest.mark.parametrize("liquid", [0.3, 1.0, 4.0])
@pytest.mark.parametrize("fourier", [0.02, 0.1, 0.5])
def test_slice_in_little_liquid_is_cranks_series(liquid: float, fourier: float) -> None:
    # Crank 1975, 4.37: 1 − Σ 2α(1+α)/(1+α+α²q²) exp(−Dq²t/l²), tan q = −αq.
    roots = []
    for n in range(1, 60):
        low, high = (n - 0.5) * pi + 1e-9, n * pi
        for _ in range(80):
            half = 0.5 * (low + high)
            low, high = (half, high) if tan(half) + liquid * half < 0 else (low, half)
        roots.append(low)
    q = np.array(roots)
    weight = 2 * liquid * (1 + liquid) / (1 + liquid + (liquid * q) ** 2)
    series = (1 - np.sum(weight * np.exp(-(q**2) * fourier))) * liquid / (1 + liquid)
    assert extracted(Piece("slice", 2.0), fourier, 1.0, liquid) == pytest.approx(series, rel=0.005)


@pytest.mark.property
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("liquid", [None, 20.0, 1.0])
def test_early_and_late_laws_meet(shape: Shape, liquid: float | None) -> None:
    form = kernel(shape, liquid)
    before, after = float(form.share(0.0099999)), float(form.share(0.0100001))
    assert before == pytest.approx(after, rel=0.007)


@pytest.mark.property
@pytest.mark.parametrize("shape", SHAPES)
def test_much_liquid_is_plenty_and_it_ends_evenly(shape: Shape) -> None:
    fourier = np.geomspace(1e-4, 5.0, 40)
    plenty, much = kernel(shape).share(fourier), kernel(shape, 1e7).share(fourier)
    assert much == pytest.approx(plenty, rel=1e-4)
    for liquid in (0.5, 3.0):
        form = kernel(shape, liquid)
        assert form.end == pytest.approx(liquid / (1 + liquid))
        assert form.share(30.0) == pytest.approx(form.end, rel=1e-9)


@pytest.mark.property
@pytest.mark.parametrize("shape", SHAPES)
def test_more_time_finer_pieces_and_more_liquid_give_more(shape: Shape) -> None:
    fourier = np.linspace(0.0, 3.0, 400)
    share = np.asarray(kernel(shape, 2.0).share(fourier))
    assert share[0] == pytest.approx(0.0, abs=1e-12)
    assert np.all(np.diff(share) > -1e-12)
    sizes = [float(np.mean(extracted(Piece(shape, s), 600.0, 4e-10))) for s in (2e-3, 4e-3, 8e-3)]
    assert sizes == sorted(sizes, reverse=True)
    liquids = [float(np.mean(kernel(shape, v).share(0.2))) for v in (0.5, 2.0, 20.0)]
    assert liquids == sorted(liquids)


@pytest.mark.property
@given(st.sampled_from(SHAPES), st.floats(0.02, 0.75), st.sampled_from([None, 8.0]))
def test_time_for_a_share_gives_the_share(shape: Shape, share: float, liquid: float | None) -> None:
    piece = Piece(shape, 6e-3)
    time = time_for(piece, share, 4e-10, liquid)
    assert extracted(piece, time, 4e-10, liquid) == pytest.approx(share, abs=2e-3)


@pytest.mark.property
def test_draws_read_from_the_grid_agree_with_single_ones() -> None:
    diffusing = np.geomspace(1e-10, 1e-9, 2000)
    many = np.asarray(extracted(Piece("cube", 5e-3), 600.0, diffusing, 5.0))
    one = [float(np.mean(extracted(Piece("cube", 5e-3), 600.0, d, 5.0))) for d in diffusing[::400]]
    assert many[::400] == pytest.approx(one, rel=1e-4)


@pytest.mark.published
def test_ten_minutes_draw_much_from_small_cubes_of_a_root() -> None:
    # Common practice, no source: ten minutes of simmering draw a strong infusion from small cubes
    # of a fibrous root. With what is assumed here, 5 mm cubes give about half to four fifths.
    shares = [
        float(np.mean(extracted(Piece("cube", 5e-3), 600.0, steeping.diffusivity(368.15, d))))
        for d in (2e-10, 6e-10)
    ]
    assert 0.4 < shares[0] < shares[1] < 0.85


@pytest.mark.published
def test_tea_as_its_papers_have_it() -> None:
    # Jaganyi & Price 1999: k = 0.99 1/min at 80 °C, 40.3 kJ/mol; so 0.434 at 60 and 1.445 at 90 °C.
    for celsius, rate in ((60, 0.434), (80, 0.99), (90, 1.445)):
        left = 1 - steeping.leaf_infusion(60.0, celsius + 273.15)
        assert -np.log(left) == pytest.approx(rate, rel=2e-3)
    # Farakte et al. 2015: diffusivities 2.23e-10 at 60 and 4.34e-10 at 80 °C, hence 32.6 kJ/mol.
    slope = 8.314462618 * np.log(4.34 / 2.23) / (1 / 333.15 - 1 / 353.15)
    assert slope == pytest.approx(32.6e3, rel=2e-3)
    between = (steeping.ACTIVATION.value - slope) / steeping.ACTIVATION.value
    assert abs(between) < 2 * steeping.ACTIVATION.spread


@pytest.mark.published
def test_a_small_bottle_flavours_twelve_litres() -> None:
    # Common practice, no source: a teaspoon (5 ml) per litre from a 60 ml bottle.
    spoon = Flavouring(60e-6, 5e-6, 1e-3)
    assert spoon.makes == pytest.approx(12e-3)
    assert spoon.strength == pytest.approx(1 / 200)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange, match="has a size"):
        Piece("cube", 0.0)
    with pytest.raises(OutOfRange, match="needs a time"):
        extracted(Piece("cube", 5e-3), -1.0, 4e-10)
    with pytest.raises(OutOfRange, match="No time"):
        time_for(Piece("cube", 5e-3), 0.9, 4e-10, 2.0)
    with pytest.raises(OutOfRange, match="needs a liquid"):
        kernel("cube", 0.0)
    with pytest.raises(OutOfRange, match="at least the flavouring"):
        Flavouring(60e-6, 5e-6, 1e-6)


def test_it_says_what_is_not_known() -> None:
    names = [flag.name for flag in steeping.validity(368.15, Piece("cube", 0.1))]
    assert names == ["outside-validity", "relative-only"]
