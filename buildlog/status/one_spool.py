"""Which spool carries each print that is to come, in one go."""

from collections import defaultdict

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.status.accounts import Accounts
from buildlog.status.asks import HeadAsk, Key, PieceAsks
from buildlog.status.hours import Hours
from buildlog.status.kept import Kept
from buildlog.status.needs import Needs
from buildlog.status.spool_account import SpoolState
from buildlog.status.spool_check import NO_CARRIERS, Carriers, SpoolCheck, Sure, best_spool, carriers, how_sure
from buildlog.terms import Moment

SpoolsOf = dict[int, list[SpoolState]]


def usable_spools(accounts: Accounts) -> SpoolsOf:
    """By material."""
    return grouped((spool for spool in accounts.spools.values() if spool.usable), lambda spool: spool.material_id)


@frozen
class CarriersOf:
    """Spools that could carry a print, by material and by polymer in any colour."""

    material: dict[int, Carriers]
    polymer: dict[str, Carriers]


def carriers_of(snapshot: Snapshot, now: Moment, spools: SpoolsOf, kept: Kept | None = None) -> CarriersOf:
    """The very same ones as before where nothing of their spools differs."""
    kept = kept or Kept(snapshot, now)
    reference = snapshot.reference
    sure = {material_id: how_sure(held, reference, now) for material_id, held in spools.items()}
    of_polymer: defaultdict[str, tuple[Sure, ...]] = defaultdict(tuple)
    for material in snapshot.materials:
        of_polymer[material.polymer] += sure.get(material.id, ())
    return CarriersOf(
        kept.ask_each("carriers", (), (), sure, lambda _, held: carriers(held, reference)),
        kept.ask_each("carriers in any colour", (), (), dict(of_polymer), lambda _, held: carriers(held, reference)),
    )


def heads_to_print(snapshot: Snapshot, needs: Needs, hours: Hours, asks: PieceAsks) -> dict[Key, tuple[HeadAsk, ...]]:
    """What each (part, side) still to get asks of each head in one go: a run of its ready file, else one piece by its
    own figures.
    """
    found = {}
    for key, need in needs.by_part.items():
        piece = hours.pieces.get(key)
        if piece is None or not (need.to_get or need.spares_to_get):
            continue
        file_id = piece.print_file_id
        found[key] = asks.of(piece) if file_id is None else asks_of_file(snapshot, file_id)
    return found


def spools_for_prints(among: CarriersOf, heads: dict[Key, tuple[HeadAsk, ...]], kept: Kept) -> dict[Key, SpoolCheck]:
    """The spool for each print to come; of several heads the one that is worst off."""
    choice = SpoolChoice(among)
    asked = {asks: tuple([choice.among(ask) for ask in asks]) for asks in dict.fromkeys(heads.values()) if asks}
    checks = kept.ask_each("one spool", (), (), asked, lambda asks, _: choice.worst_off(asks))
    return {key: checks[asks] for key, asks in heads.items() if asks}


class SpoolChoice:
    """Finds the best spool of a material, or of a polymer in any colour, for a print; each question once."""

    def __init__(self, of: CarriersOf) -> None:
        self._of = of
        self._known: dict[tuple[int | None, str, int], SpoolCheck] = {}

    def among(self, ask: HeadAsk) -> Carriers:
        material_id, polymer, _, _ = ask
        found = self._of.polymer.get(polymer) if material_id is None else self._of.material.get(material_id)
        return found or NO_CARRIERS

    def best(self, ask: HeadAsk) -> SpoolCheck:
        asked = ask[:3]
        found = self._known.get(asked)
        if found is None:
            found = self._known[asked] = best_spool(ask.mg, self.among(ask))
        return found

    def worst_off(self, several: tuple[HeadAsk, ...]) -> SpoolCheck:
        if len(several) == 1:
            return self.best(several[0])
        return min(map(self.best, several), key=lambda check: (check.carries, check.enough))


def asks_of_file(snapshot: Snapshot, print_file_id: int) -> tuple[HeadAsk, ...]:
    """A run of it, head by head, by its own figures."""
    return tuple(
        HeadAsk(tool.material_id, tool.polymer or "", tool.part_mg + tool.support_mg + tool.purge_mg, 0)
        for tool in snapshot.tools_of_file.get(print_file_id, ())
    )
