"""Screen 4: will the material last."""

from __future__ import annotations

from buildlog.screens.base import LiveScreen
from buildlog.screens.keys import Scope


class StockScreen(LiveScreen):
    SCOPE, NAME = Scope.STOCK, "stock"
