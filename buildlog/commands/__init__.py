"""The shell's entrance. ``buildlog`` alone opens the screens without loading what only commands need."""

import sys


def main() -> None:
    if len(sys.argv) == 1:
        from buildlog.commands.opening import open_screens

        open_screens()
        return
    from buildlog.commands.root import app

    app()
