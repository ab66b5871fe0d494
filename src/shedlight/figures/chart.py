"""Curves in a frame: axes with round values, lines told apart by dash as well as colour."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import shapely

from shedlight.figures.drafting import INK, SMALL, THIN
from shedlight.figures.scene import (
    Anchor,
    Box,
    Drawn,
    Item,
    Layer,
    Path,
    Pen,
    Placement,
    Scene,
    Spot,
    Text,
    circle,
    closed,
    line,
)

# Okabe and Ito's palette keeps apart for the colour-blind; dashes keep apart in grey.
STYLES = (
    ("#0072b2", ()),
    ("#d55e00", (2.4, 1.0)),
    ("#009e73", (0.8, 0.8)),
    ("#cc79a7", (4.0, 0.8, 0.6, 0.8)),
    ("#555555", (1.4, 1.4)),
)
CURVE = 0.45
DOT_SIZE = 0.75
GRID = "#d9d9d9"
TICK = 1.2
STRIP = 1.1
RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
SMALLEST_SPAN = 1e-30  # below it no round step can be told apart


@dataclass(frozen=True)
class Axis:
    """One axis: what it shows and from where to where."""

    title: str
    low: float
    high: float

    def share(self, value: float) -> float:
        """Where a value lies between the ends, 0 to 1."""
        return (value - self.low) / (self.high - self.low)

    def ticks(self, wanted: int = 6) -> tuple[float, ...]:
        """Round values: steps of 1, 2 or 5 times a power of ten."""
        step = round_step((self.high - self.low) / wanted)
        first, last = math.ceil(self.low / step - 1e-9), math.floor(self.high / step + 1e-9)
        return tuple(step * n for n in range(first, last + 1))


@dataclass(frozen=True)
class LogAxis(Axis):
    """An axis on which equal ways are equal factors; both ends above zero."""

    def share(self, value: float) -> float:
        """Where a value lies between the ends, 0 to 1."""
        return math.log(value / self.low) / math.log(self.high / self.low)

    def ticks(self, wanted: int = 6) -> tuple[float, ...]:
        """Powers of ten, with 2 and 5 times them where few fit."""
        decades = range(
            math.floor(math.log10(self.low)), math.floor(math.log10(self.high) + 1e-9) + 1
        )
        several = (1.0,) if len(decades) > wanted / 2 else (1.0, 2.0, 5.0)
        found = (m * 10.0**decade for decade in decades for m in several)
        room = 1e-9
        return tuple(v for v in found if self.low * (1 - room) <= v <= self.high * (1 + room))


@dataclass(frozen=True)
class Curve:
    """One line of a chart; `dots` draws its places alone, as published figures stand."""

    name: str
    xs: tuple[float, ...]
    ys: tuple[float, ...]
    dots: bool = False


@dataclass(frozen=True)
class Limit:
    """A level to hold against: a thin line with its name, at its right end or left, or below it."""

    name: str
    value: float
    left: bool = False
    below: bool = False


@dataclass(frozen=True)
class Chart:
    """What a chart shows.

    ``marks`` are named places along x, such as shed tips, drawn as ticks on the upper edge;
    ``strips`` are stretches of x, such as wet ones, drawn as bars on the lower edge.
    """

    key: str
    title: str
    description: str
    x: Axis
    y: Axis
    curves: tuple[Curve, ...]
    limits: tuple[Limit, ...] = ()
    marks: tuple[float, ...] = ()
    mark_title: str = ""
    strips: tuple[tuple[float, float], ...] = ()
    size: tuple[float, float] = (170.0, 90.0)
    margins: tuple[float, float, float, float] = field(default=(16.0, 16.0, 4.0, 12.0))


def round_step(size: float) -> float:
    """The round step (1, 2 or 5 times a power of ten) next above a size."""
    power = 10.0 ** math.floor(math.log10(size))
    return next(m * power for m in (1, 2, 5, 10) if m * power >= size * (1 - 1e-9))


def fitted(title: str, values: Sequence[float], *, from_zero: bool = True) -> Axis:
    """An axis that holds some values, ending on round ones.

    Args:
        title: What it shows, with unit.
        values: What has to fit.
        from_zero: Whether zero belongs on it.
    """
    low, high = min(values), max(values)
    if from_zero:
        low, high = min(0.0, low), max(0.0, high)
    if high - low < SMALLEST_SPAN:
        high = low + 1.0
    step = round_step((high - low) / 6)
    return Axis(title, step * math.floor(low / step + 1e-9), step * math.ceil(high / step - 1e-9))


def chart_scene(chart: Chart) -> Scene:
    """A chart as a picture.

    Args:
        chart: What it shows.
    """
    frame = _Frame(chart)
    layers = (
        Layer("grid", "Grid", tuple(frame.grid())),
        Layer("curves", "Curves", tuple(frame.curves())),
        Layer("axes", "Axes", tuple(frame.axes())),
        Layer("labels", "Labels", tuple(frame.labels())),
    )
    width, height = chart.size
    return Scene(
        chart.key, chart.title, chart.description, width, height, layers, Placement(0.0, 0.0, 1.0)
    )


class _Frame:
    """Where things stand on the paper."""

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        left, top, right, bottom = chart.margins
        legend = 4.2 * math.ceil(len(chart.curves) / 3)
        self.left, self.right = left, chart.size[0] - right
        # The words for the marks stand over the right end, where a third curve has its name.
        room = 2.6 if chart.marks and len(chart.curves) >= 3 else 0.0
        self.top, self.bottom = top + legend - 8.0 + room, chart.size[1] - bottom

    def at(self, x: float, y: float) -> Spot:
        across, up = self.chart.x.share(x), self.chart.y.share(y)
        return Spot(
            self.left + across * (self.right - self.left),
            self.bottom - up * (self.bottom - self.top),
        )

    def grid(self) -> list[Item]:
        x, y = self.chart.x, self.chart.y
        rules = [line(self.at(x.low, v), self.at(x.high, v)) for v in y.ticks()]
        rules += [line(self.at(v, y.low), self.at(v, y.high)) for v in x.ticks(10)]
        return [Drawn(tuple(rules), Pen(0.1, GRID, rounded=False))]

    def curves(self) -> list[Item]:
        found: list[Item] = []
        styles = zip(self.chart.curves, _styles(self.chart), strict=True)
        for n, (curve, (colour, dashes)) in enumerate(styles):
            if curve.dots:
                spots = (self.at(x, y) for x, y in zip(curve.xs, curve.ys, strict=True))
                found.append(_dots(spots, self._dotted(n), colour))
                continue
            pen = Pen(CURVE, colour, dashes, rounded=False)
            found.append(Drawn(tuple(self._runs(curve)), pen))
        for limit in self.chart.limits:
            ends = (self.chart.x.low, self.chart.x.high)
            path = line(*(self.at(x, limit.value) for x in ends))
            found.append(Drawn((path,), Pen(0.3, INK, (3.0, 1.0), rounded=False)))
        return found

    def _dotted(self, number: int) -> int:
        """How many sets of dots stand before a curve."""
        return sum(curve.dots for curve in self.chart.curves[:number])

    def _runs(self, curve: Curve) -> list[Path]:
        """The curve, cut where it leaves the frame."""
        low, high = self.chart.y.low, self.chart.y.high
        runs: list[list[Spot]] = [[]]
        for x, y in zip(curve.xs, curve.ys, strict=True):
            if low <= y <= high:
                runs[-1].append(self.at(x, y))
            elif runs[-1]:
                runs.append([])
        return [line(*thinned(run)) for run in runs if len(run) > 1]

    def axes(self) -> list[Item]:
        x, y = self.chart.x, self.chart.y
        box = closed(*(self.at(a, b) for a, b in _corners(x, y)))
        ticks = [line(s, Spot(s.x, s.y + TICK)) for s in (self.at(v, y.low) for v in x.ticks(10))]
        ticks += [line(s, Spot(s.x - TICK, s.y)) for s in (self.at(x.low, v) for v in y.ticks())]
        tops = (self.at(mark, y.high) for mark in self.chart.marks)
        ticks += [line(s, Spot(s.x, s.y + 2 * TICK)) for s in tops]
        found: list[Item] = []
        if self.chart.strips:
            found.append(Drawn(tuple(map(self._strip, self.chart.strips)), fill=INK))
        return [*found, Drawn((box,), Pen(0.3, INK, rounded=False)), Drawn(tuple(ticks), THIN)]

    def _strip(self, ends: tuple[float, float]) -> Path:
        low, high = (self.at(x, self.chart.y.low) for x in ends)
        return closed(low, Spot(low.x, low.y - STRIP), Spot(high.x, high.y - STRIP), high)

    def labels(self) -> list[Item]:
        x, y = self.chart.x, self.chart.y
        found: list[Item] = [Text(self.chart.title, self.left, 5.0, 2.4, face="bold")]
        for value in x.ticks(10):
            spot = self.at(value, y.low)
            found.append(Text(_tick(value), spot.x, spot.y + 4.4, SMALL, "middle"))
        for value in y.ticks():
            spot = self.at(x.low, value)
            found.append(Text(_tick(value), spot.x - 2.0, spot.y + 0.9, SMALL, "end"))
        middle = (self.left + self.right) / 2
        found.append(Text(x.title, middle, self.chart.size[1] - 2.0, SMALL, "middle"))
        up = (self.top + self.bottom) / 2
        found.append(Text(y.title, 4.0, up, SMALL, "middle", turned=True))
        found += self._legend()
        for limit in self.chart.limits:
            spot = self.at(x.low if limit.left else x.high, limit.value)
            anchor: Anchor = "start" if limit.left else "end"
            inward = 1.0 if limit.left else -1.0
            up = -3.0 if limit.below else 1.0
            found.append(Text(limit.name, spot.x + inward, spot.y - up, SMALL, anchor))
        if self.chart.marks:
            note = Text(self.chart.mark_title, self.right, self.top - 1.2, SMALL, "end")
            found.append(note)
        return found

    def _legend(self) -> list[Item]:
        found: list[Item] = []
        column = (self.right - self.left) / 3
        for n, curve in enumerate(self.chart.curves):
            colour, dashes = _styles(self.chart)[n]
            start = Spot(self.left + column * (n % 3), 9.0 + 4.2 * (n // 3))
            if curve.dots:
                spot = Spot(start.x + 4.0, start.y)
                found.append(_dots([spot], self._dotted(n), colour))
            else:
                pen = Pen(CURVE, colour, dashes, rounded=False)
                found.append(Drawn((line(start, Spot(start.x + 8.0, start.y)),), pen))
            found.append(Text(curve.name, start.x + 9.5, start.y + 0.8, SMALL))
        return found


def _dots(spots: Iterable[Spot], number: int, colour: str) -> Drawn:
    """Places as rings or squares in turn, so that two sets keep apart without their colours."""
    if number % 2:
        half = DOT_SIZE * 0.9
        paths = (Box(s.x - half, s.y - half, s.x + half, s.y + half).path() for s in spots)
    else:
        paths = (circle(spot, DOT_SIZE) for spot in spots)
    return Drawn(tuple(paths), Pen(0.35, colour, rounded=False), "#ffffff")


def _tick(value: float) -> str:
    mantissa, _, power = f"{round(value, 12):g}".partition("e")
    if power:
        raised = f"10{str(int(power)).translate(RAISED)}"
        return raised if mantissa == "1" else f"{mantissa}·{raised}"
    return mantissa.replace("-", "−")


def _styles(chart: Chart) -> list[tuple[str, tuple[float, ...]]]:
    return [STYLES[n % len(STYLES)] for n in range(len(chart.curves))]


def _corners(x: Axis, y: Axis) -> tuple[tuple[float, float], ...]:
    return ((x.low, y.low), (x.high, y.low), (x.high, y.high), (x.low, y.high))


def thinned(spots: Sequence[Spot], stray: float = 0.03) -> list[Spot]:
    """Fewer places for the same line: what strays less than a hair from a chord is left out.

    Args:
        spots: Places along a line [mm].
        stray: The hair [mm].
    """
    if len(spots) < 3:
        return list(spots)
    kept = shapely.simplify(shapely.LineString(spots), stray, preserve_topology=False)
    return [Spot(x, y) for x, y in kept.coords]
