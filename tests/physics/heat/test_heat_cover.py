"""Covers: losses against numerical field solutions, the plate against Bessel functions."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import i0, i1, k0, k1

from shedlight.errors import InputError
from shedlight.physics.heat import cover, cover_heating, cover_loss
from shedlight.physics.heat.conductor import skin_depth

RHO = 1.7e-7
STEEL = cover_heating.cover_material("mild steel")

currents = st.floats(100, 5000)
holes = st.floats(0.03, 0.15)


def test_plate_loss_is_that_of_the_diffusion_equation() -> None:
    """Finite differences of H'' = 2j/delta² H across the plate, loss = rho ∫ |H'|²."""
    depth, thickness, count = 2.2e-3, 8e-3, 4000
    x = np.linspace(0, thickness, count + 1)
    alpha = (1 + 1j) / depth
    exact = np.cosh(alpha * (x - thickness / 2)) / np.cosh(alpha * thickness / 2)
    density = np.diff(1000.0 * exact) / np.diff(x)
    loss = RHO * float(np.sum(np.abs(density) ** 2 * np.diff(x)))
    assert cover_loss.plate_loss(1000.0, RHO, depth, thickness) == pytest.approx(loss, rel=1e-5)


@given(st.floats(1e-4, 0.1), st.floats(1e-3, 0.05))
def test_thin_plates_lose_with_the_cube_of_thickness(depth: float, thickness: float) -> None:
    loss = cover_loss.plate_loss(1000.0, RHO, depth, thickness)
    both = 2 * 1000.0**2 * RHO / depth
    x = thickness / depth
    if x < 0.3:
        assert loss == pytest.approx(both * x**3 / 6, rel=1e-3)
    if x > 12:
        assert loss == pytest.approx(both, rel=1e-4)
    assert loss <= 1.1 * both


@given(currents, holes, st.floats(1.1, 8))
def test_ring_losses_are_the_integrals(current: float, hole: float, reach: float) -> None:
    depth, outer = 1.5e-3, reach * hole

    def linear(r: float) -> float:
        field = cover.edge_field(current, r)
        return 2 * math.pi * r * cover_loss.plate_loss(field, RHO, depth, 0.01)

    def steep(r: float) -> float:
        field = cover.edge_field(current, r)
        return 2 * math.pi * r * 2 * cover_loss.saturated_loss(field, RHO, 50.0, 1.6)

    assert cover_loss.ring_loss(current, hole, outer, RHO, depth, 0.01) == pytest.approx(
        quad(linear, hole, outer)[0]
    )
    assert cover_loss.saturated_ring_loss(current, hole, outer, RHO, 50.0, 1.6) == pytest.approx(
        quad(steep, hole, outer)[0]
    )


def test_saturated_loss_is_that_of_the_moving_front() -> None:
    """Step curve: the front moves in so that rho H = 2 B_s x dx/dt; power averaged over time."""
    peak, bs, omega, steps = math.sqrt(2) * 3000.0, 1.6, 2 * math.pi * 50, 200000
    time = np.linspace(0, math.pi / omega, steps + 1)
    field = peak * np.sin(omega * time)
    moved = np.concatenate([[0], np.cumsum((field[1:] + field[:-1]) / 2 * np.diff(time))])
    front = np.sqrt(moved * RHO / bs)
    power = np.zeros_like(front)
    power[1:] = RHO * field[1:] ** 2 / front[1:]
    average = float(np.trapezoid(power, time)) / (math.pi / omega)
    assert cover_loss.saturated_loss(3000.0, RHO, 50.0, bs) == pytest.approx(average, rel=1e-4)
    assert cover_loss.saturated_depth(3000.0, RHO, 50.0, bs) == pytest.approx(
        float(front[-1]), rel=1e-6
    )


@given(currents, holes)
def test_the_band_is_in_order_and_grows_with_current(current: float, hole: float) -> None:
    band = cover_heating.ring_loss_band(STEEL, current, hole, 0.4, 0.01, 50.0)
    more = cover_heating.ring_loss_band(STEEL, 1.2 * current, hole, 0.4, 0.01, 50.0)
    assert 0 < band[0] <= band[1] <= band[2]
    assert all(one < other for one, other in zip(band, more, strict=True))
    assert cover_heating.ring_loss_band(STEEL, 0.0, hole, 0.4, 0.01, 50.0) == (0, 0, 0)


def test_an_insert_takes_the_loss_away() -> None:
    """36 kV, 1000 A: a stainless ring from 48 to 100 mm, steel from there."""
    plain = cover_heating.ring_loss_band(STEEL, 1000.0, 0.048, 0.4, 0.012, 50.0)
    ring = cover_heating.cover_material("stainless steel")
    insert = cover_heating.ring_loss_band(ring, 1000.0, 0.048, 0.1, 0.012, 50.0)
    rest = cover_heating.ring_loss_band(STEEL, 1000.0, 0.1, 0.4, 0.012, 50.0)
    assert insert[2] < 0.1 * rest[0]
    assert all(i + r < 0.8 * p for i, r, p in zip(insert, rest, plain, strict=True))
    assert cover_loss.radius_of_field(1000.0, cover.edge_field(1000.0, 0.1)) == pytest.approx(0.1)


def test_an_aluminium_cover_is_thicker_than_its_skin_depth_and_loses_little() -> None:
    row = cover_heating.cover_material("aluminium alloy")
    assert skin_depth(row.resistivity, 50.0) == pytest.approx(14.2e-3, rel=0.01)
    low, _, high = cover_heating.ring_loss_band(row, 1000.0, 0.048, 0.4, 0.012, 50.0)
    assert low == high < 10


def test_unknown_materials_are_refused() -> None:
    with pytest.raises(InputError, match="expected one of"):
        cover_heating.cover_material("wood")


# --- the plate ----------------------------------------------------------------------------


@given(st.floats(1, 500), st.floats(0, 3), st.floats(0.05, 2), st.floats(5, 60))
def test_the_plate_gives_off_what_is_lost(
    loss: float, fall: float, conduction: float, film: float
) -> None:
    plate = cover_heating.plate_rise(loss, fall, 0.05, 0.5, conduction, film)
    assert plate.given_off == pytest.approx(loss, rel=1e-9)
    assert plate.edge >= plate.rises[0] * (1 - 1e-9)


def test_even_loss_gives_an_even_rise() -> None:
    area = math.pi * (0.5**2 - 0.05**2)
    plate = cover_heating.plate_rise(200.0, 0.0, 0.05, 0.5, 0.5, 20.0)
    assert plate.rises == pytest.approx((200 / area / 20,) * len(plate.rises))


def test_the_edge_converges_to_a_solution_by_bessel_functions() -> None:
    """Loss r^-2 by variation of constants: T = I0(mr)·∫K0(ms) q s ds + K0(mr)·∫I0(ms) q s ds."""
    a, b, conduction, film, loss = 0.05, 0.4, 0.5, 20.0, 150.0
    m = math.sqrt(film / conduction)
    scale = loss / (2 * math.pi * math.log(b / a)) / conduction

    def inner(kernel: np.ufunc) -> float:
        return float(quad(lambda s: float(kernel(m * s)) / s, a, b)[0])

    mixed = i1(m * b) * k1(m * a) - i1(m * a) * k1(m * b)
    top = k1(m * b) * inner(i0) + i1(m * b) * inner(k0)
    edge = scale * top * (i0(m * a) * k1(m * a) + k0(m * a) * i1(m * a)) / mixed
    coarse = cover_heating.plate_rise(loss, 2.0, a, b, conduction, film, 50).edge
    fine = cover_heating.plate_rise(loss, 2.0, a, b, conduction, film, 400).edge
    assert fine == pytest.approx(float(edge), rel=1e-5)
    assert abs(fine - edge) < abs(coarse - edge)


def test_a_plate_of_few_rings_is_refused() -> None:
    with pytest.raises(InputError, match="rings"):
        cover_heating.plate_rise(1.0, 2.0, 0.05, 0.4, 0.5, 20.0, 4)
