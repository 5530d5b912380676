"""Standard output and error as this program writes them: nothing that is written stops it."""

import io
import os
import sys


def mend_streams() -> None:
    """A closed stream takes what is written and drops it; a character that the terminal lacks becomes ``?``."""
    sys.stdout = sys.stdout or open(os.devnull, "w")  # noqa: SIM115 - open until the program ends
    sys.stderr = sys.stderr or open(os.devnull, "w")  # noqa: SIM115
    if isinstance(sys.stdout, io.TextIOWrapper) and sys.stdout.errors == "strict":
        sys.stdout.reconfigure(errors="replace")


def write_utf_8() -> None:
    """Data that is piped is UTF-8 wherever it runs; a terminal shows what it can and a sign for what it cannot."""
    mend_streams()
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding=None if stream.isatty() else "utf-8", errors="replace")
