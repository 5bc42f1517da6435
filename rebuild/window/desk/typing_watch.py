"""A text being typed outlives the program: a moment after the last key it stands in the user's own folder.

Only the editor with the focus is listened to, and those whose text is not stored yet; writing is done by another
thread. An editor, or anything it stands in, may say by ``unsaved`` whether its text is stored, and by ``meant_for``
what it is; else a text is half typed while it stands there and is another than the one found there first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import Protocol, runtime_checkable

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QLineEdit, QPlainTextEdit, QTextEdit, QWidget
from shiboken6 import isValid

from rebuild.errors import FileTrouble, RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.half_typed import HalfTyped, TypingFile, left_in
from rebuild.window.desk.job import Job, Tell

#: How long after a key what stands there is written down.
QUIET_MS = 400
WHY = "It was being typed when the program ended."
SHOWN = 60

_Editor = QLineEdit | QPlainTextEdit | QTextEdit | QComboBox


@runtime_checkable
class KnowsUnsaved(Protocol):
    """An editor, a box or a page that knows whether what is typed in it is stored."""

    @property
    def unsaved(self) -> bool: ...


@runtime_checkable
class SaysWhat(Protocol):
    """A form that can say what the text in one of its editors is meant for."""

    def meant_for(self, editor: QWidget) -> str: ...


@runtime_checkable
class NothingStored(Protocol):
    """What is typed here is asked or looked for, never stored."""

    asks_only: bool


@runtime_checkable
class LaysBy(Protocol):
    """A page that holds texts aside while it shows something else: it tells these, and what its own fields hold."""

    def laid_by(self) -> Sequence[HalfTyped]: ...


class TypingWatch(QObject):
    """Watches the editors of one window and the dialogs over it."""

    def __init__(self, desk: Desk, folder: Path, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._folder = folder
        self._window = window
        self._file = TypingFile(folder)
        self._first: dict[_Editor, str] = {}
        self._pages: list[QWidget] = []
        self._written: tuple[HalfTyped, ...] = ()
        self._job: Job | None = None
        self._told_trouble = False
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(QUIET_MS)
        self._soon.timeout.connect(self.look)
        desk.went_well.connect(self._touched)
        desk.moved.connect(self._moved)
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._turn)

    def _turn(self, _old: QWidget | None, new: QWidget | None) -> None:
        self._touched()
        if not isinstance(new, _Editor) or new in self._first or not self._is_typed_in(new):
            return
        if isinstance(new, QComboBox):
            new.editTextChanged.connect(self._touched)
        else:
            new.textChanged.connect(self._touched)
        self._pages += [one for one in _upward(new) if isinstance(one, LaysBy) and one not in self._pages]
        self._first[new] = "" if getattr(new, "keeps_its_text", False) else _text(new)

    def _is_typed_in(self, editor: _Editor) -> bool:
        if isinstance(editor, QComboBox):
            return editor.isEditable()
        hidden = isinstance(editor, QLineEdit) and editor.echoMode() is not QLineEdit.EchoMode.Normal
        if hidden or editor.isReadOnly() or editor.accessibleName().startswith("Find"):
            return False
        above = [*_upward(editor)]
        return self._window in above and not any(isinstance(one, NothingStored) for one in above)

    def _touched(self, _text: str = "") -> None:
        """Look soon; keys that follow do not put it off."""
        if (self._first or self._pages) and not self._soon.isActive():
            self._soon.start()

    def _moved(self) -> None:
        """It is written down anew, for the file of the new path."""
        self._written = ()
        self._touched()

    def half_typed(self) -> tuple[HalfTyped, ...]:
        """What stands half typed in the window now."""
        self._pages = [page for page in self._pages if isValid(page)]
        found = [one for page in self._pages if isinstance(page, LaysBy) for one in page.laid_by()]
        for editor, first in [*self._first.items()]:
            if not isValid(editor):
                del self._first[editor]
            elif _is_half_typed(editor, first):
                if all(one.text != _text(editor) for one in found):  # its page has told it already
                    found.append(HalfTyped(meant_for(editor), _text(editor)))
            elif not editor.hasFocus():
                self._let_go(editor)
        return tuple(found)

    def _let_go(self, editor: _Editor) -> None:
        del self._first[editor]
        signal = editor.editTextChanged if isinstance(editor, QComboBox) else editor.textChanged
        signal.disconnect(self._touched)

    def look(self) -> None:
        """Write down what stands half typed, if that is another than was written."""
        found = self.half_typed() if self._desk.is_open else ()
        if found == self._written:
            return
        self._written = found
        if self._job is None:
            self._job = Job(self)
            self._job.failed.connect(self._say_once)
        project = self._desk.store.path.resolve() if self._desk.is_open else Path()
        self._job.ask(partial(self._write, project, found))

    def _write(self, project: Path, found: tuple[HalfTyped, ...], _tell: Tell) -> None:
        """On the worker's thread."""
        try:
            self._file.write(project, found)
        except OSError as trouble:
            raise FileTrouble(
                f"what is being typed cannot be kept there meanwhile ({trouble.strerror}).",
                where=str(self._folder),
                way_out="What you finish with Enter is stored as ever.",
            ) from trouble

    def _say_once(self, sentence: str) -> None:
        if not self._told_trouble:
            self._told_trouble = True
            self._desk.say_trouble(sentence)

    def put_by(self) -> None:
        """The file may close next: what no page stored or keeps itself goes to the kept entries."""
        self.half_typed()
        for editor, first in [*self._first.items()]:
            if getattr(editor, "keeps_its_text", False):
                continue
            puts_by = any(hasattr(one, "put_by") for one in _upward(editor))
            if self._desk.is_open and not puts_by and _is_half_typed(editor, first):
                meant, text = meant_for(editor), _text(editor)
                self._desk.attempt(partial(self._desk.store.keep_entry, meant, text, "It was not stored."))
            self._let_go(editor)
        self.look()

    def offer_left(self) -> None:
        """A file was opened: what was being typed in it when the program ended goes to its kept entries."""
        if not self._desk.is_open or not self._folder.is_dir():
            return
        left = left_in(self._folder, self._desk.store.path.resolve())
        try:
            for one in left.texts:
                self._desk.store.keep_entry(one.meant_for, one.text, WHY)
            left.settled()
        except (RebuildError, OSError) as trouble:
            self._desk.say_trouble(f"{_offered(left.texts)} It could not be put into the file: {trouble}")
        else:
            if left.texts:
                self._desk.say_trouble(f"{_offered(left.texts)} It is among the kept entries.")

    def end(self) -> None:
        """The window closes well: nothing is left to offer."""
        self._soon.stop()
        self._first.clear()
        self._pages.clear()
        if self._job is not None:
            self._job.drop()
        try:
            self._file.end()
        except OSError as trouble:
            self._desk.say_trouble(f"{self._folder}: {trouble.strerror}.")


def meant_for(editor: QWidget) -> str:
    """What the text in an editor is meant for, in words: the field, and what it stands in."""
    above = [*_upward(editor)]
    for one in above:
        if isinstance(one, SaysWhat):
            return one.meant_for(editor)
    dialogs = [one.windowTitle() for one in above if isinstance(one, QDialog)]
    names = [one.accessibleName() for one in above if one.accessibleName()]
    words = [*names[:1], editor.accessibleDescription(), *names[1:2], *dialogs[:1]]
    return ", ".join(dict.fromkeys(word.strip() for word in words if word.strip())) or "a field"


def _is_half_typed(editor: _Editor, first: str) -> bool:
    text = _text(editor).strip()
    if not text or not editor.window().isVisible():
        return False
    knows = next((one for one in _upward(editor) if isinstance(one, KnowsUnsaved)), None)
    return knows.unsaved if knows is not None else text != first.strip()


def _upward(widget: QWidget) -> Iterator[QWidget]:
    above: QWidget | None = widget
    while above is not None:
        yield above
        above = above.parentWidget()


def _text(editor: _Editor) -> str:
    if isinstance(editor, QComboBox):
        return editor.currentText()
    return editor.text() if isinstance(editor, QLineEdit) else editor.toPlainText()


def _offered(texts: tuple[HalfTyped, ...]) -> str:
    told = "; ".join(f"“{one.text[:SHOWN]}{'…' if len(one.text) > SHOWN else ''}”" for one in texts)
    return f"Being typed when the program ended: {told}."
