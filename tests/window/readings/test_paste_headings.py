"""A pasted column's heading that names a stage says where it goes."""

from __future__ import annotations

from rebuild.window.readings.columns import STAGE_COLUMNS
from rebuild.window.readings.paste_landing import entry_for, land, stages_named
from rebuild.words.readings import Stage


def test_a_column_headed_by_a_stage_goes_there_whatever_cell_is_in_hand() -> None:
    named = stages_named(["cleaned, in", "Reading", "as found or cleaned"])
    assert named == (Stage.CLEANED, None, None)
    as_found = STAGE_COLUMNS[0]
    landed = land([["2.361", "2.362"]], [(1, 1)], [as_found, STAGE_COLUMNS[2]], entry_for, named)
    assert [cell.entry.stage for cell in landed.cells] == [Stage.CLEANED, Stage.REWORKED]
    assert landed.left_over == ()
    plain = land([["2.361"]], [(1, 1)], [as_found], entry_for)
    assert [cell.entry.stage for cell in plain.cells] == [Stage.AS_FOUND]
