"""The errors a person can meet, as a tree. Each message says what is wrong, where, and what to do."""


class BuildlogError(Exception):
    """Root of everything a person can meet; shown without a traceback."""


class Stopped(BuildlogError):
    """A person stopped long work while it ran."""

    def __init__(self) -> None:
        super().__init__("Stopped: nothing was changed. The same again does it from the beginning.")


class Refused(BuildlogError):
    """A wish that the rules of the ledger forbid as things stand."""


class MayOverrule(Refused):
    """Refused unless a person says that it is so all the same: ``field`` of the wish says it, ``label`` in forms."""

    def __init__(self, message: str, field: str, label: str) -> None:
        self.message, self.field, self.label = message, field, label
        super().__init__(f"{message} Or say that it was so all the same: field «{label}».")


class NotFound(Refused):
    """A code or name that the ledger does not hold."""

    def __init__(self, noun: str, code: str, near: tuple[str, ...] = ()) -> None:
        hint = f" Did you mean {', '.join(near)}?" if near else " Add it first, or name another."
        super().__init__(f"There is no {noun} «{code}» in this ledger.{hint}")
        self.noun, self.code = noun, code


class AlreadyThere(Refused):
    """A code that is taken."""

    def __init__(self, noun: str, code: str) -> None:
        super().__init__(f"{noun} «{code}» is there already: change it, or choose another code.")


class BadWish(Refused):
    """A form, command or row whose fields have problems; carries them all."""

    def __init__(self, problems: "tuple[tuple[str, str], ...]") -> None:
        self.problems = problems
        super().__init__("\n".join(f"{field}: {message}" for field, message in problems))


class InTheFuture(Refused):
    def __init__(self, at: str) -> None:
        super().__init__(f"{at} is in the future: a fact is recorded when it has happened. Name a time that is past.")


class LoopRefused(Refused):
    def __init__(self, names: tuple[str, ...]) -> None:
        super().__init__(f"This would make a loop: {' → '.join(names)}. Take one of these out first.")


class UndoRefused(Refused):
    """A group cannot be taken back; the message names the later group or the rule in its way."""


class NothingToUndo(Refused):
    def __init__(self, what: str) -> None:
        super().__init__(f"There is nothing to {what}. The journal lists what there is.")


class Conflict(Refused):
    """File and ledger both changed since the file was last read, and no one said which wins."""


class NoTerminal(Refused):
    def __init__(self) -> None:
        super().__init__(
            "The screens need a terminal to show themselves in and to be typed at, and there is none here. Open them "
            "in a terminal window, or ask in words, as `buildlog status`; the demo is laid with --no-screen."
        )


class LedgerError(BuildlogError):
    """The ledger file itself is the trouble."""


class NotALedger(LedgerError):
    def __init__(self, path: object) -> None:
        super().__init__(
            f"{path} is not a ledger of this program: it was left as it was. Name another file with --ledger."
        )


class NoLedgerThere(LedgerError):
    """What the path leads to cannot be a ledger, or none can be made there; the message says why and what to do."""


class AlreadyAFile(LedgerError):
    def __init__(self, path: object) -> None:
        super().__init__(f"{path} is there already and was left as it was: name a new file.")


class LedgerGone(LedgerError):
    def __init__(self, path: object) -> None:
        super().__init__(
            f"{path} was deleted, moved or replaced while it was open here. Nothing was changed: put the file back, "
            "then close this and open it again."
        )


class DamagedLedger(LedgerError):
    """SQLite finds the file broken, or rows hold what no program of ours writes."""

    def __init__(self, path: object, what: str) -> None:
        super().__init__(
            f"{path} is damaged: {what}. Nothing was changed. `buildlog check` tells all that is wrong. "
            "Keep the file, and bring the newest backup back into a new one: buildlog --ledger NEW restore BACKUP."
        )


class NewerLedger(LedgerError):
    def __init__(self, path: object, head: str) -> None:
        super().__init__(
            f"{path} was written by a newer version of this program (record {head}): it was left as it was. "
            "Upgrade the program, then open it again."
        )


class ReadOnlyLedger(LedgerError):
    def __init__(self, path: object, why: str) -> None:
        super().__init__(
            f"{path} can be read but not written ({why}). Nothing was changed. Let it be written to, or copy it and "
            "name the copy with --ledger."
        )


class DiskFull(LedgerError):
    def __init__(self, path: object) -> None:
        super().__init__(f"The disk of {path} is full: nothing was changed. Make room, then do it again.")


class LedgerBusy(LedgerError):
    def __init__(self, path: object) -> None:
        super().__init__(f"Another program is writing {path}: nothing was changed. Try again in a moment.")


class LedgerChanged(LedgerError):
    def __init__(self, path: object) -> None:
        super().__init__(f"{path} was upgraded by another program while it was open here: close and open it again.")


class UpgradeFailed(LedgerError):
    def __init__(self, path: object, copy: object, why: str) -> None:
        super().__init__(
            f"{path} could not be upgraded and was left as it was ({why}). A copy from before is at {copy}. Mend "
            "that, then open it again."
        )


class FileError(BuildlogError):
    """A file that was given to be read."""


class FileProblems(FileError):
    """All the problems of a file at once; each is (line, column, message)."""

    def __init__(self, path: object, problems: "tuple[tuple[int, str, str], ...]") -> None:
        self.path, self.problems = path, problems
        lines = [f"{path}: {len(problems)} problem{'s' * (len(problems) > 1)}, nothing was changed."]
        for line, column, message in problems:
            place = ", ".join(part for part in (f"line {line}" * (line > 0), column) if part)
            lines.append(f"  {place}: {message}" if place else f"  {message}")
        super().__init__("\n".join(lines))


class SettingsError(BuildlogError):
    """The settings file of a person cannot be used; carries all that is wrong with it."""

    def __init__(self, path: object, problems: "tuple[str, ...]") -> None:
        self.path, self.problems = path, problems
        told = "\n".join(f"  {problem}" for problem in problems)
        super().__init__(f"{path} is left aside, and all keys are the usual ones till it is mended:\n{told}")


class ScreensBroke(BuildlogError):
    """A fault of the program itself ended the screens; its traceback stands before this."""

    def __init__(self, path: object) -> None:
        super().__init__(
            "A fault in the program ended the screens; the lines above tell where. All that was said to be recorded "
            f"is in {path}; what stood in an open form is not. `buildlog check` tests the ledger, `buildlog` opens "
            "the screens again."
        )
