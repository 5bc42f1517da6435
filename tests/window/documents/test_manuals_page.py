"""The Manuals page: taken in, turned, zoomed, marked, and call-outs that lead to parts and back."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Say
from rebuild.window.documents.page import ManualsPage
from rebuild.window.documents.view import Fit
from rebuild.window.shell.frame import Frame
from rebuild.work.documents.rows import documents
from rebuild.work.editing.acts import edit
from tests.conftest import Shop
from tests.window.seen import named
from tests.work.documents.manuals import manual


def test_a_manual_is_taken_in_turned_marked_and_leads_to_its_parts(
    qtbot: QtBot, frame: Frame, shop: Shop, tmp_path: Path
) -> None:
    desk = frame.desk
    frame.resize(1280, 800)
    frame.show_page("manuals")
    page = frame.page("manuals")
    assert isinstance(page, ManualsPage)
    named(page)
    assert page.list.empty.isVisible()
    said: list[tuple[str, Say]] = []
    desk.said.connect(lambda words, how: said.append((words, how)))
    paths = [tmp_path / "book.pdf", tmp_path / "locked.pdf"]
    manual(paths[0])
    manual(paths[1], password="secret")
    with qtbot.waitSignal(page.taking.ended, timeout=10_000):
        page.taking.take(paths)
        assert page.taking.job.running, "the window goes on while it is read"
    assert said[0][0] == "“book” taken in, 3 pages."
    qtbot.waitUntil(lambda: said[-1][1] is Say.TROUBLE, timeout=10_000)
    assert "“locked.pdf” is locked with a password" in said[-1][0]
    qtbot.waitUntil(lambda: not page.view.sheet.image.isNull(), timeout=10_000)
    wide = page.view.sheet.width()
    assert abs(wide - page.view.viewport().width()) <= page.view.verticalScrollBar().sizeHint().width()

    page.view.setFocus()
    qtbot.keyClick(page.view, Qt.Key.Key_PageDown)
    qtbot.keyClick(page.view, Qt.Key.Key_PageDown)
    qtbot.keyClick(page.view, Qt.Key.Key_PageDown)
    assert (page.at, page.of.text(), page.buttons["on"].isEnabled()) == (2, "of 3", False)
    qtbot.keyClick(page.view, Qt.Key.Key_Plus)
    assert (page.view.fit, page.view.sheet.width() > 1.2 * wide) == (Fit.FREE, True)
    qtbot.keyClick(page.view, Qt.Key.Key_0)
    assert page.view.sheet.height() <= page.view.viewport().height()
    qtbot.waitUntil(lambda: not page.view.sheet.image.isNull(), timeout=10_000)

    page.marks.draw_button.click()
    page.marks.names.line().setText("no such part")
    size = page.view.sheet.size()
    start, end = QPoint(size.width() // 4, size.height() // 4), QPoint(size.width() // 3, size.height() // 3)
    drag(qtbot, page, start, end)
    assert "“no such part” is none of this machine" in page.marks.trouble.text()
    page.marks.names.line().setText("HS-02")
    page.marks.words.setText("15")
    page.marks.differs.setText("ours has two lugs")
    drag(qtbot, page, start, end)
    assert page.marks.trouble.text() == ""
    assert page.marks.table.plain.text(0) == ("15", "HS-02 bearing cap", "ours has two lugs")
    assert page.marks.words.text() == "15", "the new one is chosen, to be changed"
    assert not page.view.sheet.drawing
    page.marks.names.line().setText("HS-01 spindle: front journal")
    page.marks.change()
    assert page.marks.table.plain.text(0)[1] == "HS-01 spindle: front journal"
    desk.undo()
    assert page.marks.table.plain.text(0)[1] == "HS-02 bearing cap"

    qtbot.mouseClick(page.view.sheet, Qt.MouseButton.LeftButton, pos=(start + end) / 2)
    assert (frame.page_shown, desk.selection.part_ids) == ("bench", (shop.cap,))

    card = frame.page("bench").details  # type: ignore[attr-defined]
    glance = card.leaf("card")
    from rebuild.work.part_card.rows import About

    assert [line.words for line in glance.found.of(About.MANUALS)] == ["book, page 3: 15"]
    desk.choose(part_ids=(shop.cap,))
    page.turn(-2)
    frame.do("manual_of_part")
    assert (frame.page_shown, page.at) == ("manuals", 2)
    assert page.marks.table.chosen() is not None
    edit(shop.store, "feature", [shop.journal], {"spec_note": "book, p. 2"})
    desk.choose(part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    frame.do("manual_of_part")
    assert page.at == 1
    desk.choose(part_ids=(shop.spindle,), key=None)
    frame.do("manual_of_part")
    assert "No page of a manual is known for it" in said[-1][0]

    frame.do("find_all")
    qtbot.keyClicks(frame.header.finder, "two lugs")
    qtbot.keyClick(frame.header.finder, Qt.Key.Key_Return)
    assert (frame.page_shown, page.at) == ("manuals", 2)
    page.go_to.setText("7")
    page._go_to()
    assert "“7” is none of this manual" in said[-1][0]
    page.name.setText("Instruction book 1957")
    page.name.editingFinished.emit()
    page.remove()
    with shop.store.read() as connection:
        assert documents(connection, shop.machine) == []
    desk.undo()
    with shop.store.read() as connection:
        assert [row.name for row in documents(connection, shop.machine)] == ["Instruction book 1957"]
    page.view.drawer.forget()


def drag(qtbot: QtBot, page: ManualsPage, start: QPoint, end: QPoint) -> None:
    sheet = page.view.sheet
    qtbot.mousePress(sheet, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(sheet, end)
    qtbot.mouseRelease(sheet, Qt.MouseButton.LeftButton, pos=end)
