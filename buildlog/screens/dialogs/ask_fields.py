"""A form drawn from a table of fields.

    values = await self.app.push_screen_wait(
        AskFields("Weigh SP-04", fields_of(WeighSpool), values={"grams": 412_000}, check=problems)
    )

Answers a dict of parsed values by field name (None where a field was left empty), or None when left by esc.
`alone` says what is wrong with the value of one field, by field name, whatever the others are; `check` takes all
values as soon as each of them reads, and answers what is wrong by field name ("" for the whole). Both are asked
after every key, so they must be quick.
Enter records from any field, or goes to what is still wrong.
`completions` are known names by field name, offered below the field while typing.
`heed` tells the caution that goes with what is filled in so far, "" for none.
`units` stand beside the fields in place of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from rich.text import Text
from textual import on
from textual.widget import Widget
from textual.widgets import Input, Static

from buildlog.screens.dialogs.entries import PickedEntry, TypedEntry
from buildlog.screens.dialogs.field_like import FieldLike
from buildlog.screens.dialogs.field_lines import FieldLines
from buildlog.screens.dialogs.question import Question
from buildlog.screens.keys import Scope, bindings
from buildlog.screens.own_keys import own_keys, with_keys
from buildlog.screens.widgets.cells import clean, width_of
from buildlog.wording import few

WRAPS_AT = 70
"""Cells of a line of caution in the narrowest panel."""
PICKING = "← → or its first letters"
TYPING = {"duration": "h:mm or minutes", "code": "letters, digits, dot, dash, underscore; at most 24"}
"""How a field is filled in, by its kind, where that is not plain."""
Check = Callable[[Mapping[str, Any]], Mapping[str, str]]
Alone = Mapping[str, Callable[[Any], str]]
Heed = Callable[[Mapping[str, Any]], str]


class AskFields(Question[dict[str, Any]]):
    """The lines of the fields; below them the help of the field in hand, and cautions."""

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
        alone: Alone | None = None,
        completions: Mapping[str, Sequence[str]] | None = None,
        caution: str = "",
        heed: Heed | None = None,
        units: Mapping[str, str] | None = None,
    ) -> None:
        own = (field.caution for field in fields)
        super().__init__(title, " ".join(dict.fromkeys(c for c in (caution, *own) if c)))
        self._fields = {field.name: field for field in fields}
        self._check, self._alone, self._heed = check, alone or {}, heed
        self._completions = {name: words for name, words in (completions or {}).items() if words}
        self._lines = FieldLines(fields, values or {}, units or {})
        self._entries = self._lines.entries
        self._touched: set[str] = set()
        self._said: dict[str, str] = {}

    def body(self) -> Iterable[Widget]:
        yield self._lines
        yield Static("", markup=False, id="told")
        yield Static("", markup=False, id="heed", classes="question-caution")

    def on_mount(self) -> None:
        self._tell()

    def on_resize(self) -> None:
        self._fit_lines()
        self.call_after_refresh(self._tell)  # what has room in its line is known then

    @on(Input.Changed)
    @on(PickedEntry.Changed)
    def _changed(self, message: Input.Changed | PickedEntry.Changed) -> None:
        entry = message.entry if isinstance(message, PickedEntry.Changed) else message.input
        if entry.has_focus and entry.name:
            self._touched.add(entry.name)
            if entry.name in self._completions:
                self._lines.offer(entry.name, self._completions[entry.name])
        self._tell()

    def on_descendant_focus(self) -> None:
        self._lines.close()
        self._tell()

    @on(Input.Submitted)
    def action_record(self) -> None:
        """Answer with the values, or go to the first field that is wrong and say how."""
        values, wrong = self._read()
        if not wrong:
            self.dismiss(values)
            return
        self._touched |= set(self._fields)
        self._lines.close()
        name = next((name for name in self._fields if name in wrong), None)
        if name is not None:
            self._entries[name].focus()
        self._tell()

    def action_next_field(self) -> None:
        self.focus_next("TypedEntry, PickedEntry")

    def action_previous_field(self) -> None:
        self.focus_previous("TypedEntry, PickedEntry")

    def action_take_name(self) -> None:
        """Take the name that is lit; else on to the next field."""
        if not (isinstance(self.focused, TypedEntry) and self.focused.take_offer()):
            self.action_next_field()

    def action_light(self, by: int) -> None:
        """Another name of the list below the field; all of them where it is not open yet."""
        name = (self.focused.name or "") if self.focused is not None else ""
        if not self._lines.light(by) and name in self._completions:
            self._lines.offer(name, self._completions[name], lit_at_once=True)
            self._tell()

    def _read(self) -> tuple[dict[str, Any], dict[str, str]]:
        """Values by name, and what is wrong by name: how a text reads, then `alone`, then what `check` says."""
        values: dict[str, Any] = {}
        wrong: dict[str, str] = {}
        for name, entry in self._entries.items():
            try:
                values[name] = self._fields[name].parse(entry.text)
            except ValueError as unread:
                wrong[name] = str(unread)
                continue
            if problem := self._wrong_alone(name, values[name]):
                wrong[name] = problem
        if not wrong and self._check is not None:
            wrong.update(self._check(values))
        return values, wrong

    def _wrong_alone(self, name: str, value: Any) -> str:
        """What is wrong with the value of one field, whatever the others are; "" for nothing."""
        if value is None:
            return f"{self._fields[name].label} is still missing" if self._fields[name].required else ""
        return self._alone[name](value) if name in self._alone else ""

    def _tell(self) -> None:
        """Say below each field what is wrong with it, and at the end what there is to say of the one in hand."""
        values, wrong = self._read()
        in_hand = self.focused.name if self.focused is not None else None
        typing = in_hand if self._lines.offering else None
        self._take_heed({name: value for name, value in values.items() if name != typing})
        self._lines.tell({name: wrong[name] for name in self._touched & wrong.keys() if name != typing})
        whole = wrong.get("", "")
        self.query_one("#told", Static).set_class(bool(whole), "wrong")
        self._say("told", f"✗ {whole}" if whole else self._hint_for(in_hand))
        if in_hand in self._fields:
            self.call_after_refresh(self._lines.keep_in_view, in_hand)

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
            self._fit_lines()

    def _fit_lines(self) -> None:
        beside = sum(width_of(text) // WRAPS_AT + 2 for text in (self._said.get("heed", ""), self._caution) if text)
        self._lines.styles.max_height = max(3, self.room - beside)

    def _hint_for(self, name: str | None) -> str:
        if name not in self._fields:
            return ""
        field, known = self._fields[name], self._completions.get(name, ())
        names = with_keys(f"known: {few(known)}; {{next_name}} lists them", own_keys(self.app)) if known else ""
        entry = self._entries[name]
        how = _picking(entry, field) if isinstance(entry, PickedEntry) else TYPING.get(str(field.kind), "")
        return "  ".join(part for part in (how, field.help, names) if part)


def _picking(entry: PickedEntry, field: FieldLike) -> str:
    """How to pick, with all there is to pick from where the line has no room for it."""
    return PICKING if entry.shows_all else f"{PICKING}: {', '.join(field.choices)}"
