"""Small dialogs on one step: what it waits for, a caution, a constraint, its fields."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.trade.results.cautions import caution, suggest, topics
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.forms.record_card import edit_record
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.steps.acts import take
from rebuild.window.steps.ways_out_row import WaysOutRow
from rebuild.words.steps import LinkKind
from rebuild.work.records.ways_out import Refused, Way
from rebuild.work.steps.rows import TaskRow, links, tasks

_ID = Qt.ItemDataRole.UserRole


class BeforeDialog(QDialog):
    """Check the steps that must come before one; unchecking takes the link away."""

    def __init__(self, desk: Desk, row: TaskRow, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk, self._row = desk, row
        self.setWindowTitle("Waits for")
        self.resize(520, 480)
        self._find = QLineEdit()
        self._find.setPlaceholderText("Find a step")
        self._find.setAccessibleName("Find a step")
        self._find.textChanged.connect(self._narrow)
        self._find.returnPressed.connect(self._into_list)
        self.kind = QComboBox()
        self.kind.setAccessibleName("Kind of a new link")
        self.kind.addItem("simply done before it", LinkKind.BEFORE)
        self.kind.addItem("done while it is still off", LinkKind.WHILE_OFF)
        self._list = QListWidget()
        self._list.setAccessibleName("Steps that must come first")
        self._trouble = PaneTrouble(desk, (self._find, self.kind), self)
        self.ways = WaysOutRow(self)
        self.ways.taken.connect(self._follow)
        self._refused: QListWidgetItem | None = None
        self._fill()
        self._list.itemChanged.connect(self._toggled)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.rejected.connect(self.reject)
        close.button(QDialogButtonBox.StandardButton.Close).setAutoDefault(False)
        heading = PlainLabel(f"Before “{row.title}” these must be done:")
        heading.setWordWrap(True)
        layout = QVBoxLayout(self)
        for widget in (heading, self._find, self._list, self.kind, self._trouble, self.ways, close):
            layout.addWidget(widget)

    def _fill(self) -> None:
        machine = self._desk.machine_id or 0
        with self._desk.store.read() as connection:
            rows = tasks(connection, machine)
            self._links = {
                before: link for link, before, after in links(connection, machine) if after == self._row.id
            }
        rows.sort(key=lambda row: (row.subassembly_id != self._row.subassembly_id, row.id not in self._links))
        for row in rows:
            if row.id == self._row.id:
                continue
            item = QListWidgetItem(row.title)
            item.setData(_ID, row.id)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(Qt.CheckState.Checked if row.id in self._links else Qt.CheckState.Unchecked)
            self._list.addItem(item)

    def _narrow(self, text: str) -> None:
        for at in range(self._list.count()):
            item = self._list.item(at)
            item.setHidden(text.lower() not in item.text().lower())

    def _into_list(self) -> None:
        """From the words onto the first step that has them; Space checks it."""
        for at in range(self._list.count()):
            if not self._list.item(at).isHidden():
                self._list.setCurrentRow(at)
                self._list.setFocus()
                return

    def _toggled(self, item: QListWidgetItem) -> None:
        from rebuild.work.editing.acts import remove
        from rebuild.work.steps import acts

        before = int(item.data(_ID))
        wanted = item.checkState() is Qt.CheckState.Checked
        try:
            if wanted and before not in self._links:
                self._links[before] = acts.add_link(
                    self._desk.store, before, self._row.id, self.kind.currentData()
                )
            elif not wanted and before in self._links:
                remove(self._desk.store, "link", [self._links.pop(before)])
            self._trouble.end()
            self.ways.clear()
        except RebuildError as trouble:
            self._refused = item
            self._trouble.tell(trouble)
            ways = trouble.ways if isinstance(trouble, Refused) else ()
            self.ways.show_ways("Or:" if ways else "", ways)
            self._list.blockSignals(True)
            item.setCheckState(Qt.CheckState.Unchecked if wanted else Qt.CheckState.Checked)
            self._list.blockSignals(False)

    def _follow(self, way: Way) -> None:
        """Take a way out of a refused link, then try the link again."""
        item = self._refused
        if item is not None and self._desk.attempt(lambda: take(self._desk.store, way)):
            item.setCheckState(Qt.CheckState.Checked)


def choose_before(desk: Desk, row: TaskRow, parent: QWidget) -> None:
    """Open the dialog of what a step waits for."""
    _open(BeforeDialog(desk, row, parent))


def _open(dialog: QDialog) -> None:
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.open()


class PickDialog(QDialog):
    """One choice and one line of detail."""

    def __init__(
        self, title: str, choices: list[tuple[str, str]], detail: str | None, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.resize(520, 10)
        self.choice = QComboBox()
        self.choice.setAccessibleName(title)
        for words, key in choices:
            self.choice.addItem(words, key)
        self.about = PlainLabel()
        self.about.setWordWrap(True)
        self.detail = QLineEdit()
        form = QFormLayout(self)
        form.addRow(title, self.choice)
        if detail is not None:
            self.detail.setAccessibleName(detail)
            form.addRow(detail, self.detail)
        form.addRow(self.about)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        form.addRow(buttons)

    def explain(self, words: str) -> None:
        """Tell what is chosen; the dialog grows until the whole of it is seen."""
        self.about.setText(words)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        margins = self.contentsMargins()
        width = self.width() - margins.left() - margins.right() - 24
        needed = self.about.heightForWidth(max(100, width))
        if needed > self.about.minimumHeight():
            self.about.setMinimumHeight(needed)
            self.resize(self.width(), max(self.height(), self.minimumSizeHint().height()))

    def key(self) -> str:
        """The chosen key."""
        return str(self.choice.currentData())


def new_caution(desk: Desk, row: TaskRow, parent: QWidget) -> None:
    """Put a caution on a step; those its words speak of come first."""
    from rebuild.work.steps import acts

    likely = suggest(row.title)
    order = [*likely, *(topic for topic in topics() if topic not in likely)]
    dialog = PickDialog("Caution", [(caution(topic).title, topic) for topic in order], None, parent)

    def explain() -> None:
        dialog.explain(caution(dialog.key()).line())

    dialog.choice.currentIndexChanged.connect(explain)
    explain()
    dialog.accepted.connect(lambda: desk.attempt(lambda: acts.add_caution(desk.store, row.id, dialog.key())))
    _open(dialog)


def edit_step(desk: Desk, row: TaskRow, parent: QWidget) -> None:
    """All fields of a step in a form."""

    edit_record(desk, "task", row.id, parent)
