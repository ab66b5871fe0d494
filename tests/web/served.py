"""The page as a user starts it: the command in a process of its own."""

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx

COMMAND = [sys.executable, "-c", "from shedlight.cli import main; main()", "serve", "--port", "0"]
PATIENCE = 120.0  # a busy machine opens the libraries slowly [s]
PAGE = "page-of-a-test"


@dataclass(frozen=True)
class Served:
    """Where the page is, and the folder it works in."""

    address: str
    folder: Path | None = None

    @property
    def host(self) -> str:
        """Host and port, as a request names them."""
        return self.address.removeprefix("http://").rstrip("/")

    def post(self, path: str, body: Any, **headers: str) -> httpx.Response:
        """Post as the page itself does; a header may be given another value."""
        sent = {
            "Origin": f"http://{self.host}",
            **{k.replace("_", "-"): v for k, v in headers.items()},
        }
        if isinstance(body, dict):
            body = {"page": PAGE, **body}
        return httpx.post(f"{self.address}{path}", json=body, headers=sent, timeout=PATIENCE)


@contextmanager
def serving(folder: Path | None = None) -> Iterator[Served]:
    """Start the page, and end it as Ctrl+C does."""
    command = [*COMMAND, *([str(folder)] if folder else [])]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout is not None
            line = process.stdout.readline()
            assert "The page is at http://127.0.0.1:" in line
            yield Served(line.split()[4].rstrip("/"), folder)
        finally:
            process.terminate()
            process.wait(PATIENCE)
