"""Names that may be typed into a field, from the record as it stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.facts.naming import part_name, position_name

if TYPE_CHECKING:
    from buildlog.facts.snapshot import Snapshot

MANY = 2000


def names_of(snapshot: Snapshot, refers: str) -> tuple[str, ...]:
    """Codes or names of the nouns that a field refers to, the newest prints first; empty where they have none."""
    return tuple(dict.fromkeys(name for noun in refers.split(" or ") for name in _names(snapshot, noun)))[:MANY]


def _names(snapshot: Snapshot, noun: str) -> tuple[str, ...]:
    from buildlog.proposals.nouns import FORMS
    from buildlog.status.forms import keys_of

    if noun == "position":
        return tuple(position_name(snapshot, p.id) for p in snapshot.positions if p.retired_at is None)
    if noun == "print":
        return tuple(str(job.id) for job in reversed(snapshot.jobs))
    if noun == "order":
        return tuple(order.code for order in snapshot.orders if order.closed_at is None)
    if noun == "lot":
        return tuple(dict.fromkeys(lot.mark or part_name(snapshot, lot.part_id, lot.side) for lot in snapshot.lots))
    return keys_of(snapshot, noun) if noun in FORMS else ()
