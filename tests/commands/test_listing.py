"""Every command explains itself, and every name that was promised is there."""

from typing import Any

import pytest

from buildlog.commands.listing import Entry, all_commands

QUESTIONS = ["status", "blockers [PLACE]", "hours", "stock", "fits", "now", "week", "alerts", "shots", "viewers",
             "promises", "boxes"]  # fmt: skip
PAGES = {"buildlog repair-kit", "buildlog helper-list", "buildlog box label"}  # Markdown to print, like the week
NAMES = """
demo; read; export; undo; redo; journal; backup; restore; check; note; stand-in
print queue; print start; print finish; print fail; print cancel; print correct
printer load; printer nozzle; printer down; printer up
spool receive; spool weigh; spool dry; spool open; spool seal; spool load; spool empty
lot count; lot fit; lot take-out; lot scrap; lot move; lot damage; lot missing; lot found
part revise; part supersede; part stage; step done; fit record; question ask; question answer
order place; order receive; episode plan; episode close; milestone add
add build; add part; add bought-item; change spool; change settings; retire printer; bring-back part
"""


@pytest.fixture(scope="module")
def entries() -> tuple[Entry, ...]:
    return tuple(all_commands())


def test_every_command_and_every_option_has_help(entries: tuple[Entry, ...]) -> None:
    assert [entry.line for entry in entries if len(entry.help) < 9] == []
    assert [(entry.line, name) for entry in entries for name, text in entry.options if not text] == []


def test_no_help_speaks_of_code(entries: tuple[Entry, ...]) -> None:
    words = ("``", "None", "dataclass", "proposal")
    texts = [entry.help for entry in entries] + [text for entry in entries for _, text in entry.options]
    assert [text for text in texts if any(word in text for word in words)] == []


def test_every_name_that_was_promised_is_a_command(entries: tuple[Entry, ...]) -> None:
    lines = [entry.line.removeprefix("buildlog ") + " " for entry in entries]
    promised = {name.strip() for name in NAMES.replace("\n", ";").split(";") if name.strip()}
    missing = {
        name for name in promised | set(QUESTIONS) if not any(f"{line} ".startswith(f"{name} ") for line in lines)
    }
    assert missing == set()


def test_every_question_takes_json_and_every_action_at_and_dry_run(entries: tuple[Entry, ...]) -> None:
    asking = {f"buildlog {name.split()[0]}" for name in QUESTIONS} - {"buildlog week"}
    keeping = {"week", "read", "export", "undo", "redo", "journal", "backup", "restore", "check", "demo"}
    for entry in entries:
        names = {name for name, _ in entry.options}
        command = " ".join(word for word in entry.line.split() if word == word.lower() and "[" not in word)
        if command in asking:
            assert "--json" in names, command
        elif command.split()[1] not in keeping and command not in PAGES:
            assert {"--at", "--dry-run"} <= names, command


def test_a_command_is_listed_with_its_arguments_and_what_it_does(entries: tuple[Entry, ...]) -> None:
    told = {entry.line: entry.help for entry in entries}
    assert told["buildlog spool weigh SPOOL GROSS"] == "What the scale read, with the reel."


def test_help_of_a_command_and_of_a_group_goes_to_standard_output(shell: Any) -> None:
    for line in ("--help", "spool --help", "spool", "spool weigh --help", "alerts --help"):
        said = shell(line)
        assert (said.code, said.err) == (0, ""), line
        assert said.out.startswith("Usage: buildlog")
    assert "3: something now; 4: something, but only later" in " ".join(shell("alerts --help").out.split())
