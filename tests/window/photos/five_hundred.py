"""Photos of 12 megapixels taken in by the window: ``python -m tests.window.photos.five_hundred [500]``.

Makes the pictures (a few different ones, each copied under a time of its own: every file is another photo), one of
them cut short, and prints how long the window's thread was ever held, the whole time, and the peak of memory.
"""

from __future__ import annotations

import io
import os
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PIL import Image
from PySide6.QtCore import QEventLoop, QTimer

from rebuild.store.store import Store
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.photos.page import PhotosPage
from rebuild.window.shell.frame import Frame
from rebuild.window.shell.start import application
from rebuild.work.machines.acts import add_machine

SIDES = (4000, 3000)
DIFFERENT = 8
#: The clock that tells of a held thread ticks as often [ms].
TICK_MS = 5


def pictures(folder: Path, count: int) -> list[Path]:
    """So many JPEGs with the time they were taken, a minute apart; the last is cut short."""
    bases = []
    for at in range(DIFFERENT):
        small = Image.effect_noise((250, 188), 60 + 5 * at).convert("RGB")
        made = io.BytesIO()
        small.resize(SIDES, Image.Resampling.BICUBIC).save(made, "JPEG", quality=80)
        bases.append(made.getvalue())
    paths = []
    for number in range(count):
        exif = Image.Exif()
        exif[0x0132] = f"2026:03:{1 + number // 1440:02} {number // 60 % 24:02}:{number % 60:02}:00"
        block = b"Exif\x00\x00" + exif.tobytes().removeprefix(b"Exif\x00\x00")
        app1 = b"\xff\xe1" + (len(block) + 2).to_bytes(2, "big") + block
        base = bases[number % DIFFERENT]
        content = base[:2] + app1 + base[2:]
        path = folder / f"IMG_{number:04}.jpg"
        path.write_bytes(content if number < count - 1 else content[: len(content) // 3])
        paths.append(path)
    return paths


def peak_mb() -> float:
    """The most memory this process ever held [MB]; of a system that tells."""
    told = Path("/proc/self/status").read_text().partition("VmHWM:")[2]
    return int(told.split()[0]) / 1024


class Held:
    """The longest the window's thread did not come back to its loop [s], and how much of that it worked itself.

    On a busy machine the first counts other programs' turns too.
    """

    def __init__(self) -> None:
        self.longest = self.worked = 0.0
        self._last, self._own = time.perf_counter(), time.thread_time()
        self._timer = QTimer()
        self._timer.setInterval(TICK_MS)
        self._timer.timeout.connect(self._tick)
        self._timer.start()

    def _tick(self) -> None:
        now, own = time.perf_counter(), time.thread_time()
        self.longest = max(self.longest, now - self._last - TICK_MS / 1000)
        self.worked = max(self.worked, own - self._own)
        self._last, self._own = now, own


def main() -> int:
    """Print the figures."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    with TemporaryDirectory() as name:
        folder = Path(name)
        paths = pictures(folder, count)
        size = sum(path.stat().st_size for path in paths) / 1e6
        print(f"{count} pictures of {SIDES[0] * SIDES[1] / 1e6:g} megapixels, {size:.0f} MB", flush=True)
        project = folder / "shop.rebuild"
        store = Store.create(project)
        add_machine(store, "Lathe")
        store.close()
        app = application()
        desk = Desk()
        frame = Frame(desk, Memory(folder / "memory.ini"))
        desk.open(project)
        frame.resize(1280, 800)
        frame.show()
        frame.show_page("photos")
        page = frame.page("photos")
        assert isinstance(page, PhotosPage)
        app.processEvents()
        before, loop = peak_mb(), QEventLoop()
        said: list[str] = []
        desk.said.connect(lambda words, _how: said.append(words))
        page.taking.ended.connect(lambda _done: QTimer.singleShot(1000, loop.quit))
        held, start, spent = Held(), time.perf_counter(), time.process_time()
        page.take(paths)
        loop.exec()
        wall, spent = time.perf_counter() - start - 1.0, time.process_time() - spent
        print(said[-1])
        print(
            f"the window's thread held at most {held.longest * 1000:.0f} ms, "
            f"of its own work {held.worked * 1000:.0f} ms"
        )
        print(f"taken in after {wall:.0f} s ({wall / count * 1000:.0f} ms a photo), processor {spent:.0f} s")
        print(f"memory {peak_mb():.0f} MB at most, {peak_mb() - before:.0f} MB above the window before")
        frame.close()
        desk.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
