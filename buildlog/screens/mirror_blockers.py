"""What holds positions as rows: under the way to each place, the reasons there and what can be done about them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from rich.segment import Segment

from buildlog.facts.naming import position_name
from buildlog.screens.mirror_remedies import remedy
from buildlog.screens.widgets.cells import CUT_SIGN, Align, fit, width_of
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.rows import Cell, GridRow, Hint
from buildlog.screens.widgets.tones import Brush, Tone
from buildlog.terms import Side
from buildlog.wording import hours, span

if TYPE_CHECKING:
    from buildlog.status.blocker import Blocker
    from buildlog.status.blockers import Path
    from buildlog.status.status import Status

MOST = 300
"""Rows that anybody reads; a build of thousands of parts has more, and says so."""
BENEATH, WAITS = " › ", " ⇢ "

TONES = {
    "no material": Tone.BAD,
    "no printer can": Tone.BAD,
    "fit failed": Tone.BAD,
    "damaged": Tone.BAD,
    "missing": Tone.BAD,
    "take out": Tone.BAD,
    "wrong as it is": Tone.BAD,
    "fit stale": Tone.CAUTION,
    "sides out of step": Tone.CAUTION,
    "no one spool holds enough": Tone.CAUTION,
    "dry the spool first": Tone.CAUTION,
    "printer is down": Tone.CAUTION,
    "held on purpose": Tone.HELD,
    "stand-in": Tone.STAND_IN,
    "under way": Tone.FAINT,
    "on order": Tone.FAINT,
    "curing": Tone.FAINT,
    "jig taken": Tone.FAINT,
}


@dataclass(frozen=True, slots=True)
class Held:
    """A blocker, and the names on the way to it; the first is empty where it is of the place asked for itself."""

    leaf: Blocker
    way: str


@dataclass(frozen=True, slots=True)
class WayCell:
    """The way to a place; where it is too long its beginning is left out, since the end says where."""

    way: str

    def words(self) -> str:
        return self.way

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        shown = self.way
        while width_of(shown) > width and len(shown) > 2:
            shown = CUT_SIGN + shown[2:].lstrip()
        return [Segment(fit(shown, width, align), brush.of(Tone.STRONG))]


def holding(status: Status, position_ids: tuple[int, ...]) -> list[Held]:
    """All that holds these positions, each once, nearest first."""
    several = len(position_ids) > 1
    way = cache(lambda start, path: _way(status, start, path))  # many hold the same place
    found: dict[int, tuple[int, Held]] = {}
    for position_id in position_ids:
        start = position_name(status.snapshot, position_id) if several else ""
        for leaf, path in status.blockers.closure(position_id):
            found.setdefault(id(leaf), (len(path), Held(leaf, way(start, path))))
    if not several:
        return [held for _, held in found.values()]
    return [held for _, held in sorted(found.values(), key=lambda pair: pair[0])]


def _way(status: Status, start: str, path: Path) -> str:
    """``FOOT L › TOE L.1``; a wait is written as ⇢."""
    way = start
    for link in path:
        name = position_name(status.snapshot, link.position_id)
        joint = WAITS if link.by_wait else BENEATH
        way = f"{way}{joint}{name}" if way else f"{joint.strip()} {name}" if link.by_wait else name
    return way


def blocker_rows(status: Status, found: list[Held]) -> tuple[list[GridRow], dict[str, Blocker]]:
    """Rows under a heading for each place, alike ones in one, and the blocker of each row by key."""
    rows: list[GridRow] = []
    leaves: dict[str, Blocker] = {}
    by_way: dict[str, list[Blocker]] = {}
    for held in found[:MOST]:
        by_way.setdefault(held.way, []).append(held.leaf)
    for way, here in by_way.items():
        if way:
            rows.append(GridRow(f"way:{way}", (WayCell(way),), Hint.GROUP))
        for leaf in here:
            key = f"{leaf.position_id}:{leaf.kind.name}:{leaf.about.noun}:{leaf.about.id}:{leaf.text}"
            if key not in leaves:
                leaves[key] = leaf
                rows.append(_row(status, key, leaf))
    if len(found) > MOST:
        rows.append(GridRow("more", (Cell(f"… and {len(found) - MOST} more beneath", Tone.FAINT),)))
    return rows, leaves


def _row(status: Status, key: str, leaf: Blocker) -> GridRow:
    """The reason, what it takes (hours to print, else my time), and what enter does."""
    mine = span(leaf.bench_minutes) if leaf.bench_minutes else ""
    takes = hours(leaf.print_minutes) if leaf.print_minutes else mine
    do = remedy(status, leaf)
    word = Cell(do.word, Tone.ACCENT if do.here else Tone.FAINT)
    return GridRow(key, (Cell(leaf.text, TONES.get(leaf.kind.value, Tone.PLAIN)), Cell(takes, Tone.FAINT), word))


def told_of_side(status: Status, position_ids: tuple[int, ...], side: Side, count: int) -> list[Fact]:
    """The names, how many hold it, the print hours beneath."""
    if not position_ids:
        return []
    snapshot = status.snapshot
    name = position_name(snapshot, position_ids[0])
    if len(position_ids) > 1:
        code = snapshot.assembly[snapshot.position[position_ids[0]].assembly_id].code
        name = f"{code} {'' if side is Side.NONE else f'{side} '}×{len(position_ids)}"
    told = [status.progress.by_position[position_id] for position_id in position_ids]
    if all(one.ready for one in told):
        return [Fact(name, "ready", Tone.GOOD)]
    minutes = sum(one.hours_beneath_minutes for one in told)
    facts = [Fact(name, "1 holds it" if count == 1 else f"{count} hold it")]
    return [*facts, Fact("print", hours(minutes))] if minutes else facts
