"""The parts of a bushing as its parts list names them, from the description alone."""

from dataclasses import dataclass

from shedlight.figures.millimetres import given
from shedlight.figures.section.fittings import bolt_size
from shedlight.figures.sheet import Part
from shedlight.geometry.rings import EARTH_RING, LIVE_RING
from shedlight.geometry.section import Section
from shedlight.given.bushing import BulkBushing, Installation
from shedlight.given.parts import Clamps, Palm, Tube
from shedlight.given.transformer import Transformer


@dataclass(frozen=True)
class Numbered:
    """A part with the key under which the drawing points at it."""

    key: str
    part: Part


def numbered_parts(installation: Installation, section: Section) -> tuple[Numbered, ...]:
    """Every part, numbered from 1.

    Args:
        installation: The installation.
        section: Its section.
    """
    bushing, transformer = installation.bushing, installation.transformer
    rows = [
        ("porcelain", "Porcelain body", _porcelain(bushing)),
        ("conductor", "Conductor", _conductor(bushing)),
        ("oil", "Oil space", f"transformer oil; bleed {_vent(bushing)}"),
        ("gasket", "Gasket", _gasket(bushing)),
        ("fixing", *_fixing(bushing, section)),
        ("cover", "Cover", _cover(transformer)),
        ("cap", "Top cap", _cap(bushing)),
        ("terminal", *_terminal(bushing)),
    ]
    if bushing.horns:
        pair = bushing.horns
        details = f"rods Ø {given(pair.rod_diameter)}, gap {given(pair.gap)}"
        rows.append(("horns", "Arcing horns", details))
    for name, ring in ((LIVE_RING, bushing.live_ring), (EARTH_RING, bushing.earth_ring)):
        if ring is not None:
            details = f"Ø {given(ring.diameter)}, {ring.metal} tube Ø {given(ring.tube_diameter)}"
            rows.append((name, name.replace("ring", "shield ring").capitalize(), details))
    rows += [("shield", "Shield", _shield(bushing)), ("stud", "Lower terminal", _stud(bushing))]
    return tuple(
        Numbered(key, Part(number, name, details))
        for number, (key, name, details) in enumerate(rows, start=1)
    )


def _porcelain(bushing: BulkBushing) -> str:
    porcelain, sheds = bushing.porcelain, bushing.sheds
    glaze = "unglazed" if porcelain.glaze == "none" else f"{porcelain.glaze} glaze"
    count = "no sheds" if sheds is None else f"{sheds.count} {sheds.form} sheds"
    if sheds is not None and sheds.count == 1:
        count = "one shed"
    return f"{porcelain.material}, {glaze}, {count}"


def _conductor(bushing: BulkBushing) -> str:
    conductor = bushing.conductor
    if isinstance(conductor, Tube):
        sizes = f"Ø {given(conductor.diameter)} / Ø {given(conductor.inner_diameter)}"
    else:
        sizes = f"Ø {given(conductor.diameter)}"
    return f"{conductor.metal} {conductor.form} {sizes}"


def _vent(bushing: BulkBushing) -> str:
    return "screw at its top" if bushing.oil_space.vent == "screw" else "none"


def _gasket(bushing: BulkBushing) -> str:
    gasket = bushing.gasket
    sizes = f"{given(gasket.inner_diameter)}/{given(gasket.outer_diameter)}"
    squeeze = f"{given(gasket.thickness)} clamped to {given(gasket.compressed_thickness)}"
    return f"{gasket.material} {sizes}, {squeeze}"


def _fixing(bushing: BulkBushing, section: Section) -> tuple[str, str]:
    fixing = bushing.fixing
    name = "Clamp ring" if isinstance(fixing, Clamps) else "Flange"
    sizes = f"Ø {given(fixing.outer_diameter)} × {given(fixing.thickness)}"
    size = bolt_size(section, fixing)
    if fixing.bolt_diameter:
        thread = f"M{given(fixing.bolt_diameter)} studs"
    else:
        thread = f"M{size:g} studs suggested" if size else "studs"
    return name, f"{sizes}, {fixing.bolts} {thread}"


def _cover(transformer: Transformer) -> str:
    thickness, hole = given(transformer.cover_thickness), given(transformer.hole_diameter)
    return f"{transformer.cover_metal} {thickness}, hole Ø {hole}"


def _cap(bushing: BulkBushing) -> str:
    cap = bushing.cap
    return f"Ø {given(cap.diameter)} × {given(cap.height)}, edges R {given(cap.edge_radius)}"


def _terminal(bushing: BulkBushing) -> tuple[str, str]:
    terminal = bushing.terminal
    metal = f"{terminal.finish} {terminal.metal}"
    if isinstance(terminal, Palm):
        sizes = "×".join(given(x) for x in (terminal.width, terminal.height, terminal.thickness))
        holes = f"{terminal.holes} × Ø {given(terminal.hole_diameter)}"
        spacing = f" at {given(terminal.hole_spacing)}" if terminal.holes > 1 else ""
        return "Palm terminal", f"{metal} {sizes}, {holes}{spacing}"
    return "Stud terminal", f"{metal} Ø {given(terminal.diameter)} × {given(terminal.height)}"


def _shield(bushing: BulkBushing) -> str:
    end = bushing.oil_end
    surface = "insulated" if end.shield_covered else "bare"
    sizes = f"Ø {given(end.shield_diameter)} × {given(end.shield_height)}"
    return f"{sizes}, edge R {given(end.shield_edge_radius)}, {surface}"


def _stud(bushing: BulkBushing) -> str:
    return f"Ø {given(bushing.oil_end.stud_diameter)} × {given(bushing.oil_end.stud_length)}"
