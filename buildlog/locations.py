"""Where the ledger, its backups and the settings live, and whether a folder is a risk for a ledger."""

import os
import re
from pathlib import Path

LEDGER_VARIABLE = "BUILDLOG_LEDGER"
BACKUPS_VARIABLE = "BUILDLOG_BACKUPS"
SETTINGS_VARIABLE = "BUILDLOG_SETTINGS"

# File systems that another machine serves; SQLite's locks are not to be trusted on them
# (sqlite.org, «Use Of SQLite», section 2, and «How To Corrupt An SQLite Database File», 2.1).
_REMOTE_TYPES = frozenset(
    (
        "nfs",
        "nfs4",
        "cifs",
        "smb",
        "smb2",
        "smb3",
        "smbfs",
        "9p",
        "afs",
        "ceph",
        "glusterfs",
        "davfs",
        "virtiofs",
    )
)
_LOCAL_FUSE_TYPES = frozenset(("fuseblk", "fuse.overlayfs", "fuse.fuse-overlayfs", "fuse.portal"))
# `sync`, `synced`, `my-cloud`, but not `async`: a hint from the name, no more.
_SYNCED_NAME = re.compile(r"(?:^|[^a-z])(?:sync|synced|[a-z]*cloud)(?:[^a-z]|$)", re.IGNORECASE)


def ledger_path() -> Path:
    """The ledger file that is opened when none is named."""
    if (named := _from_variable(LEDGER_VARIABLE)) is not None:
        return named
    from platformdirs import user_data_path  # not paid for by a start that names its ledger

    return user_data_path("buildlog", appauthor=False) / "ledger.db"


def backups_folder(ledger: Path) -> Path:
    """Where copies of this ledger go: beside it, unless a folder is set for all."""
    return _from_variable(BACKUPS_VARIABLE) or ledger.absolute().parent / "backups"


def settings_path() -> Path:
    if (named := _from_variable(SETTINGS_VARIABLE)) is not None:
        return named
    from platformdirs import user_config_path

    return user_config_path("buildlog", appauthor=False) / "settings.toml"


def folder_risk(folder: Path, mounts: Path = Path("/proc/mounts")) -> str | None:
    """A plain sentence when the folder looks remote or synced, else None.

    `mounts` is the table of mounted file systems; where the system keeps none, only names are looked at.
    """
    whole = Path(os.path.realpath(folder))
    kind = _file_system_type(whole, mounts)
    if kind is not None and _is_remote(kind):
        return (
            f"{whole} lies on a file system of another machine or program ({kind}): two programs can damage "
            "the ledger there. Keep it on a disk of this machine and copy it with `buildlog backup`."
        )
    for name in whole.parts:
        if _SYNCED_NAME.search(name):
            return (
                f"{whole} looks like a synced folder («{name}»): copying while the ledger is written can "
                "damage it. Keep it outside and let only the backups be synced."
            )
    return None


def _from_variable(variable: str) -> Path | None:
    """The path in an environment variable; unset and empty are alike."""
    text = os.environ.get(variable, "")
    return Path(text).expanduser() if text else None


def _is_remote(kind: str) -> bool:
    return kind in _REMOTE_TYPES or (kind.startswith("fuse") and kind not in _LOCAL_FUSE_TYPES)


def _file_system_type(folder: Path, mounts: Path) -> str | None:
    """Type of the file system with the longest mount point above the folder; of equals the later one."""
    try:
        lines = mounts.read_text("utf-8", errors="surrogateescape").splitlines()
    except OSError:  # no such table on this system: nothing is known
        return None
    best: tuple[int, str] | None = None
    for line in lines:
        _, point, kind, *_ = line.split(" ")
        above = Path(_unescaped(point))
        if folder.is_relative_to(above) and (best is None or len(above.parts) >= best[0]):
            best = len(above.parts), kind
    return None if best is None else best[1]


def _unescaped(point: str) -> str:
    """A mount point as proc(5) writes it: space, tab, newline and backslash as octal."""
    for written, meant in (("\\040", " "), ("\\011", "\t"), ("\\012", "\n"), ("\\134", "\\")):
        point = point.replace(written, meant)
    return point
