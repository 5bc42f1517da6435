"""Answer whether a sheet's thread runs on the mate offered: make the fit and take its limits, or not its mate."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.words.fits import Side
from rebuild.words.making import PartShape
from rebuild.work.fits.acts import FitEntry, put_fit
from rebuild.work.making.acts_features import give_feature
from rebuild.work.making.acts_fill import refresh_all
from rebuild.work.making.acts_issue import follows_issue
from rebuild.work.making.rows_offered import OfferedMate, offered
from rebuild.work.making.rules import called, dimensions_of, open_sheet
from rebuild.work.making.rules_threads import pitch_rows
from rebuild.work.records.rows_settings import decimal_comma


def make_fit(store: Store, sheet_id: int, mate: OfferedMate, wanted: str, *, confirmed: bool = False) -> int:
    """The fit of a sheet's thread and the mate offered; the sheet takes its limits at once. Returns the fit's id.

    Raises:
        BadEntry: nothing is wanted between the two, or the sheet is settled.
        Ambiguous, OutOfRange, Implausible: as ``fits.acts.add_fit``.
        NotThere: the mate was removed.
    """
    if not wanted.strip():
        raise BadEntry(
            "is empty.", where="To be", way_out="Type what is wanted between the two, as 0.002-0.005."
        )
    comma = decimal_comma(store)
    with store.act(Act.ADD_FIT, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        row = pitch_rows(dimensions_of(tx, sheet.id))[0]
        give_feature(tx, tx.get(Part, sheet.part_id, "part"), sheet, row)
        tx.session.flush()
        assert row.feature_id is not None
        nut = sheet.shape is PartShape.NUT
        sides = (row.feature_id, mate.feature_id) if nut else (mate.feature_id, row.feature_id)
        master = Side.INNER if nut else Side.OUTER
        made = put_fit(tx, FitEntry(*sides, wanted=wanted, master=master), comma, confirmed=confirmed)
        tx.session.flush()
        with follows_issue(tx, sheet):
            refresh_all(tx, sheet)
        tx.subject = f"of {called(tx, sheet)} and {mate.mate}"
        return made.id


def not_its_mate(store: Store, sheet_id: int) -> None:
    """The mate offered is none: the sheet notes it, and never offers it again. Raises BadEntry when settled."""
    with store.act(Act.CHANGE_SHEET, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        mate = offered(tx.connection, sheet_id)
        if mate is not None:
            sheet.note = "\n".join(filter(None, (sheet.note, mate.refusal)))
            tx.subject = f"of {called(tx, sheet)}: not to {mate.mate}"
