"""The line of one assembly on Mirror: its name in the middle, its sides growing away from it.

    columns = (Column("mirror", heading=MirrorHeading(), align=Align.CENTRE),)
    GridRow("foreleg", (MirrorCell("Foreleg", left=…, right=…, lead=Side.LEFT),), depth=2)
    GridRow("thorax", (MirrorCell("Thorax", middle=…),), depth=1)

Left progress grows to the left, right progress to the right. An assembly without sides has one measure,
centred on its name: as long as one side's, half of it on either hand, its figures on the right.
`«` or `»` beside a name points to the side that leads; `≠` says that the sides are out of step.
"""

from __future__ import annotations

from collections.abc import Iterable

from rich.segment import Segment

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.cells import Align, fit, width_of
from buildlog.screens.widgets.grid_lines import tree_lead
from buildlog.screens.widgets.lengths import SideProgress, bar_segments, legend, paint_figures
from buildlog.screens.widgets.spread import spread
from buildlog.screens.widgets.tones import Brush, Tone
from buildlog.terms import Side

WIDE = 100
USUAL = 76
"""From here on a name of sixteen letters is seen whole, two levels down."""
MARKS = 5
LEAST_SIDE = 7
"""Cells of the heading of a side: «right ▸»."""
LEADS_LEFT, LEADS_RIGHT, OUT_OF_STEP = "«", "»", "≠"


@frozen
class Shape:
    """Cells of the parts of a line: figures, marks, bar | name | bar, marks, figures."""

    name: int
    bar: int
    figures: int
    wide: bool

    @classmethod
    def for_width(cls, width: int) -> Shape:
        wide = width >= WIDE
        figures = 13 if wide else 8
        least = 28 if width >= USUAL else 12
        name = max(least, min(40, width * 3 // 10))
        name += (width - name) % 2
        bar = max(2, (width - name) // 2 - figures - MARKS)
        return cls(name, bar, figures, wide)


@frozen
class MirrorCell:
    """Either `left` and `right`, or `middle` for an assembly without sides."""

    name: str
    left: SideProgress | None = None
    right: SideProgress | None = None
    middle: SideProgress | None = None
    lead: Side | None = None
    out_of_step: bool = False

    def words(self) -> str:
        return self.name

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        shape = Shape.for_width(width)
        middle = self._name(shape, brush)
        if self.middle is not None:
            return [
                *_half(self.middle, shape, brush, True),
                *middle,
                *_half(self.middle, shape, brush, False),
            ]
        return [*_side(self.left, shape, brush, True), *middle, *_side(self.right, shape, brush, False)]

    def _name(self, shape: Shape, brush: Brush) -> list[Segment]:
        lead = tree_lead(brush, shape.name // 2)
        before = f" {LEADS_LEFT} " if self.lead is Side.LEFT else "   "
        after = (OUT_OF_STEP if self.out_of_step else " ") + (f"{LEADS_RIGHT} " if self.lead is Side.RIGHT else "  ")
        room = shape.name - len(lead) - len(before) - len(after)
        return [
            Segment(before, brush.of(Tone.ACCENT)),
            Segment(lead, brush.of(Tone.FAINT)),
            Segment(fit(self.name, room), brush.of(Tone.PLAIN)),
            Segment(after, brush.of(Tone.BAD if self.out_of_step else Tone.ACCENT)),
        ]


def _half(middle: SideProgress, shape: Shape, brush: Brush, leftward: bool) -> list[Segment]:
    """One half of a centred measure; marks and figures stand on the right hand."""
    half = shape.bar // 2
    bar = bar_segments(middle.lengths, half, brush, leftward, middle.held)
    gap = Segment(" " * (shape.bar - half), brush.of(Tone.PLAIN))
    if leftward:
        return _outward([gap, *bar], None, shape, brush, leftward)
    return _outward([*bar, gap], middle, shape, brush, leftward)


def _side(side: SideProgress | None, shape: Shape, brush: Brush, leftward: bool) -> list[Segment]:
    if side is None:
        return [Segment(" " * (shape.bar + MARKS + shape.figures), brush.of(Tone.PLAIN))]
    bar = bar_segments(side.lengths, shape.bar, brush, leftward, side.held)
    return _outward(bar, side, shape, brush, leftward)


def _outward(
    bar: list[Segment], told: SideProgress | None, shape: Shape, brush: Brush, leftward: bool
) -> list[Segment]:
    """Bar, marks and figures from the name outwards, turned round for the left hand."""
    toward_name = Align.RIGHT if leftward else Align.LEFT
    if told is None:
        marks = [Segment(" " * MARKS, brush.of(Tone.PLAIN))]
        figures = Segment(" " * shape.figures, brush.of(Tone.PLAIN))
    else:
        spans = [(" ", Tone.PLAIN), *told.marks(), (" ", Tone.PLAIN)]
        marks = spread(spans[::-1] if leftward else spans, MARKS, toward_name, brush)
        figures = paint_figures(told, shape.figures, shape.wide, Align.LEFT if leftward else Align.RIGHT, brush)
    return [figures, *marks, *bar] if leftward else [*bar, *marks, figures]


@frozen
class MirrorHeading:
    """The heading of the Mirror column: which side is which, and what the threads mean."""

    def words(self) -> str:
        return "left right"

    def paint(self, width: int, align: Align, brush: Brush) -> Iterable[Segment]:
        threads = min(width_of("".join(text for text, _ in legend())), width - 2 * LEAST_SIDE)
        left = (width - threads) // 2
        return [
            Segment(fit("◂ left", left), brush.of(Tone.STRONG)),
            *spread(legend(), threads, Align.LEFT, brush),
            Segment(fit("right ▸", width - threads - left, Align.RIGHT), brush.of(Tone.STRONG)),
        ]
