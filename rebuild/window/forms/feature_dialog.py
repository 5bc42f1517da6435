"""Add or edit a feature: name, kind, unit, spec read back as it is typed, its origin, its stations."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.limits.feature_words import kind_in
from rebuild.trade.limits.spec_entry import WAYS_TO_TYPE, SpecEntry, parse_spec
from rebuild.trade.sizes.show import show_both
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.forms.record_form import RecordForm
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.readings import FeatureKind, SpecOrigin
from rebuild.work.machines import rows_parts as part_sheet, rows_tree as tree
from rebuild.work.readings import acts_features as spec
from rebuild.work.records.field import Field
from rebuild.work.records.fields import FIELDS
from rebuild.work.records.rows_settings import decimal_comma

SPEC = Field("spec", "Spec", help=WAYS_TO_TYPE)
STATIONS = Field(
    "stations", "Stations", help="Where readings are taken, with commas: near, mid, far or 0 in, 6 in."
)


def add_feature(desk: Desk, parent: QWidget | None, part_id: int | None = None) -> AddDialog:
    """The dialog that adds features to a part; without ``part_id`` to the chosen one."""
    part = desk.selection.part_ids[0] if part_id is None else part_id
    with desk.store.read() as connection:
        named = "; ".join(part_sheet.names(connection, (part,)))
        unit = next((row.unit for row in tree.machines(connection) if row.id == desk.machine_id), "mm")
    by_name = {field.name: field for field in FIELDS["feature"]}
    order = [by_name["name"], by_name["kind"], by_name["unit"], SPEC, by_name["spec_origin"], STATIONS]
    asked: list[tuple[str, ...]] = []
    adding = Adding(
        "New feature",
        f"Of {named}",
        order,
        act=lambda typed: _add(desk, part, typed, asked),
        after=lambda key: desk.choose(key=(key, 0)),
        prefill=lambda: {"unit": unit, "kind": FeatureKind.OTHER.value, "spec_origin": ""},
        further=[field for field in FIELDS["feature"] if field not in order],
    )
    dialog = AddDialog(desk, adding, parent)
    _read_back(desk, dialog.form, dialog)
    _follow_the_name(dialog.form)
    # A label that wraps asks for one line until it is laid out; the longest read-back takes three.
    dialog.resize(dialog.width(), dialog.height() + 3 * dialog.fontMetrics().lineSpacing())
    dialog.open()
    return dialog


def _add(desk: Desk, part_id: int, typed: dict[str, str], asked: list[tuple[str, ...]]) -> int:
    """Add it; a fit letter that does not suit the kind is asked about once for the same name, kind and spec."""
    told = tuple(typed.get(name, "") for name in ("name", "kind", "spec"))
    confirmed = asked == [told]
    asked[:] = [told]
    origin = typed.pop("spec_origin", "")
    return spec.add_feature(
        desk.store,
        part_id,
        typed.pop("name", ""),
        FeatureKind(typed.pop("kind", FeatureKind.OTHER.value)),
        unit=typed.pop("unit", None),
        spec=typed.pop("spec", ""),
        origin=SpecOrigin(origin) if origin else None,
        stations=stations_of(typed.pop("stations", "")),
        typed=typed,
        confirmed=confirmed,
    )


def _follow_the_name(form: RecordForm) -> None:
    """The kind is the one the name tells, until the user chooses one."""
    name, kind = form.boxes["name"], form.boxes["kind"]

    def read() -> None:
        found = kind_in(name.editor.typed())
        if found is not None and not kind.is_touched:
            kind.editor.put(found.value)

    name.editor.touched.connect(read)


def stations_of(text: str) -> list[str]:
    """Stations typed in one line: split at commas or semicolons.

    >>> stations_of("0 in, 3 in; far")
    ['0 in', '3 in', 'far']
    """
    return [part.strip() for part in text.replace(";", ",").split(",") if part.strip()]


def _read_back(desk: Desk, form: RecordForm, owner: QWidget) -> None:
    """Under the spec, say in both units how it is read, while it is being typed."""
    box = form.boxes["spec"]
    said = PlainLabel(owner)
    said.setAccessibleName("Spec as read")
    said.setWordWrap(True)
    form.show_under("spec", said)

    def read() -> None:
        comma = decimal_comma(desk.store) if desk.is_open else None
        said.setText(_sentence(box.editor.typed(), form.boxes["unit"].editor.typed(), comma))

    box.editor.touched.connect(read)
    form.boxes["unit"].editor.touched.connect(read)
    read()


def _sentence(text: str, unit: str, comma: bool | None) -> str:
    if not text.strip():
        return "no limits: readings are kept without a verdict"
    try:
        return said_spec(parse_spec(text, unit, decimal_comma=comma), unit)
    except RebuildError as trouble:
        return str(trouble)


def said_spec(entry: SpecEntry, unit: str) -> str:
    """A spec in words, in both units."""
    parts = [
        f"{word} {show_both(size.mm, unit)}"
        for word, size in (("nominal", entry.nominal), ("from", entry.low), ("to", entry.high))
        if size is not None
    ]
    return ", ".join(parts)


class FeatureDialog(QDialog):
    """Edit a stored feature in place; spec and stations have acts of their own."""

    def __init__(self, desk: Desk, feature_id: int, parent: QWidget | None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.feature_id = feature_id
        self.setWindowTitle("Feature")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        more = Field("station", "Add a station", help="near, mid, far; or a distance: 6 in.")
        self.form = EditForm(
            desk,
            "feature",
            self,
            fields=FIELDS["feature"],
            most_columns=2,
        )
        self.extra = RecordForm(desk, [SPEC, more], self, most_columns=1)
        self.extra.settled.connect(self._store_extra)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        for widget in (self.extra, self.form, buttons):
            layout.addWidget(widget)
        self.resize(680, 420)
        self.form.show_record(feature_id)
        self._fill()

    def _fill(self) -> None:
        with self._desk.store.read() as connection:
            text, _unit = part_sheet.spec_of_feature(connection, self.feature_id)
        self.extra.boxes["spec"].fill(text)
        self.extra.boxes["station"].fill("")

    def _store_extra(self, name: str) -> None:
        box = self.extra.boxes[name]
        if not box.is_touched:
            return
        box.is_touched = False
        text = box.editor.typed()
        store = self._desk.store
        try:
            if name == "spec":
                spec.set_spec(store, [self.feature_id], text)
            elif text.strip():
                spec.add_station(store, self.feature_id, text)
        except RebuildError as trouble:
            box.show_trouble(trouble)
            return
        self._fill()

    def done(self, result: int) -> None:
        self.form.settle_all()
        if any(box.trouble for box in self.form.boxes.values()):
            return
        super().done(result)
