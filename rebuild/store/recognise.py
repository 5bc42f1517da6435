"""Tell what a file is before anything is opened in it."""

from __future__ import annotations

import struct
from pathlib import Path

from rebuild.errors import FileDamaged, FileTrouble
from rebuild.store.identity import is_held_here

APPLICATION_ID = 0x52424C44
_MAGIC = b"SQLite format 3\x00"
_HEADER = 100
#: SQLite writes pages of no less than this [bytes].
_SMALLEST_PAGE = 512


def recognise(path: Path) -> None:
    """Refuse what is not a whole Rebuild project, saying what it is instead.

    Raises:
        FileTrouble: missing, a folder, a pipe or device, unreadable, empty, another kind of file, or cut short.
    """
    if path.is_dir():
        raise FileTrouble("is a folder.", where=path.name, way_out="Choose the project file inside it.")
    if path.exists() and not path.is_file():  # reading a pipe would wait for its other end for ever
        raise FileTrouble("is no ordinary file.", where=path.name, way_out="Choose a Rebuild project file.")
    if is_held_here(path):
        return  # it was looked at when it was opened
    try:
        with path.open("rb") as file:
            header = file.read(_HEADER)
        length = path.stat().st_size
    except FileNotFoundError:
        raise FileTrouble(
            "there is no such file.", where=path.name, way_out="Choose another or make a new one."
        ) from None
    except OSError as trouble:
        raise FileTrouble(
            f"the file cannot be read ({trouble.strerror}).", where=path.name, way_out="See its permissions."
        ) from trouble
    if not header.startswith(_MAGIC):
        if length < _SMALLEST_PAGE:  # no page of a database: there is nothing in it to bring back
            raise FileTrouble(
                "the file is not a Rebuild project.", where=path.name, way_out="Choose another file."
            )
        raise FileDamaged(
            "the file is not a Rebuild project.",
            where=path.name,
            way_out="Choose another file. If it was one, “rebuild repair FILE” may bring it back.",
        )
    if len(header) < _HEADER or (length < _whole_length(header) and not _has_wal(path)):
        raise FileDamaged(
            "the file is cut short: it was not copied whole.",
            where=path.name,
            way_out="Copy it again from where it came, open the newest backup beside it, or let "
            "“rebuild repair FILE” read what there is.",
        )
    if struct.unpack(">I", header[68:72])[0] != APPLICATION_ID:
        raise FileTrouble(
            "is a database of another program.", where=path.name, way_out="Choose a Rebuild project file."
        )


def _has_wal(path: Path) -> bool:
    """Whether SQLite still has pages to move into the file: a kill in the middle of moving leaves it short."""
    wal = path.with_name(path.name + "-wal")
    return wal.is_file() and wal.stat().st_size > 0


def _whole_length(header: bytes) -> int:
    """The length the file's own header claims; 0 when an old writer left the page count stale."""
    page = struct.unpack(">H", header[16:18])[0]
    size = 65536 if page == 1 else page
    change_counter, pages = struct.unpack(">II", header[24:32])
    version_valid_for = struct.unpack(">I", header[92:96])[0]
    return size * pages if change_counter == version_valid_for else 0
