"""What stands on a lot: facts about its pieces that a correction must not pull away from under them."""

from sqlmodel import col

from buildlog.errors import Refused
from buildlog.record.actions.wording import local
from buildlog.record.tables.bench import FitTouch
from buildlog.record.tables.pieces import Damage, Fitting, Lot, LotEntry
from buildlog.record.tables.tree import Assembly, Part, Position
from buildlog.record.writer import Work
from buildlog.terms import LotEntryKind, Side

GONE = (LotEntryKind.SPLIT_OFF, LotEntryKind.SCRAPPED)


def family(work: Work, lot: Lot) -> list[Lot]:
    """The lot and all that was split off from it."""
    found = [lot]
    for member in found:
        found += work.all(Lot, col(Lot.parent_id) == member.id)
    return found


def lot_label(work: Work, lot: Lot) -> str:
    if lot.mark:
        return lot.mark
    side = "" if lot.side is Side.NONE else f" {lot.side}"
    return f"lot {lot.id} of {work.get(Part, lot.part_id).code}{side}"


def fitted_where(work: Work, fitting: Fitting) -> str:
    position = work.get(Position, fitting.position_id)
    side = "" if position.side is Side.NONE else f" {position.side}"
    return f"{work.get(Assembly, position.assembly_id).code}{side}"


def facts_on(work: Work, lot: Lot) -> list[tuple[str, str]]:
    """(moment, in words) of everything recorded about the lot itself, oldest first."""
    facts = [
        (f.from_at, f"it was fitted in {fitted_where(work, f)}")
        for f in work.all(Fitting, col(Fitting.lot_id) == lot.id)
    ]
    facts += [(d.at, "it was damaged") for d in work.all(Damage, col(Damage.lot_id) == lot.id)]
    facts += [
        (e.at, f"{e.pieces} of it were {e.kind}") for e in work.all(LotEntry, col(LotEntry.lot_id) == lot.id)
    ]
    return sorted(facts)


def refuse_before(work: Work, lot: Lot, made_at: str) -> None:
    """A piece was made before anything else happened to it."""
    for member in family(work, lot):
        for at, said in facts_on(work, member):
            if at < made_at:
                raise Refused(
                    f"{lot_label(work, member)}: {said} {local(work, at)}, before the print would have ended "
                    f"{local(work, made_at)}. Correct that first, or choose an earlier end."
                )


def refuse_fewer(work: Work, lot: Lot, pieces: int) -> None:
    """A lot cannot shrink below what was done to its pieces; nothing of it goes while anything stands on it."""
    facts = facts_on(work, lot)
    entries = work.all(LotEntry, col(LotEntry.lot_id) == lot.id, col(LotEntry.kind).in_(GONE))
    touched = work.first(FitTouch, col(FitTouch.lot_id) == lot.id) is not None
    least = max(sum(e.pieces for e in entries), int(bool(facts) or touched))
    if pieces >= least:
        return
    said = f"{facts[-1][1]} {local(work, facts[-1][0])}" if facts else "a fit was tested on it"
    raise Refused(
        f"{lot_label(work, lot)} cannot become {pieces} of {lot.quantity}: {said}. Take that back first."
    )


def refuse_fitted(work: Work, lot: Lot) -> None:
    """The side of a piece that was fitted on that side is not in doubt."""
    for member in family(work, lot):
        fitting = work.first(Fitting, col(Fitting.lot_id) == member.id)
        if fitting is not None:
            raise Refused(
                f"{lot_label(work, member)} was fitted in {fitted_where(work, fitting)} "
                f"{local(work, fitting.from_at)}: it cannot become the other side. Take that back first."
            )
