"""Runs one command line: whatever a person can meet becomes one message on standard error and an exit code."""

import errno
import io
import os
import sys
from collections.abc import Sequence

import typer
from typer.exceptions import TyperException

from buildlog.commands.exits import Exit
from buildlog.commands.session import chosen, say
from buildlog.errors import BadWish, BuildlogError, FileError, LedgerError


def run(arguments: Sequence[str]) -> int:
    """The exit code of a command line, told apart from the name of the program."""
    from buildlog.commands.root import app

    chosen.ledger = None
    _mend_streams()
    try:
        command = typer.main.get_command(app)
        with command.make_context("buildlog", list(arguments)) as context:
            command.invoke(context)
            sys.stdout.flush()
            return Exit.OK
    except typer.Exit as ending:
        return ending.exit_code
    except TyperException as error:
        return _usage(error)
    except BuildlogError as error:
        say(str(error))
        return exit_of(error)
    except (KeyboardInterrupt, typer.Abort):
        say("Stopped.")
        return Exit.STOPPED
    except OSError as error:
        return _outside(error)


def _mend_streams() -> None:
    """A closed stream takes what is written and drops it; a character that the terminal lacks becomes ``?``."""
    sys.stdout = sys.stdout or open(os.devnull, "w")  # noqa: SIM115 - open until the program ends
    sys.stderr = sys.stderr or open(os.devnull, "w")  # noqa: SIM115
    if isinstance(sys.stdout, io.TextIOWrapper) and sys.stdout.errors == "strict":
        sys.stdout.reconfigure(errors="replace")


def exit_of(error: BuildlogError) -> Exit:
    if isinstance(error, BadWish):
        return Exit.USAGE
    if isinstance(error, LedgerError):
        return Exit.LEDGER
    return Exit.FILE if isinstance(error, FileError) else Exit.REFUSED


def _usage(error: TyperException) -> int:
    """What was typed wrongly, and where to read more."""
    context = getattr(error, "ctx", None)
    path = context.command_path if context else "buildlog"
    message = error.format_message().strip()
    if message.startswith("Usage:"):  # a group without a command: its help
        typer.echo(message)
        return Exit.OK
    say(f"{path}: {message}\n`{path} --help` tells more.")
    return Exit.USAGE


def _outside(error: OSError) -> int:
    """A reader that went away (``| head``) is no trouble; a disk or a folder is."""
    if error.errno == errno.EPIPE:
        # what is left in the buffer must not be written once more when the interpreter ends
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return Exit.OK
    say(f"{error.filename or 'What was to be written'}: {error.strerror or error}.")
    return Exit.FILE
