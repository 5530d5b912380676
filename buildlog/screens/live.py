"""The app's side of the ledger: it follows what is written and records wishes, in threads that block no key."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

from buildlog.errors import BadWish, BuildlogError
from buildlog.screens.following import FollowingApp
from buildlog.screens.following import SeenFirst as SeenFirst
from buildlog.screens.following import StatusArrived as StatusArrived  # screens hear of these from here
from buildlog.screens.following import Told as Told
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import Moment

if TYPE_CHECKING:
    from buildlog.ledger import Ledger, Outcome
    from buildlog.screens.long_work import LongWork
    from buildlog.status.status import Status

T = TypeVar("T")


class LiveApp(FollowingApp):
    """`own` are the changes made here, `build_id` the one build that every screen shows (None: all), for this
    sitting.
    """

    def __init__(self, ledger: Ledger) -> None:
        super().__init__(ledger)
        self.build_id: int | None = None
        self.own: list[tuple[int, str]] = []
        self._long_work: list[LongWork] = []

    async def record(self, wish: Any, at: Moment | None = None) -> Outcome | None:
        """Carry a wish out and say so, or say why it was refused and give None. To be awaited in a worker."""
        return await self.record_all([(wish, at)])

    async def record_all(self, wishes: Sequence[tuple[Any, Moment | None]], summary: str = "") -> Outcome | None:
        """As `record`, many wishes as one: all of them or none. The summary is what is said of them together."""
        try:
            outcome, more = await self.carry_out(
                "Recording", lambda: _carried_out(self.ledger, self.status, wishes, summary)
            )
        except BuildlogError as error:
            from buildlog.screens.dialogs.say import Say

            await self.push_screen_wait(
                Say("Nothing was recorded", as_forms_say(error, [wish for wish, _ in wishes]))
            )
            return None
        sentence = summary or " ".join(outcome.sentences)
        if outcome.group_id is not None:
            self.own.append((outcome.group_id, sentence))
        self.tell(f"{sentence} {more}".rstrip(), Tone.GOOD)
        self.refresh_status()
        return outcome

    async def carry_out(self, words: str, work: Callable[[], T]) -> T:
        """The answer of work that may take long, done beside the keys; `stop_work` ends it."""
        from buildlog.screens.long_work import LongWork

        long_work = LongWork(words)
        self._long_work.append(long_work)
        try:
            return await long_work.run(work, self.tell)
        finally:
            self._long_work.remove(long_work)

    def stop_work(self) -> bool:
        """Stop what has been told to be under way; whether there was anything."""
        told = [long_work for long_work in self._long_work if long_work.is_told]
        for long_work in told:
            long_work.stop()
        return bool(told)


def as_forms_say(error: BuildlogError, wishes: Sequence[Any]) -> list[str]:
    """What is wrong, its fields called as the form calls them."""
    if not isinstance(error, BadWish):
        return str(error).splitlines()
    from buildlog.proposals.field import fields_of

    labels = {"at": "when"} | {field.name: field.label for wish in wishes for field in fields_of(type(wish))}
    called = [labels.get(name, name.replace("_", " ")) for name, _ in error.problems]
    return [f"{label}: {problem}" for label, (_, problem) in zip(called, error.problems, strict=True)]


def _carried_out(
    ledger: Ledger, status: Status | None, wishes: Sequence[tuple[Any, Moment | None]], summary: str
) -> tuple[Outcome, str]:
    """What depends on how things stand (which pieces a step takes, how long such prints run) is told by the Status
    in view.
    """
    from buildlog.status.completing import completed
    from buildlog.status.started import told_of_start

    told = [(completed(wish, status, at) if status else wish, at) for wish, at in wishes]
    outcome = ledger.record_all(told, summary)
    if status is None or summary:
        return outcome, ""
    return outcome, " ".join(filter(None, (told_of_start(wish, outcome.entries, status) for wish, _ in wishes)))
