"""What routine and type tests ask of one bushing, and what the calculation expects to be read."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from shedlight import tables
from shedlight.physics.heat.tables import temperature_limit
from shedlight.sources import Citation
from shedlight.trace import Number
from shedlight.units import amount
from shedlight.workings import Workings


@dataclass(frozen=True)
class ProvingTest:
    """One test: how it is done, what is applied, what the calculation expects, what passes."""

    key: str
    kind: str  # routine or type
    title: str
    how: str
    accepted: str
    applied: tuple[tuple[str, Number], ...]  # what it is called, and how much
    expected: tuple[tuple[str, Number], ...]
    missing: str  # why nothing is expected, where a number would be; else empty
    citation: Citation


def proving_tests(work: Workings) -> tuple[ProvingTest, ...]:
    """Every test of the table with the numbers of one bushing, in the table's order.

    Args:
        work: What was computed for it.
    """
    with tables.confirmed(work.overlay):
        return tuple(_tests(work))


def _tests(work: Workings) -> Iterator[ProvingTest]:
    limit = temperature_limit("conductor after short circuit", "any", "any")
    yield from (
        ProvingTest(
            row["key"],
            row["kind"],
            row["title"],
            row["how"],
            row["accepted"].format(short_time_limit=amount(limit.temperature, "°C")),
            tuple(_APPLIED[row["key"]](work)),
            tuple(_EXPECTED.get(row["key"], _nothing)(work)),
            _MISSING.get(row["key"], _none_missing)(work),
            tables.citation(row),
        )
        for row in tables.read("workings/proving_tests")
    )


Told = Iterator[tuple[str, Number]]


def _nothing(work: Workings) -> Told:
    yield from ()


def _none_missing(work: Workings) -> str:
    return ""


def _given(**paths: str) -> Callable[[Workings], Told]:
    """Numbers of the description, by what the test bay calls them."""
    named = {words.replace("_", " "): path for words, path in paths.items()}
    return lambda work: ((words, work.number(path)) for words, path in named.items())


def _tightness(name: str) -> Callable[[Workings], Told]:
    def found(work: Workings) -> Told:
        one = next(one for one in work.filling.tests if one.test.test == name)
        yield "gauge pressure", one.pressure
        yield "held for", one.duration

    return found


def _drift(work: Workings) -> Told:
    for one in work.filling.tests:
        if one.drift is not None:
            yield "gauge per kelvin of cooling, tight", one.drift


def _rise(work: Workings) -> Told:
    steady = work.heat.steady
    if not isinstance(steady, str):
        yield "rise of the hottest place", steady.hot_spot_rise
        yield "rise of the terminal", steady.terminal_rise


def _short_time(work: Workings) -> Told:
    found = work.heat.short_time
    if found is not None:
        yield "final temperature", found.final
        yield "first peak", found.peak


def _no_short_time(work: Workings) -> str:
    if work.heat.short_time is not None:
        return ""
    metal = work.installation.bushing.conductor.metal
    return work.heat.runaway or f"no short-time constants of {metal} are held"


def _sizes(work: Workings) -> Told:
    yield "creepage", work.surface.creepage
    yield "arcing distance", work.air.arcing


def _load(work: Workings) -> Told:
    yield "force", work.number("duty.terminal_load")
    yield "gauge pressure", work.oil.test_pressure


def _deflection(work: Workings) -> Told:
    yield "deflection, held by the gasket alone", work.strength.deflection.rocking


_APPLIED: dict[str, Callable[[Workings], Told]] = {
    "look": _nothing,
    "dry": _given(rms_to_earth="duty.power_frequency_dry"),
    "routine oil": _tightness("routine oil"),
    "routine flange gas": _tightness("routine flange gas"),
    "routine flange oil": _tightness("routine flange oil"),
    "wet": _given(rms_to_earth="duty.power_frequency_wet"),
    "impulse": _given(peak_to_earth="duty.lightning_impulse"),
    "rise": _given(current="duty.rated_current"),
    "short time": _given(current="duty.short_time_current", lasting="duty.short_time_duration"),
    "load": _load,
}
_EXPECTED: dict[str, Callable[[Workings], Told]] = {
    "look": _sizes,
    "routine flange gas": _drift,
    "rise": _rise,
    "short time": _short_time,
    "load": _deflection,
}
_MISSING: dict[str, Callable[[Workings], str]] = {
    "rise": lambda work: work.heat.runaway,
    "short time": _no_short_time,
}
