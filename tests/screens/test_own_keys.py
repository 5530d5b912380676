"""Keys and theme of a person's own, from the settings file; what is wrong with it is told, and all is as usual."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import buildlog.screens
from buildlog.commands import entering
from buildlog.errors import SettingsError
from buildlog.ledger import Ledger
from buildlog.preferences import Preferences, read_preferences
from buildlog.screens import builds, catch_up, episode, episode_keys, fits, mirror, prints, stock
from buildlog.screens.acts import episodes as acts_episodes
from buildlog.screens.acts import spools as acts_spools
from buildlog.screens.acts import things as acts_things
from buildlog.screens.app import Buildlog
from buildlog.screens.keys import KEYS, SCREENS, Scope, clashes, in_force
from buildlog.screens.own_keys import as_set, checked, keymap, with_keys
from buildlog.screens.themes import DARK, LIGHT


@pytest.fixture
def opened(ledger: Ledger, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], Buildlog]:
    """``opened(text)``: the app as `buildlog` makes it with this settings file."""

    def make(text: str) -> Buildlog:
        file = tmp_path / "settings.toml"
        file.write_text(text, "utf-8")
        monkeypatch.setenv("BUILDLOG_SETTINGS", str(file))
        made: list[Buildlog] = []
        monkeypatch.setattr(Buildlog, "run", lambda self: made.append(self))
        entering.show_screens(ledger)
        return made[0]

    return make


LOOKS = 200


def shown(app: Buildlog) -> str:
    strips = app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip) for strip in strips)


async def wait_for(app: Buildlog, pilot: Any, text: str) -> None:
    """Until it stands on the screen; what comes after the first frame takes a moment."""
    for _ in range(LOOKS):
        if text in " ".join(shown(app).split()):
            return
        await pilot.pause(0.05)


async def test_a_key_of_ones_own_acts_and_is_shown_in_the_key_line_and_the_help(opened: Any) -> None:
    app = opened('[keys]\nstart_print = "g"\nhelp = "f1"\ngo_mirror = "ctrl+g"\nquit = "ctrl+q"\n')
    async with app.run_test(size=(120, 40)) as pilot:
        await wait_for(app, pilot, "begin six questions")
        key_line = shown(app).splitlines()[-1]
        assert "g start" in key_line
        assert "f1 help" in key_line
        await pilot.press("f1")
        await wait_for(app, pilot, "g Start one of the three likeliest")
        await pilot.press("escape", "ctrl+g")
        await wait_for(app, pilot, "[ctrl+g Mirror]")
        assert app.current_mode == "mirror"
        await pilot.press("2", "q")
        await pilot.pause(0.1)
        assert app.is_running, "the usual key is free"


async def test_two_keys_change_places(opened: Any) -> None:
    app = opened('[keys]\ngo_mirror = "3"\ngo_prints = "2"\n')
    async with app.run_test() as pilot:
        await pilot.pause(0.2)
        await pilot.press("2")
        await pilot.pause(0.1)
        assert app.current_mode == "prints"
        await pilot.press("3")
        await pilot.pause(0.1)
        assert app.current_mode == "mirror"


@pytest.mark.parametrize(("text", "theme"), [('theme = "light"', LIGHT), ('theme = "dark"', DARK), ("", DARK)])
async def test_the_theme_is_chosen_there(opened: Any, text: str, theme: Any) -> None:
    async with opened(text).run_test() as pilot:
        assert pilot.app.current_theme is theme


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('[keys]\nweigh = "g"', "weigh: nothing is called so; did you mean weigh_spool?"),
        ('[keys]\nzzz = "g"', "the README's table of keys has the ids"),
        ('[keys]\nload_spool = "s"', "«s» would be start_print and load_spool: give one of them another key"),
        ('[keys]\nload_spool = "hold g"', "«hold g» is no name of a key"),
        ('[keys]\nload_spool = " "', "« » is no name of a key"),
        ('[keys]\nload_spool = "hyper+g"', "«hyper+g» is no name of a key"),
        ('[keys]\npick = "g"', "pick: it has several keys and keeps them"),
        ('[keys]\nrecord = "r"', "«r» would be typed there"),
        ("[keys]\nload_spool = 7", "load_spool = 7: write the name of one key"),
        ('theme = "pink"', "theme is 'pink': write dark or light"),
        ('colour = "pink"', "«colour» is not known here"),
        ("keys = 3", "keys is no table"),
        ("[keys", "it is not TOML"),
    ],
)
async def test_what_is_wrong_is_told_at_the_start_and_all_is_as_usual(opened: Any, text: str, told: str) -> None:
    app = opened(text)
    async with app.run_test(size=(120, 40)) as pilot:
        await wait_for(app, pilot, told)
        said = " ".join(shown(app).split())
        assert told in said, said
        assert "and all keys are the usual ones" in said
        await pilot.press("enter", "2")
        await pilot.pause(0.1)
        assert app.current_mode == "mirror"
        assert app.current_theme is DARK


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"a = " + b"[" * 5000, "it is not TOML"),
        (b"a = " + b"9" * 5000, "it is not TOML"),
        (b"a = 1\n" * 5000, "longer than 16384 bytes"),
        (b"a." * 200_000 + b"b = 1", "longer than 16384 bytes"),
    ],
)
def test_a_file_that_goes_on_and_on_is_told(tmp_path: Path, content: bytes, words: str) -> None:
    (tmp_path / "settings.toml").write_bytes(content)
    with pytest.raises(SettingsError, match=words):
        read_preferences(tmp_path / "settings.toml")


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    (tmp_path / "settings.toml").write_bytes(b"\xff\xfe")
    with pytest.raises(SettingsError, match="cannot be read"):
        read_preferences(tmp_path / "settings.toml")
    with pytest.raises(SettingsError, match="cannot be read"):
        read_preferences(tmp_path)


def test_without_a_file_all_is_as_usual(tmp_path: Path) -> None:
    assert read_preferences(tmp_path / "none.toml") == Preferences()


def test_every_key_with_one_name_can_be_another_and_reaches_its_binding() -> None:
    for key in KEYS:
        if len(key.keys) == 1:
            own = checked(Preferences({key.id: "f12"}))
            assert set(keymap(own).values()) == {"f12"}
            assert {binding.partition(".")[0] for binding in keymap(own)} >= {key.scopes[0].name.lower()}


def test_ids_tell_keys_apart_where_they_do_different_things() -> None:
    for key in KEYS:
        assert {other.action for other in KEYS if other.id == key.id} == {key.action}, key.id


@pytest.mark.parametrize("scope", SCREENS)
def test_keys_as_set_are_those_in_force_but_for_the_names(scope: Scope) -> None:
    own = {"undo": "f2"}
    assert [key.id for key in as_set(in_force(scope), own)] == [key.id for key in in_force(scope)]
    assert clashes(as_set(in_force(scope), own)) == []


def test_a_sentence_names_the_key_that_is_pressed_here() -> None:
    said = "add one on Things ({go_things}), with {add_thing}; {nothing} stays"
    assert with_keys(said, {}) == "add one on Things (9), with a; {nothing} stays"
    assert with_keys(said, {"add_thing": "g"}) == "add one on Things (9), with g; {nothing} stays"


SENTENCES = [
    acts_spools.NO_PRINTER,
    acts_spools.NO_HEAD,
    acts_spools.NO_SPOOL,
    acts_things.NO_SUCH_FORM,
    acts_episodes.NO_EPISODE,
    builds.ONLY_ONE,
    catch_up.UP_TO_DATE,
    episode.LEADS_IN,
    episode_keys.NO_BUILD,
    fits.NONE_YET,
    mirror.LEADS_IN,
    prints.LEADS_IN,
    stock.LEADS_IN,
    stock.NO_PAST,
]


@pytest.mark.parametrize("sentence", SENTENCES)
def test_every_key_in_a_sentence_is_one_of_ours(sentence: str) -> None:
    assert "{" in sentence
    assert "{" not in with_keys(sentence, {})


async def test_headlines_lists_and_words_name_the_key_that_is_pressed_here(opened: Any) -> None:
    app = opened('[keys]\nshow_all = "f6"\nbring_back = "f7"\n')
    async with app.run_test(size=(120, 40)) as pilot:
        await wait_for(app, pilot, "begin six questions")
        await pilot.press("9", "?")
        await wait_for(app, pilot, "and f7 brings it back")


def test_no_sentence_of_a_screen_names_a_usual_key_outright() -> None:
    """A key is named by what it does, so that one of a person's own is told right."""
    usual = {key.face for key in KEYS if len(key.face) == 1 and key.face.isalpha()}
    verb = r"(?:says|puts|takes|brings|shows|adds|answers|opens|writes|marks|lets|goes)"
    named = re.compile(rf"(?<![\w«'])([{''.join(sorted(usual))}]|ctrl\+\w) {verb} ")
    found = [
        f"{file.name}: {text}"
        for file in Path(buildlog.screens.__file__).parent.rglob("*.py")
        for text in re.findall(r'"([^"\n]*)"', file.read_text("utf-8"))
        if named.search(text)
    ]
    assert found == []
