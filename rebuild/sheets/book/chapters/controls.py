"""The controls: what each does, a turn of it, how it engages, as found and as proved, with their pictures."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.chapters.photos import pictures
from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line
from rebuild.work.book.rows import BookData
from rebuild.work.controls.rows import ControlRow


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """Two tables, of what each control is and of how it was found and proved; then the pictures."""
    held = book.tried.controls
    is_what: list[Line] = [
        (row.name, row.does, _turn(row), _moves(row), "\n".join(filter(None, (row.peculiar, row.note))))
        for row in held
    ]
    proved: list[Line] = [
        (
            row.name,
            "\n".join(filter(None, (row.found, row.found_turn and f"a turn moved {row.found_turn}"))),
            row.stands,
            "\n".join(filter(None, (row.proved, row.proved_turn and f"a turn moves {row.proved_turn}"))),
        )
        for row in held
    ]
    columns = ("Control", "What it does", Column("A turn", mm=24), "How it goes in and out", "Mind")
    seen: tuple[Flowable, ...] = ()
    if options.photos and book.project is not None:
        seen = tuple(pictures(book.tried.control_pictures, book.project, options))
    content = [
        *section("What they do", "controls-do", table(columns, is_what, strong=True)),
        *section(
            "As found and proved",
            "controls-proved",
            table(("Control", "As found", "How it stands", "Proved how"), proved, strong=True),
        ),
        *section("Their pictures", "controls-pictures", seen),
    ]
    return chapter_of("Controls", "controls", content)


def _turn(row: ControlRow) -> str:
    return "\n".join(filter(None, (row.per_turn, row.dial)))


def _moves(row: ControlRow) -> str:
    told = (("in: ", row.engages), ("out: ", row.retracts), ("at the ", row.location))
    return "\n".join(f"{lead}{text}" for lead, text in told if text)
