"""The horns: when they spark over, which gap would suit the duty, what steep waves do."""

from dataclasses import dataclass, replace

from shedlight.physics.air.horn_gaps import (
    gap_to_protect,
    gap_to_ride_through,
    horn_sparkover_negative,
    steep_wave_sparkover,
)
from shedlight.physics.air.horns import (
    horn_sparkover_high,
    horn_sparkover_low,
    horn_sparkover_mean,
    horn_wet_power_frequency_low,
)
from shedlight.physics.air.weather_of_the_day import density_on_a_day
from shedlight.physics.voltages import with_factor
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption
from shedlight.workings.voltages import Voltages

SHORTEST, LONGEST = 0.05, 2.0  # [m] for which the rules of horn gaps are made


@dataclass(frozen=True)
class HornStrength:
    """Sparkover of the horns in the air of the site [V]: lightning peak, wet rms.

    Attributes:
        low: Positive lightning, the table: where sparkover may begin.
        mean: Middle of the two rules.
        high: Where they have certainly sparked over.
        negative: Middle under negative lightning.
        wet_low: What they certainly stand in rain.
        chopped: What a steep wave reaches before they chop it.
    """

    low: Number
    mean: Number
    high: Number
    negative: Number
    wet_low: Number
    chopped: Number


@dataclass(frozen=True)
class HornWindow:
    """Gaps that suit the duty [m], whether or not horns are fitted.

    Attributes:
        to_stand: Temporary overvoltage with its margin, rms [V].
        to_stay_below: Lightning level less its margin, peak [V].
        narrowest: Rides through in rain.
        widest: Still protects.
        chopped_level: What a winding is proved to stand of chopped waves, peak [V].
    """

    to_stand: Number
    to_stay_below: Number
    narrowest: Number
    widest: Number
    chopped_level: Number

    @property
    def is_empty(self) -> bool:
        """Whether no gap does both."""
        return self.narrowest > self.widest


def horns_of(number: Description, voltages: Voltages) -> HornStrength:
    """Sparkover of the horns as described.

    Args:
        number: The numbers of a description with horns.
        voltages: Its voltages.
    """
    gap, density = number("bushing.horns.gap"), voltages.density
    high = calculate(horn_sparkover_high, gap, density)
    return HornStrength(
        low=calculate(horn_sparkover_low, gap, density),
        mean=calculate(horn_sparkover_mean, gap, density),
        high=high,
        negative=calculate(horn_sparkover_negative, gap, density),
        wet_low=calculate(horn_wet_power_frequency_low, gap, density),
        chopped=calculate(steep_wave_sparkover, high, assumption("chopping time")),
    )


def window_of(
    voltages: Voltages, ride_through: Number, share_of_level: Number, chopped: Number
) -> HornWindow:
    """Which gaps ride through, and which protect.

    Args:
        voltages: Voltages of the duty and the air density at site.
        ride_through: Margin over the temporary overvoltage [1].
        share_of_level: Share of the lightning level to stay below [1].
        chopped: Chopped-wave over full-wave level of a winding [1].
    """
    to_stand = calculate(with_factor, voltages.temporary, ride_through)
    below = calculate(with_factor, voltages.lightning, share_of_level)
    return HornWindow(
        to_stand=to_stand,
        to_stay_below=below,
        narrowest=_ruled(calculate(gap_to_ride_through, to_stand, voltages.density)),
        widest=_ruled(calculate(gap_to_protect, below, voltages.density)),
        chopped_level=calculate(with_factor, voltages.lightning, chopped),
    )


def _ruled(gap: Number) -> Number:
    """A gap found, with a remark where the rules are not made for it."""
    if SHORTEST <= gap <= LONGEST:
        return gap
    remark = "the gap lies outside the 50 mm to 2 m for which the rules of horn gaps are made"
    return Number(float(gap), replace(gap.step, beyond=(*gap.step.beyond, remark)))


@dataclass(frozen=True)
class DayDensities:
    """Relative air density at the site on its coldest and its hottest day [1]."""

    coldest: Number
    hottest: Number


def day_densities(number: Description) -> DayDensities:
    """How far the weather moves the sparkover of a gap at the site.

    Args:
        number: The numbers of a description.
    """
    altitude = number("site.altitude")
    return DayDensities(
        calculate(density_on_a_day, altitude, number("site.coldest_air")),
        calculate(density_on_a_day, altitude, number("site.hottest_air")),
    )
