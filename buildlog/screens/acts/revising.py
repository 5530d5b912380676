"""A new revision of a part, or another part in its place: what old ones are good for, and what changes with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from buildlog.proposals.field import Field, fields_of
from buildlog.proposals.revisions import Revise, Supersede
from buildlog.screens.acts.thing_defaults import values_to_copy
from buildlog.screens.acts.things import add_thing
from buildlog.screens.asking import Asked, ask_wish
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.dialogs.tick_off import TickOff
from buildlog.status.forms import form_of
from buildlog.status.touching import bonded_in, rest_of_set, touching
from buildlog.terms import OldGoodFor, Origin, Side
from buildlog.wording import few

if TYPE_CHECKING:
    from buildlog.facts.snapshot import Snapshot
    from buildlog.facts.tree import Part
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status

FIGURES = {
    Origin.PRINTED: ("print_time", "grams", "support", "purge", "grams_2", "purge_2", "figures_from"),
    Origin.MADE: ("hand_time",),
}
SECOND_HEAD = ("grams_2", "purge_2")
NEW_PART = "a new part"


async def revise_part(screen: LiveScreen, part_id: int, because: str = "") -> None:
    """Asks what old ones are good for, then what else changes; each of those is asked in its turn."""
    values: dict[str, Any] = {"what_changed": because}
    while (status := screen.status) is not None:
        part = status.snapshot.part[part_id]
        if part.origin is Origin.BOUGHT:
            screen.live.tell(f"{part.code} is bought: it has no revisions. Supersede it by another part.")
            return
        asked = await _ask_revision(screen, status, part, values)
        ticked = None if asked is None else await _ticked(screen, status, part, "revised")
        if asked is None or ticked is None:
            return
        wish = replace(asked.wish, also_touches=tuple(status.snapshot.part[i].code for i in ticked))
        if await screen.wish(wish, asked.at) is not None:
            await _go_on(screen, part, ticked)
            return
        values = {name: getattr(wish, name) for name in _asked_names(status, part)}


async def supersede_part(screen: LiveScreen, part_id: int) -> None:
    """By a part that is there or a new one; then what stands bonded in, and what else changes."""
    status = screen.status
    if status is None:
        return
    part = status.snapshot.part[part_id]
    successors = _successors(status.snapshot, part)
    choices = [Choice(NEW_PART, NEW_PART, f"with the figures of {part.code}, to be changed")]
    choices += [Choice(other.code, other.code, other.name) for other in successors]
    by: str | None = await screen.pick(f"What takes the place of {part.code} {part.name}?", choices)
    if by == NEW_PART:
        by = await add_thing(screen, "part", **_as_new(status.snapshot, part))
    if by is None:
        return
    homes = bonded_in(status.snapshot, part_id)
    asked = await ask_wish(
        screen.live,
        Supersede,
        f"{by} in place of {part.code}",
        values={"part": part.code, "by": by},
        only=("bonded",) if homes else ("by",),
        check=lambda wish: _bonded_wrong(homes, wish.bonded),
        as_asked={"bonded": _bonded_field(Supersede, homes)},
    )
    ticked = None if asked is None else await _ticked(screen, status, part, "superseded")
    if asked is not None and ticked is not None and await screen.wish(asked.wish, asked.at) is not None:
        await _go_on(screen, part, ticked)


async def _ask_revision(screen: LiveScreen, status: Status, part: Part, values: Mapping[str, Any]) -> Asked | None:
    snapshot = status.snapshot
    homes = bonded_in(snapshot, part.id)
    rest = tuple(snapshot.part[i].code for i in rest_of_set(snapshot, part.id))
    known: dict[str, Any] = {"part": part.code, "together": rest, "side": Side.LEFT.value if part.handed else None}
    letters = [revision.letter for revision in snapshot.revisions if revision.part_id == part.id]

    def wrong(wish: Revise) -> Mapping[str, str]:
        answers = {wish.old, wish.old_other} if part.handed else {wish.old}
        return _bonded_wrong(homes, wish.bonded) if answers != {OldGoodFor.STILL_GOOD} else {}

    with_it = f", with {', '.join(rest)} of the same set" if rest else ""
    return await ask_wish(
        screen.live,
        Revise,
        f"Revise {part.code} {part.name}{with_it}",
        values={**known, **values},
        only=_asked_names(status, part),
        check=wrong,
        alone={"revision": lambda letter: f"there is a revision {letter} already" if letter in letters else ""},
        as_asked=_in_words(status, part, homes),
    )


def _asked_names(status: Status, part: Part) -> tuple[str, ...]:
    """What is asked of this part: per side where it has two, figures as it is made, bonded where it stands so."""
    revision = status.snapshot.revision[status.needs.old.current[part.id]]
    heads = {demand.head for demand in status.snapshot.demands_of.get(revision.id, [])}
    figures = [name for name in FIGURES.get(part.origin, ()) if name not in SECOND_HEAD or 2 in heads]
    bonded = ("bonded",) if bonded_in(status.snapshot, part.id) else ()
    other = ("old_other",) if part.handed else ()
    return ("what_changed", "old", *other, *bonded, "revision", *figures)


def _in_words(status: Status, part: Part, homes: Sequence[str]) -> dict[str, Field]:
    """Both sides by name, and beside each figure what it is now."""
    table = {field.name: field for field in fields_of(Revise)}
    form = form_of(status.snapshot, "part", part.code)
    now = {name: table[name].show(getattr(form, name)) for names in FIGURES.values() for name in names}
    said = {
        name: replace(table[name], help=f"now {text or 'not told'}; empty: stays so") for name, text in now.items()
    }
    worse = "still good: they count; stand-ins: until replaced; no good: to be taken out"
    label = "old left ones are" if part.handed else "old ones are"
    both = "" if part.handed else f"; {part.code} serves both sides: this holds on both"
    said["old"] = replace(table["old"], label=label, help=worse + both)
    said["old_other"] = replace(table["old_other"], label="old right ones are", help=worse)
    said["bonded"] = _bonded_field(Revise, homes)
    return said


def _bonded_field(kind: type[Any], homes: Sequence[str]) -> Field:
    field = next(field for field in fields_of(kind) if field.name == "bonded")
    return replace(field, label="those bonded in", help=f"in {few(homes)}: remake it, patch it, or leave them")


def _bonded_wrong(homes: Sequence[str], answer: str | None) -> dict[str, str]:
    if homes and answer is None:
        return {"bonded": f"pieces are bonded in at {few(homes)}: remake, patch or leave"}
    return {}


async def _ticked(screen: LiveScreen, status: Status, part: Part, happens: str) -> tuple[int, ...] | None:
    """The parts that change with it; None where the question was left."""
    found = touching(status.snapshot, part.id)
    if not found:
        return ()
    parts = status.snapshot.part
    choices = [Choice(one.part_id, parts[one.part_id].code, f"{parts[one.part_id].name}: {one.why}") for one in found]
    return await screen.app.push_screen_wait(
        TickOff(f"{part.code} is {happens}: what has to change with it?", choices)
    )


async def _go_on(screen: LiveScreen, part: Part, ticked: Sequence[int]) -> None:
    """The forms of those that were ticked, one after the other; esc leaves one out."""
    for other in ticked:
        await revise_part(screen, other, f"with {part.code}")


def _successors(snapshot: Snapshot, part: Part) -> list[Part]:
    """What can take its place: another part in use of its build, handed as it is; those used nowhere first."""
    used = {usage.part_id for usage in snapshot.usages if usage.ended_at is None}
    found = [
        other
        for other in snapshot.parts
        if other.id != part.id
        and (other.build_id, other.handed) == (part.build_id, part.handed)
        and other.retired_at is None
        and other.superseded_by_id is None
    ]
    return sorted(found, key=lambda other: (other.id in used, other.code))


def _as_new(snapshot: Snapshot, part: Part) -> dict[str, Any]:
    """The form of its successor: it comes into the usages by superseding."""
    form = form_of(snapshot, "part", part.code)
    return values_to_copy(snapshot, "part", form) | {"assembly": None, "revision": "A", "stage": "drawn"}
