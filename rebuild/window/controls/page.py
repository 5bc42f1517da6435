"""The Controls page: the list, and the chosen control with its picture, as found and proved after refit."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import BadEntry
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.list_and_form import Listed
from rebuild.window.forms.record_form import fields_named
from rebuild.window.ink.thumbnail import read_scaled
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.controls import ControlKind
from rebuild.work.controls import rows as control_rows
from rebuild.work.controls.rows import ControlRow, controls

_COLUMNS = ("Control", "Kind", "What it does", "A turn", "Mind", "As found", "How it stands")
_FIRST = (
    "name", "kind", "location", "does", "per_turn", "dial", "engages", "retracts", "doubles_id", "trapped", "handed",
    "part_id", "due",
)  # fmt: skip
PICTURE = 220


class ControlsPage(LivePage):
    """The list with the chosen one's fields; beneath, its picture and the line that proves it."""

    shows = (control_rows,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Controls", parent)
        self._rows: dict[int, ControlRow] = {}
        self._held: tuple[int, str, str] | None = None
        self.list = Listed(desk, "control", "Controls", _COLUMNS, None, self)
        self.list.add_button("&New control…", self.new)
        self.usual = self.list.add_button(
            "&Usual ones", self.lay_out, "Put the controls such a machine usually has down"
        )
        self.list.close_buttons()
        self.picture, self.told = PlainLabel(self), PlainLabel(self)
        self.how, self.turn, self.by = QLineEdit(self), QLineEdit(self), QLineEdit(self)
        self.found_button = QPushButton("As foun&d", self)
        self.proved_button = QPushButton("Pro&ved", self)
        self.again_button = QPushButton("Prove a&gain", self)
        self._lay_out()

    def _lay_out(self) -> None:
        self.list.table.when_empty(
            "Every knob, lever, clutch and dial: what it does, what a turn of it moves, and whether that was proved.",
            "Put the usual ones down",
            self.lay_out,
        )
        self.picture.setAccessibleName("Picture of the control")
        self.told.setWordWrap(True)
        self.told.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        line = QHBoxLayout()
        for field, name, hint, wide in (
            (
                self.how,
                "What was tried",
                "What was tried: full travel in both directions, engages, comes out",
                4,
            ),
            (self.turn, "What a turn moved", "a turn moved", 1),
            (self.by, "By", "by", 1),
        ):
            field.setAccessibleName(name)
            field.setPlaceholderText(hint)
            line.addWidget(field, wide)
        acts: tuple[tuple[QPushButton, Callable[[], None]], ...] = (
            (self.found_button, self.found),
            (self.proved_button, self.prove),
            (self.again_button, self.unprove),
        )
        for button, act in acts:
            button.setAutoDefault(False)
            button.clicked.connect(lambda _checked=False, act=act: act())
            line.addWidget(button)
        self.how.returnPressed.connect(self.prove)
        self.turn.returnPressed.connect(self.prove)
        beside = QHBoxLayout()
        beside.addWidget(self.picture)
        beside.addWidget(self.told, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addWidget(self.list, 1)
        layout.addLayout(beside)
        layout.addLayout(line)
        self.list.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show())

    def show_row(self, _table: str, key: int) -> None:
        """Choose one control."""
        self.list.table.choose(key)

    def refresh(self) -> None:
        """Read the controls again."""
        rows: list[ControlRow] = []
        if self.machine is not None:
            with self._desk.store.read() as connection:
                rows = controls(connection, self.machine)
        self.setEnabled(self.machine is not None)
        self._rows = {row.id: row for row in rows}
        self.list.fill(
            [
                (
                    row.id,
                    (row.name, row.kind.value, row.does, row.per_turn, row.peculiar, _found(row), row.stands),
                )
                for row in rows
            ]
        )
        self._show()

    def _show(self) -> None:
        row = self._rows.get(self.list.table.chosen() or 0)
        for button in (self.found_button, self.proved_button):
            button.setEnabled(row is not None)
        self.again_button.setEnabled(row is not None and row.proved_at is not None)
        photo = row.photo if row is not None else None
        self.picture.setVisible(photo is not None)
        if photo is not None:
            image = read_scaled(photo.path(self._desk.store.path), PICTURE)
            self.picture.setPixmap(QPixmap.fromImage(image))
        self.told.setText(_told(row) if row is not None else "")

    def found(self) -> None:
        """Note how the chosen one was found."""
        from rebuild.work.controls import acts

        self._note(lambda key: acts.found(self._desk.store, key, self.how.text(), self.turn.text()))

    def prove(self) -> None:
        """The chosen one does what it should; another travel than stated is asked about once more."""
        from rebuild.work.controls import acts

        key = self.list.table.chosen()
        if key is None:
            return
        said = (key, self.how.text(), self.turn.text())
        sure = said == self._held

        def tell(chosen: int) -> None:
            try:
                acts.prove(self._desk.store, chosen, said[1], said[2], self.by.text(), sure=sure)
            except BadEntry as trouble:
                self._held = said if trouble.where == "A turn moves now" and said[2].strip() else None
                raise

        if not self._note(tell) and self._held == said:
            self._desk.say_trouble(f"{self._held_words()} Enter once more proves it all the same.")

    def _held_words(self) -> str:
        row = self._rows.get(self.list.table.chosen() or 0)
        should = row.per_turn if row is not None else ""
        return (
            f"{self.turn.text().strip()} is not the {should} a turn should move; say why in what was tried."
        )

    def unprove(self) -> None:
        """The chosen one is to be proved anew."""
        from rebuild.work.controls import acts

        self._note(lambda key: acts.unprove(self._desk.store, key), clear=False)

    def _note(self, act: Callable[[int], object], *, clear: bool = True) -> bool:
        key = self.list.table.chosen()
        if key is None:
            return False
        self.list.form.settle_all()

        def tell() -> bool:
            act(key)
            return True

        done = self._desk.attempt(tell) is not None
        if done and clear:
            self._held = None
            for field in (self.how, self.turn):
                field.clear()
        return done

    def lay_out(self) -> None:
        """Put the usual ones down."""
        from rebuild.work.controls import acts

        machine = self.machine
        if machine is not None:
            made = self._desk.attempt(lambda: acts.lay_out_controls(self._desk.store, machine))
            if made == []:
                self._desk.say("The usual ones are all there.")

    def new(self) -> AddDialog | None:
        """Add a control."""
        from rebuild.work.controls import acts

        machine = self.machine
        if machine is None:
            self._desk.say("There is no machine yet. Add one first (Ctrl+M).")
            return None

        def act(typed: dict[str, str]) -> int:
            kind = ControlKind(typed.pop("kind", ControlKind.KNOB.value))
            return acts.add_control(self._desk.store, machine, typed.pop("name", ""), kind, typed)

        dialog = AddDialog(
            self._desk,
            Adding(
                "New control",
                "",
                fields_named("control", _FIRST),
                act=act,
                after=self.list.table.choose,
                prefill=lambda: {"kind": ControlKind.KNOB.value, "due": "before power"},
            ),
            self,
        )
        dialog.open()
        return dialog

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        return [self.list.table, self.list.form, self.how]


def _found(row: ControlRow) -> str:
    turn = f"a turn moved {row.found_turn}" if row.found_turn else ""
    return "; ".join(filter(None, (row.found, turn)))


def _told(row: ControlRow) -> str:
    told = (
        (row.name, row.location), ("engages", row.engages), ("comes out", row.retracts), ("dial", row.dial),
        ("mind", row.peculiar), ("as found", _found(row)), ("proved", row.proved), ("a turn moves", row.proved_turn),
        ("part", row.part),
    )  # fmt: skip
    return "\n".join(f"{name}: {text}" for name, text in told if text)
