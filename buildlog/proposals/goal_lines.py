"""Goals of an episode as a person writes them, one a line or parted by semicolons.

A comma parts them too beside a goal with a verb (``ready DRUM, answer Q3, film it``); in free words it is a comma.

``ready LEG-F L``, ``shown HEAD``, ``step LEG-BOND L``, ``prove FL07``, ``answer Q3``; anything else is a goal in
free words, ticked by hand.
"""

import re
from dataclasses import dataclass

from buildlog.proposals.field import LONGEST_TEXT, code, printable
from buildlog.terms import GoalKind, Side

_GOAL = re.compile(r"(?P<kind>ready|shown|step|prove|answer)\s+(?P<code>\S+)(?:\s+(?P<side>[LRlr]))?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class GoalLine:
    kind: GoalKind
    code: str | None = None
    side: Side | None = None
    text: str = ""

    def __str__(self) -> str:
        if self.kind is GoalKind.FREE:
            return self.text
        return " ".join(filter(None, (self.kind, self.code, self.side)))


def read_goals(text: str) -> tuple[GoalLine, ...]:
    pieces = (piece for line in re.split(r"[;\n]", text) for piece in _parted(line))
    return tuple(_read_goal(piece) for piece in pieces if piece)


def _parted(line: str) -> list[str]:
    """At the commas beside a goal with a verb; the others belong to free words."""
    found: list[str] = []
    for piece in (each.strip() for each in line.split(",")):
        if found and piece and not (_GOAL.fullmatch(found[-1]) or _GOAL.fullmatch(piece)):
            found[-1] += f", {piece}"
        else:
            found.append(piece)
    return found


def write_goals(goals: tuple[GoalLine, ...]) -> str:
    return "; ".join(map(str, goals))


def _read_goal(text: str) -> GoalLine:
    match = _GOAL.fullmatch(text)
    if match is None:
        return GoalLine(GoalKind.FREE, text=printable(text, LONGEST_TEXT))
    side = Side(match["side"].upper()) if match["side"] else None
    return GoalLine(GoalKind(match["kind"].lower()), code(match["code"]), side)
