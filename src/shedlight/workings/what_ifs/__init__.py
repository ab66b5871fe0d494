"""What-ifs that explain the field: as it is, and as it would be; with the numbers that teach."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from shedlight.errors import RequestError
from shedlight.workings import Workings
from shedlight.workings.what_ifs.no_bushing import no_bushing
from shedlight.workings.what_ifs.no_sheds import no_sheds
from shedlight.workings.what_ifs.off_centre import off_centre
from shedlight.workings.what_ifs.oil_drained import oil_drained
from shedlight.workings.what_ifs.record import Compared, Supposed, Supposition, WhatIf

__all__ = ["Compared", "Supposed", "Supposition", "WhatIf", "what_if"]

_ANSWERS: Mapping[Supposition, Callable[[Workings, Supposed], WhatIf]] = MappingProxyType(
    {
        Supposition.NO_BUSHING: no_bushing,
        Supposition.NO_SHEDS: no_sheds,
        Supposition.OIL_DRAINED: oil_drained,
        Supposition.OFF_CENTRE: off_centre,
    }
)


def what_if(work: Workings, supposition: str, supposed: Supposed | None = None) -> WhatIf:
    """One supposition, computed beside the field as it is.

    Args:
        work: What was computed for an installation, with its field.
        supposition: One of :class:`Supposition`.
        supposed: Levels and offset, where others than the usual are wanted.

    Raises:
        RequestError: no such supposition, a level or an offset that cannot be, or no field.
        FieldError: the field that would be cannot be found.
    """
    try:
        chosen = Supposition(supposition)
    except ValueError:
        known = ", ".join(Supposition)
        raise RequestError(f"what-if: given {supposition!r}; expected one of {known}") from None
    return _ANSWERS[chosen](work, supposed or Supposed())
