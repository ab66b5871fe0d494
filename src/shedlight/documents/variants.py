"""Charts of many cases, beside their results."""

from collections.abc import Iterator
from pathlib import Path

from shedlight.figures.painters.svg import paint
from shedlight.figures.variants import lengths_picture
from shedlight.given.writing import write_whole
from shedlight.variants.keeping import RESULTS, Keeping
from shedlight.variants.summary import Summary


def summary_files(keeping: Keeping, summary: Summary) -> tuple[Path, ...]:
    """Write a chart for each axis that has a length to show; all files of the results.

    Args:
        keeping: Where the results are.
        summary: What they say.
    """
    return (*(keeping.folder / name for name in RESULTS), *_charts(keeping, summary))


def _charts(keeping: Keeping, summary: Summary) -> Iterator[Path]:
    for axis, places in summary.axes.items():
        if len(places) < 2:
            continue
        path = keeping.folder / f"lengths by {axis}.svg"
        write_whole(path, paint(lengths_picture(keeping.plan.name, axis, places)))
        yield path
