"""Decide what becomes of parts: decision and grounds, what it takes, any odd size; what it touches is shown beside.

One window, wherever it is asked for. Of several parts at once only decision and grounds are asked.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent
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
from rebuild.work.decisions.acts import Taking, decide
from rebuild.work.decisions.acts_odd_sizes import OddEntry
from rebuild.work.decisions.acts_ripple import Settling, settle
from rebuild.work.decisions.rows_ripple import ripple
from rebuild.work.machines import rows_parts as part_sheet
from rebuild.work.making import rows as making
from rebuild.work.records.columns import read_typed
from rebuild.work.records.field import Field
from rebuild.work.records.rows import card
from rebuild.work.records.rows_settings import decimal_comma, verdict_rule

_GROUNDS = ("decision", "decision_reason", "decision_criterion", "decision_would_change")
_TAKES = ("decision_method", "decision_value", "decision_cost", "decision_work_min", "decision_wait_days")
_NUMBERS = ("decision_cost", "decision_work_min", "decision_wait_days")
_ODD = (
    Field(
        "odd_what", "Not standard", help="A pin one size up, a bore opened: what mates and spares must know."
    ),
    Field("odd_size", "Its size"),
    Field("odd_instead", "In place of"),
)
_SOON_MS = 150
#: How many parts are named before the rest is counted.
_NAMED = 6


def decide_parts(desk: Desk, parent: QWidget | None) -> DecideDialog:
    """The dialog for the chosen parts; it starts with what is decided on the first."""
    dialog = DecideDialog(desk, desk.selection.part_ids, {}, parent)
    dialog.open()
    return dialog


#: What a proposal says in its own words.
_FROM_PROPOSAL = ("decision_reason", "decision_criterion", "decision_value", "decision_method")


class DecideDialog(QDialog):
    """One part, or several alike, to be decided."""

    def __init__(
        self,
        desk: Desk,
        part_ids: Sequence[int],
        prefill: Mapping[str, str],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._desk, self._part_ids = desk, tuple(part_ids)
        self.setWindowTitle("Decide")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        alone = len(self._part_ids) == 1
        self._shown = (*_GROUNDS, *_TAKES) if alone else _GROUNDS
        self.form = RecordForm(
            desk, [*fields_named("part", self._shown), *(_ODD if alone else ())], self, most_columns=1
        )
        self.ripple = RippleList(self)
        self.ripple.setVisible(alone)
        self.button = QPushButton("Decide", self)
        self.button.setToolTip("Ctrl+Enter, from any field")
        self._said = PlainLabel(self)
        self._soon = QTimer(self)
        self._warned_of: dict[str, str] | None = None
        self._compose(alone=alone)
        self._fill(prefill)
        self._soon.timeout.connect(self.preview)
        self.form.boxes["decision"].editor.touched.connect(self.drop_proposal)
        for name in ("decision", "odd_what"):
            if name in self.form.boxes:
                self.form.boxes[name].editor.touched.connect(self._soon.start)
        self.preview()
        # What is proposed stands there: words typed on are its reason, and never choose another decision.
        first = "decision_reason" if self._proposed_for else "decision"
        self.form.boxes[first].widget.setFocus()

    def _compose(self, *, alone: bool) -> None:
        named, found = self._about()
        heading, condition = PlainLabel(named, self), PlainLabel(found, self)
        for label in (heading, condition, self._said):
            label.setWordWrap(True)
        condition.setAccessibleName("Condition found")
        condition.setVisible(bool(found))
        self._said.setAccessibleName("Message")
        self._said.hide()
        self._soon.setSingleShot(True)
        self._soon.setInterval(_SOON_MS)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("What is decided")
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
        self.button.setDefault(True)
        buttons.addButton(self.button, QDialogButtonBox.ButtonRole.AcceptRole)
        self.button.clicked.connect(self.store)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        for widget in (heading, condition, self._said, buttons):
            layout.addWidget(widget)
        layout.insertWidget(2, whole, 1)
        self.resize(940 if alone else 480, 620 if alone else 380)

    def _about(self) -> tuple[str, str]:
        """Which parts, and of one the condition it was found in."""
        with self._desk.store.read() as connection:
            named = part_sheet.names(connection, self._part_ids)
            found = card(connection, "part", self._part_ids[0]).fields["condition"]
            held = [title for _id, title in making.of_parts(connection, self._part_ids)]
        more = f" and {len(named) - _NAMED} more" if len(named) > _NAMED else ""
        alone = len(self._part_ids) == 1
        lines = [f"Found: {found}"] if found and alone else []
        lines += [f"There is a {title}." for title in held]
        return "On " + "; ".join(named[:_NAMED]) + more, "\n".join(lines)

    def _fill(self, prefill: Mapping[str, str]) -> None:
        with self._desk.store.read() as connection:
            now = card(connection, "part", self._part_ids[0]).fields
        self.form.fill({**{name: now[name] for name in self._shown}, **prefill})
        self._began = self.form.typed()
        self._proposed = {name: prefill[name] for name in _FROM_PROPOSAL if prefill.get(name)}
        self._proposed_for = prefill.get("decision", "")

    @property
    def decision(self) -> Decision:
        """The decision chosen."""
        return Decision(self.form.boxes["decision"].editor.typed())

    def drop_proposal(self) -> None:
        """Another decision than the proposed one: the proposal's words go, the owner's own stay."""
        if not self._proposed or self.decision.value == self._proposed_for:
            return
        typed = self.form.typed()
        for name, words in self._proposed.items():
            if name in self.form.boxes and typed.get(name) == words:
                self.form.boxes[name].fill("")
        self._proposed = {}

    def preview(self) -> None:
        """Show what the decision would touch."""
        if len(self._part_ids) != 1:
            return
        odd = self.form.boxes["odd_what"].editor.typed()
        with self._desk.store.read() as connection:
            found = ripple(
                connection,
                self._part_ids[0],
                self.decision,
                odd=odd,
                sheets=making.of_parts,
                rule=verdict_rule(self._desk.store),
            )
        self.ripple.show_ripple(found)

    def store(self) -> None:
        """Decide; on trouble everything typed stays, with the sentence beside its field."""
        self.form.clear_troubles()
        self._said.hide()
        try:
            self._store()
        except RebuildError as trouble:
            if not self.form.show_trouble(trouble):
                self._say(str(trouble))
            return
        self.accept()

    def _store(self) -> None:
        typed = self.form.typed()
        if len(self._part_ids) == 1:
            settle(self._desk.store, self._part_ids[0], self._settling(typed))
            return
        decide(
            self._desk.store,
            self._part_ids,
            self.decision,
            reason=typed.get("decision_reason", ""),
            criterion=typed.get("decision_criterion", ""),
            would_change=typed.get("decision_would_change", ""),
        )

    def _settling(self, typed: Mapping[str, str]) -> Settling:
        read = read_typed(
            "part",
            {name: typed.get(name, "") for name in _NUMBERS},
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

    def _say(self, sentence: str) -> None:
        self._said.setText(f"▸ {sentence}")
        self._said.show()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Ctrl+Enter decides from any field, one of several lines too."""
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.store()
            return
        super().keyPressEvent(event)

    def reject(self) -> None:
        """Escape or Cancel: what is filled in goes only at the second press."""
        typed = self.form.typed()
        if typed in (self._began, self._warned_of):
            super().reject()
            return
        self._warned_of = typed
        self._say("What you typed is not stored. Esc once more throws it away; Enter decides.")


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
