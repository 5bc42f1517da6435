"""The demo's manuals, invented with its machines: a short instruction book and two sheets of a parts list."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.demo.built import Built
from rebuild.trade.results.tables import assets_folder
from rebuild.work.documents.acts import mark_page, note
from rebuild.work.documents.names import Names
from rebuild.work.documents.rows import pages
from rebuild.work.documents.rules_files import keep

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

A4 = (595.0, 842.0)
_FONT = "DemoManual"


@dataclass(frozen=True, slots=True)
class Pointed:
    """One part pointed at on a page: its item number, its code, its place in points, and how ours differs."""

    item: str
    code: str
    x: float
    y: float
    differs: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page: heading, lines of print, parts drawn as boxes (left, bottom, wide, high), those pointed at."""

    heading: str
    lines: tuple[str, ...] = ()
    shapes: tuple[tuple[float, float, float, float], ...] = ()
    pointed: tuple[Pointed, ...] = ()


@dataclass(frozen=True, slots=True)
class Book:
    """One manual of one of the demo's machines (0 the shaper, 1 the lathe)."""

    name: str
    machine: int
    sheets: tuple[Sheet, ...]


BOOKS = (
    Book("Instruction book", 1, (
        Sheet("Instruction book", ("Centre lathe, flat belt and back gear", "Printed for the works’ own apprentices")),
        Sheet("Care and lubrication", (
            "Headstock bearings: thin spindle oil, two drops a minute each, wicks soaked before running.",
            "Slides and apron: bed oil, every morning, by hand.",
            "Back gear: bed oil on the teeth once a week; stop the machine first.",
            "Running clearance of the front bearing: 0.02 to 0.03, felt with the belt off. See Fig. 4.",
        )),
        Sheet("Fig. 4  Headstock, taken apart", (),
              ((90, 470, 400, 26), (150, 440, 46, 86), (370, 444, 40, 78), (250, 420, 60, 126), (96, 455, 16, 56),
               (140, 330, 66, 60), (360, 330, 62, 54)),
              (Pointed("1", "HS-01", 470, 484), Pointed("2", "HS-02", 172, 536), Pointed("3", "HS-03", 390, 532),
               Pointed("5", "HS-05", 172, 320, "ours is stamped 418 F and must not be turned round"),
               Pointed("6", "HS-06", 390, 320), Pointed("17", "HS-17", 280, 556))),
    )),
    Book("Parts list", 0, (
        Sheet("Sheet 2  Ram", ("Order parts by sheet and number; give the number of the machine.",),
              ((90, 470, 410, 60), (110, 400, 360, 18)),
              (Pointed("1", "RAM-01", 290, 548), Pointed("4", "RAM-02", 290, 382, "ours has its dot to the front"))),
        Sheet("Sheet 7  Feed", (), ((120, 430, 130, 130), (330, 460, 40, 70), (330, 380, 150, 30))),
        Sheet("Sheet 8  Gearbox", (), ((100, 400, 150, 150), (300, 420, 110, 110), (90, 330, 380, 24))),
    )),
)  # fmt: skip


def extend(built: Built) -> None:
    """Print the manuals, take them in, and mark what their figures show."""
    with tempfile.TemporaryDirectory() as folder:
        for book in BOOKS:
            _take(built, book, Path(folder) / f"{book.name}.pdf")


def _take(built: Built, book: Book, path: Path) -> None:
    _print(book, path)
    ids = built.machines[book.machine]
    key = note(built.store, ids.machine, keep(built.store.path, [path], lambda _share, _words: True))
    with built.store.read() as connection:
        listed = pages(connection, key)
    for page, sheet in zip(listed, book.sheets, strict=True):
        for one in sheet.pointed:
            left, top = (one.x - 12) / A4[0], 1 - (one.y + 12) / A4[1]
            right, bottom = (one.x + 12) / A4[0], 1 - (one.y - 12) / A4[1]
            names = Names(part_id=ids.parts[one.code])
            mark_page(built.store, page.id, (left, top), (right, bottom), one.item, names, one.differs)


def _print(book: Book, path: Path) -> None:
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    registerFont(TTFont(_FONT, str(assets_folder() / "fonts" / "DejaVuSansCondensed.ttf")))
    canvas = Canvas(str(path), pagesize=A4, invariant=1)
    canvas.setTitle(book.name)
    for sheet in book.sheets:
        _page(canvas, sheet)
        canvas.showPage()
    canvas.save()


def _page(canvas: Canvas, sheet: Sheet) -> None:
    canvas.setFont(_FONT, 17)
    canvas.drawString(72, 760, sheet.heading)
    canvas.line(72, 752, 523, 752)
    canvas.setFont(_FONT, 10)
    for at, words in enumerate(sheet.lines):
        canvas.drawString(72, 728 - 18 * at, words)
    canvas.setLineWidth(1.4)
    for left, bottom, wide, high in sheet.shapes:
        canvas.rect(left, bottom, wide, high)
        canvas.setDash(6, 3)
        canvas.line(left - 8, bottom + high / 2, left + wide + 8, bottom + high / 2)
        canvas.setDash()
    canvas.setFont(_FONT, 12)
    for one in sheet.pointed:
        canvas.circle(one.x, one.y, 10)
        canvas.drawCentredString(one.x, one.y - 4, one.item)
