"""The time model on the demonstrations: books closed, published behaviour, rain against fog."""

import time
from functools import cache

import numpy as np
import pytest

import shedlight as sl
from edits import EXAMPLES
from shedlight.errors import InputError
from shedlight.figures.drying import drying_picture, moments
from shedlight.workings import Workings
from shedlight.workings.drying import Drying, Scenario, drying_of
from shedlight.workings.wet_layer import wet_layer_of

NAMES = ("inland-12kv", "quay-24kv", "quarry-36kv")


@cache
def drying(name: str, scenario: Scenario = Scenario.FOG, minutes: float = 10.0) -> Drying:
    case = sl.read(EXAMPLES / f"{name}.toml")
    return drying_of(case, Workings(case), scenario, minutes)


@pytest.mark.parametrize("scenario", list(Scenario))
@pytest.mark.parametrize("name", NAMES)
def test_energy_and_voltage_add_up(name: str, scenario: Scenario) -> None:
    found = drying(name, scenario)

    assert found.run.ledger.error < 1e-2
    assert found.run.ledger.water_error < 1e-9
    assert np.sum(found.run.voltages, axis=1) == pytest.approx(float(found.voltage), rel=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_fog_shows_what_was_published_of_dry_bands(name: str) -> None:
    """Salthouse (1968), Löberg and Salthouse (1971): rise, fall, bands on the trunk, sparks."""
    found = drying(name)
    seen = {observation.citation.key for observation in found.observations if observation.seen}

    assert {"Salthouse", "Löberg & Salthouse", "Hampton"} <= seen
    assert found.banded is not None
    assert found.banded > found.peak
    assert not found.run.burning[: found.peak].any()


@pytest.mark.parametrize("name", NAMES)
def test_dry_undersides_count_in_rain_and_not_in_fog(name: str) -> None:
    fog, rain = drying(name), drying(name, Scenario.RAIN)

    assert rain.run.currents.max() < 1e-3 * fog.run.currents.max()
    assert rain.dry_shares[-1] > 0.4
    assert fog.dry_shares[fog.peak] < 0.2
    assert rain.observations[0].seen


def test_flat_rain_wets_more_of_the_outline() -> None:
    case = sl.read(EXAMPLES / "quay-24kv.toml")
    steep, flat = (
        drying_of(turned, Workings(turned), Scenario.RAIN, 2.0)
        for turned in (sl.changed(case, site__rain_angle=a) for a in (0.3, 1.2))
    )

    assert flat.dry_shares[-1] < steep.dry_shares[-1]


def test_without_sheds_rain_leaves_less_dry_and_fog_still_dries_bands() -> None:
    bare = sl.changed(sl.read(EXAMPLES / "inland-12kv.toml"), bushing__sheds=None)
    rain = drying_of(bare, Workings(bare), Scenario.RAIN, 2.0)

    assert rain.dry_shares[-1] < drying("inland-12kv", Scenario.RAIN).dry_shares[-1]


def test_ten_minutes_of_fog_take_less_than_a_second() -> None:
    case = sl.read(EXAMPLES / "quay-24kv.toml")
    work = Workings(case)
    start = time.process_time()
    drying_of(case, work, Scenario.FOG, 10.0)
    assert time.process_time() - start < 1.0


def test_the_layer_is_the_worst_measured_and_the_class_only_where_nothing_is() -> None:
    inland = sl.read(EXAMPLES / "inland-12kv.toml")
    quarry = sl.read(EXAMPLES / "quarry-36kv.toml")

    def layer(case: sl.Installation) -> str:
        return wet_layer_of(case, Workings(case).number).read_from

    assert layer(inland) == "the measured deposit"
    assert layer(sl.changed(inland, site__salinity=80.0)) == "the site salinity"
    assert layer(quarry).startswith("class d")


def test_a_layer_of_salt_fog_lies_near_the_published_equivalence() -> None:
    """IEC 815:1986: 14 to 40 kg/m³ go with layers of 24 to 35 µS, 40 and more with 36 or more."""
    quay = sl.read(EXAMPLES / "quay-24kv.toml")

    def film(salinity: float) -> float:
        case = sl.changed(quay, site__salinity=salinity)
        return 1e6 * wet_layer_of(case, Workings(case).number).conductivity

    assert film(40.0) == pytest.approx(35.0, rel=0.1)
    assert film(112.0) > 36


def test_cleaner_undersides_keep_the_current_down() -> None:
    case = sl.read(EXAMPLES / "inland-12kv.toml")
    cleaner = sl.changed(case, site__deposit_below=0.00005)
    found = drying_of(cleaner, Workings(cleaner), Scenario.FOG, 10.0)

    assert found.run.currents[found.peak] < drying("inland-12kv").run.currents.max()
    assert found.layer == Workings(cleaner).dirt.layer


def test_rain_as_described_counts_before_the_assumed_one() -> None:
    case = sl.read(EXAMPLES / "quay-24kv.toml")
    stormy = sl.changed(case, site__rain_rate=5e-6, site__rain_wind=12.0)
    found = drying_of(stormy, Workings(stormy), Scenario.RAIN, 2.0)

    assert found.dry_shares[-1] < drying("quay-24kv", Scenario.RAIN).dry_shares[-1]
    names = [number.step.label.name for number in found.assumed]
    assert "Rain on level ground" not in names


def test_times_the_model_is_not_made_for_are_refused() -> None:
    case = sl.read(EXAMPLES / "quay-24kv.toml")
    with pytest.raises(InputError, match=r"minutes: given 500; expected 0\.5 to 120"):
        drying_of(case, Workings(case), Scenario.FOG, 500.0)


@pytest.mark.parametrize("scenario", list(Scenario))
@pytest.mark.parametrize("name", NAMES)
def test_the_picture_tells_the_run_and_stays_on_its_paper(name: str, scenario: Scenario) -> None:
    found = drying(name, scenario)
    scene = drying_picture(found)
    texts = list(scene.texts)

    assert all(text.box.left >= 0 and text.box.right <= scene.width for text in texts)
    assert all(text.box.bottom <= scene.height for text in texts)
    told = " ".join(text.text for text in texts)
    assert found.sentence in told
    assert all(limit in told for limit in found.limits)
    assert len(moments(found)) >= 2


def test_a_minute_is_too_short_for_bands() -> None:
    short = drying("inland-12kv", Scenario.FOG, 1.0)

    assert short.banded is None
    assert short.run.times[-1] < 60
    assert "no dry band" in short.sentence
