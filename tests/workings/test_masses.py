"""Masses against volumes worked out by hand."""

import math
from pathlib import Path

import pytest

import shedlight as sl
from shedlight.documents.measured import measured_groups
from shedlight.workings import Workings, work_out

INLAND = sl.read(Path(__file__).parents[2] / "examples" / "inland-12kv.toml")


def masses(case: sl.Installation) -> dict[str, float]:
    return {part.part: float(part.mass) for part in work_out(case).masses}


def test_the_palm_weighs_its_plate_less_its_holes() -> None:
    plate = 0.060 * 0.060 - 4 * math.pi * 0.011**2 / 4

    assert masses(INLAND)["terminal"] == pytest.approx(8890 * plate * 0.008, rel=1e-12)


def test_the_oil_fills_the_annulus() -> None:
    # From the porcelain's lower end (105 mm under the seat at 4.2 mm) to the cap: 327 mm.
    height = 0.105 + 0.020 + 0.012 + 0.190
    annulus = math.pi / 4 * (0.025**2 - 0.012**2) * height

    assert masses(INLAND)["oil inside"] == pytest.approx(895 * annulus, rel=1e-9)


def test_a_tube_is_lighter_by_its_bore() -> None:
    tube = sl.changed(
        INLAND,
        bushing__conductor={
            "form": "tube",
            "metal": "copper",
            "diameter": 0.012,
            "inner_diameter": 0.006,
        },
    )
    name = "conductor, cap, shield and studs"
    bore = math.pi / 4 * 0.006**2 * (0.105 + 0.020 + 0.012 + 0.190)

    assert masses(INLAND)[name] - masses(tube)[name] == pytest.approx(8890 * bore, rel=1e-6)


def test_sheds_add_the_volume_of_their_rings() -> None:
    smooth = masses(sl.changed(INLAND, bushing__sheds=None))["porcelain body"]
    shedded = masses(INLAND)["porcelain body"]

    # Each shed: a ring from 26.5 to 58.5 mm, 8 mm at the tip and 13.2 mm at the trunk, by Pappus
    # within a tenth for its roundings.
    inner, outer = 0.0265, 0.0585
    thick = 0.0132
    slope = (0.0132 - 0.008) / (outer - inner)
    ring = (
        2
        * math.pi
        * ((thick + slope * inner) * (outer**2 - inner**2) / 2 - slope * (outer**3 - inner**3) / 3)
    )
    assert shedded - smooth == pytest.approx(4 * 2400 * ring, rel=0.1)


def test_the_report_lists_every_measured_figure_from_the_same_records() -> None:
    work: Workings = work_out(INLAND)
    groups = {group.title: group.rows for group in measured_groups(work)}

    assert len(groups["Sheds"]) == len(work.measures.sheds) + 2 * len(work.measures.bays)
    total = groups["Masses, bolts and gasket left out"][-1]
    assert total.sentence == "Together"
    assert float(total.text.split()[0]) == pytest.approx(
        sum(float(part.mass) for part in work.masses), rel=1e-3
    )
