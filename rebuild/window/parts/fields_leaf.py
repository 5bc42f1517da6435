"""The fields of what is chosen — part, subassembly or machine — edited in place."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QScrollArea, QStackedWidget, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.edit_form import EditForm, Special
from rebuild.words.decisions import Decision
from rebuild.work.records.fields import field_of

_DECISION = ("decision", "decision_reason", "decision_criterion", "decision_would_change")


class FieldsLeaf(QStackedWidget):
    """One live form per kind of record; the one of what is chosen is on top."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._forms: dict[str, EditForm] = {}

    def form(self, record: str) -> EditForm:
        """The form of one kind of record, made on first need."""
        if record not in self._forms:
            specials = part_specials(self._desk) if record == "part" else {}
            made = EditForm(self._desk, record, specials=specials)
            scroll = QScrollArea(self)
            scroll.setAccessibleName("Fields of the chosen part")
            scroll.setWidget(made)
            scroll.setWidgetResizable(True)
            scroll.setFrameShape(QFrame.Shape.NoFrame)
            scroll.setFocusPolicy(QScrollArea.focusPolicy(scroll).NoFocus)
            self.addWidget(scroll)
            self._forms[record] = made
        return self._forms[record]

    def stand_in(self, record: str, field: str) -> None:
        """The caret into one field, and that field into view."""
        editor = self.form(record).boxes[field].widget
        editor.setFocus()
        scroll = self.currentWidget()
        if isinstance(scroll, QScrollArea):
            scroll.ensureWidgetVisible(editor)

    def show_record(self, record: str, row_id: int | None) -> None:
        """Turn to a record."""
        for other, form in self._forms.items():
            if other != record:
                form.show_record(None)
        form = self.form(record)
        form.show_record(row_id)
        self.setCurrentIndex(list(self._forms).index(record))


def part_specials(desk: Desk) -> dict[str, Special]:
    """A part's fields that are more than an edit: a decision wants its reason, a place its date."""

    def settle(form: EditForm, part_id: int, _text: str) -> None:
        from rebuild.work.decisions.acts import decide
        from rebuild.work.editing.acts import edit

        typed = {name: form.boxes[name].editor.typed() for name in _DECISION}
        if typed["decision"] == form.boxes["decision"].seen:
            changed = {name: text for name, text in typed.items() if text != form.boxes[name].seen}
            seen = {name: form.boxes[name].seen for name in changed}
            edit(desk.store, "part", [part_id], changed, seen=seen)
        else:
            decide(
                desk.store,
                [part_id],
                Decision(typed["decision"]),
                reason=typed["decision_reason"],
                criterion=typed["decision_criterion"],
                would_change=typed["decision_would_change"],
            )
        for name in _DECISION:
            form.boxes[name].fill(typed[name].strip())

    def place(_form: EditForm, part_id: int, text: str) -> None:
        from rebuild.work.machines.acts import put

        chosen = field_of("part", "place_id").read(text)["place_id"]
        put(desk.store, [part_id], chosen if isinstance(chosen, int) else None)

    return {**dict.fromkeys(_DECISION, settle), "place_id": place}
