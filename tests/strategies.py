"""Random installations, for property tests and for the fuzzer.

``from strategies import installations`` gives a Hypothesis strategy of valid solid bushings over
the whole range of what can be described. ``described`` makes the same thing as plain data from
any :class:`Dice`, so that the fuzzer can have hundreds of thousands of them without Hypothesis.

Shapes are possible by construction: each dimension is drawn from what its neighbours leave free.
"""

import math
import random
from collections.abc import Sequence
from typing import Any, Protocol, TypeVar, get_args

from hypothesis import assume
from hypothesis import strategies as st
from pydantic import BaseModel

from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.section import build_section
from shedlight.given.bushing import Installation
from shedlight.given.fields import facts_of, inner_records, limits_of
from shedlight.given.reading import from_data
from shedlight.units import parse, write

T = TypeVar("T")
Data = dict[str, Any]

METALS = ("copper", "aluminium", "bronze", "brass")
# Shape the body or depend on one another: drawn by hand or not at all.
DIRT = ("pollution_class", "deposit", "deposit_below", "salinity")
RINGS = ("live_ring", "earth_ring")
SHAPING = ("sheds", "horns", "ribs", "collar_rounding", *RINGS, *DIRT, "rain_rate", "rain_wind")
FINISHES = ("bare", "tinned", "silvered")


class Dice(Protocol):
    """Where the choices come from: Hypothesis, or a seeded generator."""

    def number(self, low: float, high: float) -> float:
        """A number between two bounds."""

    def whole(self, low: int, high: int) -> int:
        """A whole number between two bounds, both included."""

    def one_of(self, options: Sequence[T]) -> T:
        """One of some options."""


class SeededDice:
    """Choices of a seeded generator: quick, repeatable, rounded as people write them."""

    def __init__(self, generator: random.Random) -> None:
        self.generator = generator

    def number(self, low: float, high: float) -> float:
        value = self.generator.uniform(low, high)
        rounded = float(f"{value:.3g}")
        return rounded if low <= rounded <= high else value

    def whole(self, low: int, high: int) -> int:
        return self.generator.randint(low, high)

    def one_of(self, options: Sequence[T]) -> T:
        return self.generator.choice(options)


class DrawnDice:
    """Choices of Hypothesis, which it can make simpler when a test fails."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw = draw

    def number(self, low: float, high: float) -> float:
        return self.draw(st.floats(low, high, allow_nan=False))

    def whole(self, low: int, high: int) -> int:
        return self.draw(st.integers(low, high))

    def one_of(self, options: Sequence[T]) -> T:
        return self.draw(st.sampled_from(options))


@st.composite
def descriptions(draw: st.DrawFn) -> Data:
    """Installations as plain data, quantities as text."""
    return described(DrawnDice(draw))


@st.composite
def installations(draw: st.DrawFn) -> Installation:
    """Valid solid bushings on their transformers; every one has a section."""
    installation = from_data(draw(descriptions()), "strategy")
    try:
        build_section(installation.bushing, installation.transformer)
    except ImpossibleShapeError:
        assume(False)
    return installation


def described(dice: Dice) -> Data:
    """One installation as plain data, quantities as text."""
    body = _Body(dice)
    data = {
        "name": dice.one_of(("T1", "Ostrel Ford, feeder 4", "Ω-test", "x" * 200)),
        "duty": _duty(dice),
        "site": (site := _site(dice)),
        "transformer": _transformer(dice, body, parse(site.get("hottest_air", "40 °C"), "°C")),
        "bushing": {"kind": "bulk", **body.tables()},
    }
    _fill(dice, Installation, data)
    return data


def _fill(dice: Dice, record: type[BaseModel], data: Data) -> None:
    """Write some of what may be left out: any words, counts and quantities that shape nothing."""
    for name, field in record.model_fields.items():
        members = inner_records(record, name)
        if (
            not field.is_required()
            and name not in data
            and name not in SHAPING
            and dice.whole(0, 1)
        ):
            written = {} if members else _anything(dice, record, name)
            if written is not None:
                data[name] = written
        if isinstance(data.get(name), dict):
            tag = data[name].get("form") or data[name].get("kind")
            fitting = [member for member in members if len(members) == 1 or _tag(member) == tag]
            _fill(dice, fitting[0], data[name])


def _anything(dice: Dice, record: type[BaseModel], name: str) -> Any:
    """Something that a field may hold; None if its default had better stand."""
    field, facts = record.model_fields[name], facts_of(record, name)
    words = [word for word in get_args(field.annotation) if isinstance(word, str)]
    if words:
        return dice.one_of(words)
    if field.annotation is bool:
        return dice.one_of((True, False))
    if field.annotation is str:
        return dice.one_of(("", "Made up.", "two\nlines"))
    limits = limits_of(record, name)
    if "ge" in limits:
        return dice.whole(limits["ge"], limits["le"])
    if facts.unit and field.default is None:
        return write(_between(dice, facts.low, facts.high), facts.unit)
    return None


def _between(dice: Dice, low: float, high: float) -> float:
    """A number between two bounds, every order of magnitude alike if there are several."""
    if low <= 0 or high < 100 * low:
        return dice.number(low, high)
    value = 10 ** dice.number(math.log10(low), math.log10(high))
    return min(high, max(low, float(f"{value:.4g}")))


def _tag(record: type[BaseModel]) -> str:
    field = record.model_fields.get("form") or record.model_fields["kind"]
    return str(get_args(field.annotation)[0])


def _mm(value: float) -> str:
    return f"{value!r} mm"


def _sometimes(dice: Dice, **entries: Any) -> Data:
    """Entries with a default, each written or left out."""
    return {name: value for name, value in entries.items() if dice.whole(0, 1)}


def _duty(dice: Dice) -> Data:
    highest = dice.one_of((1.1, 3.6, 7.2, 11.0, 12.0, 15.0, 17.5, 24.0, 33.0, 36.0, 52.0))
    if dice.whole(0, 3) == 0:
        highest = dice.number(1.1, 52.0)
    dry = dice.number(2.0, 200.0)
    duty: Data = {
        "highest_voltage": f"{highest!r} kV",
        "rated_current": f"{dice.one_of((1, 50, 250, 630, 1000, 3150, 40000))} A",
        "neutral_earthing": dice.one_of(("effective", "low-resistance", "resonant", "isolated")),
        "earth_fault_duration": dice.one_of(("0.01 s", "1 s", "10 s", "11 s", "8 h", "365 d")),
    }
    if dice.whole(0, 3) == 0:
        impulse = dice.number(max(10.0, 1.42 * dry), 400.0)
        duty |= {"power_frequency_dry": f"{dry!r} kV", "lightning_impulse": f"{impulse!r} kV"}
    return duty | _sometimes(
        dice,
        frequency=dice.one_of(("15 Hz", "16.7 Hz", "50 Hz", "60 Hz")),
        power_frequency_wet=f"{dice.number(2.0, 200.0)!r} kV",
        short_time_current=f"{dice.number(0.01, 400.0)!r} kA",
        short_time_duration=f"{dice.number(0.1, 10.0)!r} s",
        terminal_load=f"{dice.number(10.0, 20000.0)!r} N",
    )


def _site(dice: Dice) -> Data:
    known = dice.whole(1, 7)  # class, deposit, salinity: at least one of the three
    site: Data = {"altitude": f"{dice.one_of((-400.0, 0.0, dice.number(-400, 5000), 5000.0))!r} m"}
    if known & 1:
        site["pollution_class"] = dice.one_of("abcde")
    if known & 2:
        site["deposit"] = f"{10 ** dice.number(-4, 0.69):.4g} mg/cm²"
        site |= _sometimes(dice, deposit_below=f"{10 ** dice.number(-4, 0.69):.4g} mg/cm²")
    if dice.whole(0, 1):
        rate, wind = 10 ** dice.number(-1, 2.3), dice.number(0, 60)
        site |= {"rain_rate": f"{rate:.4g} mm/h", "rain_wind": f"{wind:.4g} m/s"}
    if known & 4:
        site["salinity"] = f"{10 ** dice.number(-1, 2.47):.4g} kg/m³"
    coldest = dice.number(-60.0, 29.0)
    if dice.whole(0, 1):
        hottest = dice.number(max(0.0, coldest + 0.5), 60.0)
        site |= {"coldest_air": f"{coldest!r} °C", "hottest_air": f"{hottest!r} °C"}
    return site | _sometimes(
        dice,
        rain_angle=f"{dice.one_of((0.0, 45.0, dice.number(0, 90), 90.0))!r} °",
        bushings_exposed=dice.whole(1, 200),
    )


def _transformer(dice: Dice, body: "_Body", hottest: float) -> Data:
    lowest = dice.number(-1.0, 10.0)
    return {
        "hole_diameter": _mm(body.hole),
        "cover_thickness": _mm(body.cover),
        "cover_metal": dice.one_of(("steel", "non-magnetic steel", "aluminium")),
        "lowest_oil_level": f"{lowest!r} m",
        "highest_oil_level": f"{dice.number(lowest, 10.0)!r} m",
        "breathing": dice.one_of(("conservator", "sealed cushion", "free")),
        "phase_spacing": _mm(dice.number(30, 10000)),
        "earth_distance": _mm(dice.number(30, 20000)),
        "tank_clearance": _mm(dice.number(1, 2000)),
    } | _sometimes(
        dice,
        mounting_angle=f"{dice.one_of((0.0, 15.0, dice.number(0, 90), 90.0))!r} °",
        top_oil_temperature=f"{dice.number(hottest - 273.15, 140)!r} °C",
    )


class _Body:
    """The dimensions of a bushing, drawn from the inside outwards; millimetres."""

    def __init__(self, dice: Dice) -> None:
        self.dice = dice
        n = dice.number
        self.conductor = n(3, 120)
        self.bore = max(5.0, self.conductor + n(1, 80))
        self.wall, self.cover = n(3, 60), n(2, 60)
        self.top_wall = self.wall * n(0.7, 1.0) if self.wall > 4 and dice.whole(0, 2) == 0 else None
        self.body = self.bore + 2 * self.wall
        self.hole = max(10.0, self.body + n(0.4, 40))
        self.gasket_inner = self.hole + n(0.5, 20)
        self.gasket_outer = max(6.0, self.gasket_inner + n(2, 80))
        self.collar = self.gasket_outer + n(0.5, 40)
        self.gasket = n(1, 20)
        self.squeezed = max(0.5, self.gasket * n(0.5, 0.95))

    def tables(self) -> Data:
        sheds, least = self._sheds()
        tables = {
            "conductor": self._conductor(),
            "porcelain": self._porcelain(least),
            "fixing": self._fixing(),
            "gasket": {
                "inner_diameter": _mm(self.gasket_inner),
                "outer_diameter": _mm(self.gasket_outer),
                "thickness": _mm(self.gasket),
                "compressed_thickness": _mm(self.squeezed),
            },
            "oil_end": self._oil_end(),
            "cap": self._cap(),
            "terminal": self._terminal(),
        }
        if sheds:
            tables["sheds"] = sheds
        if self.dice.whole(0, 1):
            tables["horns"] = {
                "gap": _mm(self.dice.number(10, 2000)),
                "rod_diameter": _mm(self.dice.number(3, 60)),
                "reach": _mm(self.dice.number(20, 2000)),
            }
        return tables

    def _conductor(self) -> Data:
        conductor: Data = {"metal": self.dice.one_of(METALS), "diameter": _mm(self.conductor)}
        if self.dice.whole(0, 1):
            inner = self.dice.number(1.0, max(1.0, 0.95 * self.conductor))
            return conductor | {"form": "tube", "inner_diameter": _mm(inner)}
        return conductor | {"form": "rod"}

    def _porcelain(self, least: float) -> Data:
        porcelain = {
            "bore": _mm(self.bore),
            "wall": _mm(self.wall),
            "collar_diameter": _mm(self.collar),
            "collar_height": _mm(self.dice.number(5, 100)),
            "air_length": _mm(min(3000.0, max(20.0, least + self.dice.number(0.5, 200)))),
        }
        if self.top_wall is not None:
            porcelain["top_wall"] = _mm(self.top_wall)
        return porcelain

    def _sheds(self) -> tuple[Data, float]:
        """The sheds, and the air length they need at least."""
        n, form = self.dice.number, self.dice.one_of(("plain", "alternating", "none"))
        if form == "none":
            return {}, 20.0
        overhang, thickness, top = n(8, 120), n(3, 30), n(0, 50)
        # An underside much steeper than the upper side would leave no shed at the trunk.
        steepest = math.tan(math.radians(top)) + 0.7 * thickness / overhang
        under = n(0, min(40.0, math.degrees(math.atan(steepest))))
        low, high = math.radians(45 + under / 2), math.radians(45 - top / 2)
        ribs = self.dice.whole(1, 4) if overhang > 30 and self.dice.whole(0, 2) == 0 else 0
        free = 0.3 * overhang / (ribs + 1) / math.tan(low)
        tip = max(0.5, min(n(0.2, 0.98) * thickness / (math.tan(low) + math.tan(high)), free))
        root = max(0.5, min(n(0.5, 20), free))
        depth = max(2.0, n(0.5, 0.9) * overhang / (ribs + 1))
        # What one shed takes up along the trunk, its roundings and ribs included.
        height = thickness + overhang * math.tan(math.radians(top)) * 1.1
        taken = height + root * (math.tan(low) + math.tan(high)) + (depth if ribs else 0)
        pitch = min(500.0, max(5.0, 1.05 * taken + n(0.5, 60)))
        above = root * math.tan(low) + 4.0
        first = max(5.0, thickness / 2 + above + (depth if ribs else 0) + n(0, 60))
        room = 2980.0 - first - 1.1 * taken
        count = max(1, min(self.dice.whole(1, 60), int(room / pitch)))
        sheds: Data = {
            "form": form,
            "count": count,
            "overhang": _mm(overhang),
            "pitch": _mm(pitch),
            "first_tip": _mm(first),
            "top_slope": f"{top!r} °",
            "under_slope": f"{under!r} °",
            "tip_thickness": _mm(thickness),
            "tip_radius": _mm(tip),
            "root_radius": _mm(root),
        }
        if ribs:
            sheds |= {"ribs": ribs, "rib_depth": _mm(depth)}
        if form == "alternating":
            sheds["short_overhang"] = _mm(overhang * n(0.6, 0.98))
        return sheds, first + (count - 1) * pitch + 1.1 * taken

    def _fixing(self) -> Data:
        thickness, outer = self.dice.number(3, 60), self.collar + self.dice.number(0, 100)
        flat = (self.collar - self.body) / 2
        fixing: Data = {"outer_diameter": _mm(max(15.0, outer)), "thickness": _mm(thickness)}
        if self.dice.whole(0, 2) == 0:
            round_ = max(0.2, self.dice.number(0, 0.4) * min(thickness, flat))
            return fixing | {"form": "flange", "edge_radius": _mm(min(30.0, round_))}
        stand_off = max(0.5, min(100.0, self.dice.number(0.05, 0.8) * flat))
        round_ = max(0.2, self.dice.number(0, 0.4) * min(thickness, flat - stand_off))
        rounded = {"stand_off": _mm(stand_off), "edge_radius": _mm(min(30.0, round_))}
        return fixing | {"form": "clamps"} | rounded

    def _oil_end(self) -> Data:
        n = self.dice.number
        end = self.bore + n(0.2, 1.0) * (self.body - self.bore)
        taper = n(1, 300)
        length = max(10.0, self.squeezed + self.cover + taper + n(1, 300))
        shield, height = self.bore + n(1, 120), n(2, 120)
        stud = min(200.0, max(4.0, n(0.2, 0.8) * shield))
        round_ = max(0.5, n(0, 0.45) * min(height, shield - stud))
        return {
            "length": _mm(length),
            "end_diameter": _mm(max(8.0, end)),
            "taper_length": _mm(taper),
            "shield_diameter": _mm(max(8.0, shield)),
            "shield_height": _mm(height),
            "shield_edge_radius": _mm(min(150.0, round_)),
            "stud_diameter": _mm(stud),
            "stud_length": _mm(n(5, 300)),
        }

    def _cap(self) -> Data:
        diameter, height = self.body + self.dice.number(0, 60), self.dice.number(8, 120)
        round_ = max(0.2, self.dice.number(0, 0.45) * min(height, self.wall))
        return {
            "diameter": _mm(diameter),
            "height": _mm(height),
            "edge_radius": _mm(min(100.0, round_)),
        }

    def _terminal(self) -> Data:
        n, one_of = self.dice.number, self.dice.one_of
        terminal: Data = {
            "metal": one_of(METALS),
            "finish": one_of(FINISHES),
            "height": _mm(n(10, 300)),
            "lug_metal": one_of(("copper", "aluminium")),
            "lug_finish": one_of(FINISHES),
        }
        if self.dice.whole(0, 1):
            return terminal | {"form": "stud", "diameter": _mm(n(5, max(5.0, self.bore)))}
        width, height = n(20, 200), n(20, 200)
        across = int(min(width, height) // 10)
        hole = n(4, 6)
        return terminal | {
            "form": "palm",
            "width": _mm(width),
            "height": _mm(height),
            "thickness": _mm(n(2, 40)),
            "holes": self.dice.whole(1, min(16, across**2)),
            "hole_diameter": _mm(hole),
            "hole_spacing": _mm(max(8.0, hole * n(1.2, 3))),
        }
