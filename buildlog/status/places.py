"""Which positions a person means."""

from buildlog.facts.naming import position_name
from buildlog.facts.snapshot import Snapshot
from buildlog.proposals.places import Place, read_place


def positions_at(snapshot: Snapshot, place: Place) -> tuple[int, ...]:
    """Ids of every live position that a name may mean, both sides where none is named."""
    live = (position.id for position in snapshot.positions if position.retired_at is None)
    return tuple(p for p in live if _is_at(read_place(position_name(snapshot, p)), place))


def _is_at(known: Place, place: Place) -> bool:
    same = known.assembly == place.assembly and place.side in (None, known.side)
    return same and known.ordinals[: len(place.ordinals)] == place.ordinals
