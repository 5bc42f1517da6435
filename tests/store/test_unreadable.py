"""One bad cell must not lock the user out: it is named, its row or cell is set aside, everything else works."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from rebuild.errors import FileTrouble
from rebuild.store.connect import read_only
from rebuild.store.store import Store
from rebuild.store.unreadable import BadCell, in_words, unreadable
from rebuild.trade.sizes.quantity import FACTORS
from rebuild.words.lengths import LengthUnit
from tests.conftest import Shop


def spoil(path: Path, *statements: str) -> None:
    """Write into a file as a disk or another program would: no journal, no rules."""
    raw = sqlite3.connect(path)
    for statement in statements:
        raw.execute(statement)
    raw.commit()
    raw.close()


def found(path: Path) -> list[BadCell]:
    raw = read_only(path)
    try:
        return unreadable(raw)
    finally:
        raw.close()


def test_a_sound_file_has_none(demo_template: Path, shop: Shop) -> None:
    assert found(demo_template) == []
    assert found(shop.path) == []


BAD = [
    ("task", "state", "'zeppelin'", "“zeppelin”, which is none of the words for it", False),
    ("task", "state", "x'c3'", "none of the words for it", False),
    ("part", "name", "CAST(x'5370c3' AS TEXT)", "no text in UTF-8", False),
    ("part", "quantity", "'many'", "“many”, which is no whole number", False),
    ("part", "decided_at", "'2023-02-31T10:00:00'", "no time", False),
    ("reading", "taken_at", "'yesterday'", "no time", True),
    ("reading", "value_mm", "'abc'", "“abc”, which is no number", True),
    ("reading", "value_mm", "9e999", "“Inf”, which is no number", True),
    ("reading", "stage", "'zeppelin'", "none of the words for it", True),
    ("feature", "part_id", "99", "“99”, which is the number of no part that is there", True),
    ("machine", "unit", "'ell'", "“ell”, which is no unit of length", False),
    ("part", "place_id", "99", "“99”, which is the number of no place that is there", False),
    ("part", "subassembly_id", "'x'", "“x”, which is no whole number", False),
]


@pytest.mark.parametrize(("table", "column", "value", "words", "left_out"), BAD)
def test_a_bad_cell_is_named_and_set_aside(
    shop: Shop, table: str, column: str, value: str, words: str, left_out: bool
) -> None:
    from rebuild.words.readings import Stage
    from rebuild.work.readings.acts import Entry, record_reading

    record_reading(shop.store, "59.98", Entry(shop.journal, shop.near, Stage.AS_FOUND, shop.micrometer))
    shop.close()
    row = 1
    spoil(shop.path, f'UPDATE "{table}" SET "{column}" = {value} WHERE id = {row}')
    cells = [cell for cell in found(shop.path) if cell.row == row]
    assert [(cell.table, cell.column, cell.leaves_row_out) for cell in cells] == [(table, column, left_out)]
    assert words in str(cells[0])
    before = shop.path.read_bytes()
    store = Store.open(shop.path)
    try:
        with store.read() as connection:
            ids = connection.exec_driver_sql(f'SELECT id FROM "{table}"').scalars().all()
            shown = connection.exec_driver_sql(f'SELECT "{column}" FROM "{table}" WHERE id = {row}').first()
    finally:
        store.close()
    assert (row not in ids) == left_out
    if not left_out:
        assert shown is not None
        assert shown[0] == cells[0].stands_in
    assert shop.path.read_bytes() == before, "reading round a cell never writes"


def test_what_goes_with_a_row_left_out_is_left_out_too(shop: Shop) -> None:
    spoil(shop.path, f"UPDATE feature SET part_id = 99 WHERE id = {shop.journal}")
    with shop.store.read() as connection:
        stations = connection.exec_driver_sql("SELECT feature_id FROM station").scalars().all()
    assert shop.journal not in stations


def test_everything_else_is_still_written(shop: Shop) -> None:
    from rebuild.work.machines.acts import add_part

    spoil(shop.path, f"UPDATE task SET state = 'zeppelin' WHERE id = {shop.strip}")
    new = add_part(shop.store, shop.machine, shop.headstock, "drip tray", "HS-09")
    shop.close()
    raw = sqlite3.connect(shop.path)
    assert raw.execute("SELECT name FROM part WHERE id = ?", (new,)).fetchone() == ("drip tray",)
    assert raw.execute("SELECT state FROM task WHERE id = ?", (shop.strip,)).fetchone() == ("zeppelin",)
    raw.close()


def test_an_act_on_the_bad_row_itself_is_refused_and_stores_nothing(shop: Shop) -> None:
    from rebuild.work.steps.acts import tick

    spoil(shop.path, f"UPDATE task SET state = 'zeppelin' WHERE id = {shop.strip}")
    acts = shop.store.undo_label()
    with pytest.raises(FileTrouble, match="cannot be read") as refused:
        tick(shop.store, shop.strip)
    assert "zeppelin" in str(refused.value)
    assert shop.store.undo_label() == acts


def test_a_fault_of_ours_in_a_sound_file_is_not_hidden(shop: Shop) -> None:
    from rebuild.store.act import Act

    with pytest.raises(LookupError), shop.store.act(Act.EDIT):
        raise LookupError("ours")


def test_one_sentence_for_the_message_line() -> None:
    one = BadCell("task", 3, "state", "zeppelin", "none of the words for it", "planned", leaves_row_out=False)
    two = BadCell("reading", 4, "value_mm", "abc", "no number", None, leaves_row_out=True)
    assert in_words([]) == ""
    assert in_words([one]).startswith("One cell of this file cannot be read (task no. 3, state: “zeppelin”).")
    assert "2 cells" in in_words([one, two])
    assert "1 row is left out" in in_words([one, two])


def test_a_file_spoilt_all_over_still_opens(shop: Shop) -> None:
    raw = sqlite3.connect(shop.path)
    tables = [
        name
        for (name,) in raw.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name LIKE 'j!_%' ESCAPE '!'"
        )
    ]
    for shadow in tables:
        for column in [row[1] for row in raw.execute(f'PRAGMA table_info("{shadow[2:]}")')][1:]:
            raw.execute(f'UPDATE "{shadow[2:]}" SET "{column}" = x\'ff00\'')
    raw.commit()
    raw.close()
    with shop.store.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM reading").scalar_one() == 0
    assert len(shop.store.unreadable) > 100


def test_every_unit_the_trade_reads_may_be_stored() -> None:
    """The store knows the trade's units by their words only."""
    assert {str(unit) for unit in LengthUnit} == set(FACTORS)
