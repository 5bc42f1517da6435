"""Before power: one checklist of all that is not proved or not final, and of what is checked by hand."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.trade.results.cautions import stored_caution
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.live_page import LivePage
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.ink import theme
from rebuild.window.ink.shapes import Shape, shape_icon
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.said import day
from rebuild.window.lists.tree_list import KEY, line, tree_list
from rebuild.window.run_in.gone_on_table import GoneOnTable
from rebuild.window.run_in.new_check import new_check
from rebuild.window.run_in.open_groups import LIST, Item, checklist, named
from rebuild.window.steps.gate_row import GateRow
from rebuild.work.gates import rows as gates
from rebuild.work.gates.acts_checks import lay_out_checks
from rebuild.work.gates.rows import gone_on
from rebuild.work.power import rows as power_rows
from rebuild.work.power.rows import Stands, before_power
from rebuild.work.run_in import rows as run_in_rows
from rebuild.work.run_in.acts import check_again, check_done
from rebuild.work.run_in.rows import CheckRow, checks, last_by, to_torque_again

_HANDS = "Electrical work is for licensed hands where local codes say so; nothing here replaces them."


class GatePane(LivePage):
    """One checklist; what the chosen line means, and the act that closes it, beneath."""

    shows = (run_in_rows, power_rows, gates)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent=parent)
        self._items: list[Item] = []
        self._named: int | None = None
        self.heading = PlainLabel()
        self.heading.setFont(theme.large(self.font(), 1.4))
        self.open_only = QCheckBox("Open only")
        self.list = tree_list("Checklist before power", ("Group", "What", "Done", "By"))
        self.empty = EmptyState(
            self.list, "What is checked before power, at first power and after the run-in."
        )
        self.caution = PlainLabel()
        self.caution.setWordWrap(True)
        self.caution.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.by = QLineEdit()
        self.by.setPlaceholderText(
            "who did it; for licensed work, and to go on all the same, a name is needed"
        )
        self.by.setAccessibleName("Done by")
        self._last_by = ""
        self.read = QCheckBox("I have read &it")
        self.done = QPushButton("&Done")
        self.open = QPushButton("Open &again")
        self.go = QPushButton("&Go to it")
        self.new = QPushButton("New chec&k…")
        self.set_up = QPushButton("&Set the list up")
        self.gone_on = GoneOnTable(desk)
        self.trouble = PaneTrouble(desk, (self.by, self.read))
        self.row = GateRow(desk, trouble=self.trouble)
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        for widget in (self.heading, self.set_up):
            top.addWidget(widget)
        top.addStretch(1)
        top.addWidget(self.open_only)
        hands = PlainLabel(_HANDS)
        hands.setWordWrap(True)
        hands.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        row = QHBoxLayout()
        row.addWidget(PlainLabel("By"))
        row.addWidget(self.by, 1)
        row.addWidget(self.read)
        for button in (self.done, self.open, self.go, self.new):
            row.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(top)
        # While something was gone on with all the same, that is read before the list.
        layout.addWidget(self.gone_on)
        layout.addWidget(hands)
        layout.addWidget(self.list, 4)
        layout.addWidget(self.caution)
        # Above the row: nobody's button moves away from under the pointer as it comes and goes.
        layout.addWidget(self.trouble)
        layout.addLayout(row)
        layout.addWidget(self.row)

    def _wire(self) -> None:
        self.list.currentItemChanged.connect(lambda _new, _old: self._show())
        self.list.itemActivated.connect(lambda _item: self._act())
        self.done.clicked.connect(self._done)
        self.open.clicked.connect(self._open)
        self.go.clicked.connect(self._go)
        self.by.returnPressed.connect(self._done)
        self.set_up.clicked.connect(self._set_up)
        self.open_only.toggled.connect(lambda _on: self._fill())
        self.new.clicked.connect(lambda: new_check(self._desk, self, self.choose_check))

    def refresh(self) -> None:
        """Read the whole checklist again."""
        self._items, standing = [], []
        if self._desk.is_open and self._desk.machine_id is not None:
            machine = self._desk.machine_id
            with self._desk.store.read() as connection:
                standing = before_power(connection, machine)
                rows = {row.id: row for row in checks(connection, machine)}
                self._items = checklist(standing, rows, to_torque_again(connection, machine))
                self.gone_on.show_rows(gone_on(connection, machine, open_only=True), standing)
                self._last_by = last_by(connection, machine)
            self.heading.setText(heading(standing))
        else:
            self.heading.setText("")
            self.gone_on.show_rows([])
        self.set_up.setVisible(any(one.sort == "list" for one in standing))
        self._fill()

    def _fill(self) -> None:
        here = self.chosen()
        shown = [item for item in self._items if not (item.done and self.open_only.isChecked())]
        self.list.blockSignals(True)
        self.list.clear()
        icons = {done: shape_icon(Shape.DONE if done else Shape.OPEN) for done in (False, True)}
        lines = []
        for group, item in zip(named(shown), shown, strict=True):
            cells = (group, item.text, day(item.done_at), item.by)
            made = line(cells, item, icons[item.done], icon_at=1)
            if group:
                font = made.font(0)
                font.setBold(True)
                made.setFont(0, font)
            lines.append(made)
        self.list.addTopLevelItems(lines)
        self.list.blockSignals(False)
        same = (at for at, one in enumerate(shown) if here is not None and _same(one, here))
        stand = self.list.topLevelItem(next(same, 0))
        if stand is not None:
            self.list.setCurrentItem(stand)
        self._show()

    @property
    def items(self) -> list[Item]:
        """The checklist as it stands."""
        return self._items

    def chosen(self) -> Item | None:
        """The line chosen."""
        found = self.list.currentItem()
        item = found.data(0, KEY) if found is not None else None
        return item if isinstance(item, Item) else None

    def choose_check(self, key: int) -> None:
        """Stand on a check."""
        for at in range(self.list.topLevelItemCount()):
            found = self.list.topLevelItem(at)
            item = found.data(0, KEY) if found is not None else None
            if (
                found is not None
                and isinstance(item, Item)
                and item.check is not None
                and item.check.id == key
            ):
                self.list.setCurrentItem(found)

    def _show(self) -> None:
        item = self.chosen()
        row = item.check if item is not None else None
        self.done.setEnabled(row is not None and not row.done_at)
        self.open.setEnabled(row is not None and row.done_at is not None)
        self.go.setEnabled(item is not None and row is None)
        self.by.setEnabled(row is not None)
        self._name(row)
        self.read.setChecked(False)
        self.read.setVisible(row is not None and bool(row.topic) and not row.done_at)
        if item is None:
            self.caution.setText("")
            return
        if row is None:
            self.caution.setText(f"{item.text}.\nIt is closed where it stands: Go to it, or press Enter.")
            return
        words = [row.text if not row.licensed else f"{row.text} (licensed hands)"]
        if row.topic:
            said = stored_caution(row.topic)
            words.append(f"{said.title}: {said.text} Defers to: {said.defer_to} [{said.source.cite()}]")
        if row.source:
            words.append(f"From: {row.source}")
        if row.note:
            words.append(row.note)
        self.caution.setText("\n".join(words))

    def _name(self, row: CheckRow | None) -> None:
        """The last name stands there already; who is licensed is named each time."""
        key = row.id if row is not None else None
        if key != self._named and (not self.by.text().strip() or self.by.text() == self._last_by):
            self.by.setText("" if row is None or row.licensed or row.done_at else self._last_by)
        self._named = key

    def _act(self) -> None:
        """Enter on a line: to where it is closed; on a check to who did it."""
        item = self.chosen()
        if item is not None and item.check is not None:
            self.by.setFocus()
        else:
            self._go()

    def _go(self) -> None:
        item = self.chosen()
        if item is None or item.check is not None:
            return
        if item.group == LIST:
            self.set_up.setFocus()
        else:
            if item.table:
                follow(self._desk, Ref(item.table, item.target), page=item.page)
            else:
                self._desk.page_asked.emit(item.page)

    def _done(self) -> None:
        item = self.chosen()
        if item is not None and item.check is not None:
            key, read = item.check.id, self.read.isChecked()
            # Who is read when it is done: it may be typed after the refusal that asks for it.
            self.row.attempt(
                lambda reason: check_done(self._desk.store, key, self.by.text(), reason=reason, read=read)
            )

    def _set_up(self) -> None:
        machine = self._desk.machine_id
        if machine is not None:
            self._desk.attempt(lambda: lay_out_checks(self._desk.store, machine), "The list is set up.")

    def _open(self) -> None:
        item = self.chosen()
        if item is not None and item.check is not None:
            key = item.check.id
            self._desk.attempt(lambda: check_again(self._desk.store, key))


def _same(one: Item, other: Item) -> bool:
    return (one.check is None, one.page, one.target) == (other.check is None, other.page, other.target)


def heading(standing: list[Stands]) -> str:
    """An empty list of checks is said to be not set up, never to be clear."""
    if not standing:
        return "Nothing is open before power"
    if [one.sort for one in standing] == ["list"]:
        return "Checklist not set up: this is no clearance"
    return f"{len(standing)} open: do not power it on"
