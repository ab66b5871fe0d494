"""The metal parts and seals of a bushing: conductor, fixing, gasket, cap, rings, horns."""

import math
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field, model_validator

from shedlight.given.fields import Count, Record, YesNo, choice, clash, quantity, stated

ConductorMetal = Literal["copper", "aluminium", "bronze", "brass"]
Finish = Literal["bare", "tinned", "silvered"]
BoltClass = Literal["4.6", "8.8", "A2-70", "bronze"]


def dimension(sentence: str, symbol: str, low: str, high: str, **more: Any) -> Any:
    """A field holding a length in millimetres."""
    return quantity(sentence, symbol=symbol, unit="mm", low=low, high=high, **more)


class Rod(Record):
    """A solid round conductor."""

    title: ClassVar[str] = "Conductor (rod)"

    form: Literal["rod"] = choice("Solid rod.")
    metal: ConductorMetal = choice("Metal of the conductor.")
    diameter: float = dimension("Diameter of the conductor.", "d_c", "3 mm", "300 mm")


class Tube(Record):
    """A hollow round conductor."""

    title: ClassVar[str] = "Conductor (tube)"

    form: Literal["tube"] = choice("Hollow tube.")
    metal: ConductorMetal = choice("Metal of the conductor.")
    diameter: float = dimension("Outer diameter of the conductor.", "d_c", "3 mm", "300 mm")
    inner_diameter: float = dimension("Inner diameter of the tube.", "d_i", "1 mm", "299 mm")

    @model_validator(mode="after")
    def _has_wall(self) -> "Tube":
        if self.inner_diameter >= self.diameter:
            raise clash(self, "inner_diameter", f"less than diameter, {stated(self, 'diameter')}")
        return self


Conductor = Annotated[Rod | Tube, Field(discriminator="form")]


class OilSpace(Record):
    """The oil-filled space between conductor and porcelain."""

    title: ClassVar[str] = "Oil space"

    vent: Literal["screw", "none"] = choice(
        "Bleed screw at the top of the space, to let the gas out when filling.",
        default="screw",
        basis="a space that fills from the tank needs one at its highest point (practice)",
    )
    opening: Literal["stem holes", "open end", "closed"] = choice(
        "How the space communicates with the tank.",
        default="stem holes",
        basis="cross-holes in the stem below the porcelain (practice)",
    )


class Bolted(Record):
    """What is held by bolts: their size and how they are tightened, where known."""

    bolt_diameter: float | None = dimension(
        "Nominal diameter of the bolts.",
        'd_"b"',
        "4 mm",
        "48 mm",
        default=None,
        basis="left out: the clamping is then not assessed",
    )
    bolt_torque: float | None = quantity(
        "Tightening torque of each bolt.",
        symbol="M_t",
        unit="Nm",
        low="0.5 Nm",
        high="2000 Nm",
        default=None,
        basis="left out: the clamping is then not assessed",
    )


class Clamps(Bolted):
    """A ring of clamps that holds the collar down and stands off from the body."""

    title: ClassVar[str] = "Clamps"

    form: Literal["clamps"] = choice("Clamp ring on the collar's shoulder.")
    outer_diameter: float = dimension(
        "Outer diameter of the clamp ring.", 'D_"cl"', "15 mm", "1.5 m"
    )
    thickness: float = dimension(
        "Height of the highest clamp metal, nuts included, above the shoulder.",
        't_"cl"',
        "3 mm",
        "200 mm",
    )
    stand_off: float = dimension(
        "Radial gap between the ring's inner edge and the porcelain body.",
        's_"cl"',
        "0.5 mm",
        "100 mm",
        default=0.005,
        basis="5 mm, so that the earthed edge does not touch the body (practice)",
    )
    edge_radius: float = dimension(
        "Rounding of the ring's upper edges.",
        'R_"cl"',
        "0.2 mm",
        "30 mm",
        default=0.002,
        basis="2 mm, cast or machined edge (practice)",
    )
    bolts: Count = choice(
        "Number of clamp bolts.", default=4, basis="four at right angles (practice)", ge=2, le=48
    )


class Flange(Bolted):
    """A flange cemented to the porcelain: its upper edge touches the body."""

    title: ClassVar[str] = "Flange"

    form: Literal["flange"] = choice("Cemented metal flange.")
    outer_diameter: float = dimension("Outer diameter of the flange.", 'D_"fl"', "15 mm", "1.5 m")
    thickness: float = dimension(
        "Height of the flange's upper edge above the collar's shoulder.",
        't_"fl"',
        "3 mm",
        "200 mm",
    )
    edge_radius: float = dimension(
        "Rounding of the flange's upper edges.",
        'R_"fl"',
        "0.2 mm",
        "30 mm",
        default=0.002,
        basis="2 mm, cast or machined edge (practice)",
    )
    bolts: Count = choice("Number of flange bolts.", default=6, basis="six (practice)", ge=2, le=48)


Fixing = Annotated[Clamps | Flange, Field(discriminator="form")]


class Gasket(Record):
    """The seal between collar and cover."""

    title: ClassVar[str] = "Gasket"

    material: Literal["nitrile-cork", "nitrile", "fluorocarbon"] = choice(
        "Material of the gasket.",
        default="nitrile-cork",
        basis="usual for flat gaskets under porcelain (practice)",
    )
    inner_diameter: float = dimension("Inner diameter of the gasket.", 'D_"gi"', "5 mm", "1.2 m")
    outer_diameter: float = dimension("Outer diameter of the gasket.", 'D_"go"', "6 mm", "1.3 m")
    thickness: float = dimension("Thickness of the gasket unpressed.", 't_"g0"', "1 mm", "40 mm")
    compressed_thickness: float = dimension(
        "Thickness of the gasket when clamped.", "t_g", "0.5 mm", "40 mm"
    )
    groove_width: float | None = dimension(
        "Width of the groove that holds the gasket.",
        'B_"gr"',
        "2 mm",
        "400 mm",
        default=None,
        basis="left out: a flat gasket without a groove",
    )

    @model_validator(mode="after")
    def _is_a_ring(self) -> "Gasket":
        if self.inner_diameter >= self.outer_diameter:
            outer = stated(self, "outer_diameter")
            raise clash(self, "inner_diameter", f"less than outer_diameter, {outer}")
        if self.compressed_thickness >= self.thickness:
            free = stated(self, "thickness")
            raise clash(self, "compressed_thickness", f"less than thickness, {free}")
        return self


class Cap(Record):
    """The metal cap that closes the top and is live."""

    title: ClassVar[str] = "Top cap"

    diameter: float = dimension("Outer diameter of the cap.", 'D_"cap"', "5 mm", "1 m")
    height: float = dimension(
        "Height of the cap.",
        'h_"cap"',
        "3 mm",
        "500 mm",
        default=0.025,
        basis="25 mm (practice)",
    )
    edge_radius: float = dimension(
        "Rounding of the cap's edges.",
        'R_"cap"',
        "0.2 mm",
        "100 mm",
        default=0.003,
        basis="3 mm, turned edge (practice)",
    )
    spring_travel: float | None = dimension(
        "Travel left in the springs that let the conductor grow against the porcelain.",
        's_"sp"',
        "0.05 mm",
        "50 mm",
        default=None,
        basis="left out: the growth is then not assessed",
    )
    clamp_force: float | None = quantity(
        "Force with which the conductor, drawn up cold, presses cap and shield on the porcelain.",
        symbol='F_"tie"',
        unit="kN",
        low="0.01 kN",
        high="500 kN",
        default=None,
        basis="left out: this clamping is then not assessed and presses nothing",
    )
    spring_rate: float | None = quantity(
        "Stiffness of the springs under the cap.",
        symbol='k_"sp"',
        unit="kN/mm",
        low="0.001 kN/mm",
        high="500 kN/mm",
        default=None,
        basis="left out: the loss of clamping by growth is then not assessed",
    )


class Palm(Bolted):
    """A flat terminal with holes."""

    title: ClassVar[str] = "Terminal (palm)"

    form: Literal["palm"] = choice("Flat palm with holes.")
    metal: ConductorMetal = choice("Metal of the palm.")
    finish: Finish = choice("Finish of the contact face.")
    width: float = dimension("Width of the palm.", "b_p", "10 mm", "500 mm")
    height: float = dimension("Height of the palm.", "h_p", "10 mm", "500 mm")
    thickness: float = dimension("Thickness of the palm.", "t_p", "2 mm", "100 mm")
    holes: Count = choice("Number of holes.", ge=1, le=16)
    hole_diameter: float = dimension("Diameter of the holes in the palm.", "d_h", "4 mm", "60 mm")
    hole_spacing: float = dimension(
        "Spacing of the holes, square pattern.", "e_h", "8 mm", "200 mm"
    )
    lug_metal: Literal["copper", "aluminium"] = choice("Metal of the connected lug.")
    lug_finish: Finish = choice("Finish of the connected lug.")
    transition_plate: YesNo = choice(
        "Whether a bimetal plate stands between lug and palm.",
        default=False,
        basis="nothing said: none is assumed",
    )
    bolt_class: BoltClass = choice(
        "Strength class of the bolts.", default="8.8", basis="usual steel bolts (practice)"
    )

    @model_validator(mode="after")
    def _has_metal_left(self) -> "Palm":
        narrow = "width" if self.width < self.height else "height"
        if self.hole_diameter >= getattr(self, narrow):
            wanted = f"less than {narrow}, {stated(self, narrow)}"
            raise clash(self, "hole_diameter", wanted)
        if self.holes > 1 and self.hole_spacing <= self.hole_diameter:
            wanted = f"more than hole_diameter, {stated(self, 'hole_diameter')}"
            raise clash(self, "hole_spacing", wanted)
        if self.holes * math.pi / 4 * self.hole_diameter**2 >= self.width * self.height:
            wanted = "holes that leave metal on the palm"
            raise clash(self, "holes", wanted, "Take fewer or smaller holes, or a larger palm.")
        return self


class Stud(Record):
    """A round terminal, smooth or threaded."""

    title: ClassVar[str] = "Terminal (stud)"

    form: Literal["stud"] = choice("Round stud.")
    metal: ConductorMetal = choice("Metal of the stud.")
    finish: Finish = choice("Finish of the contact face.")
    diameter: float = dimension("Diameter of the stud.", "d_t", "5 mm", "200 mm")
    height: float = dimension("Length of the stud above the cap.", "h_t", "10 mm", "500 mm")
    lug_metal: Literal["copper", "aluminium"] = choice("Metal of the connected clamp or lug.")
    lug_finish: Finish = choice("Finish of the connected clamp or lug.")
    transition_plate: YesNo = choice(
        "Whether a bimetal sleeve stands between clamp and stud.",
        default=False,
        basis="nothing said: none is assumed",
    )


Terminal = Annotated[Palm | Stud, Field(discriminator="form")]


class ShieldRing(Record):
    """A ring of round tube that rounds off the field at one end in air."""

    diameter: float = dimension(
        "Diameter of the ring, over the middle of its tube.", 'D_"ri"', "30 mm", "3 m"
    )
    tube_diameter: float = dimension(
        "Outer diameter of the ring's tube.", 'd_"ri"', "4 mm", "300 mm"
    )
    wall: float = dimension(
        "Wall of the tube.",
        't_"ri"',
        "0.5 mm",
        "50 mm",
        default=0.003,
        basis="3 mm (practice); counts for the mass only",
    )
    metal: Literal["aluminium", "copper", "steel"] = choice(
        "Metal of the ring; counts for the mass only.",
        default="aluminium",
        basis="bent aluminium tube (practice)",
    )

    @model_validator(mode="after")
    def _is_a_ring(self) -> "ShieldRing":
        if self.tube_diameter >= self.diameter:
            raise clash(self, "tube_diameter", f"less than diameter, {stated(self, 'diameter')}")
        if 2 * self.wall > self.tube_diameter:
            wanted = f"at most half of tube_diameter, {stated(self, 'tube_diameter')}"
            raise clash(self, "wall", wanted)
        return self


class LiveRing(ShieldRing):
    """A shield ring at the cap, live."""

    title: ClassVar[str] = "Shield ring, live"

    offset: float = dimension(
        "How far the tube's middle hangs below the cap's underside; negative above it.",
        'e_"ri"',
        "-300 mm",
        "1 m",
    )


class EarthRing(ShieldRing):
    """A shield ring above the clamps, earthed."""

    title: ClassVar[str] = "Shield ring, earthed"

    offset: float = dimension(
        "How far the tube's middle lies above the top of the clamps; negative below it.",
        'e_"ri"',
        "-300 mm",
        "1 m",
    )


class Horns(Record):
    """A pair of arcing horns: a gap in air beside the porcelain."""

    title: ClassVar[str] = "Arcing horns"

    gap: float = dimension("Air gap between the tips.", 'd_"ho"', "10 mm", "2 m")
    rod_diameter: float = dimension("Diameter of the rods.", 'd_"rod"', "3 mm", "60 mm")
    reach: float = dimension(
        "Distance of the tips from the axis of the bushing.", 'r_"ho"', "20 mm", "2 m"
    )
