"""What blocks what: what breaks the next day that does not move, the leaves that hold it, and a chart of both."""

from collections import Counter
from collections.abc import Iterable, Iterator

from buildlog.facts.builds import Build
from buildlog.facts.naming import position_name
from buildlog.report.mermaid import flowchart
from buildlog.report.table import escape
from buildlog.status.blocker import Blocker, BlockerKind
from buildlog.status.milestones import TargetState
from buildlog.status.status import Status
from buildlog.wording import count, day_and_clock, hours

MOST_LEAVES = 8
LONGEST_LEAF = 90


def what_blocks(status: Status, build: Build) -> Iterator[str]:
    """Sections of Markdown."""
    yield "### What blocks what"
    yield from _all_kinds(status, build)
    goal = status.outlook.next_hard
    if goal is None:
        yield "No day that does not move is ahead."
        return
    zone = status.snapshot.settings.home_zone
    yield escape(
        f"{goal.name}, {day_and_clock(goal.due_at, zone)}: {count(goal.days_left, 'day')} left, "
        f"{hours(goal.bench_minutes)} of mine. What breaks it:"
    )
    mine = [b for b in status.outlook.breakers if status.snapshot.assembly[b.assembly_id].build_id == build.id]
    if not mine:
        yield "Nothing stands in its way."
        return
    yield "\n".join(f"- {escape(b.name)}: {escape(_breaks(status, b))}" for b in mine)
    yield _chart(status, goal.name, mine)


def _breaks(status: Status, breaker: TargetState) -> str:
    told = [f"{hours(breaker.minutes_beneath)} to print", _kinds(_leaves(status, breaker.position_ids))]
    if breaker.load_until is not None:
        told.append(f"no load before {day_and_clock(breaker.load_until, status.snapshot.settings.home_zone)}")
    return ", ".join(filter(None, told))


def _all_kinds(status: Status, build: Build) -> Iterator[str]:
    snapshot = status.snapshot
    roots = [
        position.id
        for position in snapshot.positions
        if position.parent_id is None and snapshot.assembly[position.assembly_id].build_id == build.id
    ]
    leaves = _leaves(status, roots)
    if leaves:
        yield escape(f"{count(len(leaves), 'blocker')} in all: {_kinds(leaves)}.")
    else:
        yield "Nothing blocks anything."


def _kinds(leaves: Iterable[Blocker]) -> str:
    """``4 × not printed, 1 × question open``, most first."""
    counts = Counter(leaf.kind.value for leaf in leaves)
    return ", ".join(f"{n} × {kind}" for kind, n in sorted(counts.items(), key=lambda one: (-one[1], one[0])))


def _leaves(status: Status, position_ids: Iterable[int]) -> list[Blocker]:
    """All that holds the positions, nearest first, each once; a wait shows as what is waited for."""
    found = [leaf for position_id in position_ids for leaf, _ in status.blockers.closure(position_id)]
    return list(dict.fromkeys(found))


def _chart(status: Status, goal: str, breakers: list[TargetState]) -> str:
    """Leaves of one place and kind share a box; what is held on purpose holds nothing up."""
    nodes = [goal, *(b.name for b in breakers)]
    edges: list[tuple[int, int]] = [(index, 0) for index in range(1, len(nodes))]
    for index, breaker in enumerate(breakers, 1):
        boxes: dict[tuple[int, str], list[Blocker]] = {}
        for leaf in _leaves(status, breaker.position_ids):
            if leaf.kind is not BlockerKind.HELD:
                boxes.setdefault((leaf.position_id, leaf.kind.value), []).append(leaf)
        texts = [_box(status, position_id, kind, found) for (position_id, kind), found in boxes.items()]
        if len(texts) > MOST_LEAVES:
            texts[MOST_LEAVES - 1 :] = [f"{breaker.name}: {len(texts) - MOST_LEAVES + 1} more"]
        for text in texts:
            if text not in nodes:
                nodes.append(text)
            edges.append((nodes.index(text), index))
    return flowchart(nodes, list(dict.fromkeys(edges)))


def _box(status: Status, position_id: int, kind: str, found: list[Blocker]) -> str:
    where = position_name(status.snapshot, position_id)
    text = f"{where}, {kind}: " + "; ".join(dict.fromkeys(leaf.text for leaf in found))
    return text if len(text) <= LONGEST_LEAF else text[: LONGEST_LEAF - 1].rstrip() + "…"
