"""Take an instrument's error limit from a standard's table: the row, its source and its status."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.trade.limits.instruments import instrument_limit, kinds
from rebuild.trade.sizes.quantity import parse_length
from rebuild.trade.sizes.show import exact_text
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.work.editing.acts import edit
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.rows import Choice, card
from rebuild.work.records.rows_settings import decimal_comma

KIND = Field(
    "kind",
    "Kind",
    FieldKind.REFERENCE,
    refers_to="kind in the tables",
    required=True,
    help="Type any part of the kind's name.",
)
REACH = Field(
    "reach",
    "Size or travel",
    required=True,
    help="The largest size measured with it; for an indicator its travel.",
)


def limit_from_standard(desk: Desk, instrument_id: int, parent: QWidget | None) -> AddDialog:
    """The dialog that takes limit and source of an instrument from the tables, in the unit it reads.

    What it resolves is its own: the table's figure is taken only where none is given.
    """
    listed = kinds()

    def act(typed: dict[str, str]) -> int:
        kind = listed[int(str(KIND.read(typed.get("kind", ""))["kind"])) - 1]
        with desk.store.read() as connection:
            known = card(connection, "instrument", instrument_id).fields
        unit = known["unit"]
        reach = parse_length(
            typed.get("reach", ""), unit, REACH.label, decimal_comma=decimal_comma(desk.store)
        )
        limit = instrument_limit(kind, reach.mm)
        taken = {
            "mpe": f"{exact_text(limit.mpe_mm or 0.0, unit)} {unit}",
            "limit_source": limit.source.cite() if limit.source else "",
        }
        if not known["resolution"]:
            taken["resolution"] = f"{exact_text(limit.resolution_mm, unit)} {unit}"
        edit(desk.store, "instrument", [instrument_id], taken)
        return instrument_id

    under = "A maker's or a calibration's figure is always better. Each row carries its standard and status."
    dialog = AddDialog(
        desk, Adding("Limit from a standard", under, [KIND, REACH], act=act, again=False), parent
    )
    editor = dialog.form.boxes["kind"].widget
    assert isinstance(editor, ReferenceEditor)
    editor.offer([Choice(place, kind) for place, kind in enumerate(listed, 1)])
    dialog.add_button.setText("Take it")
    dialog.open()
    return dialog
