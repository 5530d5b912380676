"""Lines that begin like a fact and cannot be one: each says where it is told instead."""

from buildlog.intake.quick.words import Word

_TAKEN_BACK = "a fact: the last change is taken back by the key for undo on the screens, or by `buildlog undo`"
_PUT_BACK = "a fact: what was taken back is put back by the key for redo on the screens, or by `buildlog redo`"
_PRINTED = (
    "its start and its end: say «started PLATES-7 on BIG at 9:10», then «finished BIG at 14:20»; a print that is "
    "over and was never started here is told on Prints, or by `buildlog print ran`"
)
_ELSEWHERE = {"undo": _TAKEN_BACK, "redo": _PUT_BACK, "printed": _PRINTED}


def told_elsewhere(words: tuple[Word, ...]) -> str:
    """What such a line lacks; "" for any other."""
    return _ELSEWHERE.get(words[0].bare, "")
