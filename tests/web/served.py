"""The page as a user starts it: the command in a process of its own."""

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx

from edits import example

COMMAND = [sys.executable, "-c", "from shedlight.cli import main; main()", "serve", "--port", "0"]
PATIENCE = 120.0  # a busy machine opens the libraries slowly [s]
PAGE = "page-of-a-test"


@dataclass(frozen=True)
class Served:
    """Where the page is, and the folder it works in."""

    address: str
    folder: Path

    @property
    def host(self) -> str:
        """Host and port, as a request names them."""
        return self.address.removeprefix("http://")

    def post(self, path: str, body: dict[str, Any]) -> httpx.Response:
        """Post as the page itself does."""
        sent = {"Origin": self.address}
        whole = {"page": PAGE, **body}
        return httpx.post(f"{self.address}{path}", json=whole, headers=sent, timeout=PATIENCE)

    def put(self, name: str, of: str = "quay-24kv") -> Path:
        """Lay a description into the folder."""
        path = self.folder / name
        path.write_text(example(of), encoding="utf-8")
        return path


@contextmanager
def serving(folder: Path) -> Iterator[Served]:
    """Start the page, and end it as a service manager would."""
    command = [*COMMAND, str(folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout is not None
            line = process.stdout.readline()
            assert "The page is at http://127.0.0.1:" in line
            yield Served(line.split()[4].rstrip("/"), folder)
        finally:
            process.terminate()
            process.wait(PATIENCE)
