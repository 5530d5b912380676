"""What in use stands on a thing, so that it cannot be retired."""

from buildlog.record.writer import Work
from buildlog.wording import few

_OPEN_GOAL = (
    "goal of episode",
    """SELECT e.number FROM goal g JOIN episode e ON e.id = g.episode_id
       WHERE g.{column} = :id AND g.retired_at IS NULL AND g.ticked_at IS NULL AND e.closed_at IS NULL""",
)


def _live(noun: str, column: str, name: str = "code") -> tuple[str, str]:
    table = noun.replace(" ", "_")
    return noun, f"SELECT {name} FROM {table} WHERE {column} = :id AND retired_at IS NULL"


def _goal(column: str) -> tuple[str, str]:
    return _OPEN_GOAL[0], _OPEN_GOAL[1].format(column=column)


def _question(column: str) -> tuple[str, str]:
    return "open question", (
        "SELECT q.code FROM question_target t JOIN question q ON q.id = t.question_id"
        f" WHERE t.{column} = :id AND q.answered_at IS NULL AND q.retired_at IS NULL"
    )


def _shot(column: str) -> tuple[str, str]:
    return "shot to film", f"SELECT code FROM shot WHERE {column} = :id AND filmed_at IS NULL AND retired_at IS NULL"


def _waits(condition: str) -> tuple[str, str]:
    return "wait of", (
        "SELECT a.code || ' for ' || b.code FROM wait w JOIN assembly a ON a.id = w.assembly_id"
        f" JOIN assembly b ON b.id = w.on_assembly_id WHERE w.retired_at IS NULL AND ({condition})"
    )


def _orders(column: str) -> tuple[str, str]:
    return "order", (
        "SELECT p.code FROM order_line l JOIN purchase p ON p.id = l.purchase_id"
        f" WHERE l.{column} = :id AND p.closed_at IS NULL"
    )


_JOBS = (
    "SELECT coalesce(nullif(j.name, ''), 'number ' || j.id) FROM job j WHERE j.state IN ('queued', 'running') AND "
)
_PIECES_IN_BOX = """SELECT coalesce(l.mark, p.code || ' lot ' || l.id) FROM lot l JOIN part p ON p.id = l.part_id
    WHERE l.box_id = :id AND NOT EXISTS (SELECT 1 FROM fitting f WHERE f.lot_id = l.id AND f.until_at IS NULL)
      AND l.quantity > (SELECT coalesce(sum(e.pieces), 0) FROM lot_entry e
                        WHERE e.lot_id = l.id AND e.kind IN ('scrapped', 'split off'))"""
_FITTED = """SELECT DISTINCT a.code FROM fitting f JOIN position p ON p.id = f.position_id
    JOIN assembly a ON a.id = p.assembly_id LEFT JOIN lot l ON l.id = f.lot_id
    WHERE f.until_at IS NULL AND """
_LOADED = """SELECT {name} FROM set_up s JOIN printer p ON p.id = s.printer_id
    WHERE s.kind = 'loaded' AND {of} = :id AND NOT EXISTS (
      SELECT 1 FROM set_up n WHERE n.printer_id = s.printer_id AND n.head = s.head
      AND n.kind IN ('loaded', 'unloaded') AND (n.at, n.id) > (s.at, s.id))"""
_CURRENT = """SELECT DISTINCT p.code FROM demand d JOIN revision r ON r.id = d.revision_id
    JOIN part p ON p.id = r.part_id WHERE d.material_id = :id AND p.retired_at IS NULL
    AND NOT EXISTS (SELECT 1 FROM revision n WHERE n.part_id = r.part_id
                    AND (n.since_at, n.id) > (r.since_at, r.id))"""

STANDING_ON: dict[str, tuple[tuple[str, str], ...]] = {
    "build": (
        _live("assembly", "build_id"),
        _live("part", "build_id"),
        _live("episode", "build_id", "number"),
        _live("question", "build_id"),
        _shot("build_id"),
        _live("milestone", "build_id"),
    ),
    "supplier": (_live("material", "supplier_id"), _live("bought item", "supplier_id")),
    "box": (
        _live("assembly", "box_id"),
        _live("spool", "box_id"),
        _live("bought item", "box_id"),
        ("piece", _PIECES_IN_BOX),
    ),
    "resource": (_live("step", "jig_id"),),
    "material": (
        (
            "spool",
            """SELECT s.code FROM spool s WHERE s.material_id = :id AND s.retired_at IS NULL
               AND NOT EXISTS (SELECT 1 FROM spool_entry e WHERE e.spool_id = s.id AND e.kind = 'emptied')""",
        ),
        ("part", _CURRENT),
        (
            "print file",
            """SELECT DISTINCT f.code FROM file_tool t JOIN print_file f ON f.id = t.print_file_id
               WHERE t.material_id = :id AND f.retired_at IS NULL""",
        ),
        _orders("material_id"),
    ),
    "printer": (
        ("print", _JOBS + "j.printer_id = :id"),
        ("loaded spool", _LOADED.format(name="(SELECT code FROM spool WHERE id = s.spool_id)", of="s.printer_id")),
    ),
    "spool": (
        (
            "print",
            _JOBS + "EXISTS (SELECT 1 FROM feed f WHERE f.job_id = j.id AND f.spool_id = :id AND f.to_at IS NULL)",
        ),
        ("printer", _LOADED.format(name="p.code", of="s.spool_id")),
    ),
    "bought item": (
        _live("part", "bought_item_id"),
        (
            "step",
            """SELECT s.code FROM step_use u JOIN step s ON s.id = u.step_id
               WHERE u.bought_item_id = :id AND s.retired_at IS NULL""",
        ),
        _orders("bought_item_id"),
    ),
    "assembly": (
        _live("assembly", "parent_id"),
        (
            "part",
            """SELECT p.code FROM usage u JOIN part p ON p.id = u.part_id
               WHERE u.assembly_id = :id AND u.ended_at IS NULL""",
        ),
        _live("step", "assembly_id"),
        _live("fit test", "assembly_id"),
        _waits("w.assembly_id = :id OR w.on_assembly_id = :id"),
        _question("assembly_id"),
        (
            "milestone",
            """SELECT m.code FROM milestone_target t JOIN milestone m ON m.id = t.milestone_id
               WHERE t.assembly_id = :id AND m.retired_at IS NULL""",
        ),
        _goal("assembly_id"),
    ),
    "part": (
        (
            "assembly",
            """SELECT a.code FROM usage u JOIN assembly a ON a.id = u.assembly_id
               WHERE u.part_id = :id AND u.ended_at IS NULL""",
        ),
        ("piece fitted in", _FITTED + "l.part_id = :id"),
        _live("part", "variant_of_id"),
        _live("step", "part_id"),
        (
            "print file",
            """SELECT DISTINCT f.code FROM file_line l JOIN print_file f ON f.id = l.print_file_id
               WHERE l.part_id = :id AND f.retired_at IS NULL""",
        ),
        ("print", _JOBS + "EXISTS (SELECT 1 FROM job_line l WHERE l.job_id = j.id AND l.part_id = :id)"),
        _question("part_id"),
        _goal("part_id"),
    ),
    "usage": (
        ("piece fitted in", _FITTED + "f.usage_id = :id"),
        (
            "fit test",
            """SELECT t.code FROM fit_test_usage u JOIN fit_test t ON t.id = u.fit_test_id
               WHERE u.usage_id = :id AND t.retired_at IS NULL""",
        ),
    ),
    "fit test": (("lead side of", _live("assembly", "lead_test_id")[1]),),
    "step": (_waits("w.step_id = :id OR w.on_step_id = :id"), _goal("step_id"), _shot("step_id")),
    "question": (_goal("question_id"),),
    "print file": (("print", _JOBS + "j.print_file_id = :id"),),
    "episode": (_live("goal", "episode_id", "kind"), _shot("episode_id")),
}
"""By noun: what it is called, and the query for the names of those that stand on it."""


def standing_on(work: Work, noun: str, row_id: int | None) -> str:
    """«part FL01, FL02; fit test F1», empty when nothing stands on it."""
    found = []
    for what, query in STANDING_ON.get(noun, ()):
        rows = work.ask(query, id=row_id).all()
        names = [str(row[0]) for row in rows]
        if names:
            found.append(f"{what} {few(names)}")
    return "; ".join(found)
