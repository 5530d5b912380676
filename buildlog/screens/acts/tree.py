"""What can be edited where one stands in the tree: the assembly itself, and what belongs to it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from buildlog.proposals.lines import Target
from buildlog.proposals.nouns import Change
from buildlog.screens.acts.thing_defaults import CARRIED, next_code
from buildlog.screens.acts.things import a, add_thing, edit_thing, retire_thing
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.things_rows import told_of_form
from buildlog.status.forms import forms_of

if TYPE_CHECKING:
    from buildlog.facts.snapshot import Snapshot
    from buildlog.facts.tree import Assembly
    from buildlog.screens.base import LiveScreen
    from buildlog.terms import Side

ROOT = "the root of the build has no place to move to"


async def move_assembly(screen: LiveScreen, assembly_id: int) -> None:
    """Beneath another one, with all that is beneath it."""
    if screen.status is None:
        return
    snapshot = screen.status.snapshot
    assembly = snapshot.assembly[assembly_id]
    if assembly.parent_id is None:
        screen.live.tell(f"{assembly.code}: {ROOT}.")
        return
    beneath = _with_beneath(snapshot, assembly_id)
    choices = [
        Choice(other.code, f"{'  ' * depth}{other.code}", _told_of_place(other, assembly))
        for other, depth in _in_tree_order(snapshot, assembly.build_id)
        if other.id not in beneath
    ]
    parent = await screen.pick(f"{assembly.code} {assembly.name} goes beneath which one?", choices)
    if parent is not None and parent != snapshot.assembly[assembly.parent_id].code:
        await screen.wish(Change("assembly", assembly.code, {"parent": parent}))


async def rank_assembly(screen: LiveScreen, assembly_id: int) -> None:
    """Among those beside it; a lower number is served first."""
    if screen.status is None:
        return
    snapshot = screen.status.snapshot
    assembly = snapshot.assembly[assembly_id]
    beside = [
        f"{other.code} {other.rank if other.rank is not None else '–'}"
        for other in snapshot.assemblies
        if other.parent_id == assembly.parent_id and other.retired_at is None and other.id != assembly_id
    ]
    title = f"Rank of {assembly.code}" + (f" beside {', '.join(beside)}" if beside else "")
    await edit_thing(screen, "assembly", assembly.code, title=title, only=("rank",))


async def set_lead(screen: LiveScreen, assembly_id: int) -> None:
    """The side that goes first and the fit that proves it; both empty: neither."""
    if screen.status is None:
        return
    assembly = screen.status.snapshot.assembly[assembly_id]
    if not assembly.paired:
        screen.live.tell(f"{assembly.code} is not paired: it has no side that could go first.")
        return
    title = f"{assembly.code}: which side goes first, proven by which fit?"
    await edit_thing(screen, "assembly", assembly.code, title=title, only=("lead_side", "lead_test"))


async def edit_what_is_here(screen: LiveScreen, noun: str, assembly_id: int, side: Side | None = None) -> None:
    """A new one, or one of those that are here: change it, or take it out of use."""
    if screen.status is None:
        return
    snapshot = screen.status.snapshot
    assembly = snapshot.assembly[assembly_id]
    here = forms_here(snapshot, noun, assembly)
    choices = [Choice("", f"add {a(noun)}", f"to {assembly.code}")]
    choices += [Choice(key, key, told_of_form(form)) for key, form in here.items()]
    picked = await screen.choose(f"Which {noun} of {assembly.code}?", choices)
    if picked == "":
        await add_thing(screen, noun, **new_here(snapshot, noun, assembly, side))
    elif picked is not None:
        edits = [Choice("change", "change it"), Choice("retire", "retire it", "its past stays")]
        edit = await screen.pick(f"{noun} {picked}", edits)
        if edit == "change":
            await edit_thing(screen, noun, picked)
        elif edit == "retire":
            await retire_thing(screen, noun, picked)


def forms_here(snapshot: Snapshot, noun: str, assembly: Assembly) -> dict[str, Any]:
    """The things of a noun that belong to the assembly, or to a part in it, by key."""
    usages = [u for u in snapshot.usages if u.assembly_id == assembly.id and u.ended_at is None]
    names = {assembly.code, *(snapshot.part[usage.part_id].code for usage in usages)}
    return {key: form for key, form in forms_of(snapshot, noun).items() if names & _places(noun, form, assembly.code)}


def _places(noun: str, form: Any, code: str) -> set[str]:
    """The codes that say where a thing belongs."""
    if noun == "part":
        return {form.code}
    if noun == "question":
        return {target.code for target in form.holds}
    if noun == "wait":
        return {form.assembly, form.on_assembly} & {code}
    if noun == "step":
        return {form.assembly or form.part}
    return {form.assembly}


def new_here(snapshot: Snapshot, noun: str, assembly: Assembly, side: Side | None) -> dict[str, Any]:
    """What is known of a new thing from where it is added."""
    build = next(build.code for build in snapshot.builds if build.id == assembly.build_id)
    if noun == "question":
        return {"build": build, "holds": (Target(assembly.code, side),)}
    if noun == "wait":
        return {"assembly": assembly.code}
    known = as_the_last_here(snapshot, noun, assembly)
    if noun == "part":
        known["build"] = build
    if noun == "step":
        known["part"] = None
    return known | {"assembly": assembly.code}


def as_the_last_here(snapshot: Snapshot, noun: str, assembly: Assembly) -> dict[str, Any]:
    """What the last one in the assembly says, with the code after it; ``LEG-1`` for its first step or fit."""
    here = list(forms_here(snapshot, noun, assembly).values())
    known = {name: getattr(here[-1], name) for name in CARRIED.get(noun, ())} if here else {}
    if noun in ("step", "fit test") or (noun == "part" and here):
        last = here[-1].code if here else f"{assembly.code}-0"
        known["code"] = next_code(last, forms_of(snapshot, noun))
    return known


def _with_beneath(snapshot: Snapshot, assembly_id: int) -> set[int]:
    found = {assembly_id}
    while more := {a.id for a in snapshot.assemblies if a.parent_id in found} - found:
        found |= more
    return found


def _in_tree_order(snapshot: Snapshot, build_id: int) -> list[tuple[Assembly, int]]:
    """Every assembly of a build in use with its depth, each after the one that it is in."""
    live = [a for a in snapshot.assemblies if a.build_id == build_id and a.retired_at is None]

    def beneath(parent_id: int | None, depth: int) -> list[tuple[Assembly, int]]:
        own = [a for a in live if a.parent_id == parent_id]
        return [pair for a in own for pair in ((a, depth), *beneath(a.id, depth + 1))]

    return beneath(None, 0)


def _told_of_place(other: Assembly, assembly: Assembly) -> str:
    return f"{other.name}, where it is now" if other.id == assembly.parent_id else other.name
