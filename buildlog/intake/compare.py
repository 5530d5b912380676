"""A row against the ledger: what changed where since the file was last read, field by field."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from buildlog.intake.form_rows import FormRow
from buildlog.proposals.field import Field
from buildlog.proposals.file_base import FileBase
from buildlog.proposals.nouns import noun_fields
from buildlog.terms import HeldBy


@dataclass(frozen=True, slots=True)
class Conflicting:
    """One field that was changed in the file and in the ledger."""

    source: str
    line: int
    noun: str
    key: str
    column: str
    in_file: str
    in_ledger: str
    last_read: str | None

    def __str__(self) -> str:
        before = "it was never read from a file" if self.last_read is None else f"last read «{self.last_read}»"
        return (
            f"{self.source}, line {self.line}, {self.column}: {self.noun} {self.key} is «{self.in_file}» in the "
            f"file and «{self.in_ledger}» in the ledger ({before})"
        )


@dataclass(slots=True)
class Compared:
    """``take`` are values for the ledger, ``keep`` the fields whose text is now the last read one."""

    take: dict[str, Any] = field(default_factory=dict)
    keep: list[str] = field(default_factory=list)
    left: list[str] = field(default_factory=list)
    conflicts: list[Conflicting] = field(default_factory=list)


def compare(read: FormRow, held: Any, base: FileBase, prefer: HeldBy | None) -> Compared:
    """``held`` is the form in the ledger now, ``base`` what was last read."""
    found = Compared()
    fields = {each.name: each for each in noun_fields(read.noun)}
    for name, text in read.texts.items():
        in_ledger = fields[name].show(getattr(held, name))
        if _same(fields[name], read.values[name], getattr(held, name)):
            if (base.given.get(name), base.held.get(name)) != (text, in_ledger):
                found.keep.append(name)
        elif name not in base.given:
            _never_read(found, read, fields[name], in_ledger, prefer)
        elif base.given[name] == text:
            if base.held.get(name) != in_ledger:
                found.left.append(name)
        elif base.held.get(name) == in_ledger:
            found.take[name] = read.values[name]
        else:
            _conflict(found, read, name, in_ledger, base.given[name], prefer)
    found.keep += found.take
    return found


def _same(each: Field, in_file: Any, in_ledger: Any) -> bool:
    return bool((each.default if in_file is None else in_file) == in_ledger)


def _never_read(found: Compared, read: FormRow, each: Field, in_ledger: str, prefer: HeldBy | None) -> None:
    """A column is new: an empty cell says nothing, a value fills what is empty or usual in the ledger."""
    if read.values[each.name] is None:
        found.keep.append(each.name)
    elif in_ledger in ("", each.show(each.default)):
        found.take[each.name] = read.values[each.name]
    else:
        _conflict(found, read, each.name, in_ledger, None, prefer)


def _conflict(
    found: Compared, read: FormRow, name: str, in_ledger: str, last_read: str | None, prefer: HeldBy | None
) -> None:
    if prefer is HeldBy.FILE:
        found.take[name] = read.values[name]
    elif prefer is HeldBy.LEDGER:
        found.keep.append(name)
        found.left.append(name)
    else:
        source, line, column = read.columns.place(name)
        texts = (read.texts[name], in_ledger, last_read)
        found.conflicts.append(Conflicting(source, line, read.noun, read.key, column, *texts))


def changed_in_file(texts: Mapping[str, str], base: FileBase) -> bool:
    return any(base.given.get(name) != text for name, text in texts.items())
