"""A form of one record, made from ``FIELDS``: boxes that flow into as many columns as fit."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import partial

from PySide6.QtCore import QEvent, Signal
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from rebuild.errors import Clash, RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.hearing import Hearing, Records
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.forms.field_box import FieldBox
from rebuild.words.places import place_meant, place_words
from rebuild.work.records.field import Field
from rebuild.work.records.fields import FIELDS
from rebuild.work.records.rows import CHOOSERS, choices

COLUMN_WIDTH = 300
MOST_COLUMNS = 4
#: The height of a box of several lines, in single ones.
LONG = 2.2


class RecordForm(QWidget):
    """The fields of a record as boxes. Filling it emits nothing; the user's edits do."""

    settled = Signal(str)

    def __init__(
        self,
        desk: Desk,
        fields: Sequence[Field],
        parent: QWidget | None = None,
        *,
        most_columns: int = MOST_COLUMNS,
    ) -> None:
        super().__init__(parent)
        self._desk = desk
        self._most = most_columns
        self._columns: list[QVBoxLayout] = []
        self.boxes: dict[str, FieldBox] = {}
        self._line = QHBoxLayout(self)
        self._line.setContentsMargins(8, 6, 10, 6)
        self._line.setSpacing(10)
        for field in fields:
            box = FieldBox(field, self)
            box.settled.connect(self.settled)
            self.boxes[field.name] = box
            box.wanted_again.connect(partial(self._make_place, box))
        self.flow(1)
        pointed_at = {field.refers_to.replace(" ", "_") for field in fields if field.refers_to in CHOOSERS}
        self._hearing = Hearing(
            desk, self, (Records.of(*pointed_at),), lambda _changed: self.choices_changed()
        )
        self.offer_choices()
        self._hearing.have_read()

    def _make_place(self, box: FieldBox) -> None:
        """Enter once more on a place that is not there yet makes it and names it in the field."""
        from rebuild.work.machines.acts import add_place

        kind, name = place_meant(box.offered)
        said = f"{place_words(kind, name)} is a place now."
        made = self._desk.attempt(lambda: add_place(self._desk.store, name, kind), said)
        if made is not None:
            self.offer_choices()
            box.editor.put(str(made))
            box.is_touched = True

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._hearing.seen()

    def choices_changed(self) -> None:
        """What the reference fields may point at has changed, and the form is seen."""
        self.offer_choices()

    def offer_choices(self) -> None:
        """Read again what the reference fields may point at."""
        wanted = {name: box for name, box in self.boxes.items() if box.field.refers_to in CHOOSERS}
        if not wanted or not self._desk.is_open:
            return
        with self._desk.store.read() as connection:
            for box in wanted.values():
                assert isinstance(box.widget, ReferenceEditor)
                box.widget.offer(choices(connection, box.field.refers_to, self._desk.machine_id or 0))

    def fill(self, texts: Mapping[str, str]) -> None:
        """Show texts; boxes that are not named are emptied."""
        for name, box in self.boxes.items():
            box.fill(texts.get(name, ""))

    def typed(self) -> dict[str, str]:
        """What stands in the boxes, without the empty ones."""
        found = {name: box.editor.typed() for name, box in self.boxes.items()}
        return {name: text for name, text in found.items() if text.strip()}

    def clear_troubles(self) -> None:
        """Take every sentence away."""
        for box in self.boxes.values():
            box.clear_trouble()

    def show_trouble(self, error: RebuildError) -> bool:
        """Show a sentence beside the field it names; False when no field here is meant."""
        box = self.box_of(error)
        if box is None:
            return False
        box.show_trouble(error)
        box.widget.setFocus()
        return True

    def show_under(self, name: str, widget: QWidget) -> None:
        """Put a widget under the editor of one field."""
        self.boxes[name].put_under(widget)

    def box_of(self, error: RebuildError) -> FieldBox | None:
        """The box an error speaks of."""
        named = error.field if isinstance(error, Clash) else error.where
        for box in self.boxes.values():
            if named.lower() == box.field.label.lower():
                return box
        return None

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.flow(max(1, min(self._most, (self.width() - 18) // COLUMN_WIDTH)))
        self._take_room()

    def event(self, event: QEvent) -> bool:
        done = super().event(event)
        if event.type() == QEvent.Type.LayoutRequest:
            self._take_room()
        return done

    def _take_room(self) -> None:
        """As high as its sentences need at this width: a form in a scroll area is scrolled, never squashed."""
        needed = self._line.heightForWidth(self.width()) if self._line.hasHeightForWidth() else -1
        if needed > 0 and needed != self.minimumHeight():
            self.setMinimumHeight(needed)

    def flow(self, columns: int) -> None:
        """Share the boxes out over columns of one height: down the first, then down the next, as Tab goes."""
        if columns == len(self._columns):
            return
        for column in self._columns:
            for box in self.boxes.values():
                column.removeWidget(box)  # taken out as an item it would keep the box's size of now for ever
            while column.takeAt(0) is not None:
                pass
            self._line.removeItem(column)
        self._columns = [QVBoxLayout() for _ in range(columns)]
        for column in self._columns:
            column.setSpacing(3)
            self._line.addLayout(column, 1)
        heights = [LONG if box.is_wide else 1.0 for box in self.boxes.values()]
        share, above = sum(heights) / columns, 0.0
        for box, high in zip(self.boxes.values(), heights, strict=True):
            # A box goes where its middle falls, so that no column is a whole box longer than its share.
            self._columns[min(columns - 1, int((above + high / 2) / share))].addWidget(box)
            above += high
        for column in self._columns:
            column.addStretch(1)


def fields_named(record: str, names: Iterable[str]) -> list[Field]:
    """Fields of a record by name, in the order named."""
    by_name = {field.name: field for field in FIELDS[record]}
    return [by_name[name] for name in names]
