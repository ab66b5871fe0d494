"""What the solved field means for discharges, beside what closed forms say of the same."""

from dataclasses import dataclass

import numpy as np

from shedlight.errors import InputError
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import FieldError
from shedlight.physics.field.profiles import Profile, capacitance_between
from shedlight.trace import Number
from shedlight.workings.field import Field, field_of, fillings_of, problem_of, solved
from shedlight.workings.field_numbers import at_one_volt, stress
from shedlight.workings.field_summary import (
    RegionStress,
    SurfaceStress,
    region_stresses,
    surface_stresses,
)
from shedlight.workings.numbers import assumption
from shedlight.workings.oil import curve_for, other_state
from shedlight.workings.oil_stress import Stretch, creep_stretch, gap_stretches
from shedlight.workings.streamers import Lines, Streamer, streamer, walked
from shedlight.workings.voltages import Voltages

WAYS = (("cap", "air"), ("clamps", "air"), ("shield", "tank oil"), ("hole wall", "clearance"))


@dataclass(frozen=True, eq=False)
class Discharges:
    """The field solution and what follows from it.

    `hole` is a streamer where gas fills the gap in the hole, a stretch where oil does, and None
    where the gap is too tight or the cover too thin to read clear of its edges. Stresses
    in the oil space are given at the dry test and at the impulse taken as a.c. voltage.
    """

    field: Field
    regions: tuple[RegionStress, ...]
    surfaces: tuple[SurfaceStress, ...]
    cap: Streamer
    clamps: Streamer
    hole: Streamer | Stretch | None
    creep: Stretch
    gap: Stretch
    gap_other: Stretch
    oil_mean: Number
    oil_mean_impulse: Number
    porcelain_largest: Number
    hole_gap: Number
    hole_capacitance: Number
    loss_by_energy: Number
    rings: tuple[tuple[str, Streamer], ...] = ()

    def ring(self, name: str) -> Streamer:
        """What starts at a shield ring."""
        return dict(self.rings)[name]


def field_or_why(installation: Installation, section: Section) -> Field | str:
    """The field of a bushing; or in words why there is none.

    Args:
        installation: What was described.
        section: Its section.
    """
    try:
        return field_of(installation, section)
    except (FieldError, InputError) as error:
        return str(error)


def discharges_of(
    installation: Installation, section: Section, voltages: Voltages, field: Field
) -> Discharges | str:
    """Everything that follows from the field; or in words why nothing does.

    Args:
        installation: What was described.
        section: Its section.
        voltages: Its voltages.
        field: Its field.
    """
    try:
        problem = problem_of(section, fillings_of(installation), installation.duty.frequency)
        return _discharges(installation, section, voltages, field, solved(problem))
    except (FieldError, InputError) as error:
        return str(error)


def _discharges(
    installation: Installation,
    section: Section,
    voltages: Voltages,
    field: Field,
    solution: Solution,
) -> Discharges:
    density, metal = voltages.density, assumption("surface factor")
    oil, wall = _oil_share(field, section), field.surface("bore", "porcelain")
    oil_name = "Mean field across the oil in the hole, rms"
    lines = walked(solution, (*WAYS, *((name, "air") for name in section.rings)))
    gap, gap_other = _shield(installation, voltages, field, solution, lines)
    return Discharges(
        field=field,
        regions=region_stresses(field, voltages.phase),
        surfaces=surface_stresses(field, solution, voltages.phase),
        cap=streamer(field, solution, "cap", "air", density, metal, lines),
        clamps=streamer(field, solution, "clamps", "air", density, metal, lines),
        hole=_hole(installation, voltages, field, solution, lines),
        creep=creep_stretch(field, voltages.dry),
        gap=gap,
        gap_other=gap_other,
        oil_mean=stress(oil, oil_name, field, voltages.dry),
        oil_mean_impulse=stress(oil, oil_name, field, voltages.lightning_as_ac),
        porcelain_largest=stress(
            _in_the_hole(wall, section),
            "Field in the porcelain at the bore, in the hole, rms",
            field,
            voltages.dry,
        ),
        hole_gap=stress(
            _in_the_hole(field.surface("hole side", "clearance"), section),
            "Field in the gap at the body, in the hole, rms",
            field,
            voltages.phase,
        ),
        hole_capacitance=_piece(field, section),
        loss_by_energy=at_one_volt(
            field.proof.loss_by_energy, "Loss factor by energy", "tan delta", "%", field
        ),
        rings=_rings(section, voltages, field, solution, lines),
    )


def _shield(
    installation: Installation,
    voltages: Voltages,
    field: Field,
    solution: Solution,
    lines: Lines,
) -> tuple[Stretch, ...]:
    """The worst line from the shield: in oil as described, and in the other state of it."""
    state = installation.transformer.oil_state
    covered = installation.bushing.oil_end.shield_covered
    curves = [curve_for(each, covered) for each in (state, other_state(state))]
    return gap_stretches(field, solution, "shield", "tank oil", voltages.dry, curves, lines)


def _rings(
    section: Section, voltages: Voltages, field: Field, solution: Solution, lines: Lines
) -> tuple[tuple[str, Streamer], ...]:
    """What starts at each shield ring."""
    density, metal = voltages.density, assumption("surface factor")
    return tuple(
        (name, streamer(field, solution, name, "air", density, metal, lines))
        for name in section.rings
    )


def _hole(
    installation: Installation,
    voltages: Voltages,
    field: Field,
    solution: Solution,
    lines: Lines,
) -> Streamer | Stretch | None:
    """The earthed edge of the hole: in trapped gas a streamer, in oil the gap curve."""
    try:
        return _at_hole(installation, voltages, field, solution, lines)
    except (FieldError, InputError):
        return None


def _at_hole(
    installation: Installation,
    voltages: Voltages,
    field: Field,
    solution: Solution,
    lines: Lines,
) -> Streamer | Stretch:
    if installation.transformer.hole_bled:
        curve = curve_for(installation.transformer.oil_state, covered=False)
        test = voltages.discharge_free
        way = "hole wall", "clearance"
        (found,) = gap_stretches(field, solution, *way, test, [curve], lines)
        return found
    metal = assumption("surface factor")
    return streamer(field, solution, "hole wall", "clearance", voltages.density, metal, lines)


def _oil_share(field: Field, section: Section) -> float:
    """Mean field across the oil space in the middle of the hole, at one volt [1/m]."""
    bore = field.surface("bore", "oil")
    share = 1 - abs(bore.potential[_nearest(bore, section.heights.cover_underside / 2)])
    return float(share) / (section.radii.bore - section.radii.conductor)


def _in_the_hole(seen: Profile, section: Section) -> float:
    """Field beside an edge in the middle of the hole, at one volt [1/m]."""
    return float(seen.strength[_nearest(seen, section.heights.cover_underside / 2)])


def _nearest(profile: Profile, height: float) -> int:
    return int(np.argmin(np.abs(profile.points[:, 1] - height)))


def _piece(field: Field, section: Section) -> Number:
    """What the stretch of conductor inside the hole holds [F]."""
    stem = field.surface("stem", "oil")
    epsilon = next(f.permittivity for f in field.fillings if f.region == "oil")
    value = capacitance_between(stem, section.heights.cover_underside, 0.0, float(epsilon))
    name = "Capacitance of the conductor inside the hole"
    return at_one_volt(value, name, 'C_"hole"', "pF", field, "by the charge on it")
