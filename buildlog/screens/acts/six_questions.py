"""From an empty ledger to the first blocker: at most six questions, one after the other, each recorded at once.

What is on the record already is not asked again, so that a beginning that was left goes on where it was.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from buildlog.proposals.field import Field, Kind, asks, quoted
from buildlog.proposals.lines import Ask
from buildlog.proposals.nouns import FORMS, Add
from buildlog.proposals.part_lines import figures_behind
from buildlog.proposals.problems import problems
from buildlog.screens.acts.first_codes import code_from
from buildlog.screens.acts.named import said_of_form
from buildlog.screens.asking import ask_wish
from buildlog.status.forms import keys_of
from buildlog.terms import MilestoneKind, Moment

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from buildlog.facts.snapshot import Snapshot
    from buildlog.screens.base import LiveScreen

USUAL_BED = {"bed_x": 220_000, "bed_y": 220_000, "bed_z": 250_000}
"""What stands in the question; common practice for a printer of middle size."""
CLASS_HELP = "printers of one class run the same files; empty: named after the bed"
CLASS = Field("printer_class", "class", Kind.TEXT, default="", help=CLASS_HELP)
USUAL_PART = {"print_time": 60, "grams": 20_000}
"""Our choice: an hour and twenty grams, so that there is a figure to mend rather than none."""
LOOKS, LOOK_SECONDS = 200, 0.02
"""How often and how long to wait for a Status that has what was recorded."""


@dataclass(frozen=True, slots=True)
class Begun:
    """Codes of what there is by now; empty where there is none."""

    build: str = ""
    root: str = ""
    event: str = ""
    printer: str = ""
    printer_class: str = ""
    material: str = ""
    below: str = ""
    part: str = ""


@dataclass(frozen=True, slots=True)
class FirstEvent:
    """A milestone that may be skipped: without a day nothing is recorded."""

    NOUN = "milestone"

    name: str = asks("name", Kind.TEXT, default="the event")
    due: Moment | None = asks("when", Kind.MOMENT, default=None, future=True, help="empty: no day is set yet")


def begun(snapshot: Snapshot) -> Begun:
    """Of the first build in rank order, and of what all builds share."""
    from buildlog.status.needs_order import builds_in_order

    build = next(iter(builds_in_order(snapshot)), None)
    if build is None:
        return Begun(printer=_first(snapshot, "printer"), material=_first(snapshot, "material"))
    tree = [a for a in snapshot.assemblies if a.build_id == build.id and a.retired_at is None]
    below = next((a for a in tree if a.paired), next((a for a in tree if a.parent_id is not None), None))
    parts = (p.code for p in snapshot.parts if p.build_id == build.id and p.retired_at is None)
    printers = (p.printer_class for p in snapshot.printers if p.retired_at is None)
    return Begun(
        build=build.code,
        root=next((a.code for a in tree if a.parent_id is None), ""),
        event=_first(snapshot, "milestone"),
        printer=_first(snapshot, "printer"),
        printer_class=next(printers, ""),
        material=_first(snapshot, "material"),
        below=below.code if below is not None else "",
        part=next(parts, ""),
    )


async def six_questions(screen: LiveScreen) -> None:
    """Those that are still open; at the end Mirror, with the cursor on what the first part goes into."""
    if screen.status is None:
        return
    known = begun(screen.status.snapshot)
    for number, (field, ask) in enumerate(QUESTIONS, 1):
        if getattr(known, field):
            continue
        told = await ask(screen, known, f"{number} of {len(QUESTIONS)}  ")
        if told is None:
            screen.live.tell("What you answered is on the record; enter on the first line goes on.")
            return
        known = told
    await _show_blocker(screen, known.below or known.root)


async def _build(screen: LiveScreen, known: Begun, number: str) -> Begun | None:
    """The build, and the root of its tree under the same name."""
    title = f"{number}What do you build?"
    build = await _asked(screen, "build", title, ("name",), {"name": "first build"})
    if build is None:
        return None
    root = FORMS["assembly"](code=build.code, name=build.name, build=build.code)
    wishes = [(Add(build), None), (Add(root), None)]
    outcome = await screen.live.record_all(
        wishes, f"Added build {build.code} {build.name}, and the root of its tree."
    )
    return None if outcome is None else replace(known, build=build.code, root=root.code)


async def _event(screen: LiveScreen, known: Begun, number: str) -> Begun | None:
    title = f"{number}Is there a day that does not move? Leave «when» empty to skip it."
    asked = await ask_wish(screen.live, FirstEvent, title, when_too=False)
    if asked is None:
        return None
    if asked.wish.due is None or not asked.wish.name:
        return known
    form = FORMS["milestone"](
        code=_code(screen, "milestone", asked.wish.name, "EVENT"),
        name=asked.wish.name,
        build=known.build,
        kind=MilestoneKind.EVENT.value,
        due=asked.wish.due,
    )
    return await _added(screen, form, known, event=form.code)


async def _printer(screen: LiveScreen, known: Begun, number: str) -> Begun | None:
    title = f"{number}Which printer, and how large is its bed?"
    values = {"name": "first printer", **USUAL_BED}
    asked = {CLASS.name: CLASS}
    form = await _asked(screen, "printer", title, (*values, CLASS.name), values, as_asked=asked)
    if form is None:
        return None
    named = form.printer_class or f"bed {form.bed_x / 1000:g}x{form.bed_y / 1000:g}"
    return await _added(screen, replace(form, printer_class=named), known, printer=form.code, printer_class=named)


async def _material(screen: LiveScreen, known: Begun, number: str) -> Begun | None:
    title = f"{number}What does it print with?"
    form = await _asked(screen, "material", title, ("polymer", "colour"), {"polymer": "PLA", "name": "PLA"})
    if form is None:
        return None
    name = f"{form.colour} {form.polymer}".strip()
    code = _code(screen, "material", f"{form.polymer} {form.colour}", form.polymer)
    return await _added(screen, replace(form, code=code, name=name), known, material=code)


async def _below(screen: LiveScreen, known: Begun, number: str) -> Begun | None:
    title = f"{number}What in it exists once left and once right: an arm, a wing, a wheel?"
    values = {"name": "first pair", "paired": True, "build": known.build, "parent": known.root}
    form = await _asked(screen, "assembly", title, ("name", "paired"), values, {known.root})
    return None if form is None else await _added(screen, form, known, below=form.code)


async def _part(screen: LiveScreen, known: Begun, number: str) -> Begun | None:
    title = f"{number}What is its first part, for one side?"
    values = {
        "name": "first part",
        "build": known.build,
        "assembly": known.below or known.root,
        "material": Ask(known.material, None) if known.material else None,
        **USUAL_PART,
    }
    form = await _asked(screen, "part", title, ("name", "handed", "quantity", "print_time", "grams"), values)
    return None if form is None else await _added(screen, form, known, part=form.code)


QUESTIONS: tuple[tuple[str, Callable[[LiveScreen, Begun, str], Awaitable[Begun | None]]], ...] = (
    ("build", _build),
    ("event", _event),
    ("printer", _printer),
    ("material", _material),
    ("below", _below),
    ("part", _part),
)


async def _asked(
    screen: LiveScreen,
    noun: str,
    title: str,
    only: Sequence[str],
    values: dict[str, Any],
    taken: set[str] | None = None,
    as_asked: Mapping[str, Field] | None = None,
) -> Any:
    """The form filled in as far as it is asked, its code made of its name; None where it was left."""
    snapshot = screen.status.snapshot if screen.status is not None else None

    def coded(form: Any) -> Any:
        return replace(form, code=_code(screen, noun, form.name, noun.upper(), taken))

    def heed(given: Mapping[str, Any]) -> str:
        return said_of_form(screen.status, noun, given) if screen.status is not None else ""

    asked = await ask_wish(
        screen.live,
        FORMS[noun],
        title,
        values={"code": "NEW", **values},
        only=only,
        when_too=False,
        check=lambda form: dict(reversed(problems(coded(form)))) | _figures_in_name(noun, form),
        completions={"polymer": tuple(snapshot.reference.polymers)} if snapshot is not None else {},
        heed=heed,
        as_asked=as_asked,
    )
    return None if asked is None else coded(asked.wish)


def _figures_in_name(noun: str, form: Any) -> dict[str, str]:
    """Quantity, time and grams of a part have lines of their own."""
    figures = figures_behind(form.name) if noun == "part" else ""
    return {"name": f"{quoted(figures)} stands in the name: write it in its own line below"} if figures else {}


async def _added(screen: LiveScreen, form: Any, known: Begun, **codes: str) -> Begun | None:
    return None if await screen.wish(Add(form)) is None else replace(known, **codes)


def _code(screen: LiveScreen, noun: str, name: str, otherwise: str, more: set[str] | None = None) -> str:
    taken = set(keys_of(screen.status.snapshot, noun)) if screen.status is not None else set()
    return code_from(name, taken | (more or set()), otherwise)


def _first(snapshot: Snapshot, noun: str) -> str:
    return next(iter(keys_of(snapshot, noun)), "")


async def _show_blocker(screen: LiveScreen, code: str) -> None:
    """Mirror with the cursor there, as soon as the Status knows it."""
    for _ in range(LOOKS):
        status = screen.live.status
        found = next((a for a in status.snapshot.assemblies if a.code == code), None) if status is not None else None
        if status is not None and found is not None and begun(status.snapshot).part:
            await screen.live.lead_to("assembly", found.id)
            screen.live.tell("This holds it. The first line tells the screens, ? the keys of this one.")
            return
        await asyncio.sleep(LOOK_SECONDS)
