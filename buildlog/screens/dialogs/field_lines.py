"""The lines of a form: label, entry, unit; below a line what is wrong with it, and the names that fit it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.widget import Widget
from textual.widgets import Static

from buildlog.screens.dialogs.entries import PickedEntry, TypedEntry
from buildlog.screens.dialogs.field_like import FieldLike
from buildlog.screens.dialogs.offered import Offered, last_piece, names_that_fit
from buildlog.screens.dialogs.question import said
from buildlog.screens.widgets.cells import Align, clean, fit, width_of

YES_NO = ("yes", "no")
LABEL_AT_MOST = 34
Entry = TypedEntry | PickedEntry


class FieldLines(VerticalScroll, can_focus=False, inherit_bindings=False):
    """Scrolls to the field in hand; ↑ and ↓ go from field to field however many there are."""

    def __init__(self, fields: Sequence[FieldLike], values: Mapping[str, Any], units: Mapping[str, str]) -> None:
        super().__init__(id="fields")
        self._fields, self._units = fields, units
        self._room = min(LABEL_AT_MOST, max((width_of(field.label) for field in fields), default=0))
        self._unit_room = max((width_of(self._unit(field)) for field in fields), default=0)
        self.entries: dict[str, Entry] = {field.name: _entry(field, values) for field in fields}
        self._problems: dict[str, Static] = {}
        self._offered = Offered()
        self._offered.styles.margin = (0, 0, 0, self._indent)

    def compose(self) -> ComposeResult:
        for field in self._fields:
            label = fit(field.label, self._room, Align.RIGHT) + ("* " if field.required else "  ")
            unit = said(fit(self._unit(field), self._unit_room), "unit")
            yield Horizontal(said(label, "label"), self.entries[field.name], unit, classes="field")
        yield self._offered

    def _unit(self, field: FieldLike) -> str:
        return self._units.get(field.name, field.unit)

    @property
    def _indent(self) -> int:
        """Cells up to where the entries begin: the sign of the field in hand, label and star."""
        return self._room + 3

    def tell(self, wrong: Mapping[str, str]) -> None:
        """Mark these fields as wrong, and say below each how; the others are well."""
        for name, entry in self.entries.items():
            entry.set_class(name in wrong, "wrong")
            if name in wrong:
                self._problem_of(name).update(Text(clean(f"✗ {wrong[name]}")))
            if name in self._problems:
                self._problems[name].display = name in wrong

    def offer(self, name: str, names: Sequence[str], lit_at_once: bool = False) -> None:
        """Below this field those of the names that fit what is typed; the first is lit once something is typed."""
        entry = self.entries[name]
        if not isinstance(entry, TypedEntry):
            return
        before, typed = last_piece(entry.text)
        found = names if lit_at_once and not typed else names_that_fit(names, typed)
        self.move_child(self._offered, after=self._last_of(name))
        self._offered.offer(found, 0 if found and (typed or lit_at_once) else None)
        entry.offer = before + self._offered.lit if self._offered.lit else ""

    def light(self, by: int) -> bool:
        """Light another name of the list that is open; False where none is."""
        entry = self.screen.focused
        if not self._offered.display or not isinstance(entry, TypedEntry):
            return False
        self._offered.go(by)
        entry.offer = last_piece(entry.text)[0] + self._offered.lit
        return True

    @property
    def offering(self) -> bool:
        """Whether names that fit stand below the field in hand: it is not typed out yet."""
        return bool(self._offered.display)

    def close(self) -> None:
        """Offer nothing."""
        self._offered.offer((), None)
        for entry in self.entries.values():
            if isinstance(entry, TypedEntry):
                entry.offer = ""

    def keep_in_view(self, name: str) -> None:
        """Scroll so that the field is seen with all that stands below it."""
        below = self._offered if self._offered.display else self._problems.get(name)
        if below is not None and below.display:
            below.scroll_visible(animate=False, immediate=False)

    def _problem_of(self, name: str) -> Static:
        if name not in self._problems:
            self._problems[name] = Static("", markup=False, classes="problem")
            self._problems[name].styles.margin = (0, 0, 0, self._indent)
            self.mount(self._problems[name], after=self._line_of(name))
        return self._problems[name]

    def _line_of(self, name: str) -> Widget:
        line = self.entries[name].parent
        assert isinstance(line, Horizontal)
        return line

    def _last_of(self, name: str) -> Widget:
        return self._problems.get(name) or self._line_of(name)


def _entry(field: FieldLike, values: Mapping[str, Any]) -> Entry:
    text = field.offered(values.get(field.name, field.default))
    choices = field.choices or (YES_NO if str(field.kind) == "yes or no" else ())
    if choices:
        optional = not field.required and (field.default is None or not text)
        return PickedEntry(field.name, text, choices, optional)
    return TypedEntry(field.name, text)
