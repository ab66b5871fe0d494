"""The page's own start: ``shedlight serve`` hands over to it."""

import argparse
import sys
from pathlib import Path

from shedlight.errors import ShedlightError
from shedlight.web.serving import serve

USUAL_PORT = 8470


def main() -> int:
    """Serve the page until it is interrupted; the exit status says how it went."""
    reader = argparse.ArgumentParser(prog="shedlight serve", description=__doc__)
    reader.add_argument("folder", nargs="?", type=Path)
    reader.add_argument("--port", type=int, default=USUAL_PORT)
    given = reader.parse_args()
    try:
        serve(given.folder, _say, port=given.port)
    except ShedlightError as error:
        sys.stderr.write(f"shedlight: {error}\n")
        return error.exit_status
    except KeyboardInterrupt:
        return 0
    return 0


def _say(address: str) -> None:
    sys.stdout.write(f"The page is at {address} (this machine only). End it with Ctrl+C.\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
