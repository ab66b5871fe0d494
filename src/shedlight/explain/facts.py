"""The numbers that explanations speak of, by name: every one comes from the same computation.

Texts name a fact and never hold a number of their own. A fact that an installation does not have,
such as the gap of horns that are not there, is simply absent.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from shedlight.checks.assessment import Assessment
from shedlight.checks.limits import limit
from shedlight.given.materials import material_property
from shedlight.physics.air.open_hole import hole_in_air
from shedlight.physics.air.streamer import cylinder_streamer_inception
from shedlight.physics.heat.conductor import loss_per_length
from shedlight.physics.proportions import share, times
from shedlight.physics.radial.layers import layer_gradient, layer_sum
from shedlight.physics.surface.creepage import minimum_creepage
from shedlight.physics.surface.severity import pollution_class
from shedlight.trace import Label, Number, calculate, given
from shedlight.workings import Workings
from shedlight.workings.numbers import Description, from_table, on_outline

Fact = Callable[[Assessment], Number | None]


def facts_of(assessment: Assessment) -> Mapping[str, Number]:
    """Every fact an installation has.

    Args:
        assessment: What was computed and judged.
    """
    found = {name: fact(assessment) for name, fact in FACTS.items()}
    return MappingProxyType({name: value for name, value in found.items() if value is not None})


def described(path: str) -> Fact:
    """A number of the description, where it is given or has a default.

    Args:
        path: Dotted path, such as ``duty.rated_current``.
    """

    def read(case: Assessment) -> Number | None:
        record: object = case.installation
        for step in path.split("."):
            record = getattr(record, step, None)
        return None if record is None else Description(case.installation)(path)

    return read


def _worked(read: Callable[[Workings], Number | None]) -> Fact:
    return lambda case: read(case.workings)


def _demand(identifier: str) -> Fact:
    return lambda case: case.check(identifier).demand


def _capability(identifier: str) -> Fact:
    return lambda case: case.check(identifier).capability


# --- what needs a step of its own ------------------------------------------------------------


def _layer_share(layer: str) -> Fact:
    def read(case: Assessment) -> Number:
        stress = case.workings.radial.stress(layer, "oil", "service")
        return calculate(share, stress.voltage, case.workings.voltages.phase)

    return read


def _bare_field(case: Assessment) -> Number:
    """Peak field at the bare conductor in the same hole, air alone round it."""
    radii = case.workings.section.radii
    rod = on_outline(radii.conductor, "Conductor radius", "r_0", "mm", "half the diameter")
    hole = on_outline(radii.hole, "Hole radius", "r_3", "mm", "half the diameter")
    air = given(1.0, Label("Permittivity of air", "epsilon_r", "1"), "air alone in the hole")
    alone = calculate(layer_sum, (rod, hole), (air,))
    return calculate(layer_gradient, case.workings.voltages.lightning, air, rod, alone)


def _air_holds(case: Assessment) -> Number:
    """Peak field at which discharges start in the air round a rod as thick as the conductor."""
    radii = case.workings.section.radii
    rod = on_outline(radii.conductor, "Conductor radius", "r_0", "mm", "half the diameter")
    return calculate(cylinder_streamer_inception, rod, case.workings.voltages.density)


def _hole_in_air(case: Assessment) -> Number:
    diameter = Description(case.installation)("bushing.conductor.diameter")
    return calculate(hole_in_air, diameter, case.workings.air.clearance)


def _oil_path(case: Assessment) -> Number:
    length = case.workings.measures.oil_path.length
    return on_outline(length, "Shortest way in oil", 'd_"oil"', "mm", "taut string in oil")


def _ends(case: Assessment) -> Number:
    return calculate(times, case.workings.air.arcing, _oil_path(case))


def _over_radial(layer: str) -> Fact:
    return lambda case: case.workings.radial.stress(layer, "oil", "service").inner


def _off_field(case: Assessment) -> Number:
    """The field of the oil at the conductor with no voltage on it: the same formula, U = 0."""
    radial, radii = case.workings.radial, case.workings.section.radii
    nothing = given(0.0, Label("Voltage across the layers", "U", "kV"), "de-energised")
    oil = material_property("oil", "permittivity")
    rod = on_outline(radii.conductor, "Conductor radius", "r_0", "mm", "half the diameter")
    total = next(
        used.origins[0]
        for used in radial.stress("oil", "oil", "service").inner.step.inputs
        if used.label.symbol == "S"
    )
    return calculate(layer_gradient, nothing, oil, rod, Number(total.value, total))


def _off_loss(case: Assessment) -> Number:
    """The loss of the conductor with no current in it: the same formula, I = 0."""
    nothing = given(0.0, Label("Current", "I", "A"), "energised, but no load")
    resistance = next(
        used.origins[0]
        for used in case.workings.heat.loss.step.inputs
        if used.label.unit != "A" and used.origins
    )
    return calculate(loss_per_length, nothing, Number(resistance.value, resistance))


def _class_needs(letter: str) -> Fact:
    """Creepage that a site class asks for, all else as it is."""

    def read(case: Assessment) -> Number:
        inputs = {used.label.name: used for used in case.workings.surface.required.step.inputs}
        wide = next(used.value for name, used in inputs.items() if "iameter" in name)
        thin = next(used.value for name, used in inputs.items() if "ltitude" in name)
        row = pollution_class(letter)
        asked = from_table(
            row.specific_creepage, "Reference specific creepage", "S_u", "mm/kV", row.citation,
            f"class {letter}",
        )  # fmt: skip
        return calculate(
            minimum_creepage, asked, case.workings.voltages.phase, _single(wide), _single(thin)
        )

    return read


def _single(value: float | tuple[float, ...]) -> float:
    return value[0] if isinstance(value, tuple) else value


FACTS: Mapping[str, Fact] = MappingProxyType(
    {
        "highest_voltage": described("duty.highest_voltage"),
        "rated_current": described("duty.rated_current"),
        "lightning_level": described("duty.lightning_impulse"),
        "dry_level": described("duty.power_frequency_dry"),
        "wet_level": described("duty.power_frequency_wet"),
        "altitude": described("site.altitude"),
        "hottest_air": described("site.hottest_air"),
        "top_oil": described("transformer.top_oil_temperature"),
        "lowest_level": described("transformer.lowest_oil_level"),
        "hole": described("transformer.hole_diameter"),
        "rain_angle": described("site.rain_angle"),
        "conductor": described("bushing.conductor.diameter"),
        "wall": described("bushing.porcelain.wall"),
        "sheds": described("bushing.sheds.count"),
        "overhang": described("bushing.sheds.overhang"),
        "terminal_load": described("duty.terminal_load"),
        "horn_gap": described("bushing.horns.gap"),
        "gasket_free": described("bushing.gasket.thickness"),
        "gasket_pressed": described("bushing.gasket.compressed_thickness"),
        "phase_voltage": _worked(lambda w: w.voltages.phase),
        "fault_voltage": _worked(lambda w: w.voltages.temporary),
        "required_lightning": _worked(lambda w: w.voltages.required_lightning),
        "altitude_factor": _worked(lambda w: w.voltages.altitude_factor),
        "oil_share": _layer_share("oil"),
        "porcelain_share": _layer_share("porcelain"),
        "gap_share": _layer_share("gap"),
        "oil_field": _over_radial("oil"),
        "porcelain_field": _over_radial("porcelain"),
        "oil_permittivity": lambda _: material_property("oil", "permittivity"),
        "porcelain_permittivity": lambda case: material_property(
            f"porcelain {case.installation.bushing.porcelain.material}", "permittivity"
        ),
        "bare_field": _bare_field,
        "air_holds": _air_holds,
        "clearance": _worked(lambda w: w.air.clearance),
        "hole_in_air": _hole_in_air,
        "creepage": _worked(lambda w: w.surface.creepage),
        "creepage_needed": _worked(lambda w: w.surface.required),
        "creepage_in_fault": _worked(lambda w: w.surface.required_in_fault),
        "creepage_factor": _worked(lambda w: w.surface.creepage_factor),
        "specific_creepage": _worked(lambda w: w.surface.specific_creepage),
        "dry_creepage": _worked(lambda w: w.rain.stated.dry),
        "dry_share": lambda case: calculate(
            share, case.workings.rain.stated.dry, case.workings.surface.creepage
        ),
        **{f"class_{letter}_needs": _class_needs(letter) for letter in "abcde"},
        "arcing": _worked(lambda w: w.air.arcing),
        "air_withstand": _worked(lambda w: w.air.lightning_withstand),
        "wet_withstand": _worked(lambda w: w.air.wet_low),
        "dry_flashover": _worked(lambda w: w.air.dry_mean),
        "oil_path": _oil_path,
        "ends": _ends,
        "puncture": _capability("wall.puncture"),
        "oil_head": _worked(lambda w: w.oil.head_at_vent),
        "oil_growth": _worked(lambda w: w.filling.expansion),
        "oil_volume": _worked(lambda w: w.oil.volume),
        "loss": _worked(lambda w: w.heat.loss),
        "hot_spot": _worked(lambda w: w.heat.hot_spot),
        "terminal": _worked(lambda w: w.heat.terminal),
        "off_field": _off_field,
        "off_loss": _off_loss,
        "lapped_density": _demand("terminal.contact"),
        "lapped_limit": _capability("terminal.contact"),
        "compression": _worked(lambda w: w.sealing.compression),
        "bending": _demand("body.bending"),
        "bending_allowed": _capability("body.bending"),
        "glazed_strength": lambda case: _strength(case, "glazed"),
        "bare_strength": lambda case: _strength(case, "unglazed"),
        "horns_low": _worked(lambda w: w.air.horns.low if w.air.horns else None),
        "horns_high": _worked(lambda w: w.air.horns.high if w.air.horns else None),
        "horns_wet": _worked(lambda w: w.air.horns.wet_low if w.air.horns else None),
        "horns_limit": _capability("horns.protection"),
        "gasket_low": lambda case: _compression_limit(case, "low"),
        "gasket_high": lambda case: _compression_limit(case, "high"),
    }
)


def _strength(case: Assessment, surface: str) -> Number:
    material = f"porcelain {case.installation.bushing.porcelain.material}"
    return material_property(material, f"bending_strength_{surface}")


def _compression_limit(case: Assessment, side: str) -> Number:
    return limit(f"gasket {side} {case.installation.bushing.gasket.material}")
