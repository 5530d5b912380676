"""What is to be said before a wish is recorded: its cautions, and spools that may not carry it."""

from typing import Any

from buildlog.proposals.fits import RecordFit
from buildlog.proposals.prints import StartPrint
from buildlog.proposals.spools import DrySpool
from buildlog.proposals.steps import TickStep, TickSteps
from buildlog.status.cautions import DRYING, FUMES, UNATTENDED, caution_of_step, caution_of_test
from buildlog.status.spool_check import SpoolCheck, spool_check
from buildlog.status.start_heads import ToStart, what_starts
from buildlog.status.status import Status
from buildlog.terms import later
from buildlog.wording import soon


def cautions_of(wish: Any, status: Status) -> tuple[str, ...]:
    """Keys of the cautions that belong to a wish, said before it is recorded; none for most."""
    snapshot = status.snapshot
    match wish:
        case StartPrint():
            return cautions_of_start(wish, status)
        case TickStep():
            kinds = (step.kind for step in snapshot.steps if step.code == wish.step)
            return tuple(key for kind in kinds if (key := caution_of_step(kind)))
        case TickSteps():
            return tuple(dict.fromkeys(key for tick in wish.ticks for key in cautions_of(tick, status)))
        case RecordFit():
            tests = (test.kind for test in snapshot.fit_tests if test.code == wish.test)
            return tuple(key for kind in tests if (key := caution_of_test(kind)))
        case DrySpool():
            return (DRYING,)
        case _:
            return ()


def cautions_of_start(wish: StartPrint, status: Status) -> tuple[str, ...]:
    """Of what it is printed from, and of leaving it alone."""
    reference = status.snapshot.reference
    materials = status.snapshot.material
    smelly = False
    for head in what_starts(wish, status).heads:
        of = [head.material_id, head.spool.material_id if head.spool is not None else None]
        named = [materials[material_id] for material_id in of if material_id is not None]
        polymers = [head.polymer, *(material.polymer for material in named)]
        smelly = smelly or any(material.smelly for material in named)
        smelly = smelly or any(p in reference.polymers and reference.polymers[p].smelly for p in polymers)
    return (*((UNATTENDED,) if wish.unattended else ()), *((FUMES,) if smelly else ()))


def spools_in_question(wish: Any, status: Status) -> tuple[str, ...]:
    """What is to be said of the loaded spools of a start that may not carry it: «412 g, needs 380 g: tight», and
    when it has to be changed where the printer waits for that.
    """
    if not isinstance(wish, StartPrint) or wish.spools or wish.ended is not None:
        return ()
    starts = what_starts(wish, status)
    found = []
    for head in starts.heads:
        if head.spool is None or not head.needed_mg:
            continue
        check = spool_check(head.needed_mg, head.spool, status.snapshot.reference, status.now)
        if not check.enough or check.wet:
            found.append(f"{check.text}{_change(starts, check, status)}")
    return tuple(dict.fromkeys(found))


def _change(starts: ToStart, check: SpoolCheck, status: Status) -> str:
    """When the spool is empty, if the print takes it evenly (approximation)."""
    if check.carries or starts.printer is None or not starts.printer.stops_at_filament_end:
        return ""
    polymers = [head.polymer for head in starts.heads]
    ratio = status.hours.learning.cell(starts.printer.id, polymers, starts.estimate_from).ratio
    empty_at = later(status.now, round(starts.minutes * ratio) * max(0, check.has_mg) // check.needed_mg)
    return f", change it about {soon(empty_at, status.now, status.snapshot.settings.home_zone)}"
