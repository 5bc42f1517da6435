"""SQLite's complaints, told apart by its result codes: known trouble as a sentence with a way out, the rest as bugs.

Source of the codes: SQLite, "Result and Extended Result Codes" (https://www.sqlite.org/rescode.html). The low byte
is the kind, the rest says more; the message beside a code is for people and
changes between versions, so it is never read.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from rebuild.errors import BadEntry, Bug, FileDamaged, FileTrouble, NotThere
from rebuild.store.connect import read_only

#: The part of a result code that names its kind.
KIND = 0xFF

_AGAIN = "Close it or wait, then enter it again."
_OWN_DISK = "Copy it to a disk of this computer and open the copy."
_PERMIT = "Copy it to a folder of your own, or change its permissions."
_BACKUP = (
    "Keep it as it is; “rebuild repair FILE” makes a new one from what can be read, or open the newest backup "
    "beside it (“… backup ….rebuild”)."
)
_ROOM = "Free some space and enter it again; nothing was stored by halves."

#: Kinds and what they mean here: what is wrong, and the way out.
_KINDS = {
    sqlite3.SQLITE_BUSY: ("another program has been writing to the file for more than five seconds.", _AGAIN),
    sqlite3.SQLITE_LOCKED: ("another part of the program is still writing to the file.", "Enter it again in a moment."),
    sqlite3.SQLITE_PROTOCOL: ("several programs opened the file in the same moment.", "Open it again."),
    sqlite3.SQLITE_FULL: ("the disk is full.", _ROOM),
    sqlite3.SQLITE_READONLY: ("the file or its folder may not be written.", _PERMIT),
    sqlite3.SQLITE_PERM: ("the file may not be used as it is set up.", _PERMIT),
    sqlite3.SQLITE_AUTH: ("the system does not let the program into the file.", _PERMIT),
    sqlite3.SQLITE_CANTOPEN: ("the file cannot be opened.", "See that the folder exists and that you may read it."),
    sqlite3.SQLITE_CORRUPT: ("the file is damaged.", _BACKUP),
    sqlite3.SQLITE_NOTADB: ("the file is not a Rebuild project.", "Choose another, or “rebuild repair” it."),
    sqlite3.SQLITE_IOERR: ("the disk reports an error.", "Copy the file to another disk before going on."),
    sqlite3.SQLITE_NOMEM: ("the computer has run out of memory.", "Close other programs and enter it again."),
}  # fmt: skip

#: Kinds that say the file itself is not as it should be.
_DAMAGE = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)

_READ = (
    "the disk cannot read a part of the file.",
    "Copy the file to another disk before going on, or open the newest backup.",
)
_WRITE = ("the disk did not take what was written.", f"See that it is there and has room. {_ROOM}")
_LOCK = ("the file cannot be locked where it lies: some network and shared folders cannot.", _OWN_DISK)

_READING = (
    sqlite3.SQLITE_IOERR_READ, sqlite3.SQLITE_IOERR_SHORT_READ, sqlite3.SQLITE_IOERR_FSTAT, sqlite3.SQLITE_IOERR_SEEK,
    sqlite3.SQLITE_IOERR_MMAP, sqlite3.SQLITE_IOERR_DATA,
)  # fmt: skip
_WRITING = (
    sqlite3.SQLITE_IOERR_WRITE, sqlite3.SQLITE_IOERR_FSYNC, sqlite3.SQLITE_IOERR_DIR_FSYNC, sqlite3.SQLITE_IOERR_CLOSE,
    sqlite3.SQLITE_IOERR_TRUNCATE, sqlite3.SQLITE_IOERR_DELETE, sqlite3.SQLITE_IOERR_DELETE_NOENT,
    sqlite3.SQLITE_IOERR_COMMIT_ATOMIC, sqlite3.SQLITE_IOERR_BEGIN_ATOMIC,
)  # fmt: skip
_LOCKING = (
    sqlite3.SQLITE_IOERR_LOCK, sqlite3.SQLITE_IOERR_RDLOCK, sqlite3.SQLITE_IOERR_UNLOCK, sqlite3.SQLITE_IOERR_BLOCKED,
    sqlite3.SQLITE_IOERR_CHECKRESERVEDLOCK, sqlite3.SQLITE_IOERR_SHMOPEN, sqlite3.SQLITE_IOERR_SHMSIZE,
    sqlite3.SQLITE_IOERR_SHMLOCK, sqlite3.SQLITE_IOERR_SHMMAP,
)  # fmt: skip

#: Sub-codes that mean something else, or something closer, than their kind.
_CLOSER = {
    sqlite3.SQLITE_READONLY_DBMOVED: (
        "the file was moved, renamed or replaced while it was open.", "Close it, and open it where it lies now."),
    sqlite3.SQLITE_READONLY_DIRECTORY: ("the folder of the file may not be written.", _PERMIT),
    sqlite3.SQLITE_READONLY_CANTLOCK: _LOCK,
    sqlite3.SQLITE_CANTOPEN_ISDIR: ("is a folder.", "Choose the project file inside it."),
    sqlite3.SQLITE_CANTOPEN_NOTEMPDIR: (
        "the system has no folder for temporary files.", "Set one up, then open it again."),
    sqlite3.SQLITE_IOERR_NOMEM: ("the computer has run out of memory.", "Close other programs and enter it again."),
    sqlite3.SQLITE_IOERR_ACCESS: ("the system does not let the program into the folder of the file.", _PERMIT),
    sqlite3.SQLITE_IOERR_CORRUPTFS: ("the disk itself is damaged.", "Copy the file to another disk before going on."),
    sqlite3.SQLITE_IOERR_VNODE: (
        "the file was moved, renamed or replaced while it was open.", "Close it, and open it where it lies now."),
    **dict.fromkeys(_READING, _READ), **dict.fromkeys(_WRITING, _WRITE), **dict.fromkeys(_LOCKING, _LOCK),
}  # fmt: skip


def code_of(error: BaseException) -> int:
    """SQLite's extended result code; 0 where it was not SQLite that spoke.

    >>> code_of(sqlite3.ProgrammingError("Cannot operate on a closed database."))
    0
    """
    said = error.orig if isinstance(error, DBAPIError) else error
    return int(getattr(said, "sqlite_errorcode", 0) or 0)


def words_for(code: int) -> tuple[str, str] | None:
    """What a result code means and the way out; None for what nobody but a programmer can mend.

    >>> words_for(sqlite3.SQLITE_BUSY_SNAPSHOT)[1], words_for(sqlite3.SQLITE_MISUSE)
    ('Close it or wait, then enter it again.', None)
    """
    return _CLOSER.get(code) or _KINDS.get(code & KIND)


def trouble_words(error: Exception) -> str:
    """Why it could not be done, for the middle of a sentence: by SQLite's code, else in the system's own words."""
    known = words_for(code_of(error))
    if known is not None:
        return known[0].rstrip(".")
    if code_of(error) & KIND == sqlite3.SQLITE_CONSTRAINT:
        return "it breaks what the file holds to: something it refers to, or must have, is missing"
    if isinstance(error, OSError):
        return error.strerror or str(error)  # without the system's words it is a sentence of our own
    if code_of(error) == sqlite3.SQLITE_ERROR:
        return "it lacks a list or a column that is asked for"
    if isinstance(error, (UnicodeDecodeError, sqlite3.OperationalError)):
        return "the file holds text that cannot be read"
    return "what is stored there is not what it must be"


def explain(error: Exception, path: Path, *, at_head: bool = True) -> FileTrouble | NotThere | Bug:
    """What SQLite said about ``path``: a sentence for the user, or a bug for the last resort.

    Args:
        error: from SQLite, or from the library over it.
        path: the project file.
        at_head: the file is of this program's own schema, so that a table or column it lacks can be named.
    """
    code = code_of(error)
    known = words_for(code)
    if known is not None:
        what, way_out = known
        sort = FileDamaged if code & KIND in _DAMAGE else FileTrouble
        return sort(what, where=path.name, way_out=way_out)
    if code == sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY:
        return NotThere(
            "Something this entry refers to is no longer there.",
            way_out="It may have been removed in another window; look again and choose another.",
        )
    if code == sqlite3.SQLITE_ERROR and (lacking := _lacking(path, at_head=at_head)):
        return FileDamaged(f"the file is damaged: it lacks {lacking}.", where=path.name, way_out=_BACKUP)
    said = error.orig if isinstance(error, DBAPIError) else error
    if code == 0 and isinstance(said, sqlite3.OperationalError):
        # Python's own word, without a code, for text in the file that is no UTF-8.
        return FileDamaged(
            "the file holds text that cannot be read.",
            where=path.name,
            way_out="Run “rebuild check” on the file; it names the record.",
        )
    name = getattr(said, "sqlite_errorname", None) or type(said).__name__
    return Bug(f"the store met {name}")


def _lacking(path: Path, *, at_head: bool) -> str:
    """A table or column of the schema that the file does not have; nothing when all are there."""
    from rebuild.model.tables.every import whole

    wanted = {table.name: set(table.columns.keys()) for table in whole().tables.values()} if at_head else {}
    wanted["alembic_version"] = {"version_num"}
    try:
        with closing(read_only(path)) as raw:
            for table, columns in wanted.items():
                there = {row[1] for row in raw.execute(f'PRAGMA table_info("{table}")')}
                if not there:
                    return f"the table “{table}”"
                if columns - there:
                    return f"the column “{min(columns - there)}” of “{table}”"
    except (sqlite3.Error, UnicodeDecodeError):
        return ""  # what can be said of it was said by the first error
    return ""


@contextmanager
def explained(path: Path, *, at_head: bool = True) -> Iterator[None]:
    """Turn what SQLite says inside the block into a sentence about ``path``, or into a bug.

    Raises:
        NotThere: a record that was referred to is gone.
        FileTrouble: the file cannot be read or written now.
        BadEntry: a text holds half of a character, as a cut paste can; no file can keep it.
        Bug: anything that is the program's own fault.
    """
    try:
        yield
    except UnicodeEncodeError as half:
        raise BadEntry(
            "holds half of a character, which no file can keep.",
            where="Text",
            value=str(half.object).encode("utf-8", "replace").decode("utf-8")[:40],
            way_out="Type that character again.",
        ) from half
    except (DBAPIError, sqlite3.Error) as trouble:
        raise explain(trouble, path, at_head=at_head) from trouble
    except UnicodeDecodeError as trouble:
        # SQLite quotes the damaged schema in its complaint, and the driver cannot read the quotation.
        raise FileDamaged("the file is damaged.", where=path.name, way_out=_BACKUP) from trouble
