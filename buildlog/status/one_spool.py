"""Which spool carries each print that is to come, in one go."""

from collections import defaultdict
from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.status.accounts import Accounts
from buildlog.status.asks import HeadAsk, Key, PieceAsks
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.spool_account import SpoolState
from buildlog.status.spool_check import NO_CARRIERS, Carriers, SpoolCheck, best_spool, carriers
from buildlog.terms import Moment

SpoolsOf = dict[int, list[SpoolState]]


def usable_spools(accounts: Accounts) -> SpoolsOf:
    """By material."""
    return grouped((spool for spool in accounts.spools.values() if spool.usable), lambda spool: spool.material_id)


@dataclass(frozen=True, slots=True)
class CarriersOf:
    """Spools that could carry a print, by material and by polymer in any colour."""

    material: dict[int, Carriers]
    polymer: dict[str, Carriers]


def carriers_of(snapshot: Snapshot, now: Moment, spools: SpoolsOf) -> CarriersOf:
    of_polymer: defaultdict[str, list[SpoolState]] = defaultdict(list)
    for material in snapshot.materials:
        of_polymer[material.polymer] += spools.get(material.id, ())
    return CarriersOf(
        {material_id: carriers(held, snapshot.reference, now) for material_id, held in spools.items()},
        {polymer: carriers(held, snapshot.reference, now) for polymer, held in of_polymer.items()},
    )


def spools_for_prints(
    snapshot: Snapshot, needs: Needs, hours: Hours, among: CarriersOf, asks: PieceAsks
) -> dict[Key, SpoolCheck]:
    """For each (part, side) still to get: a run of its ready file, else one piece by its own figures; of several
    heads the one that is worst off.
    """
    choice = SpoolChoice(snapshot, among)
    found = {}
    for key, need in needs.by_part.items():
        piece = hours.pieces.get(key)
        if piece is None or not (need.to_get or need.spares_to_get):
            continue
        if piece.print_file_id is not None:
            checks = choice.for_file(piece.print_file_id)
        else:
            checks = choice.for_heads(asks.of(key))
        if len(checks) > 1:
            found[key] = min(checks, key=lambda check: (check.carries, check.enough))
        elif checks:
            found[key] = checks[0]
    return found


class SpoolChoice:
    """Finds the best spool of a material, or of a polymer in any colour, for a print; each question once."""

    def __init__(self, snapshot: Snapshot, among: CarriersOf) -> None:
        self._snapshot, self._among = snapshot, among
        self._known: dict[tuple[int | None, str, int], SpoolCheck] = {}

    def for_file(self, print_file_id: int) -> tuple[SpoolCheck, ...]:
        """Head by head."""
        return tuple(
            self._best(tool.material_id, tool.polymer or "", tool.part_mg + tool.support_mg + tool.purge_mg)
            for tool in self._snapshot.tools_of_file.get(print_file_id, ())
        )

    def for_heads(self, asks: tuple[HeadAsk, ...]) -> tuple[SpoolCheck, ...]:
        return tuple([self._best(material_id, polymer, mg) for material_id, polymer, mg, _ in asks])

    def _best(self, material_id: int | None, polymer: str, mg: int) -> SpoolCheck:
        asked = (material_id, polymer, mg)
        found = self._known.get(asked)
        if found is None:
            exact = material_id is not None
            among = self._among.material.get(material_id or 0) if exact else self._among.polymer.get(polymer)
            found = self._known[asked] = best_spool(mg, among or NO_CARRIERS)
        return found
