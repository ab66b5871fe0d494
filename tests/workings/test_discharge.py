"""What the solved field says of discharges, joined with the closed forms and their checks."""

import re
from functools import cache
from pathlib import Path

import numpy as np
import pytest

import shedlight as sl
from shedlight.checks.check import Verdict
from shedlight.figures.field import surface_stress, surface_voltage
from shedlight.figures.field_layers import SHADES
from shedlight.figures.field_section import field_section
from shedlight.figures.painters.svg import paint
from shedlight.physics.field.domain import FieldError
from shedlight.physics.oil.strength import creep_strength
from shedlight.workings import discharge, work_out
from shedlight.workings.discharge import Discharges
from shedlight.workings.field import field_of, fillings_of, problem_of, solved, wet

EXAMPLES = Path(__file__).parents[2] / "examples"
QUAY, QUARRY = "quay-24kv", "quarry-36kv"
FROM_FIELD = (
    "field.proof",
    "cap.streamer",
    "flange.streamer",
    "oil.creep.cumulative",
    "oil.gap.field-line",
)


@cache
def assessed(name: str) -> sl.Assessment:
    return sl.assess(sl.read(EXAMPLES / f"{name}.toml"), with_field=True)


def discharges(name: str) -> Discharges:
    found = assessed(name).workings.discharges
    assert isinstance(found, Discharges)
    return found


@pytest.mark.parametrize("name", [QUAY, QUARRY])
def test_bounds_bracket_and_leave_little_open(name: str) -> None:
    field = discharges(name).field

    assert field.capacitance_low < field.capacitance_high
    assert 0 < field.doubt < 1e-3
    assert field.doubt == pytest.approx(
        field.capacitance_high / field.capacitance_low - 1, rel=1e-3
    )


@pytest.mark.parametrize("name", [QUAY, QUARRY])
def test_a_thin_cover_eases_the_layers_of_endless_cylinders(name: str) -> None:
    found, radial = discharges(name), assessed(name).workings.radial

    closed = radial.stress("oil", "oil", "dry test").mean
    assert 0.8 * closed < found.oil_mean < closed
    wall = radial.stress("porcelain", "oil", "dry test").inner
    assert 0.8 * wall < found.porcelain_largest < wall


def test_streamers_start_on_the_metal_they_are_asked_of() -> None:
    found, section = discharges(QUARRY), assessed(QUARRY).workings.section

    assert found.cap.start.z > section.heights.cap_base - 1e-9
    assert section.heights.shoulder - 1e-9 <= found.clamps.start.z
    assert found.clamps.start.z <= section.heights.clamp_top + 1e-9


def test_thin_air_lowers_streamer_inception() -> None:
    case = sl.read(EXAMPLES / f"{QUARRY}.toml")
    low = sl.assess(sl.changed(case, site__altitude=0.0), with_field=True).workings.discharges

    assert isinstance(low, Discharges)
    assert low.cap.inception > discharges(QUARRY).cap.inception
    # Stems are short: inception falls a little more slowly than density.
    share = discharges(QUARRY).cap.inception / low.cap.inception
    assert 0.80 < share < 0.95


def test_the_worst_stretch_is_no_milder_than_the_mean_of_the_whole_surface() -> None:
    found, work = discharges(QUAY), assessed(QUAY).workings
    seen = found.field.surface("oil side", "tank oil")
    size = float(seen.lengths[-1] - seen.lengths[0])
    gathered = float(np.trapezoid(np.abs(seen.tangential), seen.lengths))
    whole = gathered / size * float(work.voltages.dry)

    worst = found.creep.mean / found.creep.strength
    assert worst >= whole / creep_strength(size) * (1 - 1e-9)
    assert found.creep.length <= work.oil.creepage * (1 + 1e-9)


@pytest.mark.parametrize("identifier", FROM_FIELD)
def test_checks_of_the_field_are_answered_by_request_only(identifier: str) -> None:
    asked = assessed(QUAY).check(identifier)
    plain = sl.assess(sl.read(EXAMPLES / f"{QUAY}.toml")).check(identifier)

    assert asked.verdict is Verdict.PASS
    assert asked.trace
    assert plain.verdict is Verdict.NOT_ASSESSED
    assert "not solved" in plain.reason


def test_a_field_that_cannot_be_found_leaves_questions_open(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def lost(*_: object, **__: object) -> None:
        raise FieldError("collar side", "no mesh at this corner")

    monkeypatch.setattr(discharge, "field_of", lost)
    assessment = sl.assess(sl.read(EXAMPLES / f"{QUAY}.toml"), with_field=True)

    for identifier in FROM_FIELD:
        check = assessment.check(identifier)
        assert check.verdict is Verdict.NOT_ASSESSED
        assert "no mesh at this corner" in check.reason


def test_pictures_of_the_field_are_whole_and_small() -> None:
    case = sl.read(EXAMPLES / f"{QUAY}.toml")
    work = work_out(case)
    solution = solved(problem_of(work.section, fillings_of(case), case.duty.frequency))
    scene = field_section(case, work.section, work.measures, solution, float(work.voltages.phase))
    svg = paint(scene)

    assert len(svg) < 1_000_000
    assert "nan" not in svg.lower().replace("maintenance", "")
    assert all(shade in svg for shade in SHADES)
    shown = [float(n) for n in re.findall(r"above ([\d.]+)<", svg)]
    assert shown == sorted(shown, reverse=True)
    for text in scene.texts:
        assert text.box.right <= scene.width + 1e-6, text.text


def test_a_wet_surface_shares_the_voltage_more_evenly() -> None:
    case = sl.read(EXAMPLES / f"{QUAY}.toml")
    section = work_out(case).section
    dry, soaked = field_of(case, section), field_of(case, section, wet(section, 1e-6))
    middle = {}
    for field in (dry, soaked):
        seen = field.surface("air side", "air")
        middle[field.state.name] = abs(seen.potential[len(seen.lengths) // 2])

    # A film decides by its form factor alone; dry, the upper part carries less than its share.
    assert middle["wet"] < middle["dry"]
    scene = surface_voltage([dry, soaked])
    assert {"dry", "wet"} <= {text.text for text in scene.texts}
    assert surface_stress(dry, 1e4).title.startswith("Field beside the porcelain")
