"""A text being typed outlives the program: kill -9 in the middle, and the next start offers it without a word lost."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPlainTextEdit
from pytestqt.qtbot import QtBot

from rebuild.window.bench.page import BenchPage
from rebuild.window.desk.half_typed import HalfTyped, TypingFile, left_in
from rebuild.window.desk.memory import Memory
from rebuild.window.desk.typing_watch import WHY
from rebuild.window.entry.line import EntryLine
from rebuild.window.log.bench_log import BenchLogPage
from rebuild.window.log.questions import QuestionsPage
from rebuild.window.shell.frame import Frame
from rebuild.window.shell.start import frame_for
from rebuild.work.log.acts import ask
from rebuild.work.machines.acts import add_machine
from rebuild.work.records.rows_kept import kept_entries
from tests.conftest import Shop
from tests.window.conftest import close_all_windows

#: Types into the entry line, the note of a step, and a dialog, then says so and waits to be killed.
TYPES = """
import sys, time
from pathlib import Path
from PySide6.QtTest import QTest
from rebuild.window.desk.memory import Memory
from rebuild.window.shell.start import application, frame_for
app = application()
frame = frame_for(Path(sys.argv[1]), Memory(Path(sys.argv[2])))
frame.show()
bench = frame.page("bench")
QTest.qWaitForWindowActive(frame)
def type_into(editor, text):
    editor.setFocus()
    app.processEvents()
    QTest.keyClicks(editor, text)
frame.desk.choose(subassembly_id=1, part_ids=(1,), key=(1, 1))
bench.entry.focus_entry()
bench.entry.field.from_gauge = False  # keys this fast would be a gauge and its value stored
type_into(bench.entry.field, "59.98")
bench.tasks.go_to(1)
bench.tasks.ask_tick()
type_into(bench.tasks.panel._fields["note"], "left pin was bent")
from rebuild.window.forms.new import new_instrument
dialog = new_instrument(frame.desk, frame, print)
type_into(dialog.form.boxes["name"].widget, "Bore gauge 18")
QTest.qWait(700)
frame.typing._job.finish()
print("typed", flush=True)
time.sleep(60)
"""


def typed_then_killed(shop: Shop, folder: Path) -> None:
    """A window of its own process, killed after the last key."""
    program = [sys.executable, "-c", TYPES, str(shop.path), str(folder / "window.ini")]
    with subprocess.Popen(program, stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        said = child.stdout.readline()
        child.send_signal(signal.SIGKILL)
    assert said == "typed\n"


@pytest.mark.skipif(os.name == "nt", reason="no kill -9 there")
def test_what_was_being_typed_at_a_kill_is_among_the_kept_entries(
    shop: Shop, tmp_path: Path, qapp: QApplication
) -> None:
    typed_then_killed(shop, tmp_path)
    frame = frame_for(shop.path, Memory(tmp_path / "window.ini"))
    frame.show()
    QApplication.processEvents()
    with frame.desk.store.read() as connection:
        kept = {one.typed: one for one in kept_entries(connection)}
    assert set(kept) == {"59.98", "left pin was bent", "Bore gauge 18"}
    assert {one.why for one in kept.values()} == {WHY}
    assert "Note" in kept["left pin was bent"].meant_for
    assert "Name" in kept["Bore gauge 18"].meant_for
    assert "“left pin was bent”" in frame.messages.troubles[0]
    assert not [*(tmp_path / "typing").glob("*.typing.json")]
    close_all_windows()
    frame.desk.close()


def test_what_is_kept_or_cleared_is_taken_away(frame: Frame, qtbot: QtBot, shop: Shop) -> None:
    watch = frame.typing
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    assert isinstance(bench.entry, EntryLine)
    field = bench.entry.field
    bench.entry.focus_entry()
    QApplication.processEvents()
    qtbot.keyClicks(field, "59.98")
    (one,) = watch.half_typed()
    assert (one.text, "Reading" in one.meant_for, "front journal" in one.meant_for) == ("59.98", True, True)
    watch.look()
    assert watch._job is not None
    watch._job.finish()
    assert len([*watch._folder.glob("*.typing.json")]) == 1
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert watch.half_typed() == ()
    watch.look()
    watch._job.finish()
    assert not [*watch._folder.glob("*.typing.json")]
    qtbot.keyClicks(field, "60")
    assert watch.half_typed()
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert watch.half_typed() == ()

    log = frame.page("log")
    assert isinstance(log, BenchLogPage)
    log.new_session()
    (editor,) = (one for one in log.fields.findChildren(QPlainTextEdit) if one.accessibleName() == "Did")
    editor.setFocus()
    qtbot.keyClicks(editor, "Scraped the bed")
    assert [one.text for one in watch.half_typed()] == ["Scraped the bed"]
    log.store()
    assert watch.half_typed() == ()
    qtbot.keyClicks(log._find, "bed")  # asked for, never stored
    assert watch.half_typed() == ()


def test_what_a_page_holds_aside_is_written_too(frame: Frame, qtbot: QtBot, shop: Shop) -> None:
    """Begun on one machine or question, then another is chosen: the text stands in no editor, and outlives a kill."""
    watch, desk = frame.typing, frame.desk
    other = add_machine(desk.store, "Drill")
    second = ask(desk.store, shop.machine, "Which oil?")
    log = frame.page("log")
    assert isinstance(log, BenchLogPage)
    frame.show_page("log")
    log.new_session()
    (editor,) = (one for one in log.fields.findChildren(QPlainTextEdit) if one.accessibleName() == "Did")
    editor.setFocus()
    qtbot.keyClicks(editor, "Scraped the bed")
    desk.choose_machine(other)
    assert editor.toPlainText() == ""
    assert [one.text for one in watch.half_typed()] == ["Scraped the bed"]
    desk.choose_machine(shop.machine)  # back in the editor, which has no focus
    assert editor.toPlainText() == "Scraped the bed"
    assert watch.half_typed() == (HalfTyped("bench log, did", "Scraped the bed"),)
    log.store()
    assert watch.half_typed() == ()

    asked = frame.page("questions")
    assert isinstance(asked, QuestionsPage)
    frame.show_page("questions")
    QApplication.processEvents()
    asked.show_row("question", shop.question)
    asked._answer.setFocus()
    qtbot.keyClicks(asked._answer, "way oil, ")
    asked.show_row("question", second)
    assert asked._answer.toPlainText() == ""
    assert [one.text for one in watch.half_typed()] == ["way oil, "]
    watch.look()
    assert watch._job is not None
    watch._job.finish()
    (path,) = watch._folder.glob("*.typing.json")
    assert f"answer to question no. {shop.question}" in path.read_text(encoding="utf-8")
    asked.put_by()
    assert watch.half_typed() == ()


def test_a_living_window_keeps_its_own_and_another_file_waits(tmp_path: Path) -> None:
    folder, project = tmp_path / "typing", tmp_path / "mill.rebuild"
    project.touch()
    mine = TypingFile(folder)
    text = HalfTyped("Note", "the “left” pin\nwas bent")
    mine.write(project, [text])
    assert left_in(folder, project).texts == ()  # its window lives
    assert mine._lock is not None
    mine._lock.unlock()  # as the system does when the process is gone
    assert left_in(folder, tmp_path / "other.rebuild").texts == ()
    found = left_in(folder, project)
    assert found.texts == (text,)
    assert left_in(folder, project).texts == (text,)  # until it is said to lie elsewhere
    found.settled()
    assert left_in(folder, project).texts == ()
    mine.write(project, [text])
    mine.end()
    assert not [*folder.iterdir()]
