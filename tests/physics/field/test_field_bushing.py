"""The field of whole bushings, by way of the workings."""

import itertools
import math
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from fuzz.fields import candidates, fault_of
from fuzz.fields import solved as solved_candidate
from shedlight.geometry.section import Section, build_section
from shedlight.given.bushing import Installation
from shedlight.given.reading import read
from shedlight.physics.field.adapt import solve
from shedlight.physics.field.domain import CancelledError, FieldError, Problem
from shedlight.physics.field.lines import field_lines, inception_scale
from shedlight.physics.field.profiles import profile
from shedlight.physics.field.readings import read_at
from shedlight.trace import out_of_range
from shedlight.workings import field as workings_field
from shedlight.workings.field import (
    DRY,
    EARTH,
    LIVE,
    Field,
    field_of,
    fillings_of,
    problem_of,
    solved,
    wet,
    wet_on,
)

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.toml"))


def quarry() -> tuple[Installation, Section]:
    installation = read(next(path for path in EXAMPLES if "quarry" in path.name))
    return installation, build_section(installation.bushing, installation.transformer)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_has_its_field_with_proof(path: Path) -> None:
    installation = read(path)
    section = build_section(installation.bushing, installation.transformer)
    field = field_of(installation, section)
    proof, losses = field.proof, [float(filling.loss_factor) for filling in field.fillings]
    assert proof.gap < 1e-4
    assert proof.capacitance_low < proof.capacitance_high
    assert proof.capacitance_low < proof.capacitance_loss_free < proof.capacitance_high
    # Unequal losses raise the capacitance, by no more than half their range squared.
    assert 0 < proof.losses_add < ((max(losses) - min(losses)) / 2) ** 2
    assert proof.capacitance == pytest.approx(proof.capacitance_high, rel=1e-4)
    assert proof.loss_disagreement < 1e-6
    assert 0.002 < proof.loss_by_admittance < 0.02  # between oil's and porcelain's


def test_inside_the_hole_the_field_is_that_of_coaxial_layers() -> None:
    installation, section = quarry()
    field = field_of(installation, section)
    r, oil, body = section.radii, 2.2, 6.0
    in_hole = 1.0 if not installation.transformer.hole_bled else 2.2
    layers = ((r.conductor, r.bore, oil), (r.bore, r.body, body), (r.body, r.hole, in_hole))
    total = sum(math.log(b / a) / e for a, b, e in layers)
    seen = field.surface("stem", "oil")
    middle = np.interp(0.0 - section.heights.oil_end, seen.lengths, seen.strength)
    assert middle == pytest.approx(1 / (r.conductor * oil * total), rel=0.1)


def test_open_space_has_been_taken_far_enough() -> None:
    installation, section = quarry()
    fillings = fillings_of(installation)
    found = [solve(problem_of(section, fillings, 50.0, far=far), 1e-4) for far in (4.0, 8.0, 16.0)]
    capacitances = [2 * item.bounds.high for item in found]
    peaks = [float(profile(item, "shield", "tank oil").strength.max()) for item in found]
    assert capacitances[1] == pytest.approx(capacitances[2], rel=1e-5)
    assert peaks[1] == pytest.approx(peaks[2], rel=2e-3)
    # Earthed at the rim from above, closed at the rim from below: both hold for open space.
    assert max(item.bounds.low for item in found) < min(item.bounds.high for item in found)


def test_refinement_lowers_the_bound_from_above_and_raises_the_one_from_below() -> None:
    installation, section = quarry()
    problem = problem_of(section, fillings_of(installation), 50.0)
    bounds = [solve(problem, 0.5, order=order).bounds for order in (2, 3, 4)]  # on one mesh
    highs, lows = [b.high for b in bounds], [b.low for b in bounds]
    assert highs == sorted(highs, reverse=True)
    assert lows == sorted(lows)


def test_wet_surfaces_spread_the_voltage_and_burn_power() -> None:
    installation, section = quarry()
    dry = field_of(installation, section)
    damp = field_of(installation, section, wet(section, 1e-9))
    soaked = field_of(installation, section, wet(section, 1e-6))
    assert dry.loss_factor < damp.loss_factor < soaked.loss_factor
    assert damp.proof.loss_disagreement < 1e-6 * damp.loss_factor + 1e-6
    assert soaked.capacitance > damp.capacitance > dry.capacitance

    def halfway(field: Field) -> float:
        seen = field.surface("air side", "air")
        return float(np.interp(0.5 * seen.lengths[-1], seen.lengths, np.abs(seen.potential)))

    surface = section.curve("air side")
    total = surface.form_factor
    share = surface.between(0.0, 0.5 * surface.length).form_factor / total
    assert halfway(soaked) == pytest.approx(share, abs=0.08)  # a resistive divider
    # Dry, the conductor inside pulls the whole surface up to its own potential.
    assert halfway(dry) > halfway(damp) > halfway(soaked)


def test_a_dry_band_takes_the_voltage() -> None:
    installation, section = quarry()
    length = section.curve("air side").length
    stretches = (("air side", 0.0, 0.4 * length), ("air side", 0.6 * length, length))
    field = field_of(installation, section, wet_on(stretches, 1e-6))
    seen = field.surface("air side", "air")
    low, high = np.interp([0.4 * length, 0.6 * length], seen.lengths, np.abs(seen.potential))
    assert high - low > 0.95


def test_the_field_jumps_across_porcelain_as_the_permittivities_say() -> None:
    installation, section = quarry()
    field = field_of(installation, section)
    outside, inside = field.surface("bore", "oil"), field.surface("bore", "porcelain")
    span = slice(len(outside.lengths) // 4, 3 * len(outside.lengths) // 4)
    assert outside.tangential[span] == pytest.approx(inside.tangential[span], abs=0.05)
    ratio = np.abs(outside.normal[span] / inside.normal[span])
    assert ratio == pytest.approx(6.0 / 2.2, rel=0.02)


def test_voltages_share_one_factorisation() -> None:
    installation, section = quarry()
    problem = problem_of(section, fillings_of(installation), 50.0)
    solution = solved(problem)
    louder = Problem(problem.shape, problem.media, {LIVE: 100.0, EARTH: 0.0}, (), 50.0)
    again = solve(louder)
    assert again.unit is solution.unit
    at = np.array([0.02]), np.array([0.1])
    assert read_at(again, *at).potential == pytest.approx(100 * read_at(solution, *at).potential)


def test_streamers_start_at_the_clamps_near_what_a_round_wire_would_need() -> None:
    installation, section = quarry()
    solution = solved(problem_of(section, fillings_of(installation), 50.0))
    seen = profile(solution, "clamps", "air")
    worst = seen.points[[int((seen.strength * (seen.lengths > 2e-3)).argmax())]]
    line = field_lines(solution, worst, "air")[0]
    voltage = inception_scale(line.lengths, line.strength)
    assert line.lengths[-1] > 4e-3
    assert 4e6 < voltage * line.strength[0] < 8e6  # Peek: 5.6 kV/mm on 3 mm


@pytest.mark.parametrize("seed", range(3))
def test_random_bushings_are_solved(seed: int) -> None:
    """A few of what ``make fuzz-field`` solves by the hundred."""
    for candidate in itertools.islice(candidates(1000 + seed), 5):
        fault, _, _ = solved_candidate(candidate)
        assert not fault, f"{candidate.name}: {fault}"


def test_a_field_with_a_fault_would_be_seen() -> None:
    installation, section = quarry()
    field = field_of(installation, section)
    assert fault_of(field) == ""
    proof = field.proof
    changes: tuple[dict[str, Any], ...] = (
        {"gap": 2e-4},
        {"capacitance_low": proof.capacitance_high * 1.01},
        {"capacitance": proof.capacitance_low * 0.999},
        {"capacitance": proof.capacitance_high * 1.001},
        {"loss_by_admittance": 2 * proof.loss_by_energy},
    )
    for change in changes:
        assert fault_of(replace(field, proof=replace(proof, **change)))


@pytest.mark.parametrize("failing", [1, 2, 3])
def test_where_one_mesh_does_not_do_others_are_tried(
    failing: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Open space ends elsewhere and elements are cut otherwise: the bounds still hold."""
    installation, section = quarry()
    usual_field = field_of(installation, section)
    usual = usual_field.proof
    tried: list[Problem] = []

    def fails(problem: Problem, tolerance: float, **more: Any) -> Any:
        tried.append(problem)
        if len(tried) <= failing:
            raise FieldError("mesh", f"try {len(tried)}")
        return solve(problem, tolerance, **more)

    monkeypatch.setattr(workings_field, "solve", fails)
    solved.cache_clear()
    other_field = field_of(installation, section)
    other = other_field.proof
    solved.cache_clear()

    assert out_of_range(usual_field.capacitance) == ()
    assert out_of_range(other_field.capacitance) == (workings_field.OTHER_MESH,)
    assert len(tried) == failing + 1
    assert len({problem.shape for problem in tried}) == failing + 1
    assert max(usual.capacitance_low, other.capacitance_low) < min(
        usual.capacitance_high, other.capacitance_high
    )
    assert other.gap < 1e-4
    assert other.capacitance_loss_free == pytest.approx(usual.capacitance_loss_free, rel=1e-4)


@pytest.mark.parametrize(("kind", "tries"), [(FieldError, 4), (CancelledError, 1)])
def test_what_no_mesh_solves_is_told_by_its_first_reason(
    kind: type[FieldError], tries: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    installation, section = quarry()
    tried: list[str] = []

    def fails(*_: object, **__: object) -> None:
        tried.append("")
        raise kind("mesh", f"try {len(tried)}")

    monkeypatch.setattr(workings_field, "solve", fails)
    solved.cache_clear()
    with pytest.raises(FieldError, match="try 1"):
        field_of(installation, section)
    assert len(tried) == tries  # nothing is tried again that took too long


def test_a_dry_state_has_no_films() -> None:
    assert DRY.films == ()


def test_physics_and_workings_do_not_load_the_solver() -> None:
    code = (
        "import sys, shedlight, shedlight.workings.field, shedlight.physics.field.benchmarks;"
        "print('ngsolve' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "False"
