"""The names that a line may use, out of a Snapshot: codes and titles of things in use, positions, marked pieces."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Any, NamedTuple

from buildlog.facts.bench import FitTest, Step
from buildlog.facts.builds import Build
from buildlog.facts.naming import part_name, position_name
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.told import why_prints_failed
from buildlog.proposals.places import Place, read_place
from buildlog.terms import BuildState, JobState, Side, SpoolEntryKind

MOST_FOUND = 12
_PARTS = re.compile(r"[\s_./×-]+")
_TITLED = {
    "spool": "spools",
    "printer": "printers",
    "print file": "print_files",
    "material": "materials",
    "bought item": "bought_items",
    "box": "boxes",
    "part": "parts",
    "assembly": "assemblies",
    "question": "questions",
    "supplier": "suppliers",
    "milestone": "milestones",
    "build": "builds",
    "resource": "resources",
}


class Name(NamedTuple):
    """What a thing is called: by code, and by its title in words."""

    code: str
    title: str
    pieces: frozenset[str]

    @classmethod
    def of(cls, code: str, title: str = "") -> "Name":
        return cls(code, title.casefold(), frozenset(map(_stem, _PARTS.split(f"{code} {title}".casefold()))))


def _stem(word: str) -> str:
    """Without the s of several: «screws» finds «screw»."""
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


@dataclass(frozen=True)
class Known:
    """Names by noun. What is retired, closed, used up or ended is not among them. ``build_id``: the one in view."""

    snapshot: Snapshot
    build_id: int | None = None

    @cached_property
    def names(self) -> dict[str, tuple[Name, ...]]:
        found = {noun: _live(getattr(self.snapshot, rows)) for noun, rows in _TITLED.items()}
        empty = {e.spool_id for e in self.snapshot.spool_entries if e.kind is SpoolEntryKind.EMPTIED}
        found["spool"] = _live(spool for spool in self.snapshot.spools if spool.id not in empty)
        found["shot"] = tuple(Name.of(s.code, s.what) for s in self.snapshot.shots if s.retired_at is None)
        found["step"] = _live(self.snapshot.steps)
        found["step in a position"] = _live(s for s in self.snapshot.steps if s.assembly_id is not None)
        found["step on pieces"] = _live(s for s in self.snapshot.steps if s.part_id is not None)
        found["fit test"] = _live(self.snapshot.fit_tests)
        found["order"] = tuple(Name.of(order.code) for order in self.snapshot.orders if order.closed_at is None)
        return found

    @cached_property
    def by_code(self) -> dict[tuple[str, str], str]:
        """Code by noun and the code in small letters; spools that are used up too."""
        empty = {("spool", row.code.casefold()): row.code for row in self.snapshot.spools if row.retired_at is None}
        return empty | {(noun, n.code.casefold()): n.code for noun, names in self.names.items() for n in names}

    @cached_property
    def marks(self) -> dict[str, str]:
        """Marks of single pieces by the mark in small letters."""
        return {lot.mark.casefold(): lot.mark for lot in self.snapshot.lots if lot.mark}

    @cached_property
    def places(self) -> dict[str, tuple[Place, ...]]:
        """Live positions by the code of their assembly."""
        found: dict[str, list[Place]] = {}
        for position in self.snapshot.positions:
            if position.retired_at is None:
                place = read_place(position_name(self.snapshot, position.id))
                found.setdefault(place.assembly, []).append(place)
        return {code: tuple(places) for code, places in found.items()}

    @cached_property
    def pieces(self) -> tuple[str, ...]:
        """What pieces may be called: marks, and every part with its sides."""
        parts = [
            part_name(self.snapshot, part.id, side)
            for part in self.snapshot.parts
            if part.retired_at is None
            for side in ((Side.LEFT, Side.RIGHT) if part.handed else (Side.NONE,))
        ]
        return (*parts, *self.marks.values())

    @cached_property
    def running(self) -> dict[str, tuple[str, ...]]:
        """Printers by the small code of the file, or the words, of what runs on them; each by its own code too."""
        printers = {printer.id: printer.code for printer in self.snapshot.printers}
        files = {file.id: file.code for file in self.snapshot.print_files}
        found: dict[str, tuple[str, ...]] = {}
        for job in self.snapshot.jobs:
            if job.state is JobState.RUNNING and job.printer_id is not None:
                printer = printers[job.printer_id]
                for name in {printer, files.get(job.print_file_id or 0, ""), job.name} - {""}:
                    found[name.casefold()] = (*found.get(name.casefold(), ()), printer)
        return found

    @cached_property
    def causes(self) -> tuple[str, ...]:
        """Causes of failure that were told before, the newest first."""
        return tuple(dict.fromkeys(cause for cause in reversed(tuple(why_prints_failed(self.snapshot))) if cause))

    @cached_property
    def main_build(self) -> Build | None:
        """The build in view, or the open one that is first in rank."""
        builds = [b for b in self.snapshot.builds if b.state is BuildState.OPEN and b.retired_at is None]
        return min(builds, key=lambda b: (b.id != self.build_id, b.rank is None, b.rank or 0, b.id), default=None)

    def find(self, noun: str, text: str) -> tuple[str, ...]:
        """Codes that a text may mean: the code itself, the title, all its words, or how a code begins."""
        text = text.strip()
        if not text:
            return ()
        exact = self.by_code.get((noun, text))
        if exact is not None:
            return (exact,)
        names = self.names.get(noun, ())
        titled = [name.code for name in names if name.title == text]
        if titled:
            return tuple(titled[:MOST_FOUND])
        wanted = {_stem(word) for word in _PARTS.split(text) if word}
        worded = [name.code for name in names if wanted and wanted <= name.pieces]
        if worded:
            return tuple(worded[:MOST_FOUND])
        begun = [name.code for name in names if len(text) > 1 and name.code.casefold().startswith(text)]
        return tuple(begun[:MOST_FOUND])

    def step(self, code: str) -> Step:
        return next(step for step in self.snapshot.steps if step.code == code)

    def test(self, code: str) -> FitTest:
        return next(test for test in self.snapshot.fit_tests if test.code == code)

    def is_handed(self, part: str) -> bool:
        return any(row.handed for row in self.snapshot.parts if row.code == part)


def _live(rows: Iterable[Any]) -> tuple[Name, ...]:
    return tuple(
        Name.of(row.code, getattr(row, "name", "") or getattr(row, "text", ""))
        for row in rows
        if row.retired_at is None
    )
