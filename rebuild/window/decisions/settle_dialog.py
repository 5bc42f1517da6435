"""Settle a part: decision, grounds, what it takes, any odd size; what it will touch is shown all the while."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFrame,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import BadEntry, RebuildError
from rebuild.window.decisions.ripple_list import RippleList
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.record_form import RecordForm, fields_named
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.decisions import Decision
from rebuild.work.decisions.acts import Taking
from rebuild.work.decisions.acts_odd_sizes import OddEntry
from rebuild.work.decisions.acts_ripple import Settling, settle
from rebuild.work.decisions.rows_ripple import ripple
from rebuild.work.machines import rows_parts as part_sheet
from rebuild.work.making import rows as making
from rebuild.work.records.columns import read_typed
from rebuild.work.records.field import Field
from rebuild.work.records.rows import card
from rebuild.work.records.rows_settings import decimal_comma, verdict_rule

_PART = (
    "decision", "decision_reason", "decision_method", "decision_criterion", "decision_value", "decision_cost",
    "decision_work_min", "decision_wait_days", "decision_would_change",
)  # fmt: skip
_ODD = (
    Field(
        "odd_what", "Not standard", help="A pin one size up, a bore opened: what mates and spares must know."
    ),
    Field("odd_size", "Its size"),
    Field("odd_instead", "In place of"),
)
_SOON_MS = 150


class SettleDialog(QDialog):
    """One part to be settled."""

    def __init__(
        self, desk: Desk, part_id: int, prefill: Mapping[str, str], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._desk = desk
        self._part_id = part_id
        self.setWindowTitle("Settle")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.form = RecordForm(desk, [*fields_named("part", _PART), *_ODD], self, most_columns=1)
        self.ripple = RippleList(self)
        self.settle_button = QPushButton("&Settle", self)
        self._said = PlainLabel(self)
        self._soon = QTimer(self)
        self._compose()
        self._fill(prefill)
        self._soon.timeout.connect(self.preview)
        for name in ("decision", "odd_what"):
            self.form.boxes[name].editor.touched.connect(self._soon.start)
        self.preview()

    def _compose(self) -> None:
        with self._desk.store.read() as connection:
            named = "; ".join(part_sheet.names(connection, (self._part_id,)))
        heading = PlainLabel(f"On {named}", self)
        self._said.setWordWrap(True)
        self._said.hide()
        self._soon.setSingleShot(True)
        self._soon.setInterval(_SOON_MS)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("What is settled")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        whole = QSplitter(Qt.Orientation.Horizontal, self)
        whole.addWidget(scroll)
        whole.addWidget(self.ripple)
        whole.setChildrenCollapsible(False)
        whole.setSizes([480, 420])
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel, self)
        self.settle_button.setDefault(True)
        buttons.addButton(self.settle_button, QDialogButtonBox.ButtonRole.AcceptRole)
        self.settle_button.clicked.connect(self.store)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        for widget in (heading, self._said, buttons):
            layout.addWidget(widget)
        layout.insertWidget(1, whole, 1)
        self.resize(940, 620)

    def _fill(self, prefill: Mapping[str, str]) -> None:
        with self._desk.store.read() as connection:
            now = card(connection, "part", self._part_id).fields
        self.form.fill({**{name: now[name] for name in _PART}, **prefill})

    @property
    def decision(self) -> Decision:
        """The decision chosen."""
        return Decision(self.form.boxes["decision"].editor.typed())

    def preview(self) -> None:
        """Show what the decision would touch."""
        odd = self.form.boxes["odd_what"].editor.typed()
        with self._desk.store.read() as connection:
            found = ripple(
                connection,
                self._part_id,
                self.decision,
                odd=odd,
                sheets=making.of_parts,
                rule=verdict_rule(self._desk.store),
            )
        self.ripple.show_ripple(found)

    def store(self) -> None:
        """Settle it; on trouble everything typed stays, with the sentence beside its field."""
        self.form.clear_troubles()
        self._said.hide()
        try:
            settle(self._desk.store, self._part_id, self._settling())
        except RebuildError as trouble:
            if not self.form.show_trouble(trouble):
                self._said.setText(f"▸ {trouble}")
                self._said.show()
            return
        self.accept()

    def _settling(self) -> Settling:
        typed = self.form.typed()
        read = read_typed(
            "part",
            {name: typed.get(name, "") for name in _PART if name in _TAKEN},
            comma=decimal_comma(self._desk.store),
        )
        numbers = {name: value if isinstance(value, float | int) else None for name, value in read.items()}
        taking = Taking(
            typed.get("decision_method", ""),
            typed.get("decision_value", ""),
            numbers["decision_cost"],
            numbers["decision_work_min"],
            numbers["decision_wait_days"],
        )
        return Settling(
            self.decision,
            typed.get("decision_reason", ""),
            typed.get("decision_criterion", ""),
            typed.get("decision_would_change", ""),
            taking,
            _odd(typed),
        )


_TAKEN = ("decision_cost", "decision_work_min", "decision_wait_days")


def _odd(typed: Mapping[str, str]) -> OddEntry | None:
    what = typed.get("odd_what", "")
    size, instead = typed.get("odd_size", ""), typed.get("odd_instead", "")
    if not what:
        if size or instead:
            raise BadEntry(
                "is empty, but its size is given.",
                where="Not standard",
                way_out="Say what it is, or clear both.",
            )
        return None
    return OddEntry(what, instead, size, typed.get("decision_reason", ""))
