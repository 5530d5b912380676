"""How each printer is set up, from dated facts: nozzle, loaded spools, bed surface, down or up."""

from dataclasses import field

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.terms import Moment, SetUpKind


@frozen
class SetUpState:
    """``loaded`` names the spool on each head. ``down_until`` is when it should be up again, None when nobody knows;
    from then on it is taken to be up, and asked about.
    """

    printer_id: int
    nozzle_um: int | None = None
    loaded: dict[int, int] = field(default_factory=dict)
    bed: str = ""
    is_down: bool = False
    down_until: Moment | None = None
    why: str = ""


def settle_set_ups(snapshot: Snapshot, now: Moment) -> dict[int, SetUpState]:
    """Every printer's set-up at ``now``, retired ones too; a spool is on the head it was loaded on last."""
    told: dict[int, dict[str, object]] = {printer.id: {} for printer in snapshot.printers}
    loaded: dict[int, dict[int, int]] = {printer.id: {} for printer in snapshot.printers}
    for fact in sorted((f for f in snapshot.set_ups if f.at <= now), key=lambda f: (f.at, f.id)):
        state, heads = told[fact.printer_id], loaded[fact.printer_id]
        if fact.kind is SetUpKind.NOZZLE and fact.head == 1:
            state["nozzle_um"] = fact.nozzle_um
        elif fact.kind is SetUpKind.BED:
            state["bed"] = fact.text
        elif fact.kind is SetUpKind.DOWN:
            state.update(is_down=True, down_until=fact.until_at, why=fact.text)
        elif fact.kind is SetUpKind.UP:
            state.update(is_down=False, down_until=None, why="")
        elif fact.kind is SetUpKind.UNLOADED:
            heads.pop(fact.head, None)
        elif fact.kind is SetUpKind.LOADED and fact.spool_id is not None:
            _take_off(loaded, fact.spool_id)
            heads[fact.head] = fact.spool_id
    for state in told.values():
        until = state.get("down_until")
        state["is_down"] = bool(state.get("is_down")) and not (isinstance(until, str) and until <= now)
    return {
        printer_id: SetUpState(printer_id, loaded=loaded[printer_id], **state)  # type: ignore[arg-type]  # values by name
        for printer_id, state in told.items()
    }


def _take_off(loaded: dict[int, dict[int, int]], spool_id: int) -> None:
    """A spool is in one place: loading it takes it off where it was."""
    for heads in loaded.values():
        for head in [head for head, on_it in heads.items() if on_it == spool_id]:
            del heads[head]
