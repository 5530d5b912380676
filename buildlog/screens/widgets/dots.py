"""Braille patterns (Unicode 15, block 2800) as a canvas of dots, two wide and four high in each cell."""

from __future__ import annotations

import math

BLANK = 0x2800
ACROSS, DOWN = 2, 4
# dot numbers 1-8 of the block, as bits, by column and row from the top
BITS = ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80))


def glyph(bits: int) -> str:
    return chr(BLANK + bits)


class Canvas:
    """Dots over `width` × `height` cells; x grows to the right, y downwards, both in dots from 0."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self._cells = [[0] * width for _ in range(height)]

    def dot(self, x: int, y: int) -> None:
        """Set one dot; those outside are left out."""
        column, row = x // ACROSS, y // DOWN
        if 0 <= column < self.width and 0 <= row < self.height:
            self._cells[row][column] |= BITS[x % ACROSS][y % DOWN]

    def line(self, x0: float, y0: float, x1: float, y1: float, on: int = 1, off: int = 0) -> None:
        """Dots from one point to another; of every `on + off` dots along x the first `on` are set."""
        steps = max(1, math.ceil(max(abs(x1 - x0), abs(y1 - y0))))
        for i in range(steps + 1):
            x, y = round(x0 + (x1 - x0) * i / steps), round(y0 + (y1 - y0) * i / steps)
            # steep stretches are counted along y, so that they are not solid within one column
            along = x if abs(x1 - x0) >= abs(y1 - y0) else y
            if along % (on + off) < on:
                self.dot(x, y)

    def bits(self, column: int, row: int) -> int:
        return self._cells[row][column]
