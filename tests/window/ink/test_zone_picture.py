"""The tolerance-zone picture: shares of the picture, open sides, arrows, and ink where it belongs."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from pytestqt.qtbot import QtBot

from rebuild.trade.results.figured import Zone
from rebuild.window.ink import theme
from rebuild.window.ink.zone_picture import Drawn, FitPicture, draw_cell, place
from rebuild.window.ink.zone_scale import round_step

INK = theme.LIGHT
WIDTH, HEIGHT = 126, 20


def cell(drawn: Drawn) -> QImage:
    placed = place(drawn)
    assert placed is not None
    image = QImage(WIDTH, HEIGHT, QImage.Format.Format_RGB32)
    image.fill(INK.sheet)
    painter = QPainter(image)
    draw_cell(painter, QRectF(0, 0, WIDTH, HEIGHT), placed, INK)
    painter.end()
    return image


def columns_of(image: QImage, colour: QColor) -> list[int]:
    return sorted(
        {
            x
            for x in range(image.width())
            for y in range(image.height())
            if image.pixelColor(x, y).name() == colour.name()
        }
    )


sizes = st.floats(0.01, 2000, allow_nan=False)
widths = st.floats(0.001, 2, allow_nan=False)


@given(sizes, widths, st.floats(0, 1), st.floats(0.0001, 0.5))
def test_a_reading_inside_the_limits_lies_inside_the_zone(
    low: float, width: float, share: float, U: float
) -> None:
    placed = place(Drawn(low, low + width, value_mm=low + share * width, U_mm=U))
    assert placed is not None
    assert placed.reading is not None
    assert placed.zone[0] - 1e-3 <= placed.reading <= placed.zone[1] + 1e-3
    assert not placed.out
    assert placed.bar is not None
    assert 0 <= placed.bar[0] <= placed.reading <= placed.bar[1] <= 1


@given(sizes, widths, st.floats(-100, 100))
def test_everything_drawn_lies_in_the_picture(low: float, width: float, off: float) -> None:
    value = low + off * width
    placed = place(Drawn(low, low + width, low, value))
    assert placed is not None
    assert placed.reading is not None
    assert 0 <= placed.reading <= 1
    assert (placed.out < 0) == (off < -0.75 - 1e-6) or abs(off + 0.75) < 1e-3
    assert (placed.out > 0) == (off > 1.75 + 1e-6) or abs(off - 1.75) < 1e-3


@given(sizes, widths, st.floats(-5, 5))
def test_turning_sizes_round_mirrors_the_picture(low: float, width: float, off: float) -> None:
    value = low + off * width
    one = place(Drawn(low, low + width, None, value))
    other = place(Drawn(-low - width, -low, None, -value))
    assert one is not None
    assert other is not None
    assert other.zone == pytest.approx((1 - one.zone[1], 1 - one.zone[0]), abs=2e-6)
    assert other.out == -one.out
    assert one.reading is not None
    assert other.reading == pytest.approx(1 - one.reading, abs=2e-6)


def test_no_limits_no_picture() -> None:
    assert place(Drawn(nominal_mm=25.0, value_mm=25.0)) is None


def test_a_high_limit_alone_is_open_below_and_runs_to_the_edge() -> None:
    placed = place(Drawn(None, 0.01, value_mm=0.004, from_zero=True))
    assert placed is not None
    assert placed.open_low
    assert not placed.open_high
    assert placed.zone[0] == 0.0
    assert placed.reading is not None
    assert placed.reading < placed.zone[1]


def test_a_low_limit_alone_is_open_above() -> None:
    placed = place(Drawn(24.95, None, value_mm=24.9))
    assert placed is not None
    assert placed.open_high
    assert placed.zone[1] == 1.0
    assert placed.reading is not None
    assert placed.reading < placed.zone[0]


def test_rows_alike_share_a_scale_although_their_readings_differ() -> None:
    one, other = place(Drawn(24.95, None, value_mm=24.945)), place(Drawn(24.95, None, value_mm=24.944))
    assert one is not None
    assert other is not None
    assert one.zone == other.zone
    assert one.reading != other.reading


@given(st.floats(1e-6, 1e4))
def test_a_round_step_is_at_most_two_and_a_half_times_too_long(value: float) -> None:
    assert value * (1 - 1e-9) <= round_step(value) <= value * 2.5 * (1 + 1e-9)


def test_the_cell_draws_the_reading_left_of_a_zone_it_is_under() -> None:
    image = cell(Drawn(24.98, 24.993, None, 24.975, 0.001))
    zone, mark = columns_of(image, INK.zone), columns_of(image, INK.mark)
    assert mark
    assert zone
    assert max(mark) < min(zone)


def test_the_cell_draws_an_arrow_at_the_edge_for_a_far_reading() -> None:
    image = cell(Drawn(24.98, 24.993, None, 25.4, 0.001))
    mark = columns_of(image, INK.mark)
    assert min(mark) > WIDTH - 18
    widest = max(mark, key=lambda x: sum(image.pixelColor(x, y) == INK.mark for y in range(HEIGHT)))
    assert widest < max(mark), "the arrow points off the picture"


def test_an_open_side_has_no_line() -> None:
    closed = columns_of(cell(Drawn(0.0, 0.01)), INK.ink)
    opened = columns_of(cell(Drawn(None, 0.01, from_zero=True)), INK.ink)
    assert len(closed) == 2 * len(opened) > 0


def test_a_fit_is_drawn_with_hole_above_and_shaft_below_the_zero_line(qtbot: QtBot) -> None:
    picture = FitPicture()
    qtbot.addWidget(picture)
    picture.resize(360, 190)
    picture.set_zones((Zone("25H7", 0, 0.021, "hole"), Zone("25f7", -0.041, -0.02, "shaft")))
    image = picture.grab().toImage()
    assert picture.accessibleDescription() == "25H7: 0.0000 to +0.0210 mm; 25f7: -0.0410 to -0.0200 mm"
    shaft = [y for y in range(190) for x in range(180, 360) if image.pixelColor(x, y) == theme.ink().zone]
    hatched = [y for y in range(190) for x in range(60, 150) if image.pixelColor(x, y) == theme.ink().ink]
    assert shaft
    assert hatched
    assert min(shaft) > min(hatched)


def test_fits_of_no_width_are_drawn(qtbot: QtBot) -> None:
    picture = FitPicture()
    qtbot.addWidget(picture)
    picture.set_zones((Zone("measured hole", 0.0, 0.0, "reading"),), "in")
    assert not picture.grab().isNull()
    assert picture.accessibleDescription() == "measured hole: 0.00000 to 0.00000 in"
