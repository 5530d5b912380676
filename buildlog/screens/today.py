"""Screen 1: what runs, what to put on now, what to do."""

from __future__ import annotations

from buildlog.screens.base import LiveScreen
from buildlog.screens.keys import Scope


class Today(LiveScreen):
    SCOPE, NAME = Scope.TODAY, "today"
