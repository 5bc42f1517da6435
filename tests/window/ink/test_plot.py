"""Plots drawn on a picture in memory: values lie where they belong, curves differ without colour, names keep apart."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QImage, QPainter
from pytestqt.qtbot import QtBot

from rebuild.window.ink import theme
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.plot import MARKS, Plot, even, mark, stroke

FIELD = QRectF(40, 10, 200, 100)


@pytest.fixture
def image(qapp: object) -> QImage:
    made = QImage(320, 160, QImage.Format.Format_RGB32)
    made.fill(theme.ink().sheet)
    return made


@pytest.fixture
def plot(image: QImage) -> Iterator[Plot]:
    painter = QPainter(image)
    yield Plot(painter, FIELD, (10.0, 30.0), (-5.0, 5.0))
    painter.end()


def inked(image: QImage, region: QRectF) -> int:
    """How many points of a region are not the bare sheet."""
    bare, rect = theme.ink().sheet.rgb(), region.toRect()
    return sum(
        image.pixel(x, y) != bare
        for x in range(rect.left(), rect.right() + 1)
        for y in range(rect.top(), rect.bottom() + 1)
    )


def around(x: float, y: float) -> QRectF:
    return QRectF(x - 3, y - 3, 6, 6)


def test_the_edges_of_the_field_are_the_ends_of_the_values(plot: Plot) -> None:
    assert (plot.x(10.0), plot.x(30.0)) == (FIELD.left(), FIELD.right())
    assert (plot.y(-5.0), plot.y(5.0)) == (FIELD.bottom(), FIELD.top())
    assert plot.points([(20.0, 0.0)]) == [FIELD.center()]


def test_one_value_alone_has_a_place(image: QImage) -> None:
    painter = QPainter(image)
    alone = Plot(painter, FIELD, (3.0, 3.0), (0.0, 0.0))
    assert (alone.x(3.0), alone.y(0.0)) == (FIELD.left(), FIELD.bottom())
    painter.end()


def test_a_curve_is_inked_along_its_points_and_nowhere_else(plot: Plot, image: QImage) -> None:
    plot.curve(plot.points([(10.0, -5.0), (20.0, 0.0), (30.0, 5.0)]), 0)
    assert inked(image, around(*FIELD.center().toTuple()))
    assert inked(image, around(90, 85)), "half way between the first two"
    assert not inked(image, QRectF(60, 12, 60, 30))


def test_levels_lie_at_their_values_with_words_before_them(plot: Plot, image: QImage) -> None:
    plot.levels([(0.0, "0")])
    assert inked(image, QRectF(FIELD.left(), 60, 200, 1)) > 190
    assert inked(image, QRectF(20, 52, 16, 16)), "its number"
    assert not inked(image, QRectF(60, 20, 100, 30))


def test_words_of_the_foot_do_not_run_into_each_other(plot: Plot, image: QImage) -> None:
    plot.foot([(20.0, "twenty"), (20.5, "XXXXXXXXXX")])
    words = plot.painter.fontMetrics().horizontalAdvance("twenty")
    below = QRectF(0, FIELD.bottom() + 6, 319, 40)
    left, right = FIELD.center().x() - words / 2, FIELD.center().x() + words / 2
    assert inked(image, QRectF(left, below.top(), words, 40))
    assert not inked(image, QRectF(right + 2, below.top(), 80, 40)), "the second would touch the first"


def test_names_at_one_height_stand_under_each_other(plot: Plot, image: QImage) -> None:
    high = plot.painter.fontMetrics().height()
    plot.name("one", 40.0)
    first = inked(image, QRectF(248, 40 + 4 - high, 60, high + 3))
    plot.name("two", 40.0)
    assert inked(image, QRectF(248, 40 + 4 - high, 60, high)) <= first
    assert inked(image, QRectF(248, 40 + 8, 60, high))


def test_no_two_of_a_dozen_curves_are_alike_without_colour() -> None:
    ink = theme.ink().ink
    looks = {(tuple(stroke(ink, at).dashPattern()), at % MARKS) for at in range(12)}
    assert len(looks) == 12


def test_every_mark_is_its_own_shape(qapp: object) -> None:
    drawn = set()
    for kind in range(MARKS):
        image = QImage(20, 20, QImage.Format.Format_RGB32)
        image.fill(theme.ink().sheet)
        painter = QPainter(image)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        mark(painter, QPointF(10, 10), kind, theme.ink().ink, theme.ink().sheet)
        painter.end()
        drawn.add(bytes(image.constBits()))
    assert len(drawn) == MARKS == 6


def test_even_values_stay_inside_their_range() -> None:
    assert even(-7.0, 13.0, (5, 10), 6) == [-5.0, 0.0, 5.0, 10.0]
    assert even(0.0, 10_000.0, (5, 10), 6)[1] == 10.0, "the last size when none is large enough"


def test_a_picture_says_what_is_missing_or_draws(qtbot: QtBot) -> None:
    class Cross(Picture):
        words = "nothing yet"
        drawn = 0

        def missing(self) -> str:
            return self.words

        def draw(self, painter: QPainter) -> None:
            self.drawn += 1
            painter.drawLine(0, 0, 10, 10)

    cross = Cross("Cross", QSize(80, 40), QSize(20, 20))
    qtbot.addWidget(cross)
    cross.resize(120, 40)
    before = cross.grab().toImage()
    assert cross.drawn == 0
    assert inked(before, QRectF(before.rect()))
    cross.words = ""
    cross.grab()
    assert cross.drawn == 1
    assert (cross.sizeHint(), cross.accessibleName()) == (QSize(80, 40), "Cross")
