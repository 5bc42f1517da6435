"""The Figures page: everything the program can work out, to play with and to take further."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLineEdit,
    QSplitter,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.trade.figures import all_figures
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figure_find import found_by, none_found
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.machine_unit import machine_unit
from rebuild.window.entry.gauge import TAKES_GAUGE
from rebuild.window.figures.form import FigureForm
from rebuild.window.figures.result import FigureResult
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.fitted import FittedColumns
from rebuild.work.records.rows_settings import decimal_comma

_TOPIC = Qt.ItemDataRole.UserRole
_PAUSE_MS = 180
FAULT = "This could not be worked out: a fault of the program, not of what you typed."


class FiguresPage(QWidget):
    """Topics on the left, what to type in the middle, what comes out with its working on the right."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setAccessibleName("Figures")
        self._figures: dict[str, Figure] = {}
        self._find = QLineEdit()
        self._find.setPlaceholderText("Find a figure")
        self._find.setAccessibleName("Find a figure")
        self._find.setProperty(TAKES_GAUGE, True)  # what is typed quickly here is looked for, no reading
        self._find.setClearButtonEnabled(True)
        self._none = PlainLabel()
        self._none.setWordWrap(True)
        self._none.hide()
        self.topics = QTreeWidget()
        self.topics.setHeaderHidden(True)
        self.topics.setIndentation(12)
        FittedColumns(self.topics)
        self.topics.setAccessibleName("What to work out")
        self.form = FigureForm()
        self.result = FigureResult(desk)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE_MS)
        self._worked_as: tuple[str, bool | None] | None = None
        self._lay_out()
        self._find.textChanged.connect(self._narrow)
        self._find.returnPressed.connect(self._to_first)
        self.topics.currentItemChanged.connect(self._choose)
        self.form.typed.connect(self._typed)
        self._pause.timeout.connect(self.work)
        for signal in (desk.machine_changed, desk.closed):
            signal.connect(self._other_machine)

    def _lay_out(self) -> None:
        left = QWidget()
        side = QVBoxLayout(left)
        side.setContentsMargins(0, 0, 0, 0)
        side.addWidget(self._find)
        side.addWidget(self._none)
        side.addWidget(self.topics)
        whole = QSplitter(Qt.Orientation.Horizontal)
        for widget, stretch in ((left, 2), (self.form, 2), (self.result, 5)):
            whole.addWidget(widget)
            whole.setStretchFactor(whole.count() - 1, stretch)
        whole.setChildrenCollapsible(False)
        whole.setSizes([280, 300, 640])
        layout = QHBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(whole)

    def showEvent(self, event: object) -> None:
        """The engineering modules are read when the page is first seen."""
        super().showEvent(event)  # type: ignore[arg-type]
        if not self._figures:
            self._load()
        elif self._worked_as != self._as_typed():  # laying an answer out takes longer than to show it again
            self.work()
        QTimer.singleShot(0, self, self._take_keyboard)

    def _take_keyboard(self) -> None:
        """Whoever turns to the handbook looks something up: the keyboard goes to the find line."""
        focus = QApplication.focusWidget()
        if self.isVisible() and (focus is None or not self.isAncestorOf(focus)):
            self._find.setFocus(Qt.FocusReason.ShortcutFocusReason)
            self._find.selectAll()

    def _load(self) -> None:
        self._figures = all_figures()
        groups: dict[str, QTreeWidgetItem] = {}
        for figure in self._figures.values():
            if figure.group not in groups:
                groups[figure.group] = QTreeWidgetItem([figure.group])
                self.topics.addTopLevelItem(groups[figure.group])
            item = QTreeWidgetItem([figure.title])
            item.setData(0, _TOPIC, figure.topic)
            item.setToolTip(0, figure.about or figure.title)
            groups[figure.group].addChild(item)
        self.topics.expandAll()
        self._to_first()

    def _to_first(self) -> None:
        found = found_by(self._figures.values(), self._find.text())
        if found:
            self.choose_topic(found[0].topic)

    def _narrow(self, text: str) -> None:
        wanted = {figure.topic for figure in found_by(self._figures.values(), text)}
        self._none.setText(none_found(text))
        self._none.setVisible(not wanted)
        for at in range(self.topics.topLevelItemCount()):
            group = self.topics.topLevelItem(at)
            if group is None:
                continue
            shown = 0
            for item in filter(None, map(group.child, range(group.childCount()))):
                item.setHidden(item.data(0, _TOPIC) not in wanted)
                shown += not item.isHidden()
            group.setHidden(shown == 0)

    @property
    def topic_shown(self) -> str:
        """The topic of the figure shown; empty before one was chosen."""
        return self.form.figure.topic if self.form.figure is not None else ""

    def choose_topic(self, topic: str) -> None:
        """Show one figure."""
        if not self._figures:
            self._load()
        for at in range(self.topics.topLevelItemCount()):
            group = self.topics.topLevelItem(at)
            for child in range(group.childCount() if group is not None else 0):
                item = group.child(child) if group is not None else None
                if item is not None and item.data(0, _TOPIC) == topic:
                    self.topics.setCurrentItem(item)
                    return

    def _choose(self, item: QTreeWidgetItem | None) -> None:
        topic = item.data(0, _TOPIC) if item is not None else None
        if topic in self._figures:
            self.form.use_unit(machine_unit(self._desk))
            self.form.show_figure(self._figures[topic])
            self.work()

    def _other_machine(self) -> None:
        self._worked_as = None
        if self.isVisible():
            self.work()

    def _as_typed(self) -> tuple[str, bool | None]:
        """The unit of a size typed without one, and whether its comma is a decimal one."""
        return machine_unit(self._desk), decimal_comma(self._desk.store) if self._desk.is_open else None

    def _typed(self) -> None:
        """The answer shown is of other entries now: nothing may be taken from it until it is worked out again."""
        self.result.hold()
        self._pause.start()

    def work(self) -> None:
        """Work the shown figure out from what is typed; trouble is shown beside its entry."""
        figure = self.form.figure
        if figure is None:
            return
        unit, comma = self._worked_as = self._as_typed()
        self.form.use_unit(unit)
        try:
            is_example = self.form.is_example
            entries = self.form.example() if is_example else self.form.entries()
            figured = figure.run(entries, comma=comma, unit=unit)
        except RebuildError as trouble:
            self.form.show_trouble(trouble)
            self.result.show_trouble(str(trouble))
        except BaseException:
            self.result.show_trouble(FAULT)
            raise
        else:
            self.form.show_trouble(None)
            self.result.show_figured(figure, figured, unit)
            if is_example:
                self.result.show_as_example()
