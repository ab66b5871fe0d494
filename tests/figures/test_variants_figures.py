"""Charts of many cases: numbers lie where they are, names have no slope between them."""

from pathlib import Path

from shedlight.figures.painters.svg import paint
from shedlight.figures.variants import lengths_picture
from shedlight.variants.keeping import Keeping
from shedlight.variants.plan import read_plan
from shedlight.variants.running import run_plan
from shedlight.variants.summary import PlaceSummary, summary_of

LENGTHS = ("creepage_needed", "creepage", "arcing_needed", "arcing", "height", "mass")
ALTITUDE = Path(__file__).parents[2] / "examples" / "variants" / "altitude.toml"


def place(label: str) -> PlaceSummary:
    return PlaceSummary(label, 1, 0, 0.1, dict.fromkeys(LENGTHS, 0.3))


def test_quantities_of_one_unit_make_an_axis_of_numbers() -> None:
    by_number = paint(lengths_picture("Plan", "voltage", [place("12 kV"), place("36 kV")]))
    assert "voltage (kV)" in by_number
    assert "12 kV" not in by_number
    for labels in (["12 kV", "36 V"], ["36 kV", "12 kV"], ["town", "quay"]):
        by_name = paint(lengths_picture("Plan", "voltage", [place(label) for label in labels]))
        assert all(f">{label}<" in by_name for label in labels)


def test_length_grows_with_voltage_and_altitude(tmp_path: Path) -> None:
    keeping = Keeping(read_plan(ALTITUDE), tmp_path)
    run_plan(keeping, workers=1)
    axes = summary_of(keeping).axes
    for axis in ("voltage", "altitude"):
        needed = [place.means["arcing_needed"] for place in axes[axis]]
        assert needed == sorted(needed)
        assert needed[-1] > needed[0]
    creepage = [place.means["creepage_needed"] for place in axes["voltage"]]
    assert creepage == sorted(creepage)
