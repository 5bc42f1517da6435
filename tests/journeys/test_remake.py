"""A worn bush: decided, its limits taken from the journal it will run on, made, measured, accepted."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QLabel

from rebuild.trade.limits.judgement import Verdict
from rebuild.window.decisions.decide_dialog import DecideDialog
from rebuild.window.decisions.page import DecidePage
from rebuild.window.fits.lines import COLUMNS as FIT_COLUMNS
from rebuild.window.fits.page import FitsPage
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.making.page import MakingPage
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.machines import rows_tree as tree
from rebuild.work.readings import acts_features as spec
from tests.journeys.conftest import Start
from tests.journeys.hands import Hands
from tests.support import tick_steps
from tests.work.teardown.apron import Apron


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    """A bush whose shaft has been made new, 0.6247; the bush is to be remade."""
    decide.decide(small_apron.store, [small_apron.parts["AP-11"]], Decision.REMAKE, reason="worn oval")
    small_apron.read("journal A", "0.6247", Stage.AS_MADE)
    return small_apron


def size(page: MakingPage, name: str) -> tuple[str, ...]:
    model = page.view.sizes.table.plain
    found = [model.text(row) for row in range(model.rowCount()) if model.text(row)[0] == name]
    assert found, name
    return found[0]


def stand_on_size(user: Hands, page: MakingPage, name: str) -> None:
    table = page.view.sizes.table
    row = next(row for row in range(table.plain.rowCount()) if table.plain.text(row)[0] == name)
    user.click_item(table, table.plain.index(row, 0))


def fit_cell(page: FitsPage, fit_id: int, column: str) -> str:
    model = page.fits.model
    return str(model.index(model.row_of(fit_id), FIT_COLUMNS.index(column)).data())


def warning(page: MakingPage) -> str:
    label = page.view.head.warning
    assert isinstance(label, QLabel)
    return label.text()


def test_a_bush_is_remade_to_its_mates(start: Start, apron: Apron, tmp_path: Path) -> None:
    """From worn bush to accepted bush.

    1. The bush is chosen on the bench and decided *remake* (Ctrl+D, reason).
    2. Fits: the fit of shaft and bush waits for the bush; Enter on the running fit and *Follower's limits* works out
       the bore from the journal as made, in the working pane.
    3. Ctrl+K starts its making sheet: bore from the journal, outside from the housing, both named; the length is
       typed. Release, Begin.
    4. The sheet is printed where the user says.
    5. Measured as made through the entry line on the sheet: two values typed, each with its verdict.
    6. Finished, Accept: the sheet is accepted, and the Fits page shows the new clearance and the press.
    7. Ctrl+Z takes the acceptance back, and it is accepted again.
    """
    user = start(apron.store.path)
    user.frame.show_page("bench")
    user.bench.tree.find_part()
    user.type("bush")
    user.enter()
    user.ctrl(Qt.Key.Key_D)
    user.dialog("Decide")
    user.tab_to("Decision")
    user.type("remake")
    user.tab_to("Reason")
    user.type("bore 0.004 over")
    user.tab_to("Decide")
    user.press(Qt.Key.Key_Space)
    with user.frame.desk.store.read() as connection:
        decided = {part.code: part.decision for part in tree.parts(connection, apron.machine)}
    assert decided["AP-12"] is Decision.REMAKE

    fits = user.page("fits")
    assert isinstance(fits, FitsPage)
    fits.choose(apron.running)
    user.click(user.button("Follower's limits"))
    worked = fits.detail.working.page.toPlainText()
    assert "0.6257" in worked

    user.page("bench")
    user.ctrl(Qt.Key.Key_K)
    assert user.frame.page_shown == "making"
    making = user.frame.page("making")
    assert isinstance(making, MakingPage)
    assert making.view.head.title.text() == "AP-12 apron bush"
    stand_on_size(user, making, "bore")
    assert "limits to suit AP-11 pinion shaft, journal A" in making.view.sizes.about.text()
    assert size(making, "outside diameter")[1] == "0.8136 to 0.8140 in"
    stand_on_size(user, making, "length")
    user.click(making.view.sizes.limits)
    user.replace("1.25 +-0.01")
    user.enter()
    assert "1.25" in size(making, "length")[1]
    user.click(user.button("Release"))
    user.click(user.button("Begin"))
    assert making.view.head.state.text().startswith("in work") or making.view.entry.isVisible()

    user.click(user.button("Print…"))
    asked = next(one for one in user.frame.findChildren(QFileDialog) if one.isVisible())
    asked.fileSelected.emit(str(tmp_path / "bush.pdf"))
    asked.close()
    assert (tmp_path / "bush.pdf").read_bytes().startswith(b"%PDF")

    stand_on_size(user, making, "outside diameter")
    user.click(making.view.entry.field)
    user.person("0.8138\r")
    assert size(making, "outside diameter")[2] == "0.8138 in"
    user.person("0.6130\r")  # the bore before pressing is made before the bore
    user.person("0.6260\r")
    assert size(making, "bore")[2] == "0.6260 in"
    assert making.view.drawing.made["bore"] is Verdict.UNDECIDED, "its verdict stands on the drawing"
    stand_on_size(user, making, "length")
    user.click(making.view.entry.field)
    user.person("1.251\r")
    user.click(user.button("Finished"))
    if "no as-made value yet" in warning(making):
        user.click(user.button("Finished all the same"))
    assert making.view.page is not None
    tick_steps(apron.store, making.view.page.id)
    making.view._desk.store.poll()
    user.click(user.button("Accept"))
    why = next(one for one in user.frame.findChildren(AddDialog) if one.isVisible())
    why.form.boxes["reason"].editor.put("the shaft turns in it")
    why.add(again=False)
    assert making.view.head.state.text() == "accepted"

    user.page("fits")
    assert fit_cell(fits, apron.running, "Now").startswith("0.0013")
    assert fit_cell(fits, apron.press, "Now") == "0.0010 tight"
    user.page("making")
    user.menu("Edit", "Undo")
    assert making.view.head.state.text() != "accepted"
    user.menu("Edit", "Redo")
    assert making.view.head.state.text() == "accepted"


def test_what_is_out_is_settled_with_all_it_touches(start: Start, apron: Apron) -> None:
    """A worn cross screw, decided with its nut in mind.

    1. Decide lists what is out of its limits; the screw is found by typing, its verdict in words.
    2. Two ways to go with what each costs, one after the other with Ctrl+Enter; a cost that is no number is refused
       and stays. Both are compared side by side.
    3. Settle: the dialog shows what the decision touches while it is chosen: the fit goes stale, the nut waits.
       Without a reason it is refused beside the field; with one it is stored in one act.
    4. The tree shows the decision; one Undo takes all of it back.
    """
    store = apron.store
    spec.set_spec(store, [apron.features["journal A"]], "0.6245-0.6250")
    apron.read("nut thread", "0.3900")
    for station in apron.stations("screw thread"):
        apron.read("screw thread", "0.3830", station=station)
    user = start(store.path)
    page = user.page("decide")
    assert isinstance(page, DecidePage)
    page.search.setFocus()
    user.type("cross screw")
    page.show_all()
    found = [page.parts.plain.text(row)[0].split("\n")[0] for row in range(page.parts.plain.rowCount())]
    assert found == ["XS-04 cross nut", "XS-03 cross screw"], (
        "the open one first; both have to do with the screw"
    )
    user.click_item(page.parts, page.parts.plain.index(1, 0))
    assert page.weigh.title.text().startswith("XS-03 cross screw")
    user.click(user.button("New option…"))
    asked = user.dialog("New option")
    user.tab_to("How")
    user.type("cut a new screw")
    user.tab_to("Cost")
    user.type("74")
    user.ctrl(Qt.Key.Key_Return)
    user.tab_to("How")
    user.type("turn it end for end")
    user.tab_to("Cost")
    user.type("cheap")
    user.enter()
    assert asked.isVisible(), "no cost; what is typed stays with the sentence"
    user.replace("0")
    user.enter()
    options = page.weigh.options
    user.bot.waitUntil(lambda: options.plain.rowCount() == 2)
    assert [options.plain.text(row)[1] for row in range(2)] == ["74.00", "0.00"]
    options.setFocus()
    options.selectAll()
    user.click(user.button("Compare two"))
    assert page.weigh.compared.isVisible()
    assert "74" in " ".join(
        page.weigh.compared.plain.text(row)[1] for row in range(page.weigh.compared.plain.rowCount())
    )

    user.click(user.button("Decide on it…"))
    settle = user.dialog("Decide")
    assert isinstance(settle, DecideDialog)
    user.tab_to("Decision")
    user.type("remake")
    user.tab_to("Reason")
    user.ctrl(Qt.Key.Key_A)
    user.press(Qt.Key.Key_Delete)
    touched = settle.ripple.list
    user.bot.waitUntil(
        lambda: "XS-04 cross nut" in " ".join(touched.item(at).text() for at in range(touched.count()))
    )
    user.click(settle.button)
    assert settle.isVisible()
    user.type("worn mid-travel")
    user.click(settle.button)
    assert not settle.isVisible()
    user.page("bench")
    assert any("XS-03" in line and "remake" in line for line in opened(user))
    user.menu("Edit", "Undo")
    assert any("XS-03" in line and "reuse" in line for line in opened(user))


def opened(user: Hands) -> list[str]:
    user.bench.tree.view.expandAll()
    return user.tree_lines()
