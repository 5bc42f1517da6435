"""Before power: everything not proved and not final, and what is checked by hand with its cautions."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QSplitter, QVBoxLayout, QWidget

from rebuild.trade.results.cautions import caution
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.live_page import LivePage
from rebuild.window.ink import theme
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.run_in.gone_on_table import GoneOnTable
from rebuild.window.run_in.new_check import new_check
from rebuild.window.run_in.open_groups import grouped
from rebuild.window.steps.gate_row import GateRow
from rebuild.work.gates import rows as gates
from rebuild.work.gates.acts_checks import lay_out_checks
from rebuild.work.gates.rows import gone_on
from rebuild.work.power import rows as power_rows
from rebuild.work.power.rows import Stands, before_power
from rebuild.work.records.field import show_moment
from rebuild.work.run_in import rows as run_in_rows
from rebuild.work.run_in.acts import check_again, check_done
from rebuild.work.run_in.rows import CheckRow, checks, to_torque_again

_HANDS = "Electrical work is for licensed hands where local codes say so; nothing here replaces them."


class GatePane(LivePage):
    """What stands on the left, checks on the right."""

    shows = (run_in_rows, power_rows, gates)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent=parent)
        self._stands: list[Stands] = []
        self._checks: dict[int, CheckRow] = {}
        self.heading = PlainLabel()
        self.heading.setFont(theme.large(self.font(), 1.2))
        self.stands = PlainTable("Open before power", ("Group", "Not proved, not tight yet, not checked"))
        self.again = PlainTable("Recheck after run-in", ("Joints to recheck after run-in",))
        self.checks = PlainTable("Checks", ("When", "What is checked", "Done", "By"))
        self.caution = PlainLabel()
        self.caution.setWordWrap(True)
        self.caution.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.by = QLineEdit()
        self.by.setPlaceholderText("who did it; for licensed work a name is needed")
        self.by.setAccessibleName("Done by")
        self.done = QPushButton("&Done")
        self.open = QPushButton("Open &again")
        self.new = QPushButton("New chec&k…")
        self.set_up = QPushButton("&Set the list up")
        self.gone_on = GoneOnTable(desk)
        self.row = GateRow(desk)
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.heading)
        column.addWidget(self.set_up)
        column.addWidget(self.stands, 3)
        column.addWidget(self.gone_on, 1)
        column.addWidget(self.again, 1)
        right = QWidget()
        side = QVBoxLayout(right)
        side.setContentsMargins(6, 0, 0, 0)
        hands = PlainLabel(_HANDS)
        hands.setWordWrap(True)
        hands.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        side.addWidget(hands)
        side.addWidget(self.checks, 3)
        side.addWidget(self.caution)
        row = QHBoxLayout()
        row.addWidget(PlainLabel("By"))
        row.addWidget(self.by, 1)
        for button in (self.done, self.open, self.new):
            row.addWidget(button)
        side.addLayout(row)
        side.addWidget(self.row)
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
        self.set_up.clicked.connect(self._set_up)
        self.new.clicked.connect(lambda: new_check(self._desk, self, self.checks.choose))

    def refresh(self) -> None:
        """Read what stands and the checks again."""
        if not self._desk.is_open or self._desk.machine_id is None:
            self._stands, self._checks = [], {}
            for table in (self.stands, self.again, self.checks):
                table.plain.fill([])
            self.heading.setText("")
            self.gone_on.show_rows([])
            self.set_up.hide()
            return
        chosen = self.checks.chosen()
        machine = self._desk.machine_id
        with self._desk.store.read() as connection:
            self._stands = before_power(connection, machine)
            rows = checks(connection, machine)
            again = to_torque_again(connection, machine)
            self.gone_on.show_rows(gone_on(connection, machine, open_only=True))
        self._checks = {row.id: row for row in rows}
        self.stands.plain.fill(
            [(at, (group, self._stands[at].text)) for group, at in grouped(self._stands, self._checks)]
        )
        self.again.plain.fill([(one.target, (one.text,)) for one in again])
        self.again.setVisible(bool(again))
        self.checks.plain.fill([(row.id, _cells(row)) for row in rows])
        self.set_up.setVisible(any(one.sort == "list" for one in self._stands))
        self.heading.setText(heading(self._stands))
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
        if row.source:
            words.append(f"From: {row.source}")
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
        elif one.sort == "list":
            self.set_up.setFocus()
        else:
            table = _TABLES[one.sort]
            follow(self._desk, Ref(table, one.target), page=one.page)

    def _done(self) -> None:
        key = self.checks.chosen()
        if key is not None:
            by = self.by.text()
            self.row.attempt(
                lambda reason: check_done(self._desk.store, key, by, reason=reason), self.by.clear
            )

    def _set_up(self) -> None:
        machine = self._desk.machine_id
        if machine is not None:
            self._desk.attempt(lambda: lay_out_checks(self._desk.store, machine), "The list is set up.")

    def _open(self) -> None:
        key = self.checks.chosen()
        if key is not None:
            self._desk.attempt(lambda: check_again(self._desk.store, key))


#: The table of the rows of each sort that stands before power.
_TABLES = {"joint": "joint", "oil": "oil_point", "part": "part", "control": "control"}


def _cells(row: CheckRow) -> tuple[str, ...]:
    done = show_moment(row.done_at)[:10] if row.done_at else ""
    hands = row.done_by or ("licensed" if row.licensed else "")
    return (row.due.value, row.text, done, hands)


def heading(standing: list[Stands]) -> str:
    """An empty list of checks is said to be not set up, never to be clear."""
    if not standing:
        return "Nothing is open before power"
    if [one.sort for one in standing] == ["list"]:
        return "Checklist not set up: this is no clearance"
    return f"{len(standing)} open: do not power it on"
