"""The app: its screens, and what works on all of them."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from buildlog.errors import ScreensBroke, SettingsError
from buildlog.preferences import AS_USUAL, Preferences
from buildlog.screens.anywhere import AnywhereApp
from buildlog.screens.base import LiveScreen
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.own_keys import OwnKeys, checked, keymap, with_keys
from buildlog.screens.registry import FIRST, HOMES, MODES
from buildlog.screens.themes import DARK, LIGHT, SHELL, THEMES, dress, read_styles
from buildlog.screens.widgets.tones import Tone

if TYPE_CHECKING:
    from buildlog.ledger import Ledger


class Buildlog(AnywhereApp):
    """The screens on an open ledger; `run_app` runs it."""

    TITLE = "buildlog"
    CSS_PATH = SHELL
    BINDINGS = bindings(Scope.EVERYWHERE)
    MODES: ClassVar = MODES
    DEFAULT_MODE = FIRST
    ENABLE_COMMAND_PALETTE = False  # ours is drawn like every other list

    def __init__(self, ledger: Ledger, preferences: Preferences = AS_USUAL, trouble: str = "") -> None:
        super().__init__(ledger)
        self._trail: list[str] = []
        self.own_keys: OwnKeys = {}
        self.trouble = trouble
        try:
            self.own_keys = checked(preferences)
        except SettingsError as error:  # half of what a person wrote would only confuse
            self.trouble = str(error)
        self.set_keymap(keymap(self.own_keys))
        dress(self, LIGHT if preferences.theme == "light" else DARK)

    def on_ready(self) -> None:
        self.call_after_refresh(self._after_first_frame)

    def _after_first_frame(self) -> None:
        """What the first frame does without."""
        read_styles(self)
        if self.trouble:
            from buildlog.screens.dialogs.say import Say

            self.push_screen(Say("Your settings file is not used", self.trouble.splitlines()))

    @property
    def shown(self) -> LiveScreen | None:
        """The screen in view, beneath any question."""
        return next((s for s in reversed(self.screen_stack) if isinstance(s, LiveScreen)), None)

    async def action_go(self, name: str) -> None:
        if name != self.current_mode:
            self._trail.append(self.current_mode)
            await self.switch_mode(name)

    async def action_back(self) -> None:
        """What is under way is stopped; else to where one came from. Today is where it begins."""
        if self.stop_work():
            self.tell("It stops at its next step, and nothing is changed.", Tone.CAUTION)
        elif self.current_mode == FIRST:
            self._trail.clear()
            self.tell("This is the first screen: {quit} leaves, what is recorded is saved.", Tone.FAINT)
        elif self._trail:
            await self.switch_mode(self._trail.pop())

    async def lead_to(self, noun: str, row_id: int) -> None:
        """Go to the screen where a thing is at home, with the cursor on it."""
        await self.action_go(HOMES.get(noun, self.current_mode))
        if self.shown is not None:
            self.shown.call_after_refresh(self.shown.reveal, noun, row_id)

    async def lead_to_list(self, noun: str) -> None:
        """Go to the list of a noun."""
        await self.action_go("things")
        if self.shown is not None:
            self.shown.call_after_refresh(self.shown.reveal, noun, 0)

    def action_help(self) -> None:
        from buildlog.screens.dialogs.help import HelpScreen

        if self.shown is not None:
            words = [(word, with_keys(told, self.own_keys)) for word, told in self.shown.WORDS]
            self.push_screen(HelpScreen(self.shown.SCOPE, self.shown.QUESTION, words))

    def action_switch_theme(self) -> None:
        names = [theme.name for theme in THEMES]
        self.theme = names[(names.index(self.theme) + 1) % len(names)]

    def show_build(self, build_id: int | None) -> None:
        """On every screen only what is of this build, and what all share; None: of all builds."""
        self.build_id = build_id
        if self.shown is not None:
            self.shown.take_again()


def run_app(ledger: Ledger, preferences: Preferences = AS_USUAL, trouble: str = "") -> None:
    """Run the screens on an open ledger until the person leaves; `trouble` with the settings file is told at once.

    ScreensBroke when it was not the person who left.
    """
    app = Buildlog(ledger, preferences, trouble)
    app.run()
    if app.return_code:
        raise ScreensBroke(ledger.path)
