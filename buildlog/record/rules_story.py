"""Rules over milestones, shots and questions of viewers: what they name is of their build."""

STORY_RULES: tuple[tuple[str, str], ...] = (
    (
        "a milestone that builds share is an event",
        "SELECT code FROM milestone WHERE build_id IS NULL AND kind <> 'event'",
    ),
    (
        "a shot is of an episode and before a step of its own build",
        """SELECT h.code FROM shot h LEFT JOIN episode e ON e.id = h.episode_id LEFT JOIN step s ON s.id = h.step_id
           LEFT JOIN assembly a ON a.id = s.assembly_id LEFT JOIN part p ON p.id = s.part_id
           WHERE e.build_id <> h.build_id OR coalesce(a.build_id, p.build_id) <> h.build_id""",
    ),
    (
        "a viewer asks and is answered in episodes of one build",
        """SELECT q.code FROM viewer_question q JOIN episode e ON e.id IN (q.asked_episode_id, q.answered_episode_id)
           WHERE e.build_id <> q.build_id""",
    ),
)
