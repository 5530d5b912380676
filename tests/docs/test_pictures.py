"""The pictures of the README: there, well-formed, fetching nothing, of the screens as they are named."""

import re
from pathlib import Path
from types import ModuleType
from xml.etree import ElementTree

import make_pictures
import pytest

from buildlog.ledger import Ledger

HEADS = {
    "today": "[1 Today]",
    "mirror": "[2 Mirror]",
    "prints": "[3 Prints]",
    "stock": "[4 Stock]",
    "fits": "[5 Fits]",
    "episode": "[7 Episode]",
    "catchup": "[0 Catch up]",
    "boxes": "[ctrl+o Boxes]",
}
PICTURES = pytest.mark.parametrize("picture", make_pictures.PICTURES, ids=lambda picture: picture.name)


def whole(pictures: ModuleType, svg: str) -> str:
    return " ".join("".join(pictures.texts_of(svg)).split())


@PICTURES
def test_each_is_there_and_well_formed_and_fetches_nothing(picture: make_pictures.Picture) -> None:
    svg = (make_pictures.FOLDER / f"{picture.name}.svg").read_text("utf-8")
    root = ElementTree.fromstring(svg)
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert re.findall(r"https?://(?!www\.w3\.org/2000/svg)[^\s\"')]+", svg) == []
    assert not re.search(r"@import|@font-face|<image|<script|href=", svg)


@PICTURES
def test_each_shows_its_screen_and_nothing_of_the_machine_that_took_it(picture: make_pictures.Picture) -> None:
    shown = whole(make_pictures, (make_pictures.FOLDER / f"{picture.name}.svg").read_text("utf-8"))
    head = HEADS.get(picture.name.partition("-")[0])
    assert head is None or head in shown
    assert "/tmp" not in shown
    assert str(Path.home()) not in shown


async def test_the_script_takes_them_from_the_screens(
    pictures: ModuleType, demo_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(demo_folder)
    ledger = Ledger.open(Path("demo.db"), Path("backups"), lambda: pictures.PINNED)
    before = ledger.version()
    try:
        wanted = [p for p in pictures.PICTURES if p.name in ("mirror", "today-80x24")]
        taken = {picture.name: svg async for picture, svg in pictures.taken(ledger, wanted)}
        assert ledger.version() == before
    finally:
        ledger.close()
    assert "[2 Mirror]" in whole(pictures, taken["mirror"])
    assert "Lantern Beetle" in whole(pictures, taken["mirror"])
    assert "[1 Today]" in whole(pictures, taken["today-80x24"])


def test_every_dot_of_a_bar_stands_in_its_cell(pictures: ModuleType) -> None:
    drawn = '<text class="r" x="24.4" y="9" textLength="36.6" clip-path="url(#l)">\u28ff\u28ff&#160;</text>'
    assert pictures.cleaned(drawn) == (
        '<text class="r" x="24.4 36.6 48.8" y="9" clip-path="url(#l)">\u28ff\u28ff&#160;</text>\n'
    )


def test_fonts_of_the_network_are_taken_out(pictures: ModuleType) -> None:
    font = '@font-face { src: url("https://example.org/a.woff2"); }'
    drawn = f"<style>{font}\n.t {{ font-family: Fira Code, monospace; }}</style>"
    assert "http" not in pictures.cleaned(drawn)
    assert "monospace" in pictures.cleaned(drawn)
