"""Batches: what goes into one bath or under one coat together, with its times, its cautions and the faces to mask."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSplitter,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.trade.results.cautions import caution
from rebuild.trade.schedule.graph import Ref
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.trade.treatments.together import window_of
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.tree_list import KEY, line, tree_list
from rebuild.window.steps.gate_row import GateRow
from rebuild.words.counted import counted
from rebuild.work.plan.treatments_in_work import part_and_treatment
from rebuild.work.treatments import acts
from rebuild.work.treatments.rows import Batch, Member, batches

EMPTY = (
    "Parts to clean, strip, de-rust, prime or paint stand here by what they go in together. "
    "They follow from the condition and the finish noted of a part."
)


class BatchesPane(QWidget):
    """The batches with their parts, each part ticked or not; the chosen batch's times; one press for all ticked."""

    def __init__(self, desk: Desk, now: Callable[[], dt.datetime], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._now = desk, now
        self._batches: tuple[Batch, ...] = ()
        self.tree = tree_list("Batches", ("Together", "How it stands", "Mask"), opens=True)
        self.empty = EmptyState(self.tree, EMPTY)
        self.told = PlainLabel(self)
        self.product, self.soonest, self.latest = QLineEdit(self), QLineEdit(self), QLineEdit(self)
        self.baked = QCheckBox("Bak&ed", self)
        self.begin_button = QPushButton("&In together", self)
        self.out_button = QPushButton("&Out together", self)
        self.gate = GateRow(desk, self)
        self.said = PaneTrouble(desk, (self.product, self.soonest, self.latest), self)
        self._compose()
        self.tree.currentItemChanged.connect(lambda *_items: self._show())
        self.tree.itemActivated.connect(self._go)
        self.begin_button.clicked.connect(self.begin)
        self.out_button.clicked.connect(self.take_out)
        self.baked.toggled.connect(lambda _on: self._show_times())

    def _compose(self) -> None:
        self.told.setWordWrap(True)
        self.told.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.side = side = QWidget(self)
        column = QVBoxLayout(side)
        column.setContentsMargins(8, 0, 0, 0)
        column.addWidget(self.told)
        for field, name in (
            (self.product, "Bath or paint, as on the tin"),
            (self.soonest, "Soonest after"),
            (self.latest, "Latest after"),
        ):
            field.setAccessibleName(name)
            label = PlainLabel(name, side)
            label.setBuddy(field)
            column.addWidget(label)
            column.addWidget(field)
        column.addWidget(self.baked)
        row = QHBoxLayout()
        row.addWidget(self.begin_button)
        row.addWidget(self.out_button)
        row.addStretch(1)
        column.addLayout(row)
        column.addWidget(self.gate)
        column.addWidget(self.said)
        column.addStretch(1)
        split = QSplitter(Qt.Orientation.Horizontal, self)
        split.addWidget(self.tree)
        split.addWidget(side)
        split.setChildrenCollapsible(False)
        split.setStretchFactor(0, 1)
        split.setSizes([860, 360])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(split)

    def refresh(self, machine_id: int | None) -> None:
        """Read the batches again; what was chosen, and what was unticked, stays so."""
        chosen, off = self._at(), self._unticked()
        self._batches = ()
        if machine_id is not None:
            with self._desk.store.read() as connection:
                self._batches = batches(connection, machine_id, self._now())
        self.tree.blockSignals(True)
        self.tree.clear()
        for batch in self._batches:
            self.tree.addTopLevelItem(_item(batch, off))
        self.tree.expandAll()
        again = next((at for at, batch in enumerate(self._batches) if _name(batch) == chosen), 0)
        top = self.tree.topLevelItem(again)
        if top is not None:
            self.tree.setCurrentItem(top)
        self.tree.blockSignals(False)
        self._show()

    def choose(self, row_id: int) -> None:
        """Stand on one part's line by the number of its treatment, in view."""
        part_id, treatment = part_and_treatment(row_id)
        for at, batch in enumerate(self._batches):
            top = self.tree.topLevelItem(at)
            for place, one in enumerate((*batch.ready, *batch.held, *batch.inside)):
                its = top.child(place) if top is not None else None
                if batch.treatment is treatment and one.part_id == part_id and its is not None:
                    self.tree.setCurrentItem(its)
                    self.tree.scrollToItem(its)

    @property
    def batch(self) -> Batch | None:
        """The batch chosen, by its line or one of its parts'."""
        item = self.tree.currentItem()
        top = item.parent() or item if item is not None else None
        return self._batches[self.tree.indexOfTopLevelItem(top)] if top is not None else None

    def ticked(self) -> list[int]:
        """The parts of the chosen batch that are ready and ticked."""
        batch, off = self.batch, self._unticked()
        return [one.part_id for one in batch.ready if one.key not in off] if batch is not None else []

    def _at(self) -> tuple[str, str] | None:
        batch = self.batch
        return _name(batch) if batch is not None else None

    def _unticked(self) -> set[int]:
        found = set()
        for at in range(self.tree.topLevelItemCount()):
            top = self.tree.topLevelItem(at)
            for place in range(top.childCount() if top is not None else 0):
                child = top.child(place) if top is not None else None
                ticks = child is not None and child.data(0, Qt.ItemDataRole.CheckStateRole) is not None
                if child is not None and ticks and child.checkState(0) is Qt.CheckState.Unchecked:
                    found.add(child.data(0, KEY).key)
        return found

    def _show(self) -> None:
        batch = self.batch
        self.side.setVisible(batch is not None)
        self.told.setText("\n\n".join(_told(batch)) if batch is not None else "")
        self.baked.setVisible(batch is not None and batch.coat)
        self.baked.setEnabled(batch is not None and batch.bakes)
        if batch is None or not batch.bakes:
            self.baked.setChecked(False)
        self.begin_button.setText("&Coat together" if batch is not None and batch.coat else "&In together")
        self.begin_button.setEnabled(batch is not None and bool(batch.ready))
        self.out_button.setVisible(batch is not None and not batch.coat)
        self.out_button.setEnabled(batch is not None and bool(batch.inside))
        self._show_times()

    def _show_times(self) -> None:
        """The usual times as hints: what is typed goes before."""
        batch = self.batch
        window = window_of(batch.treatment, baked=self.baked.isChecked()) if batch is not None else None
        self.soonest.setPlaceholderText(f"{show_minutes(window.soonest)}, assumed" if window else "")
        latest = window.latest if window is not None else None
        self.latest.setPlaceholderText(f"{show_minutes(latest)}, assumed" if latest is not None else "none")

    def begin(self) -> None:
        """Put what is ticked in together, or coat it together; on trouble the texts stay."""
        batch, machine = self.batch, self._desk.machine_id
        if batch is None or machine is None:
            return
        times = acts.Times(
            self.soonest.text(), self.latest.text(), self.product.text(), self.baked.isChecked()
        )
        try:
            acts.begin(self._desk.store, machine, batch.treatment, self.ticked(), times, at=self._now())
        except RebuildError as trouble:
            self.said.tell(trouble)
            return
        self.said.end()
        for field in (self.product, self.soonest, self.latest):
            field.clear()

    def take_out(self) -> None:
        """Take out what lies in the chosen bath; a part's own line takes out that part alone."""
        batch, item = self.batch, self.tree.currentItem()
        if batch is None or item is None:
            return
        one = item.data(0, KEY)
        lying = [one] if isinstance(one, Member) and one in batch.inside else batch.inside
        steps = [member.task_id for member in lying if member.task_id is not None]
        self.gate.attempt(
            lambda why: acts.finish(self._desk.store, steps, reason=why, at=self._now()),
            lambda: self._desk.say("Out of the bath."),
        )

    def _go(self, item: QTreeWidgetItem) -> None:
        one = item.data(0, KEY)
        if isinstance(one, Member):
            follow(self._desk, Ref("part", one.part_id), part_id=one.part_id)


def _name(batch: Batch) -> tuple[str, str]:
    return batch.treatment.value, batch.what


def _item(batch: Batch, off: set[int]) -> QTreeWidgetItem:
    head, _, rest = batch.words.partition("; ")
    top = line((head, rest, ""), None)
    for one in batch.ready:
        assumed = ", assumed" if one.assumed else ""
        child = line((one.part, f"ready, {show_minutes(one.minutes)}{assumed}", ", ".join(one.masks)), one)
        child.setCheckState(0, Qt.CheckState.Unchecked if one.key in off else Qt.CheckState.Checked)
        top.addChild(child)
    for one in batch.held:
        top.addChild(line((one.part, f"not yet: {one.held}", ", ".join(one.masks)), one))
    for one in batch.inside:
        top.addChild(line((one.part, one.clock, ", ".join(one.masks)), one))
    return top


def _told(batch: Batch) -> list[str]:
    """What one reads before he begins: what in, what to heed, the times, what to mask, the cautions."""
    said = [batch.words]
    if not batch.coat:
        said.append(f"In: {batch.bath.name}." + (f" Heed: {batch.bath.heed}." if batch.bath.heed else ""))
    said.append(f"{batch.times[0].upper()}{batch.times[1:]}.")
    if batch.coat:
        bake = window_of(batch.treatment, baked=True).words
        said.append(
            f"Baked, if the tin allows: {bake}."
            if batch.bakes
            else "Not baked: something among them an oven would spoil, or whose material is not noted."
        )
        masks = sum(len(one.masks) for one in (*batch.ready, *batch.held))
        named = (
            f"{counted(masks, 'face')}, listed with each part; " if masks else "no face of these is noted; "
        )
        said.append(f"Mask first: {named}plug oil holes and threads.")
    titles = ", ".join(caution(topic).title for topic in batch.bath.cautions)
    return [*said, f"Cautions: {titles}. Local rules and the tin go before."] if titles else said
