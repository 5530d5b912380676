"""What rows about things would do: add, change, or leave, and what stands in conflict."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import PurePath
from typing import Any

from buildlog.intake.compare import Conflicting, changed_in_file, compare
from buildlog.intake.form_rows import FormRow
from buildlog.intake.order import AFTERWARDS
from buildlog.proposals.file_base import NEVER_READ, FileBase
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.from_file import FromFile, KeptForm
from buildlog.proposals.nouns import Add, BringBack, Change, key_of
from buildlog.proposals.recorded import Rows, is_live, live_forms, rows_named
from buildlog.terms import HeldBy

Bases = Mapping[tuple[str, str], FileBase]
_OF_USAGE = ("quantity", "side_rule", "spares", "second_will_do")


@dataclass(frozen=True, slots=True)
class Named:
    """A thing, and the fields that it is about where not all of it is."""

    noun: str
    key: str
    fields: tuple[str, ...] = ()

    def __str__(self) -> str:
        fields = ", ".join(name.replace("_", " ") for name in self.fields)
        return f"{self.noun} {self.key}".strip() + (f" ({fields})" if fields else "")


@dataclass(slots=True)
class FormsPlan:
    """Facts in the order of the rows, ``late`` ones after all others about things."""

    facts: list[FromFile] = field(default_factory=list)
    late: list[FromFile] = field(default_factory=list)
    kept: list[KeptForm] = field(default_factory=list)
    added: list[Named] = field(default_factory=list)
    changed: list[Named] = field(default_factory=list)
    left: list[Named] = field(default_factory=list)
    conflicts: list[Conflicting] = field(default_factory=list)
    unchanged: int = 0


class FormsPlanner:
    """Lays rows, in order, against the ledger's things and what was last read of them."""

    def __init__(self, held: Rows, bases: Bases, prefer: HeldBy | None, problems: Problems) -> None:
        self._held, self._bases, self._prefer, self._problems = held, bases, prefer, problems
        self._live: dict[str, dict[str, Any]] = {}
        self._first_usages: dict[str, Any] = {}
        self.plan = FormsPlan()

    def take_all(self, rows: Iterable[FormRow]) -> FormsPlan:
        for read in rows:
            form = self.live(read.noun).get(read.key)
            if form is not None:
                self._compare(read, form)
            elif (read.noun, read.key) in self._bases:
                self._gone(read)
            elif read.noun != "usage" or not self._is_first_usage(read):
                self._add(read)
            if read.noun == "part" and read.form.assembly is not None:
                self._first_usages[f"{read.form.assembly}/{read.key}"] = read.form
        return self.plan

    def live(self, noun: str) -> dict[str, Any]:
        """Everything of a noun that is in use, by key."""
        if noun not in self._live:
            self._live[noun] = {key_of(form): form for form in live_forms(self._held, noun)}
        return self._live[noun]

    def _compare(self, read: FormRow, form: Any) -> None:
        found = compare(read, form, self._bases.get((read.noun, read.key), NEVER_READ), self._prefer)
        self.plan.conflicts += found.conflicts
        if found.left:
            self.plan.left.append(Named(read.noun, read.key, tuple(found.left)))
        if found.take:
            self.plan.changed.append(Named(read.noun, read.key, tuple(found.take)))
            self._change(read, found.take)
        elif not found.left and not found.conflicts:
            self.plan.unchanged += 1
        if found.keep:
            self._keep(read, found.keep)

    def _change(self, read: FormRow, values: Mapping[str, Any]) -> None:
        late = {name: value for name, value in values.items() if name in AFTERWARDS.get(read.noun, ())}
        now = {name: value for name, value in values.items() if name not in late}
        if now:
            self.plan.facts.append(_fact(read, Change(read.noun, read.key, now)))
        if late:
            self.plan.late.append(_fact(read, Change(read.noun, read.key, late)))

    def _add(self, read: FormRow) -> None:
        later = AFTERWARDS.get(read.noun, ())
        late = {name: value for name in later if (value := getattr(read.form, name)) is not None}
        form = replace(read.form, **dict.fromkeys(late)) if late else read.form
        self.plan.added.append(Named(read.noun, read.key))
        self.plan.facts.append(replace(_fact(read, Add(form)), at=read.at))
        if late:
            self.plan.late.append(replace(_fact(read, Change(read.noun, read.key, late)), at=read.at))
        self._keep(read, read.texts)

    def _gone(self, read: FormRow) -> None:
        """What was read before and is no longer in use in the ledger, or is called otherwise there."""
        base = self._bases[read.noun, read.key]
        if not changed_in_file(read.texts, base) or self._prefer is HeldBy.LEDGER:
            self.plan.left.append(Named(read.noun, read.key))
            return
        if self._prefer is None:
            place = (read.row.source, read.row.line, read.noun, read.key, read.noun)
            self.plan.conflicts.append(Conflicting(*place, "changed", "no longer in use", None))
            return
        retired = [row for row in rows_named(self._held, read.noun, read.key) if not is_live(row)]
        if not retired:
            self._add(read)
            return
        self.plan.changed.append(Named(read.noun, read.key))
        self.plan.facts.append(_fact(read, BringBack(read.noun, read.key)))
        self._change(read, read.values)
        self._keep(read, read.texts)

    def _is_first_usage(self, read: FormRow) -> bool:
        """A part's row tells its first usage; the usage's own row must then say the same."""
        part = self._first_usages.get(read.key)
        if part is None:
            return False
        for name in _OF_USAGE:
            if name in read.values and getattr(read.form, name) != getattr(part, name):
                message = f"the row of part {read.form.part} says otherwise of this usage: say it in one place"
                self._problems.add(*read.columns.place(name), message)
        self.plan.added.append(Named(read.noun, read.key))
        self._keep(read, read.texts)
        return True

    def _keep(self, read: FormRow, names: Iterable[str]) -> None:
        given = tuple((name, read.texts[name]) for name in names)
        self.plan.kept.append(KeptForm(read.noun, read.key, file_name(read.row.source), given))


@cache
def file_name(source: str) -> str:
    """By its name a file is known again, wherever it lies."""
    return PurePath(source).name


def _fact(read: FormRow, wish: Any) -> FromFile:
    return FromFile(wish, None, read.row.source, read.row.line, read.columns.all())
