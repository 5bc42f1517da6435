"""Forms: made from the fields, refused text stays with its sentence, two windows are told apart."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLineEdit, QPlainTextEdit, QToolButton, QWidget
from pytestqt.qtbot import QtBot

from rebuild.errors import BadEntry
from rebuild.model.enums import Decision, PlaceKind
from rebuild.window.desk import Desk
from rebuild.window.forms import new
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.forms.decide_dialog import concede_part, decide_parts
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.forms.feature_dialog import FeatureDialog, add_feature
from rebuild.window.forms.file_settings import FileSettings
from rebuild.window.forms.limit_dialog import limit_from_standard
from rebuild.window.forms.put_dialog import move_dialog, put_parts
from rebuild.window.forms.record_form import RecordForm
from rebuild.window.forms.shop_lists import instrument_list, matched_set_list, place_list
from rebuild.work import edit, identify, settings, spec
from rebuild.work.fields import FIELDS
from rebuild.work.lookup import part_sheet, tree
from rebuild.work.lookup.record import card, choices, kept_entries
from tests.conftest import Shop


@pytest.fixture
def form(desk: Desk, shop: Shop, qtbot: QtBot) -> EditForm:
    made = EditForm(desk, "part")
    qtbot.addWidget(made)
    made.resize(700, 600)
    made.show()
    made.show_record(shop.cap)
    return made


def type_into(qtbot: QtBot, widget: QWidget, text: str) -> None:
    """Replace what stands in an editor, as keys."""
    target = widget.line() if isinstance(widget, ReferenceEditor) else widget
    target.setFocus()
    if isinstance(target, QLineEdit | QPlainTextEdit):
        target.selectAll()
        qtbot.keyClick(target, Qt.Key.Key_Delete)
    qtbot.keyClicks(target, text)


def choose(widget: QWidget, word: str) -> None:
    """Choose a word of a list, as a user would."""
    assert isinstance(widget, QComboBox)
    place = widget.findText(word)
    assert place >= 0, [widget.itemText(at) for at in range(widget.count())]
    widget.setCurrentIndex(place)
    widget.activated.emit(place)


def field(desk: Desk, record: str, row_id: int, name: str) -> str:
    with desk.store.read() as connection:
        return card(connection, record, row_id).fields[name]


@pytest.mark.parametrize("record", sorted(FIELDS))
def test_every_record_has_a_form_with_an_editor_for_each_field(record: str, desk: Desk, qtbot: QtBot) -> None:
    form = RecordForm(desk, FIELDS[record])
    qtbot.addWidget(form)
    assert list(form.boxes) == [one.name for one in FIELDS[record]]
    for box in form.boxes.values():
        assert box.widget.accessibleName() == box.field.label


def test_a_field_is_stored_when_the_user_leaves_it(
    form: EditForm, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    box = form.boxes["material"]
    type_into(qtbot, box.widget, "GG-25")
    assert field(desk, "part", shop.cap, "material") == ""
    qtbot.keyClick(box.widget, Qt.Key.Key_Return)
    assert field(desk, "part", shop.cap, "material") == "GG-25"
    assert desk.store.undo_label() == "edit of material on HS-02 bearing cap"
    desk.undo()
    assert box.editor.typed() == ""


def test_leaving_a_field_as_it_was_is_no_act(form: EditForm, desk: Desk, qtbot: QtBot) -> None:
    before = desk.store.undo_label()
    box = form.boxes["name"]
    type_into(qtbot, box.widget, "bearing cap")
    qtbot.keyClick(box.widget, Qt.Key.Key_Return)
    assert desk.store.undo_label() == before


def test_refused_text_stays_with_its_sentence_and_is_kept_when_the_form_turns_away(
    form: EditForm, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    box = form.boxes["quantity"]
    type_into(qtbot, box.widget, "two")
    qtbot.keyClick(box.widget, Qt.Key.Key_Return)
    assert box.trouble == "Quantity: “two” is not a whole number. Type it as 2."
    assert box.editor.typed() == "two"
    assert field(desk, "part", shop.cap, "quantity") == "1"
    edit.edit(desk.store, "part", [shop.cap], {"material": "GG-25"})
    assert (box.editor.typed(), form.boxes["material"].editor.typed()) == ("two", "GG-25")
    form.show_record(shop.spindle)
    assert form.boxes["quantity"].editor.typed() == "1"
    with desk.store.read() as connection:
        kept = kept_entries(connection)
    assert [(one.typed, one.meant_for) for one in kept] == [("two", f"part no. {shop.cap}, quantity")]


def test_other_windows_value_appears_but_not_under_ones_fingers(
    form: EditForm, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    typing = form.boxes["material"]
    type_into(qtbot, typing.widget, "cast iron")
    edit.edit(shop.store, "part", [shop.cap], {"material": "GG-25", "match_mark": "1-1"})
    qtbot.waitUntil(lambda: form.boxes["match_mark"].editor.typed() == "1-1", timeout=1000)
    assert typing.editor.typed() == "cast iron"

    qtbot.keyClick(typing.widget, Qt.Key.Key_Return)
    assert "another window set it to “GG-25” first" in typing.trouble
    assert typing.editor.typed() == "cast iron"
    assert field(desk, "part", shop.cap, "material") == "GG-25"
    with desk.store.read() as connection:
        assert [one.typed for one in kept_entries(connection)] == ["cast iron"]

    # Leaving the field does not put the loser's text through behind the user's back...
    form.commit("material")
    assert field(desk, "part", shop.cap, "material") == "GG-25"
    # ...typing it again does.
    type_into(qtbot, typing.widget, "cast iron")
    qtbot.keyClick(typing.widget, Qt.Key.Key_Return)
    assert field(desk, "part", shop.cap, "material") == "cast iron"


def test_removed_record_leaves_an_empty_form(form: EditForm, desk: Desk, shop: Shop) -> None:
    edit.remove(desk.store, "part", [shop.cap])
    assert not form.isEnabled()
    assert form.boxes["name"].editor.typed() == ""


def test_honest_readings_can_be_taken_with_one_key(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    form = EditForm(desk, "station")
    qtbot.addWidget(form)
    form.show_record(shop.near)
    box = form.boxes["at"]
    type_into(qtbot, box.widget, "1,250")
    qtbot.keyClick(box.widget, Qt.Key.Key_Return)
    buttons = box.findChildren(QToolButton)
    assert [button.text() for button in buttons] == ["1.250 mm", "1250 mm"]
    buttons[0].click()
    assert box.trouble == ""
    assert field(desk, "station", shop.near, "at") == "1.250 mm"


def test_reference_is_found_by_any_part_of_its_name(
    form: EditForm, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    place = identify.add_place(desk.store, "Red lid", PlaceKind.BAG)
    box = form.boxes["place_id"]
    assert isinstance(box.widget, ReferenceEditor)
    completer = box.widget.completer()
    completer.setCompletionPrefix("lid")
    assert completer.currentCompletion() == "bag Red lid"
    type_into(qtbot, box.widget, "bag red LID")
    form.commit("place_id")
    assert field(desk, "part", shop.cap, "place_id") == str(place)
    type_into(qtbot, box.widget, "attic")
    form.commit("place_id")
    assert "“attic” is not a place" in box.trouble


def test_error_finds_its_box_by_label(desk: Desk, qtbot: QtBot) -> None:
    form = RecordForm(desk, FIELDS["part"])
    qtbot.addWidget(form)
    assert form.show_trouble(BadEntry("is taken.", where="Code", value="X"))
    assert form.boxes["code"].trouble == "Code: “X” is taken."
    assert not form.show_trouble(BadEntry("is nobody's.", where="Nothing here"))


def test_dialog_that_cannot_store_stays_with_what_was_typed(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = new.new_part(desk, None, shop.headstock)
    assert isinstance(dialog, AddDialog)
    assert dialog.form.boxes["code"].editor.typed() == "HS-03"
    type_into(qtbot, dialog.form.boxes["code"].widget, "HS-01")
    type_into(qtbot, dialog.form.boxes["name"].widget, "thrust washer")
    dialog.add(again=False)
    assert dialog.isVisible()
    assert "already the code of “spindle”" in dialog.form.boxes["code"].trouble
    assert dialog.form.boxes["name"].editor.typed() == "thrust washer"
    type_into(qtbot, dialog.form.boxes["code"].widget, "HS-03")
    dialog.add(again=True)
    assert dialog.isVisible()
    assert dialog.form.boxes["code"].editor.typed() == "HS-04"
    assert dialog.form.boxes["name"].editor.typed() == ""
    with desk.store.read() as connection:
        assert "HS-03 thrust washer" in [
            f"{row.code} {row.name}" for row in tree.parts(connection, shop.machine)
        ]
    dialog.close()


def test_loose_part_starts_as_unknown(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = new.new_part(desk, None)
    assert dialog is not None
    type_into(qtbot, dialog.form.boxes["name"].widget, "long pin")
    dialog.add(again=False)
    with desk.store.read() as connection:
        row = next(row for row in tree.parts(connection, shop.machine) if row.name == "long pin")
    assert (row.subassembly_id, row.identity.value) == (None, "unknown")
    assert desk.selection.part_ids == (row.id,)


def test_step_with_falling_durations_is_refused_in_the_dialog(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = new.new_task(desk, None, shop.headstock, shop.cap)
    assert dialog is not None
    type_into(qtbot, dialog.form.boxes["title"].widget, "Ream in line")
    type_into(qtbot, dialog.form.boxes["low_min"].widget, "2 h")
    type_into(qtbot, dialog.form.boxes["high_min"].widget, "30 min")
    dialog.add(again=False)
    assert dialog.isVisible()
    type_into(qtbot, dialog.form.boxes["high_min"].widget, "3 h")
    dialog.add(again=False)
    assert not dialog.isVisible()
    (task,) = desk.selection.task_ids
    assert field(desk, "task", task, "part_id") == str(shop.cap)
    assert field(desk, "task", task, "low_min") == "2 h"


def test_feature_dialog_reads_the_spec_back_in_both_units(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    from PySide6.QtWidgets import QLabel

    dialog = add_feature(desk, shop.cap, None)
    said = next(label for label in dialog.findChildren(QLabel) if label.accessibleName() == "Spec as read")
    boxes = dialog.form.boxes
    type_into(qtbot, boxes["name"].widget, "bore")
    choose(boxes["unit"].widget, "in")
    type_into(qtbot, boxes["spec"].widget, "1.7495-1.7500")
    assert said.text() == "from 1.7495 in (44.437 mm), to 1.7500 in (44.450 mm)"
    type_into(qtbot, boxes["spec"].widget, "1.75-")
    assert said.text().startswith("Spec: ")
    type_into(qtbot, boxes["spec"].widget, "1.7495-1.7500")
    choose(boxes["kind"].widget, "bore")
    choose(boxes["spec_origin"].widget, "drawing")
    type_into(qtbot, boxes["stations"].widget, "near, far; 6 in")
    dialog.add(again=False)
    feature_id = desk.selection.key[0] if desk.selection.key else 0
    assert field(desk, "feature", feature_id, "kind") == "bore"
    assert field(desk, "feature", feature_id, "spec_origin") == "drawing"
    with desk.store.read() as connection:
        assert part_sheet.spec_of_feature(connection, feature_id) == ("1.7495-1.7500", "in")
        names = connection.exec_driver_sql(
            f"SELECT name FROM station WHERE feature_id = {feature_id} ORDER BY position"
        ).scalars()
        assert list(names) == ["near", "far", "6 in"]


def test_bad_spec_is_said_beside_it_and_nothing_is_made(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = add_feature(desk, shop.cap, None)
    type_into(qtbot, dialog.form.boxes["name"].widget, "bore")
    type_into(qtbot, dialog.form.boxes["spec"].widget, "big")
    dialog.add(again=False)
    assert "“big”" in dialog.form.boxes["spec"].trouble
    with desk.store.read() as connection:
        assert [name for _, name in part_sheet.features(connection, shop.cap)] == ["lost motion"]


def test_stored_feature_is_edited_in_place(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = FeatureDialog(desk, shop.journal, None)
    dialog.open()
    box = dialog.extra.boxes["spec"]
    assert box.editor.typed() == "60 -0.010/-0.029"
    type_into(qtbot, box.widget, "60 -0.010/-0.040")
    qtbot.keyClick(box.widget, Qt.Key.Key_Return)
    with desk.store.read() as connection:
        assert part_sheet.spec_of_feature(connection, shop.journal)[0] == "60 -0.010/-0.040"
    assert field(desk, "feature", shop.journal, "spec_origin") == "drawing"
    type_into(qtbot, dialog.extra.boxes["station"].widget, "middle")
    qtbot.keyClick(dialog.extra.boxes["station"].widget, Qt.Key.Key_Return)
    assert dialog.extra.boxes["station"].editor.typed() == ""
    assert desk.store.undo_label() == "new station middle on HS-01 spindle, front journal"
    dialog.close()


def test_decision_wants_its_reason_where_it_is_typed(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = decide_parts(desk, [shop.spindle, shop.cap], None)
    choose(dialog.form.boxes["decision"].widget, "rework")
    dialog.add(again=False)
    assert "to rework" in dialog.form.boxes["decision_reason"].trouble
    type_into(qtbot, dialog.form.boxes["decision_reason"].widget, "0.004 in out of round")
    dialog.add(again=False)
    assert not dialog.isVisible()
    for part in (shop.spindle, shop.cap):
        assert field(desk, "part", part, "decision") == Decision.REWORK.value
        assert field(desk, "part", part, "decision_reason") == "0.004 in out of round"


def test_concession_names_feature_value_and_reason(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = concede_part(desk, shop.spindle, None)
    choose(dialog.form.boxes["feature"].widget, "front journal")
    type_into(qtbot, dialog.form.boxes["accepted"].widget, "59.968")
    dialog.add(again=False)
    assert dialog.form.boxes["reason"].trouble
    type_into(qtbot, dialog.form.boxes["reason"].widget, "runs cool")
    dialog.add(again=False)
    with desk.store.read() as connection:
        (row,) = part_sheet.concessions(connection, shop.spindle)
    assert (row.feature, row.accepted, row.reason) == ("front journal", "59.968", "runs cool")


def test_put_away_into_a_new_place_or_an_old_one(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = put_parts(desk, [shop.cap], None)
    type_into(qtbot, dialog.form.boxes["new"].widget, "7")
    dialog.add(again=False)
    dialog = put_parts(desk, [shop.spindle], None)
    type_into(qtbot, dialog.form.boxes["place"].widget, "tote 7")
    dialog.add(again=False)
    with desk.store.read() as connection:
        assert {row.place for row in tree.parts(connection, shop.machine)} == {"tote 7"}


def test_move_by_keyboard(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = move_dialog(desk, [shop.cap], None)
    type_into(qtbot, dialog.form.boxes["target"].widget, "CA Carriage")
    dialog.add(again=False)
    with desk.store.read() as connection:
        assert tree.parts(connection, shop.machine, [shop.cap])[0].subassembly_id == shop.carriage


def test_instruments_show_their_limit_and_where_it_comes_from(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    shown = instrument_list(desk, None)
    assert shown.table.plain.text(0) == (
        "Micrometer 50-75", "outside micrometer", "0.01 mm", "± 0.005 mm", "no source given",
    )  # fmt: skip
    dialog = limit_from_standard(desk, shop.micrometer, shown)
    choose(dialog.form.boxes["kind"].widget, "outside micrometer 0.01")
    type_into(qtbot, dialog.form.boxes["reach"].widget, "2 in")
    dialog.add(again=False)
    assert shown.table.plain.text(0)[3:] == (
        "± 0.005 mm", "DIN 863-1:1999, size over 50 to 100 mm (from memory)",
    )  # fmt: skip
    type_into(qtbot, dialog.form.boxes["reach"].widget, "2 m")
    dialog.add(again=False)
    assert "outside 0 to 150 mm" in dialog.form.boxes["reach"].trouble + dialog._said.text()
    dialog.close()
    shown.close()


def test_lists_add_edit_and_remove(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    identify.add_place(desk.store, "3", PlaceKind.SHELF)
    shown = place_list(desk, None)
    assert shown.table.plain.text(0)[:2] == ("3", "shelf")
    type_into(qtbot, shown.form.boxes["note"].widget, "over the lathe")
    shown.form.commit("note")
    assert shown.table.plain.text(0)[3] == "over the lathe"
    identify.add_place(shop.store, "4", PlaceKind.TOTE)
    qtbot.waitUntil(lambda: len(shown.table.plain.ids) == 2, timeout=1000)
    shown.table.selectRow(0)
    shown._remove()
    assert [shown.table.plain.text(0)[:2]] == [("4", "tote")]
    shown.close()


def test_matched_set_joins_the_chosen_parts(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = new.new_matched_set(desk, None, (shop.spindle, shop.cap))
    assert dialog is not None
    type_into(qtbot, dialog.form.boxes["name"].widget, "front bearing")
    dialog.add(again=False)
    shown = matched_set_list(desk, None)
    assert shown is not None
    assert shown.table.plain.text(0) == ("front bearing", "HS-01 spindle; HS-02 bearing cap")
    shown.close()


def test_settings_of_the_file(desk: Desk, qtbot: QtBot) -> None:
    dialog = FileSettings(desk, None)
    assert dialog.comma.currentIndex() == 0
    dialog.comma.setCurrentIndex(1)
    dialog.owner.setText("B.")
    dialog.accept()
    assert settings.decimal_comma(desk.store) is True
    assert settings.owner(desk.store) == "B."


def test_the_wheel_does_not_turn_a_list_in_passing(form: EditForm, qtbot: QtBot) -> None:
    from PySide6.QtCore import QPoint, QPointF
    from PySide6.QtGui import QWheelEvent
    from PySide6.QtWidgets import QApplication

    combo = form.boxes["decision"].widget
    assert isinstance(combo, QComboBox)
    form.boxes["name"].widget.setFocus()
    before = combo.currentText()
    still, down = Qt.MouseButton.NoButton, QPoint(0, -120)
    turn = QWheelEvent(
        QPointF(5, 5), QPointF(combo.mapToGlobal(QPoint(5, 5))), QPoint(), down, still,
        Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(combo, turn)
    assert combo.currentText() == before


def test_added_instrument_is_in_the_list_of_choices(desk: Desk, qtbot: QtBot) -> None:
    spec.add_instrument(desk.store, "Caliper 150", {"kind": "caliper"})
    with desk.store.read() as connection:
        assert [choice.label for choice in choices(connection, "instrument", 0)] == [
            "Micrometer 50-75",
            "Caliper 150",
        ]
