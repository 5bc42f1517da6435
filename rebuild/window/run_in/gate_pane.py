"""Before power: everything not proved and not final, and what is checked by hand with its cautions."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QSplitter, QVBoxLayout, QWidget

from rebuild.trade.results.cautions import caution
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.ink import theme
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.shared_columns import SharedColumns
from rebuild.window.run_in.new_check import new_check
from rebuild.work.records.field import show_moment
from rebuild.work.run_in import rows as run_in_rows
from rebuild.work.run_in.acts import check_again, check_done
from rebuild.work.run_in.rows import CheckRow, Stands, before_power, checks, to_torque_again

_HANDS = "Electrical work is for licensed hands where local codes say so; nothing here replaces them."


class GatePane(LivePage):
    """What stands on the left, checks on the right."""

    shows = (run_in_rows,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent=parent)
        self._stands: list[Stands] = []
        self._checks: dict[int, CheckRow] = {}
        self.heading = QLabel()
        self.heading.setFont(theme.large(self.font(), 1.2))
        self.stands = PlainTable("Stands before power", ("What", "Not proved, not final"))
        SharedColumns(self.stands, (6, 30), (0, 1))
        self.again = PlainTable("Check again after the run-in", ("Joints to check again once it has run",))
        self.checks = PlainTable("Checks", ("When", "What is checked", "Done", "By"))
        SharedColumns(self.checks, (16, 34, 12, 9), (0, 1, 0, 0))
        self.caution = QLabel()
        self.caution.setWordWrap(True)
        self.caution.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.by = QLineEdit()
        self.by.setPlaceholderText("who did it; for licensed work a name is needed")
        self.by.setAccessibleName("Done by")
        self.done = QPushButton("&Done")
        self.open = QPushButton("Open &again")
        self.new = QPushButton("New chec&k…")
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.heading)
        column.addWidget(self.stands, 3)
        column.addWidget(self.again, 1)
        right = QWidget()
        side = QVBoxLayout(right)
        side.setContentsMargins(6, 0, 0, 0)
        hands = QLabel(_HANDS)
        hands.setWordWrap(True)
        hands.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        side.addWidget(hands)
        side.addWidget(self.checks, 3)
        side.addWidget(self.caution)
        row = QHBoxLayout()
        row.addWidget(QLabel("By"))
        row.addWidget(self.by, 1)
        for button in (self.done, self.open, self.new):
            row.addWidget(button)
        side.addLayout(row)
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.addWidget(left)
        whole.addWidget(right)
        whole.setSizes([560, 700])
        whole.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(whole)

    def _wire(self) -> None:
        self.checks.selectionModel().selectionChanged.connect(lambda _new, _old: self._show())
        self.stands.activated.connect(lambda _index: self._go())
        self.done.clicked.connect(self._done)
        self.open.clicked.connect(self._open)
        self.by.returnPressed.connect(self._done)
        self.new.clicked.connect(lambda: new_check(self._desk, self, self.checks.choose))

    def refresh(self) -> None:
        """Read what stands and the checks again."""
        if not self._desk.is_open or self._desk.machine_id is None:
            self._stands, self._checks = [], {}
            for table in (self.stands, self.again, self.checks):
                table.plain.fill([])
            self.heading.setText("")
            return
        chosen = self.checks.chosen()
        with self._desk.store.read() as connection:
            self._stands = before_power(connection, self._desk.machine_id)
            rows = checks(connection, self._desk.machine_id)
            again = to_torque_again(connection, self._desk.machine_id)
        self._checks = {row.id: row for row in rows}
        self.stands.plain.fill([(at, (one.sort, one.text)) for at, one in enumerate(self._stands)])
        self.again.plain.fill([(one.target, (one.text,)) for one in again])
        self.again.setVisible(bool(again))
        self.checks.plain.fill([(row.id, _cells(row)) for row in rows])
        count = len(self._stands)
        self.heading.setText(f"{count} things stand before power" if count else "Nothing stands before power")
        if chosen is not None:
            self.checks.choose(chosen)
        elif rows:
            self.checks.selectRow(0)
        self._show()

    def _show(self) -> None:
        row = self._checks.get(self.checks.chosen() or 0)
        for button in (self.done, self.open):
            button.setEnabled(row is not None)
        if row is None:
            self.caution.setText("")
            return
        words = [row.text if not row.licensed else f"{row.text} (licensed hands)"]
        if row.topic:
            said = caution(row.topic)
            words.append(f"{said.title}: {said.text} Defers to: {said.defer_to} [{said.source.cite()}]")
        if row.note:
            words.append(row.note)
        self.caution.setText("\n".join(words))

    def _go(self) -> None:
        at = self.stands.chosen()
        if at is None or at >= len(self._stands):
            return
        one = self._stands[at]
        if one.sort == "check":
            self.checks.choose(one.target)
            self.checks.setFocus()
        else:
            self._desk.page_asked.emit(one.page)

    def _done(self) -> None:
        key = self.checks.chosen()
        if key is not None and self._desk.attempt(lambda: self._tell(key)):
            self.by.clear()

    def _tell(self, key: int) -> bool:
        check_done(self._desk.store, key, self.by.text())
        return True

    def _open(self) -> None:
        key = self.checks.chosen()
        if key is not None:
            self._desk.attempt(lambda: check_again(self._desk.store, key))


def _cells(row: CheckRow) -> tuple[str, ...]:
    done = show_moment(row.done_at)[:10] if row.done_at else ""
    hands = row.done_by or ("licensed" if row.licensed else "")
    return (row.due.value, row.text, done, hands)
