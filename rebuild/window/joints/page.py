"""The Joints page: what is not final before power-on, in the order of a walk round the machine."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.edit_form import EditForm, Special
from rebuild.window.forms.put_dialog import put_parts
from rebuild.window.ink import theme
from rebuild.window.joints.duty_lines import duty_words, hint, read_back, torque_words
from rebuild.window.joints.new_joint import ask_new_joint
from rebuild.window.joints.states import JointStates
from rebuild.window.joints.table import LEGEND, JointTable
from rebuild.window.joints.which import AFTER_RUN_IN, ALL, NOT_FINAL, is_wanted, sentence
from rebuild.window.labels.printing import print_walk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.photos.attached import AttachedPhotos
from rebuild.window.steps.gate_row import GateRow
from rebuild.words.joints import Dressing, Tightness
from rebuild.work.editing.acts import edit, remove
from rebuild.work.joints import acts, rows as joint_rows, rows_parts_held
from rebuild.work.joints.rows import JointRow, wanted_torque
from rebuild.work.joints.rows_parts_held import joints_said
from rebuild.work.photos import rows_shown
from rebuild.work.places.rows_off import off_nowhere


class JointsPage(LivePage):
    """Joints on the left in walking order, the chosen one's fields on the right."""

    shows = (joint_rows, rows_parts_held, rows_shown)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Joints", parent)
        self._rows: list[JointRow] = []
        self.sentence = PlainLabel(self)
        self.which = QComboBox(self)
        self.table = JointTable(self)
        self.torque = QLineEdit(self)
        self.setting = PlainLabel(self)
        self.row = GateRow(desk, self)
        self._states = JointStates(
            desk, self.table, self.torque, self.row, lambda: self._rows, self._ask_where
        )
        spoken: dict[str, Special] = {
            name: partial(self._store_field, name) for name in ("torque_wanted", "torque_done")
        }
        self.form = EditForm(desk, "joint", self, specials=spoken, most_columns=1)
        self.photos = AttachedPhotos(desk, "joint", "Photos", self)
        self.new_button = QPushButton("&New joint…", self)
        self.looked_button = QPushButton("Rechecke&d after run-in", self)
        self.working_button = QPushButton("Show &working", self)
        self.remove_button = QPushButton("Remove", self)
        self.print_button = QPushButton("Pr&int…", self)
        self._compose()
        self._wire()

    def _compose(self) -> None:
        self.sentence.setFont(theme.large(self.font(), 1.35))
        self.which.addItems([NOT_FINAL, AFTER_RUN_IN, ALL])
        self.which.setAccessibleName("Which joints")
        self.table.when_empty(
            "Joints that hold the machine together, in walking order, until each is tight.",
            "New joint",
            self.new_button.click,
        )
        self.setting.setWordWrap(True)
        self.sentence.setWordWrap(True)
        self.torque.setAccessibleName("Torqued to, or how it was set")
        self.torque.setPlaceholderText("Torqued to: 25 N·m or 20 lb-ft, then Enter")
        legend = PlainLabel(f"{LEGEND}   Alt+↑↓\u00a0along\u00a0the\u00a0walk", self)
        legend.setWordWrap(True)
        legend.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        top = QHBoxLayout()
        top.addWidget(self.sentence, 1)
        top.addWidget(self.which)
        left = QWidget(self)
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(top)
        column.addWidget(self.table, 1)
        column.addWidget(self.setting)
        column.addWidget(self.torque)
        column.addWidget(self.row)
        column.addWidget(legend)
        buttons = WrappedRow()
        for button in (
            self.new_button,
            self.looked_button,
            self.working_button,
            self.print_button,
            self.remove_button,
        ):
            buttons.addWidget(button)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("Fields of the chosen joint")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        right = QWidget(self)
        side = QVBoxLayout(right)
        side.setContentsMargins(0, 0, 0, 0)
        side.addLayout(buttons)
        side.addWidget(scroll, 1)
        side.addWidget(self.photos)
        whole = QSplitter(Qt.Orientation.Horizontal, self)
        whole.addWidget(left)
        whole.addWidget(right)
        whole.setChildrenCollapsible(False)
        whole.setStretchFactor(0, 3)
        whole.setStretchFactor(1, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addWidget(whole)

    def _wire(self) -> None:
        self.which.activated.connect(lambda _at: self.refresh())
        self.table.said.connect(self.say)
        self.table.shifted.connect(self._shift)
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show_chosen())
        self.row.gone_to.connect(lambda task: follow(self._desk, Ref("task", task)))
        self.torque.returnPressed.connect(self._states.store_torque)
        self.new_button.clicked.connect(self._new)
        self.looked_button.clicked.connect(self._looked)
        self.working_button.clicked.connect(self._working)
        self.print_button.clicked.connect(lambda: print_walk(self._desk, self))
        self.remove_button.clicked.connect(self._remove)

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        return [self.table, self.torque, self.form]

    # Showing

    def show_row(self, _table: str, key: int) -> None:
        """Choose one joint; one that is final is looked for among all."""
        if key not in self.table.plain.ids:
            self.which.setCurrentText(ALL)
            self.refresh()
        self.table.choose(key)

    def refresh(self) -> None:
        """Read the joints again; what is chosen stays chosen."""
        self._rows = []
        if self.machine is not None:
            with self._desk.store.read() as connection:
                self._rows = joints_said(connection, self.machine)
        self.setEnabled(self.machine is not None)
        shown = [row for row in self._rows if is_wanted(row, self.which.currentText())]
        chosen = self.table.chosen_ids()
        self.table.show_rows([(row, torque_words(row)) for row in shown])
        self.table.choose_all(chosen)
        self.sentence.setText(sentence(self._rows))
        self._show_chosen()

    def _show_chosen(self) -> None:
        chosen = self.table.chosen_ids()
        self.form.show_record(chosen[0] if chosen else None)
        self.photos.show_row(chosen[0] if chosen else None)
        row = self._row(chosen[0]) if chosen else None
        self.setting.setText(duty_words(row) if row else "")
        self.torque.setPlaceholderText(hint(row))
        self.working_button.setEnabled(row is not None)

    def _row(self, key: int) -> JointRow | None:
        return next((row for row in self._rows if row.id == key), None)

    # Acting

    def say(self, state: Tightness | Dressing) -> None:
        """Say how the chosen joints are now; torqued turns to its torque first."""
        self._states.say(state)

    def _store_field(self, name: str, form: EditForm, key: int, text: str) -> None:
        """A torque typed among the fields is read back as one from the line is."""
        box = form.boxes[name]
        edit(self._desk.store, "joint", [key], {name: text}, seen={name: box.seen})
        if text.strip():
            self._desk.say(f"{box.field.label} {read_back(text.strip())}.")

    def _ask_where(self, joint_ids: list[int]) -> None:
        """A part off again no longer lies on the machine: ask where it went, as its log does."""
        if self.machine is None:
            return
        with self._desk.store.read() as connection:
            off = off_nowhere(connection, self.machine)
        gone = [row.part_id for row in self._rows if row.id in joint_ids and row.part_id in off]
        parts_off = [key for key in dict.fromkeys(gone) if key is not None]
        if parts_off:
            put_parts(self._desk, self, parts_off, asks="Off again: where did it go?")

    def _shift(self, by: int) -> None:
        """Move the chosen joint along the walk; from then on the whole order is the user's own."""
        chosen = self.table.chosen_ids()
        shown = self.table.plain.ids
        if not chosen:
            return
        at = shown.index(chosen[0])
        to = at + by
        if not 0 <= to < len(shown):
            return
        order = [row.id for row in self._rows]
        neighbour = order.index(shown[to])
        order.remove(chosen[0])
        order.insert(neighbour, chosen[0])
        self._desk.attempt(lambda: acts.set_tour(self._desk.store, order))
        self.table.choose_all(chosen[:1])

    def _looked(self) -> None:
        chosen = self.table.chosen_ids()
        self._desk.attempt(lambda: acts.looked_again(self._desk.store, chosen))

    def _working(self) -> None:
        chosen = self.table.chosen_ids()
        row = self._row(chosen[0]) if chosen else None
        worked = self._desk.attempt(partial(wanted_torque, row)) if row else None
        if worked is not None:
            self._desk.ask_working(worked.working)

    def _new(self) -> None:
        if self.machine is not None:
            ask_new_joint(self._desk, self.machine, self.table.choose_all, self)

    def _remove(self) -> None:
        chosen = self.table.chosen_ids()
        if chosen:
            self.form.show_record(None)
            self._desk.attempt(
                lambda: remove(self._desk.store, "joint", chosen), "Removed; undo brings it back."
            )
