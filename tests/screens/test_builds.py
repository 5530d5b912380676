"""One build or all: what every screen shows while one is picked, kept for the sitting."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.lines import Ask, Line
from buildlog.proposals.nouns import FORMS, Add, Retire
from buildlog.proposals.prints import QueuePrint
from buildlog.terms import Moment


@pytest.fixture
def two_builds(workshop: Ledger) -> Ledger:
    """The workshop with a second build: a cart of one part, a print of it in the queue, a step and a fit."""
    for form in (
        FORMS["build"](code="DC", name="Drum Cart"),
        FORMS["assembly"](code="CART", name="Cart", build="DC"),
        FORMS["part"](
            code="HUB",
            name="hub",
            build="DC",
            assembly="CART",
            print_time=60,
            material=Ask("PLA-AMBER", None),
            grams=9000,
        ),
        FORMS["step"](code="DRILL", name="drill the boards", assembly="CART", kind="drill", bench_time=20),
    ):
        workshop.record(Add(form))
    workshop.record(QueuePrint(printer="TWIN", lines=(Line("HUB"),)))
    return workshop


async def pick(on: Any, name: str) -> None:
    """By `ctrl+b`, in whichever line it stands."""
    await on.press("ctrl+b")
    line = next(line for line in reversed(on.lines) if name in line)
    await on.press(line.split(name)[0].split()[-1])


async def test_all_builds_are_shown_until_one_is_picked(two_builds: Ledger, screens: Any) -> None:
    async with screens(two_builds) as on:
        await on.press("2")
        assert "Lantern Beetle" in on.lines[1]
        assert "Drum Cart" in on.lines[1]
        assert [text for text in ("Beetle", "Cart") if text in "\n".join(on.lines[2:])] == ["Beetle", "Cart"]


@pytest.mark.parametrize(
    ("screen", "of_beetle", "of_cart"),
    [
        ("1", "sand the head", "drill the boards"),
        ("2", "Leg", "Cart"),
        ("3", "Crown", "HUB"),
        ("5 p", "crown sits", ""),
    ],
)
async def test_one_build_is_shown_on_every_screen(
    two_builds: Ledger, screens: Any, screen: str, of_beetle: str, of_cart: str
) -> None:
    async with screens(two_builds, size=(120, 40)) as on:
        await on.press(screen)
        whole = "\n".join(on.lines[2:])
        assert of_beetle in whole
        assert of_cart in whole
        await pick(on, "Drum Cart")
        assert "only DC" in on.lines[1]
        shown = "\n".join(on.lines[2:])
        assert of_cart in shown
        assert not of_beetle or of_beetle not in shown, on.text
        await pick(on, "Lantern Beetle")
        shown = "\n".join(on.lines[2:])
        assert of_beetle in shown
        assert not of_cart or of_cart not in shown, on.text
        await pick(on, "all builds")
        assert "only" not in on.lines[1]
        assert "\n".join(on.lines[2:]) == whole


async def test_the_build_that_was_picked_stays_from_screen_to_screen(two_builds: Ledger, screens: Any) -> None:
    async with screens(two_builds) as on:
        await pick(on, "Drum Cart")
        for screen in "2351":
            await on.press(screen)
            assert "only DC" in on.lines[1]
        await on.press("4")
        assert "only" not in on.lines[1], "stock is shared"


async def test_what_is_looked_up_is_shown_whichever_build_it_is_of(two_builds: Ledger, screens: Any) -> None:
    async with screens(two_builds) as on:
        await pick(on, "Drum Cart")
        await on.press("ctrl+p V I S O R enter")
        assert "only LB" in on.lines[1]
        assert on.app.shown.row_here() is not None


async def test_with_one_build_there_is_nothing_to_pick(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("ctrl+b")
        assert "There is only one build" in on.text


async def test_episode_shows_the_episodes_of_the_build_that_was_picked(two_builds: Ledger, screens: Any) -> None:
    for build, title in (("LB", "wings up"), ("DC", "wheels on")):
        episode = FORMS["episode"](build=build, number=1, films_at=Moment("2026-11-28T14:00:00Z"), title=title)
        two_builds.record(Add(episode))
    async with screens(two_builds, size=(120, 40)) as on:
        await on.press("7")
        assert "wings up" in on.lines[1]
        await pick(on, "Drum Cart")
        assert "only DC" in on.lines[1]
        assert "wheels on" in on.lines[1]
        assert "wings up" not in on.text


async def test_a_build_that_was_retired_is_no_longer_the_only_one(two_builds: Ledger, screens: Any) -> None:
    two_builds.record(Add(FORMS["build"](code="KITE", name="Kite")))
    async with screens(two_builds, size=(120, 40)) as on:
        await pick(on, "Kite")
        assert "only KITE" in on.lines[1]
        two_builds.record(Retire("build", "KITE"))
        on.app.refresh_status()
        await on.settle()
        await on.press("7")
        assert "only" not in on.lines[1]
