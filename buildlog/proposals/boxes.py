"""What happens to a box as a whole."""

from dataclasses import dataclass

from buildlog.proposals.counted import Counted, read_counted, write_counted
from buildlog.proposals.field import Kind, asks


@dataclass(frozen=True, slots=True)
class CountBox:
    """What a count of a box read, laid against the book; what is not named is not counted."""

    box: str = asks("box", Kind.REFERENCE, refers="box")
    counted: tuple[Counted, ...] = asks(
        "lie there",
        Kind.LINES,
        read=read_counted,
        write=write_counted,
        help="as #12 x3, FL07R-C x1, item SCREW-M4 x40",
    )


@dataclass(frozen=True, slots=True)
class MoveContents:
    """Put all that lies in a box into another one: pieces, spools, bought items."""

    box: str = asks("box", Kind.REFERENCE, refers="box")
    to: str = asks("into box", Kind.REFERENCE, refers="box")
