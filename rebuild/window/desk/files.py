"""Open, make and close project files; every trouble becomes a sentence where the user looks."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from rebuild.errors import RebuildError
from rebuild.store.unreadable import in_words
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.memory import Memory

KIND = "Rebuild project (*.rebuild);;Any file (*)"

#: Hears a few words while something long is done; an empty text ends it.
Progress = Callable[[str], None]


class Files:
    """The file side of the frame.

    ``settle`` stores what is being typed before another file is opened; ``refused`` hears the sentence
    when a file cannot be opened.
    """

    def __init__(
        self,
        desk: Desk,
        memory: Memory,
        window: QWidget,
        settle: Callable[[], None],
        refused: Progress,
        progress: Progress,
    ) -> None:
        self._desk = desk
        self._memory = memory
        self._window = window
        self._settle = settle
        self._refused = refused
        self._progress = progress

    def open(self, path: Path, *, create: bool = False) -> bool:
        """Open or make a file; on trouble the one open before stays open."""
        self._settle()
        try:
            self._desk.open(path, create=create)
        except RebuildError as trouble:
            self._refused(str(trouble))
            return False
        self._memory.opened(path)
        store = self._desk.store
        if store.upgraded_from is not None:
            self._desk.say(
                f"The file was brought up to date; as it was, it is kept as {store.upgraded_from.name}."
            )
        elif store.unreadable:
            self._desk.say(in_words(store.unreadable), Say.TROUBLE)
        else:
            self._desk.say(f"Opened {path.name}. Everything is stored as soon as it is entered.")
        return True

    def ask_new(self) -> None:
        """Ask for a name and make an empty file."""
        name, _kind = QFileDialog.getSaveFileName(
            self._window,
            "New file",
            str(self._folder() / "my machine.rebuild"),
            KIND,
            options=QFileDialog.Option.DontConfirmOverwrite,
        )
        if name:
            path = Path(name)
            self.open(path if path.suffix else path.with_suffix(".rebuild"), create=True)

    def ask_open(self) -> None:
        """Ask which file to open."""
        name, _kind = QFileDialog.getOpenFileName(self._window, "Open", str(self._folder()), KIND)
        if name:
            self.open(Path(name))

    def open_demo(self, path: Path | None = None) -> bool:
        """Open the demo (the usual one without ``path``), building it first when it is not there."""
        from rebuild.demo.where import demo_path, ensure_demo

        path = path or demo_path()
        try:
            if not path.exists():
                self._progress("Building the demo, once: a shaper and a lathe…")
            ensure_demo(path, lambda words: self._progress(f"Building the demo, once: {words}…"))
        except RebuildError as trouble:
            self._refused(str(trouble))
            return False
        finally:
            self._progress("")
        return self.open(path)

    def _folder(self) -> Path:
        recent = self._memory.recent()
        return recent[0].parent if recent else Path.home()
