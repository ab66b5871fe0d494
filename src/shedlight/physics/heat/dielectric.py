"""Heat that the voltage makes in the wall."""

import math
from collections.abc import Sequence

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.physics.heat.conductor import REFERENCE_TEMPERATURE
from shedlight.sources import cite
from shedlight.trace import formula


@formula(
    ("Loss factor of the layers together", "tan delta", "1"),
    "(sum U_i tan delta_i) / (sum U_i)",
    {
        "voltages": ("Voltages across the layers", "U_i", "kV"),
        "loss_factors": ("Their loss factors", "tan delta_i", "1"),
    },
    cite("first principles", "capacitances in series, small losses", "exact"),
)
def layered_loss_factor(voltages: Sequence[float], loss_factors: Sequence[float]) -> float:
    """Loss factor of capacitances in series, each weighed by its share of the voltage.

    tan delta = sum U_i tan delta_i/sum U_i

    Args:
        voltages: Across the layers [V].
        loss_factors: Of the layers [1].

    Returns:
        Loss factor [1].

    Raises:
        InputError: another number of factors than of layers, a negative value, no voltage.

    Source: first principles — basis: exact for small losses.
    Valid for: loss factors below about 0.1.
    """
    if len(voltages) != len(loss_factors):
        raise InputError(
            f"loss_factors: given {len(loss_factors)}; expected {len(voltages)}, one for each layer"
        )
    for voltage, factor in zip(voltages, loss_factors, strict=True):
        not_negative(voltages=voltage, loss_factors=factor)
    positive(voltages=sum(voltages))
    lost = sum(u * factor for u, factor in zip(voltages, loss_factors, strict=True))
    return lost / sum(voltages)


@formula(
    ("Dielectric loss per length at 20 °C", "P'_20", "W/m"),
    "U^2 2 pi f C' tan delta",
    {
        "voltage": ("Voltage to earth, rms", "U", "kV"),
        "frequency": ("Frequency", "f", "Hz"),
        "capacitance_per_length": ("Capacitance per length", "C'", "pF/m"),
        "loss_factor": ("Loss factor", "tan delta", "1"),
    },
    cite("first principles", "loss of a capacitance", "exact"),
)
def dielectric_loss_per_length(
    voltage: float, frequency: float, capacitance_per_length: float, loss_factor: float
) -> float:
    """Heat that the voltage makes in the wall, per length.

    P' = U² 2 pi f C' tan delta

    Args:
        voltage: To earth, rms [V].
        frequency: Frequency [Hz].
        capacitance_per_length: Of the wall [F/m].
        loss_factor: Of the wall [1].

    Returns:
        Heat per length [W/m].

    Raises:
        InputError: an argument negative, frequency not above zero.

    Source: first principles — basis: exact.
    Valid for: inside the hole, where there is an outer electrode.
    """
    not_negative(
        voltage=voltage, capacitance_per_length=capacitance_per_length, loss_factor=loss_factor
    )
    positive(frequency=frequency)
    return voltage**2 * 2 * math.pi * frequency * capacitance_per_length * loss_factor


@formula(
    ("Dielectric loss per length at 20 °C, from the field", "P'_20", "W/m"),
    "(U^2 2 pi f C tan delta) / L",
    {
        "voltage": ("Voltage to earth, rms", "U", "kV"),
        "frequency": ("Frequency", "f", "Hz"),
        "capacitance": ("Capacitance of the bushing", "C", "pF"),
        "loss_factor": ("Loss factor of the bushing", "tan delta", "1"),
        "length": ("Length of the hole", "L", "mm"),
    },
    cite("first principles", "loss of a capacitance", "exact"),
    note="All of it is counted inside the hole: safe side.",
)
def field_loss_per_length(
    voltage: float, frequency: float, capacitance: float, loss_factor: float, length: float
) -> float:
    """Heat of the solved field, counted over the length of the hole.

    P' = U² 2 pi f C tan delta/L

    Args:
        voltage: To earth, rms [V].
        frequency: Frequency [Hz].
        capacitance: Of the whole bushing [F].
        loss_factor: Of the whole bushing [1].
        length: Of the hole [m].

    Returns:
        Heat per length [W/m].

    Raises:
        InputError: an argument negative, frequency or length not above zero.

    Source: first principles — basis: exact.
    Valid for: any.
    """
    positive(length=length)
    return dielectric_loss_per_length(voltage, frequency, capacitance, loss_factor) / length


@formula(
    ("Dielectric loss per length when warm", "P'", "W/m"),
    "P'_20 thin 2^((T - 20 °C) / D)",
    {
        "loss": ("Dielectric loss per length at 20 °C", "P'_20", "W/m"),
        "temperature": ("Temperature of the wall", "T", "°C"),
        "doubling": ("Warming that doubles the loss", "D", "K"),
    },
    cite("trade", "loss factor of porcelain doubles in some 40 K", "practice", "low"),
    ranges={"temperature": (233.15, 393.15)},
)
def loss_when_warm(loss: float, temperature: float, doubling: float) -> float:
    """Heat that the voltage makes in a warm wall, per length.

    P' = P'_20 · 2^((T - 20 °C)/D)

    Args:
        loss: At 20 °C [W/m].
        temperature: Of the wall [K].
        doubling: Warming that doubles the loss [K].

    Returns:
        Heat per length [W/m].

    Raises:
        InputError: loss negative, another argument not above zero.

    Source: practice; texts give a rise of two to four times from 20 to 100 °C — basis: practice,
        low confidence.
    Valid for: porcelain in service, far below its softening.
    """
    not_negative(loss=loss)
    positive(temperature=temperature, doubling=doubling)
    return loss * math.exp2((temperature - REFERENCE_TEMPERATURE) / doubling)
