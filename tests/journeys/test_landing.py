"""What is typed or sent goes where the eye is: the faults once met in the real window, as whole runs by real keys."""

from __future__ import annotations

from PySide6.QtCore import Qt

from rebuild.store.store import Store
from rebuild.window.making.page import MakingPage
from rebuild.window.readings.columns import STAGE_COLUMNS, Column
from rebuild.window.surveys.page import SurveyPage
from rebuild.words.readings import Stage
from rebuild.words.surveys import SurveyMethod
from rebuild.work.landings.rows import unplaced
from rebuild.work.machines.acts import add_part
from rebuild.work.making import acts as making
from rebuild.work.making.acts_sizes import add_size, set_size
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.surveys.acts import add_survey
from rebuild.work.surveys.rows import survey_data
from tests.conftest import Shop
from tests.journeys.conftest import Start
from tests.journeys.hands import Hands
from tests.support import readings_of
from tests.work.teardown.apron import Apron

NEAR = "HS-01 spindle  ·  front journal  ·  near"
FAR = "HS-01 spindle  ·  front journal  ·  far"


def typed(store: Store, feature: int, station: int = 0) -> list[str]:
    with store.read() as connection:
        return [row[0].typed for row in readings_of(connection, (feature, station))]


def waiting(user: Hands) -> list[str]:
    with user.frame.desk.store.read() as connection:
        return [one.typed for one in unplaced(connection)]


def in_tree(user: Hands, text: str) -> None:
    """Click the line of the part tree that has this text."""
    tree = user.bench.tree.view
    tree.expandAll()
    model = tree.model()
    above = [model.index(row, 0) for row in range(model.rowCount())]
    inside = [model.index(row, 0, index) for index in above for row in range(model.rowCount(index))]
    user.click_item(tree, next(index for index in (*above, *inside) if text in str(index.data())))


def test_a_part_without_features_and_an_empty_subassembly_take_nothing(hands: Hands, shop: Shop) -> None:
    """1. The journal's as-found reading is there. A pulley without features is chosen in the tree; the gauge sends.

    The line says *choose a row* and is disabled; the journal keeps its reading; the value waits with its time. So it
    is in a subassembly with nothing in it. The waiting values are put on their row by one key each, by the mouse as
    well, and one put wrong is moved, one taken back, by one key.
    """
    user, store = hands, hands.frame.desk.store
    pulley = add_part(store, shop.machine, shop.headstock, "pulley", "HS-09")
    record_reading(store, "59.985", Entry(shop.journal, shop.near))
    in_tree(user, "spindle")
    assert user.lands_on == f"{FAR}  ·  as found", "the first unread station at the stage worked at"
    in_tree(user, "pulley")
    assert user.frame.desk.selection.part_ids == (pulley,)
    assert user.lands_on == "Choose a row"
    assert not user.line.field.isEnabled()
    user.gauge("59.981\r")
    in_tree(user, "Carriage")
    user.gauge("59.982\r")
    assert typed(store, shop.journal, shop.near) == ["59.985"]
    assert waiting(user) == ["59.981", "59.982"]
    assert user.line.recent.waiting.text() == "2 without a row: 59.981, 59.982"

    in_tree(user, "spindle")
    near = user.row("HS-01", "front journal", "near")
    user.click_item(user.grid.view, user.grid.model.index(near, Column.STATION))
    assert user.lands_on == f"{NEAR}  ·  cleaned", "the first unread stage of a row chosen itself"
    user.press(Qt.Key.Key_0, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
    assert typed(store, shop.journal, shop.near) == ["59.981", "59.985"]
    assert "far" in user.lands_on, "and on it goes"
    menu = user.line.recent.waiting.menu()
    put_it = menu.actions()[0].menu().actions()[0]
    assert put_it.text().startswith("Put on HS-01 spindle  ·  front journal  ·  far")
    put_it.trigger()
    assert waiting(user) == []
    assert typed(store, shop.journal, shop.far) == ["59.982"]

    user.click_item(
        user.grid.view, user.grid.model.index(user.row("HS-01", "front journal", "near"), Column.STATION)
    )
    here = user.lands_on
    both = Qt.KeyboardModifier.ControlModifier
    user.press(Qt.Key.Key_1, both | Qt.KeyboardModifier.AltModifier)
    assert typed(store, shop.journal, shop.far) == []
    assert typed(store, shop.journal, shop.near)[0] == "59.982"
    assert user.frame.desk.recent[-1].landing.words == here
    user.press(Qt.Key.Key_1, both | Qt.KeyboardModifier.ShiftModifier)
    assert typed(store, shop.journal, shop.near) == ["59.981", "59.985"]


def test_a_size_without_a_feature_takes_no_value_of_another(start: Start, small_apron: Apron) -> None:
    """2. The bush is being made. Its bore is chosen: the line is on it. A size added later, *oil hole*, lies on no
    feature; choosing it leaves the bore, the line says *choose a row* and what is sent waits for one.
    """
    apron, store = small_apron, small_apron.store
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    sheet = making.start_sheet(store, apron.parts["AP-12"])
    with store.read() as connection:
        length = next(one for one in sheet_page(connection, sheet).sizes if one.name == "length")
    set_size(store, length.id, "1.25 ±0.01")
    making.release(store, sheet)
    making.begin(store, sheet, sure=True)
    add_size(store, sheet, "oil hole")
    user = start(store.path)
    page = user.page("making")
    assert isinstance(page, MakingPage)
    table = page.view.sizes.table

    def choose(name: str) -> None:
        at = next(row for row, key in enumerate(table.plain.ids) if table.plain.text(row)[0] == name)
        user.click_item(table, table.model().index(at, 0))

    choose("bore")
    place = page.view.entry.head.place
    assert "bore" in place.text()
    assert place.text().endswith("as made")
    choose("oil hole")
    assert place.text() == "Choose a row"
    assert not page.view.entry.field.isEnabled()
    user.gauge("0.1250\r")
    assert waiting(user) == ["0.1250"]
    choose("bore")
    user.gauge("0.6260\r")
    with user.frame.desk.store.read() as connection:
        made = connection.exec_driver_sql(
            "SELECT f.name, r.typed FROM reading r JOIN feature f ON f.id = r.feature_id WHERE r.stage = 'as made'"
        ).all()
    assert [tuple(row) for row in made] == [("journal A", "0.6247"), ("bore", "0.6260")]


def test_a_new_feature_is_read_from_its_first_station_on(hands: Hands, shop: Shop) -> None:
    """3. A feature with stations 0, 6, 12, 18 and 24 is added; five values sent go to five stations, in order."""
    user, store = hands, hands.frame.desk.store
    in_tree(user, "bearing cap")
    user.ctrl(Qt.Key.Key_E)
    user.dialog("New feature")
    for name, text in (("Feature", "gib face"), ("Stations", "0, 6, 12, 18, 24")):
        user.tab_to(name)
        user.type(text)
    user.enter()
    assert user.lands_on == "HS-02 bearing cap  ·  gib face  ·  0  ·  as found"
    user.grid.view.setFocus()
    for text in ("1.01", "1.02", "1.03", "1.04", "1.05"):
        user.gauge(f"{text}\r")
    with store.read() as connection:
        rows = connection.exec_driver_sql(
            "SELECT s.name, r.typed FROM reading r LEFT JOIN station s ON s.id = r.station_id ORDER BY r.id"
        ).all()
    assert [tuple(row) for row in rows] == [
        ("0", "1.01"), ("6", "1.02"), ("12", "1.03"), ("18", "1.04"), ("24", "1.05"),
    ]  # fmt: skip


def test_ten_values_of_a_survey_go_to_ten_places(hands: Hands, shop: Shop) -> None:
    """4. Ten values typed with Enter, then ten sent by a gauge over them: ten places each time, and it is told.

    An emptied place in the middle is refused, and the stored value stays on show.
    """
    user, store = hands, hands.frame.desk.store
    survey = add_survey(store, shop.machine, "Bed", SurveyMethod.LEVEL, lines=["front V"])
    page = user.page("survey")
    assert isinstance(page, SurveyPage)
    user.click_item(page.table, page.model.index(0, 0))

    def run() -> list[str]:
        with store.read() as connection:
            return [text for text, _ in survey_data(connection, survey).lines[0].runs.get(1, ())]

    first = [f"0.0{at}" for at in range(10)]
    for text in first:
        user.person(f"{text}\r")
        user.bot.wait(45)
    user.bot.waitUntil(lambda: run() == first, timeout=2000)
    assert page.strip.place.text() == "Bed  ·  front V  ·  step 11  ·  as found"
    user.click_item(page.table, page.model.index(0, 0))
    for at in range(10):
        user.gauge(f"0.1{at}\r")
    assert run() == [f"0.1{at}" for at in range(10)]
    assert "It replaces 0.09, which comes back with Ctrl+Z" in user.said

    cell = page.model.index(4, 0)
    user.click_item(page.table, cell)
    user.press(Qt.Key.Key_F2)
    user.ctrl(Qt.Key.Key_A)
    user.press(Qt.Key.Key_Delete)
    user.enter()
    assert "is empty" in user.frame.messages.troubles[-1]
    assert cell.data() == "0.14"
    assert run()[4] == "0.14"


def test_with_the_readings_box_in_hand_the_gauge_still_goes_to_the_row(hands: Hands, shop: Shop) -> None:
    """5. The keyboard is in the box *readings*: six values land on rows, or wait; none goes into the box.

    Correcting a read row moves on and keeps the old value. A pasted column with its heading does not shift.
    """
    from PySide6.QtGui import QGuiApplication

    user, store = hands, hands.frame.desk.store
    in_tree(user, "spindle")
    user.line.controls.repeats.setFocus()
    for text in ("59.981", "59.982", "0.0031", "59.983", "59.984", "0.0032"):
        if user.line.field.isEnabled():
            user.line.controls.repeats.setFocus()
        user.gauge(f"{text}\r")
    assert user.line.controls.repeats.value() == 1
    assert typed(store, shop.journal, shop.near) == ["59.981"]
    assert typed(store, shop.journal, shop.far) == ["59.982"]
    assert typed(store, shop.lost_motion) == ["0.0031"]
    assert waiting(user) == ["59.983", "59.984", "0.0032"], "behind the last row there was none in hand"

    near = user.row("HS-01", "front journal", "near")
    user.click_item(user.grid.view, user.grid.model.index(near, Column.FEATURE))
    user.line.focus_entry()
    user.press(Qt.Key.Key_Up, Qt.KeyboardModifier.ControlModifier)
    assert user.lands_on == f"{NEAR}  ·  as found"
    user.gauge("59.985\r")
    assert "It replaces 59.981, which stays in the history" in user.answer
    assert "far" in user.lands_on
    user.gauge("59.986\r")
    assert typed(store, shop.journal, shop.near) == ["59.985", "59.981"]

    user.grid.show_stage(Stage.REWORKED)
    column = STAGE_COLUMNS[2]
    user.click_item(user.grid.view, user.grid.model.index(near, column))
    QGuiApplication.clipboard().setText("reworked\n59.971\n59.972\n")
    user.ctrl(Qt.Key.Key_V)
    assert "The heading “reworked” says “reworked”: there they went" in user.said
    assert user.cell("HS-01", "front journal", "near", column) == "59.971"
    assert user.cell("HS-01", "front journal", "far", column) == "59.972"
