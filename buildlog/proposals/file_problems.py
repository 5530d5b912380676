"""Gathers everything that is wrong in the files of one reading, so that it is told at once."""

from pathlib import PurePath

from buildlog.errors import FileProblems

MOST_TOLD = 100
MOST_SOUGHT = 1000
"""Our choice: beyond that a file is another one than it was taken for, and reading on helps no one."""


class Problems:
    """Problems by file, each with line (0: the file as a whole) and heading or key."""

    def __init__(self) -> None:
        self._found: dict[str, list[tuple[int, str, str]]] = {}
        self._count = 0
        self._said: set[tuple[str, str, str]] = set()

    def add(self, source: str, line: int, column: str, message: str) -> None:
        self._found.setdefault(source, []).append((line, column, message))
        self._count += 1

    def add_once(self, source: str, line: int, column: str, message: str, aside: str = "") -> None:
        """A problem that every row of the file would repeat is told where it comes first; so is what is said aside
        of several of them.
        """
        if (source, column, message) in self._said:
            return
        new = aside if (source, "", aside) not in self._said else ""
        self._said |= {(source, column, message), (source, "", aside)}
        self.add(source, line, column, f"{message}{new}")

    @property
    def enough(self) -> bool:
        """Whether there is no use in looking for more."""
        return self._count >= MOST_SOUGHT

    def raise_if_any(self) -> None:
        if self._found:
            raise told_together(self._found)


def told_together(found: dict[str, list[tuple[int, str, str]]]) -> FileProblems:
    """One error for all files: each problem names its file where there are several."""
    if len(found) == 1:
        ((source, problems),) = found.items()
        return FileProblems(source, _most(sorted(problems, key=lambda problem: problem[0])))
    listed = [
        (0, "", f"{source}, {_place(line, column)}{message}")
        for source, problems in found.items()
        for line, column, message in sorted(problems, key=lambda problem: problem[0])
    ]
    return FileProblems(", ".join(PurePath(source).name for source in found), _most(listed))


def _place(line: int, column: str) -> str:
    place = ", ".join(filter(None, (f"line {line}" if line else "", column)))
    return f"{place}: " if place else ""


def _most(problems: list[tuple[int, str, str]]) -> tuple[tuple[int, str, str], ...]:
    if len(problems) <= MOST_TOLD:
        return tuple(problems)
    more = len(problems) - MOST_TOLD
    rest = f"and {more} more or still others: put these right first, then read the file again"
    return (*problems[:MOST_TOLD], (0, "", rest))
