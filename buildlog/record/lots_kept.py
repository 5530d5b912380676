"""Whether the entries of each lot can all be true: a rule that takes the replay of an account to tell."""

from collections.abc import Callable, Iterator
from itertools import groupby
from typing import Any

from buildlog.methods.piece_account import Entry, standings

_ENTRIES = """
    SELECT l.id, coalesce(l.mark, 'lot ' || l.id), l.quantity, l.made_at, e.at, e.kind, e.pieces
    FROM lot l JOIN lot_entry e ON e.lot_id = l.id
    WHERE EXISTS (SELECT 1 FROM lot_entry o
                  WHERE o.lot_id = l.id AND o.kind NOT IN ('fitted', 'taken out', 'moved', 'split off'))
    ORDER BY l.id, e.id"""
"""Lots that are only fitted and split are told by their fittings and by what they give: that needs no replay."""


def impossible_lots(execute: Callable[[str], Any]) -> Iterator[str]:
    """Names of lots that would have held less than nothing somewhere at some moment."""
    for (_, name, quantity, made_at), rows in groupby(execute(_ENTRIES), key=lambda row: tuple(row[:4])):
        entries = [Entry(*row[4:]) for row in rows]
        if not all(standing.pieces.is_possible for standing in standings(quantity, made_at, entries)):
            yield name
