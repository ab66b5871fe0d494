"""The joints: gasket new, cold and set; what clamps, cement and the conductor's springs hold."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import (
    Check,
    Question,
    held,
    not_assessed,
    ratio_margin,
    rival,
    window_margin,
)
from shedlight.checks.limits import limit
from shedlight.given.bushing import Installation
from shedlight.units import amount
from shedlight.workings import Workings
from shedlight.workings.numbers import assumption


@answers("gasket.compression")
def compression(question: Question, case: Installation, work: Workings) -> Check:
    """Compression inside the window of the material."""
    material = case.bushing.gasket.material
    low, high = limit(f"gasket low {material}"), limit(f"gasket high {material}")
    value = work.sealing.compression
    margin = window_margin(value, low, high)
    note = f"Window {amount(low, '%')} to {amount(high, '%')}; the margin is the smaller side."
    demand, capability = (low, value) if value / low - 1 < high / value - 1 else (value, high)
    return held(question, demand, capability, place="gasket top", margin=margin, notes=(note,))


@answers("gasket.seat")
def seat(question: Question, case: Installation, work: Workings) -> Check:
    """Least seating stress against what the bolts press; what the oil pressure needs beside it."""
    bolted = work.sealing.bolted
    if isinstance(bolted, str):
        return not_assessed(question, bolted)
    needed = limit("seating stress")
    oil = rival(question, "Highest oil pressure at test", bolted.seating_needed, bolted.seating)
    return held(question, needed, bolted.seating, place="gasket top", rivals=(oil,))


@answers("gasket.groove-fill")
def groove(question: Question, case: Installation, work: Workings) -> Check:
    """Fill of the groove when hot and swollen against a full groove."""
    sealing = work.sealing
    if isinstance(sealing.fill_hot, str) or isinstance(sealing.fill, str):
        return not_assessed(question, str(sealing.fill_hot), place="gasket top")
    cold = rival(question, "Cold and dry", sealing.fill, limit("groove fill"))
    full = limit("groove full")
    return held(question, sealing.fill_hot, full, place="gasket top", rivals=(cold,))


@answers("gasket.set")
def lasting(question: Question, case: Installation, work: Workings) -> Check:
    """Least compression that still seals against what is left, set and in the coldest air."""
    least, sealing = limit("compression left"), work.sealing
    table = sealing.compression_left_by_table
    other = rival(question, "Set near the material's highest temperature", least, table)
    note = f"Set of {amount(sealing.set_share, '%')} at the settled temperature beside the gasket."
    return held(
        question,
        least,
        sealing.compression_left,
        place="gasket top",
        rivals=(other,),
        notes=(note,),
    )


@answers("gasket.cold")
def cold(question: Question, case: Installation, work: Workings) -> Check:
    """Coldest air against the lowest temperature at which the material still springs back."""
    workshop = assumption("assembly temperature")
    coldest, lowest = work.sealing.coldest, work.sealing.material_coldest
    margin = ratio_margin(workshop - coldest, workshop - lowest)
    note = "The margin counts degrees below 20 °C; the gasket is taken as cold as the air."
    return held(question, coldest, lowest, place="gasket top", margin=margin, notes=(note,))


@answers("body.clamping")
def clamping(question: Question, case: Installation, work: Workings) -> Check:
    """Force that keeps the seat shut under the worst bending against what the bolts hold."""
    bolted = work.sealing.bolted
    if isinstance(bolted, str):
        return not_assessed(question, bolted, place="clamp joint")
    return held(question, bolted.seat.needed, bolted.seat.held, place="clamp joint")


@answers("cap.clamping")
def cap(question: Question, case: Installation, work: Workings) -> Check:
    """Force that keeps the cap's seat shut against what the springs hold when all is hot."""
    tie = work.sealing.tie
    if isinstance(tie, str):
        return not_assessed(question, tie, place="cap seat")
    return held(question, tie.needed, tie.held, place="cap seat")


@answers("body.cement")
def cement(question: Question, case: Installation, work: Workings) -> Check:
    """Pressure of the bent porcelain on the flange's cement against what cement bears."""
    pressure = work.sealing.cement
    if isinstance(pressure, str):
        return not_assessed(question, pressure, place="clamp joint")
    return held(question, pressure, limit("cement pressure"), place="clamp joint")
