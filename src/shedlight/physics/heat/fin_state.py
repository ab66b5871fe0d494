"""The steady shape of temperature along a heated fin between two known ends.

    T'' - b (T - T_s) + s = 0

b > 0 gives hyperbolic functions, b < 0 circular ones, which stay finite only on a short length.
"""

import math
from dataclasses import dataclass

from shedlight.errors import InputError
from shedlight.physics.domain import finite, positive

RUNAWAY = "runaway: the loss grows with temperature faster than heat can leave"


_CLOSE = 1e-14  # how near the hottest place is found, over the length [1]


@dataclass(frozen=True)
class FinState:
    """A fin in steady state with both end temperatures known.

    Raises:
        InputError: no steady state exists ("runaway").
    """

    coefficient: float  # b [1/m²]
    source: float  # s [K/m²]
    surroundings: float  # [K]
    oil_end: float  # [K]
    terminal: float  # [K]
    length: float  # [m]

    def __post_init__(self) -> None:
        """Refuse what has no steady state."""
        finite(coefficient=self.coefficient, source=self.source)
        positive(
            length=self.length,
            surroundings=self.surroundings,
            oil_end=self.oil_end,
            terminal=self.terminal,
        )
        if self.coefficient < 0 and math.sqrt(-self.coefficient) * self.length >= math.pi:
            raise InputError(f"coefficient: given {self.coefficient:g} 1/m²; {RUNAWAY}")

    def temperature(self, place: float) -> float:
        """Temperature at a place, 0 to length [K]."""
        b, far = self.coefficient, self.length - place
        rise = (self.oil_end - self.surroundings) * _share(b, far, self.length)
        rise += (self.terminal - self.surroundings) * _share(b, place, self.length)
        return self.surroundings + rise + self.source * _bulge(b, place, self.length)

    def slope(self, place: float) -> float:
        """Change of temperature along the axis at a place, 0 to length [K/m]."""
        b, far = self.coefficient, self.length - place
        slope = (self.terminal - self.surroundings) * share_slope(b, place, self.length)
        slope -= (self.oil_end - self.surroundings) * share_slope(b, far, self.length)
        return slope + self.source * bulge_slope(b, place, self.length)

    @property
    def hot_spot_place(self) -> float:
        """Where the conductor is hottest, counted from the oil end [m]."""
        if self.slope(0.0) > 0 > self.slope(self.length):
            low, high = 0.0, self.length
            # Halved by hand: a library's root finder takes a tenth of a second to open.
            while high - low > _CLOSE * self.length:
                middle = (low + high) / 2
                low, high = (middle, high) if self.slope(middle) > 0 else (low, middle)
            return (low + high) / 2
        return 0.0 if self.oil_end >= self.terminal else self.length

    @property
    def hot_spot(self) -> float:
        """Highest temperature along the conductor [K]."""
        return self.temperature(self.hot_spot_place)

    def oil_end_flow(self, conduction: float) -> float:
        """Heat that flows from the oil into the conductor; negative: it heats the oil [W]."""
        return -conduction * self.slope(0.0)

    def terminal_flow(self, conduction: float) -> float:
        """Heat that flows out at the terminal; negative: it flows in there [W]."""
        return -conduction * self.slope(self.length)


# sinh(m x)/sinh(m L), and what a uniform source adds between ends held at zero; written without
# differences of large numbers, so that they pass smoothly through b = 0 and never overflow.


def _share(b: float, x: float, length: float) -> float:
    if b > 0:
        m = math.sqrt(b)
        return math.exp(m * (x - length)) * math.expm1(-2 * m * x) / math.expm1(-2 * m * length)
    if b < 0:
        n = math.sqrt(-b)
        return math.sin(n * x) / math.sin(n * length)
    return x / length


def share_slope(b: float, x: float, length: float) -> float:
    """Slope of the share that the far end has in the shape of the fin.

    d/dx of sinh(sqrt(b) x)/sinh(sqrt(b) L)

    Args:
        b: Fin coefficient [1/m²].
        x: Place [m].
        length: Length of the fin [m].

    Returns:
        Slope [1/m].

    Source: Carslaw and Jaeger — basis: exact.
    """
    if b > 0:
        m = math.sqrt(b)
        rise = 1 + math.exp(-2 * m * x)
        return -m * math.exp(m * (x - length)) * rise / math.expm1(-2 * m * length)
    if b < 0:
        n = math.sqrt(-b)
        return n * math.cos(n * x) / math.sin(n * length)
    return 1 / length


def _bulge(b: float, x: float, length: float) -> float:
    far = length - x
    if b > 0:
        m = math.sqrt(b)
        return math.expm1(-m * x) * math.expm1(-m * far) / (b * (1 + math.exp(-m * length)))
    if b < 0:
        n = math.sqrt(-b)
        return 2 * math.sin(n * x / 2) * math.sin(n * far / 2) / (-b * math.cos(n * length / 2))
    return x * far / 2


def bulge_slope(b: float, x: float, length: float) -> float:
    """Slope of what a uniform source adds between ends held at the surroundings.

    d/dx of (1 - g(x) - g(L - x))/b, g = sinh(sqrt(b) x)/sinh(sqrt(b) L)

    Args:
        b: Fin coefficient [1/m²].
        x: Place [m].
        length: Length of the fin [m].

    Returns:
        Slope for a source of one [m].

    Source: Carslaw and Jaeger — basis: exact.
    """
    off = length / 2 - x
    if b > 0:
        m = math.sqrt(b)
        growth = math.exp(m * (abs(off) - length / 2)) * -math.expm1(-2 * m * abs(off))
        return math.copysign(growth / (m * (1 + math.exp(-m * length))), off)
    if b < 0:
        n = math.sqrt(-b)
        return math.sin(n * off) / (n * math.cos(n * length / 2))
    return off


def share_area(b: float, length: float) -> float:
    """Integral of the share of one end over the length of the fin.

    tanh(sqrt(b) L/2)/sqrt(b)

    Args:
        b: Fin coefficient [1/m²].
        length: Length of the fin [m].

    Returns:
        Integral [m].

    Source: Carslaw and Jaeger, integrated — basis: exact.
    """
    half = length / 2
    if b > 0:
        return math.tanh(math.sqrt(b) * half) / math.sqrt(b)
    if b < 0:
        return math.tan(math.sqrt(-b) * half) / math.sqrt(-b)
    return half


def bulge_area(b: float, length: float) -> float:
    """Integral of what a uniform source of one adds between ends held at the surroundings.

    (L - 2 tanh(sqrt(b) L/2)/sqrt(b))/b

    Args:
        b: Fin coefficient [1/m²].
        length: Length of the fin [m].

    Returns:
        Integral [m³].

    Source: Carslaw and Jaeger, integrated — basis: exact.
    """
    square = b * length**2 / 4
    if abs(square) > 5e-3:
        return (length - 2 * share_area(b, length)) / b
    # The series of tanh, where the difference above would lose its digits.
    series = 1 / 3 - square * (2 / 15 - square * (17 / 315 - square * 62 / 2835))
    return length**3 / 4 * series
