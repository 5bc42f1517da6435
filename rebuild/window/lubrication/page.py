"""The Lubrication page: points on the left, the map and the chosen point on the right."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.sheets.oil_card import write_oil_card
from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.live_page import LivePage
from rebuild.window.exchange.sheet_saving import save_sheet
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lubrication.map_view import MapView
from rebuild.window.lubrication.new_point import new_point, offer_duties
from rebuild.words.counted import counted
from rebuild.words.lubrication import FlowProof
from rebuild.work.editing.acts import remove
from rebuild.work.lubrication import rows as oil_rows
from rebuild.work.lubrication.acts import fill_first, prove_flow, put_on_map
from rebuild.work.lubrication.rows import OilCard, OilRow, oil_card, point_working
from rebuild.work.records import rows_settings

HEADINGS = ("No.", "Kind", "Feeds", "Old oil", "Oil now", "Quantity", "Interval", "Flow")


class LubricationPage(LivePage):
    """Card, map and lines of the chosen machine."""

    shows = (oil_rows, rows_settings)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Lubrication", parent)
        self._card: OilCard | None = None
        self.table = PlainTable("Oil points", HEADINGS)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.table.when_empty(
            "Every point that wants oil: what it takes, how often, and whether oil was seen to arrive.",
            "New point",
            lambda: self.buttons["new"].click(),
        )
        self.map = MapView()
        self.form = EditForm(desk, "oil_point", self, most_columns=2)
        offer_duties(self.form)
        self.findings = PlainLabel()
        self.findings.setWordWrap(True)
        self.lacking = QCheckBox("&Only where oil was not seen")
        self.buttons = {
            name: QPushButton(words)
            for name, words in (
                ("new", "&New point…"),
                ("seen", "O&il seen"),
                ("blocked", "&Blocked"),
                ("fill", "Firs&t fill"),
                ("working", "&Working"),
                ("remove", "&Remove"),
                ("manual", "Manual page"),
                ("picture", "Map pict&ure…"),
                ("print", "Print &card…"),
            )
        }
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.table, 1)
        column.addWidget(self.findings)
        row = QHBoxLayout()
        for name in ("new", "seen", "blocked", "fill", "working", "remove"):
            row.addWidget(self.buttons[name])
        row.addStretch(1)
        column.addLayout(row)
        scroll = QScrollArea()
        scroll.setAccessibleName("Fields of the chosen oil point")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        right = QSplitter(Qt.Orientation.Vertical)
        right.addWidget(self.map)
        right.addWidget(scroll)
        right.setSizes([330, 330])
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.addWidget(left)
        whole.addWidget(right)
        whole.setSizes([820, 440])
        whole.setStretchFactor(0, 3)
        whole.setStretchFactor(1, 2)
        for splitter in (right, whole):
            splitter.setChildrenCollapsible(False)
        top = QHBoxLayout()
        top.addWidget(self.lacking)
        top.addStretch(1)
        top.addWidget(self.buttons["manual"])
        top.addWidget(self.buttons["picture"])
        top.addWidget(self.buttons["print"])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addLayout(top)
        layout.addWidget(whole, 1)

    def _wire(self) -> None:
        self.lacking.toggled.connect(self._read)
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show())
        self.map.chosen.connect(self.choose)
        self.map.moved.connect(self._moved)
        self.buttons["new"].clicked.connect(self._new)
        self.buttons["seen"].clicked.connect(lambda: self._prove(FlowProof.PROVED))
        self.buttons["blocked"].clicked.connect(lambda: self._prove(FlowProof.BLOCKED))
        self.buttons["fill"].clicked.connect(self._fill)
        self.buttons["working"].clicked.connect(self._working)
        self.buttons["remove"].clicked.connect(self._remove)
        self.buttons["manual"].clicked.connect(self._manual)
        self.buttons["picture"].clicked.connect(self._choose_picture)
        self.buttons["print"].clicked.connect(self.print_card)

    def refresh(self) -> None:
        """Read card and map again; the chosen points stay chosen."""
        self.form.show_record(None)
        self.map.show_card(self._card, self._picture())
        self._read()

    def mend(self, changed: Changed) -> None:
        """The map's picture is loaded anew only when another was chosen."""
        if changed.touches("setting"):
            self.map.show_card(self._card, self._picture())
        self._read()

    def _read(self) -> None:
        chosen = self._chosen_ids()
        if not self._desk.is_open or self._desk.machine_id is None:
            self._card = None
            self.table.plain.fill([])
            self.map.show_card(None)
            self.findings.setText("")
            return
        with self._desk.store.read() as connection:
            self._card = oil_card(connection, self._desk.machine_id)
        rows = self._card.not_proved if self.lacking.isChecked() else self._card.rows
        self.table.plain.fill([(row.id, _cells(row)) for row in rows])
        self.map.show_card(self._card)
        self.findings.setText(_findings(self._card))
        if chosen and not self._chosen_ids():
            self.choose(chosen[0])
        elif rows and not self._chosen_ids():
            self.choose(rows[0].id)
        else:
            self._buttons_of_one()

    def _chosen_ids(self) -> list[int]:
        ids = self.table.plain.ids
        rows = self.table.selectionModel().selectedRows()
        return [ids[index.row()] for index in rows if index.row() < len(ids)]

    def _manual(self) -> None:
        """Open the page that asks for the old lubricant of the chosen point."""
        chosen = self._chosen_ids()
        if chosen:
            from rebuild.window.documents.opening import open_of_oil_point

            open_of_oil_point(self._desk, chosen[0])

    def show_row(self, _table: str, key: int) -> None:
        """Choose what was found."""
        self.choose(key)

    def choose(self, point_id: int) -> None:
        """Choose one point alone, whichever keys are held down."""
        if point_id not in self.table.plain.ids:
            self.lacking.setChecked(False)
        if point_id in self.table.plain.ids:
            index = self.table.plain.index(self.table.plain.ids.index(point_id), 0)
            flags = QItemSelectionModel.SelectionFlag
            self.table.selectionModel().setCurrentIndex(index, flags.ClearAndSelect | flags.Rows)

    def _show(self) -> None:
        ids = self._chosen_ids()
        one = ids[0] if len(ids) == 1 else None
        self.form.show_record(one)
        self.map.choose(ids[0] if ids else None)
        self._buttons_of_one()

    def _buttons_of_one(self) -> None:
        """What is done to a chosen point cannot be while there is none."""
        ids = self._chosen_ids()
        for name in ("seen", "blocked", "fill", "working", "remove", "manual"):
            self.buttons[name].setEnabled(bool(ids))

    def _moved(self, point_id: int, x: float, y: float) -> None:
        self._desk.attempt(lambda: put_on_map(self._desk.store, point_id, (x, y)))

    def _new(self) -> None:
        taken = {row.number for row in self._card.rows} if self._card is not None else set()
        number = next(str(at) for at in range(1, len(taken) + 2) if str(at) not in taken)
        new_point(self._desk, self, number, self.choose)

    def _prove(self, proof: FlowProof) -> None:
        ids = self._chosen_ids()
        if ids:
            self._desk.attempt(lambda: prove_flow(self._desk.store, ids, proof))

    def _fill(self) -> None:
        ids = self._chosen_ids()
        if ids:
            self._desk.attempt(lambda: fill_first(self._desk.store, ids), "First fill noted for today.")

    def _working(self) -> None:
        ids = self._chosen_ids()
        row = next((row for row in self._card.rows if ids and row.id == ids[0]), None) if self._card else None
        if row is not None and self._card is not None:
            self._desk.ask_working(point_working(row, self._card))

    def _remove(self) -> None:
        ids = self._chosen_ids()
        if ids:
            self.form.show_record(None)
            self._desk.attempt(
                lambda: remove(self._desk.store, "oil_point", ids), "Removed; Ctrl+Z brings it back."
            )

    def _map_key(self) -> str:
        return f"oil map of machine {self._desk.machine_id}"

    def _picture(self) -> QPixmap:
        """The picture chosen as the map's ground; empty for the outline."""
        if not self._desk.is_open or self._desk.machine_id is None:
            return QPixmap()
        named = self._desk.store.setting(self._map_key())
        return QPixmap(str(self._desk.store.path.parent / named)) if named else QPixmap()

    def _choose_picture(self) -> None:
        if self._desk.machine_id is None:
            return
        folder = self._desk.store.path.parent
        chosen, _kind = QFileDialog.getOpenFileName(
            self, "Picture for the map; cancel for the outline", str(folder), "Pictures (*.png *.jpg *.jpeg)"
        )
        path = Path(chosen)
        if chosen and QPixmap(chosen).isNull():
            self._desk.say(
                f"“{path.name}” is not a picture that can be shown. Choose a PNG or JPEG.", Say.TROUBLE
            )
            return
        named = str(path.relative_to(folder)) if chosen and path.is_relative_to(folder) else chosen
        self._desk.attempt(lambda: self._desk.store.set_setting(self._map_key(), named))

    def print_card(self) -> None:
        """Write the card as a PDF where the user says."""
        machine = self._desk.machine_id
        if machine is None:
            return

        save_sheet(self, self._desk, "Oil card", lambda path: write_oil_card(self._desk.store, machine, path))


def _cells(row: OilRow) -> tuple[str, ...]:
    feeds = f"{'· ' * row.depth}{row.feeds}"
    return (row.number, row.kind.value, feeds, row.old_oil, row.oil, row.quantity, row.interval, row.flow)


def _findings(card: OilCard) -> str:
    lines = [f"▸ {found.text}" for found in card.findings]
    lacking = len(card.not_proved)
    waits = sum(row.lacks and row.task_open for row in card.rows)
    held = f"; {waits} of them hold up a step that would hide them" if waits else ""
    lines.append(
        f"{counted(len(card.rows), 'point')}, oil not seen at {lacking}{held}."
        if card.rows
        else "No oil points yet."
    )
    return "\n".join(lines)
