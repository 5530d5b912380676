"""What questions hold and milestones want: a code of an assembly or a part, with a side where it has sides."""

from typing import Any

from sqlmodel import col

from buildlog.errors import NotFound, Refused
from buildlog.proposals.lines import Target
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.actions.storing.tree import has_sides
from buildlog.record.tables.tree import Assembly, Part
from buildlog.record.writer import Work

_TABLES: dict[str, type[Assembly] | type[Part]] = {"assembly": Assembly, "part": Part}


def target_of(code: str, nouns: tuple[str, ...], work: Work) -> tuple[str, Any]:
    """(noun, row) behind a code that may name a thing of several nouns; refused when it names two."""
    named = [noun for noun in nouns if work.first(_TABLES[noun], col(_TABLES[noun].code) == code)]
    if len(named) > 1:
        raise Refused(f"«{code}» is {' and '.join(named)}: give one of them another code first.")
    if not named and len(nouns) > 1:
        raise NotFound(" or ".join(nouns), code)
    noun = named[0] if named else nouns[0]
    return noun, live_row(work, noun, code)


def target_columns(target: Target, nouns: tuple[str, ...], work: Work) -> dict[str, Any]:
    noun, row = target_of(target.code, nouns, work)
    return {f"{noun}_id": row.id}


_SIDED = """
    SELECT 'milestone ' || m.code FROM milestone_target t JOIN milestone m ON m.id = t.milestone_id
        WHERE t.assembly_id = :id AND t.side IS NOT NULL AND m.retired_at IS NULL
    UNION SELECT 'question ' || q.code FROM question_target t JOIN question q ON q.id = t.question_id
        WHERE t.assembly_id = :id AND t.side IS NOT NULL AND q.retired_at IS NULL AND q.answered_at IS NULL
    UNION SELECT 'goal of episode ' || e.number FROM goal g JOIN episode e ON e.id = g.episode_id
        WHERE g.assembly_id = :id AND g.side IS NOT NULL AND g.retired_at IS NULL AND e.closed_at IS NULL
    UNION SELECT 'shot ' || h.code FROM shot h JOIN step s ON s.id = h.step_id
        WHERE s.assembly_id = :id AND h.side IS NOT NULL AND h.retired_at IS NULL AND h.filmed_at IS NULL
    ORDER BY 1"""


def refuse_lost_sides(assembly: Assembly, work: Work) -> None:
    """Refuse when something open names a side of an assembly that has none any more."""
    if has_sides(assembly, work):
        return
    found = work.ask(_SIDED, id=assembly.id).scalars().all()
    if found:
        raise Refused(f"{assembly.code} would have no sides, and {', '.join(found)} names one: change that first.")


def refuse_side(target: Target, nouns: tuple[str, ...], build_id: int | None, work: Work) -> None:
    """Refuse a target of another build (None: any may be meant), and a side where there is none."""
    noun, row = target_of(target.code, nouns, work)
    if build_id is not None and row.build_id != build_id:
        raise Refused(f"{noun} {target.code} belongs to another build: name one of this build.")
    sided = row.handed if noun == "part" else has_sides(row, work)
    if target.side is not None and not sided:
        why = "is not handed" if noun == "part" else "has no sides"
        raise Refused(f"{noun} {target.code} {why}: leave out {target.side}.")
