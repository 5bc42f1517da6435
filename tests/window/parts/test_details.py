"""The details pane: what is chosen, its leaves, in place, and in step with the file."""

from __future__ import annotations

import pytest
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk, ShowUnit
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.parts.concessions_leaf import ConcessionsLeaf
from rebuild.window.parts.details import DetailsPane
from rebuild.window.parts.features_leaf import FeaturesLeaf
from rebuild.window.parts.fields_leaf import FieldsLeaf
from rebuild.window.parts.history_leaf import HistoryLeaf
from rebuild.window.parts.leaf import TableLeaf
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure
from rebuild.work.records.rows import card
from tests.conftest import Shop
from tests.window.forms.test_forms import choose, type_into


@pytest.fixture
def details(desk: Desk, shop: Shop, qtbot: QtBot) -> DetailsPane:
    made = DetailsPane(desk)
    qtbot.addWidget(made)
    made.resize(900, 400)
    made.show()
    made.show_leaf("details")
    desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    return made


def form(details: DetailsPane, record: str = "part") -> EditForm:
    leaf = details.leaf("details")
    assert isinstance(leaf, FieldsLeaf)
    return leaf.form(record)


def table(details: DetailsPane, key: str, kind: type[TableLeaf]) -> list[tuple[str, ...]]:
    details.show_leaf(key)
    leaf = details.leaf(key)
    assert isinstance(leaf, kind)
    return [leaf.table.plain.text(row) for row in range(leaf.table.plain.rowCount())]


def test_details_are_of_the_part_else_the_subassembly_else_the_machine(
    details: DetailsPane, desk: Desk, shop: Shop
) -> None:
    assert form(details).boxes["name"].editor.typed() == "bearing cap"
    desk.choose(part_ids=())
    assert form(details, "subassembly").boxes["name"].editor.typed() == "Headstock"
    assert form(details).row_id is None
    desk.choose(subassembly_id=None)
    assert form(details, "machine").boxes["name"].editor.typed() == "Toolroom lathe"


def test_head_names_what_is_shown_and_how_many_are_chosen(
    details: DetailsPane, desk: Desk, shop: Shop
) -> None:
    assert details._title.text() == "HS-02 bearing cap"
    desk.choose(part_ids=(shop.cap, shop.spindle))
    assert details._title.text() == "HS-01 spindle, last of 2 chosen"
    edit.edit(desk.store, "part", [shop.spindle], {"name": "main spindle"})
    assert details._title.text() == "HS-01 main spindle, last of 2 chosen"
    edit.remove(desk.store, "part", [shop.spindle])
    assert details._title.text() == ""


def test_decision_in_place_waits_for_its_reason(
    details: DetailsPane, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    desk.choose(part_ids=(shop.spindle,))
    boxes = form(details).boxes
    choose(boxes["decision"].widget, "rework")
    assert "to rework" in boxes["decision_reason"].trouble
    assert boxes["decision"].editor.typed() == "rework"
    type_into(qtbot, boxes["decision_reason"].widget, "scored at the nose")
    form(details).commit("decision_reason")
    with desk.store.read() as connection:
        fields = card(connection, "part", shop.spindle).fields
    assert (fields["decision"], fields["decision_reason"]) == ("rework", "scored at the nose")
    assert (boxes["decision"].trouble, boxes["decision_reason"].trouble) == ("", "")
    assert desk.store.undo_label() == "decision rework on HS-01 spindle"


def test_place_in_place_is_putting_away(details: DetailsPane, desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    identify.add_place(desk.store, "7")
    box = form(details).boxes["place_id"]
    type_into(qtbot, box.widget, "7")
    form(details).commit("place_id")
    assert desk.store.undo_label() == "putting away HS-02 bearing cap in 7"


def test_features_show_the_reading_that_speaks_and_its_verdict(
    details: DetailsPane, desk: Desk, shop: Shop
) -> None:
    desk.choose(part_ids=(shop.spindle,))
    entry = measure.Entry(shop.journal, shop.near, Stage.AS_FOUND, shop.micrometer)
    measure.record_reading(desk.store, "59.98", entry)
    rows = table(details, "features", FeaturesLeaf)
    assert rows[0] == (
        "front journal",
        "near",
        "outside diameter",
        "60 -0.010/-0.029",
        "59.98 mm",
        "as found",
        "conforms",
        "drawing",
    )
    assert rows[1][4:] == ("", "", "", "drawing")
    measure.record_reading(desk.store, "59.90", entry)
    assert table(details, "features", FeaturesLeaf)[0][4:7] == ("59.90 mm", "as found", "does not conform")
    desk.choose_unit(ShowUnit.IN)
    assert table(details, "features", FeaturesLeaf)[0][4] == "2.3583 in"


def test_feature_leads_to_the_grid(details: DetailsPane, desk: Desk, shop: Shop) -> None:
    desk.choose(part_ids=(shop.spindle,))
    table(details, "features", FeaturesLeaf)
    leaf = details.leaf("features")
    assert isinstance(leaf, FeaturesLeaf)
    leaf.table.selectRow(1)
    leaf._go()
    assert desk.selection.key == (shop.journal, shop.far)


def test_concessions_are_listed_and_taken_away(details: DetailsPane, desk: Desk, shop: Shop) -> None:
    decide.concede(desk.store, shop.cap, "runs cool", accepted="0.005 in", by="B.")
    (row,) = table(details, "concessions", ConcessionsLeaf)
    assert row[1:] == ("the part", "0.005 in", "B.", "runs cool")
    leaf = details.leaf("concessions")
    assert isinstance(leaf, ConcessionsLeaf)
    leaf.table.selectRow(0)
    leaf._remove()
    assert table(details, "concessions", ConcessionsLeaf) == []


def test_history_tells_each_field_before_and_after(details: DetailsPane, desk: Desk, shop: Shop) -> None:
    edit.edit(desk.store, "part", [shop.cap], {"material": "GG-25"})
    rows = table(details, "history", HistoryLeaf)
    assert rows[0][1:] == ("edit of material on HS-02 bearing cap", "part", "Material", "", "GG-25")
    decide.decide(desk.store, [shop.cap], Decision.REUSE)
    assert "decision reuse on HS-02 bearing cap" in [row[1] for row in table(details, "history", HistoryLeaf)]


def test_leaf_that_is_not_seen_reads_nothing(details: DetailsPane, desk: Desk, shop: Shop) -> None:
    table(details, "history", HistoryLeaf)
    details.show_leaf("details")
    leaf = details.leaf("history")
    assert isinstance(leaf, HistoryLeaf)
    before = leaf.table.plain.rowCount()
    edit.edit(desk.store, "part", [shop.cap], {"material": "GG-25"})
    assert leaf.table.plain.rowCount() == before
    details.show_leaf("history")
    assert leaf.table.plain.rowCount() == before + 1


def test_table_models_keep_the_rules_of_qt(
    details: DetailsPane, desk: Desk, qtmodeltester: ModelTester
) -> None:
    for key in ("features", "concessions", "history"):
        details.show_leaf(key)
        leaf = details.leaf(key)
        assert isinstance(leaf, TableLeaf)
        qtmodeltester.check(leaf.table.plain)


def test_other_machine_empties_the_leaves(details: DetailsPane, desk: Desk, shop: Shop) -> None:
    table(details, "history", HistoryLeaf)
    other = identify.add_machine(desk.store, "Shaper")
    desk.choose_machine(other)
    assert table(details, "history", HistoryLeaf) == []
    assert form(details, "machine").boxes["name"].editor.typed() == "Shaper"
