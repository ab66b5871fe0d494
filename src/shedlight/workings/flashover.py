"""Flashover of the wet, dirty surface: the arc followed on the true profile of the resistance.

A closed form fitted to tests under alternating voltage gives the level from the mean resistance.
The arc followed over the outline, cell by cell, from whichever end is easier and with its leaps
through air, says what the distribution of the resistance adds or takes: its ratio to an even
strip carries the closed form over. Other sets of constants stand beside it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight.geometry.leaps import air_ways
from shedlight.geometry.measures import Measures
from shedlight.given.bushing import Installation
from shedlight.physics.surface.arc_way import ALTERNATING, ArcFlashover, Leap, arc_flashover
from shedlight.physics.surface.constants import (
    ArcConstants,
    Reignition,
    arc_constants_of,
    pollution_exponents,
    reignitions,
)
from shedlight.physics.surface.flashover import critical_voltage, rizk_gradient, thin_air_factor
from shedlight.physics.surface.profile_flashover import (
    creepage_that_holds,
    critical_in_thin_air,
    critical_on_profile,
    critical_under_dust,
    held_in_nine_of_ten,
)
from shedlight.physics.surface.ratios import rms_of_critical
from shedlight.physics.surface.resistance import mean_resistance
from shedlight.physics.surface.trends import severity_factor
from shedlight.sources import Citation, cite, weakest
from shedlight.trace import Input, Kind, Label, Number, Step, calculate
from shedlight.workings.dirt import Dirt, Layer, Washed
from shedlight.workings.numbers import Description, assumption, from_table
from shedlight.workings.voltages import Voltages
from shedlight.workings.wet_layer import MEASURED

Array = NDArray[np.float64]
AVERAGE, DUST = "Mean resistance alone", "non-soluble deposit"
_LAYERS = cite("IEC 60507", "form factor and layer conductivity, definitions", "exact")
_FOLLOWED = 'min_"ways" max_x (A x I^(-n) + R(x) I), quad hat(U) >= N x I^(-m)'


@dataclass(frozen=True, eq=False)
class Flashover:
    """Flashover of the wet, dirty surface at the site's height; rms voltages.

    Attributes:
        critical: Critical voltage on the true profile [V].
        held: What it holds in nine cases of ten [V]: the safe side.
        current: Highest leakage current before flashover by the arc followed, peak [A].
        arc: The arc's easiest way across.
        leaps: Ways through air it might take.
        rivals: The same by other rules, constants and readings, by title [V].
        after_rain: Held in fog after a shower [V]; none on a salt-sprayed site.
        profile_costs: What the distribution of the resistance takes, and takes after a shower [1].
        enough: Creepage of this profile that would just hold the service voltage [m].
    """

    critical: Number
    held: Number
    current: Number
    arc: ArcFlashover
    leaps: tuple[Leap, ...]
    rivals: tuple[tuple[str, Number], ...]
    after_rain: Number | None
    profile_costs: tuple[float, float | None]
    enough: Number


def flashover_of(
    installation: Installation, measures: Measures, voltages: Voltages, dirt: Dirt, creepage: Number
) -> Flashover:
    """Follow the arc, by the default and by its rivals.

    Args:
        installation: What was described.
        measures: What was measured on its section.
        voltages: Its voltages.
        dirt: The layer on it.
        creepage: Its creepage.
    """
    way = _Way(installation, measures, voltages, dirt, creepage)
    default = _sets()[0]
    held = way.held(way.critical(dirt.layer, default))
    arc = way.followed(dirt.layer, default)
    return Flashover(
        critical=way.critical(dirt.layer, default),
        held=held,
        current=way.current(arc, default),
        arc=arc,
        leaps=way.leaps,
        rivals=tuple((title, way.held(rival)) for title, rival in way.rivals()),
        after_rain=way.after_rain(default),
        profile_costs=(
            way.cost(dirt.layer, default),
            None if dirt.washed is None else way.cost(dirt.washed, default),
        ),
        enough=calculate(creepage_that_holds, creepage, voltages.phase, held),
    )


@dataclass(frozen=True)
class _Set:
    """One published set of constants."""

    arc: ArcConstants
    again: Reignition | None

    @property
    def name(self) -> str:
        relit = f", re-ignition {self.again.author}" if self.again else ", no re-ignition"
        return f"Arc followed with constants of {self.arc.author}{relit}"

    @property
    def citation(self) -> Citation:
        rows = (self.arc.citation, *((self.again.citation,) if self.again else ()))
        return weakest(rows)


def _sets() -> tuple[_Set, ...]:
    relit = {row.author: row for row in reignitions()}
    return tuple(_Set(arc_constants_of(author), relit.get(again)) for author, again in ALTERNATING)


class _Way:
    """The arc on one bushing."""

    def __init__(
        self,
        installation: Installation,
        measures: Measures,
        voltages: Voltages,
        dirt: Dirt,
        creepage: Number,
    ) -> None:
        self._dirt, self._creepage = dirt, creepage
        self._found: dict[tuple[int, str, bool], ArcFlashover] = {}
        self._number = Description(installation)
        self._insoluble = installation.site.insoluble_deposit
        found = air_ways(measures.creepage, measures.sheds)
        self.leaps = tuple(Leap(way.start, way.end, way.way) for way in found)
        self._thin = calculate(
            thin_air_factor, assumption("thin air exponent"), min(voltages.density, 1.0, key=float)
        )

    def critical(self, layer: Layer, by: _Set) -> Number:
        """Closed form on the mean resistance, carried to the true profile, at the site's height."""
        peaks = self._peaks(layer, by)
        return self._here(calculate(critical_on_profile, self._closed(layer.resistance), *peaks))

    def rivals(self) -> list[tuple[str, Number]]:
        """The mean alone, the bare sets of constants, and the other readings and rules."""
        layer, default = self._dirt.layer, _sets()[0]
        found = [(AVERAGE, self._here(self._closed(layer.resistance)))]
        for by in _sets():
            peak, _ = self._peaks(layer, by)
            found.append((by.name, self._here(calculate(rms_of_critical, peak))))
        return found + [
            (title, self.critical(other, default)) for title, other in self._dirt.others
        ]

    def after_rain(self, by: _Set) -> Number | None:
        """Held in fog after a shower; none where there is nothing to wash."""
        washed = self._dirt.washed
        if washed is None:
            return None
        label = Label("Resistance of the surface after a shower", "R", "kΩ")
        note = "rain has washed what it strikes; the rest keeps its dirt"
        origins = (washed.struck, washed.spared)
        whole = float(np.sum(washed.resistances))
        mean = _derived(whole, label, "sum F_i / kappa_i", _LAYERS, note, origins)
        peaks = self._peaks(washed, by)
        return self.held(self._here(calculate(critical_on_profile, self._closed(mean), *peaks)))

    def held(self, critical: Number) -> Number:
        return calculate(held_in_nine_of_ten, critical, assumption("pollution scatter"))

    def current(self, arc: ArcFlashover, by: _Set) -> Number:
        label = Label("Current at the arc's hardest moment, peak", 'I_"arc"', "mA")
        return _derived(arc.current, label, _FOLLOWED, by.citation, by.name, self._origins(by))

    def followed(self, layer: Layer | Washed, by: _Set) -> ArcFlashover:
        """The arc over the true profile."""
        return self._arc(layer, by, even=False)

    def cost(self, layer: Layer | Washed, by: _Set) -> float:
        """What the distribution of the resistance takes [1]."""
        return self.followed(layer, by).voltage / self._arc(layer, by, even=True).voltage

    def _arc(self, layer: Layer | Washed, by: _Set, *, even: bool) -> ArcFlashover:
        key = (id(layer), by.name, even)
        if key not in self._found:
            path, leaps = self._dirt.path, () if even else self.leaps
            each = layer.resistances if isinstance(layer, Washed) else self._dirt.resistances(layer)
            if even:
                each = float(np.sum(each)) / float(path.ends[-1]) * path.sizes
            self._found[key] = arc_flashover(path.ends, each, by.arc, by.again, leaps)
        return self._found[key]

    def _closed(self, resistance: Number) -> Number:
        gradient = calculate(rizk_gradient, calculate(mean_resistance, resistance, self._creepage))
        return calculate(rms_of_critical, calculate(critical_voltage, gradient, self._creepage))

    def _here(self, critical: Number) -> Number:
        """In the thin air of the site, under the dust that was measured with the deposit."""
        found = calculate(critical_in_thin_air, critical, self._thin)
        reference = assumption("insoluble reference")
        measured = self._dirt.layer.read_from == MEASURED
        if not measured or (self._insoluble or 0.0) <= reference:
            return found
        row = next(row for row in pollution_exponents() if row.relation == DUST)
        slope = from_table(row.exponent, "Pollution exponent", "alpha", "1", row.citation, row.what)
        dust = calculate(severity_factor, slope, self._number("site.insoluble_deposit"), reference)
        return calculate(critical_under_dust, found, dust)

    def _peaks(self, layer: Layer | Washed, by: _Set) -> tuple[Number, Number]:
        """Voltages that carry the arc over the true profile and over an even strip, peak."""
        if isinstance(layer, Washed):
            origins = (layer.struck, layer.spared, self._creepage, *self._origins(by))
        else:
            origins = (layer.resistance, self._creepage, *self._origins(by))
        note = f"{by.name}; in {len(self._dirt.path.sizes)} cells, from the easier end"
        true, even = (
            _derived(
                self._arc(layer, by, even=which == "even").voltage,
                Label(f"Voltage that carries the arc over {over}, peak", f'hat(U)_"{which}"', "kV"),
                _FOLLOWED,
                by.citation,
                note,
                origins,
            )
            for which, over in (
                ("true", "the true profile"),
                ("even", "an even strip of the same whole"),
            )
        )
        return true, even

    def _origins(self, by: _Set) -> tuple[Number, ...]:
        arc = by.arc
        found = [
            from_table(arc.constant, "Arc gradient at 1 A", "A", "V/cm", arc.citation, arc.author),
            from_table(arc.exponent, "Arc exponent", "n", "1", arc.citation, arc.author),
        ]
        if (again := by.again) is not None:
            what = again.what
            found += [
                from_table(
                    again.coefficient, "Re-ignition gradient", "N", "V/cm", again.citation, what
                ),
                from_table(again.exponent, "Re-ignition exponent", "m", "1", again.citation, what),
            ]
        return tuple(found)


def _derived(
    value: float,
    label: Label,
    typeset: str,
    citation: Citation,
    note: str,
    origins: Sequence[Number],
) -> Number:
    used = tuple(Input(n.step.label, float(n), (n.step,)) for n in origins)
    return Number(value, Step(Kind.FORMULA, label, value, citation, typeset, used, note))
