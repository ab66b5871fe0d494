"""The heights and radii a section is built on, and the refusal of impossible ones."""

from dataclasses import dataclass, replace

from shedlight.errors import ImpossibleShapeError
from shedlight.given.bushing import BulkBushing
from shedlight.given.parts import Clamps, Stud
from shedlight.given.transformer import Transformer

# What differs by less is one and the same: no part is made to a hundredth of a millimetre.
SLIVER = 1e-5


def millimetres(length: float) -> str:
    """A measured length as text.

    Args:
        length: The length [m].
    """
    return f"{1e3 * length:.6g} mm"


@dataclass(frozen=True)
class Heights:
    """Heights above the top face of the cover [m], from the top down."""

    top: float
    cap_top: float
    cap_base: float
    clamp_top: float
    shoulder: float
    seat: float
    cover_underside: float
    taper_start: float
    oil_end: float
    shield_bottom: float
    bottom: float


@dataclass(frozen=True)
class Radii:
    """Radii of the section [m]."""

    conductor: float
    bore: float
    body: float
    top_body: float
    oil_end: float
    collar: float
    ring_inner: float
    ring_outer: float
    hole: float
    gasket_inner: float
    gasket_outer: float
    cap: float
    terminal: float
    shield: float
    stud: float


def heights_of(bushing: BulkBushing, transformer: Transformer) -> Heights:
    """Every named height of a bushing on its cover.

    Args:
        bushing: The bushing.
        transformer: The transformer it stands on.
    """
    porcelain, end = bushing.porcelain, bushing.oil_end
    seat = bushing.gasket.compressed_thickness
    shoulder = seat + porcelain.collar_height
    clamp_top = shoulder + bushing.fixing.thickness
    cap_base = clamp_top + porcelain.air_length
    cap_top = cap_base + bushing.cap.height
    oil_end = seat - end.length
    shield_bottom = oil_end - end.shield_height
    return Heights(
        top=cap_top + bushing.terminal.height,
        cap_top=cap_top,
        cap_base=cap_base,
        clamp_top=clamp_top,
        shoulder=shoulder,
        seat=seat,
        cover_underside=-transformer.cover_thickness,
        taper_start=oil_end + end.taper_length,
        oil_end=oil_end,
        shield_bottom=shield_bottom,
        bottom=shield_bottom - end.stud_length,
    )


def radii_of(bushing: BulkBushing, transformer: Transformer) -> Radii:
    """Every named radius of a bushing in its hole.

    Args:
        bushing: The bushing.
        transformer: The transformer it stands on.

    Raises:
        ImpossibleShapeError: a part does not fit inside or outside its neighbour.
    """
    porcelain, end, terminal = bushing.porcelain, bushing.oil_end, bushing.terminal
    body = porcelain.body_diameter / 2
    stand_off = bushing.fixing.stand_off if isinstance(bushing.fixing, Clamps) else 0.0
    radii = Radii(
        conductor=bushing.conductor.diameter / 2,
        bore=porcelain.bore / 2,
        body=body,
        top_body=porcelain.bore / 2 + porcelain.top_wall,
        oil_end=end.end_diameter / 2,
        collar=porcelain.collar_diameter / 2,
        ring_inner=body + stand_off,
        ring_outer=bushing.fixing.outer_diameter / 2,
        hole=transformer.hole_diameter / 2,
        gasket_inner=bushing.gasket.inner_diameter / 2,
        gasket_outer=bushing.gasket.outer_diameter / 2,
        cap=bushing.cap.diameter / 2,
        terminal=(
            terminal.diameter / 2 if isinstance(terminal, Stud) else bushing.conductor.diameter / 2
        ),
        shield=end.shield_diameter / 2,
        stud=end.stud_diameter / 2,
    )
    _refuse_misfits(radii)
    return _without_slivers(radii)


# Faces that may lie flush: where they nearly do, the first takes over the radius of the second.
FLUSH = (
    ("cap", "top_body"),
    ("terminal", "cap"),
    ("stud", "shield"),
    ("ring_outer", "collar"),
    ("shield", "oil_end"),
    ("oil_end", "body"),
)


def _without_slivers(radii: Radii) -> Radii:
    for name, other in FLUSH:
        target = getattr(radii, other)
        if abs(getattr(radii, name) - target) < SLIVER:
            radii = replace(radii, **{name: target})
    return radii


def _refuse_misfits(radii: Radii) -> None:
    """Each line: what must be smaller, than what, which field to change, in what direction."""
    rules = (
        ("conductor", "bore", "bushing.conductor.diameter", "Make the bore larger."),
        ("conductor", "shield", "bushing.oil_end.shield_diameter", "Make the shield larger."),
        ("bore", "oil_end", "bushing.oil_end.end_diameter", "Leave a wall at the end."),
        ("bore", "shield", "bushing.oil_end.shield_diameter", "The shield must close the bore."),
        ("body", "hole", "transformer.hole_diameter", "The body must pass through the hole."),
        ("hole", "gasket_inner", "bushing.gasket.inner_diameter", "Seal outside the hole."),
        ("gasket_inner", "gasket_outer", "bushing.gasket.outer_diameter", "Widen the gasket."),
        ("gasket_outer", "collar", "bushing.porcelain.collar_diameter", "Widen the collar."),
        ("ring_inner", "collar", "bushing.fixing.stand_off", "The clamps must reach the collar."),
        ("collar", "ring_outer", "bushing.fixing.outer_diameter", "Reach over the collar."),
        ("top_body", "cap", "bushing.cap.diameter", "The cap must cover the porcelain's top."),
        ("terminal", "cap", "bushing.cap.diameter", "The cap must carry the terminal."),
        ("stud", "shield", "bushing.oil_end.shield_diameter", "The shield must carry the stud."),
        ("oil_end", "body", "bushing.oil_end.end_diameter", "The oil end tapers inwards only."),
    )
    for inner, outer, field, cure in rules:
        small, large = getattr(radii, inner), getattr(radii, outer)
        flush = (inner, outer) in FLUSH or (outer, inner) in FLUSH
        if large - small > (-SLIVER if flush else SLIVER):
            continue
        raise ImpossibleShapeError(
            field,
            f"{_named(inner)} {millimetres(2 * small)}",
            f"{'at most' if flush else 'less than'} {_named(outer)} {millimetres(2 * large)}",
            cure,
        )


def _named(radius: str) -> str:
    return f"{radius.replace('_', ' ')} diameter"
