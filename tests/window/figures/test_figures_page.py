"""The Figures page: every figure works out its example, trouble stands at its entry, results go further."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtWidgets import QApplication, QLineEdit, QToolButton
from pytestqt.qtbot import QtBot

from rebuild.errors import Ambiguous
from rebuild.trade.figures import all_figures
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.window.desk.desk import Desk
from rebuild.window.figures.page import FAULT, FiguresPage
from rebuild.window.figures.result import REPLACE, TAKE
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.machines.acts import add_machine, add_part
from rebuild.work.machines.rows_parts import spec_of_feature
from rebuild.work.making.acts import start_sheet
from rebuild.work.readings.acts_features import add_feature, set_spec
from tests.conftest import Shop
from tests.support import acts_in


@pytest.fixture
def page(qtbot: QtBot, desk: Desk) -> FiguresPage:
    made = FiguresPage(desk)
    made.resize(1180, 700)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_the_answers_of_a_press_fit_are_all_in_sight(page: FiguresPage, qtbot: QtBot) -> None:
    """Ten answers stood in a table of seven lines, above a picture with hardly anything in it."""
    page.resize(1270, 740)  # what a window of 1280x800 leaves a page
    page.choose_topic("press-fit")
    page.work()
    table = page.result.answers
    assert table.rowCount() >= 8

    def last_in_sight() -> bool:
        return (
            table.visualRect(table.model().index(table.rowCount() - 1, 0)).bottom()
            <= table.viewport().height()
        )

    qtbot.waitUntil(last_in_sight, timeout=1000)
    assert page.result.working.height() >= 5 * page.fontMetrics().lineSpacing()


@pytest.mark.parametrize("topic", list(all_figures()))
def test_every_figure_shows_a_result_with_its_working(page: FiguresPage, topic: str) -> None:
    page.choose_topic(topic)
    assert page.form.figure is not None
    assert page.form.figure.topic == topic
    page.work()
    assert page.result.answers.isEnabled(), page.result._trouble.text()
    assert page.result.answers.rowCount() > 0
    assert page.result._figured is not None
    assert page.result._figured.working.steps


def test_trouble_stands_under_its_entry_and_the_text_stays(page: FiguresPage) -> None:
    page.choose_topic("fit")
    field = page.form._fields["fit"]
    field.setText("25 Q7/g6")
    page.work()
    assert not page.result.answers.isEnabled()
    assert page.result._trouble.text()
    assert field.text() == "25 Q7/g6"


def test_what_was_typed_is_there_when_the_figure_is_shown_again(page: FiguresPage) -> None:
    page.choose_topic("fit")
    page.form._fields["fit"].setText("40 H7/k6")
    page.choose_topic("limits")
    page.choose_topic("fit")
    assert page.form._fields["fit"].text() == "40 H7/k6"


def test_limits_go_to_the_chosen_feature(page: FiguresPage, desk: Desk, shop: Shop) -> None:
    set_spec(desk.store, [shop.journal], "")
    desk.choose(key=(shop.journal, shop.near))
    page.choose_topic("limits")
    page.form._fields["size"].setText("60 h6")
    page.work()
    page.result._take.click()
    with desk.store.read() as connection:
        text, origin = connection.exec_driver_sql(
            "SELECT spec_text, spec_origin FROM feature WHERE id = ?", (shop.journal,)
        ).one()
    assert "to" in text
    assert origin == "handbook"


def test_a_spec_that_is_there_is_replaced_only_when_asked_and_in_the_unit_of_its_feature(
    page: FiguresPage, desk: Desk, shop: Shop
) -> None:
    # Source: ISO 286-2:2010, H7 over 30 to 50 mm: 0 and +25 µm.
    inch = add_machine(desk.store, "Small shaper", {"unit": "in"})
    part = add_part(desk.store, inch, None, "Ram", "SH-01")
    bore = add_feature(desk.store, part, "bore", spec="1.2500-1.2505", stations=["near"])
    with desk.store.read() as connection:
        (station,) = connection.exec_driver_sql("SELECT id FROM station WHERE feature_id = ?", (bore,)).one()

    def stored(feature: int) -> str:
        with desk.store.read() as connection:
            return spec_of_feature(connection, feature)[0]

    desk.choose_machine(inch)
    desk.choose(key=(bore, station))
    page.choose_topic("limits")
    page.form._fields["size"].setText("1.25 in H7")
    page.work()
    result, before = page.result, acts_in(shop.path)
    assert "1.25000 to 1.25098 in" in result._spec.currentText()
    result._take.click()
    assert (stored(bore), acts_in(shop.path)) == ("1.2500-1.2505", before)
    for told in ("SH-01 Ram, bore", "“1.2500-1.2505 in”", "“1.25 to 1.25098 in”"):
        assert told in result._target.text()
    assert result._take.text() == REPLACE
    desk.choose(key=(shop.journal, shop.near))
    assert result._take.text() == TAKE, "the question was of another feature"
    result._take.click()
    assert "“60 -0.010/-0.029 mm”" in result._target.text()
    page.form._fields["size"].setText("1.25 in H8")
    assert result._take.text() == TAKE, "the question was of other limits"
    page.form._fields["size"].setText("1.25 in H7")
    page.work()
    desk.choose(key=(bore, station))
    result._take.click()
    result._take.click()
    assert stored(bore) == "1.25 to 1.25098 in"
    assert result._take.text() == TAKE
    desk.undo()
    assert stored(bore) == "1.2500-1.2505"


def test_limits_go_to_the_making_sheet_of_the_chosen_part(page: FiguresPage, desk: Desk, shop: Shop) -> None:
    sheet = start_sheet(desk.store, shop.cap)
    desk.choose(part_ids=(shop.cap,), key=None)
    page.choose_topic("limits")
    page.form._fields["size"].setText("60 h6")
    page.work()
    figured = page.result._figured
    assert figured is not None
    page.result._send.click()
    with desk.store.read() as connection:
        names = [
            row[0]
            for row in connection.exec_driver_sql(
                "SELECT name FROM making_dimension WHERE sheet_id = ?", (sheet,)
            )
        ]
    assert figured.specs[0].label in names


def test_without_a_sheet_it_says_where_to_begin_one(page: FiguresPage, desk: Desk, shop: Shop) -> None:
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    desk.choose(part_ids=(shop.spindle,), key=None)
    page.choose_topic("limits")
    page.form._fields["size"].setText("60 h6")
    page.work()
    page.result._send.click()
    assert "no open making sheet" in said[-1]


def test_copy_takes_the_working_along(page: FiguresPage) -> None:
    page.choose_topic("fit")
    page.form._fields["fit"].setText("25 H7/g6")
    page.work()
    page.result._copy.click()
    assert "smallest clearance" in QApplication.clipboard().text()
    assert "ISO 286" in QApplication.clipboard().text()


def test_finding_narrows_the_topics(page: FiguresPage) -> None:
    page._find.setText("three wires")
    shown = [
        group.child(at).text(0)
        for group in (page.topics.topLevelItem(n) for n in range(page.topics.topLevelItemCount()))
        if group is not None
        for at in range(group.childCount())
        if not group.child(at).isHidden()
    ]
    assert shown == ["Over three wires"]


def test_an_answer_that_no_longer_holds_goes_with_its_buttons(page: FiguresPage) -> None:
    page.choose_topic("fit")
    page.form._fields["fit"].setText("40 H7/g6")
    page.work()
    result = page.result
    for button in (result._take, result._send, result._copy):
        assert button.isEnabled()
        assert button.isVisible()
    page.form._fields["fit"].setText("25 Q7/g6")
    for button in (result._take, result._send, result._copy):
        assert not button.isEnabled(), "limits of the entry before could be taken in the pause after typing"
    page.work()
    assert result._figured is None
    assert result.answers.rowCount() == 0
    assert result.working.working is None
    for gone in (result._take, result._send, result._spec, result._target, result.picture):
        assert not gone.isVisible()
    assert not result._copy.isEnabled()
    page.form._fields["fit"].setText("25 H7/g6")
    page.work()
    assert result.answers.rowCount() > 0
    for button in (result._take, result._send, result._copy):
        assert button.isEnabled()
        assert button.isVisible()


def test_a_fault_inside_a_figure_leaves_no_answer_of_before(
    page: FiguresPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    page.choose_topic("fit")
    figure = page.form.figure
    assert figure is not None

    def broken(_entries: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(page.form, "figure", replace(figure, work=broken))
    with pytest.raises(ZeroDivisionError):
        page.work()
    assert page.result._figured is None
    assert page.result.answers.rowCount() == 0
    assert page.result._trouble.text() == FAULT


def _lines(page: FiguresPage) -> dict[str, QLineEdit]:
    return {name: field for name, field in page.form._fields.items() if isinstance(field, QLineEdit)}


def test_on_an_inch_machine_a_bare_size_is_inches_and_examples_keep_their_unit(
    page: FiguresPage, desk: Desk, shop: Shop
) -> None:
    page.choose_topic("drill-point")
    assert _lines(page)["diameter"].placeholderText() == "example: 10"
    page.form._fields["diameter"].setText("12")
    page.choose_topic("rpm")
    inch = add_machine(desk.store, "Small shaper", {"unit": "in"})
    desk.choose_machine(inch)
    # What was typed for a metric machine keeps its meaning, seen or not.
    page.choose_topic("drill-point")
    assert _lines(page)["diameter"].text() == "12 mm"
    page.choose_topic("bush-close-in")
    page.choose_topic("bearing-seat")
    size = _lines(page)["size"]
    assert (size.text(), size.placeholderText()) == ("", "example: 25 mm")
    page.work()
    assert page.result.read.text() == "Read as: Bearing's bore or outside 25.000 mm (0.9843 in)."
    size.setText("1")
    size.clear()
    size.setText("1")
    page.work()
    assert page.result.read.text() == (
        "Read as: Bearing's bore or outside 1.0000 in (25.400 mm). Sizes without a unit were taken as inches."
    )
    page.choose_topic("verdict")
    page.form._fields["reading"].setText("1.0005; 1.0006")
    page.form._fields["low"].setText("1")
    page.form._fields["high"].setText("1.001")
    page.work()
    assert "Reading 1.0005 in (25.413 mm); 1.0006 in (25.415 mm)" in page.result.read.text()
    # A bare size of an ISO class is asked about where sizes go by inches, as in a feature's spec; the example is not.
    page.choose_topic("limits")
    page.work()
    assert _lines(page)["size"].placeholderText() == "example: 25 mm H7"
    assert page.result.read.text() == "Read as: Size and class 25.000 mm (0.9843 in)."
    page.choose_topic("fit")
    _lines(page)["fit"].setText("1.25 H7/g6")
    page.work()
    with pytest.raises(Ambiguous) as asked:
        parse_spec("1.25 H7", "in", "Size and fit")
    told = str(asked.value).replace(" H7", " H7/g6")
    trouble = page.form._troubles["fit"]
    assert trouble.sentence == told
    ways = trouble.findChildren(QToolButton)
    assert [way.text() for way in ways] == ["1.25 mm H7/g6", "1.25 in H7/g6"]
    ways[1].click()
    page.work()
    assert page.result.read.text() == "Read as: Size and fit 1.2500 in (31.750 mm)."
    assert page.form._troubles == {}
    desk.choose_machine(shop.machine)
    page.choose_topic("bearing-seat")
    assert _lines(page)["size"].text() == "1 in"


def test_what_may_be_left_empty_is_said_once(page: FiguresPage) -> None:
    page.choose_topic("press-fit")
    labels = [label.text() for label in page.form.findChildren(PlainLabel)]
    assert "Hub: E, if known" in labels
    assert not any(text.count("if known") > 1 for text in labels)


def test_an_example_is_no_entry_and_goes_when_a_box_is_typed_in(
    page: FiguresPage, desk: Desk, shop: Shop
) -> None:
    desk.choose(key=(shop.journal, shop.near), part_ids=(shop.spindle,))
    result = page.result
    page.choose_topic("limits")
    assert not any(line.text() for line in _lines(page).values())
    assert result._example.isVisible()
    assert result._example.text().startswith("Example")
    for button in (result._take, result._send, result._copy):
        assert not button.isEnabled()
    # The depth of the example is no depth of the user's taper: B12 (18.5 mm long) does not reach an inch.
    page.choose_topic("taper")
    assert _lines(page)["depth"].placeholderText().startswith("example: 1")
    _lines(page)["taper"].setText("B12")
    assert _lines(page)["depth"].placeholderText().startswith("in ")
    page.work()
    assert not result._example.isVisible()
    assert result._copy.isEnabled(), result._trouble.text()
    # Nor is its angle the user's sling: leg 2 m over hooks 2 m apart stand at 60°, by trigonometry.
    page.choose_topic("sling")
    for name, text in (("load", "186"), ("leg", "2000"), ("spread", "2000")):
        _lines(page)[name].setText(text)
    page.work()
    assert result.answers.item(0, 1).text().startswith("60.0"), result._trouble.text()
    # The last box emptied, the example is back.
    for line in _lines(page).values():
        line.clear()
    page.work()
    assert result._example.isVisible()
    inch = add_machine(desk.store, "Small shaper", {"unit": "in"})
    desk.choose_machine(inch)
    for topic, name, sample in (("hole-circle", "circle", "3"), ("bearing", "bore", ".501")):
        page.choose_topic(topic)
        assert _lines(page)[name].placeholderText() == f"example: {sample}"
        assert result.answers.rowCount() > 0
    # Source: ABMA 12.2, an open R8 is 1/2 x 1-1/8 x 1/4 in.
    assert result.answers.item(0, 0).text() == "R8"
