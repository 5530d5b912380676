"""How much it helps to end a blocker."""

from collections import defaultdict

from buildlog.status.blockers import Blockers


def helps_at(blockers: Blockers) -> dict[int, float]:
    """By position with leaves: Σ of 1 ÷ leaf blockers left over every position that contains its leaves.

    Those are the position, what is above it, and what waits for any of these.
    """
    above: defaultdict[int, list[int]] = defaultdict(list)
    for position_id, below in (*blockers.children.items(), *blockers.waits_for.items()):
        for child in below:
            above[child].append(position_id)
    return {position_id: _sum(position_id, above, blockers.beneath) for position_id in blockers.leaves}


def _sum(position_id: int, above: dict[int, list[int]], beneath: dict[int, int]) -> float:
    seen = {position_id}
    waiting = [position_id]
    total = 0.0
    while waiting:
        place = waiting.pop()
        total += 1 / beneath[place]
        for one in above.get(place, ()):
            if one not in seen:
                seen.add(one)
                waiting.append(one)
    return total
