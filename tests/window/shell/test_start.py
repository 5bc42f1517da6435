"""Starting: the file asked for, the one open last, the demo; a place without a display; what stays unloaded."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from rebuild.window.desk.gc_pause import gc_paused
from rebuild.window.desk.memory import Memory, memory_path
from rebuild.window.shell.picture import take_picture
from rebuild.window.shell.start import NO_DISPLAY, last_open, run
from tests.window.conftest import close_all_windows

LATE = ("alembic", "pint", "numpy", "reportlab", "ezdxf", "openpyxl")


@pytest.fixture(autouse=True)
def own_settings(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, qapp: QApplication) -> None:
    """The user's own window state is left alone, whatever the system calls its folder."""
    import platformdirs

    monkeypatch.setattr(platformdirs, "user_config_dir", lambda *_args, **_more: str(tmp_path / "config"))


def test_window_shows_the_file_and_is_closed_with_a_picture(project: Path, tmp_path: Path) -> None:
    picture = tmp_path / "window.png"
    assert run(project, picture=picture) == 0
    close_all_windows()
    image = QImage(str(picture))
    assert image.width() >= 800
    inks = {image.pixel(x, y) for x in range(0, image.width(), 3) for y in range(0, 200, 3)}
    assert len(inks) > 5  # more than a blank sheet

    memory = Memory(memory_path())
    assert last_open(memory) == project.resolve()
    assert memory.recent() == [project.resolve()]


def test_without_a_file_it_goes_on_where_it_was(project: Path, tmp_path: Path) -> None:
    memory = Memory(memory_path())
    memory.put("open", str(project))
    memory.save()
    assert run(None, picture=tmp_path / "again.png") == 0
    close_all_windows()
    project.unlink()
    assert last_open(Memory(memory_path())) is None
    assert run(None, picture=tmp_path / "first.png") == 0
    close_all_windows()
    assert last_open(Memory(memory_path())) is None


def test_file_that_is_not_ours_is_a_sentence_on_the_first_page(tmp_path: Path) -> None:
    poem = tmp_path / "poem.txt"
    poem.write_text("Not a project. " * 20)
    picture = tmp_path / "refused.png"
    assert run(poem, picture=picture) == 0
    close_all_windows()
    assert picture.is_file()
    assert Memory(memory_path()).recent() == []


def test_no_display_is_a_sentence_and_a_code_of_its_own(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    import rebuild.window.shell.display as display
    import rebuild.window.shell.start as start

    monkeypatch.setattr(start, "why_no_window", lambda: display.why_no_window(os.environ, "linux"))
    assert run(None) == NO_DISPLAY
    assert "There is no display here" in capsys.readouterr().err


def test_picture_without_a_window(project: Path, tmp_path: Path) -> None:
    take_picture(project, tmp_path / "taken.png")
    close_all_windows()
    assert QImage(str(tmp_path / "taken.png")).width() == 1280
    assert not memory_path().exists()


def test_collector_waits_and_comes_back() -> None:
    assert gc.isenabled()
    with gc_paused():
        assert not gc.isenabled()
    assert gc.isenabled()
    with pytest.raises(ValueError, match="meanwhile"), gc_paused():
        raise ValueError("meanwhile")
    assert gc.isenabled()


def test_heavy_modules_stay_unloaded_until_needed(project: Path, tmp_path: Path) -> None:
    program = f"""
import sys
from pathlib import Path
import platformdirs
platformdirs.user_config_dir = lambda *a, **k: {str(tmp_path / "own")!r}
from rebuild.window.shell.start import run
assert run(Path({str(project)!r}), picture=Path({str(tmp_path / "p.png")!r})) == 0
print([name for name in {LATE!r} if name in sys.modules])
"""
    environment = dict(os.environ, QT_QPA_PLATFORM="offscreen")
    done = subprocess.run(
        [sys.executable, "-c", program], env=environment, capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr[-600:]
    assert done.stdout.strip() == "[]"
