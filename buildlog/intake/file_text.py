"""The text of a file that a person names: of bounded size, in a known encoding, or a clear refusal."""

import codecs
import stat
from pathlib import Path

from buildlog.errors import FileProblems

MOST_BYTES = 16 * 1024 * 1024
"""Our choice: a hundred times a large parts list."""

_UTF16 = {codecs.BOM_UTF16_LE: "utf-16-le", codecs.BOM_UTF16_BE: "utf-16-be"}
_KNOWN_STARTS = {
    b"PK\x03\x04": "a workbook or another packed file",
    b"\xd0\xcf\x11\xe0": "an old workbook",
    b"%PDF": "a PDF",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"SQLite format 3": "a database",
}


def read_text(path: Path, most_bytes: int = MOST_BYTES) -> str:
    """The whole text; FileProblems for what is no readable text file of at most ``most_bytes``."""
    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise _refused(path, "is a folder: name the files in it")
        if not stat.S_ISREG(found.st_mode):
            raise _refused(path, "is no plain file: copy its content into one and read that")
        if found.st_size > most_bytes:
            raise _refused(path, _too_large(found.st_size, most_bytes))
        with path.open("rb") as file:
            content = file.read(most_bytes + 1)
    except FileNotFoundError:
        raise _refused(path, "there is no such file: look at how it is written and in which folder it lies") from None
    except (OSError, ValueError) as error:
        raise _refused(path, f"cannot be read ({getattr(error, 'strerror', None) or error})") from error
    if len(content) > most_bytes:
        raise _refused(path, _too_large(len(content), most_bytes))
    return text_of(path, content)


def text_of(path: object, content: bytes) -> str:
    """UTF-8 with or without byte order mark, UTF-16 with one."""
    for start, what in _KNOWN_STARTS.items():
        if content.startswith(start):
            raise _refused(path, f"is {what}, not text: save the sheet as «CSV UTF-8» and read that")
    mark, encoding = content[:2], "utf-8"
    if mark in _UTF16:
        encoding = _UTF16[mark]
    else:
        mark = codecs.BOM_UTF8 if content.startswith(codecs.BOM_UTF8) else b""
    try:
        text = content[len(mark) :].decode(encoding)
    except UnicodeDecodeError as error:
        raise _wrong_encoding(path, error, len(mark)) from None
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        raise FileProblems(path, ((line, "", "holds a NUL byte, so it is no text: save it as «CSV UTF-8»"),))
    if not text.strip():
        raise _refused(path, "is empty: nothing is in it to read")
    return text


def _wrong_encoding(path: object, error: UnicodeDecodeError, skipped: int) -> FileProblems:
    line = bytes(error.object[: error.start]).count(b"\n") + 1
    message = (
        f"byte {error.start + skipped + 1} of the file (0x{error.object[error.start]:02x}) is not "
        f"{error.encoding.upper()}, it may be Latin-1 or Windows-1252: save the file with the encoding UTF-8"
    )
    return FileProblems(path, ((line, "", message),))


def _too_large(size: int, most_bytes: int) -> str:
    most = most_bytes // (1024 * 1024)
    return f"has {size / (1024 * 1024):.0f} MB, at most {most} MB are read: split it, or leave out what is no row"


def _refused(path: object, message: str) -> FileProblems:
    return FileProblems(path, ((0, "", message),))
