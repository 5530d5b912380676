"""How things stand at a moment: what cannot be told again later, and so is saved when an episode is closed."""

import dataclasses
from collections.abc import Iterator

from buildlog.facts.builds import Build
from buildlog.facts.naming import position_name
from buildlog.report.answers import fits, overview, stock, story
from buildlog.report.blocking import what_blocks
from buildlog.report.burn_chart import burn_chart
from buildlog.report.goals import goal_name
from buildlog.report.supplied import promised
from buildlog.report.table import Table, escape, to_markdown
from buildlog.status.doable import Doable
from buildlog.status.status import Status
from buildlog.status.stock import burn_down_of
from buildlog.wording import day, hours, money

MOST_MATERIAL_CHARTS = 2
MOST_HELPING = 5


def standing(status: Status, build: Build) -> str:
    """The sections of a build as Markdown: sides, blockers, forecast, stock, orders, questions, shots, next goals."""
    parts = [
        *_sides(status, build),
        *what_blocks(status, build),
        *_forecast(status, build),
        *_stock(status),
        *_orders(status),
        *_questions(status, build),
        *_story(status, build),
        *_next(status, build),
    ]
    return "\n\n".join(parts)


def _retitled(table: Table, title: str) -> Table:
    return dataclasses.replace(table, title=title)


def bullets(heading: str, lines: list[str]) -> Iterator[str]:
    """A section of its own, none where there is nothing to list."""
    if lines:
        yield f"### {heading}"
        yield "\n".join(f"- {escape(line)}" for line in lines)


def _sides(status: Status, build: Build) -> Iterator[str]:
    yield to_markdown(_retitled(overview.mirror(status, build.id), "Both sides"))
    found = fits.fits(status, build_id=build.id)
    if found.rows:
        yield to_markdown(_retitled(found, "Fits that ask for something"))


def _forecast(status: Status, build: Build) -> Iterator[str]:
    yield to_markdown(_retitled(overview.milestones(status, build.id), "Days to make"))
    found, burn = status.hours, status.stock.hours_burn_down
    usual = " (usual: too few weeks on the record)" if burn.usual_pace else ""
    yield "### Print hours"
    yield escape(
        f"Of all open builds together. Left: {hours(found.total_minutes)}, likely {hours(found.low_minutes)} to "
        f"{hours(found.high_minutes)}; reprints and trials usually bring it to "
        f"{hours(found.total_minutes * found.on_top.factor)}. "
        f"The pace is {status.learning.pace.hours_per_week:.0f} h a week{usual}."
    )
    if found.total_minutes:
        yield burn_chart(burn, "Print hours left", status.snapshot.settings.home_zone)
    currency, cost = status.snapshot.settings.currency, status.cost
    yield escape(
        f"Of all builds spent so far: {money(cost.spent.total_minor, currency)}; to finish: "
        f"{money(cost.to_finish.total_minor, currency)} (filament, bought items, electricity)."
    )


def _stock(status: Status) -> Iterator[str]:
    yield to_markdown(stock.materials(status))
    snapshot = status.snapshot
    ending = [m for m in status.stock.materials.values() if m.order_by is not None and m.need_mg]
    ending.sort(key=lambda m: (m.order_by or "", m.material_id))
    for found in ending[:MOST_MATERIAL_CHARTS]:
        material = snapshot.material[found.material_id]
        burn = burn_down_of(snapshot, status.now, status.stock, status.hours, material.id)
        yield burn_chart(burn, f"{material.code} on hand, nothing new ordered", snapshot.settings.home_zone)
        yield escape(f"{material.code} {material.name}: {found.reason}.")


def _orders(status: Status) -> Iterator[str]:
    yield to_markdown(stock.baskets(status))
    yield to_markdown(promised(status))


def _questions(status: Status, build: Build) -> Iterator[str]:
    zone = status.snapshot.settings.home_zone
    asked = [
        f"{q.code} {q.text} (asked {day(q.asked_at, zone)})"
        for q in status.snapshot.questions
        if q.build_id == build.id and q.retired_at is None and q.answered_at is None
    ]
    yield from bullets("Open questions", asked)


def _story(status: Status, build: Build) -> Iterator[str]:
    """What is to be filmed, who waits for an answer, who was promised something; none where nothing is open."""
    for found in (story.shots, story.viewers, story.promises):
        table = found(status, build_id=build.id)
        if table.rows:
            yield to_markdown(table)


def _next(status: Status, build: Build) -> Iterator[str]:
    """Open goals of episodes that are not closed, and what helps most now."""
    open_ids = {e.id: e for e in status.snapshot.episodes if e.build_id == build.id and e.closed_at is None}
    goals = [
        f"episode {open_ids[goal.episode_id].number}: {goal_name(status.snapshot, goal)}"
        for goal in status.snapshot.goals
        if goal.episode_id in open_ids and goal.ticked_at is None and goal.retired_at is None
    ]
    yield from bullets("Next goals", goals)
    yield from bullets("What helps most now", [_where(status, found) for found in status.doable[:MOST_HELPING]])


def _where(status: Status, found: Doable) -> str:
    if found.position_id is None:
        return found.text
    return f"{position_name(status.snapshot, found.position_id)}: {found.text}"
