"""Whatever a person can meet becomes one message on standard error and an exit code."""

import errno
import os
import sys
from collections.abc import Callable

from buildlog.commands.exits import Exit
from buildlog.commands.session import say
from buildlog.commands.spelling import spelled
from buildlog.commands.streams import mend_streams
from buildlog.errors import BadWish, BuildlogError, FileError, LedgerError, MayOverrule, ScreensBroke


def guarded(work: Callable[[], int]) -> int:
    """The exit code of some work, or of what kept it from being done."""
    mend_streams()
    try:
        return work()
    except BuildlogError as error:
        say(_in_options(error))
        return exit_of(error)
    except KeyboardInterrupt:
        say("Stopped.")
        return Exit.STOPPED
    except OSError as error:
        return _outside(error)


def _in_options(error: BuildlogError) -> str:
    """The message, with what overrules it as it is typed here."""
    if isinstance(error, MayOverrule):
        return f"{error.message} Or say that it was so all the same: {spelled(error.field)}."
    return str(error)


def exit_of(error: BuildlogError) -> Exit:
    if isinstance(error, BadWish):
        return Exit.USAGE
    if isinstance(error, LedgerError):
        return Exit.LEDGER
    if isinstance(error, ScreensBroke):
        return Exit.FAULT
    return Exit.FILE if isinstance(error, FileError) else Exit.REFUSED


def _outside(error: OSError) -> int:
    """A reader that went away (``| head``) is no trouble; a disk or a folder is."""
    if error.errno == errno.EPIPE:
        # what is left in the buffer must not be written once more when the interpreter ends
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return Exit.OK
    say(f"{error.filename or 'What was to be written'}: {error.strerror or error}.")
    return Exit.FILE
