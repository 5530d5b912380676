"""Three lengths in one line of cells: printed, worked, passed, as threads laid over each other.

Each thread has its own height in the cell, so that any order of lengths reads without colour:

    passed   ⠉   the top row of dots
    worked   ⠒   the second
    printed  ⣤   the two rows at the bottom

so a stretch that is all three is dense (⣿), one only printed lies low (⣤), and what is still to do is a bare
track (·). Where there is nothing to print, to work or to test, the length is None and its thread has no dots.
A length above zero shows at least one dot, one below 1 never looks full.
"""

from __future__ import annotations

from collections.abc import Iterator

from rich.segment import Segment

from buildlog.facts.frozen import frozen
from buildlog.screens.widgets.cells import Align, fit
from buildlog.screens.widgets.dots import ACROSS, BITS, glyph
from buildlog.screens.widgets.tones import SIGNS, Brush, Tone

PRINTED_ROWS, WORKED_ROWS, PASSED_ROWS = (2, 3), (1,), (0,)
TRACK, HELD_TRACK = "·", "╌"
HELD_WORD = " held "


@frozen
class Lengths:
    """Shares done, 0 to 1; None where there is nothing of that kind to do."""

    printed: float | None
    worked: float | None
    passed: float | None

    @property
    def threads(self) -> tuple[tuple[float | None, tuple[int, ...], Tone], ...]:
        """Furthest first: its tone is the one that a cell with several threads takes."""
        return (
            (self.passed, PASSED_ROWS, Tone.GOOD),
            (self.worked, WORKED_ROWS, Tone.ACCENT),
            (self.printed, PRINTED_ROWS, Tone.PLAIN),
        )


def dots_of(share: float | None, total: int) -> int:
    """How many of `total` dots a share fills; never none for something, never all for less than all."""
    if share is None or share <= 0 or total <= 0:
        return 0
    if share >= 1:
        return total
    return max(1, min(total - 1, round(share * total)))


def thread_cells(lengths: Lengths, cells: int, leftward: bool = False) -> list[tuple[str, Tone]]:
    """The bar without its track, left to right: (glyph, tone) a cell, ("", FAINT) where nothing is done."""
    total = cells * ACROSS
    columns = BITS[::-1] if leftward else BITS
    filled = [
        (dots_of(share, total), [sum(column[row] for row in rows) for column in columns], tone)
        for share, rows, tone in lengths.threads
    ]
    bar: list[tuple[str, Tone]] = []
    for cell in range(cells):
        bits, tone = 0, Tone.FAINT
        for count, halves, own in reversed(filled):
            for place, half in enumerate(halves, cell * ACROSS):
                if place < count:
                    bits |= half
                    tone = own
        bar.append((glyph(bits) if bits else "", tone))
    return bar[::-1] if leftward else bar


def bar_segments(
    lengths: Lengths, cells: int, brush: Brush, leftward: bool = False, held: bool = False
) -> list[Segment]:
    """A bar of exactly `cells` cells on its track; held on purpose, the track is dashed and says so."""
    bar = thread_cells(lengths, cells, leftward)
    rest = [i for i, (shown, _) in enumerate(bar) if not shown]
    track = HELD_TRACK if held else TRACK
    texts = [shown or track for shown, _ in bar]
    tones = [tone if shown else Tone.HELD if held else Tone.FAINT for shown, tone in bar]
    if held and len(rest) >= len(HELD_WORD):
        start = rest[0] + (len(rest) - len(HELD_WORD)) // 2
        texts[start : start + len(HELD_WORD)] = HELD_WORD
    return [Segment(text, brush.of(tone)) for text, tone in _runs(texts, tones)]


def _runs(texts: list[str], tones: list[Tone]) -> Iterator[tuple[str, Tone]]:
    start = 0
    for i in range(1, len(texts) + 1):
        if i == len(texts) or tones[i] is not tones[start]:
            yield "".join(texts[start:i]), tones[start]
            start = i


def legend() -> tuple[tuple[str, Tone], ...]:
    """What the threads mean, for a heading."""
    samples = Lengths(1, None, None), Lengths(None, 1, None), Lengths(None, None, 1)
    words = "printed", "worked", "passed"
    return tuple(
        span
        for sample, word in zip(samples, words, strict=True)
        for span in (*thread_cells(sample, 1), (f" {word}  ", Tone.FAINT))
    )


@frozen
class SideProgress:
    """One side of an assembly, or an assembly without sides.

    `filled` of `slots` slots; `stood_in` slots hold a stand-in, which fills nothing. `held`: on purpose,
    until the lead side's fit is passed. `ready`: without any blocker.
    """

    lengths: Lengths
    filled: int
    slots: int
    stood_in: int = 0
    held: bool = False
    ready: bool = False

    def figures(self, wide: bool) -> str:
        return f"{self.filled}/{self.slots}" + (" slots" if wide else "")

    def marks(self) -> tuple[tuple[str, Tone], ...]:
        """Ready or held, then stand-ins with their number: `✓`, `‖`, `~3`."""
        state: Tone | None = Tone.GOOD if self.ready else Tone.HELD if self.held else None
        found = [(SIGNS[state], state)] if state else []
        if self.stood_in:
            found.append((f"{SIGNS[Tone.STAND_IN]}{min(self.stood_in, 99)}", Tone.STAND_IN))
        return tuple(found)


def paint_figures(side: SideProgress, width: int, wide: bool, align: Align, brush: Brush) -> Segment:
    return Segment(fit(side.figures(wide), width, align), brush.of(Tone.STRONG if side.ready else Tone.PLAIN))
