"""The Figures page on an inch machine: inches first, in values, pictures, refusals; what is taken says whence."""

from __future__ import annotations

import re

import pytest
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from rebuild.trade.figures import all_figures
from rebuild.trade.limits.verdict import Rule
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Figured, SpecLine
from rebuild.trade.results.working import StepKind
from rebuild.window.desk.desk import Desk
from rebuild.window.figures.page import FiguresPage
from rebuild.window.figures.result import ANYWAY, BEGIN
from rebuild.window.figures.result_words import as_spec
from rebuild.window.readings.words import spec_from
from rebuild.work.machines.acts import add_machine, add_part
from rebuild.work.making.acts import start_sheet
from rebuild.work.making.rows import open_of
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.readings.acts_features import add_feature
from rebuild.work.readings.rows_grid import rows
from rebuild.work.records.acts_settings import set_decimal_comma
from tests.conftest import Shop
from tests.window.lists.test_words_shown import MM_FIRST


def _type(page: FiguresPage, **typed: str) -> None:
    for name, text in typed.items():
        field = page.form._fields[name]
        assert isinstance(field, QLineEdit)
        field.setText(text)
    page.work()


def test_an_inch_machine_is_spoken_to_in_inches(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = FiguresPage(desk)
    with qtbot.waitExposed(page):
        page.show()
    qtbot.addWidget(page)
    inch = add_machine(desk.store, "Small shaper", {"unit": "in"})
    part = add_part(desk.store, inch, None, "Ram shaft", "SH-01")
    bore = add_feature(desk.store, part, "keyseat", stations=["near"])
    with desk.store.read() as connection:
        (station,) = connection.exec_driver_sql("SELECT id FROM station WHERE feature_id = ?", (bore,)).one()
    desk.choose_machine(inch)
    page.choose_topic("woodruff")
    _type(page, key="606", shaft="1", worn="")
    result = page.result
    heads = [result.answers.horizontalHeaderItem(at) for at in range(4)]
    assert [head.text() for head in heads if head] == ["Answer", "Value", "mm", "Note"]
    row = {result.answers.item(at, 0).text(): at for at in range(result.answers.rowCount())}[
        "across the shaft"
    ]
    # Source: ASME B17.2, 606 in 1 in: S = 1 - 0.0089 - 0.2143 = 0.7768 in.
    assert result.answers.item(row, 1).text().startswith("0.7768")
    assert result.answers.item(row, 1).text().endswith(" in")
    assert result.answers.item(row, 2).text().endswith(" mm")
    figured = result._figured
    assert figured is not None
    assert figured.drawing is not None
    assert figured.drawing.words[0].text == "0.7768 in"
    _type(page, shaft="0.3")
    assert "Shaft: “0.3 in” is too thin" in result._trouble.text()
    # Taken to the feature: no more decimals than the tolerance is worth, and the row says whence.
    _type(page, shaft="1")
    desk.choose(key=(bore, station))
    result._take.click()
    with desk.store.read() as connection:
        (row_now,) = rows(connection, [(bore, station)], Rule.SIMPLE, {})
    assert row_now.spec_text == "0.7719 to 0.7768 in"
    assert spec_from(row_now).startswith("handbook: ")
    assert "B17.2" in spec_from(row_now)
    # And to the making sheet: whence too, instead of "as typed".
    sheet = start_sheet(desk.store, part)
    desk.choose(part_ids=(part,), key=None)
    result._send.click()
    with desk.store.read() as connection:
        sizes = sheet_page(connection, sheet).sizes
    assert next(size.source for size in sizes if size.name == "across the shaft").startswith("handbook: ")


#: Metric told behind inches: ``1.0000 in (25.400 mm)``, ``within 0.0100 in = 0.254 mm``.
TOLD = re.compile(r" in (?:\([^()]*mm\)|= [-+±\d./ to]*mm)")
#: A size in mm with no inches behind it.
MM_ALONE = re.compile(r"\d mm(?![²³/\w])(?! \([^()]* in\))(?! = [^()]* in\b)")


def test_a_page_shown_again_works_out_only_what_is_read_another_way_now(
    qtbot: QtBot, desk: Desk, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = FiguresPage(desk)
    with qtbot.waitExposed(page):
        page.show()
    qtbot.addWidget(page)
    shown: list[str] = []
    real = page.result.show_figured

    def heard(figure: Figure, figured: Figured, unit: str) -> None:
        shown.append(unit)
        real(figure, figured, unit)

    monkeypatch.setattr(page.result, "show_figured", heard)
    page.hide()
    page.show()
    assert shown == []
    page.hide()
    desk.choose_machine(add_machine(desk.store, "Small shaper", {"unit": "in"}))
    assert shown == []
    page.show()
    assert shown == ["in"]
    page.hide()
    set_decimal_comma(desk.store, True)
    page.show()
    assert shown == ["in", "in"]
    page.hide()
    page.show()
    desk.choose_machine(shop.machine)
    assert shown == ["in", "in", "mm"]


def test_every_topic_tells_an_inch_machine_every_size_in_inches(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = FiguresPage(desk)
    with qtbot.waitExposed(page):
        page.show()
    qtbot.addWidget(page)
    desk.choose_machine(add_machine(desk.store, "Small shaper", {"unit": "in"}))
    alone, first, lines = [], [], 0
    for topic in all_figures():
        page.choose_topic(topic)
        page.work()
        working = page.result.working.working
        assert working is not None, topic
        for step in working.steps:
            lines += 1
            told = f"{step.label}: {step.text}"
            alone += [f"{topic}: {told}" for _ in MM_ALONE.findall(TOLD.sub(" in", step.text))]
            if step.kind is not StepKind.EQUATION and " = " not in told and MM_FIRST.search(told):
                first.append(f"{topic}: {told}")
    assert not alone, "\n".join(alone)
    assert not first, "\n".join(first)
    assert lines > 900


@pytest.mark.parametrize(
    ("low", "high", "unit", "text"),
    [
        (19.60448, 19.73148, "in", "0.7719 to 0.7768 in"),
        (25.0, 25.021, "mm", "25 to 25.021 mm"),
        (25.0, 25.021, "in", "0.98426 to 0.98507 in"),
        (None, 12.0, "mm", "max 12 mm"),
    ],
)
def test_limits_are_taken_rounded_inward(low: float | None, high: float, unit: str, text: str) -> None:
    assert as_spec(SpecLine("size", None, low, high, "test"), unit) == text


def test_a_circle_of_holes_goes_whole_to_the_sheet_and_nowhere_unasked(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    page = FiguresPage(desk)
    with qtbot.waitExposed(page):
        page.show()
    qtbot.addWidget(page)
    inch = add_machine(desk.store, "Small shaper", {"unit": "in"})
    part = add_part(desk.store, inch, None, "Cover", "SH-02")
    deep = add_feature(desk.store, part, "keyseat depth", stations=["near"])
    with desk.store.read() as connection:
        (station,) = connection.exec_driver_sql("SELECT id FROM station WHERE feature_id = ?", (deep,)).one()
    desk.choose_machine(inch)
    desk.choose(key=(deep, station), part_ids=(part,))
    page.choose_topic("hole-circle")
    _type(page, circle="3", holes="4", first="30", hole="1/4")
    result = page.result
    offered = [result._spec.itemText(at) for at in range(result._spec.count())]
    assert not any("hole 1" in one for one in offered), "a coordinate below nought is no size"
    assert not result._take.isEnabled(), "a circle of holes is no limit of a feature"
    # Without an open sheet the button offers to begin one; the second press does it.
    result._send.click()
    assert "no open making sheet" in said[-1]
    assert result._send.text() == BEGIN
    result._send.click()
    with desk.store.read() as connection:
        sheet = open_of(connection, part)
        assert sheet is not None
        (detail,) = sheet_page(connection, sheet).details
    assert detail.detail is not None
    assert detail.trouble == ""
    assert (detail.detail.count, detail.detail.around_deg) == (4, 60.0)
    assert detail.detail.circle is not None
    assert detail.detail.size is not None
    assert (detail.detail.circle.at_mm, detail.detail.size.at_mm) == (76.2, 6.35)
    # Source: 1.5 cos 30° = 1.2990, 1.5 sin 30° = 0.7500.
    assert "1: x 1.2990 in, y 0.7500 in" in detail.note
    # The pitch circle is asked about before it becomes the depth of a keyseat.
    result._spec.setCurrentIndex(1)
    result._spec.activated.emit(1)
    result._take.click()
    assert "of the kind “depth”, not a pitch circle" in result._target.text()
    assert " in”" in result._target.text()
    assert result._take.text() == ANYWAY
    with desk.store.read() as connection:
        (row,) = rows(connection, [(deep, station)], Rule.SIMPLE, {})
    assert row.spec_text == ""


def test_a_pipe_thread_says_why_nothing_of_it_is_taken_to_a_feature(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    page = FiguresPage(desk)
    with qtbot.waitExposed(page):
        page.show()
    qtbot.addWidget(page)
    for kind, why in (
        ("NPT", "how far its gauge goes in by hand"),
        ("G", "limits of a parallel pipe thread"),
    ):
        page.choose_topic("pipe-thread")
        page.form._fields["kind"].setCurrentText(kind)  # type: ignore[union-attr]
        _type(page, size="1/2")
        assert page.result._target.isVisible()
        assert why in page.result._target.text()
        assert not page.result._take.isVisible()
        desk.choose(key=(shop.journal, shop.near))
        assert why in page.result._target.text(), "a row chosen does not take the note away"
    page.choose_topic("bolt")
    assert not page.result._target.isVisible()
