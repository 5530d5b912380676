"""Rules over lots, their entries and what stands in slots.

An open end is sorted after every moment as «9».
"""

PIECE_RULES: tuple[tuple[str, str], ...] = (
    (
        "a slot holds one thing at a time",
        """SELECT a.id || ' and ' || b.id FROM fitting a JOIN fitting b ON a.id < b.id
           AND a.position_id = b.position_id AND a.usage_id = b.usage_id AND a.number = b.number
           AND a.from_at < coalesce(b.until_at, '9') AND b.from_at < coalesce(a.until_at, '9')""",
    ),
    (
        "a piece stands in one slot at a time",
        """SELECT a.lot_id FROM fitting a JOIN fitting b ON a.id < b.id AND a.lot_id = b.lot_id
           AND a.from_at < coalesce(b.until_at, '9') AND b.from_at < coalesce(a.until_at, '9')""",
    ),
    (
        "what stands in a slot is a lot of one",
        """SELECT coalesce(l.mark, l.id) FROM fitting f JOIN lot l ON l.id = f.lot_id WHERE l.quantity <> 1""",
    ),
    (
        "what stands in a slot stands in a slot of its usage",
        """SELECT 'fitting ' || f.id FROM fitting f JOIN usage u ON u.id = f.usage_id
           JOIN position p ON p.id = f.position_id
           WHERE u.assembly_id <> p.assembly_id
              OR (f.until_at IS NULL AND u.ended_at IS NULL AND p.retired_at IS NULL AND f.number > CASE
                    WHEN u.side_rule = 'one of each' THEN 2 * u.quantity
                    WHEN u.side_rule = 'L only' AND p.side = 'R' THEN 0
                    WHEN u.side_rule = 'R only' AND p.side = 'L' THEN 0
                    ELSE u.quantity END)""",
    ),
    (
        "a piece is fitted and taken out as its entries say",
        # by what changed at a moment: a piece that goes over to another usage stays where it is, without entries
        """SELECT DISTINCT 'lot ' || lot_id FROM (
             SELECT lot_id, from_at AS at, 1 AS pieces FROM fitting WHERE lot_id IS NOT NULL
             UNION ALL
             SELECT lot_id, until_at, -1 FROM fitting WHERE lot_id IS NOT NULL AND until_at IS NOT NULL
             UNION ALL
             SELECT lot_id, at, CASE kind WHEN 'fitted' THEN -pieces ELSE pieces END FROM lot_entry
             WHERE kind IN ('fitted', 'taken out'))
           GROUP BY lot_id, at HAVING sum(pieces) <> 0""",
    ),
    (
        "nothing happens to a lot before it is made",
        """SELECT DISTINCT coalesce(l.mark, 'lot ' || l.id) FROM lot l JOIN lot_entry e ON e.lot_id = l.id
           WHERE e.at < l.made_at""",
    ),
    (
        "a lot gives no more pieces than it holds",
        """SELECT coalesce(l.mark, l.id) FROM lot l JOIN lot_entry e ON e.lot_id = l.id
           WHERE e.kind IN ('scrapped', 'split off')
             AND NOT EXISTS (SELECT 1 FROM lot_entry c WHERE c.lot_id = l.id AND c.kind = 'counted')
           GROUP BY l.id HAVING sum(e.pieces) > l.quantity""",
    ),
    (
        "what is split off a lot becomes a lot",
        """SELECT DISTINCT 'lot ' || lot_id FROM (
             SELECT parent_id AS lot_id, made_at AS at, quantity AS pieces FROM lot WHERE parent_id IS NOT NULL
             UNION ALL
             SELECT lot_id, at, -pieces FROM lot_entry WHERE kind = 'split off')
           GROUP BY lot_id, at HAVING sum(pieces) <> 0""",
    ),
    (
        "a lot with a mark is one piece",
        "SELECT mark FROM lot WHERE mark IS NOT NULL AND quantity <> 1",
    ),
)
