"""What can be done about each kind of blocker, in one word, and doing it."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from buildlog.facts.naming import part_name
from buildlog.screens.lines import soon
from buildlog.terms import Moment, Side

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen
    from buildlog.status.blocker import Blocker
    from buildlog.status.status import Status

Act = Callable[["LiveScreen", "Blocker"], Awaitable[None]]


@dataclass(frozen=True, slots=True)
class Remedy:
    """`word` says what enter does; `here`: it is done from here, else it leads there or has to be waited for."""

    word: str
    act: Act
    here: bool = True


def remedy(status: Status, leaf: Blocker) -> Remedy:
    """What enter does about this blocker."""
    kind = leaf.kind.value
    if kind == "under way":
        return _of_print(status, leaf)
    if kind in ("curing", "jig taken"):
        return Remedy(_until(status, leaf.until), _wait, False)
    if kind == "not printed":
        return Remedy("start" if leaf.bench_minutes is not None else "queue", _print)
    if kind == "printer is down":
        return Remedy(f"see {leaf.about.name}", _lead, False)
    if kind == "stand-in":
        return Remedy("put in", _put_in) if leaf.bench_minutes is not None else Remedy("take out", _take_out)
    if kind == "on order":
        due = leaf.until is not None and leaf.until <= status.now
        return Remedy("receive", _receive) if due else Remedy(_until(status, leaf.until), _lead, False)
    if kind == "held on purpose":
        return Remedy("prove it", _prove)
    if kind == "damaged" and leaf.about.noun == "fitting":
        return Remedy("take out", _take_out)
    if kind == "step open" and leaf.about.noun == "part":
        return Remedy("put in", _put_in)
    return _PLAIN[kind]


def _until(status: Status, until: Moment | None) -> str:
    return soon(until, status.now, status.snapshot.settings.home_zone) if until is not None else "wait"


def _of_print(status: Status, leaf: Blocker) -> Remedy:
    running = next((job for job in status.hours.running if job.job_id == leaf.about.id), None)
    if running is None:
        return Remedy("start", _print) if leaf.bench_minutes is not None else Remedy("see queue", _lead, False)
    if running.past_end:
        return Remedy("take off", _finish)
    return Remedy(_until(status, leaf.until), _lead, False)


async def _print(screen: LiveScreen, leaf: Blocker) -> None:
    """Start what waits in the queue, or its ready file where a printer is free; else queue the file."""
    from buildlog.screens.acts.starting import queue_print, start, start_print, what_to_start

    status = screen.status
    if status is None:
        return
    if leaf.about.noun == "print":
        queued = next((one for one in what_to_start(status) if one.values.get("job") == leaf.about.id), None)
        if queued is not None:
            await start(screen, queued)
        else:
            await start_print(screen)
        return
    file_id = status.hours.ready_file.get((leaf.about.id, side_of(status, leaf)))
    if file_id is not None and what_to_start(status, None, file_id):
        await start_print(screen, None, file_id)
    else:
        await queue_print(screen, file_id)


async def _finish(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.ending import finish_print

    await finish_print(screen, leaf.about.id)


async def _tick(screen: LiveScreen, leaf: Blocker) -> None:
    """A step on pieces is open in several places at once, and is ticked wherever it is first."""
    from buildlog.screens.acts.bench import tick_step

    await tick_step(screen, None if leaf.pieces else leaf.position_id, leaf.about.id)


async def _fit(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.bench import record_fit

    await record_fit(screen, leaf.position_id, leaf.about.id)


async def _prove(screen: LiveScreen, leaf: Blocker) -> None:
    """The lead side's fit where it can be tried; else what holds the lead side. A part is proven by its stage."""
    from buildlog.screens.acts.bench import fits_to_test, record_fit
    from buildlog.screens.acts.designs import set_stage

    status = screen.status
    if status is None:
        return
    if leaf.about.noun == "part":
        await set_stage(screen, leaf.about.id)
    elif any(state.test_id == leaf.about.id and state.can_test for state in fits_to_test(status)):
        await record_fit(screen, None, leaf.about.id)
    else:
        await screen.live.lead_to("fit test", leaf.about.id)
        screen.live.tell("Its fit cannot be tried yet: here is what holds the side that goes first.")


async def _put_in(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.slots import fit_piece

    await fit_piece(screen, (leaf.position_id,), leaf.about.id if leaf.about.noun == "part" else None)


async def _take_out(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.slots import take_out

    await take_out(screen, (leaf.position_id,), leaf.about.id)


async def _prepare(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.designs import add_print_file

    if screen.status is not None:
        await add_print_file(screen, leaf.about.id, side_of(screen.status, leaf), leaf.pieces)


async def _tell_figures(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.designs import tell_figures

    await tell_figures(screen, leaf.about.id)


async def _draw(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.designs import set_stage

    await set_stage(screen, leaf.about.id)


async def _make(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.pieces import make_pieces

    if screen.status is not None:
        await make_pieces(screen, leaf.about.id, side_of(screen.status, leaf), leaf.pieces)


async def _found(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.pieces import found_pieces

    if screen.status is not None:
        await found_pieces(screen, leaf.about.id, side_of(screen.status, leaf))


async def _repair(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.pieces import repair_pieces

    if screen.status is not None:
        await repair_pieces(screen, leaf.about.id, side_of(screen.status, leaf))


async def _answer(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.questions import answer_question

    await answer_question(screen, leaf.about.id)


async def _film(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.shots import tell_of_shot

    await tell_of_shot(screen, leaf.about.id)


async def _dry(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.spool_state import dry_spool

    await dry_spool(screen, leaf.about.id)


async def _receive(screen: LiveScreen, leaf: Blocker) -> None:
    from buildlog.screens.acts.orders import receive_order
    from buildlog.status.on_order import on_order

    if screen.status is not None:
        due = on_order(screen.status.snapshot, screen.status.now)
        order = next((line.order_id for line in due if line.bought_item_id == leaf.about.id), None)
        await receive_order(screen, order)


async def _lead(screen: LiveScreen, leaf: Blocker) -> None:
    """To the screen where the thing is at home: a running print stands with its printer."""
    noun, row_id = leaf.about.noun, leaf.about.id
    running = screen.status.hours.running if screen.status is not None else ()
    printer_id = next((job.printer_id for job in running if noun == "print" and job.job_id == row_id), None)
    if printer_id is not None:
        noun, row_id = "printer", printer_id
    await screen.live.lead_to("job" if noun == "print" else noun, row_id)


async def _see_prints(screen: LiveScreen, leaf: Blocker) -> None:  # noqa: ARG001 - every act is called alike
    await screen.live.action_go("prints")


async def _see_spools(screen: LiveScreen, leaf: Blocker) -> None:
    """To the best spool that there is, which does not hold enough."""
    status = screen.status
    check = status.stock.one_spool.get((leaf.about.id, side_of(status, leaf))) if status is not None else None
    if check is not None and check.spool_id is not None:
        await screen.live.lead_to("spool", check.spool_id)
    else:
        await screen.live.action_go("stock")


async def _wait(screen: LiveScreen, leaf: Blocker) -> None:
    when = f", {_until(screen.status, leaf.until)}" if screen.status is not None and leaf.until else ""
    screen.live.tell(f"This ends by itself{when}: nothing to do until then.")


def side_of(status: Status, leaf: Blocker) -> Side:
    """The side of the pieces that a blocker names, as ``FL07 L``."""
    slots = status.needs.by_position.get(leaf.position_id, ())
    sides = (s.side for s in slots if s.part == leaf.about.id)
    return next((s for s in sides if part_name(status.snapshot, leaf.about.id, s) == leaf.about.name), Side.NONE)


_PLAIN = {
    "needs preparing": Remedy("prepare", _prepare),
    "bought short": Remedy("see Stock", _lead, False),
    "no material": Remedy("see Stock", _lead, False),
    "no one spool holds enough": Remedy("see Stock", _see_spools, False),
    "dry the spool first": Remedy("dried", _dry),
    "no printer can": Remedy("see Prints", _see_prints, False),
    "step open": Remedy("tick", _tick),
    "fit due": Remedy("fit", _fit),
    "fit failed": Remedy("fit", _fit),
    "fit stale": Remedy("fit", _fit),
    "question open": Remedy("answer", _answer),
    "film first": Remedy("film", _film),
    "sides out of step": Remedy("see it", _lead, False),
    "not drawn yet": Remedy("drawn", _draw),
    "no figures yet": Remedy("tell", _tell_figures),
    "to make by hand": Remedy("made", _make),
    "take out": Remedy("take out", _take_out),
    "damaged": Remedy("repaired", _repair),
    "missing": Remedy("found", _found),
    "wrong as it is": Remedy("take out", _take_out),
    "waits": Remedy("see it", _lead, False),
}
