"""Screen 3: what is on each printer, what is ready to run, hours left."""

from __future__ import annotations

from buildlog.screens.base import LiveScreen
from buildlog.screens.keys import Scope


class Prints(LiveScreen):
    SCOPE, NAME = Scope.PRINTS, "prints"
