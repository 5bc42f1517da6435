"""What a fit is set to: the wanted range as typed, kind, master, adjuster, stages; the other side of a fit."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from rebuild.errors import Implausible, RebuildError
from rebuild.trade.fits.wanted import WAYS_TO_TYPE
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.edit_form import EditForm, Special
from rebuild.window.forms.editors import LineEditor, ReferenceEditor
from rebuild.window.forms.record_form import fields_named
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.fits import Side
from rebuild.work.editing.acts import remove
from rebuild.work.fits.acts import change_fit, name_later_mate, replace_side, set_wanted
from rebuild.work.fits.rows import FitRow
from rebuild.work.readings.rows_features import feature_choices
from rebuild.work.records.field import Field, FieldKind

_FIELDS = (
    "name",
    "kind",
    "joint",
    "master",
    "adjuster",
    "limits_to",
    "unit",
    "outer_stage",
    "inner_stage",
    "wanted_note",
    "note",
)


class FitSettings(QWidget):
    """Fields of one fit, each stored when it is left."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._row: FitRow | None = None
        self._held = ""
        self.wanted = LineEditor(self)
        self.wanted.setAccessibleName("To be")
        self.wanted.setToolTip(WAYS_TO_TYPE)
        self.trouble = PaneTrouble(desk, (self.wanted,), self)
        self.origin = PlainLabel(self)
        specials: dict[str, Special] = {name: partial(_change, desk, name) for name in _FIELDS}
        self.form = EditForm(
            desk, "fit", self, fields=fields_named("fit", _FIELDS), specials=specials, most_columns=2
        )
        self.buttons = {
            Side.OUTER: QPushButton("Another &outer side…", self),
            Side.INNER: QPushButton("Another &inner side…", self),
        }
        self.later_button = QPushButton("&Later mate…", self)
        self.later_button.setToolTip(
            "The new part the follower is made for, while it must pass the master today"
        )
        self.remove_button = QPushButton("&Remove fit", self)
        self._compose()
        self.wanted.settled.connect(self.commit_wanted)
        for side, button in self.buttons.items():
            button.clicked.connect(partial(self._replace, side))
        self.later_button.clicked.connect(self._name_later)
        self.remove_button.clicked.connect(self._remove)

    def _compose(self) -> None:
        self.origin.setWordWrap(True)
        self.origin.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        line = QHBoxLayout()
        name = PlainLabel("To be", self)
        name.setBuddy(self.wanted)
        line.addWidget(name)
        line.addWidget(self.wanted, 1)
        row = QHBoxLayout()
        for button in (*self.buttons.values(), self.later_button, self.remove_button):
            button.setAutoDefault(False)
            row.addWidget(button)
        row.addStretch(1)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("What the fit is set to")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(4, 6, 4, 4)
        layout.addLayout(line)
        layout.addWidget(self.trouble)
        layout.addWidget(self.origin)
        layout.addWidget(scroll, 1)
        layout.addLayout(row)

    def show_fit(self, row: FitRow | None) -> None:
        """Show another fit; what is typed into the range of this one stays."""
        same = row is not None and self._row is not None and row.id == self._row.id
        self._row = row
        self.setEnabled(row is not None)
        self.form.show_record(row.id if row is not None else None)
        if not (same and (self.wanted.hasFocus() or self.trouble.isVisible())):
            self.wanted.put(row.wanted_text if row is not None else "")
            self._say(None)
        origin = row.wanted_origin.value if row is not None and row.wanted_origin is not None else ""
        note = row.wanted_note if row is not None else ""
        self.origin.setText(f"{origin}: {note}" if origin and note else origin or note)

    def commit_wanted(self) -> None:
        """Store the range as typed; an odd one is held and taken at the second Enter."""
        text = self.wanted.typed()
        if self._row is None or text.strip() == self._row.wanted_text:
            self._say(None)
            return
        try:
            set_wanted(self._desk.store, self._row.id, text, confirmed=text == self._held)
        except RebuildError as trouble:
            self._held = text if isinstance(trouble, Implausible) else ""
            self._say(trouble)
            return
        self._held = ""
        self._say(None)

    def _say(self, trouble: RebuildError | None) -> None:
        if trouble is None:
            self.trouble.end()
        else:
            self.trouble.tell(trouble)

    def _replace(self, side: Side) -> None:
        row = self._row
        if row is None or self._desk.machine_id is None:
            return

        def put(key: int) -> None:
            replace_side(self._desk.store, row.id, side, key)

        self._choose_feature(f"Another {side.value} side", row, put)

    def _name_later(self) -> None:
        row = self._row
        if row is not None and self._desk.machine_id is not None:
            self._choose_feature(
                "Later mate", row, lambda key: name_later_mate(self._desk.store, row.id, key)
            )

    def _choose_feature(self, what: str, row: FitRow, put: Callable[[int], None]) -> None:
        field = Field("feature", "Feature", FieldKind.REFERENCE, refers_to="feature", required=True)

        def act(typed: dict[str, str]) -> int:
            put(int(str(field.read(typed.get("feature", ""))["feature"])))
            return row.id

        adding = Adding(what, f"Of {row.title}", [field], act=act, again=False)
        dialog = AddDialog(self._desk, adding, self)
        dialog.add_button.setText("Choose")
        with self._desk.store.read() as connection:
            listed = feature_choices(connection, self._desk.machine_id or 0)
        editor = dialog.form.boxes["feature"].widget
        assert isinstance(editor, ReferenceEditor)
        editor.offer(listed)
        dialog.open()

    def _remove(self) -> None:
        row = self._row
        if row is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "fit", [row.id]),
                f"Fit removed: {row.title}. Undo brings it back.",
            )


def _change(desk: Desk, name: str, _form: EditForm, row_id: int, text: str) -> None:
    change_fit(desk.store, row_id, {name: text})
