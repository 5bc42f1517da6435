"""Open, make and close project files; every trouble becomes a sentence where the user looks."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFileDialog, QWidget

from rebuild.errors import FileDamaged, FileElsewhere, RebuildError
from rebuild.store.folders import risk
from rebuild.store.held import Held
from rebuild.store.unreadable import in_words
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.left_as_is import is_quick_to_look_over
from rebuild.window.desk.memory import Memory

if TYPE_CHECKING:
    from rebuild.window.desk.half_typed import HalfTyped
    from rebuild.window.desk.lost_file import LostFile

KIND = "Rebuild project (*.rebuild);;Any file (*)"
SUFFIX = ".rebuild"

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
        self._lost: LostFile | None = None
        #: What stands half typed in the window; set by the one that watches it.
        self.half_typed: Callable[[], Sequence[HalfTyped]] = tuple

    def open(self, path: Path, *, create: bool = False) -> bool:
        """Open or make a file; on trouble the one open before stays open."""
        self._settle()
        try:
            self._desk.open(path, create=create, looked_over=is_quick_to_look_over(path))
        except RebuildError as trouble:
            self._refused(str(trouble))
            if isinstance(trouble, FileDamaged) and path.suffix == SUFFIX:
                self.offer_mending(path, str(trouble))
            return False
        self._memory.opened(path)
        store = self._desk.store
        self._desk.looking.begin(store)
        self._warn_once(path)
        if store.log_set_aside is not None:
            self._desk.say(
                f"Beside {path.name} lay the log of another state of it: the file was copied or synced over while "
                f"it was open. It was not mixed in; it is kept as {store.log_set_aside.name}.",
                Say.TROUBLE,
            )
        if store.upgraded_from is not None:
            self._desk.say(
                f"The file was brought up to date; as it was, it is kept as {store.upgraded_from.name}."
            )
        elif store.unreadable:
            self._desk.say(in_words(store.unreadable), Say.TROUBLE)
        else:
            self._desk.say(f"Opened {path.name}. Everything is stored as soon as it is entered.")
        return True

    def offer_mending(self, path: Path, sentence: str) -> None:
        """Offer to make a sound file from a damaged one, and to go on in it."""
        from rebuild.window.desk.mending import Damaged

        Damaged(path, sentence, self.open, self._window).open()

    def ask_mend(self) -> None:
        """Ask which file is damaged; the open one is closed first, since it is to be read from outside."""
        here = self._desk.store.path if self._desk.is_open else self._folder()
        name, _kind = QFileDialog.getOpenFileName(self._window, "Which file is damaged?", str(here), KIND)
        if name:
            self.mend(Path(name))

    def mend(self, path: Path) -> None:
        """Make a sound file from one, which is closed first if it is the one open."""
        from rebuild.window.desk.mending import mend

        if self._desk.is_open and self._desk.store.path.resolve() == path.resolve():
            self._settle()
            self._desk.close()
        mend(path, self.open, self._window)

    def _warn_once(self, path: Path) -> None:
        """Say what is to be known of a synced or network folder, once for each file."""
        told = risk(path)
        key = f"told/{sha256(str(path.resolve()).encode()).hexdigest()[:16]}"
        if told and not self._memory.text(key):
            self._memory.put(key, "yes")
            self._desk.say(told, Say.ASK)

    # A file that is no longer at its path

    def lost(self, trouble: FileElsewhere | None) -> None:
        """Say loudly that the open file is elsewhere, and offer the ways to go on; None when it is back."""
        if trouble is None and self._lost is not None:
            self._lost.accept()
        if trouble is None or self._lost is not None:
            return
        from rebuild.window.desk.lost_file import LostFile

        self._lost = dialog = LostFile(trouble, self._window)
        dialog.go_on.connect(self._go_on)
        dialog.save_as.connect(self._ask_save)
        dialog.let_go.connect(self._let_go)
        dialog.typed.connect(self._keep_typed)
        dialog.finished.connect(self._answered)
        dialog.open()

    def _keep_typed(self, text: str) -> None:
        """A value sent while the question stood waits with the other held entries."""
        if self._desk.is_open:
            landing = self._desk.landing
            meant = landing.words if landing is not None else "a value without a row"
            self._desk.store.keep_entry(meant, text, "Not stored: the file was not at its path.")
            if self._lost is not None:
                self._lost.said.setText(f"{self._lost.said.text()}\n{text} is kept.")

    def _answered(self) -> None:
        self._lost = None

    def _go_on(self, path: Path) -> None:
        """Nothing is put by before: what stands in the lines stays there, and is stored by its own Enter."""
        self.lost(None)
        half_typed = [Held(one.meant_for, one.text, "It was not stored.") for one in self.half_typed()]
        try:
            self._desk.go_on_in(path, half_typed)
        except RebuildError as trouble:
            self._refused(str(trouble))
            return
        self._memory.opened(path)
        self._desk.say(f"Going on in {path.name}.")

    def _ask_save(self) -> None:
        name, _kind = QFileDialog.getSaveFileName(
            self._window,
            "Save under a new name",
            str(self._desk.store.path),
            KIND,
            options=QFileDialog.Option.DontConfirmOverwrite,
        )
        if name:
            self.save_under(Path(name))

    def save_under(self, path: Path) -> None:
        """Save what is held under a new name and go on there."""
        from rebuild.window.desk.copying import Copying

        target = path if path.suffix else path.with_suffix(".rebuild")
        store = self._desk.store
        Copying(
            "Saving under a new name",
            lambda tell: store.save_under(target, tell),
            lambda _kept: self._go_on(target),
            self._refused,
            self._window,
        ).open()

    def _let_go(self) -> None:
        self._settle()
        self.lost(None)
        self._desk.close()

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
