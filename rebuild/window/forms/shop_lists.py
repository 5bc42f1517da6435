"""The shop's lists: instruments with their limits and where those come from, places, matched sets."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms import new
from rebuild.window.forms.limit_dialog import limit_from_standard
from rebuild.window.forms.record_list import Listing, RecordList, Row
from rebuild.work.machines import rows_parts as part_sheet
from rebuild.work.records.rows import card, choices

if TYPE_CHECKING:
    from sqlalchemy import Connection


def instrument_list(desk: Desk, parent: QWidget | None) -> RecordList:
    """Instruments: what each reads to, its error limit, and how far that figure can be trusted."""
    listing = Listing(
        "Instruments",
        "instrument",
        ("Instrument", "Kind", "Resolution", "Limit of error", "Known from"),
        (27, 18, 10, 14, 30),
        _instruments,
        lambda shown: new.new_instrument(desk, shown, shown.table.choose),
    )
    shown = RecordList(desk, listing, parent)
    shown.add_plain_button("Limit from a standard…", lambda: _limit_from_standard(shown))
    shown.open()
    return shown


def _limit_from_standard(shown: RecordList) -> None:
    key = shown.table.chosen()
    if key is not None:
        limit_from_standard(shown.desk, key, shown)


def _instruments(connection: Connection) -> list[Row]:
    rows: list[Row] = []
    for choice in choices(connection, "instrument", 0):
        fields = card(connection, "instrument", choice.id).fields
        limit = f"± {fields['mpe']}" if fields["mpe"] else ""
        if fields["uncertainty"]:
            limit = f"{limit}  U {fields['uncertainty']} (k {fields['coverage_k']})".strip()
        source = fields["limit_source"] or ("no source given" if limit else "")
        rows.append(
            (
                choice.id,
                (choice.label, fields["kind"], fields["resolution"], limit or "not known", source),
            )
        )
    return rows


def place_list(desk: Desk, parent: QWidget | None) -> RecordList:
    """Places parts can lie in, and since when."""
    listing = Listing(
        "Places",
        "place",
        ("Place", "Kind", "Since", "Note"),
        (26, 16, 16, 30),
        _places,
        lambda shown: new.new_place(desk, shown, shown.table.choose),
    )
    shown = RecordList(desk, listing, parent)
    shown.open()
    return shown


def _places(connection: Connection) -> list[Row]:
    rows: list[Row] = []
    for choice in choices(connection, "place", 0):
        fields = card(connection, "place", choice.id).fields
        rows.append((choice.id, (fields["name"], fields["kind"], fields["since"], fields["note"])))
    return rows


def matched_set_list(desk: Desk, parent: QWidget | None) -> RecordList | None:
    """Parts that must stay together."""
    machine_id = desk.machine_id
    if machine_id is None:
        desk.say("There is no machine yet. Add one first (Ctrl+M).")
        return None

    def read(connection: Connection) -> list[Row]:
        members = part_sheet.set_members(connection, machine_id)
        return [
            (choice.id, (choice.label, "; ".join(members.get(choice.id, ())) or "no parts yet"))
            for choice in choices(connection, "matched set", machine_id)
        ]

    listing = Listing(
        "Matched sets",
        "matched_set",
        ("Matched set", "Parts"),
        (26, 50),
        read,
        lambda shown: new.new_matched_set(desk, shown, after=shown.table.choose),
        shows=(part_sheet,),
    )
    shown = RecordList(desk, listing, parent)
    shown.open()
    return shown
