"""Screen 2: how far each subassembly is on both sides, and what holds it."""

from __future__ import annotations

from buildlog.screens.base import LiveScreen
from buildlog.screens.keys import Scope


class Mirror(LiveScreen):
    SCOPE, NAME = Scope.MIRROR, "mirror"
