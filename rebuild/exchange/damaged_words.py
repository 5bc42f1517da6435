"""What is wrong with a packed table from outside, by the kind of error its reader raised, never its words."""

from __future__ import annotations

import zlib
from pathlib import Path
from xml.etree.ElementTree import ParseError
from zipfile import BadZipFile, ZipFile

from rebuild.errors import FileTrouble

#: What a damaged or strange one makes its readers raise.
DAMAGE = (
    ArithmeticError, AssertionError, AttributeError, BadZipFile, EOFError, IndexError, KeyError, MemoryError,
    NotImplementedError, OSError, ParseError, RecursionError, RuntimeError, TypeError, ValueError, zlib.error,
)  # fmt: skip

#: Kinds of error, the closer ones first, and what each means here.
_MEANS: tuple[tuple[tuple[type[BaseException], ...], str], ...] = (
    ((BadZipFile, EOFError, zlib.error), "a part of it is cut off or overwritten"),
    ((ParseError,), "the text inside it breaks off or is overwritten"),
    ((KeyError,), "a part that every workbook has is missing from it"),
    ((MemoryError, RecursionError), "it is too large or too deep to be read"),
    ((NotImplementedError,), "it is packed in a way that cannot be unpacked here"),
)
_ELSE = "a cell or a part of it is not as it must be"


def means(trouble: BaseException) -> str:
    """What an error of a reader means, for the middle of a sentence.

    >>> means(BadZipFile("Bad CRC-32 for file 'x'")), means(TypeError("expected <class 'int'>"))
    ('a part of it is cut off or overwritten', 'a cell or a part of it is not as it must be')
    """
    if isinstance(trouble, OSError):
        return f"the system says: {trouble.strerror}" if trouble.strerror else "the system cannot read it"
    return next((words for kinds, words in _MEANS if isinstance(trouble, kinds)), _ELSE)


def refuse_password(packed: ZipFile, path: Path) -> None:
    """Refuse a zip whose parts are locked (bit 0 of a part's flags). Raises FileTrouble."""
    if any(item.flag_bits & 1 for item in packed.infolist()):
        raise FileTrouble(
            "is locked with a password.",
            where=path.name,
            way_out="Open it in a spreadsheet and save it again, without a password.",
        )


def refuse_bomb(packed: ZipFile, path: Path, most_bytes: int) -> None:
    """Refuse what unpacks beyond all measure, or declares a document type (where entity bombs live)."""
    if sum(item.file_size for item in packed.infolist()) > most_bytes:
        raise FileTrouble(
            f"unpacks to more than {most_bytes // 1_000_000} MB.",
            where=path.name,
            way_out="Save only the sheet with the list as CSV.",
        )
    for item in packed.infolist():
        if item.filename.endswith((".xml", ".rels")):
            with packed.open(item) as part:
                if b"<!DOCTYPE" in part.read(4096):
                    raise FileTrouble(
                        f"its part {item.filename} declares a document type, which no spreadsheet does.",
                        where=path.name,
                        way_out="Take it from where it came in another form; nothing was taken.",
                    )
