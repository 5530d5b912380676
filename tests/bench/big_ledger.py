"""Makes a big ledger: 5,000 parts, 20,000 pieces, 20,000 prints and 50,000 spool entries (feeds and readings); three
prints run.

The rows go in as the actions would have written them; `python tests/bench/big_ledger.py PATH [PIECES]` makes one.
"""

import random
import sqlite3
import sys
from collections.abc import Iterable
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from buildlog.ledger import USUAL_SETTINGS
from buildlog.record import keeping

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
LASTS_MINUTES = 700 * 1440
START = NOW - timedelta(minutes=LASTS_MINUTES)
PRINTERS, SPOOLS, MATERIALS = 6, 400, 8


def at(minutes: float) -> str:
    return f"{START + timedelta(minutes=minutes):%Y-%m-%dT%H:%M:%SZ}"


class Filler:
    """Inserts rows by table; columns are named once per call."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection

    def rows(self, table: str, names: str, rows: Iterable[tuple[Any, ...]]) -> None:
        columns = [name.strip() for name in names.split(",")]
        marks = ", ".join("?" for _ in columns)
        quoted = ", ".join(f'"{name}"' for name in columns)
        self.connection.executemany(f'INSERT INTO "{table}" ({quoted}) VALUES ({marks})', rows)


def make(path: Path, pieces: int = 20_000, seed: int = 7) -> Path:
    """A ledger of that many pieces; parts, prints and spool entries in the same proportion."""
    keeping.create(path, USUAL_SETTINGS)
    chance = random.Random(seed)
    parts = max(10, pieces // 4)
    assemblies = max(4, parts // 10)
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("BEGIN")
        fill = Filler(connection)
        _shop(fill)
        _tree(fill, assemblies)
        _parts(fill, parts, assemblies, chance)
        _prints(fill, pieces, parts, chance)
        _running(fill, pieces)
        _fittings(fill, pieces, parts, assemblies)
        _readings(fill, pieces * 3 // 2, chance)
        connection.execute("COMMIT")
        connection.execute("ANALYZE")
    wrong = keeping.check(path)
    if wrong:
        raise RuntimeError(f"no actions of ours write such rows: {wrong[:3]}")
    return path


def _shop(fill: Filler) -> None:
    fill.rows("build", "id, code, name, state, filming_rule, created_at", [(1, "BIG", "Big", "open", "", at(0))])
    fill.rows(
        "material",
        "id, code, name, polymer, colour, diameter_um, density_mg_cm3, pack_mg, price_minor, smelly, cautions",
        [
            (
                m,
                f"MAT-{m}",
                f"Material {m}",
                ("ABS", "PETG", "TPU", "PLA")[m % 4],
                "",
                1750,
                1050,
                1_000_000,
                2500,
                0,
                "",
            )
            for m in range(1, MATERIALS + 1)
        ],
    )
    fill.rows(
        "printer",
        "id, code, name, printer_class, bed_x_um, bed_y_um, bed_z_um, heads, capabilities, runs_unattended,"
        " stops_at_filament_end, watts",
        [
            (p, f"P{p}", f"Printer {p}", "wide", 300_000, 300_000, 400_000, 1, "", 1, 1, 150)
            for p in range(1, PRINTERS + 1)
        ],
    )
    fill.rows(
        "set_up",
        "printer_id, at, kind, head, nozzle_um, text",
        [(p, at(0), "nozzle", 1, 400, "") for p in range(1, PRINTERS + 1)],
    )
    fill.rows(
        "spool",
        "id, code, material_id, received_at, content_mg, content_pm_mg, tare_mg, tare_pm_mg, tare_assumed",
        [
            (s, f"SPOOL-{s}", 1 + s % MATERIALS, at(0), 1_000_000, 15_000, 215_000, 65_000, 1)
            for s in range(1, SPOOLS + 1)
        ],
    )


def _tree(fill: Filler, assemblies: int) -> None:
    """A root and paired assemblies below it: two positions each."""
    fill.rows(
        "assembly",
        "id, build_id, parent_id, code, name, paired, count, joined, tree_order",
        [(1, 1, None, "ROOT", "Root", 0, 1, "comes apart", 0)]
        + [(a, 1, 1, f"ASM-{a}", f"Assembly {a}", 1, 1, "bonded", a) for a in range(2, assemblies + 1)],
    )
    fill.rows("position", "id, assembly_id, parent_id, side, ordinal", [(1, 1, None, "-", 1)])
    fill.rows(
        "position",
        "id, assembly_id, parent_id, side, ordinal",
        [(2 * a + s, a, 1, "LR"[s], 1) for a in range(2, assemblies + 1) for s in (0, 1)],
    )


def _parts(fill: Filler, parts: int, assemblies: int, chance: random.Random) -> None:
    fill.rows(
        "part",
        "id, build_id, code, name, origin, handed, stage, one_lot, matched_set, needs, length_um,"
        " width_um, height_um",
        [
            (p, 1, f"PT-{p}", f"Part {p}", "printed", 1, "proven", 0, "", "", 120_000, 80_000, 60_000)
            for p in range(1, parts + 1)
        ],
    )
    fill.rows(
        "revision",
        "id, part_id, letter, since_at, what_changed, print_minutes, figures_from",
        [(p, p, "A", at(0), "", chance.randint(30, 900), "") for p in range(1, parts + 1)],
    )
    fill.rows(
        "demand",
        "revision_id, head, material_id, part_mg, support_mg, purge_mg",
        [(p, 1, 1 + p % MATERIALS, chance.randint(5_000, 200_000), 0, 2_000) for p in range(1, parts + 1)],
    )
    fill.rows(
        "usage",
        "id, assembly_id, part_id, quantity, side_rule, spares_wanted, second_will_do, since_at",
        [(p, _assembly_of(p, assemblies), p, 3, "as the position", 0, 0, at(0)) for p in range(1, parts + 1)],
    )


def _assembly_of(part: int, assemblies: int) -> int:
    return 2 + part % (assemblies - 1)


def _prints(fill: Filler, pieces: int, parts: int, chance: random.Random) -> None:
    """One piece a print; four of a hundred prints fail and make none."""
    step = LASTS_MINUTES / pieces
    failed = [chance.random() < 0.04 for _ in range(pieces)]
    jobs = [(j, 1 + j % PRINTERS, (j - 1) * step, 300 + j % 200, failed[j - 1]) for j in range(1, pieces + 1)]
    fill.rows(
        "job",
        "id, printer_id, name, state, queued_at, started_at, ended_at, estimate_minutes, estimate_from, real_minutes,"
        " real_from, unattended, restarts, filament_ran_on, cause",
        [
            (j, p, "", "failed" if bad else "finished", at(t), at(t), at(t + step * 0.9), m, "", int(m * 1.05),
             "typed", 0, 0, 0, "")
            for j, p, t, m, bad in jobs
        ],
    )  # fmt: skip
    fill.rows(
        "job_line",
        "id, job_id, purpose, part_id, revision_id, side, quantity, scrapped, cause, what",
        [
            (j, j, "parts", 1 + j % parts, 1 + j % parts, "LR"[(j // parts) % 2], 1, int(bad), "", "")
            for j, _, _, _, bad in jobs
        ],
    )
    fill.rows(
        "feed",
        "job_id, head, material_id, spool_id, from_at, to_at, part_mg, support_mg, purge_mg, real_mg, real_from",
        [
            (j, 1, 1 + (1 + j % SPOOLS) % MATERIALS, 1 + j % SPOOLS, at(t), at(t + step * 0.9), 15_000, 0, 500,
             16_000, "typed")
            for j, _, t, _, _ in jobs
        ],
    )  # fmt: skip
    fill.rows(
        "lot",
        "id, part_id, revision_id, side, quantity, origin, grade, made_at, job_line_id",
        [
            (j, 1 + j % parts, 1 + j % parts, "LR"[(j // parts) % 2], 1, "print", "good", at(t + step * 0.9), j)
            for j, _, t, _, bad in jobs
            if not bad
        ],
    )


def _running(fill: Filler, pieces: int) -> None:
    """Every printer has a spool on it, and every other one prints."""
    since, spools = at(LASTS_MINUTES), {p: p * 7 for p in range(1, PRINTERS + 1)}
    loaded = [(p, since, "loaded", 1, spool, "") for p, spool in spools.items()]
    fill.rows("set_up", "printer_id, at, kind, head, spool_id, text", loaded)
    jobs = {pieces + p: p for p in range(1, PRINTERS + 1, 2)}
    fill.rows(
        "job",
        "id, printer_id, name, state, queued_at, started_at, estimate_minutes, estimate_from, unattended, restarts,"
        " filament_ran_on, cause",
        [(j, p, "", "running", since, since, 1700, "", 0, 0, 0, "") for j, p in jobs.items()],
    )
    fill.rows(
        "job_line",
        "id, job_id, purpose, part_id, revision_id, side, quantity, scrapped, cause, what",
        [(j, j, "parts", p, p, "L", 1, 0, "", "") for j, p in jobs.items()],
    )
    fill.rows(
        "feed",
        "job_id, head, material_id, spool_id, from_at, part_mg, support_mg, purge_mg",
        [(j, 1, 1 + spools[p] % MATERIALS, spools[p], since, 15_000, 0, 500) for j, p in jobs.items()],
    )


def _fittings(fill: Filler, pieces: int, parts: int, assemblies: int) -> None:
    """Two pieces of each part and side stand in its slots since the last was made; the rest lies free or is still to
    print.
    """
    made = {row[0] for row in fill.connection.execute("SELECT id FROM lot")}
    standing: dict[tuple[int, int], int] = {}
    rows = []
    for lot in range(1, pieces + 1):
        part, side = 1 + lot % parts, (lot // parts) % 2
        number = standing.get((part, side), 0) + 1
        if lot in made and number <= 2:
            standing[part, side] = number
            position = 2 * _assembly_of(part, assemblies) + side
            rows.append((position, part, number, lot, "", 0, at(LASTS_MINUTES), 0))
    fill.rows("fitting", "position_id, usage_id, number, lot_id, what, stand_in, from_at, left_as_is", rows)
    fill.rows(
        "lot_entry",
        "lot_id, at, kind, pieces, cause",
        [(row[3], row[6], "fitted", 1, "") for row in rows],
    )


def _readings(fill: Filler, readings: int, chance: random.Random) -> None:
    step = 690 * 1440 / readings
    fill.rows(
        "spool_entry",
        "spool_id, at, kind, gross_mg, cause",
        [
            (
                1 + n % SPOOLS,
                at(n * step),
                "weighed",
                int(1_215_000 - n / readings * 900_000 + chance.randint(-2000, 2000)),
                "",
            )
            for n in range(readings)
        ],
    )


if __name__ == "__main__":
    print(make(Path(sys.argv[1]), *(int(argument) for argument in sys.argv[2:])))
