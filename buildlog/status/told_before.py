"""Words that were told of the like before, to be taken again: causes, places where things broke, bed surfaces."""

from collections.abc import Callable, Iterable

from buildlog.facts.snapshot import Snapshot
from buildlog.facts.told import why_prints_failed
from buildlog.proposals.bought import DrawBought
from buildlog.proposals.lots import DamagePieces, ScrapPieces
from buildlog.proposals.printers import PrinterDown, SetBed
from buildlog.proposals.prints import CorrectPrint, FailPrint, FinishPrint, PrintRan, QueuePrint, StartPrint
from buildlog.proposals.slots import ClearSlot, TakeOut
from buildlog.proposals.spools import DrawFilament, WeighSpool
from buildlog.terms import BoughtEntryKind, LotEntryKind, SetUpKind, SpoolEntryKind

Told = Callable[[Snapshot], Iterable[str]]


def told_before(wish: type, field: str, snapshot: Snapshot) -> tuple[str, ...]:
    """What this field of the wish was told before, the newest first; empty where nothing of it is kept."""
    found = _TOLD.get((wish, field))
    words = reversed(tuple(found(snapshot))) if found is not None else ()
    return tuple(dict.fromkeys(word for word in words if word))


def _of_pieces(kind: LotEntryKind) -> Told:
    return lambda snapshot: (entry.cause for entry in snapshot.lot_entries if entry.kind is kind)


def _of_spools(kind: SpoolEntryKind) -> Told:
    return lambda snapshot: (entry.cause for entry in snapshot.spool_entries if entry.kind is kind)


def _of_set_up(kind: SetUpKind) -> Told:
    return lambda snapshot: (fact.text for fact in snapshot.set_ups if fact.kind is kind)


def _of_bought(kind: BoughtEntryKind) -> Told:
    return lambda snapshot: (entry.cause for entry in snapshot.bought_entries if entry.kind is kind)


def _sources(snapshot: Snapshot) -> Iterable[str]:
    yield from (job.estimate_from for job in snapshot.jobs)
    yield from (file.estimate_from for file in snapshot.print_files)


_TOLD: dict[tuple[type, str], Told] = {
    **{(wish, "cause"): why_prints_failed for wish in (FinishPrint, FailPrint, PrintRan, CorrectPrint)},
    **{(wish, "estimate_from"): _sources for wish in (StartPrint, QueuePrint, PrintRan)},
    **{(wish, "why"): _of_pieces(LotEntryKind.TAKEN_OUT) for wish in (TakeOut, ClearSlot)},
    (ScrapPieces, "why"): _of_pieces(LotEntryKind.SCRAPPED),
    (DamagePieces, "where"): lambda snapshot: (damage.place for damage in snapshot.damages),
    (DamagePieces, "why"): lambda snapshot: (damage.why for damage in snapshot.damages),
    (WeighSpool, "cause"): _of_spools(SpoolEntryKind.WEIGHED),
    (DrawFilament, "why"): _of_spools(SpoolEntryKind.DRAWN),
    (DrawBought, "why"): _of_bought(BoughtEntryKind.DRAWN),
    (PrinterDown, "why"): _of_set_up(SetUpKind.DOWN),
    (SetBed, "surface"): _of_set_up(SetUpKind.BED),
}
