"""The two ways a discharge may go: along the surface, and straight through air or oil."""

from shedlight.geometry.curves import Curve
from shedlight.geometry.rings import EARTH_RING, LIVE_RING
from shedlight.geometry.section import Section
from shedlight.geometry.taut import Taut, taut_string


def air_creepage(section: Section) -> Curve:
    """The surface in air that counts as creepage: from the top of the clamps to the cap.

    The slot between clamps and body is left out, as dirt and water bridge it (practice).

    Args:
        section: The section.
    """
    surface = section.curve("air side")
    slot = next(surface.rises_through(section.heights.clamp_top), 0.0)
    return surface.between(slot, surface.length)


def oil_creepage(section: Section) -> Curve:
    """The porcelain's surface in the tank's oil, from the cover's underside to the shield.

    Args:
        section: The section.
    """
    return section.curve("oil side")


def arcing_path(section: Section) -> Taut:
    """The shortest way in air between live and earthed metal, round the sheds, horns left out.

    Shield rings are metal too and count.

    Args:
        section: The section.
    """
    rings = section.rings
    earth = [section.curve(n) for n in ("clamps", "cover top", *rings) if n != LIVE_RING]
    live = [section.curve(name) for name in ("cap", *rings) if name != EARTH_RING]
    return taut_string(air_creepage(section), earth, live)


def oil_path(section: Section) -> Taut:
    """The shortest way in oil between live and earthed metal, round the porcelain's lower end.

    Args:
        section: The section.
    """
    earth = [section.curve(name) for name in ("hole wall", "cover underside")]
    live = [section.curve("shield")]
    return taut_string(oil_creepage(section), earth, live, downwards=True)
