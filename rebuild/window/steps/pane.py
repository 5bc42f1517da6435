"""The task list pane: the steps of the chosen subassembly, all by keyboard, all by mouse."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtGui import QAction, QKeySequence, QPalette
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QListView, QMenu, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.leads import follow
from rebuild.window.desk.live_page import LivePage
from rebuild.window.layout.elided_label import ElidedLabel
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.means.step_dialog import new_means
from rebuild.window.steps import acts
from rebuild.window.steps.acts import take
from rebuild.window.steps.again_row import AgainRow
from rebuild.window.steps.constraint_dialog import new_constraint
from rebuild.window.steps.lines import beside, line_of
from rebuild.window.steps.links import choose_before, edit_step, new_caution
from rebuild.window.steps.model import StepModel
from rebuild.window.steps.refusals import Refusals
from rebuild.window.steps.tick_panel import TickPanel, asked_for
from rebuild.window.steps.view import step_view
from rebuild.words.steps import TaskState
from rebuild.work.joints.rows_put_on import pins_alone
from rebuild.work.machines import rows_tree as tree
from rebuild.work.means import rows as means_rows
from rebuild.work.means.rows import lacking
from rebuild.work.records.wall_clock import now
from rebuild.work.records.ways_out import Refused, RowLead, Way, WayKind
from rebuild.work.steps import rows as step_rows, rows_told
from rebuild.work.steps.rows import TaskRow, tasks
from rebuild.work.steps.rows_told import Told, told

if TYPE_CHECKING:
    from rebuild.work.steps.acts import Done

NO_STEP = "What is to be done here, step by step. Type the first one below."
ALL_DONE = "Every step here is done."
_CLOSED = (TaskState.DONE, TaskState.LEFT_OUT)


class TaskList(LivePage):
    """Steps of one subassembly: tick off, put in order, link, add, remove."""

    shows = (step_rows, rows_told, tree, means_rows)
    by_the_clock = True
    beside = True

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Steps of the chosen subassembly", parent)
        self._list_id: int | None = None
        self._told: dict[int, Told] = {}
        #: The list last scrolled to its first undone step; a list just refreshed stays where it is.
        self._opened_at: int | None = -1
        self.model = StepModel(self)
        self.view = step_view(self.model)
        self._heading = ElidedLabel(where=Qt.TextElideMode.ElideRight)
        self._counted = PlainLabel()
        self._open_only = QCheckBox("&Open steps only")
        self._new = QLineEdit()
        self.panel = TickPanel()
        self.hint = PlainLabel()
        self.beside_it = PlainLabel()
        self.refusals = Refusals(desk, self)
        self.again = AgainRow(desk, self)
        self._build()
        self._make_actions()
        self._wire()

    def _build(self) -> None:
        self.hint.setAccessibleName("What a tick asks for")
        self.hint.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self.hint.setWordWrap(True)
        self.beside_it.setAccessibleName("Earlier attempts, and what was gone on with")
        self.beside_it.setWordWrap(True)
        self.beside_it.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        bold = self._heading.font()
        bold.setBold(True)
        self._heading.setFont(bold)
        self._counted.setAccessibleName("How far it is")
        self._heading.setAccessibleName("Steps of")
        self._counted.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self._new.setAccessibleName("New step")
        self._new.setPlaceholderText("New step: type it and press Enter")
        top = QHBoxLayout()
        top.setSpacing(10)
        top.addWidget(self._counted, 1)
        top.addWidget(self._open_only)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(2, 5, 8, 4)
        layout.setSpacing(3)
        layout.addWidget(self._heading)
        layout.addLayout(top)
        layout.addWidget(self.view, 1)
        layout.addWidget(self.beside_it)
        layout.addWidget(self.hint)
        layout.addWidget(self.refusals)
        layout.addWidget(self.again)
        layout.addWidget(self.panel)
        layout.addWidget(self._new)
        self.panel.hide()

        self.empty = EmptyState(self.view, NO_STEP)

    def _make_actions(self) -> None:
        table: tuple[tuple[str, str, Callable[[], None]], ...] = (
            ("&Tick off…", "Space", self.ask_tick),
            ("&Open again", "Shift+Space", self._open_again),
            ("Under &way", "Ctrl+U", self._under_way),
            ("Move &up", "Alt+Up", lambda: self._shift(-1)),
            ("Move &down", "Alt+Down", lambda: self._shift(+1)),
            ("&Waits for…", "Ctrl+L", lambda: self._on_step(choose_before)),
            ("&Caution…", "", lambda: self._on_step(new_caution)),
            ("C&onstraint…", "", lambda: self._on_step(new_constraint)),
            ("Me&ans…", "", lambda: self._on_step(new_means)),
            ("&Edit…", "F2", lambda: self._on_step(edit_step)),
            ("&New step", "Ins", self._new.setFocus),
            ("&Remove", "Del", self._remove),
        )
        for words, keys, handler in table:
            action = QAction(words, self.view)
            if keys:
                action.setShortcut(QKeySequence(keys))
                action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
            action.triggered.connect(handler)
            self.view.addAction(action)

    def _wire(self) -> None:
        self._desk.selection_changed.connect(self._follow_selection)
        self._open_only.toggled.connect(self.refresh)
        self.model.moved.connect(self._moved)
        self._new.returnPressed.connect(self._add)
        self.panel.confirmed.connect(self._tick)
        self.panel.given_up.connect(self._put_panel_away)
        self.panel.way_taken.connect(self._take_way)
        self.panel.led.connect(self._go_to_row)
        for row in (self.refusals, self.again):
            row.gone_to.connect(self.go_to)
            row.given_up.connect(self.view.setFocus)
        self.view.doubleClicked.connect(lambda _index: self.ask_tick())
        self.view.customContextMenuRequested.connect(self._menu)
        self.view.selectionModel().selectionChanged.connect(self._tell_desk)
        self.view.selectionModel().currentChanged.connect(lambda *_at: self._tell_hint())

    # Showing

    def refresh(self) -> None:
        """Read the list again."""
        if not self._desk.is_open or self._desk.machine_id is None:
            self.model.set_lines(())
            self._heading.setText("No machine yet")
            self._counted.clear()
            self.setEnabled(False)
            return
        self.setEnabled(True)
        self._list_id = self._desk.selection.subassembly_id
        with self._desk.store.read() as connection:
            rows = tasks(connection, self._desk.machine_id, [self._list_id], now=now())
            self._told = told(connection, self._desk.machine_id)
            lacks = lacking(connection, self._desk.machine_id)
            name = self._name_of_list(tree.subassemblies(connection, self._desk.machine_id))
        done = sum(row.state in _CLOSED for row in rows)
        self._heading.setText(name)
        self._counted.setText(f"{done} of {len(rows)} steps done" if rows else "no steps yet")
        if self._open_only.isChecked():
            rows = [row for row in rows if row.state not in _CLOSED]
        self.empty.say(ALL_DONE if done else NO_STEP)
        here = self._current_id()
        self.model.set_lines(
            [
                line_of(row, self._told.get(row.id, Told()), [one.sentence for one in lacks.get(row.id, ())])
                for row in rows
            ]
        )
        if self._list_id != self._opened_at:
            self._opened_at = self._list_id
            QTimer.singleShot(0, self.view, self._show_first_undone)
        self._stand_on(here)
        self._tell_hint()

    def _name_of_list(self, rows: list[tree.SubassemblyRow]) -> str:
        for row in rows:
            if row.id == self._list_id:
                return f"{row.code} {row.name}".strip()
        return "The machine as a whole"

    def _follow_selection(self) -> None:
        if not self._desk.is_open:
            return
        if not self._desk.selection.task_ids and self.view.selectionModel().hasSelection():
            self.view.clearSelection()
        if self._desk.selection.subassembly_id != self._list_id:
            self.look_again()

    def _current_id(self) -> int | None:
        line = self.model.line(self.view.currentIndex().row())
        return line.id if line else None

    def _chosen(self) -> list[int]:
        indexes = self.view.selectionModel().selectedIndexes() or [self.view.currentIndex()]
        rows = sorted(index.row() for index in indexes)
        return [line.id for row in rows if (line := self.model.line(row))]

    def _stand_on(self, task_id: int | None) -> None:
        row = self.model.row_of(task_id) if task_id is not None else -1
        if row >= 0 and self.view.currentIndex().row() != row:
            self.view.setCurrentIndex(self.model.index(row))

    def _show_first_undone(self) -> None:
        """Open a list where the work is: its first step not done on top; a step that was led to stays in view."""
        chosen = self._desk.selection.task_ids
        if chosen and self.model.row_of(chosen[0]) >= 0:
            self.view.scrollTo(self.model.index(self.model.row_of(chosen[0])))
            return
        for place in range(self.model.rowCount()):
            line = self.model.line(place)
            if line is not None and line.row.state not in _CLOSED:
                self.view.scrollTo(self.model.index(place), QListView.ScrollHint.PositionAtTop)
                return

    def _tell_hint(self) -> None:
        """What the tick of the step stood on asks for; while it is asking, its strip says so itself."""
        line = self.model.line(self.view.currentIndex().row())
        asks = line is not None and line.row.state not in _CLOSED and not self.panel.isVisible()
        self.hint.setText(asked_for(line.row) if line is not None and asks else "")
        self.hint.setVisible(asks)
        self.beside_it.setText(beside(line))
        self.beside_it.setVisible(bool(self.beside_it.text()) and not self.panel.isVisible())

    def _tell_desk(self) -> None:
        self._desk.choose(task_ids=tuple(self._chosen()) if self.view.selectionModel().hasSelection() else ())

    def _menu(self, at: QPoint) -> None:
        menu = QMenu(self)
        menu.addActions(self.view.actions())
        menu.exec(self.view.viewport().mapToGlobal(at))

    # Acting

    def ask_tick(self) -> None:
        """Open the strip for the current step; a done step is said to be done."""
        line = self.model.line(self.view.currentIndex().row())
        if line is None:
            return
        if line.row.state is TaskState.DONE:
            self._desk.say(f"“{line.row.title}” is done already; Shift+Space opens it again.")
            return
        with self._desk.store.read() as connection:
            pins = pins_alone(connection, line.row.id)
        self.panel.ask(line.row, line.told.attempts, pins=pins)
        self._tell_hint()
        # The strip takes room from the list; the step it is about stays in sight.
        QTimer.singleShot(0, self.view, lambda: self.view.scrollTo(self.view.currentIndex()))

    def _tick(self, task_id: int, done: Done, *, confirmed: bool = False, reason: str = "") -> None:
        try:
            acts.tick(self._desk, task_id, done, confirmed=confirmed, reason=reason)
        except Refused as trouble:
            self.panel.show_trouble(str(trouble), ways=trouble.ways, rows=trouble.rows)
        except RebuildError as trouble:
            self.panel.show_trouble(str(trouble))
        else:
            self.panel.stored()
            self._tell_hint()
            self._next_open(task_id)
            self.view.setFocus()

    def _take_way(self, task_id: int, done: Done, way: Way) -> None:
        """Follow a way out of a refusal; where it clears the road, the tick is tried again."""
        if way.kind is WayKind.GO_TO:
            self._put_panel_away()
            self.go_to(way.target)
        elif way.kind is WayKind.CONFIRM:
            self._tick(task_id, done, confirmed=True)
        elif way.kind is WayKind.ALL_THE_SAME:
            self._tick(task_id, done, confirmed=True, reason=way.reason)
        elif self._desk.attempt(lambda: take(self._desk.store, way)):
            self._tick(task_id, done)

    def _go_to_row(self, row: RowLead) -> None:
        """Turn to a row that holds the step; the strip waits with what was typed."""
        follow(self._desk, Ref(row.table, row.id), page=row.page)

    def go_to(self, task_id: int) -> None:
        """Stand on a step, turning to its list if need be."""
        machine = self._desk.machine_id
        if self.model.row_of(task_id) < 0 and machine is not None:
            with self._desk.store.read() as connection:
                row = next((row for row in tasks(connection, machine) if row.id == task_id), None)
            if row is not None:
                self._desk.choose(subassembly_id=row.subassembly_id, part_ids=(), key=None)
        self._stand_on(task_id)
        self.view.setFocus()

    def _put_panel_away(self) -> None:
        self.panel.hide()
        self._tell_hint()
        self.view.setFocus()

    def _next_open(self, task_id: int) -> None:
        start = self.model.row_of(task_id)
        for row in range(max(0, start), self.model.rowCount()):
            line = self.model.line(row)
            if line and line.row.state not in _CLOSED:
                self.view.setCurrentIndex(self.model.index(row))
                return

    def _open_again(self) -> None:
        """Ask why, then open the chosen steps again, last first."""
        chosen = self._chosen()
        line = self.model.line(self.model.row_of(chosen[-1])) if chosen else None
        if line is not None:
            self.again.ask_why(chosen, line.row.title)

    def _under_way(self) -> None:
        chosen = self._chosen()
        if chosen:
            acts.under_way(self._desk, chosen)

    def _shift(self, by: int) -> None:
        chosen = self._chosen()
        if chosen and not self._open_only.isChecked():
            top = self.model.row_of(chosen[0])
            self._reorder(chosen, max(0, top + by))
        elif chosen:
            self._desk.say("Show all steps to put them in a new order.", Say.ASK)

    def _moved(self, ids: list[int], at: int) -> None:
        if self._open_only.isChecked():
            self._desk.say("Show all steps to put them in a new order.", Say.ASK)
            return
        self._reorder(ids, at)

    def _reorder(self, ids: list[int], at: int) -> None:
        self.refusals.attempt(lambda: acts.reorder(self._desk, ids, at))
        self._choose_again(ids)

    def _choose_again(self, ids: list[int]) -> None:
        chooser = self.view.selectionModel()
        chooser.clearSelection()
        for key in ids:
            row = self.model.row_of(key)
            if row >= 0:
                chooser.select(self.model.index(row), chooser.SelectionFlag.Select)
        if ids:
            chooser.setCurrentIndex(self.model.index(self.model.row_of(ids[0])), chooser.SelectionFlag.Select)

    def _add(self) -> None:
        title = self._new.text()
        made = acts.add(self._desk, self._list_id, title) if title.strip() else None
        if made is not None:
            self._new.clear()
            self._stand_on(made)

    def _on_step(self, dialog: Callable[[Desk, TaskRow, QWidget], None]) -> None:
        line = self.model.line(self.view.currentIndex().row())
        if line is not None:
            dialog(self._desk, line.row, self)

    def _remove(self) -> None:
        chosen = self._chosen()
        if chosen:
            acts.remove(self._desk, chosen)
