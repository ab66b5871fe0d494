"""The surface in air: what the site asks for, what the outline gives, what a wet layer does."""

from dataclasses import dataclass

from shedlight.geometry.measures import Measures
from shedlight.given.bushing import Installation
from shedlight.physics.surface.creepage import (
    altitude_creepage_factor,
    average_diameter,
    creepage_factor,
    diameter_factor,
    minimum_creepage,
)
from shedlight.physics.surface.severity import (
    class_for_deposit,
    class_for_salinity,
    pollution_class,
)
from shedlight.sources import Citation
from shedlight.trace import Label, Number, calculate, given, looked_up
from shedlight.workings.numbers import Description, assumption, from_table, on_outline
from shedlight.workings.voltages import Voltages

UNCORRECTED_TO = 2000.0
REFERENCE_DUST = 1e-3  # 0.1 mg/cm² of non-soluble deposit, at which the bands are drawn


@dataclass(frozen=True)
class Severity:
    """One reading of how dirty the site is: the class, and what it was read from."""

    letter: str
    read_from: str
    number: Number


@dataclass(frozen=True)
class Surface:
    """Creepage asked for and given [m], and the figures of the profile."""

    severities: tuple[Severity, ...]
    severity: Severity
    average_diameter: Number
    specific_creepage: Number
    required: Number
    required_uncorrected: Number
    required_in_fault: Number
    required_tentative: Number
    creepage: Number
    form_factor: Number
    creepage_factor: Number


def surface_of(
    installation: Installation, measures: Measures, voltages: Voltages, number: Description
) -> Surface:
    """Everything that follows from the outline in air and the dirt of the site."""
    severities = _severities(installation, number)
    severity = max(severities, key=lambda item: item.letter)
    specific = _specific_creepage(severity)
    average = _average_diameter(installation, measures)
    wide = calculate(diameter_factor, average)
    thin = _altitude(installation, number)
    tentative = calculate(
        altitude_creepage_factor, assumption("altitude exponent creepage"), number("site.altitude")
    )
    creepage = on_outline(
        measures.creepage_length, "Creepage", "L", "mm", "along the outline, clamp top to cap"
    )
    arcing = on_outline(measures.arcing.length, "Arcing distance", "A", "mm", "taut string")
    form = on_outline(measures.form_factor, "Form factor", "F", "1", "along the outline")
    return Surface(
        severities=severities,
        severity=severity,
        average_diameter=average,
        specific_creepage=specific,
        required=calculate(minimum_creepage, specific, voltages.phase, wide, thin),
        required_uncorrected=calculate(minimum_creepage, specific, voltages.phase, wide, 1.0),
        required_in_fault=calculate(minimum_creepage, specific, voltages.highest, wide, thin),
        required_tentative=calculate(minimum_creepage, specific, voltages.phase, wide, tentative),
        creepage=creepage,
        form_factor=form,
        creepage_factor=calculate(creepage_factor, creepage, arcing),
    )


def _specific_creepage(severity: Severity) -> Number:
    row = pollution_class(severity.letter)
    return from_table(
        row.specific_creepage,
        "Reference specific creepage",
        "S_u",
        "mm/kV",
        row.citation,
        f"class {row.letter} ({row.name}), from {severity.read_from}",
        severity.number,
    )


def _severities(installation: Installation, number: Description) -> tuple[Severity, ...]:
    site = installation.site
    found = []
    if site.pollution_class is not None:
        named = _rank(site.pollution_class, "site.pollution_class")
        found.append(Severity(site.pollution_class, "the class given", named))
    if site.deposit is not None:
        deposit = number("site.deposit")
        band = class_for_deposit(site.deposit)
        found.append(
            _banded(
                band.letter, "the measured deposit", band.citation, deposit, _dusty(installation)
            )
        )
    if site.salinity is not None:
        salinity = number("site.salinity")
        band = class_for_salinity(site.salinity)
        found.append(_banded(band.letter, "the site salinity", band.citation, salinity))
    return tuple(found)


def _rank(letter: str, path: str) -> Number:
    label = Label("Site class, a to e counted from 1", '"class"', "1")
    return given("abcde".index(letter) + 1.0, label, path)


def _banded(
    letter: str,
    read_from: str,
    citation: Citation,
    origin: Number,
    beyond: tuple[str, ...] = (),
) -> Severity:
    label = Label("Site class, a to e counted from 1", '"class"', "1")
    rank = "abcde".index(letter) + 1.0
    number = looked_up(rank, label, citation, read_from, (origin,), beyond)
    return Severity(letter, read_from, number)


def _dusty(installation: Installation) -> tuple[str, ...]:
    """What to say when more dust lies on the surface than the bands of the classes count on."""
    dust = installation.site.insoluble_deposit
    if dust is None or dust <= REFERENCE_DUST:
        return ()
    return ("more non-soluble deposit was measured than the bands of the classes count on",)


def _average_diameter(installation: Installation, measures: Measures) -> Number:
    porcelain = installation.bushing.porcelain
    trunk = on_outline(
        porcelain.bore + porcelain.wall + porcelain.top_wall,
        "Trunk diameter",
        "D_t",
        "mm",
        "mean of lower and upper end",
    )
    tips = [2 * shed.tip_radius for shed in measures.sheds] or [float(trunk)]
    how = "on the outline"
    first = on_outline(max(tips), "Diameter of the larger sheds", 'D_"s1"', "mm", how)
    second = on_outline(min(tips), "Diameter of the smaller sheds", 'D_"s2"', "mm", how)
    return calculate(average_diameter, trunk, first, second)


def _altitude(installation: Installation, number: Description) -> float:
    """The altitude factor on creepage: none up to 2000 m.

    Every rule gives 1 or more, so what is too short with 1 is too short by any of them.
    """
    if installation.site.altitude <= UNCORRECTED_TO:
        return 1.0
    return calculate(
        altitude_creepage_factor, assumption("altitude exponent creepage"), number("site.altitude")
    )
