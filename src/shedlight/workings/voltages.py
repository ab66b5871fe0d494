"""What the duty means for one bushing: voltages to earth, in a fault, at the site's height."""

from dataclasses import dataclass

from shedlight.given.bushing import Installation
from shedlight.given.duty import NeutralEarthing
from shedlight.physics.air.atmosphere import altitude_factor, site_density
from shedlight.physics.oil.curves import conversion
from shedlight.physics.oil.strength import impulse_equivalent
from shedlight.physics.voltages import (
    phase_voltage,
    required_withstand,
    stressed_service_voltage,
    temporary_overvoltage,
)
from shedlight.sources import cite
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, from_table

SUSTAINED = 10.0
EARTH_FAULT_FACTORS = {
    NeutralEarthing.EFFECTIVE: (1.4, "effectively earthed: at most 1.4"),
    NeutralEarthing.LOW_RESISTANCE: (1.73, "low-resistance earthed: up to 1.73"),
    NeutralEarthing.RESONANT: (1.73, "resonant earthed: 1.73"),
    NeutralEarthing.ISOLATED: (1.73, "isolated neutral: 1.73"),
}


@dataclass(frozen=True)
class Voltages:
    """Voltages to earth [V]; rms but for lightning, which is a peak."""

    highest: Number
    phase: Number
    discharge_free: Number
    glow_free: Number
    temporary: Number
    fault_is_sustained: bool
    lightning: Number
    dry: Number
    wet: Number
    lightning_as_ac: Number
    required_lightning: Number
    required_dry: Number
    required_wet: Number
    required_switching: Number | None
    altitude_factor: Number
    density: Number


def voltages_of(installation: Installation, number: Description) -> Voltages:
    """All voltages that follow from duty and site."""
    highest = number("duty.highest_voltage")
    phase = calculate(phase_voltage, highest)
    altitude = number("site.altitude")
    m = from_table(
        1.0, "Altitude exponent", "m", "1", cite("IEC 60137", "altitude clause"), "a.c. and impulse"
    )
    factor = calculate(altitude_factor, m, altitude)
    lightning, dry = number("duty.lightning_impulse"), number("duty.power_frequency_dry")
    wet = number("duty.power_frequency_wet")
    ratio = conversion("lightning impulse")
    return Voltages(
        highest=highest,
        phase=phase,
        discharge_free=calculate(stressed_service_voltage, phase, 1.05),
        glow_free=calculate(stressed_service_voltage, phase, 1.1),
        temporary=calculate(temporary_overvoltage, phase, _earth_fault_factor(installation)),
        fault_is_sustained=installation.duty.earth_fault_duration > SUSTAINED,
        lightning=lightning,
        dry=dry,
        wet=wet,
        lightning_as_ac=calculate(
            impulse_equivalent,
            lightning,
            from_table(ratio.ratio, "Impulse ratio", "k", "1", ratio.citation, ratio.what),
        ),
        required_lightning=calculate(required_withstand, lightning, factor),
        required_dry=calculate(required_withstand, dry, factor),
        required_wet=calculate(required_withstand, wet, factor),
        required_switching=_required_switching(installation, number),
        altitude_factor=factor,
        density=calculate(site_density, altitude),
    )


def _required_switching(installation: Installation, number: Description) -> Number | None:
    """The switching level at the site's height, where one is asked."""
    if installation.duty.switching_impulse is None:
        return None
    source = cite("IEC 60137", "altitude clause")
    row = "switching impulse to earth"
    m = from_table(0.75, "Altitude exponent", "m", "1", source, row)
    factor = calculate(altitude_factor, m, number("site.altitude"))
    return calculate(required_withstand, number("duty.switching_impulse"), factor)


def _earth_fault_factor(installation: Installation) -> Number:
    value, row = EARTH_FAULT_FACTORS[installation.duty.neutral_earthing]
    source = cite("IEC 60071-2", "earth-fault factors")
    return from_table(value, "Earth-fault factor", "k", "1", source, row)
