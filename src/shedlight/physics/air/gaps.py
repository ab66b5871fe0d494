"""Strength of air gaps as bushings have them: rods, clearances, lightning, rain.

Up to about 0.9 m the rod–rod table decides; the straight laws in kV per metre hold for long gaps
only and make short ones look weak, which is dangerous where a gap has to spark over in time.
Long gaps under switching and power-frequency voltage stand in ``long_gaps``.
"""

import math

from shedlight.physics.air.tables import along, minimum_clearances, rod_gaps
from shedlight.physics.domain import not_negative, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

_GAP = ("Gap", "d", "mm")
_LONG_GAP = ("Gap", "d", "m")
_FACTOR = ("Gap factor", "K", "1")
_MEAN = ("Mean sparkover voltage", "U_50", "kV")
_DEVIATION = ("Relative standard deviation", "s", "%")
_DISTANCE = ("Arcing distance", "d", "mm")
_IEEE = cite("IEEE 4", "rod–rod gap table, a.c. peak, 12.7 mm square rods, 27 °C")
_ROD_RANGE = (0.02, 2.0)
_ROD_NOTE = (
    "Table at 27 °C and about 15 g/m³: its density and humidity corrections nearly cancel "
    "(within 3 %), so it is used as at standard atmosphere."
)


@formula(
    ("Rod gap sparkover, a.c. peak", "U_50", "kV"),
    'U_"table" (d)',
    {"gap": _GAP},
    _IEEE,
    ranges={"gap": _ROD_RANGE},
    note=_ROD_NOTE,
)
def rod_gap_mean(gap: float) -> float:
    """Mean sparkover voltage of a rod–rod gap, alternating voltage, peak.

    Straight lines between the rows of ``rod_gaps.csv``. Also the lightning strength of short gaps.

    Args:
        gap: Shortest distance between the rods [m].

    Returns:
        Mean sparkover voltage at standard atmosphere, peak [V].

    Raises:
        InputError: gap negative or not finite.

    Source: IEEE Std 4 (earlier AIEE), rod-gap table — basis: memory, high confidence.
    Valid for: 20 mm to 2 m.
    """
    not_negative(gap=gap)
    places = [0.0, *(row.gap for row in rod_gaps())]
    return along(gap, places, [0.0, *(row.sparkover for row in rod_gaps())])


@formula(
    ("Rod gap sparkover, a.c. rms", "U_50", "kV"),
    '(U_"table" (d)) / sqrt(2)',
    {"gap": _GAP},
    _IEEE,
    ranges={"gap": _ROD_RANGE},
    note=_ROD_NOTE,
)
def rod_gap_mean_rms(gap: float) -> float:
    """Mean sparkover voltage of a rod–rod gap, alternating voltage, rms: dry strength of a path.

    U = U_table/sqrt(2)

    Args:
        gap: Shortest distance in air between live and earthed metal [m].

    Returns:
        Mean sparkover voltage at standard atmosphere, rms [V].

    Raises:
        InputError: gap negative or not finite.

    Source: IEEE Std 4 (earlier AIEE), rod-gap table — basis: memory, high confidence.
    Valid for: 20 mm to 2 m.
    """
    return rod_gap_mean(gap) / math.sqrt(2)


@formula(
    ("Rod gap sparkover by the trade rule, peak", "U_50", "kV"),
    '40 "kV" + 5 "kV/cm" dot d',
    {"gap": _GAP},
    cite("trade", "rule for protective rod gaps, German textbooks", "practice", "low"),
    ranges={"gap": (0.05, 2.0)},
    note="The range is where the rule stays within 20 % of the rod–rod table.",
)
def rod_gap_trade_rule(gap: float) -> float:
    """Sparkover of a rod gap by a remembered rule: the rival that lies above the table.

    U = 40 kV + 5 kV/cm · d

    Args:
        gap: Shortest distance between the rods [m].

    Returns:
        Sparkover voltage at standard atmosphere, peak [V].

    Raises:
        InputError: gap negative or not finite.

    Source: habit of the trade, German textbooks — basis: practice, low confidence.
    Valid for: 50 mm to 2 m.
    """
    not_negative(gap=gap)
    return 40e3 + 5e5 * gap


@formula(
    ("Rod gap sparkover, direct voltage", "U", "kV"),
    '2 "kV" + 534 "kV/m" dot d',
    {"gap": _GAP},
    cite("IEC 60052", "rod–rod gap for direct voltage"),
    ranges={"gap": (0.25, 2.5)},
)
def rod_gap_direct(gap: float) -> float:
    """Sparkover of the standard rod–rod measuring gap under direct voltage.

    U = 2 kV + 0.534 kV/mm · d

    Args:
        gap: Distance between the rod tips [m].

    Returns:
        Sparkover voltage at standard atmosphere [V].

    Raises:
        InputError: gap negative or not finite.

    Source: IEC 60052 — basis: memory, high confidence.
    Valid for: 250 to 2500 mm.
    """
    not_negative(gap=gap)
    return 2e3 + 534e3 * gap


@formula(
    ("Lightning sparkover, positive", "U_50", "kV"),
    '530 thin "kV/m" dot d (0.74 + 0.26 K)',
    {"gap": _LONG_GAP, "gap_factor": _FACTOR},
    cite("IEC 60071-2", "air-gap strength, positive lightning impulse"),
    ranges={"gap": (1.0, 10.0), "gap_factor": (1.0, 2.0)},
)
def lightning_mean(gap: float, gap_factor: float) -> float:
    """Mean sparkover of a long gap under positive lightning impulse.

    U50 = 530 kV/m · d (0.74 + 0.26 K)

    Args:
        gap: Shortest distance in air [m].
        gap_factor: K of the arrangement under switching impulse, 1 for rod–plane [1].

    Returns:
        50 % sparkover voltage, peak [V].

    Raises:
        InputError: gap negative, gap factor not above zero.

    Source: IEC 60071-2, air-gap strength — basis: memory, high confidence.
    Valid for: 1 to 10 m; far too low for short gaps, where the rod–rod table decides.
    """
    not_negative(gap=gap)
    positive(gap_factor=gap_factor)
    return 530e3 * gap * (0.74 + 0.26 * gap_factor)


@formula(
    ("Lightning sparkover, positive", "U_50", "kV"),
    '(380 + 150 K) thin "kV/m" dot d',
    {"gap": _LONG_GAP, "gap_factor": _FACTOR},
    cite("EN 50341", "form (380 + 150 K) d for lightning impulse", "published"),
    ranges={"gap": (1.0, 10.0), "gap_factor": (1.0, 2.0)},
)
def lightning_mean_cigre(gap: float, gap_factor: float) -> float:
    """Mean sparkover of a long gap under positive lightning impulse, the rival form.

    U50 = (380 + 150 K) kV/m · d

    Args:
        gap: Shortest distance in air [m].
        gap_factor: K of the arrangement under switching impulse, 1 for rod–plane [1].

    Returns:
        50 % sparkover voltage, peak [V].

    Raises:
        InputError: gap negative, gap factor not above zero.

    Source: CIGRE, used in EN 50341 — basis: published.
    Valid for: 1 to 10 m.
    """
    not_negative(gap=gap)
    positive(gap_factor=gap_factor)
    return (380e3 + 150e3 * gap_factor) * gap


@formula(
    ("Lightning sparkover, negative", "U_50", "kV"),
    '950 "kV" (d / "m")^0.8 dot cases(1.5 - 0.5 K & quad K < 1.44, 0.75 & quad K >= 1.44)',
    {"gap": _LONG_GAP, "gap_factor": _FACTOR},
    cite("IEC 60071-2", "air-gap strength, negative lightning impulse", "memory", "medium"),
    ranges={"gap": (1.0, 10.0), "gap_factor": (1.0, 2.0)},
)
def lightning_negative(gap: float, gap_factor: float) -> float:
    """Mean sparkover of a long gap under negative lightning impulse.

    U50 = 950 kV (d/m)^0.8 · (1.5 - 0.5 K, or 0.75 from K = 1.44)

    Args:
        gap: Shortest distance in air [m].
        gap_factor: K of the arrangement under switching impulse, 1 for rod–plane [1].

    Returns:
        50 % sparkover voltage, magnitude of the peak [V].

    Raises:
        InputError: gap negative, gap factor not above zero.

    Source: IEC 60071-2, air-gap strength — basis: memory, medium confidence.
    Valid for: 1 to 10 m; not for symmetric rod–rod gaps, which are far weaker.
    """
    not_negative(gap=gap)
    positive(gap_factor=gap_factor)
    share = 1.5 - 0.5 * gap_factor if gap_factor < 1.44 else 0.75
    return float(950e3 * gap**0.8 * share)


@formula(
    ("Voltage sparking over in one case of ten", "U_10", "kV"),
    "U_50 (1 - 1.2816 s)",
    {"mean": _MEAN, "deviation": _DEVIATION},
    cite("IEC 60071-2", "withstand at 90 % probability, Gaussian scatter"),
)
def ten_percent(mean: float, deviation: float) -> float:
    """Voltage a self-restoring gap withstands in nine cases of ten.

    U10 = U50 (1 - 1.2816 s)

    Args:
        mean: 50 % sparkover voltage [V].
        deviation: Standard deviation over the mean [1].

    Returns:
        10 % sparkover voltage, on the same basis (peak or rms) as the mean [V].

    Raises:
        InputError: mean not above zero, deviation outside 0 to 0.3.

    Source: IEC 60071-2; 1.2816 is the Gaussian 10 % quantile — basis: memory, high confidence.
    Valid for: Gaussian scatter.
    """
    positive(mean=mean)
    within(0.0, 0.3, deviation=deviation)
    return mean * (1 - 1.2816 * deviation)


@formula(
    ("Lowest likely sparkover voltage", 'U_"low"', "kV"),
    "U_50 (1 - 3 s)",
    {"mean": _MEAN, "deviation": _DEVIATION},
    cite("IEC 60071-2", "conventional withstand, three deviations below the mean"),
)
def three_sigma_low(mean: float, deviation: float) -> float:
    """Voltage below which a gap practically never sparks over.

    U = U50 (1 - 3 s)

    Args:
        mean: 50 % sparkover voltage [V].
        deviation: Standard deviation over the mean [1].

    Returns:
        Mean less three standard deviations, on the mean's basis [V].

    Raises:
        InputError: mean not above zero, deviation outside 0 to 0.3.

    Source: IEC 60071-2 — basis: memory, high confidence.
    Valid for: Gaussian scatter.
    """
    positive(mean=mean)
    within(0.0, 0.3, deviation=deviation)
    return mean * (1 - 3 * deviation)


@formula(
    ("Highest likely sparkover voltage", 'U_"high"', "kV"),
    "U_50 (1 + 3 s)",
    {"mean": _MEAN, "deviation": _DEVIATION},
    cite("IEC 60071-2", "three deviations above the mean"),
)
def three_sigma_high(mean: float, deviation: float) -> float:
    """Voltage above which a gap practically always sparks over.

    U = U50 (1 + 3 s)

    Args:
        mean: 50 % sparkover voltage [V].
        deviation: Standard deviation over the mean [1].

    Returns:
        Mean plus three standard deviations, on the mean's basis [V].

    Raises:
        InputError: mean not above zero, deviation outside 0 to 0.3.

    Source: IEC 60071-2 — basis: memory, high confidence.
    Valid for: Gaussian scatter.
    """
    positive(mean=mean)
    within(0.0, 0.3, deviation=deviation)
    return mean * (1 + 3 * deviation)


@formula(
    ("Least clearance in air", 'd_"min"', "mm"),
    'd_"table" (U_"LI")',
    {"lightning_impulse": ("Lightning impulse withstand voltage, peak", 'U_"LI"', "kV")},
    cite("IEC 60071-1", "Annex A Table A.1, rod–structure"),
    ranges={"lightning_impulse": (20e3, 2100e3)},
)
def clearance_for_lightning(lightning_impulse: float) -> float:
    """Least clearance in air, phase to earth, for a lightning impulse withstand voltage.

    Straight lines between the rows of ``minimum_clearances.csv``, rod against structure.

    Args:
        lightning_impulse: Withstand voltage demanded at standard atmosphere, peak [V].

    Returns:
        Least clearance [m].

    Raises:
        InputError: lightning impulse not above zero.

    Source: IEC 60071-1, Table A.1 — basis: memory, high confidence.
    Valid for: 20 to 2100 kV, up to 1000 m above sea level.
    """
    positive(lightning_impulse=lightning_impulse)
    rows = minimum_clearances()
    levels = [row.lightning_impulse for row in rows]
    return along(lightning_impulse, levels, [row.rod_structure for row in rows])


@formula(
    ("Wet power-frequency withstand, rms", 'U_"wet"', "kV"),
    "E d",
    {"distance": _DISTANCE, "gradient": ("Wet gradient, rms", "E", "kV/cm")},
    cite("Looms", "wet flashover of porcelain per arcing distance", "memory", "low"),
    ranges={"gradient": (1e5, 4e5)},
)
def wet_power_frequency(distance: float, gradient: float) -> float:
    """What a porcelain housing holds in standard rain, power frequency.

    U = E d; the band of E stands in ``wet_gradients.csv``

    Args:
        distance: Arcing distance along the housing [m].
        gradient: Voltage per arcing distance, rms [V/m].

    Returns:
        Wet withstand voltage at standard atmosphere, rms [V].

    Raises:
        InputError: distance negative, gradient not above zero.

    Source: Looms, Insulators for High Voltages — basis: memory, low confidence.
    Valid for: open porcelain sheds in standard rain.
    """
    not_negative(distance=distance)
    positive(gradient=gradient)
    return gradient * distance
