"""The first page: new, open, the demo, recent files, a file dragged in; every trouble a sentence."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, QSize, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from rebuild.store.store import Store
from rebuild.window.bench.page import BenchPage
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import MOST_RECENT, Memory
from rebuild.window.forms.new_machine import MachineDialog
from rebuild.window.shell.frame import Frame
from rebuild.window.shell.offer import Offer
from rebuild.window.shell.on_screen import fit_to_screen, outgrows
from rebuild.words.decisions import Decision
from rebuild.work.decisions.acts import decide
from rebuild.work.machines.acts import add_machine, add_part
from tests.conftest import Shop


@pytest.fixture
def memory(tmp_path: Path) -> Memory:
    return Memory(tmp_path / "settings" / "window.ini")


@pytest.fixture
def first(empty_desk: Desk, memory: Memory) -> Iterator[Frame]:
    made = Frame(empty_desk, memory)
    made.show()
    yield made
    made.close()


def offers(frame: Frame) -> list[str]:
    return [button.accessibleName() for button in frame.start.findChildren(Offer) if not button.isHidden()]


def drag(frame: Frame, path: Path) -> bool:
    """Drag a file over the window and let go; False when the window does not want it."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    at, copy = QPointF(50, 50), Qt.DropAction.CopyAction
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(at.toPoint(), copy, data, left, none)
    enter.ignore()
    QApplication.sendEvent(frame, enter)
    if not enter.isAccepted():
        return False
    QApplication.sendEvent(frame, QDropEvent(at, copy, data, left, none))
    return True


def test_page_offers_new_open_and_demo(first: Frame) -> None:
    assert offers(first) == ["New file", "Open a file", "Try the demo"]
    assert first.stack.currentWidget() is first.start
    assert first.windowTitle() == "Rebuild"
    assert not first.header.isVisible()


# Seen: a new empty file opened on the page the file before was left on.
def test_a_file_opens_on_its_own_first_page_whatever_the_one_before_stood_on(
    first: Frame, shop: Shop, tmp_path: Path
) -> None:
    first.desk.open(shop.path)
    assert first.page_shown == "where"
    first.show_page("joints")
    first.do("close_file")
    Store.create(tmp_path / "new.rebuild").close()
    first.desk.open(tmp_path / "new.rebuild")
    assert first.page_shown == "bench", "a machine is typed there"
    machine = add_machine(first.desk.store, "Small shaper", {"kind": "shaper"})
    ram = add_part(first.desk.store, machine, None, "ram", "RA-01")
    decide(first.desk.store, [ram], Decision.REUSE, reason="sound")
    first.show_page("joints")
    first.do("close_file")
    first.desk.open(tmp_path / "new.rebuild")
    assert first.page_shown == "where", "no session was written down, but there is a decision"


def test_new_file_opens_empty(first: Frame, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    wanted = tmp_path / "shaper"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_more: (str(wanted), ""))
    first.start.findChildren(Offer)[0].click()
    assert first.desk.is_open
    assert first.windowTitle() == "shaper.rebuild — Rebuild"
    assert first.page_shown == "bench"
    assert "Ctrl+M" in first.header.machines.currentText()
    dialog = first.findChild(MachineDialog)
    assert dialog is not None, "the machine is asked for next"
    assert dialog.ticked == []
    assert not outgrows(dialog.size(), QSize(1280, 800)), "its buttons are seen on a small screen"
    dialog.form.boxes["kind"].editor.put("shaper")
    dialog._offer_usual()
    assert [one.code for one in dialog.offered][:2] == ["CO", "RM"]
    dialog.usual.item(1).setCheckState(Qt.CheckState.Checked)
    dialog.form.boxes["name"].editor.put("Crank shaper")
    before = first.desk.store.undo_label()
    dialog.add(again=False)
    assert first.desk.machine_id is not None
    tree = first.page("bench")
    assert isinstance(tree, BenchPage)
    assert tree.tree.view.hasFocus() or first.focusWidget() is tree.tree.view
    with first.desk.store.read() as connection:
        made = connection.exec_driver_sql("SELECT code, name FROM subassembly").all()
        chosen = connection.exec_driver_sql("SELECT id FROM subassembly").scalar_one()
    assert [tuple(row) for row in made] == [("RM", "Ram")]
    assert first.desk.selection.subassembly_id == chosen, "the next part goes into it"
    first.desk.undo()
    assert first.desk.store.undo_label() == before, "machine and subassemblies were one act"


def test_open_asks_for_a_file(first: Frame, project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, **_more: (str(project), ""))
    first.do("open_file")
    assert first.desk.store.path == project


def test_cancelled_question_does_nothing(first: Frame, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, **_more: ("", ""))
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_more: ("", ""))
    first.do("open_file")
    first.do("new_file")
    assert not first.desk.is_open


def test_file_dragged_in_is_opened(first: Frame, project: Path) -> None:
    assert drag(first, project)
    assert first.desk.store.path == project


def test_text_dragged_in_is_not_wanted(first: Frame) -> None:
    data = QMimeData()
    data.setText("24.98")
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(QPoint(5, 5), Qt.DropAction.CopyAction, data, left, none)
    enter.ignore()
    QApplication.sendEvent(first, enter)
    assert not enter.isAccepted()


def test_trouble_is_a_sentence_on_the_page(first: Frame, tmp_path: Path, project: Path) -> None:
    poem = tmp_path / "poem.txt"
    poem.write_text("Not a project. " * 20)
    assert drag(first, poem)
    assert first.start.sentence == ("▸ poem.txt: the file is not a Rebuild project. Choose another file.")
    assert not first.desk.is_open

    cut = tmp_path / "cut.rebuild"
    cut.write_bytes(project.read_bytes()[:20_000])
    assert not first.files.open(cut)
    assert "cut short" in first.start.sentence

    assert not first.files.open(tmp_path / "gone.rebuild")
    assert "no such file" in first.start.sentence

    assert first.files.open(project)
    first.do("close_file")
    assert first.start.sentence == ""


def test_refused_file_leaves_the_open_one_open(first: Frame, tmp_path: Path, project: Path) -> None:
    assert first.files.open(project)
    assert not first.files.open(tmp_path)
    assert first.desk.store.path == project
    assert "is a folder" in first.messages.troubles[0]


def test_files_opened_before_are_offered_newest_first(
    first: Frame, memory: Memory, tmp_path: Path, empty_template: Path
) -> None:
    for number in range(MOST_RECENT + 2):
        path = tmp_path / f"{number}.rebuild"
        path.write_bytes(empty_template.read_bytes())
        assert first.files.open(path)
    first.do("close_file")
    (tmp_path / "8.rebuild").unlink()
    first.start.read()
    QApplication.processEvents()
    assert offers(first)[3:] == [f"{number}.rebuild" for number in (9, 7, 6, 5, 4, 3, 2)]
    next(
        button for button in first.start.findChildren(Offer) if button.accessibleName() == "5.rebuild"
    ).click()
    assert first.desk.store.path.name == "5.rebuild"
    assert [path.name for path in memory.recent()][:3] == ["5.rebuild", "9.rebuild", "7.rebuild"]


def test_demo_is_built_with_progress_then_opened(
    first: Frame, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A small stand-in for the demo's builder: the real one has tests of its own and takes long."""
    import rebuild.demo.where as where

    wanted = tmp_path / "demo.rebuild"
    told: list[str] = []

    def build(path: Path, progress: object = None) -> bool:
        assert callable(progress)
        progress("the shop")
        told.append(first.start.sentence)
        Store.create(path).close()
        return True

    monkeypatch.setattr(where, "demo_path", lambda: wanted)
    monkeypatch.setattr(where, "ensure_demo", build)
    first.do("try_demo")
    assert told == ["▸ Building the demo, once: the shop…"]
    assert first.desk.store.path == wanted


def test_every_offer_can_be_reached_by_tab(first: Frame, qtbot: QtBot) -> None:
    with qtbot.waitActive(first):
        first.activateWindow()
    buttons = first.start.findChildren(Offer)
    buttons[0].setFocus()
    reached = []
    for _ in range(3):
        focus = QApplication.focusWidget()
        assert isinstance(focus, Offer)
        reached.append(focus.accessibleName())
        qtbot.keyClick(focus, Qt.Key.Key_Tab)
    assert reached == ["New file", "Open a file", "Try the demo"]


def test_in_a_low_window_no_line_lies_over_another(empty_desk: Desk, memory: Memory, tmp_path: Path) -> None:
    for number in range(MOST_RECENT):
        path = tmp_path / f"machine {number}.rebuild"
        path.touch()
        memory.opened(path)
    frame = Frame(empty_desk, memory)
    frame.resize(900, 480)
    frame.start.say(
        "A sentence of what is wrong with a file, long enough to need two lines in the column. " * 2
    )
    frame.show()
    QApplication.processEvents()
    assert frame.height() <= 520
    shown = [button for button in frame.start.findChildren(Offer) if not button.isHidden()]
    assert len(shown) == 3 + MOST_RECENT
    places = sorted((button.mapTo(frame.start, QPoint(0, 0)).y(), button.height()) for button in shown)
    for (top, height), (below, _height) in itertools.pairwise(places):
        assert top + height <= below
    assert all(button.height() >= button.sizeHint().height() for button in shown)
    shown[-1].setFocus()
    QApplication.processEvents()
    shown[-1].setFocus(Qt.FocusReason.TabFocusReason)
    frame.start._scroll.ensureWidgetVisible(shown[-1])
    assert 0 <= shown[-1].mapTo(frame.start, QPoint(0, 0)).y() < frame.start.height()


def test_the_underlined_letter_alone_does_it(qtbot: QtBot, first: Frame) -> None:
    asked: list[str] = []
    first.start.asked.disconnect()
    first.start.asked.connect(asked.append)
    for letter in "not":
        qtbot.keyClicks(first.start, letter)
    qtbot.keyClick(first.start, Qt.Key.Key_N, Qt.KeyboardModifier.ControlModifier)
    assert asked == ["new_file", "open_file", "try_demo"]


def test_a_window_larger_than_the_screen_fills_it_so_that_its_foot_is_seen(first: Frame) -> None:
    """On 1280 x 800 the line at the foot, where it is said what was done, lay under the screen's edge."""
    room = first.screen().availableGeometry()
    first.hide()
    first.resize(room.width(), room.height())
    fit_to_screen(first)
    assert first.isMaximized()
    first.setWindowState(Qt.WindowState.WindowNoState)
    for wide, high, large in ((8, 40, False), (7, 40, True), (8, 39, True)):
        assert outgrows(room.size() - QSize(wide, high), room.size()) is large, (wide, high)
