"""Fields of forms that lie in rows of other tables, or not as they were typed: read back as they stand now."""

from collections.abc import Callable, Sequence
from typing import Any

from buildlog.proposals.lines import Ask, Line, Target
from buildlog.terms import BoughtAccount, BoughtEntryKind, GoalKind, SetUpKind, SpoolEntryKind, Wanted

GOAL_OF = {
    GoalKind.READY: "assembly",
    GoalKind.SHOWN: "assembly",
    GoalKind.STEP: "step",
    GoalKind.PROVE: "part",
    GoalKind.ANSWER: "question",
}
"""The noun that a goal's code names."""


def _code(rows: Any, table: str, row_id: int | None) -> Any:
    return None if row_id is None else rows.all(table, id=row_id)[0].code


def _newest(found: Sequence[Any]) -> Any:
    """The fact that happened last, None when there is none."""
    return max(found, key=lambda row: (row.at, row.id), default=None)


def current_revision(rows: Any, part_id: int) -> Any:
    """The revision of a part that came last."""
    return max(rows.all("revision", part_id=part_id), key=lambda row: (row.since_at, row.id))


def first_usage(rows: Any, part_id: int) -> Any:
    """The oldest usage of a part that has not ended, the one that the part's form shows; None without one."""
    return next(iter(rows.all("usage", part_id=part_id, ended_at=None)), None)


def _feeds(rows: Any, found: Sequence[Any]) -> dict[str, Any]:
    """Material and grams of the first and the second head, from demands or a file's tools."""
    values: dict[str, Any] = {}
    for head, ending in ((1, ""), (2, "_2")):
        feed = next((row for row in found if row.head == head), None)
        if feed is None:
            continue
        values[f"material{ending}"] = Ask(_code(rows, "material", feed.material_id), feed.polymer)
        values[f"grams{ending}"] = feed.part_mg
        values[f"purge{ending}"] = feed.purge_mg
        if head == 1:
            values["support"] = feed.support_mg
    return values


def _part(rows: Any, row: Any) -> dict[str, Any]:
    revision = current_revision(rows, row.id)
    values = {
        "revision": revision.letter,
        "print_time": revision.print_minutes,
        "hand_time": revision.hand_minutes,
        "figures_from": revision.figures_from,
    } | _feeds(rows, rows.all("demand", revision_id=revision.id))
    usage = first_usage(rows, row.id)
    if usage is None:
        return values
    return values | {
        "assembly": _code(rows, "assembly", usage.assembly_id),
        "quantity": usage.quantity,
        "side_rule": str(usage.side_rule),
        "spares": usage.spares_wanted,
        "second_will_do": usage.second_will_do,
    }


def _printer(rows: Any, row: Any) -> dict[str, Any]:
    newest = _newest(rows.all("set_up", printer_id=row.id, kind=SetUpKind.NOZZLE, head=1))
    return {} if newest is None else {"nozzle": newest.nozzle_um}


def _spool(rows: Any, row: Any) -> dict[str, Any]:
    opened = rows.all("spool_entry", spool_id=row.id, kind=SpoolEntryKind.OPENED)
    weighed = _newest(rows.all("spool_entry", spool_id=row.id, kind=SpoolEntryKind.WEIGHED))
    return {
        "tare": None if row.tare_assumed else row.tare_mg,
        "opened": min((entry.at for entry in opened), default=None),
        "weighed": None if weighed is None else weighed.gross_mg,
    }


def _bought_item(rows: Any, row: Any) -> dict[str, Any]:
    counted = row.account == BoughtAccount.COUNTED
    kind = BoughtEntryKind.COUNTED if counted else BoughtEntryKind.LEVEL
    newest = _newest(rows.all("bought_entry", bought_item_id=row.id, kind=kind))
    if newest is None:
        return {"stock": None}
    return {"stock": str(newest.amount if counted else newest.level)}


def _print_file(rows: Any, row: Any) -> dict[str, Any]:
    lines = tuple(
        Line(_code(rows, "part", line.part_id), line.side, line.quantity)
        for line in rows.all("file_line", print_file_id=row.id)
    )
    return {"lines": lines} | _feeds(rows, rows.all("file_tool", print_file_id=row.id))


def _step(rows: Any, row: Any) -> dict[str, Any]:
    uses = rows.all("step_use", step_id=row.id)
    return {
        "uses": tuple(Line(_code(rows, "bought_item", use.bought_item_id), quantity=use.quantity) for use in uses)
    }


def _question(rows: Any, row: Any) -> dict[str, Any]:
    targets = rows.all("question_target", question_id=row.id)
    return {
        "holds": tuple(
            Target(_code(rows, "assembly", target.assembly_id) or _code(rows, "part", target.part_id), target.side)
            for target in targets
        )
    }


def _fit_test(rows: Any, row: Any) -> dict[str, Any]:
    usages = [rows.all("usage", id=touched.usage_id)[0] for touched in rows.all("fit_test_usage", fit_test_id=row.id)]
    return {"parts": tuple(dict.fromkeys(_code(rows, "part", usage.part_id) for usage in usages))}


def _milestone(rows: Any, row: Any) -> dict[str, Any]:
    targets = rows.all("milestone_target", milestone_id=row.id)
    return {
        "targets": tuple(
            Target(_code(rows, "assembly", target.assembly_id), target.side, Wanted(target.wanted))
            for target in targets
        )
    }


def _goal(rows: Any, row: Any) -> dict[str, Any]:
    episode = rows.all("episode", id=row.episode_id)[0]
    noun = GOAL_OF.get(GoalKind(row.kind))
    code = _code(rows, noun, getattr(row, f"{noun}_id")) if noun else None
    return {"build": _code(rows, "build", episode.build_id), "number": episode.number, "code": code}


def _number(rows: Any, episode_id: int | None) -> int | None:
    """The number of an episode."""
    return None if episode_id is None else int(rows.all("episode", id=episode_id)[0].number)


def _shot(rows: Any, row: Any) -> dict[str, Any]:
    return {"episode": _number(rows, row.episode_id)}


def _viewer_question(rows: Any, row: Any) -> dict[str, Any]:
    return {
        "asked_in": _number(rows, row.asked_episode_id),
        "answered_in": _number(rows, row.answered_episode_id),
    }


APART: dict[str, Callable[[Any, Any], dict[str, Any]]] = {
    "part": _part,
    "printer": _printer,
    "spool": _spool,
    "bought item": _bought_item,
    "print file": _print_file,
    "step": _step,
    "question": _question,
    "fit test": _fit_test,
    "milestone": _milestone,
    "goal": _goal,
    "shot": _shot,
    "viewer question": _viewer_question,
}
"""By noun, from the source of rows and the noun's own row."""
