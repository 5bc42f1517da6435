"""Edit a stored record in place: each field is one act when the user leaves it.

What another window changes appears, except in a field being typed in: there the first writer wins
and the clash is said. Text that cannot be stored is never dropped: it stays in its field, and goes to
the kept entries when the form turns to another record.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtWidgets import QWidget

from rebuild.errors import Clash, NotThere, RebuildError
from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.forms.field_box import FieldBox
from rebuild.window.forms.record_form import MOST_COLUMNS, RecordForm
from rebuild.work.records.field import Field
from rebuild.work.records.fields import FIELDS, called
from rebuild.work.records.rows import Card, card

#: Stores one field another way than by ``edit``: (form, record id, typed text).
Special = Callable[["EditForm", int, str], None]


class EditForm(RecordForm):
    """A record's fields, live."""

    def __init__(
        self,
        desk: Desk,
        record: str,
        parent: QWidget | None = None,
        *,
        fields: Sequence[Field] | None = None,
        specials: dict[str, Special] | None = None,
        most_columns: int = MOST_COLUMNS,
    ) -> None:
        super().__init__(
            desk, FIELDS[record] if fields is None else fields, parent, most_columns=most_columns
        )
        self.record = record
        self.row_id: int | None = None
        self._kept_already: set[str] = set()
        self._specials = specials or {}
        self.settled.connect(self.commit)
        for box in self.boxes.values():
            box.let_escape_put_back()
        desk.changed.connect(self._hear)
        desk.closed.connect(self._closed)
        self.setEnabled(False)

    def choices_changed(self) -> None:
        """A record whose choice was not in the list before shows it now."""
        super().choices_changed()
        if self.row_id is not None and self._card() is not None:
            self._read(self.row_id)

    def show_record(self, row_id: int | None) -> None:
        """Turn to a record; what could not be stored of the last one is kept. The one shown is only read again.

        A list is filled again after every act and then names the record it had chosen: what is being typed in a
        field of it, or was refused there, stays.
        """
        if row_id is not None and row_id == self.row_id:
            self._read(row_id)
            return
        self.put_by()
        self.row_id = row_id
        self._kept_already.clear()
        self.setEnabled(row_id is not None)
        if row_id is None:
            self.fill({})
        else:
            self._read(row_id, into_touched=True)

    def put_by(self) -> None:
        """Store what can be stored, and keep the rest: the form or the file goes away next."""
        self.settle_all()
        self._keep_unstored()

    def settle_all(self) -> None:
        """Store every field still being typed in."""
        for name in self.boxes:
            self.commit(name)

    def commit(self, name: str) -> None:
        """Store one field as typed, if the user touched it."""
        box = self.boxes[name]
        if self.row_id is None or not box.is_touched or not self._desk.is_open:
            return
        box.is_touched = False
        text = box.editor.typed()
        if text.strip() == box.seen.strip():
            box.fill(box.seen)
            return
        try:
            self._store(name, text)
        except RebuildError as trouble:
            self._refused(box, trouble)
            return
        self._read(self.row_id, only=box)

    def meant_for(self, editor: QWidget) -> str:
        """What the text in one of its editors is meant for."""
        within = [box for box in self.boxes.values() if box.isAncestorOf(editor)]
        field = f", {within[0].field.label.lower()}" if within else ""
        return f"{called(self.record)} no. {self.row_id}{field}"

    def _store(self, name: str, text: str) -> None:
        assert self.row_id is not None
        from rebuild.work.editing.acts import edit

        special = self._specials.get(name)
        if special is not None:
            special(self, self.row_id, text)
        else:
            seen = {name: self.boxes[name].seen}
            edit(self._desk.store, self.record, [self.row_id], {name: text}, seen=seen)

    def _refused(self, box: FieldBox, trouble: RebuildError) -> None:
        meant = self.box_of(trouble) or box
        if isinstance(trouble, Clash):
            found = self._card()
            box.seen = found.fields[box.field.name] if found is not None else box.seen
            self._kept_already.add(box.field.name)
            self._desk.say("Another window was first; what you typed is among the kept entries too.")
            meant = box
        meant.show_trouble(trouble)
        if meant is not box and not meant.hasFocus():
            meant.widget.setFocus()

    def _closed(self) -> None:
        self.show_record(None)

    def _hear(self, changed: Changed) -> None:
        if self.row_id is None:
            return
        rows = changed.rows(self.record)
        if self.row_id in rows.removed:
            self.show_record(None)
        elif self.row_id in rows.updated:
            self._read(self.row_id)

    def _card(self) -> Card | None:
        if self.row_id is None:
            return None
        try:
            with self._desk.store.read() as connection:
                return card(connection, self.record, self.row_id)
        except NotThere:
            return None

    def _read(self, row_id: int, *, into_touched: bool = False, only: FieldBox | None = None) -> None:
        found = self._card()
        if found is None:
            self.row_id = None
            self.setEnabled(False)
            self._desk.say(f"The {called(self.record)} no. {row_id} is no longer there.", Say.TROUBLE)
            return
        for name, box in self.boxes.items():
            busy = box.is_touched or bool(box.trouble)
            if into_touched or box is only or not busy:
                box.fill(found.fields[name])

    def _keep_unstored(self) -> None:
        """Put refused text into the kept entries before the form turns to something else."""
        if not self._desk.is_open:
            return
        for name, box in self.boxes.items():
            text = box.editor.typed()
            if name in self._kept_already:
                continue
            if box.trouble and text.strip() and text != box.seen:
                meant = f"{called(self.record)} no. {self.row_id}, {box.field.label.lower()}"
                self._desk.attempt(
                    partial(self._desk.store.keep_entry, meant, text, box.trouble),
                    f"“{text.strip()}” was not stored; it is among the kept entries.",
                )
