"""How likely flashover is in a year: dirt, lightning and switching against what the bushing holds.

What is described counts as what 2 % of the events exceed. For dirt the arc followed on the true
profile tells the strength where the dirt was measured; where only a class is known, the creepage
that the class asks for tells it, and the other stands beside.
"""

from dataclasses import dataclass, replace

from shedlight.given.bushing import Installation
from shedlight.physics.air.gap_bands import LAWS_FROM, gap_factor, switching_mean_cautious
from shedlight.physics.air.gaps import rod_gap_mean
from shedlight.physics.air.risk import (
    absolute_deviation,
    mean_overvoltage,
    risk_of_some,
    statistical_safety_factor,
    switching_overvoltage,
    switching_spread,
    told_yearly_probability,
)
from shedlight.physics.air.tables import deviation
from shedlight.physics.air.weather_of_the_day import sparkover_at_site
from shedlight.physics.surface.constants import pollution_exponents
from shedlight.physics.surface.critical_severity import (
    cautious_critical_severity,
    critical_severity_by_creepage,
    median_severity,
)
from shedlight.physics.surface.deposit import severity_of_class
from shedlight.physics.surface.odds import critical_log_deviation, event_probability_of_some
from shedlight.physics.voltages import with_factor
from shedlight.trace import Number, calculate
from shedlight.workings.air import BUSHING_GAP, Air
from shedlight.workings.dirt import Dirt
from shedlight.workings.flashover import Flashover
from shedlight.workings.numbers import Description, assumption, from_table
from shedlight.workings.surface import Surface
from shedlight.workings.voltages import Voltages
from shedlight.workings.wet_layer import SALTED

DEPOSIT_UNIT = "mg/cm²"
BY_ARC, BY_CREEPAGE = "Arc followed on the true profile", "Creepage that the class asks for"


@dataclass(frozen=True)
class DirtOdds:
    """Odds of pollution flashover by one reading of the strength.

    Attributes:
        by: What the strength was read from.
        median: Severity that half of the events exceed [kg/m²] or [kg/m³].
        log_deviation: Of the severity from event to event [1].
        critical: Severity that flashes one bushing over in half the trials.
        critical_log_deviation: Of that from trial to trial [1].
        per_event: That at least one flashes over in one event [1].
        per_year: The same in a year [1].
    """

    by: str
    median: Number
    log_deviation: Number
    critical: Number
    critical_log_deviation: Number
    per_event: Number
    per_year: Number


@dataclass(frozen=True)
class SurgeOdds:
    """Odds that overvoltages of one kind spark the air end over, peak [V].

    Attributes:
        two_percent: Overvoltage that 2 % exceed.
        is_given: Whether it was described.
        mean: Of the overvoltages.
        deviation: Of the overvoltages.
        strength: Mean sparkover of the air end at the site.
        strength_deviation: Its scatter.
        safety: Statistical safety factor [1].
        per_event: That at least one sparks over in one event [1].
        per_year: The same in a year [1].
    """

    two_percent: Number
    is_given: bool
    mean: Number
    deviation: Number
    strength: Number
    strength_deviation: Number
    safety: Number
    per_event: Number
    per_year: Number


@dataclass(frozen=True)
class Odds:
    """The odds of a year, for all bushings that one event meets.

    Attributes:
        bushings: How many.
        dirt: Pollution flashover, by the reading that decides.
        other_dirt: The same by the other reading.
        lightning: Sparkover of the air end by lightning.
        switching: Sparkover of the air end by switching.
        unit: Unit of the severity.
    """

    bushings: Number
    dirt: DirtOdds
    other_dirt: DirtOdds
    lightning: SurgeOdds
    switching: SurgeOdds
    unit: str


def odds_of(
    installation: Installation,
    rooms: tuple[Voltages, Surface, Dirt, Flashover, Air],
    number: Description,
) -> Odds:
    """Every odds of a year.

    Args:
        installation: What was described.
        rooms: Voltages, surface, dirt, flashover and air of its workings.
        number: Its numbers.
    """
    voltages, surface, dirt, flashover, air = rooms
    bushings = number("site.bushings_exposed")
    by_arc = _by_arc(voltages, dirt, flashover, bushings)
    by_creepage = _by_creepage(surface, dirt, bushings)
    measured = not dirt.layer.derived_from_class
    decides, other = (by_arc, by_creepage) if measured else (by_creepage, by_arc)
    return Odds(
        bushings=bushings,
        dirt=decides,
        other_dirt=other,
        lightning=_lightning(installation, voltages, air, number, bushings),
        switching=_switching(installation, voltages, air, number, bushings),
        unit=dirt.layer.severity.step.label.unit,
    )


def _exponent(dirt: Dirt) -> Number:
    relation = "salinity" if dirt.layer.read_from == SALTED else "deposit housings"
    row = next(row for row in pollution_exponents() if row.relation == relation)
    return from_table(row.exponent, "Pollution exponent", "alpha", "1", row.citation, row.what)


def _by_arc(voltages: Voltages, dirt: Dirt, flashover: Flashover, bushings: Number) -> DirtOdds:
    exponent, severity = _exponent(dirt), dirt.layer.severity
    critical = calculate(
        cautious_critical_severity, flashover.critical, severity, exponent, voltages.phase
    )
    return _dirt_odds(BY_ARC, severity, critical, exponent, bushings)


def _by_creepage(surface: Surface, dirt: Dirt, bushings: Number) -> DirtOdds:
    """The class of the site, and the severity at its upper edge."""
    exponent, severity = _exponent(dirt), dirt.layer.severity
    kind = "salinity" if dirt.layer.read_from == SALTED else "deposit"
    row = severity_of_class(surface.severity.letter, kind)
    edge = from_table(
        row.highest,
        "Severity the class stands for",
        "S_0",
        severity.step.label.unit,
        row.citation,
        f"upper edge of class {surface.severity.letter}",
    )
    spread = calculate(critical_log_deviation, assumption("pollution scatter"), exponent)
    critical = calculate(
        critical_severity_by_creepage, surface.creepage, surface.required, edge, exponent, spread
    )
    return _dirt_odds(BY_CREEPAGE, severity, critical, exponent, bushings)


def _dirt_odds(
    by: str, severity: Number, critical: Number, exponent: Number, bushings: Number
) -> DirtOdds:
    wide = assumption("severity spread")
    narrow = calculate(critical_log_deviation, assumption("pollution scatter"), exponent)
    unit = severity.step.label.unit
    median = _shown_in(calculate(median_severity, severity, wide), unit)
    critical = _shown_in(critical, unit)
    event = calculate(event_probability_of_some, median, wide, critical, narrow, bushings)
    event = _shown_in(event, unit)
    year = calculate(told_yearly_probability, event, assumption("wetting events"))
    return DirtOdds(by, median, wide, critical, narrow, event, year)


def _shown_in(number: Number, unit: str) -> Number:
    """The formulas hold for deposits and salinities alike: the unit of the one at hand is shown."""
    step = number.step
    inputs = tuple(
        replace(one, label=replace(one.label, unit=unit)) if one.label.unit == DEPOSIT_UNIT else one
        for one in step.inputs
    )
    shown = unit if step.label.unit == DEPOSIT_UNIT else step.label.unit
    label = replace(step.label, unit=shown)
    return Number(float(number), replace(step, label=label, inputs=inputs))


def _lightning(
    installation: Installation, voltages: Voltages, air: Air, number: Description, bushings: Number
) -> SurgeOdds:
    is_given = installation.duty.lightning_surge is not None
    surge = (
        number("duty.lightning_surge")
        if is_given
        else calculate(with_factor, voltages.lightning, assumption("lightning share"))
    )
    strength = calculate(sparkover_at_site, air.lightning_mean, voltages.density)
    spread = assumption("lightning spread")
    return _surge_odds(
        "lightning", (surge, spread), is_given, strength, bushings, assumption("lightning surges")
    )


def _switching(
    installation: Installation, voltages: Voltages, air: Air, number: Description, bushings: Number
) -> SurgeOdds:
    is_given = installation.duty.switching_surge is not None
    per_unit = assumption("switching per unit")
    surge = (
        number("duty.switching_surge")
        if is_given
        else calculate(switching_overvoltage, per_unit, voltages.phase)
    )
    strength = calculate(sparkover_at_site, _switching_mean(air.arcing), voltages.density)
    spread = calculate(switching_spread, per_unit)
    return _surge_odds(
        "switching", (surge, spread), is_given, strength, bushings, assumption("switchings")
    )


def _switching_mean(arcing: Number) -> Number:
    """Below 1 m the rod–rod table, which the cautious law would come to anyway."""
    if arcing < LAWS_FROM:
        return calculate(rod_gap_mean, arcing)
    row = gap_factor(BUSHING_GAP)
    factor = from_table(row.factor, "Gap factor", "K", "1", row.citation, row.configuration)
    return calculate(switching_mean_cautious, arcing, factor)


def _surge_odds(
    stress: str,
    surge: tuple[Number, Number],
    is_given: bool,
    strength: Number,
    bushings: Number,
    events: Number,
) -> SurgeOdds:
    two_percent, spread = surge
    mean = calculate(mean_overvoltage, two_percent, spread)
    row = deviation(stress)
    scatter = from_table(row.deviation, "Scatter of sparkover", "s", "%", row.citation, row.what)
    deviations = calculate(absolute_deviation, mean, spread)
    strengths = calculate(absolute_deviation, strength, scatter)
    event = calculate(risk_of_some, mean, deviations, strength, strengths, bushings)
    return SurgeOdds(
        two_percent=two_percent,
        is_given=is_given,
        mean=mean,
        deviation=deviations,
        strength=strength,
        strength_deviation=strengths,
        safety=calculate(statistical_safety_factor, mean, deviations, strength, strengths),
        per_event=event,
        per_year=calculate(told_yearly_probability, event, events),
    )
