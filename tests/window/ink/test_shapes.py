"""The plain shapes: every state has its own, told apart in grey at the size of a list row."""

from __future__ import annotations

from itertools import combinations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from pytestqt.qtbot import QtBot

from rebuild.trade.limits.judgement import Verdict
from rebuild.window.ink import theme
from rebuild.window.ink.shapes import Shape, ShapeMark, draw_shape, shape_for, shape_icon, shape_pixmap
from rebuild.words.decisions import Decision
from rebuild.words.log import QuestionState
from rebuild.words.parts import Identity
from rebuild.words.steps import TaskState

SIDE = 12
LISTS = (Verdict, Decision, TaskState, Identity, QuestionState)


def drawn(shape: Shape, ink: QColor = theme.LIGHT.ink, side: int = SIDE) -> QImage:
    image = QImage(side, side, QImage.Format.Format_Grayscale8)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    draw_shape(painter, QRectF(0, 0, side, side), shape, ink)
    painter.end()
    return image


def inked(image: QImage) -> set[tuple[int, int]]:
    return {
        (x, y)
        for x in range(image.width())
        for y in range(image.height())
        if image.pixelColor(x, y).lightness() < 128
    }


@pytest.mark.parametrize("states", LISTS)
def test_every_state_of_a_list_has_its_own_shape(qapp: object, states: type[Verdict]) -> None:
    shapes = [shape_for(state) for state in states]
    assert len(set(shapes)) == len(list(states))


def test_open_means_another_shape_for_a_part_a_step_and_a_question(qapp: object) -> None:
    shapes = {shape_for(Decision.OPEN), shape_for(TaskState.OPEN), shape_for(QuestionState.OPEN)}
    assert shapes == {Shape.OPEN, Shape.TO_DO, Shape.ASKED}


@pytest.mark.parametrize("states", LISTS)
def test_shapes_of_a_list_are_told_apart_in_grey(qapp: object, states: type[Verdict]) -> None:
    images = {shape_for(state): inked(drawn(shape_for(state))) for state in states}
    for one, other in combinations(images, 2):
        assert len(images[one] ^ images[other]) >= 8, f"{one} and {other} look alike at {SIDE} px"


@pytest.mark.parametrize("shape", list(Shape))
def test_a_shape_keeps_inside_its_square(qapp: object, shape: Shape) -> None:
    image = QImage(40, 40, QImage.Format.Format_Grayscale8)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    draw_shape(painter, QRectF(10, 10, 20, 20), shape, theme.LIGHT.ink)
    painter.end()
    found = inked(image)
    assert found
    assert all(9 <= x <= 30 and 9 <= y <= 30 for x, y in found)


def test_a_shape_sits_in_the_middle_of_a_wide_cell(qapp: object) -> None:
    image = QImage(60, 20, QImage.Format.Format_Grayscale8)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    draw_shape(painter, QRectF(0, 0, 60, 20), Shape.CONFORMS, theme.LIGHT.ink)
    painter.end()
    columns = [x for x, _ in inked(image)]
    assert abs((min(columns) + max(columns)) / 2 - 29.5) <= 1


def test_pictures_follow_ink_and_pixel_ratio(qapp: object) -> None:
    assert shape_pixmap(Shape.DONE, 16, theme.DARK.ink, 2.0).width() == 32
    light = shape_pixmap(Shape.CONFORMS, 16, theme.LIGHT.ink).toImage().pixelColor(8, 8)
    dark = shape_pixmap(Shape.CONFORMS, 16, theme.DARK.ink).toImage().pixelColor(8, 8)
    assert (light.name(), dark.name()) == (theme.LIGHT.ink.name(), theme.DARK.ink.name())
    assert not shape_icon(Shape.BUY, theme.LIGHT.ink).isNull()


def test_a_mark_says_its_word(qtbot: QtBot) -> None:
    mark = ShapeMark(Shape.UNDECIDED)
    qtbot.addWidget(mark)
    assert mark.accessibleName() == "undecided"
    mark.show_shape(None)
    assert mark.accessibleName() == ""
