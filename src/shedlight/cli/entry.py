"""Where the command starts: errors become one clear message and an exit status."""

import sys
from collections.abc import Sequence

import typer

from shedlight.cli.commands import app
from shedlight.errors import ShedlightError

OUR_FAULT = 3
UNUSABLE = 2


def main(arguments: Sequence[str] | None = None) -> None:
    """Run a command and leave with its exit status.

    Args:
        arguments: Words of the command line; those of the process if left out.
    """
    sys.exit(run(list(sys.argv[1:] if arguments is None else arguments)))


def run(arguments: list[str]) -> int:
    """Run a command; the exit status says how it went.

    Args:
        arguments: Words of the command line.
    """
    try:
        command = typer.main.get_command(app)
        status = command.main(arguments, prog_name="shedlight", standalone_mode=False)
        return status if isinstance(status, int) else 0
    except ShedlightError as error:
        return _told(str(error), error.exit_status)
    except typer.TyperException as error:
        return _told(f"{error.format_message()} Try 'shedlight --help'.", UNUSABLE)
    except typer.Exit as leaving:
        return leaving.exit_code
    except (KeyboardInterrupt, typer.Abort):
        return _told("stopped before it was done; nothing was written", UNUSABLE)
    except BrokenPipeError:
        return 0
    except OSError as error:
        return _told(f"{error.filename or 'file'}: {error.strerror or error}", UNUSABLE)
    except Exception as error:  # the last line of defence: no traceback reaches the user
        kind = type(error).__name__
        return _told(f"a fault of shedlight's own, please report it: {kind}: {error}", OUR_FAULT)


def _told(message: str, status: int) -> int:
    typer.echo(f"shedlight: {message}", err=True)
    return status
