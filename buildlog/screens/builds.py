"""All builds or one: which is shown on every screen, and which rows of a list belong to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.widgets.rows import GridRow, Hint

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from buildlog.facts.builds import Build
    from buildlog.facts.snapshot import Snapshot
    from buildlog.screens.app import Buildlog
    from buildlog.status.status import Status

NO_BUILD = "There is no build yet: enter on the first line of Today begins one."
ONLY_ONE = "There is only one build; a second one is added on Things ({go_things}), with {add_thing}."


async def switch_build(app: Buildlog) -> None:
    """Ask which build is to be shown everywhere, the one in view left out."""
    from buildlog.screens.dialogs.choose import Choice, Choose
    from buildlog.status.needs_order import builds_in_order

    builds = builds_in_order(app.status.snapshot) if app.status is not None else []
    if len(builds) < 2:
        app.tell(ONLY_ONE if builds else NO_BUILD)
        return
    every = [Choice(0, "all builds", "nothing is left out")]
    choices = [*every, *(Choice(build.id, build.name, f"{build.code}, {build.state.value}") for build in builds)]
    others = [choice for choice in choices if choice.value != (app.build_id or 0)]
    chosen = await app.push_screen_wait(Choose("Show which build, on every screen?", others))
    if chosen is not None:
        app.show_build(chosen or None)


def build_in_view(snapshot: Snapshot, build_id: int | None) -> Build | None:
    """The one build that is shown; None for all, also where that one was retired meanwhile."""
    return next((b for b in snapshot.builds if b.id == build_id and b.retired_at is None), None)


def only_of_build(status: Status, build_id: int | None, rows: Sequence[GridRow]) -> list[GridRow]:
    """The rows of one build, and those that belong to no build; a heading goes with the last row beneath it."""
    if build_in_view(status.snapshot, build_id) is None:
        return list(rows)
    kept: list[GridRow] = []
    for row in rows:
        if row.hint is Hint.GROUP and kept and kept[-1].hint is Hint.GROUP:
            kept.pop()
        builds = set() if row.hint is Hint.GROUP else builds_of_row(status, row.key)
        if not builds or build_id in builds:
            kept.append(row)
    return kept[:-1] if kept and kept[-1].hint is Hint.GROUP else kept


def builds_of_row(status: Status, key: str) -> set[int]:
    """Ids of the builds that a row ``noun:id`` belongs to; none for what builds share."""
    noun, _, rest = key.partition(":")
    if noun == "doable" and rest.isdecimal():  # there may be thousands
        found = status.doable[int(rest)].position_id
        return _of_positions(status.snapshot, () if found is None else (found,))
    numbers = [int(part) for part in rest.split("-") if part.isdecimal()]
    if not numbers:
        return set()
    snapshot = status.snapshot
    if noun in ("position", "curing"):
        return _of_positions(snapshot, numbers[:1])
    if noun in ("fit", "step", "cure"):
        return _of_positions(snapshot, (place for place in numbers[1:] if place))
    if noun in ("offer", "night"):
        return _of_parts(snapshot, (line.part_id for line in snapshot.lines_of_file.get(numbers[-1], ())))
    if noun in ("job", "print"):
        return _of_parts(snapshot, (line.part_id for line in snapshot.lines_of_job.get(numbers[0], ())))
    return {snapshot.assembly[numbers[0]].build_id} if noun == "assembly" else set()


def _of_positions(snapshot: Snapshot, position_ids: Iterable[int]) -> set[int]:
    return {snapshot.assembly[snapshot.position[place].assembly_id].build_id for place in position_ids}


def _of_parts(snapshot: Snapshot, part_ids: Iterable[int | None]) -> set[int]:
    return {snapshot.part[part_id].build_id for part_id in part_ids if part_id is not None}
