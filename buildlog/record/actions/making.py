"""The pieces that a print makes: how many came out how, and the lots and marks that they get."""

from collections import Counter
from itertools import count

from buildlog.errors import BadWish
from buildlog.proposals.outcomes import CameOut
from buildlog.record.tables.pieces import Lot
from buildlog.record.tables.printing import Job, JobLine
from buildlog.record.tables.tree import Part
from buildlog.record.writer import Work
from buildlog.terms import Grade, LotOrigin, Moment, Purpose, Side

Counts = dict[int, Counter[Grade | None]]
"""By id of a line: how many pieces came out in each grade; None is scrap."""


def lines_of(work: Work, job: Job) -> list[JobLine]:
    return work.all(JobLine, job_id=job.id)


def counted(work: Work, lines: list[JobLine], outcomes: tuple[CameOut, ...], unnamed: Grade | None) -> Counts:
    """How the pieces of each line came out; those that no outcome names are ``unnamed``."""
    left = {line.id or 0: line.quantity for line in lines}
    counts: Counts = {line_id: Counter() for line_id in left}
    for outcome in outcomes:
        meant = [line for line in lines if _is_meant(work, line, outcome)]
        there = sum(left[line.id or 0] for line in meant)
        wanted = there if outcome.pieces is None else outcome.pieces
        if not meant or wanted > there:
            raise BadWish((("outcomes", _not_that_many(outcome, there if meant else None)),))
        for line in meant:
            taken = min(wanted, left[line.id or 0])
            counts[line.id or 0][outcome.grade] += taken
            left[line.id or 0] -= taken
            wanted -= taken
    for line_id, pieces in left.items():
        counts[line_id][unnamed] += pieces
    return counts


def _is_meant(work: Work, line: JobLine, outcome: CameOut) -> bool:
    if line.part_id is None or work.get(Part, line.part_id).code != outcome.code:
        return False
    return outcome.side is None or outcome.side is line.side


def _not_that_many(outcome: CameOut, there: int | None) -> str:
    named = outcome.code + (f" {outcome.side}" if outcome.side else "")
    if there is None:
        return f"this print lays down no {named}"
    return f"{named}: only {there} more in this print"


def make_pieces(work: Work, job: Job, counts: Counts, at: Moment, cause: str) -> int:
    """Write the outcome of every line and the lots of what is for parts; returns how many pieces came."""
    made = 0
    for line in lines_of(work, job):
        grades = counts[line.id or 0]
        scrapped = grades[None]
        work.change(line, scrapped=scrapped, cause=cause if scrapped else "")
        if line.purpose is not Purpose.PARTS:
            continue
        for grade in Grade:
            if grades[grade]:
                add_lot(work, line, grade, grades[grade], at)
                made += grades[grade]
    return made


def add_lot(work: Work, line: JobLine, grade: Grade, quantity: int, at: Moment) -> Lot:
    """A lot of the line; the only piece of a line is a lot of one and gets a mark to write on it."""
    assert line.part_id is not None
    assert line.revision_id is not None
    part = work.get(Part, line.part_id)
    return work.add(
        Lot(
            part_id=line.part_id,
            revision_id=line.revision_id,
            side=line.side,
            quantity=quantity,
            origin=LotOrigin.PRINT,
            grade=grade,
            made_at=at,
            job_line_id=line.id,
            mark=next_mark(work, part, line.side) if line.quantity == 1 else None,
        )
    )


def next_mark(work: Work, part: Part, side: Side) -> str:
    """The first free mark of a part and side: ``FL07R-A`` to ``FL07R-Z``, then ``FL07R-AA``."""
    stem = f"{part.code}{side if side is not Side.NONE else ''}-"
    taken = {lot.mark for lot in work.all(Lot, part_id=part.id)}
    return next(mark for number in count(1) if (mark := stem + letters(number)) not in taken)


def letters(number: int) -> str:
    """1 is A, 26 is Z, 27 is AA: counting in letters without a nought."""
    text = ""
    while number:
        number, digit = divmod(number - 1, 26)
        text = chr(ord("A") + digit) + text
    return text


def flip_lines(work: Work, lines: list[JobLine]) -> None:
    """What was laid down came out mirrored: every handed line is one of the other side."""
    handed = [line for line in lines if line.side is not Side.NONE]
    if not handed:
        raise BadWish((("other_side", "this print lays down nothing that is left or right"),))
    for line in handed:
        work.change(line, side=line.side.other)
