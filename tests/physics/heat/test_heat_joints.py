"""Joints: films, hottest spots, ratios, what keeps them pressed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedlight.errors import InputError
from shedlight.physics.heat import contact_metals, contacts, joints, preload
from shedlight.physics.heat.tables import temperature_limit

forces = st.floats(100, 1e5)


@pytest.mark.parametrize("metal", contact_metals.contact_metals(), ids=lambda row: row.metal)
def test_softening_comes_before_melting(metal: contact_metals.ContactMetal) -> None:
    assert contact_metals.contact_metal(metal.metal) == metal
    soft, hard = metal.hardness
    assert 0 < soft < hard
    cold = joints.spot_temperature(metal.softening_voltage, 293.15)
    assert 330 < cold < joints.spot_temperature(metal.melting_voltage, 293.15)


def test_unknown_rows_are_refused() -> None:
    with pytest.raises(InputError, match="expected one of"):
        contact_metals.contact_metal("lead")
    with pytest.raises(InputError, match="expected one of"):
        contact_metals.clamp_scatter("luck")


@given(forces, st.floats(1, 1e3))
def test_force_helps_films_more_than_constrictions(force: float, times: float) -> None:
    film = joints.film_resistance(1e-12, 5e8, force) / joints.film_resistance(
        1e-12, 5e8, times * force
    )
    narrow = contacts.constriction_resistance(1.7e-8, 5e8, force)
    narrow /= contacts.constriction_resistance(1.7e-8, 5e8, times * force)
    assert film == pytest.approx(times)
    assert narrow == pytest.approx(times**0.5)


@given(st.floats(0, 0.5), st.floats(250, 450))
def test_a_spot_is_never_cooler_than_its_metal(voltage: float, temperature: float) -> None:
    assert joints.spot_temperature(voltage, temperature) >= temperature


@given(st.floats(10, 3000), st.floats(1e-7, 1e-4), st.floats(0.1, 10))
def test_the_permitted_resistance_just_reaches_its_rise(
    current: float, resistance: float, conductance: float
) -> None:
    rise = joints.joint_rise(current, resistance, conductance)
    assert joints.permitted_resistance(rise, conductance, current) == pytest.approx(resistance)


def test_better_finishes_permit_more() -> None:
    rises = [
        temperature_limit("bolted connection", finish, "air").rise or 0.0
        for finish in ("bare", "tin", "silver or nickel")
    ]
    permitted = [joints.permitted_resistance(rise, 1.0, 1000.0) for rise in rises]
    assert permitted == sorted(permitted)
    assert permitted[0] < permitted[-1]


@given(st.floats(0.02, 0.2))
def test_a_lap_has_a_best_length(overlap: float) -> None:
    """Longer laps gain face and lose bar: the sum is least where both parts are equal."""
    film, width, thickness, rho, bend = 1e-10, 0.06, 0.008, 1.75e-8, 0.8
    best = (film * thickness / (bend * rho)) ** 0.5
    least = joints.lap_resistance(rho, best, width, thickness, bend, film)
    assert joints.lap_resistance(rho, overlap, width, thickness, bend, film) >= least * (1 - 1e-9)


def test_a_bar_is_a_joint_of_ratio_one() -> None:
    bar = joints.lap_resistance(1.75e-8, 0.06, 0.06, 0.008, 1.0, 0.0)
    assert joints.joint_ratio(bar, 1.75e-8, 0.06, 0.06 * 0.008) == pytest.approx(1.0)


@given(st.floats(0, 1e5), st.sampled_from(contact_metals.clamp_scatters()))
def test_scatter_lies_about_the_aim(force: float, row: contact_metals.ClampScatter) -> None:
    low = preload.least_clamp_force(force, row.scatter)
    high = preload.greatest_clamp_force(force, row.scatter)
    assert 0 <= low <= force <= high
    assert (low + high) / 2 == pytest.approx(force)
    assert contact_metals.clamp_scatter(row.way) == row


def test_a_disc_spring_evens_out_what_warming_adds() -> None:
    """Aluminium of 30 mm under a steel bolt, 60 K warmer."""
    bolt = preload.axial_stiffness(206e9, 84.3e-6, 0.03)
    parts = preload.axial_stiffness(70e9, 400e-6, 0.03)
    stiff = preload.thermal_clamp_change(23e-6, 12e-6, 60.0, 0.03, (bolt, parts))
    soft = preload.thermal_clamp_change(23e-6, 12e-6, 60.0, 0.03, (bolt, parts, 20e6))
    assert soft < stiff / 5
    assert preload.thermal_clamp_change(12e-6, 12e-6, 60.0, 0.03, (bolt,)) == 0
    with pytest.raises(InputError, match="give"):
        preload.thermal_clamp_change(23e-6, 12e-6, 60.0, 0.03, ())


@given(st.floats(0, 1))
def test_a_disc_spring_is_weaker_than_its_first_stiffness(share: float) -> None:
    """A cone loses stiffness as it flattens, while h is below sqrt(2) t it never snaps through."""
    h, t = 0.45e-3, 1.1e-3
    force = preload.disc_spring_force(share * h, t, h, 20e-3, 10.2e-3)
    first = preload.disc_spring_force(1e-6 * h, t, h, 20e-3, 10.2e-3) * 1e6
    assert 0 <= force <= first * share * (1 + 1e-6)
    if share < 0.99:
        assert force < preload.disc_spring_force((share + 0.01) * h, t, h, 20e-3, 10.2e-3)


def test_a_disc_spring_beyond_flat_is_refused() -> None:
    with pytest.raises(InputError, match="deflection"):
        preload.disc_spring_force(0.5e-3, 1.1e-3, 0.45e-3, 20e-3, 10.2e-3)
