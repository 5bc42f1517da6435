"""The part tree: its model by Qt's own tester, finding, moving, renaming, removing, and news from elsewhere."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QApplication, QLineEdit, QMenu
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.window.desk.desk import Desk
from rebuild.window.parts.tree.delegate import TreeDelegate, titled
from rebuild.window.parts.tree.lines import BOX, ROOT, Kind, Line, id_of, kind_of, part_node, subassembly_node
from rebuild.window.parts.tree.menu import fill_menu
from rebuild.window.parts.tree.model import PLACE, dragged
from rebuild.window.parts.tree.pane import PartTree
from rebuild.words.decisions import Decision
from rebuild.words.places import PlaceKind
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown.acts_line import say_removal
from rebuild.work.waiting import acts as waiting
from tests.conftest import Shop


@pytest.fixture
def tree(desk: Desk, qtbot: QtBot) -> PartTree:
    made = PartTree(desk)
    qtbot.addWidget(made)
    made.resize(460, 500)
    made.show()
    return made


def shown(tree: PartTree, parent: QModelIndex | None = None) -> list[object]:
    """The tree as nested text: [title, [children]] for each line."""
    model = tree.model
    above = parent if parent is not None else QModelIndex()
    found: list[object] = []
    for row in range(model.rowCount(above)):
        here = model.index(row, 0, above)
        found.append(here.data())
        if model.rowCount(here):
            found.append(shown(tree, here))
    return found


def test_tree_shows_subassemblies_parts_and_the_box(tree: PartTree) -> None:
    assert shown(tree) == [
        "HS Headstock",
        ["HS-01 spindle", "HS-02 bearing cap"],
        "CA Carriage",
        "Loose parts",
    ]


def test_what_is_off_and_in_which_bag_stands_in_the_tree_also_where_it_is_narrow(
    tree: PartTree, shop: Shop, desk: Desk
) -> None:
    say_removal(desk.store, shop.machine, shop.headstock, "hs2 u, > bag 7", make=True)

    def reads(node: int) -> tuple[str, str]:
        line = tree.model.line_of(node)
        assert line is not None
        return line.texts[2], titled(line, tree.view)

    tree.resize(300, 500)
    assert tree.view.isColumnHidden(PLACE)
    assert reads(part_node(shop.cap)) == ("off · bag 7", "HS-02 bearing cap · off · bag 7")
    assert reads(part_node(shop.spindle)) == ("", "HS-01 spindle")
    assert reads(subassembly_node(shop.headstock)) == ("1 of 2 off", "HS Headstock · 1 of 2 off")
    identify.put(desk.store, [shop.spindle], identify.add_place(desk.store, "9", PlaceKind.BAG))
    assert reads(part_node(shop.spindle))[1] == "HS-01 spindle · bag 9", (
        "a part put away shows its bag at once"
    )
    desk.undo()
    desk.undo()
    tree.resize(900, 500)
    assert reads(part_node(shop.cap))[1] == "HS-02 bearing cap", "the place has its own column"
    desk.undo()
    assert reads(part_node(shop.cap))[0] == reads(subassembly_node(shop.headstock))[0] == ""


def test_a_part_that_is_made_or_arrived_no_longer_reads_as_still_to_be_done(
    tree: PartTree, shop: Shop, desk: Desk
) -> None:
    decide.decide(desk.store, [shop.spindle], Decision.BUY, reason="bent")
    decide.decide(desk.store, [shop.cap], Decision.REMAKE, reason="worn")

    def reads(part: int) -> tuple[str, str, str]:
        line = tree.model.line_of(part_node(part))
        assert line is not None
        return line.texts[1], line.there, line.spoken

    assert [reads(part)[:2] for part in (shop.spindle, shop.cap)] == [("buy", ""), ("remake", "")]
    order = waiting.add_waiting(desk.store, shop.machine, "spindle", part_id=shop.spindle)
    waiting.mark(desk.store, order, waiting.Mark.ORDERED)
    assert reads(shop.spindle)[0] == "buy"
    waiting.mark(desk.store, order, waiting.Mark.ARRIVED)
    assert reads(shop.spindle)[:2] == ("arrived", "arrived")
    assert "decision buy, arrived" in reads(shop.spindle)[2]
    edit.edit(desk.store, "part", [shop.cap], {"origin": "remade"})
    assert reads(shop.cap)[0] == "made"


def test_line_tells_decision_place_and_open_steps(tree: PartTree, shop: Shop) -> None:
    place = identify.add_place(tree.acts._desk.store, "7", PlaceKind.TOTE)
    identify.put(tree.acts._desk.store, [shop.cap], place)
    line = tree.model.line_of(part_node(shop.cap))
    assert line is not None
    assert line.texts == ("HS-02 bearing cap", "remake", "tote 7", "1")
    assert line.decision is Decision.REMAKE
    assert line.spoken == "HS-02 bearing cap, decision remake, in tote 7, 1 open step"


def test_model_keeps_the_rules_of_qt_through_every_act(
    tree: PartTree, shop: Shop, qtmodeltester: ModelTester, desk: Desk
) -> None:
    qtmodeltester.check(tree.model)
    store = desk.store
    inner = identify.add_subassembly(store, shop.machine, "Back gear", "BG", parent_id=shop.headstock)
    gear = identify.add_part(store, shop.machine, inner, "gear", "BG-01")
    identify.add_part(store, shop.machine, None, "long pin", typed={"identity": "suspected"})
    identify.move_parts(store, [gear, shop.cap], shop.carriage, 0)
    identify.move_subassembly(store, inner, None, 0)
    identify.move_subassembly(store, shop.headstock, inner)
    assert shown(tree) == [
        "BG Back gear",
        ["HS Headstock", ["HS-01 spindle"]],
        "CA Carriage",
        ["BG-01 gear", "HS-02 bearing cap"],
        "Loose parts",
        ["long pin (suspected)"],
    ]
    qtmodeltester.check(tree.model)
    edit.remove(store, "subassembly", [inner])
    assert shown(tree) == [
        "CA Carriage",
        ["BG-01 gear", "HS-02 bearing cap"],
        "Loose parts",
        ["long pin (suspected)"],
    ]
    desk.undo()
    assert shown(tree)[:2] == ["BG Back gear", ["HS Headstock", ["HS-01 spindle"]]]
    qtmodeltester.check(tree.model)


def test_words_typed_are_looked_for_in_every_field(tree: PartTree, shop: Shop, desk: Desk) -> None:
    edit.edit(desk.store, "part", [shop.spindle], {"other_names": "main shaft", "stamped": "417"})
    identify.put(desk.store, [shop.cap], identify.add_place(desk.store, "Red lid", PlaceKind.BAG))
    for words, found in (
        ("hs-0", ["HS-01 spindle", "HS-02 bearing cap"]),
        ("main shaft", ["HS-01 spindle"]),
        ("417", ["HS-01 spindle"]),
        ("remake", ["HS-02 bearing cap"]),
        ("red bag", ["HS-02 bearing cap"]),
        ("headstock cap", ["HS-02 bearing cap"]),
        ("100%", []),
    ):
        tree.filter.setText(words)
        tree.read()
        assert shown(tree) == (["HS Headstock", found] if found else []), words
    tree.filter.clear()
    tree.read()
    assert len(shown(tree)) == 4


def test_filter_waits_for_typing_to_pause_and_enter_goes_to_the_first_found(
    tree: PartTree, qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    with qtbot.waitExposed(tree):
        tree.find_part()
    qtbot.keyClicks(tree.filter, "cap")
    assert len(shown(tree)) == 4
    qtbot.waitUntil(lambda: shown(tree) == ["HS Headstock", ["HS-02 bearing cap"]])
    qtbot.keyClick(tree.filter, Qt.Key.Key_Return)
    assert desk.selection.part_ids == (shop.cap,)


def test_choosing_lines_tells_the_desk(tree: PartTree, desk: Desk, shop: Shop) -> None:
    tree.view.choose_nodes([part_node(shop.spindle), part_node(shop.cap)])
    assert desk.selection.part_ids == (shop.spindle, shop.cap)
    assert desk.selection.subassembly_id == shop.headstock
    tree.view.choose_nodes([subassembly_node(shop.carriage)])
    assert (desk.selection.subassembly_id, desk.selection.part_ids) == (shop.carriage, ())


def test_tree_follows_what_another_pane_chose(tree: PartTree, desk: Desk, shop: Shop) -> None:
    desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    assert tree.view.chosen_nodes() == [part_node(shop.cap)]


def test_first_subassembly_is_chosen_when_nothing_is(tree: PartTree, desk: Desk, shop: Shop) -> None:
    assert desk.selection.subassembly_id == shop.headstock


def test_rename_by_f2(tree: PartTree, desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    tree.view.choose_nodes([part_node(shop.cap)])
    qtbot.keyClick(tree.view, Qt.Key.Key_F2)
    editor = tree.view.viewport().findChild(QLineEdit)
    assert isinstance(editor, QLineEdit)
    assert editor.text() == "bearing cap"
    editor.selectAll()
    qtbot.keyClicks(editor, "front cap")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: shown(tree)[1] == ["HS-01 spindle", "HS-02 front cap"])
    assert desk.store.undo_label() == "edit of name on HS-02 front cap"


def test_refused_name_is_said_and_stays_in_the_editor(
    tree: PartTree, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    tree.view.choose_nodes([part_node(shop.cap)])
    tree.view.rename()
    editor = tree.view.viewport().findChild(QLineEdit)
    assert isinstance(editor, QLineEdit)
    editor.setText("x" * 201)
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: bool(said))
    assert said[-1].startswith("Name: ")
    assert "200 fit" in said[-1]

    # Qt closes the editor after the act; it comes back by a timer, filled with what was typed.
    def opened() -> QLineEdit | None:
        return next(
            (
                one
                for one in tree.view.viewport().findChildren(QLineEdit)
                if one.isVisible() and one is not editor
            ),
            None,
        )

    qtbot.waitUntil(lambda: opened() is not None)
    again = opened()
    assert again is not None
    assert again.text() == "x" * 201


def test_alt_arrows_put_in_order(tree: PartTree, shop: Shop, qtbot: QtBot, desk: Desk) -> None:
    tree.view.choose_nodes([part_node(shop.cap)])
    qtbot.keyClick(tree.view, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert shown(tree)[1] == ["HS-02 bearing cap", "HS-01 spindle"]
    assert tree.view.chosen_nodes() == [part_node(shop.cap)]
    qtbot.keyClick(tree.view, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert shown(tree)[1] == ["HS-02 bearing cap", "HS-01 spindle"]
    tree.view.choose_nodes([subassembly_node(shop.carriage)])
    qtbot.keyClick(tree.view, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert shown(tree)[0] == "CA Carriage"
    desk.undo()
    desk.undo()
    assert shown(tree)[:2] == ["HS Headstock", ["HS-01 spindle", "HS-02 bearing cap"]]


def drop(tree: PartTree, nodes: list[int], target: int, row: int) -> None:
    """Let go of nodes over a target, through the model as a drag does."""
    model = tree.model
    data = model.mimeData([model.index_of(node) for node in nodes])
    assert dragged(data) == nodes
    parent = model.index_of(target)
    if model.canDropMimeData(data, Qt.DropAction.MoveAction, row, 0, parent):
        model.dropMimeData(data, Qt.DropAction.MoveAction, row, 0, parent)


def test_dragged_parts_land_where_they_are_dropped(tree: PartTree, shop: Shop, desk: Desk) -> None:
    nut = identify.add_part(desk.store, shop.machine, shop.carriage, "nut", "CA-01")
    drop(tree, [part_node(shop.cap)], subassembly_node(shop.carriage), 0)
    assert shown(tree)[2:4] == ["CA Carriage", ["HS-02 bearing cap", "CA-01 nut"]]
    drop(tree, [part_node(shop.cap)], subassembly_node(shop.carriage), 2)
    assert shown(tree)[3] == ["CA-01 nut", "HS-02 bearing cap"]
    drop(tree, [part_node(nut)], BOX, -1)
    assert shown(tree)[-1] == ["CA-01 nut"]
    drop(tree, [subassembly_node(shop.carriage)], subassembly_node(shop.headstock), -1)
    assert shown(tree)[1] == ["HS-01 spindle", "CA Carriage", ["HS-02 bearing cap"]]


def test_subassembly_dropped_into_itself_is_refused_in_words(tree: PartTree, shop: Shop, desk: Desk) -> None:
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    drop(tree, [subassembly_node(shop.headstock)], subassembly_node(shop.headstock), -1)
    assert "would lie inside itself" in said[-1]
    assert len(shown(tree)) == 4


def test_part_cannot_lie_on_the_machine_itself(tree: PartTree, shop: Shop, desk: Desk) -> None:
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    drop(tree, [part_node(shop.cap)], ROOT, 0)
    assert "drop it on one of them" in said[-1]
    assert shown(tree)[1] == ["HS-01 spindle", "HS-02 bearing cap"]


def test_del_removes_and_undo_brings_back(tree: PartTree, shop: Shop, qtbot: QtBot, desk: Desk) -> None:
    tree.view.choose_nodes([subassembly_node(shop.headstock), part_node(shop.spindle)])
    qtbot.keyClick(tree.view, Qt.Key.Key_Delete)
    assert shown(tree) == ["CA Carriage", "Loose parts"]
    assert (desk.selection.part_ids, desk.selection.subassembly_id) == ((), None)
    desk.undo()
    assert shown(tree)[:2] == ["HS Headstock", ["HS-01 spindle", "HS-02 bearing cap"]]


def test_what_stays_chosen_and_open_survives_a_change(tree: PartTree, shop: Shop, desk: Desk) -> None:
    head = tree.model.index_of(subassembly_node(shop.headstock))
    tree.view.setExpanded(head, True)
    tree.view.choose_nodes([part_node(shop.cap)])
    identify.add_subassembly(desk.store, shop.machine, "Bed", "BED")
    identify.move_subassembly(desk.store, shop.headstock, None, 2)
    assert tree.view.isExpanded(tree.model.index_of(subassembly_node(shop.headstock)))
    assert tree.view.chosen_nodes() == [part_node(shop.cap)]


def test_another_windows_part_appears(tree: PartTree, shop: Shop, qtbot: QtBot) -> None:
    identify.add_part(shop.store, shop.machine, shop.carriage, "apron worm", "CA-07")
    tasks.add_task(shop.store, shop.machine, shop.headstock, "Ream the cap", part_id=shop.cap)
    qtbot.waitUntil(lambda: "CA-07 apron worm" in str(shown(tree)), timeout=1000)
    line = tree.model.line_of(part_node(shop.cap))
    assert line is not None
    assert line.texts[3] == "2"


def test_two_and_a_half_thousand_parts_are_followed_without_a_reset(
    tree: PartTree, shop: Shop, desk: Desk, qtbot: QtBot
) -> None:
    with desk.store.act(Act.IMPORT, "parts") as tx:
        tx.session.add_all(
            Part(machine_id=shop.machine, subassembly_id=shop.carriage, name=f"part {n}", position=n)
            for n in range(2500)
        )
    resets: list[int] = []
    tree.model.modelReset.connect(lambda: resets.append(1))
    node = next(node for node in tree.model.nodes() if kind_of(node) is Kind.PART and id_of(node) > shop.cap)
    changed: list[int] = []
    tree.model.dataChanged.connect(lambda top, bottom: changed.append(bottom.row() - top.row() + 1))
    decide.decide(desk.store, [id_of(node)], Decision.REUSE)
    assert changed == [1]
    identify.move_parts(desk.store, [id_of(node)], shop.carriage, 2000)
    edit.remove(desk.store, "part", [id_of(node)])
    assert resets == []
    assert len(tree.model.children_of(subassembly_node(shop.carriage))) == 2499


def test_painting_asks_the_store_nothing(tree: PartTree, desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    def read_again() -> object:
        raise AssertionError("a paint asked the store")

    monkeypatch.setattr(desk.store, "read", read_again)
    assert not tree.grab().isNull()


def test_right_click_offers_the_acts_of_the_frames_table(tree: PartTree, shop: Shop, desk: Desk) -> None:
    def offered(node: int) -> list[str]:
        menu = QMenu(tree)
        fill_menu(menu, desk, tree, node)
        return [action.text().replace("&", "") for action in menu.actions() if action.text()]

    tree.view.choose_nodes([part_node(shop.cap)])
    assert offered(part_node(shop.cap)) == [
        "Decide…\tCtrl+D",
        "Making sheet\tCtrl+K",
        "Put away…\tCtrl+P",
        "Concession…",
        "Matched set…",
        "New feature…\tCtrl+E",
        "New step for it…",
        "Rename\tF2",
        "Move to…\tCtrl+Shift+M",
        "Print tags…",
        "Print measuring sheet of chosen parts…",
        "Remove\tDel",
    ]
    assert offered(BOX) == ["New part…\tCtrl+N", "New loose part…", "New subassembly…\tCtrl+Shift+N"]
    assert offered(subassembly_node(shop.headstock))[0] == "New part…\tCtrl+N"


def test_in_a_narrow_tree_a_long_name_goes_under_its_code_and_no_word_is_broken(qapp: QApplication) -> None:
    metrics = QFontMetrics(qapp.font())
    code = "BAS-04"
    line = Line(code, "", ("", "", "", ""), "")
    narrow = metrics.horizontalAdvance(code + "  ") + metrics.horizontalAdvance("column")

    def lines(name: str, room: int) -> tuple[int, tuple[str, ...]]:
        return TreeDelegate._broken(line, f"{code} {name}", room, metrics, qapp.font().key())

    at, words = lines("taper pin, column to base", narrow)
    assert at < metrics.horizontalAdvance(code)
    assert words[0] == ""
    assert " ".join(words[1:]) == "taper pin, column to base"
    assert all(metrics.horizontalAdvance(one) <= narrow - at for one in words)
    for name, room in (("base", narrow), ("taper pin, column to base", 20 * narrow)):
        at, words = lines(name, room)
        assert (words, at) == ((name,), metrics.horizontalAdvance(code + "  ")), (
            "beside the code where it fits"
        )
