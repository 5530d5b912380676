"""How things stand at a moment: what cannot be told again later, and so is saved when an episode is closed."""

from collections.abc import Iterator

from buildlog.facts.builds import Build
from buildlog.facts.naming import position_name
from buildlog.facts.stock import Material
from buildlog.report.answers import overview, stock
from buildlog.report.mermaid import MOST_CATEGORIES, flowchart, line_chart
from buildlog.report.table import Table, escape, to_markdown
from buildlog.status.burn_down import BurnDown
from buildlog.status.milestones import TargetState
from buildlog.status.status import Status
from buildlog.terms import Moment
from buildlog.wording import count, day, day_and_clock, hours

MOST_BLOCKERS = 12


def standing(status: Status, build: Build) -> str:
    """The sections of a build as Markdown: sides, blockers, forecast, stock, questions, next goals."""
    parts = [
        to_markdown(_retitled(overview.mirror(status, build.id), "Both sides")),
        *_what_blocks(status, build),
        *_forecast(status),
        *_stock(status),
        *_questions(status, build),
        *_next(status, build),
    ]
    return "\n\n".join(parts)


def _retitled(table: Table, title: str) -> Table:
    return Table(table.key, title, table.columns, table.rows, table.empty, table.remarks)


def _bullets(heading: str, lines: list[str]) -> Iterator[str]:
    if lines:
        yield f"### {heading}"
        yield "\n".join(f"- {escape(line)}" for line in lines)


def _what_blocks(status: Status, build: Build) -> Iterator[str]:
    """The milestone's breakers with the leaves that hold them, as a list and a chart."""
    outlook = status.outlook
    yield "### What blocks what"
    if outlook.next_hard is None:
        yield "No day that does not move is ahead."
        return
    goal = outlook.next_hard
    zone = status.snapshot.settings.home_zone
    yield escape(
        f"{goal.name}, {day_and_clock(goal.due_at, zone)}: {count(goal.days_left, 'day')} left, "
        f"{hours(goal.bench_minutes)} of mine."
    )
    mine = [b for b in outlook.breakers if status.snapshot.assembly[b.assembly_id].build_id == build.id]
    if not mine:
        yield "Nothing stands in its way."
        return
    yield "\n".join(
        f"- {escape(b.name)}: {hours(b.minutes_beneath)} to print, {count(b.blockers, 'blocker')}" for b in mine
    )
    yield _chart(status, mine)


def _chart(status: Status, breakers: list[TargetState]) -> str:
    nodes: list[str] = [b.name for b in breakers]
    edges: list[tuple[int, int]] = []
    for index, breaker in enumerate(breakers):
        leaves = [leaf for p in breaker.position_ids for leaf in status.blockers.closure(p)]
        for blocker, _ in leaves[:MOST_BLOCKERS]:
            where = position_name(status.snapshot, blocker.position_id)
            text = f"{where}: {blocker.kind.value}, {blocker.text}"
            if text not in nodes:
                nodes.append(text)
            edge = (nodes.index(text), index)
            if edge not in edges:
                edges.append(edge)
        if len(leaves) > MOST_BLOCKERS:
            nodes.append(f"and {len(leaves) - MOST_BLOCKERS} more")
            edges.append((len(nodes) - 1, index))
    return flowchart(nodes, edges)


def _forecast(status: Status) -> Iterator[str]:
    found = status.hours
    usual = " (usual: too few weeks on the record)" if status.stock.hours_burn_down.usual_pace else ""
    yield "### Print hours"
    yield escape(
        f"Left: {hours(found.total_minutes)}, likely {hours(found.low_minutes)} to {hours(found.high_minutes)}. "
        f"Reprints and trials usually bring it to {hours(found.total_minutes * found.on_top.factor)}. "
        f"The pace is {status.learning.pace.hours_per_week:.0f} h a week{usual}."
    )
    yield burn_chart(status.stock.hours_burn_down, "Print hours left", status.snapshot.settings.home_zone)


def burn_chart(burn: BurnDown, title: str, zone: str) -> str:
    """Actual up to now, then the forecast between its slow and fast side."""
    ahead = burn.forecast[1:]
    past = burn.actual[-max(1, MOST_CATEGORIES - len(ahead[: MOST_CATEGORIES // 2])) :]
    shown: list[tuple[Moment, float]] = [*past, *ahead][:MOST_CATEGORIES]
    known = [value for _, value in past]
    lines = [known]
    for curve in (burn.forecast, burn.low, burn.high):
        lines.append([*known, *(value for _, value in curve[1:])])
    return line_chart(title, burn.unit, [day(at, zone)[4:] for at, _ in shown], lines)


def _stock(status: Status) -> Iterator[str]:
    yield to_markdown(stock.materials(status))
    for found in status.stock.materials.values():
        if found.short_mg > 0:
            material: Material = status.snapshot.material[found.material_id]
            yield escape(f"{material.code} {material.name}: {found.reason}")
    yield to_markdown(stock.baskets(status))


def _questions(status: Status, build: Build) -> Iterator[str]:
    zone = status.snapshot.settings.home_zone
    asked = [
        f"{q.code} {q.text} (asked {day(q.asked_at, zone)})"
        for q in status.snapshot.questions
        if q.build_id == build.id and q.retired_at is None and q.answered_at is None
    ]
    yield from _bullets("Open questions", asked)


def _next(status: Status, build: Build) -> Iterator[str]:
    """Open goals of episodes that are not closed, and what helps most now."""
    open_ids = {e.id: e for e in status.snapshot.episodes if e.build_id == build.id and e.closed_at is None}
    goals = [
        f"episode {open_ids[goal.episode_id].number}: {goal.kind.value} {_goal_name(status, goal.id)}".rstrip()
        for goal in status.snapshot.goals
        if goal.episode_id in open_ids and goal.ticked_at is None and goal.retired_at is None
    ]
    yield from _bullets("Next goals", goals)
    yield from _bullets("What helps most now", [found.text for found in status.doable[:5]])


def _goal_name(status: Status, goal_id: int) -> str:
    goal = next(g for g in status.snapshot.goals if g.id == goal_id)
    snapshot = status.snapshot
    side = f" {goal.side.value}" if goal.side else ""
    if goal.assembly_id is not None:
        return f"{snapshot.assembly[goal.assembly_id].name}{side} {goal.text}".strip()
    if goal.part_id is not None:
        return f"{snapshot.part[goal.part_id].name}{side} {goal.text}".strip()
    steps = {step.id: step.name for step in snapshot.steps}
    questions = {question.id: question.text for question in snapshot.questions}
    return steps.get(goal.step_id or 0) or questions.get(goal.question_id or 0) or goal.text
