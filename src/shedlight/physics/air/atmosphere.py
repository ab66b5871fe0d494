"""The air at a place: density, moisture, and what they do to sparkover voltages.

Two references must never be swapped. The density at site counts from sea level and scales what
a gap really holds. The altitude factor counts from 1000 m and raises what is demanded, because
standard levels already cover the first 1000 m.
"""

import math

from shedlight.physics.domain import finite, not_negative, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

STANDARD_PRESSURE = 101_300.0  # [Pa], IEC 60060-1
SCALE_HEIGHT = 8150.0  # [m], IEC 60071-2
COVERED_ALTITUDE = 1000.0  # [m]: standard levels hold up to here
_ZERO_CELSIUS = 273.15  # [K]

_DENSITY = ("Relative air density", "delta", "1")
_HUMIDITY = ("Absolute humidity", "h", "g/m³")
_ALTITUDE = ("Altitude", "H", "m")
_RATIO = ("Humidity correction", "k", "1")


@formula(
    _DENSITY,
    'p / (101.3 "kPa") dot (273 + 20) / (273 + t)',
    {"pressure": ("Air pressure", "p", "kPa"), "temperature": ("Air temperature", "t", "°C")},
    cite("IEC 60060-1", "air density correction factor"),
)
def relative_air_density(pressure: float, temperature: float) -> float:
    """How dense the air is against the standard reference atmosphere.

    delta = p/101.3 kPa · (273 + 20)/(273 + t), t in °C

    Args:
        pressure: Absolute air pressure [Pa].
        temperature: Air temperature [K].

    Returns:
        Relative air density [1].

    Raises:
        InputError: pressure or temperature not above zero.

    Source: IEC 60060-1, air density correction factor — basis: memory, high confidence.
    Valid for: outdoor weather.
    """
    positive(pressure=pressure, temperature=temperature)
    celsius = temperature - _ZERO_CELSIUS
    return pressure / STANDARD_PRESSURE * (273 + 20) / (273 + celsius)


@formula(
    _DENSITY,
    'exp(-H / (8150 "m"))',
    {"altitude": _ALTITUDE},
    cite("IEC 60071-2", "pressure–altitude relation of the altitude correction"),
    ranges={"altitude": (0.0, 4000.0)},
    note="Counted from sea level: scales what a gap at site really holds.",
)
def site_density(altitude: float) -> float:
    """Mean relative air density at an altitude.

    delta = exp(-H/8150 m)

    Args:
        altitude: Height above sea level [m].

    Returns:
        Relative air density [1].

    Raises:
        InputError: altitude not a finite number.

    Source: IEC 60071-2, pressure–altitude relation — basis: memory, high confidence.
    Valid for: 0 to 4000 m.
    """
    finite(altitude=altitude)
    return math.exp(-altitude / SCALE_HEIGHT)


@formula(
    ("Altitude factor", "K_a", "1"),
    'max(1, exp(m (H - 1000 "m") / (8150 "m")))',
    {"exponent": ("Altitude exponent", "m", "1"), "altitude": _ALTITUDE},
    cite("IEC 60137", "altitude clause; the same form in IEC 60071-2:2018"),
    ranges={"exponent": (0.0, 1.0), "altitude": (0.0, 4000.0)},
    note="Counted from 1000 m: raises what is demanded; standard levels cover the first 1000 m.",
)
def altitude_factor(exponent: float, altitude: float) -> float:
    """By how much a demand on the air side grows with altitude.

    K_a = exp(m (H - 1000 m)/8150 m), and 1 up to 1000 m

    Args:
        exponent: 1 for lightning and power frequency, 0.75 for switching to earth [1].
        altitude: Height above sea level [m].

    Returns:
        Factor on the withstand demanded at standard atmosphere, at least 1 [1].

    Raises:
        InputError: exponent negative, altitude not a finite number.

    Source: IEC 60137, altitude clause — basis: memory, high confidence.
    Valid for: 0 to 4000 m.
    """
    not_negative(exponent=exponent)
    finite(altitude=altitude)
    return math.exp(exponent * max(0.0, altitude - COVERED_ALTITUDE) / SCALE_HEIGHT)


@formula(
    _HUMIDITY,
    '(6.11 R dot upright(e)^(17.6 t / (243 + t))) / (0.4615 (273 + t)) thin "g/m³"',
    {
        "temperature": ("Air temperature", "t", "°C"),
        "relative_humidity": ("Relative humidity", "R", "%"),
    },
    cite("IEC 60060-1", "absolute humidity from relative humidity"),
    ranges={"relative_humidity": (0.0, 1.0)},
)
def absolute_humidity(temperature: float, relative_humidity: float) -> float:
    """Water held by a cubic metre of air.

    h [g/m³] = 6.11 R exp(17.6 t/(243 + t)) / (0.4615 (273 + t)), t in °C, R in %

    Args:
        temperature: Air temperature [K].
        relative_humidity: Relative humidity, 0 to 1 [1].

    Returns:
        Absolute humidity [kg/m³].

    Raises:
        InputError: temperature not above -100 °C, relative humidity outside 0 to 1.

    Source: IEC 60060-1 — basis: memory, high confidence.
    Valid for: outdoor weather.
    """
    within(_ZERO_CELSIUS - 100, _ZERO_CELSIUS + 100, temperature=temperature)
    within(0.0, 1.0, relative_humidity=relative_humidity)
    celsius = temperature - _ZERO_CELSIUS
    vapour = 6.11 * 100 * relative_humidity * math.exp(17.6 * celsius / (243 + celsius))
    return vapour / (0.4615 * (273 + celsius)) * 1e-3


def _excess(humidity: float, density: float) -> float:
    """Humidity over density above 11 g/m³ [g/m³]."""
    not_negative(humidity=humidity)
    positive(density=density)
    return humidity * 1e3 / density - 11


@formula(
    _RATIO,
    '1 + 0.014 y - 0.00022 y^2, quad y = h / delta - 11 "g/m³"',
    {"humidity": _HUMIDITY, "density": _DENSITY},
    cite("IEC 60060-1", "humidity correction, direct voltage"),
    ranges={"humidity": (0.001, 0.015)},
)
def humidity_ratio_dc(humidity: float, density: float) -> float:
    """Humidity correction k under direct voltage.

    k = 1 + 0.014 y - 0.00022 y², y = h/delta - 11 g/m³

    Args:
        humidity: Absolute humidity [kg/m³].
        density: Relative air density [1].

    Returns:
        k, to be raised to the exponent w [1].

    Raises:
        InputError: humidity negative, density not above zero.

    Source: IEC 60060-1 — basis: memory, high confidence.
    Valid for: 1 to 15 g/m³.
    """
    excess = _excess(humidity, density)
    return 1 + 0.014 * excess - 0.00022 * excess**2


@formula(
    _RATIO,
    '1 + 0.012 (h / delta - 11 "g/m³")',
    {"humidity": _HUMIDITY, "density": _DENSITY},
    cite("IEC 60060-1", "humidity correction, alternating voltage"),
    ranges={"humidity": (0.001, 0.015)},
)
def humidity_ratio_ac(humidity: float, density: float) -> float:
    """Humidity correction k under alternating voltage.

    k = 1 + 0.012 (h/delta - 11 g/m³)

    Args:
        humidity: Absolute humidity [kg/m³].
        density: Relative air density [1].

    Returns:
        k, to be raised to the exponent w [1].

    Raises:
        InputError: humidity negative, density not above zero.

    Source: IEC 60060-1 — basis: memory, high confidence.
    Valid for: 1 to 15 g/m³.
    """
    return 1 + 0.012 * _excess(humidity, density)


@formula(
    _RATIO,
    '1 + 0.010 (h / delta - 11 "g/m³")',
    {"humidity": _HUMIDITY, "density": _DENSITY},
    cite("IEC 60060-1", "humidity correction, impulse voltage"),
    ranges={"humidity": (0.001, 0.020)},
)
def humidity_ratio_impulse(humidity: float, density: float) -> float:
    """Humidity correction k under impulse voltage.

    k = 1 + 0.010 (h/delta - 11 g/m³)

    Args:
        humidity: Absolute humidity [kg/m³].
        density: Relative air density [1].

    Returns:
        k, to be raised to the exponent w [1].

    Raises:
        InputError: humidity negative, density not above zero.

    Source: IEC 60060-1 — basis: memory, high confidence.
    Valid for: 1 to 20 g/m³.
    """
    return 1 + 0.010 * _excess(humidity, density)


@formula(
    ("Discharge parameter", "g", "1"),
    'U_50 / (500 thin "kV/m" dot L delta k)',
    {
        "fifty_percent_voltage": ("Mean sparkover voltage, peak", "U_50", "kV"),
        "path": ("Least discharge path", "L", "m"),
        "density": _DENSITY,
        "humidity_ratio": _RATIO,
    },
    cite("IEC 60060-1", "parameter g of the atmospheric correction"),
    note="In a withstand test the 50 % voltage may be taken as 1.1 times the test voltage.",
)
def discharge_parameter(
    fifty_percent_voltage: float, path: float, density: float, humidity_ratio: float
) -> float:
    """Which discharge decides: 1 means a gap bridged by positive streamers.

    g = U50/(500 kV/m · L delta k)

    Args:
        fifty_percent_voltage: 50 % sparkover voltage, peak [V].
        path: Least discharge path, not the creepage [m].
        density: Relative air density [1].
        humidity_ratio: Humidity correction k [1].

    Returns:
        Parameter g [1].

    Raises:
        InputError: an argument not above zero.

    Source: IEC 60060-1 — basis: memory, high confidence.
    Valid for: gaps whose strength depends on the weather.
    """
    positive(
        fifty_percent_voltage=fifty_percent_voltage,
        path=path,
        density=density,
        humidity_ratio=humidity_ratio,
    )
    return fifty_percent_voltage / (500e3 * path * density * humidity_ratio)


@formula(
    ("Density exponent", "m", "1"),
    "cases(0 & quad g < 0.2, g (g - 0.2) slash 0.8 & quad 0.2 <= g <= 1, 1 & quad g > 1)",
    {"parameter": ("Discharge parameter", "g", "1")},
    cite("IEC 60060-1", "exponents of the atmospheric correction"),
)
def m_of_g(parameter: float) -> float:
    """Exponent m of the density correction.

    m = 0 below g = 0.2, g (g - 0.2)/0.8 up to 1, then 1

    Args:
        parameter: Discharge parameter g [1].

    Returns:
        Exponent m, 0 to 1 [1].

    Raises:
        InputError: parameter negative.

    Source: IEC 60060-1:2010 — basis: memory, high confidence.
    Valid for: any g.
    """
    not_negative(parameter=parameter)
    if parameter < 0.2:
        return 0.0
    return min(1.0, parameter * (parameter - 0.2) / 0.8)


@formula(
    ("Humidity exponent", "w", "1"),
    "cases(m(g) & quad g <= 1.2, (2.2 - g) (2 - g) slash 0.8 & quad 1.2 < g <= 2, 0 & quad g > 2)",
    {"parameter": ("Discharge parameter", "g", "1")},
    cite("IEC 60060-1", "exponents of the atmospheric correction"),
)
def w_of_g(parameter: float) -> float:
    """Exponent w of the humidity correction.

    w = m up to g = 1.2, (2.2 - g)(2.0 - g)/0.8 up to 2, then 0

    Args:
        parameter: Discharge parameter g [1].

    Returns:
        Exponent w, 0 to 1 [1].

    Raises:
        InputError: parameter negative.

    Source: IEC 60060-1:2010 — basis: memory, high confidence.
    Valid for: any g.
    """
    if parameter <= 1.2:
        return m_of_g(parameter)
    if parameter <= 2.0:
        return (2.2 - parameter) * (2.0 - parameter) / 0.8
    return 0.0


@formula(
    ("Atmospheric correction", "K_t", "1"),
    "delta^m k^w",
    {
        "density": _DENSITY,
        "humidity_ratio": _RATIO,
        "density_exponent": ("Density exponent", "m", "1"),
        "humidity_exponent": ("Humidity exponent", "w", "1"),
    },
    cite("IEC 60060-1", "atmospheric correction factor"),
)
def atmospheric_correction(
    density: float, humidity_ratio: float, density_exponent: float, humidity_exponent: float
) -> float:
    """Sparkover voltage in the actual weather over that in the standard atmosphere.

    K_t = delta^m k^w

    Args:
        density: Relative air density [1].
        humidity_ratio: Humidity correction k [1].
        density_exponent: m [1].
        humidity_exponent: w; 0 in rain [1].

    Returns:
        Factor on the voltage at standard atmosphere [1].

    Raises:
        InputError: density or k not above zero, an exponent outside 0 to 1.

    Source: IEC 60060-1 — basis: memory, high confidence.
    Valid for: external insulation, dry.
    """
    positive(density=density, humidity_ratio=humidity_ratio)
    within(0.0, 1.0, density_exponent=density_exponent, humidity_exponent=humidity_exponent)
    return float(density**density_exponent * humidity_ratio**humidity_exponent)
