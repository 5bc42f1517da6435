"""The wear rules: where each comes from, and the user's own limits in their place."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.trade.sizes.show import show_typed
from rebuild.trade.wear.rules import Criterion
from rebuild.window.decisions.tables import RULES, WideTable, rule_row
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.hearing import Hearing, Records
from rebuild.window.forms.record_form import RecordForm, fields_named
from rebuild.work.decisions.acts_options import set_rule
from rebuild.work.decisions.rows_proposals import criteria


class RulesDialog(QDialog):
    """A list of rules with the chosen one's limits to type."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._rules: tuple[Criterion, ...] = ()
        self.setWindowTitle("Wear rules")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.table = WideTable("Wear rules", RULES, (4,), self)
        self.about = QLabel(self)
        self.form = RecordForm(desk, fields_named("wear_rule", ("good", "rework", "left_out", "note")), self)
        self.store_button = QPushButton("&Store my limits", self)
        self.own_button = QPushButton("&Back to the rule's own", self)
        self._said = QLabel(self)
        self._compose()
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._show())
        self.store_button.clicked.connect(self.store)
        self.own_button.clicked.connect(self.back)
        self._hearing = Hearing(
            desk, self, (Records.of("wear_rule"),), lambda _changed: self._look_again(), while_hidden=True
        )
        self.refresh()
        self.table.selectRow(0)

    def _compose(self) -> None:
        for label in (self.about, self._said):
            label.setWordWrap(True)
        self._said.hide()
        row = QHBoxLayout()
        for button in (self.store_button, self.own_button):
            button.setAutoDefault(False)
            row.addWidget(button)
        row.addStretch(1)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(self.table, 1)
        for widget in (self.about, self.form, self._said):
            layout.addWidget(widget)
        layout.addLayout(row)
        layout.addWidget(buttons)
        self.resize(980, 640)

    @property
    def rule(self) -> Criterion | None:
        """The chosen rule."""
        place = self.table.chosen()
        return self._rules[place] if place is not None else None

    def refresh(self) -> None:
        """Read the rules again."""
        with self._desk.store.read() as connection:
            self._rules = criteria(connection)
        self.table.plain.fill([rule_row(place, rule) for place, rule in enumerate(self._rules)])

    def _look_again(self) -> None:
        if self._desk.is_open:
            self.refresh()
            self._show()

    def _show(self) -> None:
        rule = self.rule
        self._said.hide()
        if rule is None:
            return
        does = (("good", rule.good_do), ("between", rule.band_do), ("over", rule.over_do))
        lines = [f"{name}: {do.decision}, {do.method}" for name, do in does]
        if rule.own_good is not None and rule.own_rework is not None:
            lines.append(f"The rule's own limits: {rule.own_good.shown()} and {rule.own_rework.shown()}.")
        if rule.note:
            lines.append(rule.note)
        self.about.setText("\n".join(lines))
        mine = rule.own_good is not None
        self.form.fill(
            {
                "good": show_typed(rule.good.size, rule.good.size.unit) if mine else "",
                "rework": show_typed(rule.rework.size, rule.rework.size.unit) if mine else "",
                "left_out": "yes" if rule.left_out else "no",
                "note": rule.edit_note,
            }
        )

    def store(self) -> None:
        """Put the typed limits in place of the rule's."""
        rule = self.rule
        if rule is None:
            return
        typed = self.form.typed()
        self._set(
            rule,
            good=typed.get("good", ""),
            rework=typed.get("rework", ""),
            left_out=typed.get("left_out", "no") == "yes",
            note=typed.get("note", ""),
        )

    def back(self) -> None:
        """Take the user's limits away."""
        rule = self.rule
        if rule is not None:
            self._set(rule, good="", rework="", left_out=False, note="")

    def _set(self, rule: Criterion, *, good: str, rework: str, left_out: bool, note: str) -> None:
        self.form.clear_troubles()
        self._said.hide()
        try:
            set_rule(self._desk.store, rule.key, good=good, rework=rework, left_out=left_out, note=note)
        except RebuildError as trouble:
            if not self.form.show_trouble(trouble):
                self._said.setText(f"▸ {trouble}")
                self._said.show()
