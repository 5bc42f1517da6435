"""The Means page: what the shop has, lacks or has lent, the steps that wait for it, and how to come by it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.list_and_form import Listed
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.words.counted import counted
from rebuild.words.means import MeansKind, MeansStand
from rebuild.work.means import rows as means_rows
from rebuild.work.means.rows import MeansRow, NeedRow, means, needing

_COLUMNS = ("What", "Kind", "How it stands", "Open steps", "Place")


class MeansPage(LivePage):
    """The list with its line and buttons; beneath, the steps that name the chosen one."""

    shows = (means_rows,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Means", parent)
        self._rows: dict[int, MeansRow] = {}
        self._needs: list[NeedRow] = []
        self.kind, self.line, self.who = QComboBox(self), QLineEdit(self), QLineEdit(self)
        self.said = PlainLabel(self)
        self.list = Listed(desk, "means", "Means, what is lacking first", _COLUMNS, self._top(), self)
        self.steps = PlainTable("Steps that name it", ("Steps that name it", "State", "For", "Machine"), self)
        acts: tuple[tuple[str, str, Callable[[], None]], ...] = (
            ("have", "He&re or gone", self.have),
            ("make", "M&ake", self.make),
            ("buy", "B&uy", self.buy),
            ("borrow", "B&orrow", self.borrow),
            ("lend", "Le&nd", self.lend),
            ("back", "It &came", self.back),
        )
        told = {
            "have": "The shop has it for good; pressed again, it has it no more",
            "make": "A step that makes it, before each step that names it",
            "buy": "On the list of what is waited for, as an order",
            "borrow": "On the list of what is waited for; from whom stands in Who",
            "lend": "Out of the shop; to whom stands in Who",
            "back": "What was lent is back, what was ordered has come, what was borrowed is here or given back",
        }
        self.buttons = {key: self.list.add_button(words, act, told[key]) for key, words, act in acts}
        self.list.close_buttons()
        self._lay_out()

    def _top(self) -> QWidget:
        box = QWidget(self)
        for kind in MeansKind:
            self.kind.addItem(kind.value, kind)
        self.kind.setAccessibleName("Kind of means")
        self.line.setAccessibleName("New means")
        self.line.setPlaceholderText("What steps need: left-hand tap 7/16-14; plug gauge 24 H7; engine hoist")
        self.line.returnPressed.connect(self.add)
        self.who.setAccessibleName("Who")
        self.who.setPlaceholderText("Who: borrowed from, lent to")
        row = QHBoxLayout()
        row.addWidget(self.kind)
        row.addWidget(self.line, 3)
        row.addWidget(self.who, 1)
        column = QVBoxLayout(box)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        column.addWidget(self.said)
        column.addLayout(row)
        return box

    def _lay_out(self) -> None:
        self.said.setWordWrap(True)
        self.list.table.when_empty(
            "Tools, gauges, consumables, helpers and hoists: a step that names one the shop lacks waits for it.",
            "Note the first",
            self.line.setFocus,
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addWidget(self.list, 3)
        layout.addWidget(self.steps, 1)
        self.list.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show())
        self.steps.activated.connect(lambda _index: self._go())

    def show_row(self, _table: str, key: int) -> None:
        """Choose one means."""
        self.list.table.choose(key)

    def refresh(self) -> None:
        """Read the means again."""
        rows: list[MeansRow] = []
        if self._desk.is_open:
            with self._desk.store.read() as connection:
                rows = means(connection)
        self._rows = {row.id: row for row in rows}
        self.list.fill(
            [
                (
                    row.id,
                    (row.name, row.kind.value, row.words, str(row.steps) if row.steps else "", row.place),
                )
                for row in rows
            ]
        )
        lacking = [row for row in rows if not row.here]
        held = sum(1 for row in lacking if row.steps)
        self.said.setText(
            f"{counted(len(rows), 'means', 'means')}, {len(lacking)} not here, {held} of them named by open steps"
        )
        self.said.setVisible(bool(rows))
        self._show()

    def _show(self) -> None:
        key = self.list.table.chosen()
        row = self._rows.get(key or 0)
        self._needs = []
        if row is not None:
            with self._desk.store.read() as connection:
                self._needs = needing(connection, row.id)
        self.steps.plain.fill(
            [(at, (one.title, one.state.value, one.note, one.machine)) for at, one in enumerate(self._needs)]
        )
        lent = row is not None and row.stand is MeansStand.LENT
        coming = row is not None and (lent or (row.waiting_id is not None and not row.owned))
        made = row is not None and row.kind not in (MeansKind.HELPER, MeansKind.CONSUMABLE)
        allowed = {
            "have": not lent,
            "make": made and row is not None and not row.here and row.stand is not MeansStand.BEING_MADE,
            "buy": row is not None and not row.here and not coming,
            "borrow": row is not None and not row.here and not coming,
            "lend": row is not None and row.owned and not lent,
            "back": coming,
        }
        for name, button in self.buttons.items():
            button.setEnabled(row is not None and allowed[name])

    def add(self) -> None:
        """Put what stands in the line on the list; on trouble the words stay."""
        from rebuild.work.means import acts

        kind = MeansKind(self.kind.currentData())
        made = self._desk.attempt(lambda: acts.add_means(self._desk.store, self.line.text(), kind))
        if made is not None:
            self.line.clear()
            self.list.table.choose(made)

    def have(self) -> None:
        """The shop has it, or has it no more."""
        from rebuild.work.means import acts

        self._on_chosen(lambda row: acts.have(self._desk.store, row.id, owned=not row.owned))

    def make(self) -> None:
        """A step makes it first."""
        from rebuild.work.means import acts

        self._on_chosen(
            lambda row: acts.make(self._desk.store, row.id, None if row.steps else self.machine),
            "A step makes it; the steps that need it come after.",
        )

    def buy(self) -> None:
        """Put it on order."""
        from rebuild.work.means import acts

        self._on_chosen(
            lambda row: acts.buy(self._desk.store, row.id, self.machine), "On the list of what to order."
        )

    def borrow(self) -> None:
        """Borrow it from whom stands in the field."""
        from rebuild.work.means import acts

        self._on_chosen(lambda row: acts.borrow(self._desk.store, row.id, self.machine, self.who.text()))

    def lend(self) -> None:
        """Lend it to whom stands in the field."""
        from rebuild.work.means import acts

        if self._on_chosen(lambda row: acts.lend(self._desk.store, row.id, self.who.text())):
            self.who.clear()

    def back(self) -> None:
        """It came."""
        from rebuild.work.means import acts

        self._on_chosen(lambda row: acts.back(self._desk.store, row.id))

    def _on_chosen(self, act: Callable[[MeansRow], object], done: str = "") -> bool:
        row = self._rows.get(self.list.table.chosen() or 0)
        if row is None:
            return False
        self.list.form.settle_all()

        def tell() -> bool:
            act(row)
            return True

        return self._desk.attempt(tell, done) is not None

    def _go(self) -> None:
        at = self.steps.chosen()
        if at is None:
            return
        one = self._needs[at]
        if one.machine_id != self._desk.machine_id:
            self._desk.choose_machine(one.machine_id)
        self._desk.choose(subassembly_id=one.subassembly_id, task_ids=(one.task_id,), key=None)
        self._desk.page_asked.emit("bench")

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        return [self.line, self.list.table, self.list.form, self.steps]
