"""Files with bad cells and files from strangers in the window: every page works, nothing is loaded, nothing is lost."""

from __future__ import annotations

import ctypes
import os
import struct
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QLabel, QToolTip, QWidget

from rebuild.errors import FileTrouble
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.shell.frame import Frame
from rebuild.window.shell.start import frame_for
from rebuild.work.records.field import FieldKind
from rebuild.work.records.fields import FIELDS
from tests.conftest import Shop
from tests.depth import DEPTH
from tests.faults.pages import walk_pages
from tests.store.test_unreadable import spoil
from tests.window.conftest import close_all_windows


@contextmanager
def started(path: Path, folder: Path) -> Iterator[Frame]:
    """The window as a start makes it."""
    frame = frame_for(path, Memory(folder / "window.ini"))
    frame.show()
    QApplication.processEvents()
    try:
        yield frame
    finally:
        close_all_windows()
        frame.desk.close()


SPOILT = [
    "UPDATE task SET state = 'zeppelin'",
    "UPDATE machine SET name = CAST(x'4cff' AS TEXT)",
    "UPDATE machine SET unit = 'ell'",
    "UPDATE part SET name = CAST(x'c3' AS TEXT), decision = 'perhaps', quantity = 'many'",
    "UPDATE feature SET nominal_mm = 'abc', kind = 'wing'",
    "UPDATE feature SET unit = 'ell'",
    "UPDATE subassembly SET parent_id = 3 - id",
    "UPDATE part SET spare_of_id = id",
    "UPDATE log_entry SET at = 'yesterday'",
    "UPDATE act SET at = 'yesterday', kind = CAST(x'ff' AS TEXT)",
    "UPDATE task SET likely_min = 9e999, part_id = 99",
    "DELETE FROM part",
    "UPDATE station SET feature_id = 99",
]


#: Those that can be bad at once without one hiding the rows of another; the whole check takes each alone.
TOGETHER = [
    [SPOILT[number] for number in numbers]
    for numbers in ((1,), (2,), (0, 4, 6), (3, 8), (5, 7, 9, 12), (10,), (11,))
]
EACH = [[one] for one in SPOILT]


@pytest.mark.parametrize("statements", EACH if DEPTH > 1 else TOGETHER, ids=lambda some: some[0])
def test_a_spoilt_file_starts_and_every_page_works(
    shop: Shop, qapp: QApplication, statements: list[str]
) -> None:
    for statement in statements:
        spoil(shop.path, statement)
    walk_pages(shop.path)


def test_a_start_says_what_cannot_be_read(shop: Shop, qapp: QApplication, tmp_path: Path) -> None:
    spoil(shop.path, "UPDATE machine SET name = CAST(x'4cff' AS TEXT)")
    with started(shop.path, tmp_path) as frame:
        assert frame.desk.is_open
        assert [cell.column for cell in frame.desk.store.unreadable] == ["name"]
        assert "cannot be read (machine no. 1, name" in frame.messages.troubles[0]


def test_a_start_that_fails_goes_to_the_first_page_with_the_sentence(
    shop: Shop, qapp: QApplication, tmp_path: Path
) -> None:
    spoil(shop.path, "CREATE TRIGGER t AFTER INSERT ON reading BEGIN UPDATE reading SET value_mm = 25; END")
    with started(shop.path, tmp_path) as frame:
        assert not frame.desk.is_open
        assert "trigger “t”" in frame.start.sentence


def test_the_good_file_stays_open_when_another_is_refused(shop: Shop, desk: Desk, tmp_path: Path) -> None:
    bad = tmp_path / "bad.rebuild"
    bad.write_bytes(shop.path.read_bytes()[:-4096])
    with pytest.raises(FileTrouble):
        desk.open(bad)
    assert desk.is_open
    assert desk.store.path == shop.path
    assert desk.machine_id == shop.machine


@pytest.mark.skipif(sys.platform != "linux", reason="watched with inotify")
@pytest.mark.skipif(find_spec("rebuild.window.layout.plain") is None, reason="waits for labels of plain text")
def test_no_name_in_a_file_makes_a_page_load_anything(shop: Shop, qapp: QApplication, tmp_path: Path) -> None:
    from PIL import Image

    bait = tmp_path / "bait.png"
    Image.new("L", (8, 8)).save(bait)
    _name_everything(shop, f'<img src="file://{bait}"><b>x</b>')
    with watched(bait) as opened:
        bait.read_bytes()
        assert opened() > 0, "the watch must see an open, else the test proves nothing"
        label = QLabel(f'<img src="file://{bait}">')
        label.show()
        QApplication.processEvents()
        label.grab()
        assert opened() > 0, "markup must load when it is rendered, else the test proves nothing"
        label.close()
        with started(shop.path, tmp_path) as frame:
            for page in frame.pages:
                frame.show_page(page.key)
                QApplication.processEvents()
                frame.grab()
                loaded = opened()
                assert not loaded, f"the page {page.key} loaded what a name told it to"
                for widget in frame.page(page.key).findChildren(QWidget):
                    if widget.toolTip():
                        QToolTip.showText(QPoint(5, 5), widget.toolTip(), widget)
                QApplication.processEvents()
                assert not opened(), f"a tip of the page {page.key} loaded what a name told it to"
        QToolTip.hideText()


def _name_everything(shop: Shop, name: str) -> None:
    import sqlite3

    shop.close()
    raw = sqlite3.connect(shop.path)
    for record, fields in FIELDS.items():
        for field in fields:
            if field.kind in (FieldKind.TEXT, FieldKind.LONG_TEXT) and field.name != "unit":
                raw.execute(f'UPDATE OR IGNORE "{record}" SET "{field.name}" = ?', (name,))
    raw.execute("UPDATE act SET subject = ?", (name,))
    raw.commit()
    raw.close()


@contextmanager
def watched(path: Path):  # type: ignore[no-untyped-def]
    """Counts how often a file was opened since the last look, by the kernel's own account (Linux)."""
    libc = ctypes.CDLL(None, use_errno=True)
    handle = libc.inotify_init1(os.O_NONBLOCK)
    if handle < 0 or libc.inotify_add_watch(handle, os.fsencode(path), 0x20) < 0:  # IN_OPEN
        pytest.skip("this kernel gives no watch")

    def opened() -> int:
        count = 0
        while True:
            try:
                found = os.read(handle, 65536)
            except BlockingIOError:
                return count
            at = 0
            while at < len(found):
                length = struct.unpack_from("iIII", found, at)[3]
                at += 16 + length
                count += 1

    try:
        yield opened
    finally:
        os.close(handle)
