"""What the solved field says of discharges, joined with the closed forms and their checks."""

import re
from copy import copy
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

import shedlight as sl
from shedlight.checks.catalogue import ANSWERS, questions
from shedlight.checks.check import Verdict, disagreement
from shedlight.documents.calculation import calculation
from shedlight.documents.html import page as calculation_page
from shedlight.documents.measured import measured_groups
from shedlight.exchange.record import assessment_record
from shedlight.figures.field_layers import SHADES
from shedlight.figures.field_section import field_section
from shedlight.figures.painters.svg import paint
from shedlight.physics.field.domain import FieldError
from shedlight.physics.field.lines import inception_scale
from shedlight.physics.oil.strength import creep_strength
from shedlight.workings import discharge, streamers, work_out
from shedlight.workings.discharge import Discharges
from shedlight.workings.field import field_of, fillings_of, problem_of, solved, wet
from shedlight.workings.numbers import assumption
from shedlight.workings.oil_stress import Stretch
from shedlight.workings.streamers import Streamer

EXAMPLES = Path(__file__).parents[2] / "examples"
QUAY, QUARRY = "quay-24kv", "quarry-36kv"
FROM_FIELD = (
    "field.proof",
    "field.capacitance",
    "field.loss-factor",
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


# --- readings that go into record and report -------------------------------------------------


@pytest.mark.parametrize("name", [QUAY, QUARRY])
def test_no_region_exceeds_its_largest_and_open_space_has_no_mean(name: str) -> None:
    found = {item.region: item for item in discharges(name).regions}

    assert set(found) == {"air", "oil", "tank oil", "clearance", "porcelain", "gasket"}
    for region, item in found.items():
        assert (item.mean is None) == (region in ("air", "tank oil"))
        assert item.mean is None or 0 < item.mean < item.largest


def test_porcelain_takes_less_than_the_oil_beside_it_by_their_permittivities() -> None:
    field = discharges(QUAY).field
    inner, outer = field.surface("bore", "oil"), field.surface("bore", "porcelain")
    epsilon = {item.region: float(item.permittivity) for item in field.fillings}
    middle = len(inner.lengths) // 2

    ratio = abs(inner.normal[middle]) / abs(outer.normal[middle])
    assert ratio == pytest.approx(epsilon["porcelain"] / epsilon["oil"], rel=2e-3)


def test_the_conductor_has_no_field_along_it_and_porcelain_has() -> None:
    found = {item.surface: item for item in discharges(QUAY).surfaces}

    assert found["conductor"].along is None
    assert found["conductor"].half is None
    air = found["porcelain in air"]
    assert air.along is not None
    assert air.half is not None
    assert 0 < air.half < assessed(QUAY).workings.section.curve("air side").length


def test_the_oil_shares_the_hole_with_the_coaxial_layers() -> None:
    found, radial = discharges(QUAY), assessed(QUAY).workings.radial

    # Flux from beyond a thin cover enters at its rim: more at the gap, less at the stem.
    gap = radial.stress("gap", "oil", "service").inner
    assert gap < found.hole_gap < 2 * gap
    assert 0.8 * radial.hole_capacitance < found.hole_capacitance < radial.hole_capacitance


def test_readings_reach_the_record_with_their_trace() -> None:
    results = assessment_record(assessed(QUAY))["results"]

    solved = ("field.", "discharges.")
    names = {entry["name"] for path, entry in results.items() if path.startswith(solved)}
    assert "Largest field in the porcelain, rms" in names
    assert "Mean field in the oil of the bushing, rms" in names
    assert "Largest field away from the conductor, rms" in names
    assert "Lower bound of the capacitance without losses" in names


def test_readings_reach_the_calculation_only_when_the_field_is_solved() -> None:
    titles = [group.title for group in measured_groups(assessed(QUAY).workings)]
    plain = measured_groups(sl.assess(sl.read(EXAMPLES / f"{QUAY}.toml")).workings)

    assert any(title.startswith("Field of the regions") for title in titles)
    assert not any("Field" in group.title for group in plain)


# --- closed forms beside the field ------------------------------------------------------------

PAIRS = {
    "wall.radial.oil": "Field solution",
    "wall.radial.porcelain": "Field solution",
    "wall.hole-gap": "Coaxial layers",
    "flange.inception": "Gap curve in the solved field",
    "cap.streamer": "Peek's law at the cap's rounding",
    "oil.gap": "Worst line in the solved field",
    "oil.creep": "Worst stretch in the solved field",
    "field.capacitance": "Charge on the conductor in the hole, solved field",
    "field.loss-factor": "Coaxial layers in the hole",
}


@pytest.mark.parametrize(("identifier", "title"), PAIRS.items())
def test_closed_form_and_field_stand_side_by_side_with_their_disagreement(
    identifier: str, title: str
) -> None:
    check = assessed(QUAY).check(identifier)
    other = next(item for item in check.rivals if item.title == title)
    more = disagreement(check, other)

    assert more is not None
    assert (1 + other.margin) * (1 + more) == pytest.approx(1 + (check.margin or 0), rel=1e-9)
    record = next(c for c in assessment_record(assessed(QUAY))["checks"] if c["id"] == identifier)
    told = next(item for item in record["rivals"] if item["title"] == title)
    assert told["disagreement"] == pytest.approx(more)


def test_both_loss_factors_of_one_solution_agree() -> None:
    found = discharges(QUAY)

    assert found.loss_by_energy == pytest.approx(float(found.field.loss_factor), rel=1e-4)


def test_a_solution_that_holds_less_than_its_piece_does_not_pass() -> None:
    work = copy(assessed(QUAY).workings)
    work.radial = replace(work.radial, hole_capacitance=discharges(QUAY).field.capacitance_high)
    question = questions()["field.capacitance"]
    check = ANSWERS[question.id](question, sl.read(EXAMPLES / f"{QUAY}.toml"), work)

    assert check.margin is not None
    assert check.margin < 0
    assert check.verdict in (Verdict.FAIL, Verdict.CAUTION)


@pytest.mark.parametrize("state", ["degassed", "gas-saturated"])
def test_the_state_of_the_oil_chooses_the_curve_and_the_other_stands_beside(state: str) -> None:
    case = sl.changed(sl.read(EXAMPLES / f"{QUAY}.toml"), transformer__oil_state=state)
    check = sl.assess(case).check("wall.radial.oil")
    other = next(item for item in check.rivals if item.title.startswith("If the oil were"))

    assert other.title != f"If the oil were {state}"
    assert check.capability is not None
    stronger = check.capability > other.capability
    assert stronger == (state == "degassed")


def test_gas_in_the_hole_starts_a_streamer_and_oil_does_not() -> None:
    quay = sl.read(EXAMPLES / f"{QUAY}.toml")
    gas = sl.assess(sl.changed(quay, transformer__hole_bled=False), with_field=True)
    found = gas.workings.discharges
    assert isinstance(found, Discharges)
    oil = discharges(QUAY)

    assert isinstance(found.hole, Streamer)
    assert isinstance(oil.hole, Stretch)
    assert found.hole.inception < oil.hole.inception / 3
    check = gas.check("flange.inception")
    assert any(item.title == "Streamer in the solved field" for item in check.rivals)


def test_a_hole_too_thin_to_read_clear_of_its_edges_leaves_the_rest_standing() -> None:
    thin = sl.changed(sl.read(EXAMPLES / f"{QUAY}.toml"), transformer__cover_thickness="2 mm")
    found = sl.assess(thin, with_field=True).workings.discharges

    assert isinstance(found, Discharges)
    assert found.cap.inception > 0


def test_weathered_metal_starts_streamers_sooner_than_polished() -> None:
    found = discharges(QUAY)
    polished = inception_scale(
        found.cap.line.lengths,
        found.cap.line.strength,
        float(assessed(QUAY).workings.voltages.density),
    ) / np.sqrt(2)

    assert 0.9 < found.cap.inception / polished < 1.0


def test_the_calculation_shows_the_field_where_it_was_solved() -> None:
    document = calculation(assessed(QUAY))
    plain = calculation(sl.assess(sl.read(EXAMPLES / f"{QUAY}.toml")))
    page = calculation_page(document)
    ids = re.findall(r' id="([^"]+)"', page)

    assert [picture.title.split()[0] for picture in document.field_pictures] == [
        "Electric",
        "Field",
    ]
    assert plain.field_pictures == ()
    assert len(ids) == len(set(ids))
    assert "The solved field" in page
    assert "The solved field" not in calculation_page(plain)


def test_a_line_is_followed_as_far_as_its_streamer_needs(monkeypatch: pytest.MonkeyPatch) -> None:
    """Cut short after a tenth of a millimetre, lines are still followed to where air holds."""
    work = assessed(QUAY).workings
    case = sl.read(EXAMPLES / f"{QUAY}.toml")
    solution = solved(problem_of(work.section, fillings_of(case), case.duty.frequency))
    plain = discharges(QUAY)
    monkeypatch.setattr(streamers, "FOLLOWED", 1e-4)
    found = streamers.streamer(
        plain.field, solution, "cap", "air", work.voltages.density, assumption("surface factor")
    )

    assert found.inception == pytest.approx(float(plain.cap.inception), rel=5e-3)
