"""What the window remembers between days: its size, its splitters, its page, recent files."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings

MOST_RECENT = 8


def memory_path() -> Path:
    """Where the window's state is kept: an ini file in the user's configuration folder."""
    import platformdirs

    return Path(platformdirs.user_config_dir("rebuild", appauthor=False)) / "window.ini"


def _machine_of(path: Path) -> str:
    """The key of a file; its path holds signs that part keys."""
    return f"machine/{sha256(str(path.resolve()).encode()).hexdigest()[:16]}"


class Memory:
    """The window's state in one ini file; nothing of the user's work is kept here."""

    def __init__(self, path: Path) -> None:
        self._settings = QSettings(str(path), QSettings.Format.IniFormat)
        self.folder = path.parent  #: what else of the window is the user's own lies there

    def text(self, key: str, default: str = "") -> str:
        """A remembered text."""
        value = self._settings.value(key, default)
        return value if isinstance(value, str) else default

    def state(self, key: str) -> QByteArray:
        """A remembered state of a window, splitter or header; empty when there is none."""
        value = self._settings.value(key)
        return value if isinstance(value, QByteArray) else QByteArray()

    def put(self, key: str, value: str | QByteArray) -> None:
        """Remember a text or a state."""
        self._settings.setValue(key, value)

    def recent(self) -> list[Path]:
        """Files opened before, newest first, as far as they are still there."""
        listed = (self.text(f"recent/{place}") for place in range(MOST_RECENT))
        return [path for name in listed if name and (path := Path(name)).is_file()]

    def opened(self, path: Path) -> None:
        """Put a file on top of the recent ones."""
        whole = path.resolve()
        listed = [whole, *(other for other in self.recent() if other != whole)][:MOST_RECENT]
        for place in range(MOST_RECENT):
            self.put(f"recent/{place}", str(listed[place]) if place < len(listed) else "")

    def left_on(self, path: Path) -> int | None:
        """Which machine of a file was shown last; None where that is not known."""
        told = self.text(_machine_of(path))
        return int(told) if told.isdecimal() else None

    def leave_on(self, path: Path, machine_id: int) -> None:
        """Remember which machine of a file is shown."""
        self.put(_machine_of(path), str(machine_id))

    def save(self) -> None:
        """Write to disk now."""
        self._settings.sync()
