"""What a print is to lay down: a print file, or typed lines with their figures."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.lines import Ask, Line, read_ask, read_laid, write_ask, write_lines
from buildlog.terms import Purpose


@dataclass(frozen=True, slots=True)
class ToPrint:
    """A file, or lines; figures left empty are those of the file or of the parts."""

    file: str | None = asks("file", Kind.REFERENCE, default=None, refers="print file")
    lines: tuple[Line, ...] = asks(
        "lays down",
        Kind.LINES,
        default=(),
        refers="part",
        read=read_laid,
        write=write_lines,
        help="without a file, as FL07 L x2, FL08 R",
    )
    what: str = asks("what", Kind.TEXT, default="", help="in words, when it is no part")
    purpose: str = asks("for", Kind.CHOICE, default="parts", choices=tuple(Purpose), help="only parts become pieces")
    print_time: int | None = asks("print time", Kind.DURATION, default=None, least=1)
    material: Ask | None = asks(
        "material", Kind.LINES, default=None, refers="material", read=read_ask, write=write_ask
    )
    grams: int | None = asks("grams", Kind.GRAMS, default=None, least=0, help="of the whole run")
    support: int | None = asks("support grams", Kind.GRAMS, default=None, least=0)
    purge: int | None = asks("purge grams", Kind.GRAMS, default=None, least=0)
    material_2: Ask | None = asks(
        "second material", Kind.LINES, default=None, refers="material", read=read_ask, write=write_ask
    )
    grams_2: int | None = asks("second grams", Kind.GRAMS, default=None, least=0)
    purge_2: int | None = asks("second purge grams", Kind.GRAMS, default=None, least=0)
    estimate_from: str = asks("estimate from", Kind.TEXT, default="", help="which program said so")
