"""Rules over the tree of a build and what waits in it."""

_NEEDS = """
    SELECT assembly_id, step_id, on_assembly_id, on_step_id FROM wait WHERE retired_at IS NULL
    UNION ALL
    SELECT parent_id, NULL, id, NULL FROM assembly WHERE parent_id IS NOT NULL AND retired_at IS NULL
    UNION ALL
    SELECT assembly_id, NULL, assembly_id, id FROM step WHERE assembly_id IS NOT NULL AND retired_at IS NULL
    UNION ALL
    SELECT assembly_id, id, assembly_id, before FROM (
      SELECT assembly_id, id, lag(id) OVER (PARTITION BY assembly_id ORDER BY place, id) AS before FROM step
      WHERE assembly_id IS NOT NULL AND retired_at IS NULL)
    WHERE before IS NOT NULL
    UNION ALL
    SELECT assembly_id, id, below, NULL FROM (
      SELECT s.assembly_id, s.id, a.id AS below,
             rank() OVER (PARTITION BY s.assembly_id ORDER BY s.place, s.id) AS nth
      FROM step s JOIN assembly a ON a.parent_id = s.assembly_id AND a.retired_at IS NULL
      WHERE s.kind IN ('bond', 'solvent bond', 'assemble') AND s.retired_at IS NULL)
    WHERE nth = 1"""
"""What an assembly (step NULL: that it is ready) or a step of it needs first; storing refuses loops over the same."""

TREE_RULES: tuple[tuple[str, str], ...] = (
    (
        "a build has one root assembly",
        """SELECT b.code FROM build b JOIN assembly a ON a.build_id = b.id
           WHERE a.parent_id IS NULL AND a.retired_at IS NULL GROUP BY b.id HAVING count(*) > 1""",
    ),
    (
        "an assembly hangs below the root of its own build",
        """WITH RECURSIVE hanging(id, build_id) AS (
             SELECT id, build_id FROM assembly WHERE parent_id IS NULL
             UNION
             SELECT a.id, a.build_id FROM hanging h JOIN assembly a ON a.parent_id = h.id AND a.build_id = h.build_id)
           SELECT code FROM assembly WHERE id NOT IN (SELECT id FROM hanging)""",
    ),
    (
        "no assembly is paired below one that is paired",
        """WITH RECURSIVE below(id) AS (
             SELECT id FROM assembly WHERE paired AND retired_at IS NULL
             UNION
             SELECT a.id FROM below JOIN assembly a ON a.parent_id = below.id WHERE a.retired_at IS NULL)
           SELECT a.code FROM assembly a JOIN below ON below.id = a.parent_id
           WHERE a.paired AND a.retired_at IS NULL""",
    ),
    (
        "a position hangs under a position of the parent assembly",
        """SELECT p.id FROM position p JOIN assembly a ON a.id = p.assembly_id
           LEFT JOIN position q ON q.id = p.parent_id
           WHERE p.retired_at IS NULL AND a.parent_id IS NOT q.assembly_id""",
    ),
    (
        "nothing waits for itself",
        f"""WITH RECURSIVE needs(assembly_id, step_id, on_assembly_id, on_step_id) AS MATERIALIZED (
             SELECT assembly_id, coalesce(step_id, 0), on_assembly_id, coalesce(on_step_id, 0) FROM ({_NEEDS})),
           needed(from_id, from_step, assembly_id, step_id) AS (
             SELECT assembly_id, coalesce(step_id, 0), on_assembly_id, coalesce(on_step_id, 0) FROM wait
             WHERE retired_at IS NULL
             UNION
             SELECT n.from_id, n.from_step, m.on_assembly_id, m.on_step_id FROM needed n
             JOIN needs m ON m.assembly_id = n.assembly_id AND m.step_id = n.step_id)
           SELECT DISTINCT a.code FROM needed n JOIN assembly a ON a.id = n.from_id
           WHERE n.assembly_id = n.from_id AND n.step_id = n.from_step""",
    ),
)
