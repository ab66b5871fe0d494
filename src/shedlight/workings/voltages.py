"""What the duty means for one bushing: voltages to earth, in a fault, at the site's height."""

from dataclasses import dataclass

from shedlight.given.bushing import Installation
from shedlight.physics.air.atmosphere import altitude_factor, site_density
from shedlight.physics.oil.curves import conversion
from shedlight.physics.oil.strength import impulse_equivalent
from shedlight.physics.voltages import (
    phase_voltage,
    required_withstand,
    stressed_service_voltage,
    temporary_overvoltage,
)
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption, from_table

SUSTAINED = 10.0


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
    factor = calculate(altitude_factor, assumption("altitude exponent"), altitude)
    lightning, dry = number("duty.lightning_impulse"), number("duty.power_frequency_dry")
    wet = number("duty.power_frequency_wet")
    ratio = conversion("lightning impulse")
    return Voltages(
        highest=highest,
        phase=phase,
        discharge_free=calculate(stressed_service_voltage, phase, 1.05),
        glow_free=calculate(stressed_service_voltage, phase, 1.1),
        temporary=calculate(
            temporary_overvoltage,
            phase,
            assumption(f"earth-fault {installation.duty.neutral_earthing.value}"),
        ),
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
    exponent = assumption("altitude exponent switching")
    factor = calculate(altitude_factor, exponent, number("site.altitude"))
    return calculate(required_withstand, number("duty.switching_impulse"), factor)
