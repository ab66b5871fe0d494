"""What if the body had no sheds."""

from shedlight.given.changing import changed
from shedlight.workings import Workings
from shedlight.workings.surface_states import dry_reading
from shedlight.workings.what_ifs.record import (
    Compared,
    Supposed,
    Supposition,
    WhatIf,
    as_it_is,
    discharges_in,
)


def without_sheds(work: Workings) -> Workings:
    """The same bushing with a smooth body.

    Args:
        work: What was computed for an installation.
    """
    return Workings(changed(work.installation, bushing__sheds=None), with_field=True)


def no_sheds(work: Workings, supposed: Supposed) -> WhatIf:
    """The straight body beside the bushing.

    Args:
        work: What was computed for an installation, with its field.
        supposed: Nothing of it matters here.
    """
    smooth = without_sheds(work)
    now, then = discharges_in(work), discharges_in(smooth)
    one, other = work.surface, smooth.surface
    dry, bare = dry_reading(work, now.field), dry_reading(smooth, then.field)
    field = then.clamps.inception / now.clamps.inception - 1
    lost = 1 - other.creepage / one.creepage
    return WhatIf(
        Supposition.NO_SHEDS,
        "The straight body without sheds",
        ("Body, cap, clamps and oil end as they are; dry.",),
        (
            Compared("Creepage", one.creepage, other.creepage),
            Compared("Form factor", one.form_factor, other.form_factor),
            Compared("Arcing distance", work.air.arcing, smooth.air.arcing),
            Compared("Capacitance", now.field.capacitance, then.field.capacitance),
            Compared(
                "Streamer inception at the clamps", now.clamps.inception, then.clamps.inception
            ),
            Compared("Streamer inception at the cap", now.cap.inception, then.cap.inception),
            Compared("Largest field along the dry surface, over 5 mm", dry.worst, bare.worst),
        ),
        f"Dry, inception at the clamps would change by {100 * field:+.1f} %. Sheds are there for "
        f"the weather: without them {100 * lost:.0f} % of the creepage is gone.",
        as_it_is(work),
        as_it_is(smooth),
    )
