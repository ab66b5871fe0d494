"""Results on disk: one part for each task, whole or not there; a killed run goes on from them."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pyarrow
import pyarrow.csv
import pyarrow.parquet

from shedlight.checks.catalogue import questions
from shedlight.given.writing import write_whole
from shedlight.variants.plan import Plan, refused
from shedlight.variants.working import MARGIN, Row

MANIFEST = "plan.json"
RESULTS = ("results.parquet", "results.csv")
NUMBERS = (
    "least_margin",
    "creepage_needed",
    "creepage",
    "arcing_needed",
    "arcing",
    "height",
    "mass",
)
WHOLE = ("case", "fails", "cautions", "not_assessed", "not_asked")


@dataclass(frozen=True)
class Keeping:
    """Where the results of one plan are kept."""

    plan: Plan
    folder: Path

    def open(self) -> tuple[int, ...]:
        """Make the folder ready; the numbers of the tasks that are still to be done.

        Raises:
            DescriptionError: the folder holds the results of another plan.
        """
        self.folder.mkdir(parents=True, exist_ok=True)
        manifest = self.folder / MANIFEST
        if manifest.exists():
            known = json.loads(manifest.read_text("utf-8"))
            if known.get("fingerprint") != self.plan.fingerprint:
                other = "results of another plan, or of this one before it was changed"
                raise refused(self.folder, "output", other, "an empty folder, or the same plan")
        else:
            about = {
                "name": self.plan.name,
                "fingerprint": self.plan.fingerprint,
                "cases": self.plan.count,
                "tasks": self.plan.chunks,
            }
            write_whole(manifest, json.dumps(about, indent=1, ensure_ascii=False) + "\n")
        return tuple(n for n in range(self.plan.chunks) if not self._part(n).exists())

    def keep(self, chunk: int, rows: list[Row]) -> None:
        """Write the part of one task, whole or not at all.

        Args:
            chunk: Number of the task.
            rows: Its results.
        """
        sink = pyarrow.BufferOutputStream()
        pyarrow.parquet.write_table(self._table(rows), sink, compression="zstd")
        write_whole(self._part(chunk), sink.getvalue().to_pybytes())

    def collect(self) -> tuple[Path, Path]:
        """All parts as one Parquet and one CSV file, part by part, in the order of the cases."""
        places = tuple(self.folder / name for name in RESULTS)
        unready = tuple(place.with_suffix(place.suffix + ".unready") for place in places)
        schema = self._schema()
        with (
            pyarrow.parquet.ParquetWriter(unready[0], schema, compression="zstd") as parquet,
            pyarrow.csv.CSVWriter(unready[1], schema) as commas,
        ):
            for chunk in range(self.plan.chunks):
                table = pyarrow.parquet.read_table(self._part(chunk))
                parquet.write_table(table)
                commas.write_table(table)
        for written, place in zip(unready, places, strict=True):
            written.replace(place)
        return places[0], places[1]

    def rows(self, *columns: str) -> Iterator[dict[str, Any]]:
        """Some columns of every row kept so far.

        Args:
            *columns: Their names.
        """
        for chunk in range(self.plan.chunks):
            if self._part(chunk).exists():
                yield from self.rows_of_part(chunk, *columns)

    def rows_of_part(self, chunk: int, *columns: str) -> list[dict[str, Any]]:
        """The rows of one part that is kept.

        Args:
            chunk: Number of its task.
            *columns: Names of the columns wanted; all if none are named.
        """
        wanted = list(columns) or None
        found: list[dict[str, Any]] = pyarrow.parquet.read_table(
            self._part(chunk), columns=wanted
        ).to_pylist()
        return found

    def _part(self, chunk: int) -> Path:
        return self.folder / f"part-{chunk:06d}.parquet"

    def _schema(self) -> Any:
        axes = [(axis.name, pyarrow.string()) for axis in self.plan.axes]
        margins = [(MARGIN + name, pyarrow.float64()) for name in questions()]
        texts = [(name, pyarrow.string()) for name in ("trouble", "verdict", "failing", "tightest")]
        return pyarrow.schema(
            [
                *((name, pyarrow.int64()) for name in WHOLE),
                *axes,
                *texts,
                *((name, pyarrow.float64()) for name in NUMBERS),
                *margins,
            ]
        )

    def _table(self, rows: list[Row]) -> Any:
        schema = self._schema()
        data = {name: [row.get(name) for row in rows] for name in schema.names}
        return pyarrow.table(data, schema=schema)
