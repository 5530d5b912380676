"""The shell's entrance. What every start would pay for is loaded when it is needed."""

import io
import sys


def main() -> None:
    """Run what the command line says and leave with its exit code."""
    _write_utf_8()
    if sys.argv[1:] == ["--version"]:
        from importlib.metadata import version

        print(version("buildlog"))
        return
    if not sys.argv[1:]:
        from buildlog.commands.entering import enter

        sys.exit(enter())
    from buildlog.commands.running import run

    sys.exit(run(sys.argv[1:]))


def _write_utf_8() -> None:
    """Data that is piped is UTF-8 wherever it runs; a terminal shows what it can and a sign for what it cannot."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding=None if stream.isatty() else "utf-8", errors="replace")
