"""Runs the shell examples of README.md and writes its tables and the outputs it shows anew.

    python tests/docs/make_readme.py            # rewrite README.md
    python tests/docs/make_readme.py --check    # say what differs, change nothing

Of each section with `buildlog` lines in a `sh` block the blocks are worked through in order, in a folder and on a
ledger of its own at a pinned moment: a block whose fence names a file (```csv parts.csv) is written, each line of a
`sh` block is run, and the `text` block after it holds what the last line gave. `# exit 3` at the end of a line
names the exit code it must have; `> FILE` keeps its output. Figures may differ, words may not.
"""

import contextlib
import io
import os
import re
import shlex
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from unittest.mock import patch

from make_tables import TABLES

from buildlog.commands.running import run
from buildlog.ledger import Ledger

README = Path(__file__).parents[2] / "README.md"
PINNED = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)  # a Wednesday, 13:00 in Berlin
DEMO = "demo.db"
LAYS_DEMO = f"buildlog demo --into {DEMO} --no-screen"
NOT_RUN = ("See it", "Test it")
"""Sections whose command is for a fresh machine; .ci/run runs it."""

_SECTION = re.compile(r"^## ([^\n]+)\n(.*?)(?=^## |\Z)", re.MULTILINE | re.DOTALL)
_BLOCK = re.compile(r"^```(\w+)(?: (\S+))?\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_TABLE = re.compile(r"(<!-- table: ([\w-]+) -->\n)(?:(?!<!--).)*(<!-- end of table -->)", re.DOTALL)
_EXIT = re.compile(r"\s+# exit (\d+)$")
_INTO = re.compile(r"\s+> (\S+)$")


@dataclass(frozen=True, slots=True)
class Ran:
    line: str
    exit_code: int
    expected: int
    output: str
    talk: str


@dataclass(slots=True)
class Section:
    """``ran`` are the lines that were run; ``shown`` pairs each output in the README with what was given now."""

    title: str
    ran: list[Ran] = field(default_factory=list)
    shown: list[tuple[str, str]] = field(default_factory=list)

    @property
    def failed(self) -> list[str]:
        """Every line that ended with another exit code than it says, and what was said."""
        return [f"{r.line}: exit {r.exit_code}\n{r.talk}{r.output}" for r in self.ran if r.exit_code != r.expected]


def sections(text: str) -> list[str]:
    """The titles of the sections that have something to run."""
    return [m[1] for m in _SECTION.finditer(text) if m[1] not in NOT_RUN and _commands(m[2])]


def _commands(body: str) -> list[str]:
    return [line for kind, _, block in _BLOCK.findall(body) if kind == "sh" for line in block.splitlines()]


def works_on_demo(text: str, title: str) -> bool:
    """Such sections share one folder with the demo in it: laying it takes as long as all else together."""
    return DEMO in _body(text, title)


def _body(text: str, title: str) -> str:
    return next(m[2] for m in _SECTION.finditer(text) if m[1] == title)


def section_run(text: str, title: str, folder: Path) -> Section:
    """Work a section through in the folder; the demo is laid where it is not there yet."""
    body = _body(text, title)
    already = (LAYS_DEMO,) if (folder / DEMO).exists() else ()
    done = Section(title)
    with at_home_in(folder):
        for kind, name, block in _BLOCK.findall(body):
            if name:
                (folder / name).write_text(block, encoding="utf-8")
            elif kind == "sh":
                lines = [line for line in block.splitlines() if line.strip() and line not in already]
                done.ran += [ran(line) for line in lines]
            elif kind == "text" and done.ran:
                last = done.ran[-1]
                done.shown.append((block, last.output or last.talk))
    return done


def ran(line: str) -> Ran:
    """Run one line as the shell would; ValueError for what is no line of ours."""
    said, into = _EXIT.search(line), None
    expected = int(said[1]) if said else 0
    line = _EXIT.sub("", line)
    if found := _INTO.search(line):
        line, into = _INTO.sub("", line), Path(found[1])
    words = shlex.split(line, comments=True)
    if words[0] != "buildlog":
        raise ValueError(f"«{line}» does not begin with buildlog: only its own commands are run")
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = run(words[1:])
    if into is not None:
        into.write_text(out.getvalue(), encoding="utf-8")
    return Ran(line, int(code), expected, "" if into else out.getvalue(), err.getvalue())


@contextlib.contextmanager
def at_home_in(folder: Path) -> Iterator[None]:
    """In the folder, with a ledger and a home of its own, at the pinned moment."""
    before, opened = Path.cwd(), Ledger.open
    own = {"BUILDLOG_LEDGER": "ledger.db", "HOME": str(folder), "COLUMNS": "120"}

    def pinned(path: Path | None = None, backups: Path | None = None) -> Ledger:
        return opened(path, backups, lambda: PINNED)

    with patch.dict(os.environ, own), patch.object(Ledger, "open", pinned):
        for name in ("BUILDLOG_BACKUPS", "BUILDLOG_SETTINGS"):
            os.environ.pop(name, None)
        os.chdir(folder)
        try:
            yield
        finally:
            os.chdir(before)


def shape(output: str) -> str:
    """What must stay the same of an output: its words, in their order; figures and widths of columns may move."""
    return " ".join(re.sub(r"[\d.,:]*\d", "0", output).split())


def with_tables(text: str) -> str:
    """The text with each table as the code yields it."""
    return _TABLE.sub(lambda m: m[1] + TABLES[m[2]]().rstrip("\n") + "\n" + m[3], text)


def with_outputs(text: str, folder_for: Callable[[str], Path]) -> str:
    """The text with every output as it is given now."""
    for title in sections(text):
        folder = folder_for(DEMO if works_on_demo(text, title) else title)
        done = section_run(text, title, folder)
        if done.failed:
            raise SystemExit("\n".join([f"«{title}» fails:", *done.failed]))
        for shown, given in done.shown:
            text = text.replace(f"```text\n{shown}```", f"```text\n{_trimmed(given)}```", 1)
    return text


def _trimmed(output: str) -> str:
    return "\n".join(line.rstrip() for line in output.rstrip().splitlines()) + "\n"


def main(arguments: list[str]) -> int:
    text = README.read_text("utf-8")
    with tempfile.TemporaryDirectory(prefix="buildlog-") as root:

        def folder_for(name: str) -> Path:
            folder = Path(root) / name.replace(" ", "-")
            folder.mkdir(exist_ok=True)
            return folder

        new = with_outputs(with_tables(text), folder_for)
    if "--check" in arguments:
        print(
            "README.md is as the program gives it" if new == text else "README.md differs: run this without --check"
        )
        return int(new != text)
    README.write_text(new, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
