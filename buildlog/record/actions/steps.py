"""Ticking bench work."""

from sqlmodel import col

from buildlog.errors import BadWish, Refused
from buildlog.methods.piece_work import Family, Tick, done_by_lot
from buildlog.proposals import steps as wishes
from buildlog.record.actions.allotted import fit_allotted
from buildlog.record.actions.moments import local
from buildlog.record.actions.overruling import unless
from buildlog.record.actions.picking import lots_named
from buildlog.record.actions.piece_accounts import holds, lot_name, root_of
from buildlog.record.actions.places import by_prefix, position_at, position_name
from buildlog.record.actions.shots_held import shots_holding
from buildlog.record.actions.standing import family
from buildlog.record.actions.step_order import is_owed, tick_in, what_else_to_do, why_not_open
from buildlog.record.tables.bench import Step, StepDone, StepUse
from buildlog.record.tables.pieces import Lot
from buildlog.record.tables.stock import BoughtEntry, BoughtItem
from buildlog.record.tables.tree import Assembly, Part, Position
from buildlog.record.writer import Work
from buildlog.terms import BoughtAccount, BoughtEntryKind, Moment, later
from buildlog.wording import hours


def tick_step(wish: wishes.TickStep, work: Work) -> str:
    step = by_prefix(work, Step, wish.step, "step")
    if (wish.place is None) == (wish.what is None):
        raise BadWish((("place", "name the position, or the pieces, one of both"),))
    if step.assembly_id is not None:
        return _tick_in_position(wish, work, step)
    return _tick_on_pieces(wish, work, step)


def tick_steps(wish: wishes.TickSteps, work: Work) -> str:
    return " ".join(tick_step(tick, work) for tick in wish.ticks)


def reopen_step(wish: wishes.ReopenStep, work: Work) -> str:
    step = by_prefix(work, Step, wish.step, "step")
    if wish.place is not None:
        position = _position_of(work, step, wish)
        tick = tick_in(work, step, position)
        ticks, where = [tick] if tick else [], position_name(work, position.id or 0)
    else:
        lots = lots_named(work, wish.what) if wish.what else []
        ticks = [tick for lot in lots for tick in _ticks_on(work, step, lot)]
        where = str(wish.what)
    if not ticks:
        told = f"«{step.name}» ({step.code}) is not done on {where} at {local(work, work.at)}"
        raise Refused(f"{told}: there is nothing to reopen, name another.")
    for tick in ticks:
        work.change(tick, reopened_at=work.at)
    return f"«{step.name}» is open again on {where}."


def _position_of(work: Work, step: Step, wish: wishes.TickStep | wishes.ReopenStep) -> Position:
    assembly = work.get(Assembly, step.assembly_id) if step.assembly_id is not None else None
    if wish.place is None or assembly is None:
        raise BadWish((("place", f"{step.code} is work on {'a position' if assembly else 'pieces'}: name it"),))
    position = position_at(work, wish.place)
    if position.assembly_id != assembly.id:
        raise BadWish((("place", f"{step.code} is a step of {assembly.code}: name one of its positions"),))
    return position


def _tick_in_position(wish: wishes.TickStep, work: Work, step: Step) -> str:
    position = _position_of(work, step, wish)
    where = position_name(work, position.id or 0)
    done = tick_in(work, step, position)
    if done is not None:
        raise Refused(
            f"«{step.name}» ({step.code}) is done on {where} since {local(work, done.at)}: reopen it first."
        )
    if not is_owed(work, step, position):
        raise Refused(f"«{step.name}» ({step.code}) was not called for on {where}: name a step that waits there.")
    fitted = [fit_allotted(work, position, allotted) for allotted in wish.fits]
    reasons = why_not_open(work, step, position)
    if reasons and not wish.overruled:
        told = f"«{step.name}» ({step.code}) on {where} is not open at {local(work, work.at)}: {reasons}."
        raise unless("overruled", wish, f"{told} Do that first.{what_else_to_do(work, step, position)}")
    tick = work.add(
        StepDone(
            step_id=step.id or 0,
            position_id=position.id,
            at=work.at,
            real_minutes=wish.real_time,
            overruled=bool(reasons),
        )
    )
    _use_up(work, step, tick, 1)
    told = f" Fitted {', '.join(fitted)}." if fitted else ""
    took = f" in {hours(wish.real_time)}" if wish.real_time is not None else ""
    return f"Done: «{step.name}» on {where}{took}.{told}"


def _tick_on_pieces(wish: wishes.TickStep, work: Work, step: Step) -> str:
    if wish.what is None:
        raise BadWish((("what", f"{step.code} is work on pieces: name them"),))
    part = work.get(Part, step.part_id)
    lots = lots_named(work, wish.what)
    if any(lot.part_id != part.id for lot in lots):
        raise BadWish((("what", f"{step.code} is a step on {part.code}: name its pieces"),))
    left = [(lot, _left_to_do(work, step, lot)) for lot in lots]
    known = sum(count for _, count in left)
    wanted = known if wish.pieces is None else wish.pieces
    if not known or wanted > known:
        told = f"«{step.name}» ({step.code}) is left to do on {known} of {wish.what}, not {wanted}"
        raise Refused(f"{told}: name fewer.")
    for number, (lot, count) in enumerate((lot, count) for lot, count in left if count):
        if taken := min(count, wanted):
            if not wish.overruled:
                _refuse_early(wish, work, step, lot, taken)
            tick = work.add(
                StepDone(
                    step_id=step.id or 0,
                    lot_id=lot.id,
                    pieces=taken,
                    at=work.at,
                    real_minutes=wish.real_time if number == 0 else None,
                    overruled=wish.overruled,
                )
            )
            _use_up(work, step, tick, taken)
            wanted -= taken
    done = known if wish.pieces is None else wish.pieces
    return f"Done: «{step.name}» on {done} of {wish.what}, {known - done} left."


def _ticks_on(work: Work, step: Step, lot: Lot) -> list[StepDone]:
    """Ticks of a step that count on a lot."""
    return work.all(
        StepDone, StepDone.step_id == step.id, StepDone.lot_id == lot.id, col(StepDone.reopened_at).is_(None)
    )


def _done_on(work: Work, step: Step, lot: Lot, by: str | None = None) -> int:
    """On how many pieces of a lot a step is done (ticked by a moment, where one is given)."""
    members = family(work, root_of(work, lot))
    lots = [Family(m.id or 0, m.parent_id, m.quantity, m.made_at) for m in members]
    ticks = [
        Tick(m.id or 0, tick.at, tick.pieces)
        for m in members
        for tick in _ticks_on(work, step, m)
        if by is None or tick.at <= by
    ]
    return done_by_lot(lots, ticks)[lot.id or 0]


def _there(work: Work, lot: Lot) -> int:
    """Pieces that can be worked on."""
    held = holds(work, lot)
    return held.box + held.fitted


def _left_to_do(work: Work, step: Step, lot: Lot) -> int:
    return max(0, _there(work, lot) - _done_on(work, step, lot))


def _refuse_early(wish: wishes.TickStep, work: Work, step: Step, lot: Lot, pieces: int) -> None:
    """The step before must be done on as many pieces, and be over; what is to be filmed first is."""
    film_first = shots_holding(work, step, lot.side)
    if film_first:
        told = f"«{step.name}» ({step.code}) on {lot_name(work, lot)}: {film_first}. Do that first."
        raise unless("overruled", wish, told)
    before = work.all(
        Step,
        Step.part_id == step.part_id,
        Step.place < step.place,
        col(Step.retired_at).is_(None),
        order_by=Step.place,
    )
    if not before:
        return
    previous = before[-1]
    ready = _done_on(work, previous, lot, later(Moment(work.at), -previous.handle_after_minutes))
    if ready < _done_on(work, step, lot) + pieces:
        told = f"«{previous.name}» ({previous.code}) is over on {ready} pieces of {lot_name(work, lot)}"
        raise unless("overruled", wish, f"{told} at {local(work, work.at)}: do that first, or name fewer.")


def _use_up(work: Work, step: Step, tick: StepDone, times: int) -> None:
    """Draw the bought items that a step uses up."""
    for use in work.all(StepUse, StepUse.step_id == step.id):
        if work.get(BoughtItem, use.bought_item_id).account is BoughtAccount.ROUGH:
            continue
        work.add(
            BoughtEntry(
                bought_item_id=use.bought_item_id,
                at=work.at,
                kind=BoughtEntryKind.DRAWN,
                amount=use.quantity * times,
                step_done_id=tick.id,
            )
        )
