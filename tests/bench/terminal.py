"""Runs a program in a terminal of 120 × 40 and tells when it has drawn what."""

import fcntl
import os
import pty
import select
import signal
import struct
import termios
import time
from collections.abc import Mapping, Sequence
from pathlib import Path

PATIENCE_SECONDS = 120.0
QUIET_SECONDS = 0.03
"""A burst of output that pauses for so long has been drawn."""


class Terminal:
    """Leaving it ends the program; ``peak_mb`` is what it took of memory, known from then on."""

    def __init__(self, command: Sequence[str], environment: Mapping[str, str] | None = None) -> None:
        self.seen = b""
        self.peak_mb = 0.0
        self._began = time.perf_counter()
        self._pid, self._fd = pty.fork()
        if self._pid == 0:
            given = {"TERM": "xterm-256color", "COLORTERM": "truecolor", "COLUMNS": "120", "LINES": "40"}
            os.execvpe(command[0], list(command), {**os.environ, **given, **(environment or {})})
        fcntl.ioctl(self._fd, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 120, 0, 0))

    def __enter__(self) -> "Terminal":
        return self

    def __exit__(self, *_: object) -> None:
        self.peak_mb = _peak_mb(self._pid)
        os.kill(self._pid, signal.SIGTERM)
        while self._read(5.0):
            pass
        os.waitpid(self._pid, 0)
        os.close(self._fd)

    def seconds_until(self, words: str) -> float:
        """Since the program was started, until these words have been drawn."""
        while words.encode() not in self.seen:
            left = PATIENCE_SECONDS - (time.perf_counter() - self._began)
            if left <= 0 or not self._read(left):
                raise RuntimeError(f"«{words}» was never drawn; the end of it is {self.seen[-400:]!r}")
        return time.perf_counter() - self._began

    def settle(self, seconds: float = 0.5) -> None:
        """Read on until nothing has come for so long."""
        while self._read(seconds):
            pass

    def press(self, key: bytes) -> float:
        """Seconds from a key until all that it repaints has come."""
        self.settle(QUIET_SECONDS)
        began = time.perf_counter()
        os.write(self._fd, key)
        if not self._read(5.0):
            raise RuntimeError(f"nothing was repainted for {key!r}")
        last = time.perf_counter()
        while self._read(QUIET_SECONDS):
            last = time.perf_counter()
        return last - began

    def _read(self, patience_seconds: float) -> bool:
        """Whether anything came within so long."""
        ready, _, _ = select.select([self._fd], [], [], patience_seconds)
        if not ready:
            return False
        try:
            came = os.read(self._fd, 1 << 16)
        except OSError:  # Linux says so when the program has closed its side
            return False
        self.seen += came
        return bool(came)


def _peak_mb(pid: int) -> float:
    """From the kernel: getrusage would count what the parent took before the program was loaded."""
    lines = Path(f"/proc/{pid}/status").read_text(encoding="utf-8").splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("VmHWM")) / 1024
