"""Export and import from the File menu: what is chosen, how rows would go, and one act."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QLineEdit
from pytestqt.qtbot import QtBot

from rebuild.window.commands.dispatch import do_act
from rebuild.window.desk.desk import Desk
from rebuild.window.exchange.export_dialog import ExportDialog, export_project
from rebuild.window.exchange.import_dialog import ImportDialog, import_tables
from rebuild.window.exchange.paste_list import paste_list
from rebuild.window.log.kept import show_kept
from rebuild.window.shell.frame import Frame
from rebuild.work.machines.rows_tree import parts
from tests.conftest import Shop


def write(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "list.csv"
    path.write_text(text)
    return path


def codes(desk: Desk) -> list[str]:
    with desk.store.read() as connection:
        return [row.code for row in parts(connection, desk.machine_id or 0)]


def dialog_on(desk: Desk, qtbot: QtBot) -> ImportDialog:
    made = ImportDialog(desk)
    qtbot.addWidget(made)
    return made


def test_both_stand_in_the_file_menu(frame: Frame) -> None:
    for name in ("import", "export"):
        dialog = do_act(name, frame.desk, frame)
        assert isinstance(dialog, (ImportDialog, ExportDialog))
        assert dialog.isVisible()
        dialog.reject()


def test_a_folder_is_written_beside_the_file_under_a_free_name(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    dialog = ExportDialog(desk)
    qtbot.addWidget(dialog)
    first = Path(dialog.target.text())
    assert first.parent == shop.path.parent
    with qtbot.waitSignal(dialog.job.done, timeout=20_000):
        dialog.start()
    assert (first / "README.txt").is_file()
    assert (first / "part list.csv").is_file()
    assert "Written:" in dialog.says.text()
    again = ExportDialog(desk)
    qtbot.addWidget(again)
    assert Path(again.target.text()) != first
    again.target.setText(str(first))
    with qtbot.waitSignal(again.job.failed, timeout=20_000):
        again.start()
    assert "not empty" in again.says.text()
    assert again.write.isEnabled()


def test_a_workbook_is_the_other_choice(desk: Desk, qtbot: QtBot) -> None:
    dialog = export_project(desk, None)  # type: ignore[arg-type]
    dialog.book.setChecked(True)
    target = Path(dialog.target.text())
    assert target.suffix == ".xlsx"
    assert not dialog.photos.isEnabled()
    with qtbot.waitSignal(dialog.job.done, timeout=20_000):
        dialog.write.click()
    assert target.is_file()
    dialog.reject()


def test_rows_are_looked_at_before_anything_is_stored(desk: Desk, qtbot: QtBot, tmp_path: Path) -> None:
    dialog = dialog_on(desk, qtbot)
    assert not dialog.bring.isEnabled()
    dialog.read(write(tmp_path, "code,name\nQ-1,pin\nHS-01,spindle\n"))
    shown = [dialog.rows.plain.text(row) for row in range(dialog.rows.plain.rowCount())]
    assert [row[0] for row in shown] == ["3", "2"]
    assert "already the code" in shown[0][2]
    assert shown[1][1] == "part Q-1 pin"
    assert "1 of 2 rows can be stored" in dialog.says.text()
    assert not dialog.bring.isEnabled()
    assert "Q-1" not in codes(desk)
    dialog.keep_bad.setChecked(True)
    assert dialog.bring.isEnabled()
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    dialog.bring.click()
    assert "Q-1" in codes(desk)
    assert "1 part. 1 row in the kept entries" in said[-1]
    desk.undo()
    assert "Q-1" not in codes(desk)


def test_a_column_can_be_given_another_meaning(desk: Desk, qtbot: QtBot, tmp_path: Path) -> None:
    dialog = import_tables(desk, None)  # type: ignore[arg-type]
    dialog.read(write(tmp_path, "code,thing,colour\nQ-1,pin,red\n"))
    assert dialog.columns.isVisible()
    assert [choice.currentText() for choice in dialog.columns.choices] == ["Code", "not taken", "not taken"]
    assert dialog.rows.plain.text(0)[1] == "part Q-1 Q-1", "a number without a name is its own name"
    name = dialog.columns.choices[1]
    name.setCurrentIndex(name.findText("Name"))
    assert dialog.rows.plain.text(0)[1:] == ("part Q-1 pin", "", "")
    dialog.columns.choices[2].setCurrentIndex(dialog.columns.choices[2].findText("Note"))
    dialog.bring.click()
    assert "Q-1" in codes(desk)


def test_a_table_can_be_said_to_be_another_kind(desk: Desk, shop: Shop, qtbot: QtBot, tmp_path: Path) -> None:
    dialog = dialog_on(desk, qtbot)
    dialog.read(write(tmp_path, "part code,feature,station,reading\nHS-01,front journal,near,5.998\n"))
    assert dialog.columns.kind.currentText() == "readings"
    assert "far from" in dialog.rows.plain.text(0)[2]
    assert dialog.sure.isEnabled()
    dialog.sure.setChecked(True)
    assert dialog.bring.isEnabled()
    dialog.columns.kind.setCurrentText("part list")
    assert "already the code of “spindle”" in dialog.rows.plain.text(0)[2]


def test_enter_in_the_files_name_reads_it_and_opens_no_chooser(
    desk: Desk, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []
    for chooser in ("getOpenFileName", "getExistingDirectory"):
        monkeypatch.setattr(QFileDialog, chooser, lambda *_args, **_more: asked.append("file") or ("", ""))
    path = write(tmp_path, "code,name\nHS-08,drip tray\n")
    dialog = dialog_on(desk, qtbot)
    dialog.show()
    dialog.path.setFocus()
    qtbot.keyClicks(dialog.path, str(path))
    qtbot.keyClick(dialog.path, Qt.Key.Key_Return)
    assert asked == []
    assert dialog.isVisible()
    assert "HS-08" in dialog.rows.plain.text(0)[1]
    qtbot.keyClick(dialog.path, Qt.Key.Key_Return)
    assert asked == []
    going_out = ExportDialog(desk)
    qtbot.addWidget(going_out)
    monkeypatch.setattr(
        QFileDialog, "getSaveFileName", lambda *_args, **_more: asked.append("out") or ("", "")
    )
    going_out.show()
    qtbot.keyClick(going_out.target, Qt.Key.Key_Return)
    assert asked == []


def test_what_cannot_be_read_is_a_sentence_and_the_path_stays(
    desk: Desk, qtbot: QtBot, tmp_path: Path
) -> None:
    dialog = dialog_on(desk, qtbot)
    dialog.read(tmp_path / "none.csv")
    assert "there is no such file" in dialog.says.text()
    assert dialog.path.text().endswith("none.csv")
    assert not dialog.bring.isEnabled()
    dialog.read(write(tmp_path, "day,rain\nMonday,yes\n"))
    assert "no headings of a part list" in dialog.says.text()
    assert dialog.columns.isVisibleTo(dialog), "a table nobody can place is shown, not refused unseen"
    assert "Say below what each column means." in dialog.says.text()
    dialog.columns.choices[0].setCurrentText("Name")
    assert dialog.rows.plain.text(0)[1] == "part Monday"
    dialog.no_heads.setChecked(True)
    dialog.columns.choices[0].setCurrentText("Name")
    assert [dialog.rows.plain.text(row)[1] for row in (0, 1)] == ["part day", "part Monday"]


def test_an_exported_folder_comes_back_whole(
    desk: Desk, empty_desk: Desk, project: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    from rebuild.exchange.folder import export_folder

    export_folder(desk.store.path, tmp_path / "out")
    empty_desk.open(project)
    dialog = dialog_on(empty_desk, qtbot)
    dialog.read(tmp_path / "out")
    assert not dialog.columns.isVisible()
    assert ("machine", "1 row", "") in [
        dialog.rows.plain.text(row) for row in range(dialog.rows.plain.rowCount())
    ]
    dialog.bring.click()
    assert codes(empty_desk) == codes(desk)
    with empty_desk.store.read() as connection:
        assert connection.exec_driver_sql("SELECT count(*) FROM task").scalar_one() > 0
    listed = [dialog.rows.plain.text(at)[1] for at in range(dialog.rows.plain.rowCount())]
    rows = sum(int(words.split()[0]) for words in listed)
    assert empty_desk.store.undo_label() == f"import of 1 machine with {rows} rows"


PASTED = "2x gib screw\nthrust washer, bronze\n- wiper (4)\n"


def test_a_list_is_pasted_into_the_tree_looked_at_and_undone_at_once(
    frame: Frame, shop: Shop, qtbot: QtBot
) -> None:
    from PySide6.QtCore import Qt
    from PySide6.QtWidgets import QApplication

    from rebuild.window.bench.page import BenchPage

    desk = frame.desk
    desk.choose(subassembly_id=shop.carriage, part_ids=())
    page = frame.page("bench")
    assert isinstance(page, BenchPage)
    QApplication.clipboard().setText(PASTED)
    page.tree.view.setFocus()
    qtbot.keyClick(page.tree.view, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    dialog = next(one for one in frame.findChildren(ImportDialog) if one.isVisible())
    shown = [dialog.rows.plain.text(row)[1] for row in range(dialog.rows.plain.rowCount())]
    assert shown == ["2 × part gib screw", "part thrust washer, bronze", "4 × part wiper"]
    before = len(codes(desk))
    dialog.bring.click()
    with desk.store.read() as connection:
        made = [row for row in parts(connection, shop.machine) if row.subassembly_id == shop.carriage]
    assert [(row.name, row.quantity) for row in made][-3:] == [
        ("gib screw", 2), ("thrust washer, bronze", 1), ("wiper", 4),
    ]  # fmt: skip
    desk.undo()
    assert len(codes(desk)) == before
    QApplication.clipboard().setText("A-7\tfeed nut\t2\nA-8\tworm wheel\t1\n")
    pasted = paste_list(desk, frame)
    assert pasted is not None
    assert [choice.currentText() for choice in pasted.columns.choices] == ["Code", "Name", "Quantity"]
    assert pasted.rows.plain.text(0)[1] == "2 × part A-7 feed nut"
    pasted.reject()


def test_nothing_to_paste_is_said_and_no_empty_box_opens(
    frame: Frame, shop: Shop, qtbot: QtBot, tmp_path: Path
) -> None:
    from PySide6.QtCore import QMimeData, QUrl
    from PySide6.QtGui import QImage
    from PySide6.QtWidgets import QApplication

    desk, clipboard = frame.desk, QApplication.clipboard()
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))

    def files(*paths: Path) -> None:
        held = QMimeData()
        held.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
        clipboard.setMimeData(held)

    before = len(codes(desk))
    for hold, sentence in (
        (clipboard.clear, "The clipboard is empty: copy a list of parts first"),
        (lambda: clipboard.setText(" \n"), "The clipboard is empty"),
        (lambda: clipboard.setImage(QImage(8, 8, QImage.Format.Format_RGB32)), "paste it under Photos"),
        (lambda: files(tmp_path / "IMG_1.jpg"), "“IMG_1.jpg”, which is no list of parts"),
    ):
        hold()
        assert paste_list(desk, frame) is None
        assert sentence in said[-1]
    assert not [one for one in frame.findChildren(ImportDialog) if one.isVisible()]
    assert len(codes(desk)) == before
    listed = tmp_path / "parts.csv"
    listed.write_text("Code,Name\nA-7,feed nut\n")
    files(listed)  # copied in the file manager
    dialog = paste_list(desk, frame)
    assert dialog is not None
    assert dialog.rows.plain.text(0)[1] == "part A-7 feed nut"
    dialog.reject()
    clipboard.clear()


def test_sheets_are_chosen_among_and_the_lists_come_together(
    desk: Desk, qtbot: QtBot, tmp_path: Path
) -> None:
    from tests.exchange.shapes import SHAPES

    shape = next(shape for shape in SHAPES if shape.name == "two lists.xlsx")
    shape.write(tmp_path / shape.name)
    dialog = dialog_on(desk, qtbot)
    dialog.read(tmp_path / shape.name)
    assert [dialog.sheet.itemText(at) for at in range(dialog.sheet.count())] == [
        "all 2 lists", "sheet “Apron”", "sheet “Saddle”",
    ]  # fmt: skip
    assert dialog.rows.plain.rowCount() == 3
    dialog.sheet.setCurrentIndex(2)
    dialog.sheet.activated.emit(2)
    assert dialog.rows.plain.text(0)[1] == "4 × part wiper"


DOUBLED = (
    "Code\tName\tMaker's number\nA-7\tfeed nut\t4711\nA-7\tworm wheel\t4711\nHS-01\tcollar\t\nA-9\tgib\t\n"
)


def test_a_doubled_code_is_mended_in_its_cell_or_kept_aside_and_put_in_later(
    frame: Frame, shop: Shop, qtbot: QtBot
) -> None:
    desk, before = frame.desk, codes(frame.desk)
    dialog = ImportDialog(desk, frame)
    dialog.show()
    dialog.read_pasted(DOUBLED)
    rows = dialog.rows

    def shown() -> list[tuple[str, ...]]:
        return [rows.plain.text(row) for row in range(rows.plain.rowCount())]

    assert [(row[0], row[3]) for row in shown()] == [("3", "A-7"), ("4", "HS-01"), ("2", ""), ("5", "")]
    assert [row[1] for row in shown()][:2] == ["A-7 worm wheel", "HS-01 collar"], (
        "a stopped row says its part"
    )
    assert "“A-7” is already the code of “feed nut”" in shown()[0][2]
    assert "2 cannot be stored: mend them here or in the file, or keep them aside." in dialog.says.text()
    assert not dialog.bring.isEnabled()
    rows.choose(0)
    rows.setFocus()
    qtbot.keyClick(rows, Qt.Key.Key_F2)
    editor = rows.findChild(QLineEdit)
    assert editor is not None
    assert editor.text() == "A-7"
    editor.selectAll()
    qtbot.keyClicks(editor, "A-8")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: shown()[0][0] == "4")
    assert [(row[0], row[3]) for row in shown()] == [("4", "HS-01"), ("2", ""), ("3", "A-8"), ("5", "")]
    assert shown()[2][1] == "part A-8 worm wheel (maker’s number 4711 is also that of A-7 feed nut)"
    rows.mending.setData(rows.mending.index(0, 3), "A-7")
    assert (shown()[0][0], shown()[0][3]) == ("4", "A-7"), "mended into a code another row has: stopped again"
    assert "already the code of “feed nut”" in shown()[0][2]
    rows.mending.setData(rows.mending.index(0, 3), "HS-01")
    dialog.keep_bad.setChecked(True)
    dialog.bring.click()
    assert sorted(set(codes(desk)) - set(before)) == ["A-7", "A-8", "A-9"]

    kept = show_kept(desk, frame)
    assert kept.table.plain.text(0)[1:3] == ("import, part list, row 4", "code: HS-01 | name: collar")
    kept.put_in.click()
    (again,) = kept.findChildren(ImportDialog)
    assert again.rows.plain.text(0)[3] == "HS-01"
    again.rows.mending.setData(again.rows.mending.index(0, 3), "HS-09")
    again.bring.click()
    assert "HS-09" in codes(desk)
    assert kept.table.plain.rowCount() == 0, "it is dealt with"
    kept.close()
    desk.undo()
    assert "HS-09" not in codes(desk)
