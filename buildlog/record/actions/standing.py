"""What stands on a lot: facts about its pieces that a correction must not pull away from under them."""

from sqlmodel import col

from buildlog.errors import Refused
from buildlog.record.actions.moments import local
from buildlog.record.actions.piece_accounts import lot_name
from buildlog.record.actions.places import position_name
from buildlog.record.tables.bench import FitTouch
from buildlog.record.tables.pieces import Damage, Fitting, Lot, LotEntry
from buildlog.record.writer import Work
from buildlog.terms import LotEntryKind

TOLD_ELSEWHERE = (LotEntryKind.FITTED, LotEntryKind.OUT_OF_USE)  # by the fitting and by the damage


def family(work: Work, lot: Lot) -> list[Lot]:
    """The lot and all that was split off from it."""
    found = [lot]
    for member in found:
        found += work.all(Lot, parent_id=member.id)
    return found


def facts_on(work: Work, lot: Lot) -> list[tuple[str, str]]:
    """(moment, in words) of everything recorded about the lot itself, oldest first."""
    fittings = work.all(Fitting, lot_id=lot.id)
    entries = work.all(LotEntry, col(LotEntry.kind).not_in(TOLD_ELSEWHERE), lot_id=lot.id)
    facts = [(f.from_at, f"it was fitted in {position_name(work, f.position_id)}") for f in fittings]
    facts += [(d.at, "it was damaged") for d in work.all(Damage, lot_id=lot.id)]
    facts += [(e.at, f"«{e.kind}» was said of {e.pieces} of it") for e in entries]
    return sorted(facts)


def refuse_before(work: Work, lot: Lot, made_at: str) -> None:
    """A piece was made before anything else happened to it."""
    for member in family(work, lot):
        for at, said in facts_on(work, member):
            if at < made_at:
                raise Refused(
                    f"{lot_name(work, member)}: {said} {local(work, at)}, before the print would have ended "
                    f"{local(work, made_at)}. Correct that first, or choose an earlier end."
                )


def refuse_unmade(work: Work, lot: Lot) -> None:
    """A lot of which anything is recorded was there."""
    facts = facts_on(work, lot)
    touched = work.first(FitTouch, lot_id=lot.id) is not None
    if facts or touched:
        said = f"{facts[-1][1]} {local(work, facts[-1][0])}" if facts else "a fit was tested on it"
        raise Refused(f"{lot_name(work, lot)} cannot go: {said}. Take that back first.")


def refuse_fitted(work: Work, lot: Lot) -> None:
    """The side of a piece that was fitted on that side is not in doubt."""
    for member in family(work, lot):
        fitting = work.first(Fitting, lot_id=member.id)
        if fitting is not None:
            raise Refused(
                f"{lot_name(work, member)} was fitted in {position_name(work, fitting.position_id)} "
                f"{local(work, fitting.from_at)}: it cannot become the other side. Take that back first."
            )
