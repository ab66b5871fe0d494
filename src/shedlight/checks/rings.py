"""Shield rings: whether they glow, and how much air they leave."""

from shedlight.checks.catalogue import answers
from shedlight.checks.check import Check, Question, fact, held, rival
from shedlight.given.bushing import Installation
from shedlight.trace import out_of_range
from shedlight.units import amount
from shedlight.workings import Workings
from shedlight.workings.rings import Ring

NO_RINGS = "no shield rings are fitted"
SAFE_SIDE = "the ring alone over a plane has more field; the solved field decides"


@answers("rings.corona")
def glow_of_rings(question: Question, case: Installation, work: Workings) -> Check:
    """Largest field at a ring's tube in service against glow inception."""
    if not work.rings:
        return fact(question, True, NO_RINGS)
    worst, *better = sorted(work.rings, key=_trouble)
    glow = worst.glow
    others = [
        rival(question, "At the other ring", ring.glow.gradient, ring.glow.inception)
        for ring in better
    ]
    if not isinstance(work.discharges, str):
        inception = work.discharges.ring(worst.name).inception
        others.append(
            rival(question, "Streamer in the solved field", work.voltages.glow_free, inception)
        )
    wet = "glow in rain too" if glow.gradient > glow.in_rain else "stay dark in rain"
    notes = (
        f"Reckoned at {glow.place}, alone over a plane as near as the other end's nearest metal: "
        "the safe side.",
        f"Drops hanging on it glow from {amount(glow.in_rain, 'kV/mm')} on; they {wet}.",
        "Arms and clamps that hold the ring are not described.",
    )
    return held(
        question,
        glow.gradient,
        glow.inception,
        place=worst.name,
        rivals=tuple(others),
        notes=notes,
        cap=SAFE_SIDE,
    )


@answers("rings.clearance")
def clearance_of_rings(question: Question, case: Installation, work: Workings) -> Check:
    """Required clearance against the straight way from a ring to the other end."""
    if not work.rings:
        return fact(question, True, NO_RINGS)
    nearest = min(work.rings, key=lambda ring: ring.clearance)
    way = work.air.arcing
    notes = (f"The arcing distance, {amount(way, 'mm')}, counts the rings as metal.",)
    return held(question, work.air.clearance, nearest.clearance, place=nearest.name, notes=notes)


def _trouble(ring: Ring) -> tuple[bool, float]:
    """Sorts rings: what glows or is reckoned out of range comes before what surely stays dark."""
    over = float(ring.glow.inception / ring.glow.gradient)
    return over >= 1 and not out_of_range(ring.glow.gradient, ring.glow.inception), over
