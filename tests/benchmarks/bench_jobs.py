"""Whole jobs on the large file without a window, each in a process of its own beside the bare thing it rests on.

The file has its history, as one that was worked in has. What a job needs in memory is the peak of its own process.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.benchmarks.big_journal import with_journal
from tests.benchmarks.children import Spent, spent
from tests.benchmarks.table import Line

#: For other numbers of machines the goal of fifty is taken in proportion.
SUMMARY_S, OF_MACHINES = 5.0, 50
EXPORT_MB, BOOK_MB, BOOK_S, BOOK_PAGES = 200.0, 160.0, 8.0, 1_000


@dataclass(frozen=True, slots=True)
class _Place:
    """Where the jobs are done: a copy of the large file, and a folder for what they write."""

    file: Path
    folder: Path

    def job(self, *command: str) -> Spent:
        """One run of the program."""
        return spent([sys.executable, "-m", "rebuild", *command], self.folder)

    def floor(self, what: str, *given: str | Path) -> Spent:
        """One run of a bare thing of ``child_floor``."""
        return spent(
            [sys.executable, "-m", "tests.benchmarks.child_floor", what, *map(str, given)], self.folder
        )


def lines(machines: int, folder: Path) -> Iterator[Line]:
    """Every job on a copy of the large file."""
    at = _Place(folder / "jobs.rebuild", folder)
    shutil.copyfile(with_journal(machines), at.file)
    yield from _summary(at, machines)
    yield from _check(at)
    yield from _backup(at)
    yield from _export(at)
    yield from _book(at)
    yield from _undo(folder)
    yield from _disk(folder)


def _summary(at: _Place, machines: int) -> Sequence[Line]:
    bare, ours = at.job("--version"), at.job("summary", str(at.file))
    most = SUMMARY_S * machines / OF_MACHINES
    took = Line(f"summary of {machines} machines, against an empty start", ours.seconds, bare.seconds,
                f"under {most:g} s", ours.seconds < most, "s")  # fmt: skip
    return [took, _peak("  its memory, against the empty start", ours, bare)]


def _check(at: _Place) -> Sequence[Line]:
    bare, ours = at.floor("sound", at.file), at.job("check", str(at.file))
    return [
        Line("check, against the integrity check", ours.seconds, bare.seconds, "most 3 x",
             ours.seconds <= 3 * bare.seconds, "s"),
        _peak("  its memory", ours, bare),
    ]  # fmt: skip


def _backup(at: _Place) -> Sequence[Line]:
    bare = at.floor("copied", at.file, at.folder / "bare.copy")
    kept = at.folder / "kept.rebuild"
    ours = at.job("backup", str(at.file), "--to", str(kept))
    kept.unlink()
    return [
        Line("backup, against copy and integrity check", ours.seconds, bare.seconds, "most 1.5 x",
             ours.seconds <= 1.5 * bare.seconds, "s"),
        _peak("  its memory", ours, bare),
    ]  # fmt: skip


def _export(at: _Place) -> Sequence[Line]:
    bare = at.floor("exported", at.file, at.folder / "bare export")
    ours = at.job("export", str(at.file), "--to", str(at.folder / "export"))
    shutil.rmtree(at.folder / "export")
    shutil.rmtree(at.folder / "bare export")
    return [
        Line("export, against the same rows streamed by themselves", ours.seconds, bare.seconds, "most 2 x",
             ours.seconds <= 2 * bare.seconds, "s"),
        _peak("  its memory", ours, bare, EXPORT_MB),
    ]  # fmt: skip


def _book(at: _Place) -> Sequence[Line]:
    one, target = at.folder / "one.rebuild", at.folder / "book.pdf"
    shutil.copyfile(with_journal(1), one)
    ours = at.job("book", str(one), "--to", str(target))
    pages = _pages(target)
    bare = at.floor("pages", at.folder / "bare.pdf", str(pages))
    each = BOOK_PAGES / pages
    return [
        Line(f"book, {BOOK_PAGES:,} pages of {pages:,}, against bare lines of text", ours.seconds * each,
             bare.seconds * each, f"under {BOOK_S:g} s", ours.seconds * each < BOOK_S, "s"),
        _peak("  its memory", ours, bare, BOOK_MB),
    ]  # fmt: skip


def _pages(path: Path) -> int:
    from pypdf import PdfReader

    return len(PdfReader(path).pages)


def _undo(folder: Path) -> Sequence[Line]:
    """A machine removed, taken back and removed again, by 100,000 rows."""
    from tests.benchmarks.bench_undo import measure

    one = folder / "undo.rebuild"
    shutil.copyfile(with_journal(1), one)
    took = measure(one)
    return [
        Line(f"{what} of a machine, by 100,000 rows, against bare rows and images", ours, took.bare, "under 1 s",
             ours < 1.0, "s")
        for what, ours in (("undo", took.undo), ("redo", took.redo))
    ]  # fmt: skip


def _disk(folder: Path) -> Sequence[Line]:
    """What 2,000 readings stored one by one add to the file with their history, and the log when it is idle."""
    from tests.benchmarks.bench_undo import readings_kept

    grown, log, bare = readings_kept(folder / "disk.rebuild", 2_000)
    return [
        Line("disk for a reading, against its row alone", grown / 1e3, bare / 1e3, "most 0.5 kB",
             grown <= 500, "kB"),
        Line("the -wal when nobody types", log / 1e3, 0.0, "0 kB", log == 0, "kB"),
    ]  # fmt: skip


def _peak(what: str, ours: Spent, bare: Spent, most: float | None = None) -> Line:
    limit = f"under {most:g} MB" if most is not None else "no goal set"
    return Line(what, ours.peak_mb, bare.peak_mb, limit, most is None or ours.peak_mb < most, "MB")
