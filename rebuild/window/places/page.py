"""The Places page: find a place or a thing, see what lies there since when and what lay there, put a part there."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.forms.new import new_place
from rebuild.window.ink import theme
from rebuild.window.labels.printing import print_tray
from rebuild.window.labels.stock_dialog import print_labels, print_tags_of_place
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import day
from rebuild.words.counted import counted
from rebuild.words.places import PlaceKind
from rebuild.work.places import rows as place_rows
from rebuild.work.places.rows import Lying, PlaceRow, Sort, StayRow
from rebuild.work.records.wall_clock import now

#: Where a thing that is no part is seen to.
PAGES = {Sort.REMOVED: "teardown", Sort.DELIVERY: "waiting", Sort.STOCK: "waiting", Sort.MEANS: "means"}


class PlacesPage(LivePage):
    """Places on the left; the chosen one's things, its past and its fields on the right."""

    shows = (place_rows,)
    by_the_clock = True

    def __init__(
        self, desk: Desk, parent: QWidget | None = None, now: Callable[[], dt.datetime] = now
    ) -> None:
        super().__init__(desk, "Places", parent)
        self._now = now
        self._followed: tuple[int, ...] = ()
        self._things: list[Lying] = []
        self._before: list[StayRow] = []
        self._called: dict[int, str] = {}
        self.find_line = QLineEdit(self)
        self.table = PlainTable("Places", ("Place", "Kind", "Things", "Since"), self, sortable=True)
        self.heading = PlainLabel(self)
        self.lies = PlainTable("Lies here", ("What lies here", "What it is", "Of", "Since"), self)
        self.line = QLineEdit(self)
        self.before = PlainTable("Lay here before", ("Lay here before", "From and to", "Came by"), self)
        self.form = EditForm(desk, "place", self, most_columns=2)
        self.new, self.remove = QPushButton("&New place…", self), QPushButton("Remove", self)
        self.label, self.tray = QPushButton("La&bel…", self), QPushButton("Print lis&t…", self)
        self.tags = QPushButton("Ta&gs of what lies here…", self)
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        self.find_line.setPlaceholderText("Find a place, or the place of a thing: code or name")
        self.find_line.setAccessibleName("Find a place or a thing")
        self.find_line.setClearButtonEnabled(True)
        self.line.setPlaceholderText("Put a part here: its code or name, then Enter")
        self.line.setAccessibleName("Put a part here")
        for table in (self.table, self.lies):
            table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.heading.setFont(theme.large(self.font(), 1.2))
        self.table.when_empty(
            "Where each thing lies, and since when.",
            "Name the first",
            self._new,
        )
        whole = QSplitter(Qt.Orientation.Horizontal, self)
        whole.addWidget(
            self._column((self.find_line, self.table), (self.new, self.remove, self.label, self.tray))
        )
        right = QSplitter(Qt.Orientation.Vertical, self)
        right.addWidget(self._column((self.heading, self.lies, self.line), (self.tags,)))
        right.addWidget(self.before)
        right.addWidget(self._scrolled())
        right.setSizes([430, 150, 150])
        whole.addWidget(right)
        whole.setSizes([480, 760])
        for splitter in (right, whole):
            splitter.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addWidget(whole)

    def _column(self, widgets: tuple[QWidget, ...], buttons: tuple[QPushButton, ...]) -> QWidget:
        box = QWidget(self)
        column = QVBoxLayout(box)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for widget in widgets:
            column.addWidget(widget, 1 if isinstance(widget, PlainTable) else 0)
        if buttons:
            row = QHBoxLayout()
            for button in buttons:
                button.setAutoDefault(False)
                row.addWidget(button)
            row.addStretch(1)
            column.addLayout(row)
        return box

    def _scrolled(self) -> QScrollArea:
        scroll = QScrollArea(self)
        scroll.setAccessibleName("Fields of the chosen place")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        return scroll

    def _wire(self) -> None:
        self.find_line.textChanged.connect(lambda _text: self._read())
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show())
        self.lies.activated.connect(lambda _index: self._go())
        self.before.activated.connect(lambda _index: self._go_before())
        self.line.returnPressed.connect(self.put_here)
        self.new.clicked.connect(self._new)
        self.remove.clicked.connect(self._remove)
        self.label.clicked.connect(self._labels)
        self.tray.clicked.connect(self._trays)
        self.tags.clicked.connect(self._tags)
        self._desk.selection_changed.connect(self._follow)

    def show_row(self, _table: str, key: int) -> None:
        """Choose one place."""
        self.find_line.clear()
        self._read()
        self.table.choose(key)

    def refresh(self) -> None:
        """Read the places again; the chosen one stays chosen, else that of the chosen part, else the first."""
        self._read()
        self._follow()

    def _read(self) -> None:
        chosen, listed, here = self.table.chosen(), [], None
        if self._desk.is_open:
            with self._desk.store.read() as connection:
                listed = place_rows.places(connection)
                words = self.find_line.text().strip()
                if words:
                    here = place_rows.holding(connection, words)
        if here is not None:
            listed = [row for row in listed if row.id in here]
        self._called = {row.id: row.name if row.kind is PlaceKind.AT_A_SHOP else row.called for row in listed}
        self.table.plain.fill([(row.id, _cells(row)) for row in listed])
        if chosen is not None and chosen in self._called:
            self.table.choose(chosen)
        elif listed:
            self.table.selectRow(0)
        self._show()

    def _follow(self) -> None:
        """Turn to the place of a part chosen elsewhere, once for each choice."""
        chosen = self._desk.selection.part_ids
        if chosen == self._followed or not self.isVisible() or not self._desk.is_open:
            return
        self._followed = chosen
        if len(chosen) != 1:
            return
        with self._desk.store.read() as connection:
            lain = place_rows.stays(connection, chosen[0])
        if lain and lain[0].left_at is None and lain[0].place_id is not None:
            self.table.choose(lain[0].place_id)

    def _labels(self) -> None:
        keys = self.table.all_chosen()
        if keys:
            print_labels(self._desk, self, keys)

    def _trays(self) -> None:
        keys = self.table.all_chosen()
        if keys:
            print_tray(self._desk, self, keys)

    def _tags(self) -> None:
        """Tags of what lies here, or of the parts chosen of it."""
        key = self.table.chosen()
        if key is not None:
            things = (self._things[at] for at in self.lies.all_chosen())
            print_tags_of_place(self._desk, self, key, [one.id for one in things if one.sort is Sort.PART])

    def _show(self) -> None:
        key = self.table.chosen()
        self._things, self._before = [], []
        if key is not None:
            with self._desk.store.read() as connection:
                self._things = place_rows.lying(connection, key, self._now())
                self._before = place_rows.stays_in(connection, key)
        for widget in (self.line, self.remove, self.label, self.tray, self.tags):
            widget.setEnabled(key is not None)
        count = counted(len(self._things), "thing") if self._things else "nothing lies here"
        self.heading.setText(f"{self._called.get(key, '')}: {count}" if key is not None else "")
        self.lies.plain.fill(
            [
                (at, (one.called, one.sort.value, one.machine, one.since))
                for at, one in enumerate(self._things)
            ]
        )
        self.before.plain.fill([(at, (row.part, row.words, row.why)) for at, row in enumerate(self._before)])
        self.before.setVisible(bool(self._before))
        self.form.show_record(key)

    def put_here(self) -> None:
        """Put the part named in the line into the chosen place; on trouble the words stay."""
        from rebuild.work.machines.acts import put

        place, machine = self.table.chosen(), self.machine
        if place is None or machine is None:
            return
        store, words = self._desk.store, self.line.text()

        def act() -> str:
            with store.read() as connection:
                part_id, called = place_rows.part_meant(connection, machine, words)
            put(store, [part_id], place)
            return called

        called = self._desk.attempt(act)
        if called is not None:
            self._desk.say(f"{called} lies in {self._called.get(place, 'there')} now.")
            self.line.clear()

    def _go(self) -> None:
        at = self.lies.chosen()
        if at is None:
            return
        one = self._things[at]
        if one.sort is Sort.PART:
            self._to_part(one.id, one.machine_id)
        else:
            self._desk.page_asked.emit(PAGES[one.sort])

    def _go_before(self) -> None:
        at = self.before.chosen()
        if at is not None:
            self._to_part(self._before[at].part_id, None)

    def _to_part(self, part_id: int, machine_id: int | None) -> None:
        if machine_id is not None and machine_id != self._desk.machine_id:
            self._desk.choose_machine(machine_id)
        self._followed = (part_id,)
        self._desk.choose(part_ids=(part_id,), key=None)
        self._desk.page_asked.emit("bench")

    def _new(self) -> None:
        new_place(self._desk, self, self.table.choose)

    def _remove(self) -> None:
        from rebuild.work.editing.acts import remove

        key = self.table.chosen()
        if key is not None:
            self.form.show_record(None)
            self._desk.attempt(
                lambda: remove(self._desk.store, "place", [key]),
                "Removed; undo brings it back with what lay there.",
            )

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        return [self.find_line, self.table, self.lies, self.line]


def _cells(row: PlaceRow) -> tuple[str, ...]:
    since = day(row.oldest)
    return (row.name, row.kind.value, str(row.things) if row.things else "", since)
