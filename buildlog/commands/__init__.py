"""The shell's entrance. What every start would pay for is loaded when it is needed."""

import sys


def main() -> None:
    """Run what the command line says and leave with its exit code."""
    from buildlog.commands.streams import write_utf_8

    write_utf_8()
    if sys.argv[1:] == ["--version"]:
        from importlib.metadata import version

        print(version("buildlog"))
        return
    if not sys.argv[1:]:
        from buildlog.commands.entering import enter

        sys.exit(enter())
    from buildlog.commands.running import run

    sys.exit(run(sys.argv[1:]))
