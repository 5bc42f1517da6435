"""A side of a fit that is no feature yet: named with its part beside the fit, without leaving its dialog."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from rebuild.errors import BadEntry
from rebuild.trade.limits.spec_parts import WAYS_TO_TYPE
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.words.readings import FeatureKind
from rebuild.work.machines.rows_card import unit_of
from rebuild.work.readings import acts_features as spec
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields import field_of

PART = Field(
    "part", "Part", FieldKind.REFERENCE, refers_to="part", required=True, help="Type part of its name."
)
SPEC = Field("spec", "Spec", help=WAYS_TO_TYPE)


def new_side(desk: Desk, parent: QWidget | None, after: Callable[[int], None]) -> AddDialog:
    """The dialog that makes a feature of a part named in it; the chosen part stands there first."""
    fields = [
        PART,
        field_of("feature", "name"),
        field_of("feature", "kind"),
        field_of("feature", "unit"),
        SPEC,
    ]
    chosen = desk.selection.part_ids
    with desk.store.read() as connection:
        unit = unit_of(connection, desk.machine_id)
    adding = Adding(
        "New feature",
        "What is measured of a part: a hole, a journal, a way.",
        fields,
        act=lambda typed: _add(desk, typed),
        after=after,
        prefill=lambda: {
            "unit": unit,
            "kind": FeatureKind.OTHER.value,
            "part": str(chosen[0]) if chosen else "",
        },
    )
    dialog = AddDialog(desk, adding, parent)
    dialog.open()
    return dialog


def _add(desk: Desk, typed: dict[str, str]) -> int:
    part = PART.read(typed.get("part", ""))["part"]
    if not isinstance(part, int):
        raise BadEntry("is empty.", where=PART.label, way_out=PART.help)
    return spec.add_feature(
        desk.store,
        part,
        typed.get("name", ""),
        FeatureKind(typed.get("kind", FeatureKind.OTHER.value)),
        unit=typed.get("unit") or None,
        spec=typed.get("spec", ""),
    )
