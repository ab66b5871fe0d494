"""The bushing itself: porcelain, sheds, oil end, and all its parts together."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field, model_validator

from shedlight import units
from shedlight.given.duty import Duty
from shedlight.given.fields import (
    Count,
    Heading,
    Record,
    Text,
    YesNo,
    choice,
    clash,
    quantity,
    stated,
)
from shedlight.given.parts import (
    Cap,
    Conductor,
    EarthRing,
    Fixing,
    Gasket,
    Horns,
    LiveRing,
    OilSpace,
    Terminal,
    dimension,
)
from shedlight.given.site import Site
from shedlight.given.transformer import Transformer


class Porcelain(Record):
    """The porcelain body with its collar."""

    title: ClassVar[str] = "Porcelain body"

    material: Literal["C-110", "C-120", "C-130"] = choice(
        "Kind of porcelain: C-110 quartz, C-120 alumina, C-130 high-strength alumina.",
        default="C-120",
        basis="the usual body for outdoor housings (practice)",
    )
    glaze: Literal["brown", "grey", "white", "none"] = choice(
        "Glaze of the surface; without one dirt clings and strength falls.",
        default="brown",
        basis="the usual outdoor glaze (practice)",
    )
    bore: float = dimension("Inner diameter of the porcelain.", 'D_"bore"', "5 mm", "500 mm")
    wall: float = dimension("Wall thickness of the body at the collar.", "t_w", "2 mm", "100 mm")
    top_wall: float = dimension(
        "Wall thickness at the top; smaller than at the collar makes a tapered body.",
        't_"w,top"',
        "2 mm",
        "100 mm",
        default_factory=lambda data: data["wall"],
        basis="as at the collar: a cylindrical body",
    )
    collar_diameter: float = dimension("Outer diameter of the collar.", 'D_"col"', "10 mm", "1 m")
    collar_height: float = dimension("Height of the collar.", 'h_"col"', "3 mm", "300 mm")
    collar_rounding: float | None = dimension(
        "Radius of the rounding where the body leaves the collar.",
        'r_"col"',
        "0.2 mm",
        "50 mm",
        default=None,
        basis="left out: drawn with 3 mm, less where that does not fit (practice)",
    )
    air_length: float = dimension(
        "Height from the top of the clamps to the underside of the cap.",
        'L_"air"',
        "20 mm",
        "3 m",
    )

    @property
    def body_diameter(self) -> float:
        """Outer diameter of the body at the collar [m]."""
        return self.bore + 2 * self.wall


class _Sheds(Record):
    """What all shed arrangements share."""

    count: Count = choice("Number of sheds, long and short together.", ge=1, le=200)
    overhang: float = dimension(
        "Overhang of the (long) sheds beyond the body.", "p_1", "3 mm", "300 mm"
    )
    pitch: float = dimension("Distance from one shed tip to the next.", "s", "5 mm", "500 mm")
    first_tip: float = dimension(
        "Height of the lowest shed's tip above the top of the clamps.", "z_1", "5 mm", "1 m"
    )
    top_slope: float = quantity(
        "Slope of the upper side, falling outwards.",
        symbol='alpha_"top"',
        unit="°",
        low="0 °",
        high="60 °",
        default=units.parse("15 °", "°"),
        basis="15°, sheds water and lets rain wash (practice)",
    )
    under_slope: float = quantity(
        "Slope of the underside, falling outwards.",
        symbol='alpha_"und"',
        unit="°",
        low="0 °",
        high="50 °",
        default=units.parse("6 °", "°"),
        basis="6°, so that water drips from the edge (practice)",
    )
    tip_thickness: float = dimension(
        "Thickness of the sheds at the tip.",
        't_"tip"',
        "2 mm",
        "60 mm",
        default=0.008,
        basis="8 mm (practice)",
    )
    tip_radius: float = dimension(
        "Rounding of the sheds' tip.",
        'R_"tip"',
        "0.5 mm",
        "30 mm",
        default_factory=lambda data: data["tip_thickness"] / 2,
        basis="half the tip thickness: a fully rounded tip (practice)",
    )
    root_radius: float = dimension(
        "Rounding where the shed meets the body.",
        'R_"root"',
        "0.5 mm",
        "50 mm",
        default=0.005,
        basis="5 mm, for firing and washing (practice)",
    )


class _Ribbed(_Sheds):
    ribs: Count = choice(
        "Number of concentric ribs under each (long) shed.",
        default=0,
        basis="none: an open, self-washing underside",
        ge=0,
        le=6,
    )
    rib_depth: float = dimension(
        "Depth of the under-ribs.",
        'h_"rib"',
        "2 mm",
        "60 mm",
        default=0.012,
        basis="12 mm, counts only where ribs are given (practice)",
    )


class PlainSheds(_Ribbed):
    """Equal sheds."""

    title: ClassVar[str] = "Sheds (plain)"

    form: Literal["plain"] = choice("All sheds equal.")


class AlternatingSheds(_Ribbed):
    """Long and short sheds in turn, a long one lowest."""

    title: ClassVar[str] = "Sheds (alternating)"

    form: Literal["alternating"] = choice("Long and short sheds in turn, a long one lowest.")
    short_overhang: float = dimension(
        "Overhang of the short sheds beyond the body.", "p_2", "3 mm", "300 mm"
    )

    @model_validator(mode="after")
    def _short_is_short(self) -> "AlternatingSheds":
        if self.short_overhang >= self.overhang:
            raise clash(self, "short_overhang", f"less than overhang, {stated(self, 'overhang')}")
        return self


Sheds = Annotated[PlainSheds | AlternatingSheds, Field(discriminator="form")]


class OilEnd(Record):
    """The end that dips into the tank's oil."""

    title: ClassVar[str] = "Oil end"

    length: float = dimension(
        "Length of porcelain below the seat (the collar's underside).", 'L_"oil"', "10 mm", "2 m"
    )
    end_diameter: float = dimension(
        "Outer diameter of the porcelain at its lower end.", 'D_"end"', "8 mm", "600 mm"
    )
    taper_length: float = dimension(
        "Length over which the body tapers to the end diameter.", 'L_"tap"', "1 mm", "2 m"
    )
    shield_diameter: float = dimension(
        "Diameter of the lower washer or shield.", 'D_"sh"', "8 mm", "800 mm"
    )
    shield_height: float = dimension(
        "Height of the lower washer or shield.", 'h_"sh"', "2 mm", "300 mm"
    )
    shield_edge_radius: float = dimension(
        "Rounding of the shield's edge.", 'R_"sh"', "0.5 mm", "150 mm"
    )
    shield_covered: YesNo = choice(
        "Whether the shield carries an insulating cover.",
        default=False,
        basis="bare metal, the weaker case",
    )
    stud_diameter: float = dimension(
        "Diameter of the lower terminal stud.", 'd_"st"', "4 mm", "200 mm"
    )
    stud_length: float = dimension(
        "Length of the lower stud below the shield.", 'l_"st"', "5 mm", "1 m"
    )


class BulkBushing(Record):
    """A solid bushing: conductor, oil space and porcelain carry the whole voltage."""

    title: ClassVar[str] = "Bushing"

    kind: Literal["bulk"] = choice("Solid (bulk) bushing.")
    conductor: Conductor = choice("The conductor.")
    oil_space: OilSpace = choice(
        "The oil space inside.", default_factory=OilSpace, basis="vented, open to the tank"
    )
    porcelain: Porcelain = choice("The porcelain body.")
    sheds: Sheds | None = choice(
        "The sheds of the air end.", default=None, basis="left out: a smooth body"
    )
    fixing: Fixing = choice("Clamps or flange.")
    gasket: Gasket = choice("The gasket between collar and cover.")
    oil_end: OilEnd = choice("The end in oil.")
    cap: Cap = choice("The top cap.")
    terminal: Terminal = choice("The outer terminal.")
    horns: Horns | None = choice("Arcing horns.", default=None, basis="left out: no horns")
    live_ring: LiveRing | None = choice(
        "Shield ring at the cap, live.", default=None, basis="left out: no ring"
    )
    earth_ring: EarthRing | None = choice(
        "Shield ring above the clamps, earthed.", default=None, basis="left out: no ring"
    )


# `kind` tags the union from the first day; graded bushings join it here.
Bushing = BulkBushing


_NO_CERTIFICATE = "no certificate at hand"


class Evidence(Record):
    """What type and routine tests have proved, by the certificates at hand."""

    title: ClassVar[str] = "Evidence"

    lightning_impulse: float | None = quantity(
        "Lightning impulse withstood dry, peak to earth.",
        symbol='U_"LI,t"',
        unit="kV",
        low="10 kV",
        high="1000 kV",
        default=None,
        basis=_NO_CERTIFICATE,
    )
    power_frequency_dry: float | None = quantity(
        "Power frequency withstood dry for one minute, rms to earth.",
        symbol='U_"dry,t"',
        unit="kV",
        low="2 kV",
        high="500 kV",
        default=None,
        basis=_NO_CERTIFICATE,
    )
    power_frequency_wet: float | None = quantity(
        "Power frequency withstood wet for one minute, rms to earth.",
        symbol='U_"wet,t"',
        unit="kV",
        low="2 kV",
        high="500 kV",
        default=None,
        basis=_NO_CERTIFICATE,
    )
    temperature_rise_current: float | None = quantity(
        "Current of the temperature-rise test, rms.",
        symbol='I_"t"',
        unit="A",
        low="1 A",
        high="60000 A",
        default=None,
        basis=_NO_CERTIFICATE,
    )
    short_time_current: float | None = quantity(
        "Short-time current withstood, rms.",
        symbol='I_"th,t"',
        unit="kA",
        low="10 A",
        high="400 kA",
        default=None,
        basis=_NO_CERTIFICATE,
    )
    terminal_load: float | None = quantity(
        "Sideways load withstood at the terminal.",
        symbol='F_"t,t"',
        unit="N",
        low="10 N",
        high="50 kN",
        default=None,
        basis=_NO_CERTIFICATE,
    )


class Installation(Record):
    """One bushing with its duty, its site and the transformer it stands on."""

    title: ClassVar[str] = "Installation"

    name: Heading = choice("What you call this installation.", min_length=1, max_length=200)
    remark: Text = choice(
        "Anything a reader should know.", default="", basis="left out", max_length=2000
    )
    duty: Duty = choice("What the bushing has to carry and hold.")
    site: Site = choice("Where it stands.")
    transformer: Transformer = choice("The tank, its cover and its oil.")
    bushing: Bushing = choice("The bushing itself.")
    evidence: Evidence = choice(
        "What tests have proved.", default_factory=Evidence, basis="no certificates at hand"
    )

    @model_validator(mode="after")
    def _oil_is_warmer(self) -> "Installation":
        if self.transformer.top_oil_temperature < self.site.hottest_air:
            wanted = f"at least site.hottest_air, {stated(self.site, 'hottest_air')}"
            oil = "top_oil_temperature"
            raise clash(self.transformer, oil, wanted, within="transformer")
        return self
