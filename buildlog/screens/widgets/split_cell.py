"""One cell over the whole line: texts from the left, texts at the right end; the left ones are cut.

SplitCell((("SP-04", Tone.STRONG),), (("412 ± 9 g", Tone.PLAIN), ("   wet", Tone.CAUTION)))
"""

from __future__ import annotations

from collections.abc import Iterable

from rich.segment import Segment

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.cells import Align, width_of
from buildlog.screens.widgets.spread import spread
from buildlog.screens.widgets.tones import Brush, Tone

Spans = tuple[tuple[str, Tone], ...]
GAP = 1


@frozen
class SplitCell:
    left: Spans
    right: Spans = ()

    def words(self) -> str:
        sides = ("".join(text for text, _ in side).strip() for side in (self.left, self.right))
        return "  ".join(filter(None, sides))

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        needed = sum(width_of(text) for text, _ in self.right)
        room = max(0, width - needed - (GAP if needed else 0))
        return [
            *spread(self.left, room, align, brush),
            *spread(self.right, width - room, Align.RIGHT, brush),
        ]
