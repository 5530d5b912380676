"""Rules over prints, their feeds and pieces, and what is loaded where.

Two spans of time overlap when, in the order of their starts, one begins before all earlier ones have ended; an open
end is sorted after every moment as «9».
"""

PRINT_RULES: tuple[tuple[str, str], ...] = (
    (
        "prints on a printer do not overlap",
        """SELECT code || ': print ' || id FROM (
             SELECT p.code, j.id, j.started_at, max(coalesce(j.ended_at, '9')) OVER (
               PARTITION BY j.printer_id ORDER BY j.started_at, coalesce(j.ended_at, '9'), j.id
               ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS busy_until
             FROM job j JOIN printer p ON p.id = j.printer_id WHERE j.started_at IS NOT NULL)
           WHERE busy_until > started_at""",
    ),
    (
        "a print that has started has a printer",
        "SELECT 'print ' || id FROM job WHERE started_at IS NOT NULL AND printer_id IS NULL",
    ),
    (
        "pieces of a print are what it laid down for parts",
        """SELECT coalesce(lot.mark, 'lot ' || lot.id) FROM lot JOIN job_line l ON l.id = lot.job_line_id
           WHERE lot.parent_id IS NULL AND (l.purpose <> 'parts' OR lot.part_id IS NOT l.part_id
             OR lot.revision_id IS NOT l.revision_id OR lot.side <> l.side)""",
    ),
    (
        "every piece of an ended print for parts is kept or scrapped",
        """SELECT 'print ' || l.job_id || ', line ' || l.id FROM job_line l JOIN job j ON j.id = l.job_id
           LEFT JOIN lot ON lot.job_line_id = l.id AND lot.parent_id IS NULL
           WHERE l.purpose = 'parts' AND j.state IN ('finished', 'failed')
           GROUP BY l.id HAVING coalesce(sum(lot.quantity), 0) + l.scrapped <> l.quantity""",
    ),
    (
        "a print makes no more pieces than it lays down",
        """SELECT l.id FROM job_line l JOIN lot ON lot.job_line_id = l.id AND lot.parent_id IS NULL
           GROUP BY l.id HAVING sum(lot.quantity) + l.scrapped > l.quantity""",
    ),
    (
        "a print that has not ended has made nothing",
        """SELECT 'print ' || j.id FROM job j JOIN job_line l ON l.job_id = j.id
           WHERE j.state NOT IN ('finished', 'failed')
             AND (l.scrapped > 0 OR EXISTS (SELECT 1 FROM lot WHERE lot.job_line_id = l.id))""",
    ),
    (
        "each head of a running print draws from one spool",
        """SELECT 'print ' || j.id || ', head ' || f.head FROM job j JOIN feed f ON f.job_id = j.id
           WHERE j.state = 'running' GROUP BY j.id, f.head
           HAVING sum(f.from_at IS NOT NULL AND f.to_at IS NULL AND f.spool_id IS NOT NULL) <> 1""",
    ),
    (
        "an ended print draws no more, and what it drew is known",
        """SELECT 'print ' || j.id FROM job j JOIN feed f ON f.job_id = j.id
           WHERE j.state IN ('finished', 'failed')
             AND (f.from_at IS NULL OR f.to_at IS NULL OR f.real_mg IS NULL)""",
    ),
    (
        "a print that has not started draws nothing",
        """SELECT 'print ' || j.id FROM job j JOIN feed f ON f.job_id = j.id
           WHERE j.state IN ('queued', 'cancelled') AND (f.from_at IS NOT NULL OR f.real_mg IS NOT NULL)""",
    ),
    (
        "a print draws between its start and its end",
        """SELECT 'print ' || j.id FROM job j JOIN feed f ON f.job_id = j.id
           WHERE f.from_at < j.started_at OR coalesce(f.to_at, f.from_at) > j.ended_at""",
    ),
    (
        "a head of a print draws from one spool after the other",
        """SELECT 'print ' || job_id || ', head ' || head FROM (
             SELECT job_id, head, from_at, max(coalesce(to_at, '9')) OVER (
               PARTITION BY job_id, head ORDER BY from_at, coalesce(to_at, '9'), id
               ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS busy_until
             FROM feed WHERE from_at IS NOT NULL)
           WHERE busy_until > from_at""",
    ),
    (
        "a spool feeds one head at a time",
        """SELECT s.code FROM (
             SELECT spool_id, from_at, max(coalesce(to_at, '9')) OVER (
               PARTITION BY spool_id ORDER BY from_at, coalesce(to_at, '9'), id
               ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS busy_until
             FROM feed WHERE from_at IS NOT NULL AND spool_id IS NOT NULL) f
           JOIN spool s ON s.id = f.spool_id WHERE busy_until > from_at""",
    ),
    (
        "a spool is loaded in one place at a time",
        """WITH loading AS (
             SELECT id, kind, spool_id, at, coalesce(lead(at) OVER (
               PARTITION BY printer_id, head ORDER BY at, id), '9') AS until_at
             FROM set_up WHERE kind IN ('loaded', 'unloaded'))
           SELECT s.code FROM (
             SELECT spool_id, at, max(until_at) OVER (
               PARTITION BY spool_id ORDER BY at, until_at, id
               ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS loaded_until
             FROM loading WHERE kind = 'loaded') l
           JOIN spool s ON s.id = l.spool_id WHERE loaded_until > at""",
    ),
)
