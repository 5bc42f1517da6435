"""Faults planted in slots, paintings, threads and long work: told in a sentence, reported, and the window goes on."""

from __future__ import annotations

import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QTimer
from PySide6.QtGui import QGuiApplication, QPaintEvent
from PySide6.QtWidgets import QPushButton, QWidget
from pytestqt.qtbot import QtBot

from rebuild.fault_report import SENTENCE, kept_report
from rebuild.window.desk.job import FAULT, Job
from rebuild.window.shell.frame import Frame
from rebuild.window.shell.last_resort import AGAIN, LastResort, last_resort
from rebuild.work.machines.acts import add_place

pytestmark = pytest.mark.usefixtures("own_reports")


@pytest.fixture
def faults() -> Iterator[LastResort]:
    """Installed as ``start.run`` installs it, over what pytest-qt put there."""
    before = sys.excepthook
    with last_resort() as heard:
        assert sys.excepthook is not before
        yield heard
    assert sys.excepthook is before


def planted(parent: QWidget) -> QPushButton:
    """A button whose slot breaks with something of the user's in its words."""
    button = QPushButton("break", parent)

    def break_it() -> None:
        secret = "bull gear bore /home/ann/secret mill/shop.rebuild"
        raise ValueError(f"could not convert string to float: '{secret}'")

    button.clicked.connect(break_it)
    return button


def test_a_fault_in_a_slot_is_told_and_the_next_act_is_stored(
    qtbot: QtBot, frame: Frame, faults: LastResort, capfd: pytest.CaptureFixture[str]
) -> None:
    planted(frame).click()
    qtbot.waitUntil(lambda: faults.window is not None and faults.window.isVisible())
    window = faults.window
    assert window is not None
    report = window.report.toPlainText()
    assert not window.isModal()
    assert any(SENTENCE in label.text() for label in window.findChildren(type(frame.messages._said)))
    assert "test_last_resort.py" in report
    assert "in break_it" in report
    assert "PySide6-Essentials 6" in report
    assert report.endswith("ValueError: could not convert string to float: …")
    assert "secret mill" not in report.replace('secret = "', "")
    window.copy_button.click()
    assert QGuiApplication.clipboard().text() == report
    assert kept_report().strip() == report
    assert "Traceback" not in capfd.readouterr().err
    assert frame.desk.attempt(lambda: add_place(frame.desk.store, "Drawer 3")) is not None
    assert "Drawer 3" in (frame.desk.store.undo_label() or "")


def test_the_same_fault_after_its_report_was_closed_is_said_and_no_window_jumps_up(
    qtbot: QtBot, frame: Frame, faults: LastResort
) -> None:
    faults.again.connect(frame.desk.say_trouble)
    button = planted(frame)
    button.click()
    qtbot.waitUntil(lambda: faults.window is not None and faults.window.isVisible())
    assert faults.window is not None
    faults.window.reject()
    button.click()
    qtbot.waitUntil(lambda: AGAIN in frame.messages.troubles)
    assert not faults.window.isVisible()
    assert list(faults.reports.values()) == [2]


def test_another_fault_opens_the_report_again_with_the_first_on_top(
    qtbot: QtBot, frame: Frame, faults: LastResort
) -> None:
    planted(frame).click()
    qtbot.waitUntil(lambda: faults.window is not None and faults.window.isVisible())
    assert faults.window is not None
    faults.window.reject()
    QTimer.singleShot(0, lambda: [].pop())  # type: ignore[func-returns-value]
    qtbot.waitUntil(lambda: faults.window is not None and faults.window.isVisible())
    assert faults.window.report.toPlainText().index("ValueError") < faults.window.report.toPlainText().index(
        "IndexError"
    )


class _Torn(QWidget):
    def paintEvent(self, _event: QPaintEvent) -> None:
        raise ZeroDivisionError


def test_a_fault_in_a_painting_does_not_ring_for_ever(qtbot: QtBot, faults: LastResort) -> None:
    torn = _Torn()
    qtbot.addWidget(torn)
    torn.show()
    qtbot.waitUntil(lambda: faults.window is not None and faults.window.isVisible())
    assert faults.window is not None
    faults.window.reject()
    for _painting in range(2):
        before = sum(faults.reports.values())
        torn.update()
        qtbot.waitUntil(lambda before=before: sum(faults.reports.values()) > before)
    qtbot.wait(50)
    assert not faults.window.isVisible()
    assert len(faults.reports) == 1
    assert next(iter(faults.reports.values())) >= 3


def test_a_fault_on_another_thread_is_told_in_the_window(qtbot: QtBot, faults: LastResort) -> None:
    thread = threading.Thread(target=lambda: {}["cap"])  # type: ignore[misc]
    thread.start()
    thread.join()
    qtbot.waitUntil(lambda: faults.window is not None and faults.window.isVisible())
    assert "KeyError: …" in faults.text()


def test_long_work_that_breaks_ends_and_is_told(qtbot: QtBot, faults: LastResort) -> None:
    job = Job()
    failed: list[str] = []
    job.failed.connect(failed.append)
    job.start(lambda _tell: [].pop())
    qtbot.waitUntil(lambda: bool(failed))
    assert failed == [FAULT]
    assert not job.running
    qtbot.waitUntil(lambda: faults.window is not None and faults.window.isVisible())
    assert "IndexError" in faults.text()
    job.drop()


def test_a_report_that_cannot_be_written_is_still_shown(
    qtbot: QtBot, faults: LastResort, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    import platformdirs

    (tmp_path / "a file").write_text("")
    monkeypatch.setattr(platformdirs, "user_log_dir", lambda *_args, **_more: str(tmp_path / "a file" / "in"))
    QTimer.singleShot(0, lambda: [].pop())  # type: ignore[func-returns-value]
    qtbot.waitUntil(lambda: faults.window is not None and faults.window.isVisible())
    assert "IndexError" in faults.text()
    assert kept_report() == ""
