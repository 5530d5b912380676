"""A form drawn from a table of fields.

    values = await self.app.push_screen_wait(
        AskFields("Weigh SP-04", fields_of(WeighSpool), values={"grams": 412_000}, check=problems)
    )

Answers a dict of parsed values by field name (None where a field was left empty), or None when left by esc.
`check` takes that dict while it is being filled in and answers what is wrong, by field name ("" for the
whole); it is asked after every key, so it must be quick.
Enter records from any field, or goes to what is still wrong.
`completions` are known names by field name, offered while typing.
`heed` tells the caution that goes with what is filled in so far, "" for none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from rich.text import Text
from textual import on
from textual.containers import Horizontal, VerticalScroll
from textual.widget import Widget
from textual.widgets import Input, Static

from buildlog.screens.dialogs.entries import PickedEntry, TypedEntry, last_piece
from buildlog.screens.dialogs.field_like import FieldLike
from buildlog.screens.dialogs.question import Question, said
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.widgets.cells import Align, clean, fit, width_of

YES_NO = ("yes", "no")
LABEL_AT_MOST = 34
NAMES_SHOWN = 6
WRAPS_AT = 70
"""Cells of a line of caution in the narrowest panel."""
Check = Callable[[Mapping[str, Any]], Mapping[str, str]]
Heed = Callable[[Mapping[str, Any]], str]
Entry = TypedEntry | PickedEntry


class FieldLines(VerticalScroll, can_focus=False, inherit_bindings=False):
    """Scrolls to the field in hand; ↑ and ↓ go from field to field however many there are."""


class AskFields(Question[dict[str, Any]]):
    """One line a field: label, entry, unit; below them the help or the problem of the field in hand."""

    BINDINGS = bindings(Scope.FORM)
    SCOPE = Scope.FORM
    AUTO_FOCUS = "TypedEntry, PickedEntry"

    def __init__(
        self,
        title: str,
        fields: Sequence[FieldLike],
        *,
        values: Mapping[str, Any] | None = None,
        check: Check | None = None,
        completions: Mapping[str, Sequence[str]] | None = None,
        caution: str = "",
        heed: Heed | None = None,
    ) -> None:
        own = (field.caution for field in fields)
        super().__init__(title, " ".join(dict.fromkeys(c for c in (caution, *own) if c)))
        self._fields = {field.name: field for field in fields}
        self._values = values or {}
        self._check = check
        self._completions = completions or {}
        self._heed = heed
        self._touched: set[str] = set()
        self._entries: dict[str, Entry] = {}
        self._said: dict[str, str] = {}

    def body(self) -> Iterable[Widget]:
        room = min(LABEL_AT_MOST, max((width_of(f.label) for f in self._fields.values()), default=0))
        lines = []
        for field in self._fields.values():
            mark = "* " if field.required else "  "
            label = said(fit(field.label, room, Align.RIGHT) + mark, "label")
            self._entries[field.name] = self._entry(field)
            lines.append(Horizontal(label, self._entries[field.name], said(field.unit, "unit"), classes="field"))
        yield FieldLines(*lines, id="fields")
        yield Static("", markup=False, id="told")
        yield Static("", markup=False, id="heed", classes="question-caution")

    def on_mount(self) -> None:
        self._tell()

    @on(Input.Changed)
    @on(PickedEntry.Changed)
    def _changed(self, message: Input.Changed | PickedEntry.Changed) -> None:
        entry = message.entry if isinstance(message, PickedEntry.Changed) else message.input
        if entry.has_focus and entry.name:
            self._touched.add(entry.name)
        self._tell()

    def on_descendant_focus(self) -> None:
        self._tell()

    @on(Input.Submitted)
    def action_record(self) -> None:
        """Answer with the values, or go to the first field that is wrong and say how."""
        values, wrong = self._read()
        if not wrong:
            self.dismiss(values)
            return
        self._touched |= set(self._fields)
        name = next((name for name in self._fields if name in wrong), None)
        if name is not None:
            self._entries[name].focus()
        self._tell()

    def action_next_field(self) -> None:
        self.focus_next("TypedEntry, PickedEntry")

    def action_previous_field(self) -> None:
        self.focus_previous("TypedEntry, PickedEntry")

    def _entry(self, field: FieldLike) -> Entry:
        value = self._values.get(field.name, field.default)
        text = field.show(value)
        choices = field.choices or (YES_NO if str(field.kind) == "yes or no" else ())
        if choices:
            optional = not field.required and (field.default is None or not text)
            return PickedEntry(field.name, text, choices, optional)
        return TypedEntry(field.name, text, self._completions.get(field.name, ()))

    def _read(self) -> tuple[dict[str, Any], dict[str, str]]:
        """Values by name, and what is wrong by name: how a text reads first, then what `check` says."""
        values: dict[str, Any] = {}
        wrong: dict[str, str] = {}
        for name, entry in self._entries.items():
            try:
                values[name] = self._fields[name].parse(entry.text)
            except ValueError as problem:
                wrong[name] = str(problem)
            else:
                if values[name] is None and self._fields[name].required:
                    wrong[name] = f"{self._fields[name].label} is still missing"
        if not wrong and self._check is not None:
            wrong.update(self._check(values))
        return values, wrong

    def _tell(self) -> None:
        """Mark the fields that are wrong, and say below what there is to say of the one in hand."""
        values, wrong = self._read()
        self._take_heed(values)
        shown = {name: text for name, text in wrong.items() if name in self._touched or not name}
        for name, entry in self._entries.items():
            entry.set_class(name in shown, "wrong")
        in_hand = self.focused.name if self.focused is not None else None
        problem = shown.get(in_hand or "") or shown.get("") or next(iter(shown.values()), "")
        self.query_one("#told", Static).set_class(bool(problem), "wrong")
        self._say("told", f"✗ {problem}" if problem else self._hint_for(in_hand))

    def _say(self, where: str, text: str) -> bool:
        """Put a text in its place; False where it stands there already, so that nothing has to be laid anew."""
        if self._said.get(where) == text:
            return False
        self._said[where] = text
        self.query_one(f"#{where}", Static).update(Text(clean(text)))
        return True

    def _take_heed(self, values: Mapping[str, Any]) -> None:
        """The caution of what is filled in; the fields leave it the room that it takes."""
        text = self._heed(values) if self._heed is not None else ""
        if self._say("heed", f"! {text}" if text else ""):
            self.query_one("#heed").display = bool(text)
            beside = sum(width_of(said) // WRAPS_AT + 2 for said in (text, self._caution) if said)
            self.query_one("#fields").styles.max_height = max(3, self.room - beside)

    def _hint_for(self, name: str | None) -> str:
        if name not in self._fields:
            return ""
        typed = last_piece(self._entries[name].text)[1].casefold()
        known = [c for c in self._completions.get(name, ()) if typed in c.casefold() and typed != c.casefold()]
        names = ", ".join(known[:NAMES_SHOWN]) + (", …" if len(known) > NAMES_SHOWN else "")
        return "  ".join(part for part in (self._fields[name].help, f"known: {names}" if names else "") if part)
