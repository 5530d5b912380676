"""Makes the pictures of the README from the real screens, on the demo at a pinned moment.

    python tests/docs/make_pictures.py            # all of them, into shared/pictures/
    python tests/docs/make_pictures.py mirror     # those whose names hold a word

They are SVG texts that fetch nothing: the fonts that an export names on the network are taken out, and the
reader's own monospace font stands in.
"""

import asyncio
import html
import os
import re
import sys
import tempfile
from collections.abc import AsyncIterator, Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from xml.etree import ElementTree

from buildlog.demo import lay_demo
from buildlog.ledger import Ledger
from buildlog.screens.app import Buildlog

FOLDER = Path(__file__).parents[2] / "shared" / "pictures"
PINNED = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)  # a Wednesday, 13:00 in Berlin
WIDE, SMALL = (120, 40), (80, 24)
FONTS = "'DejaVu Sans Mono', Menlo, Consolas, 'Liberation Mono', monospace"
CELL_WIDTH = 12.2  # of a character of 20 px in the exported SVG
LAST_IN_EVERY_FONT = "\u00ff"
STILL_FOR = 3
"""So many looks in a row find nothing under way before a picture is taken."""


@dataclass(frozen=True, slots=True)
class Picture:
    """What is pressed, one key after the other, and how large the terminal is in cells."""

    name: str
    keys: str
    size: tuple[int, int] = WIDE


PICTURES = (
    Picture("today", "1"),
    Picture("mirror", "2"),
    Picture("prints", "3"),
    Picture("stock", "4"),
    Picture("fits", "5", SMALL),
    Picture("episode", "7"),
    Picture("catchup", "0", SMALL),
    Picture("boxes", "ctrl+o down"),
    Picture("quick", "1 : f i n i s h e d space P 2", SMALL),
    Picture("form", "9 down down a", SMALL),
    Picture("today-80x24", "1", SMALL),
    Picture("mirror-80x24", "2", SMALL),
    Picture("finish", "1 f"),
    Picture("help", "2 ?"),
    Picture("mirror-daylight", "2 ctrl+t"),
)


async def taken(ledger: Ledger, pictures: Iterable[Picture]) -> AsyncIterator[tuple[Picture, str]]:
    """Each picture as a cleaned SVG text. Nothing is recorded."""
    for picture in pictures:
        app = Buildlog(ledger)
        async with app.run_test(size=picture.size) as pilot:
            await _settle(app, pilot)
            for key in picture.keys.split():
                await pilot.press(key)
                await _settle(app, pilot)
            yield picture, cleaned(app.export_screenshot(title=f"buildlog: {picture.name.partition('-')[0]}"))


async def _settle(app: Buildlog, pilot: object) -> None:
    """Wait for reading; a worker that waits for the answer to a question is let be."""
    still = 0
    for _ in range(2000):
        await asyncio.sleep(0.02)
        reading = [worker for worker in app.workers if worker.is_running and worker.group != "default"]
        still = 0 if reading or app.status is None else still + 1
        if still == STILL_FOR:
            await pilot.pause()  # type: ignore[attr-defined]  # the pilot of any app
            return
    raise TimeoutError(f"the screens did not come to rest within {2000 * 0.02:.0f} s")


def cleaned(svg: str) -> str:
    """The same picture without anything that would be fetched, and with the name of no maker in it."""
    svg = re.sub(r"@font-face\s*\{[^}]*\}", "", svg)
    svg = re.sub(r"<!--.*?-->", "", svg, flags=re.DOTALL)
    svg = re.sub(r"font-family: (?:Fira Code, monospace|arial);", f"font-family: {FONTS};", svg)
    svg = re.sub(r'x="([\d.]+)" (y="[\d.]+") textLength="[\d.]+"([^>]*)>([^<]*)</text>', _in_cells, svg)
    svg = re.sub(r"[ \t]+\n", "\n", svg)
    return re.sub(r"\n{2,}", "\n", svg).strip() + "\n"


def _in_cells(text: re.Match[str]) -> str:
    """Dots, arrows and signs often come from another font than letters, wider or narrower than a cell: a text
    with any gets the place of each character instead of a length to be stretched over."""
    left, y, rest, words = text.groups()
    characters = html.unescape(words)
    if not any(c > LAST_IN_EVERY_FONT for c in characters):
        return text[0]
    places = " ".join(f"{float(left) + CELL_WIDTH * number:.1f}" for number in range(len(characters)))
    return f'x="{places}" {y}{rest}>{words}</text>'


def texts_of(svg: str) -> list[str]:
    """The texts of a picture in the order in which they stand in it; ParseError where it is no well-formed XML."""
    named = "{http://www.w3.org/2000/svg}text"
    return [(text.text or "").replace("\u00a0", " ") for text in ElementTree.fromstring(svg).iter(named)]


async def _write(pictures: Iterable[Picture]) -> None:
    ledger = Ledger.open(Path("demo.db"), Path("backups"), lambda: PINNED)
    try:
        lay_demo(ledger)
        async for picture, svg in taken(ledger, pictures):
            (FOLDER / f"{picture.name}.svg").write_text(svg, encoding="utf-8")
            print(f"{picture.name}.svg  {len(svg) // 1024} kB")
    finally:
        ledger.close()


def main(words: list[str]) -> None:
    pictures = [p for p in PICTURES if not words or any(word in p.name for word in words)]
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="buildlog-") as folder:
        os.chdir(folder)  # the foot of a screen names the ledger: a short name, the same on every machine
        asyncio.run(_write(pictures))
        os.chdir(FOLDER)


if __name__ == "__main__":
    main(sys.argv[1:])
