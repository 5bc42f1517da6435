"""The table of joints: several may be chosen, and one key says how they are now."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QWidget

from rebuild.trade.joints.tour import TIGHT
from rebuild.window.lists.plain_table import PlainTable
from rebuild.words.joints import Dressing, Tightness
from rebuild.work.joints.rows import JointRow

COLUMNS = ("Stand at", "Where", "Joint", "Now", "To be", "Torque per bolt")

#: One key for each state; torqued asks for its torque first.
TIGHT_KEYS = {
    "x": Tightness.APART, "l": Tightness.LOOSE, "f": Tightness.FINGER, "s": Tightness.SNUG, "t": Tightness.TORQUED,
    "k": Tightness.LOCKED, "p": Tightness.PINNED,
}  # fmt: skip
DRESS_KEYS = {"d": Dressing.DRY, "o": Dressing.OILED, "g": Dressing.GREASED, "e": Dressing.SEALED}
_SAID = [(key, state.said) for key, state in TIGHT_KEYS.items()] + [
    (key, dress.value) for key, dress in DRESS_KEYS.items()
]
LEGEND = "   ".join(f"{key}\u00a0{word}" for key, word in _SAID)


class JointTable(PlainTable):
    """Emits ``said`` with a Tightness or a Dressing, ``shifted`` with -1 or +1 along the walk."""

    said = Signal(object)
    shifted = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Joints in walking order", COLUMNS, parent)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)

    def show_rows(self, rows: list[tuple[JointRow, str]]) -> None:
        """Show joints, each with the words of its wanted torque."""
        self.plain.fill([(row.id, _line(row, torque)) for row, torque in rows])

    def chosen_ids(self) -> list[int]:
        """The ids of all chosen rows, in their order."""
        rows = sorted(index.row() for index in self.selectionModel().selectedRows())
        return [self.plain.ids[row] for row in rows]

    def choose_all(self, ids: list[int]) -> None:
        """Choose these joints where they are shown; the first one shown when none is."""
        chooser = self.selectionModel()
        if self.chosen_ids() == ids and ids:
            return
        chooser.clearSelection()
        for key in ids:
            if key in self.plain.ids:
                index = self.plain.index(self.plain.ids.index(key), 0)
                chooser.select(index, chooser.SelectionFlag.Select | chooser.SelectionFlag.Rows)
                chooser.setCurrentIndex(index, chooser.SelectionFlag.NoUpdate)
        if not self.chosen_ids() and self.plain.ids:
            self.selectRow(0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A letter says a state; Alt and an arrow moves along the walk."""
        if event.modifiers() & Qt.KeyboardModifier.AltModifier:
            step = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()), 0)
            if step:
                self.shifted.emit(step)
                return
        key = event.text().lower()
        state = TIGHT_KEYS.get(key) or DRESS_KEYS.get(key)
        if state is not None and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.said.emit(state)
            return
        super().keyPressEvent(event)


def _line(row: JointRow, torque: str) -> tuple[str, ...]:
    many = f"{row.count} × {row.thread}" if row.thread else (f"{row.count} off" if row.count != 1 else "")
    joint = row.name if not many or (row.thread and row.thread in row.name) else f"{row.name}, {many}"
    return (row.stand, row.location or row.of, joint, row.state, _wants(row), torque)


def _wants(row: JointRow) -> str:
    if row.final:
        if row.torque_doubt:
            return f"look: {row.torque_doubt}"
        again = row.look_again and row.looked_again_at is None
        return f"{row.wanted.said}, {'recheck after run-in' if again else 'final'}"
    tight = row.wanted.said if TIGHT.index(row.tight) < TIGHT.index(row.wanted) else ""
    dress = row.wanted_dress.value if row.wanted_dress and row.dress is not row.wanted_dress else ""
    return ", ".join(filter(None, (tight, dress, row.torque_doubt)))
