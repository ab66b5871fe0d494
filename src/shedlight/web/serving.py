"""Opening the page: a server on this machine only, until it is interrupted."""

from collections.abc import Callable
from pathlib import Path

import uvicorn

from shedlight.errors import InputError
from shedlight.web.app import page_app
from shedlight.web.folder import Folder

HERE = "127.0.0.1"
PARTING_TIME = 3  # how long open requests may take once it is stopped [s]


class _Server(uvicorn.Server):
    """Says where it can be reached, once it can."""

    def __init__(self, config: uvicorn.Config, say: Callable[[str], None]) -> None:
        super().__init__(config)
        self._say = say

    async def startup(self, sockets: list[object] | None = None) -> None:  # type: ignore[override]
        """Start listening, then say where."""
        await super().startup(sockets)  # type: ignore[arg-type]
        if self.started:
            port = self.servers[0].sockets[0].getsockname()[1]
            self._say(f"http://{HERE}:{port}/")


def serve(place: Path | None, say: Callable[[str], None], *, port: int) -> None:
    """Serve the page until it is interrupted.

    Args:
        place: The working folder; none shows the examples and saves nothing.
        say: Is told the address once the page can be opened.
        port: Where to listen on this machine; 0 takes any that is free.

    Raises:
        InputError: no such folder, or the port is taken.
    """
    app = page_app(Folder(place) if place is not None else None)
    config = uvicorn.Config(
        app,
        host=HERE,
        port=port,
        log_level="warning",
        access_log=False,
        server_header=False,
        date_header=False,
        h11_max_incomplete_event_size=32 * 1024,
        limit_concurrency=64,
        timeout_graceful_shutdown=PARTING_TIME,
        ws="none",
        lifespan="on",
    )
    try:
        _Server(config, say).run()
    except SystemExit:
        raise InputError(f"port {port} of this machine is taken; choose another") from None
