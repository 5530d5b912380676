"""When a stock is used up that is drawn evenly over each week and filled up by parcels in between. Arithmetic."""

from collections.abc import Iterable, Sequence


def empty_after(on_hand: float, weekly: Sequence[float], parcels: Iterable[tuple[float, float]] = ()) -> float | None:
    """Weeks until nothing is left for the first time, each week taking its amount evenly; None when it lasts.

    `parcels` are (weeks from now, amount), in any order; one after the last week brings nothing.
    """
    coming = sorted((at, amount) for at, amount in parcels if at < len(weekly))
    had = on_hand
    for week, taken in enumerate(weekly):
        stops = [(at, amount) for at, amount in coming if week <= at < week + 1]
        since = float(week)
        for until, amount in (*stops, (week + 1.0, 0.0)):
            before, after = (had - taken * (at - week) for at in (since, until))  # whole at the ends of weeks
            if after < 0 and after < before:
                return since + max(0.0, before) / taken
            had += amount
            since = until
        had -= taken
    return None
