"""The grid's model: prepared rows, no query in data(), only the rows concerned change."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

import pytest
from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtTest import QAbstractItemModelTester
from sqlalchemy import event

from rebuild.store.store import Store
from rebuild.trade.limits.judgement import Verdict
from rebuild.window.desk.desk import Desk, ShowUnit
from rebuild.window.readings.columns import STAGE_COLUMNS, Column
from rebuild.window.readings.model import DRAFT, PAGE, GridModel
from rebuild.window.readings.runs import runs
from rebuild.window.readings.shown import copy_text
from rebuild.words.decisions import Decision
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.editing.acts import remove
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts_features as spec
from rebuild.work.readings.acts import Entry, record_reading, strike_reading
from rebuild.work.readings.rows_grid import Asked, SortBy
from tests.conftest import Shop

FOUND, CLEANED = STAGE_COLUMNS[0], STAGE_COLUMNS[1]
ROLES = (
    Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.DecorationRole, Qt.ItemDataRole.FontRole,
    Qt.ItemDataRole.TextAlignmentRole, Qt.ItemDataRole.ForegroundRole, Qt.ItemDataRole.BackgroundRole,
    Qt.ItemDataRole.CheckStateRole, Qt.ItemDataRole.EditRole, Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
)  # fmt: skip


@contextmanager
def statements(store: Store) -> Iterator[list[str]]:
    """Every statement sent to the file meanwhile, by reader and writer."""
    seen: list[str] = []

    def note(*args: object) -> None:
        seen.append(str(args[2]))

    engines = (store._reader, store._writer)
    for engine in engines:
        event.listen(engine, "before_cursor_execute", note)
    yield seen
    for engine in engines:
        event.remove(engine, "before_cursor_execute", note)


@pytest.fixture
def model(desk: Desk, shop: Shop) -> Iterator[GridModel]:
    made = GridModel(desk)
    tester = QAbstractItemModelTester(made, QAbstractItemModelTester.FailureReportingMode.Fatal)
    desk.changed.connect(made.hear)
    made.ask(Asked(shop.machine))
    made.ensure(0, 10)
    yield made
    desk.changed.disconnect(made.hear)
    tester.deleteLater()
    made.deleteLater()


def text(model: GridModel, row: int, column: int) -> str:
    model.ensure(row, row)
    return str(model.data(model.index(row, column)) or "")


def column_of(model: GridModel, column: int) -> list[str]:
    return [text(model, row, column) for row in range(model.rowCount())]


def read(
    desk: Desk, shop: Shop, typed: str, station: int | None = None, stage: Stage = Stage.AS_FOUND
) -> int:
    entry = Entry(shop.journal, station, stage, shop.micrometer)
    return record_reading(desk.store, typed, entry, confirmed=True).reading_id


def test_rows_come_in_the_order_of_the_tree(model: GridModel) -> None:
    assert column_of(model, Column.PART) == ["HS-01  spindle", "HS-01  spindle", "HS-02  bearing cap"]
    assert column_of(model, Column.STATION) == ["near", "far", ""]
    assert column_of(model, Column.SPEC) == ["60 -0.010/-0.029", "60 -0.010/-0.029", "max 0.004"]
    assert column_of(model, Column.UNIT) == ["mm", "mm", "in"]


def test_readings_show_as_typed_and_convert_with_the_unit(desk: Desk, shop: Shop, model: GridModel) -> None:
    record_reading(desk.store, "59,98", Entry(shop.journal, shop.near), confirmed=True)
    record_reading(desk.store, "3 thou", Entry(shop.lost_motion), confirmed=True)
    record_reading(desk.store, "59.98; 59.99", Entry(shop.journal, shop.far), confirmed=True)
    assert column_of(model, FOUND) == ["59,98", "59.985", "0.0030"]
    desk.unit_changed.connect(model.show_other_unit)
    desk.choose_unit(ShowUnit.IN)
    assert column_of(model, FOUND) == ["2.3614", "2.3616", "0.0030"]
    assert column_of(model, Column.SPEC)[0] == "2.3611 to 2.3618"
    desk.choose_unit(ShowUnit.MM)
    assert column_of(model, FOUND)[2] == "0.076"
    desk.unit_changed.disconnect(model.show_other_unit)


def test_off_spec_is_signed_outside_and_plain_inside(desk: Desk, shop: Shop, model: GridModel) -> None:
    read(desk, shop, "59.960", shop.near)
    read(desk, shop, "59.985", shop.far)
    record_reading(desk.store, "0.0045", Entry(shop.lost_motion), confirmed=True)
    assert column_of(model, Column.OFF) == ["-0.011", "0.005", "+0.0005"]
    faint = [model.data(model.index(row, Column.OFF), Qt.ItemDataRole.ForegroundRole) for row in range(3)]
    assert [ink is not None for ink in faint] == [False, True, False]


def test_the_reading_that_speaks_is_in_full_ink_and_older_stages_are_faint(
    desk: Desk, shop: Shop, model: GridModel
) -> None:
    read(desk, shop, "59.985", shop.near)
    read(desk, shop, "59.984", shop.near, Stage.CLEANED)
    faint = [
        model.data(model.index(0, column), Qt.ItemDataRole.ForegroundRole) for column in (FOUND, CLEANED)
    ]
    assert faint[0] is not None
    assert faint[1] is None


def test_a_copied_fraction_is_a_plain_decimal(desk: Desk, shop: Shop, model: GridModel) -> None:
    record_reading(desk.store, "1/8", Entry(shop.lost_motion), confirmed=True)
    shown = model.shown_at(2)
    assert shown is not None
    assert shown.texts[FOUND] == "1/8"
    assert copy_text(shown, FOUND) == "0.125"


def test_data_asks_the_file_nothing(desk: Desk, shop: Shop, model: GridModel) -> None:
    read(desk, shop, "59.985", shop.near)
    with statements(desk.store) as seen:
        for row in range(model.rowCount()):
            for column in range(model.columnCount()):
                for role in ROLES:
                    model.data(model.index(row, column), role)
    assert seen == []


def many_features(desk: Desk, shop: Shop, count: int) -> None:
    """Put in from another window and heard at once: the desk would repaint after each of them."""
    part = identify.add_part(shop.store, shop.machine, shop.headstock, "rack", "HS-90")
    for number in range(count):
        spec.add_feature(shop.store, part, f"tooth {number}", FeatureKind.WIDTH, spec="6 ±0.02")
    desk._look_elsewhere()


def test_a_page_is_loaded_with_few_statements_whatever_its_size(
    desk: Desk, shop: Shop, model: GridModel
) -> None:
    many_features(desk, shop, 2 * PAGE)
    with statements(desk.store) as seen:
        model.ensure(0, 30)
    assert len(seen) <= 5, seen
    with statements(desk.store) as seen:
        model.ensure(5, 40)
    assert seen == [], "the page is there already"
    assert model.data(model.index(2 * PAGE, 0)) is None, "rows far off are not loaded"
    assert text(model, 2 * PAGE, Column.PART) == "HS-90  rack"


def test_one_reading_changes_one_row_with_few_statements(desk: Desk, shop: Shop, model: GridModel) -> None:
    changed: list[tuple[int, int]] = []
    model.dataChanged.connect(lambda top, bottom: changed.append((top.row(), bottom.row())))
    resets: list[bool] = []
    model.modelReset.connect(lambda: resets.append(True))
    with statements(desk.store) as seen:
        read(desk, shop, "59.985", shop.far)
    assert changed == [(1, 1)]
    assert resets == []
    asked = [words for words in seen if words.startswith("SELECT")]
    assert len(asked) <= 12, asked
    assert text(model, 1, FOUND) == "59.985"


def test_a_reading_taken_in_another_window_appears(desk: Desk, shop: Shop, model: GridModel) -> None:
    record_reading(shop.store, "59.985", Entry(shop.journal, shop.near, Stage.CLEANED))
    desk._look_elsewhere()
    assert text(model, 0, CLEANED) == "59.985"


def test_features_come_and_go_without_a_reset(desk: Desk, shop: Shop, model: GridModel) -> None:
    resets: list[bool] = []
    model.modelReset.connect(lambda: resets.append(True))
    kept = QPersistentModelIndex(model.index(2, 0))
    added = spec.add_feature(desk.store, shop.spindle, "nose thread")
    assert column_of(model, Column.FEATURE) == [
        "front journal",
        "front journal",
        "nose thread",
        "lost motion",
    ]
    assert kept.row() == 3
    remove(desk.store, "feature", [shop.journal])
    assert column_of(model, Column.FEATURE) == ["nose thread", "lost motion"]
    assert kept.row() == 1
    desk.undo()
    assert model.rowCount() == 4
    assert model.place_of((added, 0)) == 2
    assert resets == []


def test_an_undone_reading_leaves_its_cell(desk: Desk, shop: Shop, model: GridModel) -> None:
    read(desk, shop, "59.985", shop.near)
    read(desk, shop, "59.984", shop.near)
    desk.undo()
    assert text(model, 0, FOUND) == "59.985"
    desk.undo()
    assert text(model, 0, FOUND) == ""
    desk.redo()
    assert text(model, 0, FOUND) == "59.985"


def test_a_struck_reading_lets_the_one_before_speak(desk: Desk, shop: Shop, model: GridModel) -> None:
    read(desk, shop, "59.985", shop.near)
    wrong = read(desk, shop, "59.958", shop.near)
    strike_reading(desk.store, wrong, "jaws not clean")
    assert text(model, 0, FOUND) == "59.985"


def test_a_reading_of_the_whole_feature_has_a_row_while_it_stands(
    desk: Desk, shop: Shop, model: GridModel
) -> None:
    at_large = read(desk, shop, "59.98")
    assert model.place_of((shop.journal, 0)) is not None
    assert model.rowCount() == 4
    strike_reading(desk.store, at_large, "no station noted")
    assert model.rowCount() == 3


def test_a_decision_shows_in_the_rows_of_its_part_only(desk: Desk, shop: Shop, model: GridModel) -> None:
    changed: list[int] = []
    model.dataChanged.connect(lambda top, bottom: changed.extend(range(top.row(), bottom.row() + 1)))
    decide.decide(desk.store, [shop.cap], Decision.REUSE)
    assert changed == [2]
    tip = model.data(model.index(2, Column.PART), Qt.ItemDataRole.ToolTipRole)
    assert str(tip).endswith("reuse")


def test_a_finer_instrument_limit_judges_every_row_again(desk: Desk, shop: Shop, model: GridModel) -> None:
    from rebuild.work.editing.acts import edit

    read(desk, shop, "59.985", shop.near)
    before = text(model, 0, Column.VERDICT)
    edit(desk.store, "instrument", [shop.micrometer], {"mpe": "0.0001", "resolution": "0.0001"})
    assert (before, text(model, 0, Column.VERDICT)) == ("undecided", "conforms")


FILTERS: list[tuple[str, Callable[[Shop], Asked], list[str]]] = [
    ("words", lambda shop: Asked(shop.machine, text="jour far"), ["far"]),
    ("decision", lambda shop: Asked(shop.machine, decisions=frozenset({Decision.REMAKE})), [""]),
    ("part", lambda shop: Asked(shop.machine, part_ids=frozenset({shop.cap})), [""]),
    ("subassembly", lambda shop: Asked(shop.machine, frozenset({shop.carriage})), []),
    ("verdict", lambda shop: Asked(shop.machine, verdicts=frozenset({Verdict.DOES_NOT})), ["far"]),
    ("read", lambda shop: Asked(shop.machine, stage=Stage.AS_FOUND), ["near", "far"]),
    ("unread", lambda shop: Asked(shop.machine, unread=True), [""]),
    ("worst", lambda shop: Asked(shop.machine, sort=SortBy.WORST), ["far", "near", ""]),
    ("newest", lambda shop: Asked(shop.machine, sort=SortBy.NEWEST, descending=True), ["far", "near", ""]),
    ("code down", lambda shop: Asked(shop.machine, sort=SortBy.CODE, descending=True), ["", "near", "far"]),
]


@pytest.mark.parametrize(("asked", "stations"), [row[1:] for row in FILTERS], ids=[row[0] for row in FILTERS])
def test_filters_and_orders(
    desk: Desk, shop: Shop, model: GridModel, asked: Callable[[Shop], Asked], stations: list[str]
) -> None:
    read(desk, shop, "59.984", shop.near)
    read(desk, shop, "59.90", shop.far)
    model.ask(asked(shop))
    assert column_of(model, Column.STATION) == stations


def test_unread_rows_go_as_they_are_read(desk: Desk, shop: Shop, model: GridModel) -> None:
    model.ask(Asked(shop.machine, stage=Stage.CLEANED, unread=True))
    read(desk, shop, "59.984", shop.near, Stage.CLEANED)
    assert column_of(model, Column.STATION) == ["far", ""]


def test_a_row_does_not_jump_away_from_a_verdict_filter_while_it_is_measured(
    desk: Desk, shop: Shop, model: GridModel
) -> None:
    read(desk, shop, "59.90", shop.near)
    model.ask(Asked(shop.machine, verdicts=frozenset({Verdict.DOES_NOT})))
    assert model.rowCount() == 1
    read(desk, shop, "59.981", shop.near, Stage.REWORKED)
    assert model.rowCount() == 1
    model.refresh()
    assert model.rowCount() == 0


def test_reordering_keeps_selected_rows(desk: Desk, shop: Shop, model: GridModel) -> None:
    kept = QPersistentModelIndex(model.index(2, Column.SPEC))
    resets: list[bool] = []
    model.modelReset.connect(lambda: resets.append(True))
    from rebuild.work.machines.acts import move_parts

    move_parts(desk.store, [shop.cap], shop.headstock, at=0)
    assert column_of(model, Column.FEATURE)[0] == "lost motion"
    assert (kept.row(), kept.column()) == (0, Column.SPEC)
    assert resets == []


def test_a_draft_is_shown_and_kept_until_given_up(model: GridModel) -> None:
    key = model.keys[0]
    model.keep_draft(key, Column.SPEC, "60 about")
    assert text(model, 0, Column.SPEC) == "60 about ?"
    assert model.data(model.index(0, Column.SPEC), Qt.ItemDataRole.EditRole) == "60 about"
    assert model.index(0, Column.SPEC).data(DRAFT) is True
    assert model.index(0, Column.VERDICT).data(DRAFT) is False
    model.keep_draft(key, Column.SPEC, None)
    assert text(model, 0, Column.SPEC) == "60 -0.010/-0.029"


def test_only_spec_and_stages_are_edited(model: GridModel) -> None:
    editable = {
        column for column in Column if model.flags(model.index(0, column)) & Qt.ItemFlag.ItemIsEditable
    }
    assert editable == {Column.SPEC, *STAGE_COLUMNS}
    assert model.flags(QModelIndex()) == Qt.ItemFlag.NoItemFlags


def test_an_empty_desk_has_no_rows(empty_desk: Desk) -> None:
    model = GridModel(empty_desk)
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    model.ask(None)
    assert model.rowCount() == 0
    tester.deleteLater()


def test_runs_of_neighbours() -> None:
    assert runs([]) == []
    assert runs([7]) == [(7, 7)]
    assert runs([3, 2, 9, 8, 1]) == [(1, 3), (8, 9)]
