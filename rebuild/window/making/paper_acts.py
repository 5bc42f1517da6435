"""Write a sheet, its drawing, or a part's story to a file the user chooses."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QWidget

from rebuild.sheets.dxf import write_dxf
from rebuild.sheets.making_sheet import title_of, write_making_sheet
from rebuild.sheets.paper import paper
from rebuild.sheets.part_story import write_part_story
from rebuild.window.desk.desk import Desk, Say
from rebuild.work.making.rows_sheet_lists import SheetPage
from rebuild.work.making.rows_story import part_story
from rebuild.work.making.rules_threads import WAY_OUT_OF_TWO
from rebuild.work.records.rows_settings import verdict_rule

PAPER = "paper"


def chosen_paper(desk: Desk) -> str:
    """The paper of this file: A4 unless chosen otherwise."""
    return desk.store.setting(PAPER, "A4")


def print_sheet(desk: Desk, page: SheetPage, target: Path) -> None:
    """Write the sheet as PDF and say so; one that gives a size twice is not printed."""

    if page.clash:
        desk.say(f"{page.head.part}: {page.clash}. {WAY_OUT_OF_TWO}", Say.TROUBLE)
        return
    pages = desk.attempt(lambda: write_making_sheet(page, target, paper(chosen_paper(desk))))
    if pages is not None:
        stale = (
            " It carries a mark: its limits are stale; refresh it before cutting."
            if page.course.stale
            else ""
        )
        desk.say(f"Written to {target.name}, {pages} pages.{stale}", Say.ASK if stale else Say.DONE)


def write_drawing(desk: Desk, page: SheetPage, target: Path) -> None:
    """Write the drawing as DXF and say so."""

    drawing = page.drawing.drawn
    if drawing is None:
        desk.say(page.drawing.trouble or "This shape has no drawing.", Say.TROUBLE)
        return
    title = f"{page.head.part}, attempt {page.head.attempt}"
    done = f"Drawing written to {target.name}, true size in {page.head.unit}."

    def write() -> bool:
        write_dxf(drawing, target, page.head.unit, title=title, strip=title_of(page))
        return True

    desk.attempt(write, done)


def print_story(desk: Desk, part_id: int, target: Path) -> None:
    """Write the story of a part as PDF and say so."""

    def write() -> int:
        with desk.store.read() as connection:
            told = part_story(connection, part_id, verdict_rule(desk.store))
        return write_part_story(told, target, paper(chosen_paper(desk)))

    if desk.attempt(write) is not None:
        desk.say(f"Written to {target.name}.")


def ask_where(
    desk: Desk, window: QWidget, page: SheetPage, ending: str, what: str, write: Callable[[Path], None]
) -> QFileDialog:
    """Ask for a file beside the project, then write."""
    name = re.sub(r"[^\w.-]+", "-", f"{page.head.part_code or page.head.part_name}-{what}").strip("-")
    dialog = QFileDialog(
        window, f"Write the {what}", str(desk.store.path.parent), f"{ending.upper()} (*.{ending})"
    )
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setDefaultSuffix(ending)
    dialog.selectFile(f"{name}.{ending}")
    dialog.fileSelected.connect(lambda chosen: write(Path(chosen)))
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.open()
    return dialog
