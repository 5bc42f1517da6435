"""The strip under the menus: which machine, which page, which unit."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QResizeEvent
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QSizePolicy, QWidget

from rebuild.window.commands.groups import GROUPS
from rebuild.window.commands.pages import present_pages
from rebuild.window.desk.desk import Desk, ShowUnit
from rebuild.window.desk.hearing import Hearing
from rebuild.window.find.field import FindField
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.shell.page_chooser import PageChooser
from rebuild.words.counted import counted
from rebuild.work.machines import rows_card
from rebuild.work.machines.rows_card import MachineCard, cards
from rebuild.work.machines.rows_tree import counts_of

SHORTEST_NAME = 14
WIDEST = 300
GAP = 6
ROUND_PAGES = 10


class Header(QWidget):
    """Machine chooser, page names, unit chooser."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._cards: list[MachineCard] = []
        self.machines = QComboBox(self)
        self.machines.setAccessibleName("Machine")
        self.machines.setToolTip("The machine shown")
        self.machines.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.machines.setMinimumContentsLength(SHORTEST_NAME)
        self.machines.setMaximumWidth(WIDEST)
        self.machines.setSizePolicy(QSizePolicy.Policy.MinimumExpanding, QSizePolicy.Policy.Fixed)
        self.pages = PageChooser(GROUPS, present_pages(), self)
        self.units = QComboBox(self)
        self.units.setAccessibleName("Lengths shown")
        self.units.setToolTip("The unit lengths are shown in; nothing stored changes with it")
        self.units.addItems([unit.value for unit in ShowUnit])
        # Cut it would say another unit; the names of pages have a list for what does not fit.
        self.units.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.finder = FindField(desk, self)
        self._captions: list[PlainLabel] = []
        self._build()
        self.machines.activated.connect(self._choose_machine)
        self.machines.highlighted.connect(self._tell)
        self.units.activated.connect(lambda place: desk.choose_unit(list(ShowUnit)[place]))
        self._hearing = Hearing(desk, self, (rows_card,), lambda _changed: self.read(), while_hidden=True)
        desk.unit_changed.connect(self._show_unit)
        self.read()

    def _build(self) -> None:
        line = QHBoxLayout(self)
        line.setContentsMargins(8, 3, 8, 4)
        line.setSpacing(GAP)
        line.addWidget(self._caption("Machine", self.machines))
        line.addWidget(self.machines, 1)
        line.addSpacing(ROUND_PAGES)
        line.addWidget(self.pages)
        line.addStretch(0)
        line.addWidget(self.finder, 1)
        line.addSpacing(GAP)
        line.addWidget(self._caption("Lengths", self.units))
        line.addWidget(self.units)

    def _caption(self, text: str, buddy: QWidget) -> PlainLabel:
        label = PlainLabel(text, self)
        label.setBuddy(buddy)
        label.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self._captions.append(label)
        return label

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        # Many pages in a narrow window need the room of the captions; the choosers keep their tool tips.
        spoken = sum(label.sizeHint().width() + GAP for label in self._captions)
        shown = sum(
            chooser.sizeHint().width() + GAP
            for chooser in (self.machines, self.pages, self.finder, self.units)
        )
        for label in self._captions:
            label.setVisible(spoken + shown + 2 * GAP + ROUND_PAGES < self.width())

    def read(self) -> None:
        """Fill the machine chooser."""
        self.setVisible(self._desk.is_open)
        self.machines.clear()
        if not self._desk.is_open:
            return
        with self._desk.store.read() as connection:
            self._cards = cards(connection)
        for row in self._cards:
            self.machines.addItem(row.name, row.id)
        self.machines.setEnabled(bool(self._cards))
        if not self._cards:
            self.machines.addItem("no machine yet: Ctrl+M adds one")
        self.machines.setCurrentIndex(max(0, self.machines.findData(self._desk.machine_id)))

    def _tell(self, place: int) -> None:
        """What a machine of the list is, and how far; counted when it is pointed at, and only there."""
        if not self._desk.is_open or not 0 <= place < len(self._cards):
            return
        row = self._cards[place]
        with self._desk.store.read() as connection:
            parts, steps, done = counts_of(connection, row.id)
        told = ", ".join(filter(None, (row.kind.value, row.model, row.year, f"scope: {row.scope.value}")))
        tip = plain_tip(f"{told}\n{counted(parts, 'part')}, {done} of {steps} steps done")
        self.machines.setItemData(place, tip, Qt.ItemDataRole.ToolTipRole)

    def _show_unit(self) -> None:
        self.units.setCurrentIndex(list(ShowUnit).index(self._desk.show_unit))

    def _choose_machine(self, place: int) -> None:
        key = self.machines.itemData(place)
        if isinstance(key, int):
            self._desk.choose_machine(key)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.Mid))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
        painter.end()
