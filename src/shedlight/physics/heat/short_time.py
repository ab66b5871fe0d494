"""What a short circuit adds within seconds, before any heat leaves the conductor."""

import math

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, ordered, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

_ZERO_CELSIUS = 273.15  # [K]
CIRCULAR_MIL = math.pi / 4 * 25.4e-6**2  # [m²]

_BETA = ("Inverse of the resistance coefficient at 0 °C", "beta", "K")
_INITIAL = ("Temperature before", 'theta_"i"', "°C")
_FINAL = ("Temperature after", 'theta_"f"', "°C")
_ADIABATIC = ("Adiabatic constant of the metal", "K", "A√s/mm²")
_SHORT_TIME = ("Short-time current, rms", 'I_"th"', "kA")
_DURATION = ("Duration", "t", "s")
_RATIO = ("Resistance over reactance", "R slash X", "1")
_FREQUENCY = ("Frequency", "f", "Hz")


@formula(
    _ADIABATIC,
    'sqrt((sigma_"c" (beta + 20 "K")) / rho_20)',
    {
        "volumetric_heat": ("Volumetric heat", 'sigma_"c"', "J/m³K"),
        "beta": _BETA,
        "resistivity_20": ("Resistivity at 20 °C", "rho_20", "nΩm"),
    },
    cite("IEC 60949", "constant K from material data"),
)
def adiabatic_constant(volumetric_heat: float, beta: float, resistivity_20: float) -> float:
    """The metal's constant in the adiabatic short-circuit formula.

    K = sqrt(sigma_c (beta + 20 K)/rho_20)

    Args:
        volumetric_heat: Heat per volume and kelvin at 20 °C [J/m³K].
        beta: Inverse of the temperature coefficient of resistance at 0 °C [K].
        resistivity_20: Resistivity at 20 °C [Ωm].

    Returns:
        Constant K [A √s/m²].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60949 — basis: memory, high confidence.
    Valid for: heat capacity that does not change.
    """
    positive(volumetric_heat=volumetric_heat, beta=beta, resistivity_20=resistivity_20)
    return math.sqrt(volumetric_heat * (beta + 20) / resistivity_20)


def _span(initial: float, final: float, beta: float) -> float:
    """Logarithm of the ratio of resistances after and before."""
    positive(initial=initial, beta=beta)
    ordered(initial=initial, final=final)
    offset = beta - _ZERO_CELSIUS
    positive(initial_over_beta=initial + offset)
    return math.log((final + offset) / (initial + offset))


@formula(
    ("Adiabatic coefficient", "k", "A√s/mm²"),
    'K sqrt(ln((theta_"f" + beta) / (theta_"i" + beta)))',
    {"adiabatic_constant": _ADIABATIC, "beta": _BETA, "initial": _INITIAL, "final": _FINAL},
    cite("IEC 60949", "adiabatic short-circuit formula"),
)
def adiabatic_coefficient(
    adiabatic_constant: float, beta: float, initial: float, final: float
) -> float:
    """Current density times root of time that heats a metal from one temperature to another.

    k = K sqrt(ln((theta_f + beta)/(theta_i + beta))), theta in °C

    Args:
        adiabatic_constant: K of the metal [A √s/m²].
        beta: Inverse of the temperature coefficient of resistance at 0 °C [K].
        initial: Temperature before [K].
        final: Temperature after [K].

    Returns:
        k, so that I sqrt(t) = k S [A √s/m²].

    Raises:
        InputError: constant or beta not above zero, temperatures out of order.

    Source: IEC 60949 — basis: memory, high confidence.
    Valid for: short circuits of some seconds, no skin effect.
    """
    positive(adiabatic_constant=adiabatic_constant)
    return adiabatic_constant * math.sqrt(_span(initial, final, beta))


@formula(
    _FINAL,
    '(theta_"i" + beta) exp((I_"th"^2 t) / (K^2 S^2)) - beta',
    {
        "short_time_current": _SHORT_TIME,
        "duration": _DURATION,
        "section": ("Cross-section", "S", "mm²"),
        "adiabatic_constant": _ADIABATIC,
        "beta": _BETA,
        "initial": _INITIAL,
    },
    cite("IEC 60949", "adiabatic short-circuit formula, solved for temperature"),
    ranges={"duration": (0.1, 5.0)},
)
def adiabatic_temperature(
    short_time_current: float,
    duration: float,
    section: float,
    adiabatic_constant: float,
    beta: float,
    initial: float,
) -> float:
    """Temperature of a conductor at the end of a short circuit, no heat leaving.

    theta_f = (theta_i + beta) exp(I² t/(K² S²)) - beta, theta in °C

    Args:
        short_time_current: Short-time current, rms [A].
        duration: How long it flows [s].
        section: Cross-section that carries it [m²].
        adiabatic_constant: K of the metal [A √s/m²].
        beta: Inverse of the temperature coefficient of resistance at 0 °C [K].
        initial: Temperature before [K].

    Returns:
        Temperature after [K].

    Raises:
        InputError: current or duration negative, another argument not above zero.

    Source: IEC 60949 — basis: memory, high confidence.
    Valid for: 0.1 to 5 s, no skin effect.
    """
    not_negative(short_time_current=short_time_current, duration=duration)
    positive(section=section, adiabatic_constant=adiabatic_constant, beta=beta, initial=initial)
    offset = beta - _ZERO_CELSIUS
    heat = (short_time_current / (adiabatic_constant * section)) ** 2 * duration
    return (initial + offset) * math.exp(heat) - offset


@formula(
    ("Short-time rise", "Delta T", "K"),
    'a I_"th"^2 / (S_"t" S_"e") t',
    {
        "coefficient": ("Coefficient of the metal", "a", "Kcm⁴/kA²s"),
        "short_time_current": _SHORT_TIME,
        "section": ("Total cross-section", 'S_"t"', "cm²"),
        "effective_section": ("Cross-section used by the current", 'S_"e"', "cm²"),
        "duration": _DURATION,
    },
    cite("IEC 60137", "thermal short-time current withstand"),
    ranges={"duration": (0.5, 5.0)},
)
def iec60137_short_time_rise(
    coefficient: float,
    short_time_current: float,
    section: float,
    effective_section: float,
    duration: float,
) -> float:
    """Rise of a bushing's conductor in a short circuit, as the bushing standard reckons it.

    Delta T = a I_th²/(S_t S_e) · t

    Args:
        coefficient: 0.8 for copper, 1.8 for aluminium in K cm⁴/(kA² s) [K m⁴/(A² s)].
        short_time_current: Rated thermal short-time current, rms [A].
        section: Total cross-section [m²].
        effective_section: Cross-section within the skin depth [m²].
        duration: Rated duration [s].

    Returns:
        Temperature rise [K].

    Raises:
        InputError: current or duration negative, sections not above zero or out of order.

    Source: IEC 60137, thermal short-time clause — basis: memory, high confidence.
    Valid for: some seconds; limit 180 °C at the end.
    """
    not_negative(short_time_current=short_time_current, duration=duration)
    positive(coefficient=coefficient, section=section, effective_section=effective_section)
    if effective_section > section * (1 + 1e-9):
        raise InputError(
            f"effective_section: given {effective_section:g} m²; "
            f"expected at most the whole section, {section:g} m²"
        )
    return coefficient * short_time_current**2 / (section * effective_section) * duration


@formula(
    ("Cross-section used by the current", 'S_"e"', "cm²"),
    "cases(pi delta (D - delta) & quad delta < D slash 2,"
    " pi D^2 slash 4 & quad delta >= D slash 2)",
    {
        "diameter": ("Rod diameter", "D", "mm"),
        "skin_depth": ("Skin depth", "delta", "mm"),
    },
    cite("IEC 60137", "thermal short-time current withstand, effective section"),
)
def effective_section_round(diameter: float, skin_depth: float) -> float:
    """The ring within one skin depth of a rod's surface; the whole rod if it is thin.

    S_e = pi delta (D - delta)

    Args:
        diameter: Rod diameter [m].
        skin_depth: Skin depth [m].

    Returns:
        Effective cross-section [m²].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60137, thermal short-time clause — basis: memory, high confidence.
    Valid for: round rods.
    """
    positive(diameter=diameter, skin_depth=skin_depth)
    depth = min(skin_depth, diameter / 2)
    return math.pi * depth * (diameter - depth)


@formula(
    ("Current density that melts or heats", "J", "A/mm²"),
    'A_"cm"^(-1) sqrt(log_10((theta_"f" - theta_"i") / (234 + theta_"i") + 1) / (33 t))',
    {"initial": _INITIAL, "final": _FINAL, "duration": _DURATION},
    cite("Onderdonk", "fusing current of copper"),
    note="A_cm is the circular mil, 506.7 µm²; copper only.",
)
def onderdonk(initial: float, final: float, duration: float) -> float:
    """Current density that takes copper from one temperature to another; an independent rival.

    33 (I/A)² t = log10((theta_f - theta_i)/(234 + theta_i) + 1), A in circular mils

    Args:
        initial: Temperature before [K].
        final: Temperature after [K].
        duration: How long the current flows [s].

    Returns:
        Current density, rms [A/m²].

    Raises:
        InputError: temperatures out of order, duration not above zero.

    Source: Onderdonk, as quoted in handbooks — basis: memory, high confidence.
    Valid for: copper, up to about 10 s.
    """
    positive(duration=duration)
    return math.sqrt(_span(initial, final, 234.0) / math.log(10) / (33 * duration)) / CIRCULAR_MIL


@formula(
    _RATIO,
    "1 / (2 pi f tau)",
    {
        "time_constant": ("Time constant of the direct component", "tau", "ms"),
        "frequency": _FREQUENCY,
    },
    cite("first principles", "time constant X/(2 pi f R)", "exact"),
)
def resistance_to_reactance(time_constant: float, frequency: float) -> float:
    """Resistance over reactance of a network, from the time constant of its direct component.

    R/X = 1/(2 pi f tau)

    Args:
        time_constant: 45 ms is the usual [s].
        frequency: Frequency [Hz].

    Returns:
        R/X [1].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any.
    """
    positive(time_constant=time_constant, frequency=frequency)
    return 1 / (2 * math.pi * frequency * time_constant)


@formula(
    ("Peak factor", "kappa", "1"),
    "1.02 + 0.98 exp(-3 R slash X)",
    {"resistance_to_reactance": _RATIO},
    cite("IEC 60909", "peak short-circuit current"),
    ranges={"resistance_to_reactance": (0.005, 1.2)},
)
def peak_factor(resistance_to_reactance: float) -> float:
    """First peak over the crest of the steady short-circuit current.

    kappa = 1.02 + 0.98 exp(-3 R/X)

    Args:
        resistance_to_reactance: R/X of the network [1].

    Returns:
        kappa, 1.02 to 2 [1].

    Raises:
        InputError: R/X not above zero.

    Source: IEC 60909-0 — basis: memory, high confidence.
    Valid for: R/X 0.005 to 1.2.
    """
    positive(resistance_to_reactance=resistance_to_reactance)
    return 1.02 + 0.98 * math.exp(-3 * resistance_to_reactance)


@formula(
    ("Peak over rms short-circuit current", 'i_"p" slash I', "1"),
    "kappa sqrt(2)",
    {"peak_factor": ("Peak factor", "kappa", "1")},
    cite("IEC 60909", "peak short-circuit current"),
)
def peak_over_rms(peak_factor: float) -> float:
    """First peak over the rms value of the short-circuit current: 2.5 to 2.7 in standards.

    i_p/I = kappa sqrt(2)

    Args:
        peak_factor: kappa, 1 to 2 [1].

    Returns:
        Ratio [1].

    Raises:
        InputError: peak factor outside 1 to 2.

    Source: IEC 60909-0 — basis: memory, high confidence.
    Valid for: any network.
    """
    within(1.0, 2.0, peak_factor=peak_factor)
    return peak_factor * math.sqrt(2)


@formula(
    ("Heating factor of the direct component", "m", "1"),
    "(exp(4 f t ln(kappa - 1)) - 1) / (2 f t ln(kappa - 1))",
    {
        "peak_factor": ("Peak factor", "kappa", "1"),
        "frequency": _FREQUENCY,
        "duration": _DURATION,
    },
    cite("IEC 60865-1", "thermal equivalent short-time current, factor m"),
)
def direct_component_heating(peak_factor: float, frequency: float, duration: float) -> float:
    """How much the direct component adds to the heating of a short circuit.

    m = (exp(4 f t ln(kappa - 1)) - 1)/(2 f t ln(kappa - 1)); I_th = I sqrt(m + n)

    Args:
        peak_factor: kappa, above 1 and below 2 [1].
        frequency: Frequency [Hz].
        duration: Duration of the short circuit [s].

    Returns:
        Factor m [1].

    Raises:
        InputError: peak factor outside 1.01 to 1.99, another argument not above zero.

    Source: IEC 60865-1 — basis: memory, high confidence.
    Valid for: any duration.
    """
    within(1.01, 1.99, peak_factor=peak_factor)
    positive(frequency=frequency, duration=duration)
    decay = frequency * duration * math.log(peak_factor - 1)
    return math.expm1(4 * decay) / (2 * decay)
