"""What a change does to pieces that stand in bonded positions: remake, patch or leave."""

from sqlmodel import col

from buildlog.errors import Refused
from buildlog.record.actions.places import position_name, slot_name
from buildlog.record.actions.rework import call_for_rework
from buildlog.record.actions.slot_spans import stands_at, take_out_of
from buildlog.record.tables.pieces import Fitting
from buildlog.record.tables.tree import Assembly, Position, Usage
from buildlog.record.writer import Work
from buildlog.terms import Bonded, Joined
from buildlog.wording import few


def standing_bonded(work: Work, usages: list[Usage]) -> list[Fitting]:
    """What stands in slots of these usages, where their assembly is bonded and not made anew since."""
    bonded = [u.id for u in usages if work.get(Assembly, u.assembly_id).joined is Joined.BONDED]
    found = work.all(Fitting, col(Fitting.usage_id).in_(bonded))
    return [f for f in found if stands_at(f, work.at) and not f.stand_in and not _is_before_remake(work, f)]


def date_remake(work: Work, position: Position) -> None:
    """What was there before no longer counts; of two remakes the later one says what."""
    work.change(position, remade_at=max(work.at, position.remade_at or ""))


def _is_before_remake(work: Work, fitting: Fitting) -> bool:
    remade = work.get(Position, fitting.position_id).remade_at
    return remade is not None and fitting.from_at < remade <= work.at


def answer_for(work: Work, part: str, standing: list[Fitting], answer: str | None) -> Bonded | None:
    """The answer, asked for where pieces stand in bonded positions."""
    if not standing:
        return None
    if answer is None:
        slots = [slot_name(work, f.position_id, f.usage_id, f.number) for f in standing]
        raise Refused(f"{part} is bonded in at {few(slots)}: say whether to remake, patch or leave.")
    return Bonded(answer)


def settle(work: Work, part: str, standing: list[Fitting], answer: Bonded | None) -> str:
    """Carry the answer out; returns it in words."""
    if answer is None:
        return ""
    positions = sorted({f.position_id for f in standing})
    for fitting in standing:
        if answer is Bonded.LEAVE:
            work.change(fitting, left_as_is=True)
        elif answer is Bonded.PATCH:
            take_out_of(work, fitting, scrap=False, at=work.at, cause=f"patch {part}", keep_steps=True)
    for position_id in positions:
        position = work.get(Position, position_id)
        if answer is Bonded.REMAKE:
            date_remake(work, position)
        elif answer is Bonded.PATCH:
            call_for_rework(work, position, f"Patch in {part}")
    names = ", ".join(position_name(work, position_id) for position_id in positions)
    return f" To {answer}: {names}." if answer is not Bonded.LEAVE else f" Left as they are: {names}."
