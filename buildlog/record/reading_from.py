"""How the ledger file is opened for reading only."""

import os
from pathlib import Path


def read_uri(path: Path) -> str:
    """How to open for reading: without a side file where none can be written, unless one is there already."""
    beside = os.access(path.parent, os.W_OK) or path.with_name(f"{path.name}-wal").exists()
    still = "" if beside else "&immutable=1"
    return f"{path.absolute().as_uri()}?mode=ro{still}"
