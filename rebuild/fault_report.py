"""The report of a fault of the program itself: what ran, where it broke, and nothing of the user's.

Paths are cut to names, and what an error quotes is left out: it may be what was typed or what a file holds. Nothing
here knows Qt or SQL, so the window and the command line write the same report into the same place.
"""

from __future__ import annotations

import re
from pathlib import Path

#: Errors whose quoted words are names in the program.
_OF_THE_CODE = (AttributeError, NameError, ImportError, TypeError)
_LIBRARIES = ("PySide6-Essentials", "SQLAlchemy", "alembic")
_QUOTED = re.compile(r"'[^'\n]*'|\"[^\"\n]*\"|“[^”\n]*”|`[^`\n]*`")
_PATH = re.compile(r"(?:[A-Za-z]:)?(?:[\\/][^\\/\s'\":,;()<>|]+)+[\\/]?|~(?:[\\/][^\s'\":,;()]+)+")
LEFT_OUT = "…"
MOST_FRAMES = 30

SENTENCE = (
    "Something went wrong inside the program: a fault of Rebuild, not of what you typed. "
    "What was stored before stays stored; see whether your last entry is there."
)


def report_of(error: BaseException) -> str:
    """The report: versions, then the chain of errors with the lines of the program they passed.

    >>> report_of(KeyError("half nut")).splitlines()[-1]
    'KeyError: …'
    """
    return "\n".join([*_versions(), "", *_chain(error)])


def _versions() -> list[str]:
    import platform  # here and below: a start without a fault needs none of them
    import sqlite3

    from rebuild import __version__

    libraries = ", ".join(f"{name} {_version(name)}" for name in _LIBRARIES)
    return [
        f"Rebuild {__version__}, Python {platform.python_version()}, SQLite {sqlite3.sqlite_version}",
        f"{libraries}; {platform.system()} {platform.release()} {platform.machine()}",
    ]


def _version(library: str) -> str:
    from importlib import metadata

    try:
        return metadata.version(library)
    except metadata.PackageNotFoundError:
        return "not installed"


def _chain(error: BaseException) -> list[str]:
    """An error after the one it came from, oldest first."""
    import traceback

    before = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    lines = [] if before is None else [*_chain(before), "", "and from it:", ""]
    frames = traceback.extract_tb(error.__traceback__)[-MOST_FRAMES:]
    for frame in frames:
        lines += [f"  {_place(frame.filename)}:{frame.lineno} in {frame.name}", f"      {frame.line}"]
    return [*lines, f"{type(error).__name__}: {without_the_users(error)}".rstrip(": ")]


def _place(filename: str) -> str:
    """Where a module lies within the program or a library; only its name elsewhere.

    >>> _place("/home/ann/rebuild/window/shell/frame.py"), _place("/home/ann/odd.py")
    ('rebuild/window/shell/frame.py', 'odd.py')
    """
    parts = Path(filename.replace("\\", "/")).parts
    for mark in ("site-packages", "rebuild"):
        if mark in parts:
            at = len(parts) - 1 - parts[::-1].index(mark)
            return "/".join(parts[at + (mark == "site-packages") :])
    return parts[-1] if parts else filename


def without_the_users(error: BaseException) -> str:
    """An error's own words without what it quotes and with paths cut to names.

    A database library hangs the statement and its values on its errors; ``orig`` is the driver's word alone.

    >>> without_the_users(ValueError("could not convert string to float: '12 thou'"))
    'could not convert string to float: …'
    >>> without_the_users(AttributeError("'Frame' object has no attribute 'tree'"))
    "'Frame' object has no attribute 'tree'"
    >>> without_the_users(OSError("cannot open /home/ann/mill.rebuild"))
    'cannot open mill.rebuild'
    """
    said = str(getattr(error, "orig", None) or error)
    if isinstance(error, OSError) and error.strerror:
        said = f"{error.strerror} ({Path(str(error.filename or '')).name})"
    if isinstance(error, KeyError):
        return LEFT_OUT
    of_code = isinstance(error, _OF_THE_CODE)
    said = _QUOTED.sub(
        lambda found: found[0] if of_code and found[0][1:-1].isidentifier() else LEFT_OUT, said
    )
    return _PATH.sub(lambda found: Path(found[0].replace("\\", "/")).name, said)


def report_path() -> Path:
    """Where the newest report lies: one file in the user's folder for logs."""
    import platformdirs

    return Path(platformdirs.user_log_dir("rebuild", appauthor=False)) / "trouble.txt"


def keep_report(report: str) -> Path | None:
    """Write a report over the one before; None where it cannot be written (it is then only shown)."""
    path = report_path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(report + "\n", encoding="utf-8", errors="replace")
    except OSError:
        return None
    return path


def kept_report() -> str:
    """The newest report, or nothing."""
    try:
        return report_path().read_text(encoding="utf-8", errors="replace")
    except OSError:
        return ""


def tell(error: BaseException) -> str:
    """For a terminal: keep the report and say in one sentence where; or show it, where it cannot be kept."""
    report = report_of(error)
    path = keep_report(report)
    if path is None:
        return f"{SENTENCE} The report could not be written, so here it is.\n\n{report}"
    return f"{SENTENCE} The report is {path}; rebuild --trouble prints it."
