"""What the program says to the shell when it ends."""

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes. ORDER_NOW and ORDER_LATER are answers of ``alerts``, not failures."""

    OK = 0
    REFUSED = 1
    USAGE = 2
    ORDER_NOW = 3
    ORDER_LATER = 4
    LEDGER = 5
    FILE = 6
    FAULT = 70
    STOPPED = 130


MEANINGS = {
    Exit.OK: "done; for alerts: nothing needs to be ordered",
    Exit.REFUSED: "the rules of the ledger forbid it as things stand, or check found something",
    Exit.USAGE: "the command line was not understood, or a value in it",
    Exit.ORDER_NOW: "alerts: something needs to be ordered now",
    Exit.ORDER_LATER: "alerts: something needs to be ordered, but only later",
    Exit.LEDGER: "the ledger file is the trouble",
    Exit.FILE: "a file that was named is the trouble",
    Exit.FAULT: "a fault in the program itself ended the screens",
    Exit.STOPPED: "stopped by Ctrl-C",
}
"""What each code means, for the README and for help."""
