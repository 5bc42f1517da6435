"""Forms: made from the fields, refused text stays with its sentence, two windows are told apart."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QComboBox, QLineEdit, QPlainTextEdit, QToolButton, QWidget
from pytestqt.qtbot import QtBot

from rebuild.errors import BadEntry, Clash
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.forms.editors import DayEditor, ReferenceEditor, WordEditor
from rebuild.window.forms.elided_line import ElidedLine
from rebuild.window.forms.record_form import RecordForm
from rebuild.words.machines import MachineKind
from rebuild.words.places import PlaceKind, place_meant
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.records.fields import FIELDS
from rebuild.work.records.rows import card, choices
from rebuild.work.records.rows_kept import kept_entries
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


@pytest.mark.parametrize("columns", [1, 2, 3])
def test_the_tab_key_goes_down_one_column_then_the_next(columns: int, desk: Desk, qtbot: QtBot) -> None:
    """Seen in New part: Name stood in the right column, and Tab went left and right by turns."""
    form = RecordForm(desk, FIELDS["part"], most_columns=3)
    qtbot.addWidget(form)
    form.resize(400 * columns, 700)
    form.flow(columns)
    form.show()
    places = [(box.x(), box.y()) for box in form.boxes.values()]
    assert places == sorted(places)
    assert len({x for x, _ in places}) == columns
    lowest = [max(y for x, y in places if x == side) for side in {x for x, _ in places}]
    assert max(lowest) - min(lowest) < 90, "one column is much longer than another"


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
    assert box.trouble == "Quantity: “two” is not a whole number. Type a whole number, for example 2."
    assert box.editor.typed() == "two"
    assert field(desk, "part", shop.cap, "quantity") == "1"
    edit.edit(desk.store, "part", [shop.cap], {"material": "GG-25"})
    assert (box.editor.typed(), form.boxes["material"].editor.typed()) == ("two", "GG-25")
    form.show_record(shop.spindle)
    assert form.boxes["quantity"].editor.typed() == "1"
    with desk.store.read() as connection:
        kept = kept_entries(connection)
    assert [(one.typed, one.meant_for) for one in kept] == [("two", f"part no. {shop.cap}, quantity")]


def test_refused_text_stays_when_its_list_is_filled_again(
    form: EditForm, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    """A list names the record it has chosen after every act: that is no turn to another record."""
    quantity, material = form.boxes["quantity"], form.boxes["material"]
    type_into(qtbot, quantity.widget, "two")
    qtbot.keyClick(quantity.widget, Qt.Key.Key_Return)
    type_into(qtbot, material.widget, "GG-2")
    form.show_record(shop.cap)
    assert (quantity.editor.typed(), material.editor.typed()) == ("two", "GG-2")
    assert "is not a whole number" in quantity.trouble
    qtbot.keyClick(material.widget, Qt.Key.Key_Return)
    form.show_record(shop.cap)
    assert (quantity.editor.typed(), field(desk, "part", shop.cap, "material")) == ("two", "GG-2")


def test_escape_puts_the_old_value_back_and_then_belongs_to_the_window(
    form: EditForm, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    quantity, note, place = (form.boxes[name] for name in ("quantity", "note", "place_id"))
    before = desk.store.undo_label()
    type_into(qtbot, quantity.widget, "two")
    qtbot.keyClick(quantity.widget, Qt.Key.Key_Return)
    qtbot.keyClick(quantity.widget, Qt.Key.Key_Escape)
    assert (quantity.editor.typed(), quantity.trouble, quantity.is_touched) == ("1", "", False)
    assert isinstance(quantity.widget, QLineEdit)
    quantity.widget.undo()
    assert quantity.editor.typed() == "two", "Escape by mistake is one Ctrl+Z"
    qtbot.keyClick(quantity.widget, Qt.Key.Key_Escape)
    for box in (note, place):
        type_into(qtbot, box.widget, "shelf nobody has")
        target = box.widget.line() if isinstance(box.widget, ReferenceEditor) else box.widget
        qtbot.keyClick(target, Qt.Key.Key_Escape)
        assert box.editor.typed() == "", box.field.name
    went_on: list[int] = []
    shortcut = QShortcut(QKeySequence("Escape"), form, lambda: went_on.append(1))
    with qtbot.waitActive(form):
        form.activateWindow()
    qtbot.keyClick(quantity.widget, Qt.Key.Key_Escape)
    assert went_on == [1], "with nothing to put back the key is the window's"
    type_into(qtbot, quantity.widget, "3")
    qtbot.keyClick(quantity.widget, Qt.Key.Key_Escape)
    assert (went_on, quantity.editor.typed()) == ([1], "1")
    shortcut.setEnabled(False)
    assert desk.store.undo_label() == before


def test_a_number_cleared_is_refused_where_it_was_typed_and_the_old_one_stands(
    form: EditForm, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    box = form.boxes["quantity"]
    before = desk.store.undo_label()
    type_into(qtbot, box.widget, "")
    qtbot.keyClick(box.widget, Qt.Key.Key_Return)
    assert box.trouble == "Quantity: is empty. Type a number. 1 stays until then."
    assert box.editor.typed() == ""
    assert field(desk, "part", shop.cap, "quantity") == "1"
    assert desk.store.undo_label() == before


def test_a_doubtful_comma_in_a_number_is_asked_about_with_both_readings(
    form: EditForm, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    box = form.boxes["quantity"]
    type_into(qtbot, box.widget, "1,500")
    qtbot.keyClick(box.widget, Qt.Key.Key_Return)
    assert "Type 1500 (thousands)." in box.trouble, "one and a half pieces is no reading of it"
    assert box.editor.typed() == "1,500"
    assert field(desk, "part", shop.cap, "quantity") == "1"
    type_into(qtbot, box.widget, "1,000")
    qtbot.keyClick(box.widget, Qt.Key.Key_Return)
    decimal, thousands = box.findChildren(QToolButton)[-2:]
    assert (decimal.text(), thousands.text()) == ("1", "1000")
    qtbot.mouseClick(thousands, Qt.MouseButton.LeftButton)
    assert (box.trouble, field(desk, "part", shop.cap, "quantity")) == ("", "1000")
    type_into(qtbot, box.widget, "0")
    qtbot.keyClick(box.widget, Qt.Key.Key_Return)
    assert box.trouble == "Quantity: “0” is below 1. Type 1 or more."


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
    assert "“attic” is no place yet" in box.trouble


def test_error_finds_its_box_by_label(desk: Desk, qtbot: QtBot) -> None:
    form = RecordForm(desk, FIELDS["part"])
    qtbot.addWidget(form)
    assert form.show_trouble(BadEntry("is taken.", where="Code", value="X"))
    assert form.boxes["code"].trouble == "Code: “X” is taken."
    assert not form.show_trouble(BadEntry("is nobody's.", where="Nothing here"))


def test_a_name_that_ends_like_a_label_is_no_label(desk: Desk, qtbot: QtBot) -> None:
    form = RecordForm(desk, FIELDS["part"])
    qtbot.addWidget(form)
    assert form.box_of(BadEntry("is hotter than a bearing can run.", where="Temperature, rear, note")) is None
    assert form.box_of(Clash("was typed here.", on="cap, code", field="Note")) is form.boxes["note"]


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
        QPointF(5, 5),
        QPointF(combo.mapToGlobal(QPoint(5, 5))),
        QPoint(),
        down,
        still,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(combo, turn)
    assert combo.currentText() == before


@pytest.mark.parametrize(
    ("typed", "kind", "name"),
    [
        ("Grinding shop", PlaceKind.AT_A_SHOP, "Grinding shop"),
        ("shelf 3", PlaceKind.SHELF, "3"),
        ("tote by the door", PlaceKind.TOTE, "by the door"),
        ("red box", PlaceKind.OTHER, "red box"),
        ("bath", PlaceKind.BATH, "bath"),
    ],
)
def test_words_of_a_new_place_say_its_kind(typed: str, kind: PlaceKind, name: str) -> None:
    assert place_meant(typed) == (kind, name)


def test_a_new_place_is_offered_and_made_by_one_more_enter_never_by_leaving_the_field(
    form: EditForm, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    box = form.boxes["place_id"]
    assert isinstance(box.widget, ReferenceEditor)
    line = box.widget.line()
    type_into(qtbot, box.widget, "Grinding shop")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert "“Grinding shop” is no place yet. Enter once more makes it" in box.trouble
    form.boxes["name"].widget.setFocus()
    form.settle_all()
    with desk.store.read() as connection:
        assert card(connection, "part", shop.cap).references["place_id"] is None
        assert not [one for one in choices(connection, "place", shop.machine) if "Grinding" in one.label]
    line.setFocus()
    qtbot.keyClick(line, Qt.Key.Key_Return)
    with desk.store.read() as connection:
        key = card(connection, "part", shop.cap).references["place_id"]
        labels = {one.id: one.label for one in choices(connection, "place", shop.machine)}
    assert key is not None
    assert labels[key] == "Grinding shop"
    assert box.trouble == ""
    desk.store.undo()
    assert desk.store.undo_label() == "new place Grinding shop"


def test_letters_of_any_word_of_a_kind_choose_it(qtbot: QtBot) -> None:
    editor = WordEditor([kind.value for kind in MachineKind])
    qtbot.addWidget(editor)
    editor.show()
    editor.setFocus()
    touched: list[str] = []
    editor.touched.connect(lambda: touched.append(editor.typed()))
    qtbot.keyClicks(editor, "grin")
    assert (editor.typed(), touched[-1]) == ("surface grinder", "surface grinder")
    editor.put(MachineKind.OTHER.value)
    fresh = WordEditor(["no", "yes"])
    qtbot.addWidget(fresh)
    fresh.show()
    qtbot.keyClicks(fresh, "y")
    assert fresh.typed() == "yes"
    qtbot.keyClicks(fresh, "q")
    assert fresh.typed() == "yes", "letters nothing begins with choose nothing"
    fresh.showPopup()
    qtbot.keyClick(fresh.view(), Qt.Key.Key_N)
    qtbot.keyClick(fresh.view(), Qt.Key.Key_Return)
    assert fresh.typed() == "no", "also in the open list, and a letter nothing begins with is forgotten"


def test_an_example_of_a_day_stands_only_where_one_types(desk: Desk, qtbot: QtBot) -> None:
    """Grey days in every field of an order read like days stored."""
    form = EditForm(desk, "waiting")
    qtbot.addWidget(form)
    days = form.findChildren(DayEditor)
    assert len(days) > 3
    assert not any(one.placeholderText() for one in days)
    with qtbot.waitExposed(form):
        form.show()
    form.setEnabled(True)
    days[0].setFocus()
    assert [one.placeholderText() for one in days[:2]] == [DayEditor.EXAMPLE, ""]
    days[0].put("2026-09-05 09:00")
    assert (days[0].text(), days[0].typed()) == ("5 Sep 2026, 09:00", "2026-09-05 09:00")
    days[0].setText("6 Sep 2026, 9:00")
    assert days[0].typed() == "6 Sep 2026, 9:00"
    days[1].setFocus()
    assert [one.placeholderText() for one in days[:2]] == ["", DayEditor.EXAMPLE]


def test_a_name_too_long_for_its_box_ends_in_dots_until_one_types(qtbot: QtBot) -> None:
    editor = ReferenceEditor()
    qtbot.addWidget(editor)
    editor.addItems(["", "Set the ram gib for even drag over the whole stroke"])
    editor.resize(160, 26)
    with qtbot.waitExposed(editor):
        editor.show()
    editor.setCurrentIndex(1)
    line = editor.line()
    line.clearFocus()
    assert isinstance(line, ElidedLine)
    assert line.shown.startswith("Set the ram")
    assert line.shown.endswith("…")
    line.setFocus()
    assert line.shown == line.text() == editor.itemText(1)
    line.clearFocus()
    editor.resize(600, 26)
    assert line.shown == line.text()
