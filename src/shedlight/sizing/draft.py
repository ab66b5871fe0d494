"""A draft: the few dimensions that are free, and the whole bushing that follows from them."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Literal

from shedlight import tables, units
from shedlight.errors import CalculationError
from shedlight.given.bushing import Installation
from shedlight.given.reading import from_data
from shedlight.physics.heat.bolts import bolt_class, thread_for
from shedlight.sizing.request import Data, Request
from shedlight.trace import Number
from shedlight.workings.numbers import figure

Form = Literal["plain", "alternating"]
GASKETS = ("nitrile-cork", "nitrile", "fluorocarbon")
TOP_SLOPE, UNDER_SLOPE = math.radians(15), math.radians(6)  # defaults of the description
LEAST_BAY = 0.001


@dataclass(frozen=True)
class Draft:
    """The free dimensions [m]; everything else follows from them by custom or is fixed.

    Attributes:
        form: Kind of sheds.
        count: Number of sheds.
        conductor: Diameter of the conductor.
        gap: Width of the oil space.
        wall: Wall of the porcelain.
        air: Height from the clamps to the cap.
        overhang: Overhang of the long sheds.
        oil: Length of porcelain below the seat.
        cap_edge: Rounding of the cap's edge.
        palm: Number of the palm in the table, from the smallest.
        gasket: Material of the gasket.
        horn_gap: Gap of the horns, or none.
    """

    form: Form
    count: int
    conductor: float
    gap: float
    wall: float
    air: float
    overhang: float
    oil: float
    cap_edge: float = 0.003
    palm: int = 0
    gasket: str = GASKETS[0]
    horn_gap: float | None = None

    @property
    def body(self) -> float:
        """Outer diameter of the body [m]."""
        return self.conductor + 2 * self.gap + 2 * self.wall

    @property
    def tip(self) -> float:
        """Thickness of the sheds' tip [m]."""
        return max(custom("tip least"), custom("tip share") * self.overhang)

    @property
    def pitch(self) -> float:
        """From one tip to the next, so that the sheds fill the air end [m]."""
        ends = custom("first tip") + custom("last tip") + self.overhang * math.tan(TOP_SLOPE)
        return (self.air - ends) / max(1, self.count - 1)

    @property
    def bay(self) -> float:
        """What is left between two sheds at the trunk [m]."""
        thick = self.tip + self.overhang * (math.tan(TOP_SLOPE) - math.tan(UNDER_SLOPE))
        return self.pitch - thick - 2 * custom("root radius")

    def chosen_as(self, other: "Draft") -> "Draft":
        """The same with what was chosen from lists for another: it does not hang on the sheds."""
        return replace(self, conductor=other.conductor, palm=other.palm, gasket=other.gasket)


@dataclass(frozen=True)
class PalmSize:
    """One palm of the table [m]."""

    width: float
    height: float
    thickness: float
    holes: int
    hole: float
    spacing: float
    bolt: float


_PALM_LENGTHS = ("width", "height", "thickness", "hole", "spacing", "bolt")


@cache
def palms() -> tuple[PalmSize, ...]:
    """The customary palms, the smallest first."""
    found = []
    for row in tables.read("sizing/palms"):
        size = {name: 1e-3 * float(row[f"{name}_mm"]) for name in _PALM_LENGTHS}
        found.append(PalmSize(holes=int(row["holes"]), **size))
    return tuple(found)


@cache
def preferred_conductors() -> tuple[float, ...]:
    """Customary diameters of rods [m], the smallest first."""
    return tuple(1e-3 * float(row["diameter_mm"]) for row in tables.read("sizing/conductors"))


def custom(key: str) -> Number:
    """One custom of sizing by its key in ``customs.csv``, in SI."""
    return figure("sizing/customs", key)


def complete(request: Request, draft: Draft, *, whole: bool = False) -> Installation:
    """The whole installation that a draft means; what is fixed stands as it was written.

    Args:
        request: What is asked.
        draft: The free dimensions.
        whole: Whether what follows from the draft is brought to whole millimetres too.

    Raises:
        DescriptionError: what was fixed cannot be used.
    """
    data = _merged({"bushing": _bushing(request, draft, whole=whole)}, request.tables)
    data.setdefault("name", "Sized bushing")
    if request.hole_is_free:
        hole = _text(hole_for(request, draft), whole)
        data["transformer"] = {**data.get("transformer", {}), "hole_diameter": hole}
    return from_data(data, request.origin)


def hole_for(request: Request, draft: Draft) -> float:
    """The hole, as given or as the body needs it [m]."""
    given = request.tables.get("transformer", {}).get("hole_diameter")
    if given is not None:
        return units.parse(given, "mm") if isinstance(given, str) else float(given)
    return max(draft.body * (1 + request.wishes.margin), draft.body + 2 * custom("hole gap"))


def _merged(low: Data, high: Data) -> dict[str, Any]:
    """Tables in which the higher ones stand before the lower; another kind takes over whole."""
    found = dict(low)
    for name, value in high.items():
        below = found.get(name)
        if isinstance(value, Mapping) and isinstance(below, Mapping):
            kept = {k: v for k, v in below.items() if k in _common(below, value)}
            found[name] = _merged(kept, value)
        else:
            found[name] = value
    return found


def _common(below: Data, value: Data) -> set[str]:
    """What of a lower table still makes sense beside a higher one of another form."""
    if "form" not in value or below.get("form", value["form"]) == value["form"]:
        return set(below)
    alien = {"short_overhang", "inner_diameter", "stand_off", "width", "holes", "hole_spacing"}
    return set(below) - alien - {"form", "hole_diameter", "bolt_class"}


def _text(value: float, whole: bool) -> str:
    if whole:
        return units.write(math.ceil(round(1e3 * value, 3)) / 1e3, "mm")
    return units.write(float(value), "mm")


def _bushing(request: Request, draft: Draft, *, whole: bool) -> dict[str, Any]:
    """Every part as tables of text."""
    parts: dict[str, Any] = {}
    hole = hole_for(request, draft)
    for name, dimensions in _parts(draft, hole):
        parts[name] = {
            key: _text(value, whole) if isinstance(value, float) else value
            for key, value in dimensions.items()
        }
    form = request.fixed.get("terminal", {}).get("form", "palm")
    parts["terminal"] = _terminal(draft, form, whole=whole)
    low, high = (
        figure("checks/limits", f"gasket {side} {draft.gasket}") for side in ("low", "high")
    )
    pressed = custom("gasket thickness") * (1 - math.sqrt(low * high))
    parts["gasket"]["compressed_thickness"] = units.write(round(pressed, 5), "mm")
    bolts = max(
        4, math.ceil(math.pi * (hole + custom("collar beyond hole")) / custom("clamp bolt pitch"))
    )
    parts["fixing"] |= {
        "bolts": bolts,
        "bolt_torque": units.write(float(custom("clamp torque")), "Nm"),
    }
    if draft.horn_gap is None:
        parts.pop("horns")
    return {"kind": "bulk", **parts}


def _parts(draft: Draft, hole: float) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each part's table with its dimensions [m]."""
    collar = float(hole + custom("collar beyond hole"))
    bore = draft.body - 2 * draft.wall
    end = bore + 2 * custom("oil end wall share") * draft.wall
    yield "conductor", {"form": "rod", "metal": "copper", "diameter": draft.conductor}
    yield (
        "porcelain",
        {
            "bore": bore,
            "wall": draft.wall,
            "collar_diameter": collar,
            "collar_height": max(
                float(custom("collar height least")), custom("collar height share") * hole
            ),
            "air_length": draft.air,
        },
    )
    yield "sheds", _sheds(draft)
    yield "fixing", _fixing(collar)
    yield "gasket", _gasket(draft, hole, collar)
    yield "oil_end", _oil_end(draft, end)
    edge = min(draft.cap_edge, 0.012)
    yield (
        "cap",
        {"diameter": draft.body, "edge_radius": edge, "spring_travel": _travel(draft)},
    )
    reach = draft.body / 2 + draft.overhang + (draft.horn_gap or 0.0) * 0.6 + custom("horn rod")
    yield (
        "horns",
        {"gap": draft.horn_gap, "rod_diameter": float(custom("horn rod")), "reach": float(reach)},
    )


def _fixing(collar: float) -> dict[str, Any]:
    return {
        "form": "clamps",
        "outer_diameter": collar + custom("clamp beyond collar"),
        "thickness": float(custom("clamp thickness")),
        "bolt_diameter": float(custom("clamp bolt")),
    }


def _gasket(draft: Draft, hole: float, collar: float) -> dict[str, Any]:
    return {
        "material": draft.gasket,
        "inner_diameter": hole + custom("gasket inside"),
        "outer_diameter": collar - custom("gasket outside"),
        "thickness": float(custom("gasket thickness")),
    }


def _travel(draft: Draft) -> float:
    """Spring travel in step with the length that grows [m]."""
    return max(
        float(custom("spring travel")), custom("spring travel") * (draft.air + draft.oil) / 0.3
    )


def _sheds(draft: Draft) -> dict[str, Any]:
    found = {
        "form": draft.form,
        "count": draft.count,
        "overhang": draft.overhang,
        "pitch": draft.pitch,
        "first_tip": float(custom("first tip")),
        "tip_thickness": draft.tip,
        "root_radius": float(custom("root radius")),
    }
    if draft.form == "alternating":
        found["short_overhang"] = max(0.003, draft.overhang - custom("step"))
    return found


def _oil_end(draft: Draft, end: float) -> dict[str, Any]:
    stud = draft.conductor
    shield = max(end, stud + 0.012)
    edge = min(float(custom("shield edge share") * shield), 0.9 * (shield - stud) / 2)
    return {
        "length": draft.oil,
        "end_diameter": end,
        "taper_length": float(custom("oil taper share") * draft.oil),
        "shield_diameter": shield,
        "shield_height": 2 * edge + 0.002,
        "shield_edge_radius": edge,
        "stud_diameter": stud,
        "stud_length": float(custom("stud length share") * stud),
    }


def _terminal(draft: Draft, form: str, *, whole: bool) -> dict[str, Any]:
    common = {"metal": "copper", "finish": "tinned", "lug_metal": "copper", "lug_finish": "tinned"}
    if form == "stud":
        height = max(0.05, 2 * draft.conductor)
        stud = {"diameter": _text(draft.conductor, whole), "height": _text(height, whole)}
        return {"form": "stud", **common, **stud}
    size = palms()[draft.palm]
    lengths = {
        "width": size.width,
        "height": size.height,
        "thickness": size.thickness,
        "hole_diameter": size.hole,
        "hole_spacing": size.spacing,
        "bolt_diameter": size.bolt,
    }
    written = {name: units.write(value, "mm") for name, value in lengths.items()}
    torque = units.write(round(palm_torque(size.bolt)), "Nm")
    return {"form": "palm", **common, **written, "holes": size.holes, "bolt_torque": torque}


def palm_torque(bolt: float) -> float:
    """Torque that clamps a bolt of class 8.8 to the share of its proof load aimed at [N m].

    Args:
        bolt: Nominal diameter of the bolt [m].

    Raises:
        CalculationError: the tables hold no such thread.
    """
    thread = thread_for(bolt)
    if thread is None:
        raise CalculationError(f"no thread of {bolt} m among those of palms.csv")
    force = custom("palm proof share") * bolt_class("8.8").proof_stress * thread.stress_area
    return force * figure("workings/assumptions", "nut factor") * bolt


def taking_fixed(request: Request, draft: Draft) -> Draft:
    """A draft that agrees with what is fixed of the bushing, as far as it has a say in it."""
    bushing = complete(request, draft).bushing
    sheds = bushing.sheds
    gap = (bushing.porcelain.bore - bushing.conductor.diameter) / 2
    return replace(
        draft,
        conductor=bushing.conductor.diameter,
        gap=gap,
        wall=bushing.porcelain.wall,
        air=bushing.porcelain.air_length,
        oil=bushing.oil_end.length,
        form=draft.form if sheds is None else sheds.form,
        count=draft.count if sheds is None else sheds.count,
        overhang=draft.overhang if sheds is None else sheds.overhang,
        gasket=bushing.gasket.material,
    )
