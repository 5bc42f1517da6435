"""Pictures of the real window, every page, light and dark, at two sizes; and small ones for the README.

    python tests/pictures.py FOLDER [--file PROJECT] [--readme]

Without ``--file`` the demo is built in a temporary folder. ``--readme`` also writes the small pictures
of ``SMALL`` into assets/pictures, reduced to few colours so that each stays under ``MOST_BYTES``.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QCoreApplication, QEvent, QEventLoop, QSize, Qt, QTimer
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QApplication, QDialog

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.ink import theme
from rebuild.window.layout.views import Views
from rebuild.window.shell.frame import Frame
from rebuild.window.shell.start import application

SIZES = (QSize(1280, 800), QSize(1920, 1080))
SETTLE_MS = 350
#: Pages that read or work out beside the window before they show anything.
SLOW = ("plan", "book", "photos", "manuals")
SLOW_MS = 1200
MOST_BYTES = 150_000
COLOURS = 48
#: Pages whose pictures stand in the README, and in which scheme.
SMALL = (
    ("bench", "light"), ("bench", "dark"), ("where", "light"), ("teardown", "light"), ("plan", "light"),
    ("fits", "light"), ("making", "light"), ("survey", "light"), ("lubrication", "light"), ("figures", "light"),
)  # fmt: skip
README_PICTURES = Path(__file__).resolve().parent.parent / "assets" / "pictures"
DIALOGS = ("new_part", "new_feature", "decide", "instruments")


@contextmanager
def scheme(name: str, app: QApplication) -> Iterator[None]:
    """Light or dark for a while; the offscreen platform has no scheme of its own to ask for."""
    before = theme.is_dark
    theme.is_dark = lambda: name == "dark"
    hints = QGuiApplication.styleHints()
    hints.colorSchemeChanged.emit(Qt.ColorScheme.Dark if name == "dark" else Qt.ColorScheme.Light)
    try:
        yield
    finally:
        theme.is_dark = before


def wait(milliseconds: int) -> None:
    """Let the loop run; unlike ``QTest.qWait`` it lets Python's other threads run too."""
    loop = QEventLoop()
    QTimer.singleShot(milliseconds, loop.quit)
    loop.exec()


def settle() -> None:
    """Let layouts, late reads and repaints happen."""
    wait(SETTLE_MS)
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def take_all(project: Path, folder: Path, app: QApplication) -> list[Path]:
    """Every picture of one project; returns the files written."""
    written: list[Path] = []
    for name in ("light", "dark"):
        with scheme(name, app):
            for size in SIZES:
                written += _take(project, folder, name, size)
    return written


def _take(project: Path, folder: Path, name: str, size: QSize) -> list[Path]:
    tail = f"{name} {size.width()}x{size.height()}.png"
    with TemporaryDirectory() as own:
        desk = Desk()
        frame = Frame(desk, Memory(Path(own) / "window.ini"))
        frame.resize(size)
        frame.show()
        settle()
        written = [_save(frame, folder / f"start {tail}")]
        desk.open(project)
        choose_something(desk)
        for page in frame.pages:
            written += _page(frame, page.key, folder, tail)
        frame.show_page("bench")
        for leaf in ("features", "history"):
            frame.page("bench").details.show_leaf(leaf)  # type: ignore[attr-defined]
            settle()
            written.append(_save(frame, folder / f"bench {leaf} {tail}"))
        written += [_dialog(frame, key, folder / f"dialog {key} {tail}") for key in DIALOGS]
        frame.close()
    return written


def _page(frame: Frame, key: str, folder: Path, tail: str) -> list[Path]:
    """A page, and the further views it turns to."""
    if key == "teardown":
        choose_taken_down(frame.desk)
    widget = frame.page(key)
    settle()
    wait(SLOW_MS if key in SLOW else 0)
    written = [_save(frame, folder / f"{key} {tail}")]
    views = getattr(widget, "views", None)
    if isinstance(views, Views):
        for place in range(1, views.stack.count()):
            views.show_view(place)
            settle()
            wait(SLOW_MS if key in SLOW else 0)
            written.append(_save(frame, folder / f"{key} view {place + 1} {tail}"))
        views.show_view(0)
    if key == "teardown":
        choose_something(frame.desk)
    return written


def choose_taken_down(desk: Desk) -> None:
    """Choose the subassembly of which most has come off."""
    with desk.store.read() as connection:
        group = connection.exec_driver_sql(
            "SELECT attempt.subassembly_id FROM attempt JOIN removal ON removal.attempt_id = attempt.id "
            "WHERE attempt.machine_id = ? GROUP BY attempt.id ORDER BY COUNT(*) DESC, attempt.id",
            (desk.machine_id,),
        ).scalar()
    if group is not None:
        desk.choose(subassembly_id=group, part_ids=(), key=None)


def choose_something(desk: Desk) -> None:
    """Choose the part with most readings, so that every pane has something to show."""
    with desk.store.read() as connection:
        row = connection.exec_driver_sql(
            "SELECT part.id, part.subassembly_id, feature.id FROM reading "
            "JOIN feature ON feature.id = reading.feature_id JOIN part ON part.id = feature.part_id "
            "WHERE part.machine_id = ? GROUP BY part.id ORDER BY COUNT(*) DESC, part.id",
            (desk.machine_id,),
        ).first()
        station = connection.exec_driver_sql(
            "SELECT id FROM station WHERE feature_id = ? ORDER BY position", (row[2] if row else 0,)
        ).scalar()
    if row is not None:
        desk.choose(subassembly_id=row[1], part_ids=(row[0],), key=(row[2], station or 0))


def _dialog(frame: Frame, key: str, path: Path) -> Path:
    frame.do(key)
    settle()
    dialog = next(one for one in frame.findChildren(QDialog) if one.isVisible())
    _save(dialog, path)
    dialog.close()
    settle()
    return path


def _save(widget: QDialog | Frame, path: Path) -> Path:
    if not widget.grab().save(str(path)):
        sys.exit(f"{path} could not be written.")
    return path


def small(picture: Path, target: Path) -> int:
    """Write a picture in its ``COLOURS`` commonest colours; returns its bytes."""
    image = QImage(str(picture)).convertToFormat(QImage.Format.Format_RGB32)
    counted = Counter(memoryview(image.constBits()).cast("I"))
    marks = [ink.mark.rgb() for ink in (theme.LIGHT, theme.DARK) if counted[ink.mark.rgb()]]
    commonest = [*marks, *(colour for colour, _ in counted.most_common(COLOURS) if colour not in marks)]
    image = image.convertToFormat(
        QImage.Format.Format_Indexed8, commonest, Qt.ImageConversionFlag.ThresholdDither
    )
    target.parent.mkdir(parents=True, exist_ok=True)
    if not image.save(str(target), "PNG", 0):
        sys.exit(f"{target} could not be written.")
    return target.stat().st_size


def main() -> int:
    """Take the pictures; the exit code is 1 when a small one grew too large."""
    parser = argparse.ArgumentParser(description="Take pictures of the real window.")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--file", type=Path, help="a project to show; the demo otherwise")
    parser.add_argument(
        "--readme", action="store_true", help="also write the small ones into assets/pictures"
    )
    given = parser.parse_args()
    given.folder.mkdir(parents=True, exist_ok=True)
    app = application()
    with TemporaryDirectory() as own:
        project = given.file
        if project is None:
            from rebuild.demo.build import build_demo

            project = Path(own) / "demo.rebuild"
            build_demo(project)
        written = take_all(project, given.folder, app)
    print(f"{len(written)} pictures in {given.folder}")
    too_large = 0
    for page, name in SMALL if given.readme else ():
        source = given.folder / f"{page} {name} 1280x800.png"
        size = small(source, README_PICTURES / f"{page}_{name}.png")
        too_large += size > MOST_BYTES
        print(f"{size:>8} bytes  assets/pictures/{page}_{name}.png")
    return 1 if too_large else 0


if __name__ == "__main__":
    sys.exit(main())
