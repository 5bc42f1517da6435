"""The strip under the steps where one is ticked off: cautions first, then what was measured or torqued."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFormLayout, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.trade.results.cautions import stored_caution
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.steps.ways_out_row import WaysOutRow
from rebuild.words.steps import TaskKind
from rebuild.work.records.ways_out import RowLead, Way
from rebuild.work.steps.rows import TaskRow

if TYPE_CHECKING:
    from rebuild.work.steps.acts import Done


#: How a joint is left, in the words its step takes; a pin is neither snug nor torqued.
JOINT = "e.g. snug, oiled; nothing: finger"
PINS = "driven or pinned; nothing: put in by hand, not home"


class TickPanel(QWidget):
    """Takes the notes of one step; ``confirmed`` carries them.

    ``way_taken`` carries a way out of a refusal, with the notes kept for the next try.
    """

    confirmed = Signal(int, object)
    way_taken = Signal(int, object, object)
    #: A row that holds the step, to be gone to; what was typed stays.
    led = Signal(object)
    given_up = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Tick a step off")
        self._task_id = 0
        self._title = _wrapped()
        self._asks = _wrapped()
        self._trouble = _wrapped()
        self._asks.setAccessibleName("What the step asks for")
        self._trouble.setAccessibleName("Why it is not ticked")
        self.ways = WaysOutRow(self)
        self.ways.follows_rows = True
        self.ways.taken.connect(self._take_way)
        self.ways.led.connect(self.led)
        self.ways.given_up.connect(self.given_up)
        self._fields = {
            "measured": _line("Measured", "a size, e.g. 0.0012"),
            "torque": _line("Torqued to", "e.g. 25 N·m or 20 lb-ft"),
            "joint": _line("Joint left", JOINT),
            "note": _line("Note", ""),
        }
        self._form = form = QFormLayout()
        form.setContentsMargins(0, 0, 0, 0)
        for field in self._fields.values():
            form.addRow(field.accessibleName(), field)
            field.returnPressed.connect(self._confirm)
        self._tick = QPushButton("Tic&k off")
        cancel = QPushButton("&Not yet")
        buttons = QHBoxLayout()
        for button in (self._tick, cancel):
            buttons.addWidget(button)
        buttons.addStretch(1)
        self._tick.clicked.connect(self._confirm)
        cancel.clicked.connect(self.given_up)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 6)
        for widget in (self._title, self._asks):
            layout.addWidget(widget)
        layout.addLayout(form)
        layout.addWidget(self._trouble)
        layout.addLayout(buttons)
        layout.addWidget(self.ways)

    def ask(self, row: TaskRow, attempts: Sequence[str] = (), *, pins: bool = False) -> None:
        """Show the panel for a step, ``pins`` when all it puts together is pinned.

        Texts typed for another step are gone only once they were stored.
        """
        if row.id != self._task_id:
            for field in self._fields.values():
                field.clear()
        self._task_id = row.id
        self._form.setRowVisible(self._fields["joint"], _has_joint(row))
        self._form.setRowVisible(self._fields["torque"], row.kind not in _NO_TORQUE)
        self._fields["joint"].setPlaceholderText(PINS if pins else JOINT)
        self._title.setText(f"Tick off: {row.title}")
        self._asks.setText(_asks(row, attempts))
        self._asks.setVisible(bool(self._asks.text()))
        if row.torque_wanted:
            self._fields["torque"].setPlaceholderText(f"to be {row.torque_wanted}")
        self.show_trouble("")
        self.show()
        self._fields["measured"].setFocus()

    def show_trouble(self, sentence: str, *, ways: Sequence[Way] = (), rows: Sequence[RowLead] = ()) -> None:
        """Say why the tick was not taken, what to do instead, and each row that holds it."""
        self.ways.show_ways("Or:" if ways else "", ways, rows)
        self._trouble.setText(sentence)
        self._trouble.setVisible(bool(sentence))

    def stored(self) -> None:
        """The tick was stored: clear and hide."""
        self._task_id = 0
        for field in self._fields.values():
            field.clear()
        self.hide()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc puts the panel away; what was typed stays for the next try."""
        if event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
            return
        if self.ways.take_key(event.text()):
            return
        super().keyPressEvent(event)

    def done(self) -> Done:
        """The notes as they stand."""
        from rebuild.work.steps.acts import Done

        typed = {name: field.text() for name, field in self._fields.items()}
        return Done(
            measured=typed["measured"], torque=typed["torque"], note=typed["note"], joint=typed["joint"]
        )

    def _confirm(self) -> None:
        self.confirmed.emit(self._task_id, self.done())

    def _take_way(self, way: Way) -> None:
        self.way_taken.emit(self._task_id, self.done(), way)


#: Work that tightens nothing.
_NO_TORQUE = (TaskKind.BUY, TaskKind.SEND_OUT, TaskKind.DECIDE)


def _has_joint(row: TaskRow) -> bool:
    return row.kind in (TaskKind.REFIT, TaskKind.ADJUST, TaskKind.COMMISSION) or bool(row.torque_wanted)


def asked_for(row: TaskRow) -> str:
    """What the tick of a step asks for, before its key is pressed."""
    torque = f"the torque (to be {row.torque_wanted})" if row.torque_wanted else ""
    joint = "how the joint is left" if _has_joint(row) else ""
    asked = ", ".join(filter(None, ("what was measured", torque, joint, "a note")))
    once = "; it cannot be undone, so it asks once more" if row.irreversible else ""
    return f"Space ticks it off and asks for {asked}{once}."


def _asks(row: TaskRow, attempts: Sequence[str]) -> str:
    lines = [f"{kind.value}{f': {detail}' if detail else ''}" for kind, detail in row.constraints]
    lines += [stored_caution(topic).line() for topic in row.cautions]
    lines += [f"Earlier {words}" for words in attempts]
    return "\n".join(lines)


def _wrapped() -> PlainLabel:
    label = PlainLabel()
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label


def _line(name: str, hint: str) -> QLineEdit:
    line = QLineEdit()
    line.setAccessibleName(name)
    line.setPlaceholderText(hint)
    return line
