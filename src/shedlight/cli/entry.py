"""Where the command starts: errors become one clear message and an exit status."""

import os
import signal
import sys
from collections.abc import Sequence
from types import FrameType
from typing import NoReturn

import typer

from shedlight.cli import commands, deciding, explaining, field, serving, weather
from shedlight.cli.app import app
from shedlight.cli.printing import spell_what_can_be_spelt, to_nowhere
from shedlight.errors import ShedlightError
from shedlight.given.writing import abandon_unfinished

COMMANDS = (commands, deciding, explaining, field, serving, weather)  # they join by being imported
OUR_FAULT = 3
UNUSABLE = 2
INTERRUPTED = 128 + signal.SIGINT  # as shells count it
STOPPED = "stopped before it was done"


def main(arguments: Sequence[str] | None = None) -> None:
    """Run a command and leave with its exit status.

    Args:
        arguments: Words of the command line; those of the process if left out.
    """
    spell_what_can_be_spelt()
    signal.signal(signal.SIGTERM, _stop)
    sys.exit(run(list(sys.argv[1:] if arguments is None else arguments)))


def _stop(number: int, frame: FrameType | None) -> NoReturn:
    """Take away what is half written and leave at once; an exception could be lost on its way."""
    abandon_unfinished()
    _told(STOPPED, 0)
    os._exit(128 + number)


def run(arguments: list[str]) -> int:
    """Run a command; the exit status says how it went.

    Args:
        arguments: Words of the command line.
    """
    try:
        command = typer.main.get_command(app)
        status = command.main(arguments, prog_name="shedlight", standalone_mode=False)
        if status == INTERRUPTED:  # the command line's own library has caught it
            return _told(STOPPED, INTERRUPTED)
        return status if isinstance(status, int) else 0
    except ShedlightError as error:
        return _told(str(error), error.exit_status)
    except typer.TyperException as error:
        said = error.format_message().replace("Value error, ", "")
        return _told(f"{said} Try 'shedlight --help'.", UNUSABLE) if said else UNUSABLE
    except (KeyboardInterrupt, typer.Abort):
        return _told(STOPPED, INTERRUPTED)
    except SystemExit:  # the reader of a pipe has left while the help was printed
        to_nowhere()
        return 0
    except OSError as error:
        return _told(f"{error.filename or 'file'}: {error.strerror or error}", UNUSABLE)
    except Exception as error:  # the last line of defence: no traceback reaches the user
        kind = type(error).__name__
        return _told(f"a fault of shedlight's own, please report it: {kind}: {error}", OUR_FAULT)


def _told(message: str, status: int) -> int:
    typer.echo(f"shedlight: {message}", err=True)
    return status
