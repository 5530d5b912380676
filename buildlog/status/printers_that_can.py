"""Which printers can print a part or a file: class, bed at any angle, height, heads, nozzle, capability words."""

import math

from buildlog.facts.capabilities import words_of
from buildlog.facts.frozen import frozen
from buildlog.facts.printing import Printer, PrintFile
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Demand, Part
from buildlog.status.set_up import SetUpState
from buildlog.terms import Moment
from buildlog.wording import mm


@frozen
class Can:
    """``printer_ids`` can, ``up_printer_ids`` of them are not down; ``why_none`` says what each of the others lacks
    when none can.
    """

    printer_ids: tuple[int, ...]
    up_printer_ids: tuple[int, ...]
    why_none: str


class PrintersThatCan:
    """Asked for many parts: live printers and their words are looked up once, and parts that ask alike are judged
    once.
    """

    def __init__(self, snapshot: Snapshot, set_up: dict[int, SetUpState], now: Moment) -> None:
        self._set_up = set_up
        self._printers = [p for p in snapshot.printers if p.retired_at is None or p.retired_at > now]
        self._words = {printer.id: words_of(printer.capabilities) for printer in self._printers}
        self._known: dict[tuple[object, ...], Can] = {}

    def for_part(self, part: Part, demands: list[Demand]) -> Can:
        heads = max([demand.head for demand in demands], default=1)
        asks = (heads, part.nozzle_um, part.length_um, part.width_um, part.height_um, part.needs)
        known = self._known.get(asks)
        if known is None:
            asked = words_of(part.needs)
            lacks = {p: self._part_lacks(part, heads, asked, p) for p in self._printers}
            known = self._known[asks] = self._sorted(lacks)
        return known

    def for_file(self, file: PrintFile, heads: int) -> Can:
        return self._sorted({p: self._file_lacks(file, heads, p) for p in self._printers})

    def with_heads(self, heads: int) -> tuple[int, ...]:
        return tuple(printer.id for printer in self._printers if printer.heads >= heads)

    def for_file_of_part(self, file: PrintFile, heads: int, part: Part) -> Can:
        """A file was laid out on a bed by its maker, but cannot give a printer what the part asks of it."""
        asked = words_of(part.needs)
        lacks = {
            p: self._file_lacks(file, heads, p) or _lacks_words(asked, self._words[p.id]) for p in self._printers
        }
        return self._sorted(lacks)

    def _sorted(self, lacks: dict[Printer, str]) -> Can:
        able = tuple(printer.id for printer, lack in lacks.items() if not lack)
        up = tuple(printer_id for printer_id in able if not self._set_up[printer_id].is_down)
        why = "" if able else "; ".join(f"{printer.code}: {lack}" for printer, lack in lacks.items())
        return Can(able, up, why or ("" if able else "there is no printer"))

    def _part_lacks(self, part: Part, heads: int, asked: frozenset[str], printer: Printer) -> str:
        if heads > printer.heads:
            return f"{heads} heads needed"
        if not _nozzle_fits(part.nozzle_um, self._set_up[printer.id].nozzle_um):
            return f"nozzle {mm(part.nozzle_um or 0)} needed"
        if (part.height_um or 0) > printer.bed_z_um:
            return "not high enough"
        if not fits_bed(part.length_um or 0, part.width_um or 0, printer.bed_x_um, printer.bed_y_um):
            return "bed too small"
        return _lacks_words(asked, self._words[printer.id])

    def _file_lacks(self, file: PrintFile, heads: int, printer: Printer) -> str:
        if file.printer_class != printer.printer_class:
            return f"file is for {file.printer_class}"
        if heads > printer.heads:
            return f"{heads} heads needed"
        if not _nozzle_fits(file.nozzle_um, self._set_up[printer.id].nozzle_um):
            return f"nozzle {mm(file.nozzle_um or 0)} needed"
        return ""


def fits_bed(length_um: int, width_um: int, bed_x_um: int, bed_y_um: int) -> bool:
    """Whether a rectangle fits into another at any angle.

    With p ≥ q and a ≥ b: p ≤ a and q ≤ b, or q ≤ b and b ≥ (2pqa + (p² − q²)·√(p² + q² − a²)) ÷ (p² + q²).
    Source: W. B. Carver's answer to a problem in the American Mathematical Monthly 64 (1957), from memory.
    Exact without keep-out and brim, which the maker of the file sees to.
    """
    p, q = max(length_um, width_um), min(length_um, width_um)
    a, b = max(bed_x_um, bed_y_um), min(bed_x_um, bed_y_um)
    if p <= a and q <= b:
        return True
    if q > b or p * p + q * q <= a * a:
        return False
    return b >= (2 * p * q * a + (p * p - q * q) * math.sqrt(p * p + q * q - a * a)) / (p * p + q * q)


def _nozzle_fits(asked_um: int | None, fitted_um: int | None) -> bool:
    return asked_um is None or fitted_um is None or asked_um == fitted_um


def _lacks_words(asked: frozenset[str], has: frozenset[str]) -> str:
    missing = sorted(asked - has)
    return f"not {', '.join(missing)}" if missing else ""
