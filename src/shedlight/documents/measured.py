"""What was measured on the outline, for a reader: lengths, ratios, volumes, masses."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shedlight.documents.numerals import in_print, shown, unit_name
from shedlight.geometry.measures import Measures
from shedlight.trace import Label, Number
from shedlight.workings import Workings


@dataclass(frozen=True)
class GivenRow:
    """One quantity a reader may look up; `basis` tells why a default is what it is."""

    path: str
    sentence: str
    symbol: str
    text: str
    defaulted: bool
    basis: str


@dataclass(frozen=True)
class GivenGroup:
    """Rows that belong to one part or subject."""

    title: str
    rows: tuple[GivenRow, ...]


def measured_groups(work: Workings) -> tuple[GivenGroup, ...]:
    """Every figure measured on the section, by what it belongs to."""
    return (
        GivenGroup("Air end", tuple(_air_end(work))),
        GivenGroup("Sheds", tuple(_sheds(work.measures))),
        GivenGroup("Oil end and oil space", tuple(_oil_end(work))),
        GivenGroup("Heads of the oil", tuple(_heads(work))),
        GivenGroup("Filling and venting, in order", tuple(_filling(work))),
        GivenGroup("Tests of tightness", tuple(_tightness(work))),
        GivenGroup("Masses, bolts and gasket left out", tuple(_masses(work))),
        *_field(work),
    )


def _field(work: Workings) -> Iterator[GivenGroup]:
    """What the solved field is in regions and on surfaces, if it was solved."""
    found = work.discharges
    if isinstance(found, str):
        return
    at = f"at {shown(work.voltages.phase, 'kV')} kV rms to earth"
    regions = [(item.mean, item.largest) for item in found.regions]
    yield GivenGroup(f"Field of the regions, solved, {at}", tuple(_known(regions)))
    surfaces = [(item.along, item.across, item.mean, item.half) for item in found.surfaces]
    yield GivenGroup(f"Field on the surfaces, solved, {at}", tuple(_known(surfaces)))
    whole = found.field
    numbers = (
        whole.capacitance_low,
        whole.capacitance_loss_free,
        whole.capacitance_high,
        whole.losses_add,
        whole.capacitance,
        whole.loss_factor,
    )
    yield GivenGroup("The whole as a capacitor, solved", tuple(map(_number, numbers)))


def _known(rows: Sequence[tuple[Number | None, ...]]) -> Iterator[GivenRow]:
    yield from (_number(number) for row in rows for number in row if number is not None)


def _row(name: str, symbol: str, value: float, unit: str) -> GivenRow:
    text = in_print(f"{shown(value, unit)} {unit_name(unit)}".strip())
    return GivenRow("", name, symbol, text, False, "")


def _number(number: Number) -> GivenRow:
    label: Label = number.step.label
    return _row(label.name, label.symbol, float(number), label.unit)


def _air_end(work: Workings) -> Iterator[GivenRow]:
    measures = work.measures
    yield _number(work.surface.creepage)
    yield _number(work.air.arcing)
    yield _number(work.surface.creepage_factor)
    yield _number(work.surface.form_factor)
    yield _number(work.surface.average_diameter)
    yield _row("Creepage sheltered from light across the axis", "L_90", measures.protected_90, "mm")
    yield _row("Creepage sheltered from light at 45°", "L_45", measures.protected_45, "mm")
    yield _number(work.rain.stated.dry)
    yield _row("Surface in air", "A", measures.air_surface, "cm²")


def _sheds(measures: Measures) -> Iterator[GivenRow]:
    for shed in measures.sheds:
        name = f"Shed {shed.number}: overhang, {'long' if shed.long else 'short'}"
        yield _row(name, "p", shed.overhang, "mm")
    for bay in measures.bays:
        between = f"Between sheds {bay.lower} and {bay.lower + 1}"
        yield _row(f"{between}: clearance", "c", bay.clearance, "mm")
        yield _row(f"{between}: creepage over air", "l / d", bay.creepage_over_air, "1")


def _oil_end(work: Workings) -> Iterator[GivenRow]:
    yield _number(work.oil.creepage)
    yield _row("Shortest way through the oil", 'd_"oil"', work.measures.oil_path.length, "mm")
    yield _number(work.oil.volume)


def _masses(work: Workings) -> Iterator[GivenRow]:
    for part in work.masses:
        yield _row(f"{part.part.capitalize()} ({part.material})", "m", float(part.mass), "kg")
    yield _row("Together", "m", sum(float(part.mass) for part in work.masses), "kg")


def _heads(work: Workings) -> Iterator[GivenRow]:
    for head in work.filling.heads:
        if head.least is not None:
            name = f"At the {head.place}: least (lowest level, coldest oil)"
            yield _row(name, "p", float(head.least), "kPa")
        name = f"At the {head.place}: greatest (highest level, coldest oil)"
        yield _row(name, "p", float(head.greatest), "kPa")
    if not isinstance(work.filling.safe_level, str):
        yield _number(work.filling.safe_level)


def _filling(work: Workings) -> Iterator[GivenRow]:
    for count, step in enumerate(work.filling.steps, start=1):
        words = f"{count}. {step.words}"
        if step.number is None:
            yield GivenRow("", words, "", "", False, "")
        else:
            label = step.number.step.label
            yield _row(words, "", float(step.number), label.unit)


def _tightness(work: Workings) -> Iterator[GivenRow]:
    for one in work.filling.tests:
        test = one.test
        name = (
            f"{test.test.capitalize()}: gauge pressure with {test.medium} for "
            f"{test.duration / 3600:g} h, up to {test.temperature - 273.15:g} °C"
        )
        yield _row(name, "p", float(one.pressure), "kPa")
        if one.drift is not None:
            name = "The gauge falls by this for each kelvin the gas cools, though nothing leaks"
            yield _row(name, "Delta p", -float(one.drift), "kPa")
