"""The computed picture of every view."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from shedlight.checks.assessment import Assessment
from shedlight.checks.check import Check, Verdict
from shedlight.documents.numerals import percent
from shedlight.explain.words import in_words
from shedlight.figures.bars import Bar, Mark, Tone, bars_scene
from shedlight.figures.chart import Axis, Chart, Curve, Limit, chart_scene, fitted
from shedlight.figures.scene import Scene
from shedlight.figures.section import Mark as Light
from shedlight.figures.section import section_drawing
from shedlight.geometry.shadow import dry_length, wetted
from shedlight.physics.proportions import share
from shedlight.physics.radial.layers import layer_gradient
from shedlight.trace import Number
from shedlight.units import shown_in

LEAST = 6  # checks shown in the picture of what decides the size
RAIN_ANGLES = tuple(range(0, 91, 5))  # [degree]
ALONG = 40  # places along the radius in each layer
WAYS = ("colour", "hatching", "outline", "fittings", "axis", "creepage path", "arcing path")
BODY = ("colour", "hatching", "outline", "fittings", "axis", "marks")


@dataclass(frozen=True)
class Sight:
    """What a picture is made from: the assessment, its facts, the words of the picture."""

    assessment: Assessment
    facts: Mapping[str, Number]
    words: Mapping[str, str]
    key: str

    def bar(self, word: str, fact: str, tone: Tone = "plain") -> tuple[Bar, ...]:
        """A bar from zero to a fact; none where there is no such fact."""
        number = self.facts.get(fact)
        if number is None:
            return ()
        value = shown_in(float(number), number.step.label.unit)
        return (Bar(self.words[word], 0.0, value, in_words(number), tone),)

    def bars(self, *rows: tuple[Bar, ...], marks: tuple[Mark, ...] = ()) -> Scene:
        """The bars that there are."""
        found = tuple(bar for row in rows for bar in row)
        return bars_scene(self.key, self.words["title"], self.words["axis"], found, marks)


Painter = Callable[[Sight], Scene]


def _shown(number: Number) -> float:
    return shown_in(float(number), number.step.label.unit)


def hole(sight: Sight) -> Scene:
    """Field with air alone against where discharges start."""
    return sight.bars(sight.bar("bare", "bare_field", "short"), sight.bar("holds", "air_holds"))


def wall(sight: Sight) -> Scene:
    """Field along a radius through oil, porcelain and the gap."""
    work, words = sight.assessment.workings, sight.words
    radii = work.section.radii
    edges = (radii.conductor, radii.bore, radii.body, radii.hole)
    curves = []
    for index, layer in enumerate(("oil", "porcelain", "gap")):
        inner = work.radial.stress(layer, "oil", "service").inner
        permittivity, total = _inputs(inner)
        places = np.linspace(edges[index], edges[index + 1], ALONG)
        field = [
            layer_gradient(float(work.voltages.phase), permittivity, float(r), total) / 1e6
            for r in places
        ]
        curves.append(Curve(words[layer], tuple(1e3 * places), tuple(field)))
    highest = [value for curve in curves for value in curve.ys]
    return chart_scene(
        Chart(
            sight.key,
            words["title"],
            "; ".join(f"{curve.name}: {max(curve.ys):.3g} kV/mm at most" for curve in curves),
            Axis(words["x"], 1e3 * edges[0], 1e3 * edges[-1]),
            fitted(words["y"], highest),
            tuple(curves),
        )
    )


def _inputs(gradient: Number) -> tuple[float, float]:
    """Permittivity and layer sum that a field strength was computed with."""
    values = {used.label.symbol: used.value for used in gradient.step.inputs}
    permittivity, total = values["epsilon_r"], values["S"]
    if isinstance(permittivity, tuple) or isinstance(total, tuple):
        raise TypeError("one permittivity and one layer sum belong to a field strength")
    return permittivity, total


def surface(sight: Sight) -> Scene:
    """The section with the two ways."""
    return _section(sight, shown=WAYS)


def rain(sight: Sight) -> Scene:
    """Dry share of the creepage as the rain leans over."""
    work, words = sight.assessment.workings, sight.words
    path = work.measures.creepage
    dry = tuple(
        100 * share(dry_length(wetted(work.section, path, np.radians(angle))), path.length)
        for angle in RAIN_ANGLES
    )
    now = float(np.degrees(work.measures.rain_angle))
    limits = (Limit(f"{words['now']} ({now:g}°)", 100 * float(sight.facts["dry_share"])),)
    return chart_scene(
        Chart(
            sight.key,
            words["title"],
            f"{words['now']}: {in_words(sight.facts['dry_share'])}",
            Axis(words["x"], 0.0, 90.0),
            fitted(words["y"], (0.0, 100.0)),
            (Curve(words["dry"], tuple(float(a) for a in RAIN_ANGLES), dry),),
            limits,
        )
    )


def dirt(sight: Sight) -> Scene:
    """Creepage each class asks for, and the creepage there is."""
    have = sight.facts["creepage"]
    rows = []
    for letter in "abcde":
        need = sight.facts[f"class_{letter}_needs"]
        tone: Tone = "short" if need > have else "plain"
        rows.append(
            Bar(f"{sight.words['class']} {letter}", 0.0, _shown(need), in_words(need), tone)
        )
    mark = Mark(f"{sight.words['have']}: {in_words(have)}", _shown(have))
    return sight.bars(tuple(rows), marks=(mark,))


def ends(sight: Sight) -> Scene:
    """Taut string in air above the one in oil."""
    return sight.bars(sight.bar("air", "arcing"), sight.bar("oil", "oil_path"))


def glaze(sight: Sight) -> Scene:
    """Stress, allowance and strengths."""
    return sight.bars(
        sight.bar("stress", "bending"),
        sight.bar("allowed", "bending_allowed", "quiet"),
        sight.bar("bare", "bare_strength", "quiet"),
        sight.bar("glazed", "glazed_strength", "quiet"),
    )


def heat(sight: Sight) -> Scene:
    """Temperatures from the air to the oil."""
    return sight.bars(
        sight.bar("air", "hottest_air", "quiet"),
        sight.bar("terminal", "terminal"),
        sight.bar("conductor", "hot_spot"),
        sight.bar("oil", "top_oil", "quiet"),
    )


def terminal(sight: Sight) -> Scene:
    """Density in the lapped face against custom."""
    most = sight.facts["lapped_limit"]
    mark = Mark(f"{sight.words['limit']}: {in_words(most)}", _shown(most))
    return sight.bars(sight.bar("density", "lapped_density"), marks=(mark,))


def gasket(sight: Sight) -> Scene:
    """Compression beside its window."""
    low, high = sight.facts["gasket_low"], sight.facts["gasket_high"]
    said = f"{in_words(low)} – {in_words(high)}"
    window = Bar(sight.words["window"], _shown(low), _shown(high), said, "quiet")
    return sight.bars((window,), sight.bar("now", "compression"))


def oil(sight: Sight) -> Scene:
    """Head at the vent against the air's pressure."""
    return sight.bars(sight.bar("now", "oil_head"), marks=(Mark(sight.words["zero"], 0.0),))


def horns(sight: Sight) -> Scene:
    """Where horns spark over, between two duties."""
    spark: tuple[Bar, ...] = ()
    marks: tuple[Mark, ...] = ()
    if "horns_low" in sight.facts:
        low, high = sight.facts["horns_low"], sight.facts["horns_high"]
        said = f"{in_words(low)} – {in_words(high)}"
        spark = (Bar(sight.words["spark"], _shown(low), _shown(high), said),)
    if "horns_limit" in sight.facts:
        limit = sight.facts["horns_limit"]
        marks = (Mark(f"{sight.words['limit']} {in_words(limit)}", _shown(limit)),)
    return sight.bars(
        sight.bar("fault", "fault_voltage", "quiet"),
        sight.bar("wet", "horns_wet"),
        spark,
        sight.bar("level", "lightning_level", "quiet"),
        marks=marks,
    )


def tests(sight: Sight) -> Scene:
    """Test levels beside service."""
    return sight.bars(
        sight.bar("service", "phase_voltage"),
        sight.bar("wet", "wet_level", "quiet"),
        sight.bar("dry", "dry_level", "quiet"),
        sight.bar("lightning", "lightning_level", "quiet"),
    )


def service(sight: Sight) -> Scene:
    """The section with the places to look at."""
    words = sight.words
    lights = (
        Light("terminal", words["terminal"]),
        Light("air side", words["sheds"]),
        Light("gasket top", words["seat"]),
    )
    return _section(sight, lights, BODY)


def size(sight: Sight) -> Scene:
    """The checks with the least margin."""
    rows = tuple(
        Bar(
            check.question.title,
            0.0,
            100 * float(check.margin or 0.0),
            percent(float(check.margin or 0.0)),
            "short" if (check.margin or 0.0) < 0 else "plain",
        )
        for check in tightest(sight.assessment)[:LEAST]
    )
    return sight.bars(rows)


def tightest(assessment: Assessment) -> tuple[Check, ...]:
    """The checks that compare numbers, those that fail first, then by least margin.

    A weakly held figure may be far short and only caution: what fails is the tightest question.

    Args:
        assessment: What was judged.
    """
    judged = [c for c in assessment.checks if c.verdict is not Verdict.NOT_ASSESSED]
    with_margin = [(check.margin, check) for check in judged if check.margin is not None]
    ranked = sorted(with_margin, key=lambda item: (item[1].verdict is not Verdict.FAIL, item[0]))
    return tuple(check for _, check in ranked)


def safety(sight: Sight) -> Scene:
    """The section with what is never touched."""
    lights = (
        Light("terminal", sight.words["terminal"]),
        Light("air side", sight.words["sheds"]),
    )
    return _section(sight, lights, BODY)


def _section(sight: Sight, lights: tuple[Light, ...] = (), shown: tuple[str, ...] = BODY) -> Scene:
    case, work = sight.assessment.installation, sight.assessment.workings
    return section_drawing(
        case, work.section, work.measures, detail="plain", marks=lights, shown=shown, key=sight.key
    )


PICTURES: Mapping[str, Painter] = {
    painter.__name__: painter
    for painter in (
        hole, wall, surface, rain, dirt, ends, glaze, heat, terminal, gasket, oil, horns, tests,
        service, size, safety,
    )
}  # fmt: skip
