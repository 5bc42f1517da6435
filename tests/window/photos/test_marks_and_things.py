"""A mark that names a part leads to it; joints, surveys and questions have their photos where they are worked on."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Say
from rebuild.window.joints.page import JointsPage
from rebuild.window.log.questions import QuestionsPage
from rebuild.window.photos import taking
from rebuild.window.photos.attached import AttachedPhotos
from rebuild.window.photos.page import PhotosPage
from rebuild.window.shell.frame import Frame
from rebuild.window.surveys.page import SurveyPage
from rebuild.words.photos import MarkKind
from rebuild.words.surveys import SurveyMethod
from rebuild.work.joints.acts import add_joint
from rebuild.work.machines.acts import add_machine, add_part
from rebuild.work.photos.acts import mark_photo, name_mark
from rebuild.work.photos.acts_take import take_in
from rebuild.work.photos.rows import Which, marks, photos
from rebuild.work.photos.rows_shown import of_thing
from rebuild.work.question_pack.rows import question_pack
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.surveys.acts import add_survey
from tests.conftest import Shop
from tests.support import refuses


def picture(path: Path, shade: int = 90) -> Path:
    Image.new("RGB", (320, 240), (shade, 90, 120)).save(path)
    return path


def test_a_mark_names_a_part_and_a_click_goes_there(
    qtbot: QtBot, frame: Frame, shop: Shop, tmp_path: Path
) -> None:
    desk = frame.desk
    photo = take_in(desk.store, shop.machine, [picture(tmp_path / "head.png")]).added[0]
    frame.resize(1280, 800)
    frame.show_page("photos")
    page = frame.page("photos")
    assert isinstance(page, PhotosPage)
    said: list[tuple[str, Say]] = []
    desk.said.connect(lambda words, how: said.append((words, how)))
    page.tool.setCurrentText(MarkKind.ARROW.value)
    field = page.sheet.field()
    start = QPoint(round(field.left() + field.width() * 0.6), round(field.top() + field.height() * 0.6))
    end = QPoint(round(field.left() + field.width() * 0.3), round(field.top() + field.height() * 0.3))
    page.names.line().setText("no such part")
    drag(qtbot, page, start, end)
    assert "“no such part” is no part of this machine" in said[-1][0]
    page.names.line().setText("HS-02")
    drag(qtbot, page, start, end)
    with desk.store.read() as connection:
        (mark,) = marks(connection, photo)
        shown = photos(connection, shop.machine, Which.CHOSEN, part_ids=(shop.cap,))
    assert (mark.part_id, mark.said) == (shop.cap, "HS-02 bearing cap")
    assert [row.id for row in shown] == [photo], "a photo whose mark names a part shows it"
    assert page.names.typed() == "", "the next mark names nothing until it is said"
    qtbot.mouseClick(page.sheet, Qt.MouseButton.LeftButton, pos=end)
    assert frame.page_shown == "photos", "while marks are drawn a press begins one"
    desk.undo()
    page.tool.setCurrentIndex(0)
    qtbot.mouseClick(page.sheet, Qt.MouseButton.LeftButton, pos=end)
    assert (frame.page_shown, desk.selection.part_ids) == ("bench", (shop.cap,))
    desk.undo()
    with desk.store.read() as connection:
        assert marks(connection, photo) == []
        assert photos(connection, shop.machine, Which.CHOSEN, part_ids=(shop.cap,)) == []
    page.model.stop()


def test_a_mark_is_named_anew_and_never_after_a_part_of_another_machine(shop: Shop, tmp_path: Path) -> None:
    store = shop.store
    photo = take_in(store, shop.machine, [picture(tmp_path / "head.png")]).added[0]
    mark = mark_photo(store, photo, MarkKind.LABEL, (0.1, 0.1), (0.1, 0.1), "", shop.cap)
    name_mark(store, mark, shop.spindle)
    with store.read() as connection:
        assert [row.said for row in marks(connection, photo)] == ["HS-01 spindle"]
    name_mark(store, mark, None)
    with store.read() as connection:
        assert [row.part_id for row in marks(connection, photo)] == [None]
    store.undo()
    with store.read() as connection:
        assert [row.part_id for row in marks(connection, photo)] == [shop.spindle]
    with refuses(store, "Words: is empty"):
        mark_photo(store, photo, MarkKind.MATCH_MARK, (0.1, 0.1), (0.2, 0.2), "", shop.cap)
    knee = add_part(store, add_machine(store, "Mill"), None, "knee screw")
    with refuses(store, "“knee screw” belongs to another machine"):
        mark_photo(store, photo, MarkKind.RING, (0.1, 0.1), (0.2, 0.2), "", knee)


def test_joints_surveys_and_questions_carry_photos_from_where_they_are(
    qtbot: QtBot, frame: Frame, shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(taking, "AT_ONCE_BYTES", 0)
    desk = frame.desk
    joint = add_joint(desk.store, shop.machine, shop.headstock, "cap screws", {"tight": "apart"})
    survey = add_survey(desk.store, shop.machine, "front way", SurveyMethod.INDICATOR, typed={"unit": "mm"})
    at: dict[str, tuple[str, int]] = {"joints": ("joint", joint), "survey": ("survey", survey),
                                      "questions": ("question", shop.question)}  # fmt: skip
    for number, (key, (record, row)) in enumerate(at.items()):
        frame.show_page(key)
        page = frame.page(key)
        assert isinstance(page, (JointsPage, SurveyPage, QuestionsPage))
        page.show_row(record, row)
        pane = page.photos
        assert isinstance(pane, AttachedPhotos)
        assert pane.said.text().endswith("none yet; drop or add some")
        with qtbot.waitSignal(pane.taken, timeout=10_000):
            pane.take([picture(tmp_path / f"{number}.png", 40 * number)])
            assert pane.taking.job.running, "the window goes on while they are read"
        with desk.store.read() as connection:
            there = [one.id for one in of_thing(connection, shop.machine, record, row)]
        assert (len(there), pane.shown()) == (1, there)
    with desk.store.read() as connection:
        pack = question_pack(connection, shop.question, verdict_rule(desk.store))
    assert [one.file_name for one in pack.photos] == ["2.png"]
    pane = frame.page("questions").photos  # type: ignore[attr-defined]
    QApplication.clipboard().setImage(frame.grab().toImage())
    with qtbot.waitSignal(pane.taken, timeout=10_000):
        pane.strip.paste()
    assert len(pane.shown()) == 2, "what was pasted is still there when the thread comes to read it"
    desk.undo()
    desk.undo()
    with desk.store.read() as connection:
        assert of_thing(connection, shop.machine, "question", shop.question) == []
        assert len(photos(connection, shop.machine)) == 2, "one undo takes back the photo and what it shows"
    for key in at:
        frame.page(key).photos.strip.model.stop()  # type: ignore[attr-defined]


def drag(qtbot: QtBot, page: PhotosPage, start: QPoint, end: QPoint) -> None:
    qtbot.mousePress(page.sheet, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(page.sheet, end)
    qtbot.mouseRelease(page.sheet, Qt.MouseButton.LeftButton, pos=end)
