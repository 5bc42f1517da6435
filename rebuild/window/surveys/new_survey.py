"""The dialog for a new survey, and for the set-up of one that is there."""

from __future__ import annotations

from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.words.readings import STAGES
from rebuild.words.surveys import SurveyMethod
from rebuild.work.editing.acts import edit
from rebuild.work.machines.rows_card import unit_of
from rebuild.work.records.rows import card, choices
from rebuild.work.surveys.acts import add_survey, units_of
from rebuild.work.surveys.rows import surveys

_TEXTS = (
    ("step", "Step (bridge length)", "e.g. 5 in or 125 mm"),
    ("division_um_per_m", "One division", "only for readings in divisions, e.g. 0.02 mm/m"),
    ("allowed", "Limit of deviation", "e.g. 0.02 mm; of a twist per metre, of a screw per 300 mm"),
    ("closure", "Limit of closure", "of a run there and back"),
    ("height", "Centre height above the ways", "for the effect on turned work"),
    ("spacing", "Spacing of the ways", ""),
    ("work", "Diameter turned", ""),
)
#: Hints in inches, where they differ.
_INCH_HINTS = {
    "step": "e.g. 5 in",
    "division_um_per_m": "only for readings in divisions, e.g. 0.0005 in/ft",
    "allowed": "e.g. 0.001 in; of a twist per metre, of a screw per 300 mm",
}


class SurveyDialog(QDialog):
    """Name, method, unit, step, limits, what it is compared with; stores by itself on OK."""

    def __init__(self, desk: Desk, survey_id: int | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self.survey_id = desk, survey_id
        self.setWindowTitle("New survey" if survey_id is None else "Set-up of the survey")
        self.resize(520, 10)
        self.name, self.lines = QLineEdit(), QLineEdit()
        self.method, self.unit, self.stage = QComboBox(), QComboBox(), QComboBox()
        self.sense, self.before, self.instrument = QComboBox(), QComboBox(), QComboBox()
        self.texts = {key: QLineEdit() for key, _, _ in _TEXTS}
        boxes = (self.method, self.unit, self.stage, self.sense, self.before, self.instrument)
        self._inch = False
        self.trouble = PaneTrouble(desk, (self.name, self.lines, *self.texts.values(), *boxes), self)
        self._fill_choices()
        self._lay_out()
        self.method.currentIndexChanged.connect(self._follow_method)
        self._follow_method()
        self._seen: dict[str, str] = {}
        if survey_id is not None:
            self._show_card(survey_id)

    def _fill_choices(self) -> None:
        for method in SurveyMethod:
            self.method.addItem(method.value, method)
        self.stage.addItems([stage.value for stage in STAGES])
        self.sense.addItems(["any", "convex only", "concave only"])
        self.before.addItem("nothing", None)
        self.instrument.addItem("not named", None)
        with self._desk.store.read() as connection:
            if self._desk.machine_id is not None:
                self._inch = unit_of(connection, self._desk.machine_id) == "in"
            for row in surveys(connection, self._desk.machine_id or 0):
                if row.id != self.survey_id:
                    self.before.addItem(f"{row.name} ({row.stage.value})", row.id)
            for choice in choices(connection, "instrument", self._desk.machine_id or 0):
                self.instrument.addItem(choice.label, choice.id)

    def _lay_out(self) -> None:
        form = QFormLayout()
        rows: list[tuple[str, QWidget]] = [("Name", self.name), ("Method", self.method)]
        if self.survey_id is None:
            self.lines.setPlaceholderText(
                "names with commas, e.g. front V, rear flat: the name says which way it is"
            )
            rows.append(("Lines", self.lines))
        rows += [("Unit of the readings", self.unit), ("Stage", self.stage)]
        for key, words, hint in _TEXTS:
            self.texts[key].setPlaceholderText(_INCH_HINTS.get(key, hint) if self._inch else hint)
            rows.append((words, self.texts[key]))
        rows += [
            ("Shape to be", self.sense),
            ("Compared with", self.before),
            ("Instrument", self.instrument),
        ]
        for words, widget in rows:
            widget.setAccessibleName(words)
            form.addRow(words, widget)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self._store)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        layout.addWidget(self.trouble)
        layout.addWidget(buttons)

    def _follow_method(self) -> None:
        method = SurveyMethod(self.method.currentData())
        kept = self.unit.currentText()
        self.unit.clear()
        self.unit.addItems(list(units_of(method)))
        if kept in units_of(method):
            self.unit.setCurrentText(kept)
        else:
            wanted = ("in/ft", "in") if self._inch else ("mm/m",)
            for unit in (unit for unit in wanted if unit in units_of(method)):
                self.unit.setCurrentText(unit)
        self.lines.setEnabled(method is not SurveyMethod.PLATE)
        self.method.setEnabled(self.survey_id is None)

    def _show_card(self, survey_id: int) -> None:
        with self._desk.store.read() as connection:
            found = card(connection, "survey", survey_id)
        self._seen = found.fields
        self.name.setText(found.fields["name"])
        self.method.setCurrentText(found.fields["method"])
        self.unit.setCurrentText(found.fields["unit"])
        self.stage.setCurrentText(found.fields["stage"])
        self.sense.setCurrentText(found.fields["sense"] or "any")
        for key, field in self.texts.items():
            field.setText(found.fields[key])
        for box, key in ((self.before, "before_id"), (self.instrument, "instrument_id")):
            box.setCurrentIndex(max(0, box.findData(found.references[key])))

    def typed(self) -> dict[str, str]:
        """The fields as text."""
        typed = {key: field.text() for key, field in self.texts.items()}
        typed |= {"unit": self.unit.currentText(), "stage": self.stage.currentText()}
        typed["sense"] = "" if self.sense.currentText() == "any" else self.sense.currentText()
        for box, key in ((self.before, "before_id"), (self.instrument, "instrument_id")):
            typed[key] = "" if box.currentData() is None else str(box.currentData())
        return typed

    def _store(self) -> None:
        try:
            if self.survey_id is None:
                names = [name.strip() for name in self.lines.text().split(",") if name.strip()]
                self.survey_id = add_survey(
                    self._desk.store,
                    self._desk.machine_id or 0,
                    self.name.text(),
                    SurveyMethod(self.method.currentData()),
                    lines=names,
                    typed=self.typed(),
                )
            else:
                typed = {"name": self.name.text(), **self.typed()}
                new = {key: text for key, text in typed.items() if text != self._seen.get(key, "")}
                if new:
                    edit(self._desk.store, "survey", [self.survey_id], new, seen=self._seen)
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            return
        self.accept()
