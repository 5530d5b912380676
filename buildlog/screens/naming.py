"""Names and words that may be typed into a field, from the record as it stands."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from buildlog.facts.naming import part_name, position_name

if TYPE_CHECKING:
    from buildlog.facts.snapshot import Snapshot
    from buildlog.proposals.field import Field

MANY = 2000


def words_for(snapshot: Snapshot, kind: type[Any], field: Field) -> tuple[str, ...]:
    """What may be typed into a field of a wish or form: the names that it refers to, polymers for a demand, and
    what was told there before.
    """
    from buildlog.proposals.lines import read_ask
    from buildlog.status.strange_words import polymers_kept
    from buildlog.status.told_before import told_before

    if field.read is read_ask:
        return (*names_of(snapshot, field.refers), *(f"any {name}" for name in polymers_kept(snapshot)))
    return names_of(snapshot, field.refers) if field.refers else told_before(kind, field.name, snapshot)


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
