"""Goals of an episode as a person writes them, one a line or parted by semicolons.

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
    return tuple(_read_goal(piece.strip()) for piece in re.split(r"[;\n]", text) if piece.strip())


def write_goals(goals: tuple[GoalLine, ...]) -> str:
    return "; ".join(map(str, goals))


def _read_goal(text: str) -> GoalLine:
    match = _GOAL.fullmatch(text)
    if match is None:
        return GoalLine(GoalKind.FREE, text=printable(text, LONGEST_TEXT))
    side = Side(match["side"].upper()) if match["side"] else None
    return GoalLine(GoalKind(match["kind"].lower()), code(match["code"]), side)
