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
from rebuild.work.machines.rows_tree import parts
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
    asked = page.taking.password
    assert asked.isVisible()
    assert asked.echoMode() is asked.EchoMode.Password
    asked.setText("wrong")
    qtbot.keyClick(asked, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "is not opened by that password" in said[-1][0], timeout=10_000)
    asked.setText("secret")
    with qtbot.waitSignal(page.taking.ended, timeout=10_000):
        qtbot.keyClick(asked, Qt.Key.Key_Return)
    assert said[-1][0].startswith("“locked” taken in, 3 pages")
    assert not asked.isVisible()
    assert asked.text() == ""
    assert page.list.plain.rowCount() == 2
    desk.undo()
    with shop.store.read() as connection:
        page.list.choose(documents(connection, shop.machine)[0].id)
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

    line = page.marks.line
    page.marks.draw_button.click()
    line.names.line().setText("cap screw")
    assert "No part is called so" in line.understood.text()
    size = page.view.sheet.size()
    start, end = QPoint(size.width() // 4, size.height() // 4), QPoint(size.width() // 3, size.height() // 3)
    drag(qtbot, page, start, end)
    assert "Part: “cap screw” is not there yet. Enter once more makes it" in line.trouble.text()
    line.names.line().setText("hs9")
    qtbot.keyClick(line.names.line(), Qt.Key.Key_Return)
    assert "Part: “hs9” is none of those there" in line.trouble.text()
    line.names.line().setText("bear")
    assert line.understood.text() == "→ HS-02 bearing cap"
    line.words.setText("15")
    line.differs.setText("ours has two lugs")
    qtbot.keyClick(line.names.line(), Qt.Key.Key_Return)  # the place marked before was held
    assert line.trouble.text() == ""
    assert page.marks.table.plain.text(0) == ("15", "HS-02 bearing cap", "ours has two lugs")
    assert line.words.text() == "15", "the new one is chosen, to be changed"
    assert not page.view.sheet.drawing
    line.names.line().setText("HS-01 spindle: front journal")
    page.marks.set_button.click()
    assert page.marks.table.plain.text(0)[1] == "HS-01 spindle: front journal"
    desk.undo()
    assert page.marks.table.plain.text(0)[1] == "HS-02 bearing cap"

    # A second item: drag first, then its number, its part, Enter; an item noted on a part brings the part.
    edit(shop.store, "part", [shop.spindle], {"figure_item": "12-14"})
    low, right = (
        QPoint(size.width() // 2, size.height() // 2),
        QPoint(size.width() // 2 + 40, size.height() // 2 + 30),
    )
    drag(qtbot, page, low, right)
    assert line.is_empty, "what the line showed of the chosen one is no part of the new"
    qtbot.keyClicks(line.words, "14")
    qtbot.keyClick(line.words, Qt.Key.Key_Return)
    assert line.names.currentText() == "HS-01 spindle"
    line.words.setFocus()
    qtbot.keyClick(line.words, Qt.Key.Key_Tab)
    assert frame.focusWidget() in (line.names, line.names.line())
    line.names.line().setText("oil flinger")
    qtbot.keyClick(line.names.line(), Qt.Key.Key_Return)
    qtbot.keyClick(line.names.line(), Qt.Key.Key_Return)
    assert page.marks.table.plain.text(1)[:2] == ("14", "oil flinger")
    desk.undo()  # the call-out and the part it named are one act
    with shop.store.read() as connection:
        assert "oil flinger" not in {row.name for row in parts(connection, shop.machine)}
    edit(shop.store, "part", [shop.spindle], {"figure_item": ""})

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
