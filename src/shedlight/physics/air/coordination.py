"""Overvoltages against strength: earth faults, surge arresters, the risk of a flashover."""

import cmath
import math

from shedlight.physics.domain import finite, not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

LINE_SPEED = 3e8  # [m/s], as the source rounds it


@formula(
    ("Earth-fault factor", "k", "1"),
    "max abs(a^(plus.minus 1) - (Z_0 - Z_1) / (Z_0 + 2 Z_1))",
    {
        "positive_resistance": ("Positive-sequence resistance", "R_1", "Ω"),
        "positive_reactance": ("Positive-sequence reactance", "X_1", "Ω"),
        "zero_resistance": ("Zero-sequence resistance", "R_0", "Ω"),
        "zero_reactance": ("Zero-sequence reactance", "X_0", "Ω"),
    },
    cite("IEC 60071-2", "earth-fault factor from sequence impedances", "exact"),
    note="a turns by 120°; negative sequence as positive; solid fault.",
)
def earth_fault_factor(
    positive_resistance: float,
    positive_reactance: float,
    zero_resistance: float,
    zero_reactance: float,
) -> float:
    """Voltage of the worse healthy phase in an earth fault over that without fault.

    k = max |a^±1 - (Z0 - Z1)/(Z0 + 2 Z1)|

    Args:
        positive_resistance: R1 of the network [Ω].
        positive_reactance: X1 of the network [Ω].
        zero_resistance: R0 of the network [Ω].
        zero_reactance: X0 of the network; negative if capacitive [Ω].

    Returns:
        Earth-fault factor; 1.4 or less counts as effectively earthed [1].

    Raises:
        InputError: resistance negative, X1 not above zero, X0 not finite.

    Source: symmetrical components, as in IEC 60071-2 — basis: exact.
    Valid for: a solid fault of one phase, negative sequence as positive.
    """
    not_negative(positive_resistance=positive_resistance, zero_resistance=zero_resistance)
    positive(positive_reactance=positive_reactance)
    finite(zero_reactance=zero_reactance)
    first = complex(positive_resistance, positive_reactance)
    zero = complex(zero_resistance, zero_reactance)
    shift = (zero - first) / (zero + 2 * first)
    turn = cmath.exp(2j * math.pi / 3)
    return max(abs(turn - shift), abs(turn.conjugate() - shift))


@formula(
    ("Lightning voltage at the protected object, peak", 'U_"rp"', "kV"),
    'min(U_"pl" + (2 S D) / c, 2 U_"pl")',
    {
        "protection_level": ("Protection level of the arrester, peak", 'U_"pl"', "kV"),
        "steepness": ("Steepness of the incoming wave", "S", "kV/µs"),
        "distance": ("Distance from arrester to object, one way", "D", "m"),
    },
    cite("IEC 60071-2", "separation effect of arresters"),
    note="c = 300 m/µs; the distance includes the arrester's leads.",
)
def voltage_beyond_arrester(protection_level: float, steepness: float, distance: float) -> float:
    """Lightning voltage at an object some way behind its arrester.

    U = U_pl + 2 S D/c, at most 2 U_pl

    Args:
        protection_level: Protection level of the arrester, peak [V].
        steepness: Steepness of the incoming wave [V/s].
        distance: From arrester to object, one way, leads included [m].

    Returns:
        Peak voltage at the object [V].

    Raises:
        InputError: protection level not above zero, another argument negative.

    Source: IEC 60071-2 and textbooks — basis: memory, high confidence.
    Valid for: an object of high surge impedance at the end of a line.
    """
    positive(protection_level=protection_level)
    not_negative(steepness=steepness, distance=distance)
    return min(protection_level + 2 * steepness * distance / LINE_SPEED, 2 * protection_level)


@formula(
    ("Protective margin", "M", "%"),
    'U_"LI" / U_"pl" - 1',
    {
        "lightning_impulse": ("Lightning impulse withstand voltage, peak", 'U_"LI"', "kV"),
        "protection_level": ("Protection level, peak", 'U_"pl"', "kV"),
    },
    cite("IEEE C62.22", "protective margin for lightning, at least 20 %"),
)
def protective_margin(lightning_impulse: float, protection_level: float) -> float:
    """By how much a withstand level lies above what arrester or horns let through.

    M = U_LI/U_pl - 1

    Args:
        lightning_impulse: Lightning impulse withstand voltage, peak [V].
        protection_level: Highest voltage let through, peak [V].

    Returns:
        Margin; 0.20 is usually asked [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEEE Std C62.22 — basis: memory, high confidence.
    Valid for: lightning.
    """
    positive(lightning_impulse=lightning_impulse, protection_level=protection_level)
    return lightning_impulse / protection_level - 1


@formula(
    ("Risk of a flashover per event", "R", "1"),
    'Phi((mu_"s" - U_50) / sqrt(sigma_"s"^2 + sigma_"w"^2))',
    {
        "stress_mean": ("Mean overvoltage, peak", 'mu_"s"', "kV"),
        "stress_deviation": ("Standard deviation of the overvoltage", 'sigma_"s"', "kV"),
        "strength_mean": ("Mean sparkover voltage, peak", "U_50", "kV"),
        "strength_deviation": ("Standard deviation of the sparkover", 'sigma_"w"', "kV"),
    },
    cite("first principles", "difference of two Gaussian quantities", "exact"),
)
def flashover_risk(
    stress_mean: float, stress_deviation: float, strength_mean: float, strength_deviation: float
) -> float:
    """Chance that an overvoltage exceeds the strength, both Gaussian.

    R = Phi((mu_s - U50)/sqrt(sigma_s² + sigma_w²))

    Args:
        stress_mean: Mean of the overvoltages, peak [V].
        stress_deviation: Their standard deviation [V].
        strength_mean: 50 % sparkover voltage, peak [V].
        strength_deviation: Its standard deviation [V].

    Returns:
        Risk per event, 0 to 1 [1].

    Raises:
        InputError: means not above zero, deviations negative or both zero.

    Source: difference of two Gaussian quantities — basis: exact.
    Valid for: untruncated distributions.
    """
    positive(stress_mean=stress_mean, strength_mean=strength_mean)
    not_negative(stress_deviation=stress_deviation, strength_deviation=strength_deviation)
    spread = math.hypot(stress_deviation, strength_deviation)
    positive(stress_deviation_with_strength_deviation=spread)
    return math.erfc((strength_mean - stress_mean) / spread / math.sqrt(2)) / 2
