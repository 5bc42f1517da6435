"""Add or edit a feature: name, kind, unit, spec read back as it is typed, its origin, its stations."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.limits.feature_words import kind_in
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.limits.spec_parts import WAYS_TO_TYPE, SpecEntry
from rebuild.trade.sizes.show import show_both
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.forms.read_back import ReadBack
from rebuild.window.forms.record_form import RecordForm
from rebuild.words.counted import counted
from rebuild.words.readings import FeatureKind, SpecOrigin
from rebuild.work.machines import rows_parts as part_sheet
from rebuild.work.machines.rows_card import unit_of
from rebuild.work.readings import acts_features as spec
from rebuild.work.readings.stations import in_one_unit, stations_of
from rebuild.work.records.field import Field
from rebuild.work.records.fields import FIELDS
from rebuild.work.records.rows_settings import decimal_comma

SPEC = Field("spec", "Spec", help=WAYS_TO_TYPE)
STATIONS = Field(
    "stations", "Stations", help="Where readings are taken, with commas: near, mid, far; 0 in, 6 in; or 1-5."
)
NO_LIMITS = "no limits: readings are kept without a verdict"


def add_feature(desk: Desk, parent: QWidget | None, part_id: int | None = None) -> AddDialog:
    """The dialog that adds features to a part; without ``part_id`` to the chosen one."""
    part = desk.selection.part_ids[0] if part_id is None else part_id
    with desk.store.read() as connection:
        named = "; ".join(part_sheet.names(connection, (part,)))
        unit = unit_of(connection, desk.machine_id)
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
    _read_back(desk, dialog.form, dialog.form.boxes["unit"].editor.typed, "stations")
    _follow_the_name(dialog.form)
    # The room of both read-backs, which the dialog did not know when it chose its size.
    dialog.resize(dialog.width(), dialog.height() + 7 * dialog.fontMetrics().lineSpacing())
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


def _read_back(desk: Desk, form: RecordForm, unit: Callable[[], str], stations: str) -> None:
    """Under spec and stations, say how each is read while it is typed; other readings of a spec are offered."""
    spec_box, station_box = form.boxes["spec"], form.boxes[stations]
    spec_said, stations_said = ReadBack("Spec as read", 5, form), ReadBack("Stations as read", 2, form)
    form.show_under("spec", spec_said)
    form.show_under(stations, stations_said)

    def read() -> None:
        comma = decimal_comma(desk.store) if desk.is_open else None
        text = spec_box.editor.typed()
        try:
            entry = parse_spec(text, unit(), decimal_comma=comma)
        except RebuildError as trouble:
            spec_said.show_trouble(trouble, spec_box.widget)
        else:
            spec_said.show_words(said_spec(entry, unit()) if text.strip() else NO_LIMITS)

    def read_stations() -> None:
        names = in_one_unit(stations_of(station_box.editor.typed()))
        stations_said.show_words(f"{counted(len(names), 'station')}: {', '.join(names)}" if names else "")

    spec_said.retyped.connect(spec_box.take)
    spec_box.editor.touched.connect(read)
    station_box.editor.touched.connect(read_stations)
    if "unit" in form.boxes:
        form.boxes["unit"].editor.touched.connect(read)
    read()


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
        more = Field("station", "Add stations", help="With commas: near, mid, far; 0 in, 6 in; or 1-5.")
        self.form = EditForm(
            desk,
            "feature",
            self,
            fields=FIELDS["feature"],
            most_columns=2,
        )
        self.extra = RecordForm(desk, [SPEC, more], self, most_columns=1)
        with desk.store.read() as connection:
            _text, unit = part_sheet.spec_of_feature(connection, feature_id)
        _read_back(desk, self.extra, lambda: unit, "station")
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
                spec.add_stations(store, self.feature_id, stations_of(text))
        except RebuildError as trouble:
            box.show_trouble(trouble)
            return
        self._fill()

    def done(self, result: int) -> None:
        self.form.settle_all()
        if any(box.trouble for box in self.form.boxes.values()):
            return
        super().done(result)
