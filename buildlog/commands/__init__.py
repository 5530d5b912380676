"""The shell's entrance. What every start would pay for is loaded when it is needed."""

import sys


def main() -> None:
    """Run what the command line says and leave with its exit code."""
    if sys.argv[1:] == ["--version"]:
        from importlib.metadata import version

        print(version("buildlog"))
        return
    from buildlog.commands.running import run

    sys.exit(run(sys.argv[1:]))
