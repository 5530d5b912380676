"""Which ready file could go on which printer."""

from collections.abc import Iterator

from buildlog.facts.frozen import frozen
from buildlog.facts.printing import FileTool, PrintFile
from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts, SpoolState
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.one_spool import SpoolChoice, asks_of_file, carriers_of, usable_spools
from buildlog.status.slot import Holds
from buildlog.status.spool_check import SpoolCheck, spool_check
from buildlog.terms import Moment, Side, later


@frozen
class Offer:
    """``minutes`` are without failures; ``spools`` head by head: the loaded one where it matches, else the best to
    load. ``spool_text`` is as «412 g, needs 380 g: tight». ``lines`` as «FL07 L ×2»; ``helps`` how many of its pieces
    are still to get; ``rank`` the earliest slot it serves in allotment order. ``to_load``: a spool must be loaded
    first. ``cautions`` are keys of the reference data's cautions.
    """

    printer_id: int
    print_file_id: int
    ends_at: Moment
    minutes: int
    spools: tuple[SpoolCheck, ...]
    spool_text: str
    cautions: tuple[str, ...]
    lines: str
    helps: int
    rank: int
    to_load: bool

    @property
    def carried(self) -> bool:
        """The loaded spools carry it in one go."""
        return not self.to_load and all(spool.carries for spool in self.spools)


def offers_for(snapshot: Snapshot, now: Moment, accounts: Accounts, needs: Needs, hours: Hours) -> tuple[Offer, ...]:
    """For every file that is the ready one of something to get; slots held on purpose do not ask for one."""
    to_get: dict[tuple[int, Side], int] = {}
    first: dict[tuple[int, Side], int] = {}
    for slot in needs.slots:
        if slot.holds is Holds.TO_GET and not slot.held:
            key = (slot.part, slot.side)
            to_get[key] = to_get.get(key, 0) + 1
            first.setdefault(key, slot.rank)
    ranks: dict[int, int] = {}
    for key, file_id in hours.ready_file.items():
        if key in first:
            ranks[file_id] = min(first[key], ranks.get(file_id, first[key]))
    among = carriers_of(snapshot, now, usable_spools(accounts))
    makes = _Makes(snapshot, now, accounts, hours, SpoolChoice(among))
    files = {file.id: file for file in snapshot.print_files}
    found: list[Offer] = []
    for file_id, rank in sorted(ranks.items(), key=lambda pair: (pair[1], pair[0])):
        lines = snapshot.lines_of_file.get(file_id, ())
        helps = sum(min(line.quantity, to_get.get((line.part_id, line.side), 0)) for line in lines)
        found.extend(makes.offers(files[file_id], helps, rank))
    return tuple(found)


class _Makes:
    """What the offers of all files share."""

    def __init__(
        self, snapshot: Snapshot, now: Moment, accounts: Accounts, hours: Hours, choice: SpoolChoice
    ) -> None:
        self._snapshot, self._now, self._accounts = snapshot, now, accounts
        self._hours, self._choice = hours, choice
        self._printers_of: dict[int, tuple[int, ...]] = {}
        for piece in hours.pieces.values():
            if piece.print_file_id is not None:
                before = self._printers_of.get(piece.print_file_id)
                able = piece.up_printer_ids
                both = able if before is None else tuple(i for i in before if i in able)
                self._printers_of[piece.print_file_id] = both

    def offers(self, file: PrintFile, helps: int, rank: int) -> Iterator[Offer]:
        """One for each printer that can run it for all of its parts and is up."""
        tools = self._snapshot.tools_of_file.get(file.id, [])
        lines = self._lines(file)
        best = tuple(self._choice.best(ask) for ask in asks_of_file(self._snapshot, file.id))
        for printer_id in self._printers_of.get(file.id, ()):
            polymers = [self._polymer(tool) for tool in tools]
            learned = self._hours.learning.cell(printer_id, polymers, file.estimate_from)
            minutes = round(file.print_minutes * learned.ratio)
            checks, to_load = self._checks(printer_id, tools, best)
            yield Offer(
                printer_id=printer_id,
                print_file_id=file.id,
                ends_at=later(self._now, minutes),
                minutes=minutes,
                spools=checks,
                spool_text="; ".join(check.text for check in checks),
                cautions=self._cautions(tools, polymers),
                lines=lines,
                helps=helps,
                rank=rank,
                to_load=to_load,
            )

    def _checks(
        self, printer_id: int, tools: list[FileTool], best: tuple[SpoolCheck, ...]
    ) -> tuple[tuple[SpoolCheck, ...], bool]:
        """The loaded spool of each head where its material is the one asked for, else the best there is."""
        loaded = self._accounts.set_up[printer_id].loaded
        checks, to_load = [], False
        for tool, otherwise in zip(tools, best, strict=True):
            spool = self._accounts.spools.get(loaded.get(tool.head, 0))
            if spool is not None and self._matches(tool, spool):
                needed = tool.part_mg + tool.support_mg + tool.purge_mg
                checks.append(spool_check(needed, spool, self._snapshot.reference, self._now))
            else:
                checks.append(otherwise)
                to_load = True
        return tuple(checks), to_load

    def _matches(self, tool: FileTool, spool: SpoolState) -> bool:
        if tool.material_id is not None:
            return spool.material_id == tool.material_id
        return self._snapshot.material[spool.material_id].polymer == tool.polymer

    def _polymer(self, tool: FileTool) -> str:
        if tool.material_id is not None:
            return self._snapshot.material[tool.material_id].polymer
        return tool.polymer or ""

    def _cautions(self, tools: list[FileTool], polymers: list[str]) -> tuple[str, ...]:
        known = self._snapshot.reference.polymers
        smelly = any(
            self._snapshot.material[tool.material_id].smelly for tool in tools if tool.material_id is not None
        )
        smelly = smelly or any(polymer in known and known[polymer].smelly for polymer in polymers)
        return ("unattended_print", "styrene") if smelly else ("unattended_print",)

    def _lines(self, file: PrintFile) -> str:
        names = []
        for line in self._snapshot.lines_of_file.get(file.id, ()):
            side = f" {line.side}" if line.side is not Side.NONE else ""
            many = f" ×{line.quantity}" if line.quantity > 1 else ""
            names.append(f"{self._snapshot.part[line.part_id].code}{side}{many}")
        return ", ".join(names)
