"""An assembly and the parts that go into it, by one form: a line for each part."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from buildlog.errors import AlreadyThere
from buildlog.proposals.assemblies import AddAssemblyWithParts
from buildlog.proposals.field import Field, Kind, fields_of
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.part_lines import LINE_SHAPE, NewPart, read_new_part, write_new_part
from buildlog.screens.acts.thing_defaults import values_to_add
from buildlog.screens.acts.things import known_names
from buildlog.screens.asking import WHEN, with_moments, wrong_moments
from buildlog.screens.dialogs.ask_fields import AskFields
from buildlog.screens.naming import names_of
from buildlog.status.forms import keys_of
from buildlog.terms import Moment, SideRule

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status

LINES_OF_PARTS = 8
"""So many lines a form has (our choice); more parts come by a form of their own."""


async def add_with_parts(screen: LiveScreen, parent: str | None = None) -> str | None:
    """The code of the assembly that was added; what was refused is asked again as it was typed."""
    status = screen.status
    if status is None:
        return None
    values = values_to_add(status.snapshot, "assembly")
    if parent is not None:
        values |= {"parent": parent, "build": _build_of(status, parent)}
    values["paired"] = _paired_likely(status, values.get("parent"))
    while screen.status is not None:
        asked = await _ask(screen, screen.status, values)
        if asked is None:
            return None
        wish, at, values = asked
        if await screen.wish(wish, at) is not None:
            return str(wish.code)
    return None


async def _ask(
    screen: LiveScreen, status: Status, values: dict[str, Any]
) -> tuple[AddAssemblyWithParts, Moment | None, dict[str, Any]] | None:
    """The wish, when it happened, and what was typed."""
    snapshot = status.snapshot
    own = [field for field in fields_of(AddAssemblyWithParts) if field.name != "parts"]
    lines = [_line(number) for number in range(1, LINES_OF_PARTS + 1)]
    read = moment_reader(screen.live.ledger.now(), snapshot.settings.home_zone)
    known, codes = frozenset(names_of(snapshot, "part")), frozenset(keys_of(snapshot, "assembly"))
    materials = frozenset(names_of(snapshot, "material"))

    def line_wrong(part: NewPart) -> str:
        if part.name and part.code in known:
            return f"{part.code} is there already: without a name it is used as it is"
        if part.material is not None and part.material not in materials:
            return f"there is no material {part.material}: write the code of one behind the grams"
        stray = next((word for word in part.name.split() if word in materials), None)
        if stray is not None:
            return f"{stray} is a material: write it behind the grams"
        return "" if part.name or part.code in known else f"{part.code} is new: write its name behind the code"

    def wrong(answer: Mapping[str, Any]) -> dict[str, str]:
        return wrong_moments([WHEN], answer, read) or _wrong_together(answer) or _without_side(status, answer)

    alone: dict[str, Any] = {line.name: line_wrong for line in lines}
    alone["code"] = lambda code: str(AlreadyThere("assembly", code)) if code in codes else ""
    names = {field.name: names_of(snapshot, field.refers) for field in [*own, *lines] if field.refers}
    answer = await screen.app.push_screen_wait(
        AskFields(
            "Add an assembly with its parts",
            [*own, *lines, WHEN],
            values=values,
            check=wrong,
            alone=known_names(snapshot, tuple(own)) | alone,
            completions=names,
        )
    )
    if answer is None:
        return None
    given = {f.name: f.default if answer[f.name] is None else answer[f.name] for f in own}
    wish = AddAssemblyWithParts(**given, parts=_parts(answer))
    return wish, with_moments([WHEN], answer, read).get("at"), dict(answer)


def _line(number: int) -> Field:
    return Field(
        f"part_{number}",
        f"part {number}",
        Kind.LINES,
        refers="part",
        read=read_new_part,
        write=write_new_part,
        help=f"as {LINE_SHAPE}",
    )


def _parts(answer: Mapping[str, Any]) -> tuple[NewPart, ...]:
    return tuple(value for name, value in answer.items() if name.startswith("part_") and value is not None)


def _wrong_together(answer: Mapping[str, Any]) -> dict[str, str]:
    """What the action refuses, told before it is asked."""
    parts = _parts(answer)
    codes = [part.code for part in parts]
    twice = next((code for code in codes if codes.count(code) > 1), None)
    if twice is not None:
        return {"": f"{twice} stands in two lines: say how many with x2"}
    weighed = next((part.code for part in parts if part.grams is not None and part.material is None), None)
    if weighed is not None and answer["material"] is None:
        return {"material": f"{weighed} has grams: say of which material"}
    if answer["build"] is None and answer["parent"] is None:
        return {"build": "an assembly in no other one needs its build"}
    return {}


def _without_side(status: Status, answer: Mapping[str, Any]) -> dict[str, str]:
    """A handed part goes where there is a side, or says which."""
    of_position = (part for part in _parts(answer) if part.handed and part.side_rule is SideRule.AS_POSITION)
    handed = next((part.code for part in of_position), None)
    if handed is None or answer["paired"] or _has_sides(status, answer["parent"]):
        return {}
    return {"paired": f"{handed} is handed: say yes, or write L only, R only or one of each behind its name"}


def _paired_likely(status: Status, parent: str | None) -> bool:
    """As the last one beneath a root, where nothing above it is on a side."""
    if parent is None or _has_sides(status, parent):
        return False
    beneath = [a for a in status.snapshot.assemblies if a.parent_id is not None and a.retired_at is None]
    return beneath[-1].paired if beneath else True


def _has_sides(status: Status, code: str | None) -> bool:
    """Whether what is beneath this assembly is on a side already: paired stands once on any way down."""
    rows = status.snapshot.assembly
    here = next((a for a in rows.values() if a.code == code), None)
    while here is not None and not here.paired:
        here = rows[here.parent_id] if here.parent_id is not None else None
    return here is not None


def _build_of(status: Status, parent: str) -> str:
    """The code of the build that an assembly belongs to."""
    snapshot = status.snapshot
    row = next(a for a in snapshot.assemblies if a.code == parent)
    return next(build.code for build in snapshot.builds if build.id == row.build_id)
