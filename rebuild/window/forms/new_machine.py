"""A new machine: its fields, and the subassemblies its kind usually has, to be ticked."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QListWidget, QListWidgetItem, QPushButton, QVBoxLayout, QWidget

from rebuild.trade.machines.usual import Usual, usual
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.machine_unit import machine_unit
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.record_form import fields_named
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.machines import MachineKind
from rebuild.work.machines import acts as identify
from rebuild.work.records.fields import FIELDS

_FIRST = (
    "name", "kind", "model", "serial", "serial_where", "year", "year_basis", "unit", "scope", "capacity",
)  # fmt: skip
_LINES = 7


class MachineDialog(AddDialog):
    """The dialog of a new machine. What is ticked is made with it, in the same act."""

    def __init__(self, desk: Desk, parent: QWidget | None) -> None:
        self.offered: tuple[Usual, ...] = ()
        self.usual = QListWidget()
        self.all_button = QPushButton("Tick &all")
        further = [field for field in FIELDS["machine"] if field.name not in _FIRST]
        super().__init__(
            desk,
            Adding(
                "New machine",
                "",
                fields_named("machine", _FIRST),
                further=further,
                again=False,
                act=self._make,
                after=desk.choose_machine,
                prefill=lambda: {"kind": "lathe", "scope": "refurbish", "unit": machine_unit(desk)},
            ),
            parent,
        )
        self._offer_usual()
        self.form.boxes["kind"].editor.touched.connect(self._offer_usual)
        self.form.boxes["kind"].editor.settled.connect(self._offer_usual)

    def _build(self) -> None:
        super()._build()
        self.usual.setAccessibleName("Subassemblies to begin with")
        self.usual.setFlow(QListWidget.Flow.TopToBottom)
        self.usual.setWrapping(True)
        self.usual.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.usual.setFixedHeight(_LINES * (self.fontMetrics().height() + 6))
        layout = self.layout()
        assert isinstance(layout, QVBoxLayout)
        label = PlainLabel("Begin with these subassemblies? Space ticks one", self)
        label.setBuddy(self.usual)
        self.all_button.setAutoDefault(False)
        self.all_button.clicked.connect(self.tick_all)
        head = QHBoxLayout()
        head.addWidget(label, 1)
        head.addWidget(self.all_button)
        layout.insertLayout(2, head)
        layout.insertWidget(3, self.usual)
        self.grow_to(self.height() + self.usual.height() + 2 * label.sizeHint().height())

    def _offer_usual(self) -> None:
        kind = MachineKind(self.form.typed().get("kind", MachineKind.OTHER.value))
        if usual(kind) == self.offered:
            return
        self.offered = usual(kind)
        self.usual.clear()
        for one in self.offered:
            item = QListWidgetItem(one.title, self.usual)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(Qt.CheckState.Unchecked)
        self.usual.setCurrentRow(0)

    def tick_all(self) -> None:
        """Tick every one; when all are, none."""
        every = len(self.ticked) == len(self.offered)
        for at in range(self.usual.count()):
            self.usual.item(at).setCheckState(Qt.CheckState.Unchecked if every else Qt.CheckState.Checked)

    @property
    def ticked(self) -> list[Usual]:
        """The subassemblies that are ticked."""
        checked = Qt.CheckState.Checked
        return [one for at, one in enumerate(self.offered) if self.usual.item(at).checkState() == checked]

    def _make(self, typed: dict[str, str]) -> int:
        named = [(one.code, one.name) for one in self.ticked]
        return identify.add_machine(self._desk.store, typed.pop("name", ""), typed, subassemblies=named)


def new_machine(desk: Desk, parent: QWidget | None) -> MachineDialog:
    """Add a machine; it becomes the one shown."""
    dialog = MachineDialog(desk, parent)
    dialog.open()
    return dialog
