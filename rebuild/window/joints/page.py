"""The Joints page: what is not final before power-on, in the order of a walk round the machine."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
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
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.edit_form import EditForm, Special
from rebuild.window.forms.new import where_it_goes
from rebuild.window.forms.put_dialog import put_parts
from rebuild.window.forms.record_form import fields_named
from rebuild.window.ink import theme
from rebuild.window.joints.duty_lines import duty_words, hint, read_back, takes_no_torque, torque_words
from rebuild.window.joints.table import LEGEND, JointTable
from rebuild.window.labels.printing import print_walk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.photos.attached import AttachedPhotos
from rebuild.window.steps.gate_row import GateRow
from rebuild.words.counted import counted
from rebuild.words.joints import Dressing, Tightness
from rebuild.work.editing.acts import edit, remove
from rebuild.work.joints import acts, rows as joint_rows
from rebuild.work.joints.acts import JointState
from rebuild.work.joints.rows import JointRow, joints, wanted_torque
from rebuild.work.machines.rows_tree import parts
from rebuild.work.photos import rows_shown
from rebuild.work.places.rows_off import off_nowhere
from rebuild.work.records.rows_settings import owner
from rebuild.work.steps.acts_joint_apart import take_joints_apart

NOT_FINAL, AFTER_RUN_IN, ALL = "not tight yet, before power-on", "to recheck after run-in", "all joints"


class JointsPage(LivePage):
    """Joints on the left in walking order, the chosen one's fields on the right."""

    shows = (joint_rows, rows_shown)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Joints", parent)
        self._rows: list[JointRow] = []
        self.sentence = PlainLabel(self)
        self.which = QComboBox(self)
        self.table = JointTable(self)
        self.torque = QLineEdit(self)
        self.setting = PlainLabel(self)
        self.row = GateRow(desk, self)
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
        self.torque.returnPressed.connect(self._store_torque)
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
                self._rows = joints(connection, self.machine)
        self.setEnabled(self.machine is not None)
        shown = [row for row in self._rows if self._wanted(row)]
        chosen = self.table.chosen_ids()
        self.table.show_rows([(row, torque_words(row)) for row in shown])
        self._choose(chosen)
        self.sentence.setText(_sentence(self._rows))
        self._show_chosen()

    def _wanted(self, row: JointRow) -> bool:
        which = self.which.currentText()
        if which == NOT_FINAL:
            return not row.final
        return which == ALL or (row.look_again and row.looked_again_at is None)

    def _choose(self, ids: list[int]) -> None:
        chooser = self.table.selectionModel()
        if self.table.chosen_ids() == ids and ids:
            return
        chooser.clearSelection()
        for key in ids:
            if key in self.table.plain.ids:
                index = self.table.plain.index(self.table.plain.ids.index(key), 0)
                chooser.select(index, chooser.SelectionFlag.Select | chooser.SelectionFlag.Rows)
                chooser.setCurrentIndex(index, chooser.SelectionFlag.NoUpdate)
        if not self.table.chosen_ids() and self.table.plain.ids:
            self.table.selectRow(0)

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
        if state is Tightness.TORQUED:
            self.torque.setFocus()
            return
        tight = state if isinstance(state, Tightness) else None
        dress = state if isinstance(state, Dressing) else None
        self._set(JointState(tight, dress))

    def _store_torque(self) -> None:
        """Store what the line says: a torque, or how a joint that takes none was set."""
        text = self.torque.text().strip()
        if not text:
            return
        chosen = self.table.chosen_ids()
        rows = [row for row in self._rows if row.id in chosen]
        if rows and all(takes_no_torque(row) for row in rows):
            stored = self._desk.attempt(lambda: self._store_setting(chosen, text), "Written down.")
            if stored:
                self._stored_torque("")
            return
        self._set(JointState(Tightness.TORQUED, torque=text), lambda: self._stored_torque(text))

    def _store_field(self, name: str, form: EditForm, key: int, text: str) -> None:
        """A torque typed among the fields is read back as one from the line is."""
        box = form.boxes[name]
        edit(self._desk.store, "joint", [key], {name: text}, seen={name: box.seen})
        if text.strip():
            self._desk.say(f"{box.field.label} {read_back(text.strip())}.")

    def _store_setting(self, chosen: list[int], text: str) -> bool:
        edit(self._desk.store, "joint", chosen, {"how_set": text})
        return True

    def _stored_torque(self, text: str) -> None:
        if text:
            self._desk.say(f"Torqued to {read_back(text)}.")
        self.torque.clear()
        self.table.setFocus()

    def _set(self, state: JointState, after: Callable[[], None] | None = None) -> None:
        chosen = self.table.chosen_ids()
        at = self.table.plain.ids.index(chosen[0]) if chosen else 0

        def act(reason: str) -> None:
            if reason and state.tight is Tightness.APART:
                take_joints_apart(self._desk.store, chosen, reason)
                self._ask_where(chosen)
                return
            by = owner(self._desk.store) if reason else ""
            acts.set_joints(self._desk.store, chosen, replace(state, reason=reason, by=by))

        def done() -> None:
            if not self.table.chosen_ids() and self.table.plain.ids:
                self.table.selectRow(min(at, len(self.table.plain.ids) - 1))
            if after is not None:
                after()

        self.row.attempt(act, done)

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
        self._choose(chosen[:1])

    def _looked(self) -> None:
        chosen = self.table.chosen_ids()
        self._desk.attempt(lambda: acts.looked_again(self._desk.store, chosen))

    def _working(self) -> None:
        chosen = self.table.chosen_ids()
        row = self._row(chosen[0]) if chosen else None
        worked = self._desk.attempt(partial(wanted_torque, row)) if row else None
        if worked is not None:
            self._desk.ask_working(worked.working)

    def _group(self) -> int | None:
        """The subassembly a new joint goes to: the one chosen, else that of the chosen part."""
        chosen = self._desk.selection
        if chosen.subassembly_id is not None or not chosen.part_ids or self.machine is None:
            return chosen.subassembly_id
        with self._desk.store.read() as connection:
            found = parts(connection, self.machine, list(chosen.part_ids[:1]))
        return found[0].subassembly_id if found else None

    def _new(self) -> None:
        machine = self.machine
        if machine is None:
            return
        group = self._group()
        first = (
            "name",
            "duty",
            "location",
            "part_id",
            "thread",
            "count",
            "grade",
            "tight",
            "wanted",
            "wanted_dress",
            "torque_wanted",
            "torque_source",
            "look_again",
        )
        AddDialog(
            self._desk,
            Adding(
                "New joint",
                where_it_goes(self._desk, group),
                fields_named("joint", first),
                lambda typed: acts.add_joint(self._desk.store, machine, group, typed.pop("name", ""), typed),
                lambda key: self._choose([key]),
                lambda: {"tight": "apart", "wanted": "snug", "count": "1"},
            ),
            self,
        ).open()

    def _remove(self) -> None:
        chosen = self.table.chosen_ids()
        if chosen:
            self.form.show_record(None)
            self._desk.attempt(
                lambda: remove(self._desk.store, "joint", chosen), "Removed; undo brings it back."
            )


def _sentence(rows: list[JointRow]) -> str:
    open_ones = [row for row in rows if not row.final]
    later = sum(row.look_again and row.looked_again_at is None for row in rows)
    after = f"; {later} to recheck after run-in" if later else ""
    if not rows:
        return "No joints yet: fasteners of the removal log become joints"
    if not open_ones:
        return f"Every joint is tight{after}"
    are = "is" if len(open_ones) == 1 else "are"
    of = counted(len(rows), "joint")
    return f"{len(open_ones)} of {of} {are} not tight yet: do not power it on{after}"
