"""What the program says to the shell when it ends."""

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes; ``alerts`` uses the last two."""

    OK = 0
    REFUSED = 1
    USAGE = 2
    ORDER_NOW = 3
    ORDER_LATER = 4
    LEDGER = 5
    FILE = 6
