"""The five faults of landing on the chart and the run-in: each as a run by real keys, one window a page."""

from __future__ import annotations

from PySide6.QtCore import Qt

from rebuild.window.charts.page import ChartPage
from rebuild.window.run_in.page import RunInPage
from rebuild.work.charts.acts import lay_out
from rebuild.work.run_in.acts import lay_out_run
from tests.conftest import Shop
from tests.journeys.hands import CTRL, Hands
from tests.journeys.test_landing import waiting

AWAY = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier


def chart_values(user: Hands) -> list[tuple[str, str, str]]:
    """Every value of the chart in the order it came: test, position, typed."""
    with user.frame.desk.store.read() as connection:
        rows = connection.exec_driver_sql(
            "SELECT t.name, l.name, r.typed FROM chart_reading r JOIN chart_line l ON l.id = r.line_id "
            "JOIN chart_test t ON t.id = l.test_id ORDER BY r.id"
        ).all()
    return [(row[0], row[1], row[2].removesuffix(" mm").lstrip("+")) for row in rows]


def warmth(user: Hands) -> list[tuple[str, str, float, float]]:
    """Every temperature of the run-in in the order it came: step, bearing, minute, degrees Celsius."""
    with user.frame.desk.store.read() as connection:
        rows = connection.exec_driver_sql(
            "SELECT s.name, r.bearing, r.minute, r.celsius FROM run_reading r JOIN run_step s ON s.id = r.step_id "
            "ORDER BY r.id"
        ).all()
    return [(row[0], row[1], row[2], row[3]) for row in rows]


def test_the_five_faults_on_the_chart(hands: Hands, shop: Shop) -> None:
    user, desk = hands, hands.frame.desk
    lay_out(desk.store, shop.machine)
    page = user.page("chart")
    assert isinstance(page, ChartPage)
    pane, table, place = page.tests, page.tests.table, page.tests.strip.place

    def choose(at: int) -> tuple[str, str]:
        user.click_item(table, table.model().index(at, 2))
        test, line = pane._where[table.plain.ids[at]]
        assert place.text() == "  ·  ".join(
            word for word in (test.called, line.name, pane.panel.entry.stage.currentText()) if word
        )
        return test.name, line.name

    # 1. A value stands at a position. The position is let go, and the page left: what is sent takes its place nowhere.
    first = choose(0)
    user.gauge("0.011\r")
    assert chart_values(user) == [(*first, "0.011")]
    choose(0)
    user.bot.mouseClick(
        table.viewport(),
        Qt.MouseButton.LeftButton,
        CTRL,
        table.visualRect(table.model().index(0, 2)).center(),
    )
    assert place.text() == "Choose a row"
    user.gauge("0.012\r")
    user.page("plan")
    user.gauge("0.013\r")
    assert waiting(user) == ["0.012", "0.013"]
    assert chart_values(user) == [(*first, "0.011")]

    # 2. Another position chosen is the one that takes it; one whose test is removed takes nothing.
    user.page("chart")
    third = choose(2)
    user.press(Qt.Key.Key_0, AWAY)
    user.press(Qt.Key.Key_0, AWAY)
    at_third, behind = chart_values(user)[1:]
    assert at_third[:2] == third
    assert behind[:2] not in (first, third), "it moved on to a position not read yet"
    assert waiting(user) == []

    # 3. A new test's positions are read from the first on, in their order, none without a position.
    user.click(user.button("New test…"))
    user.dialog("New test")
    for name, text in (("Test", "gib face"), ("Positions", "left / middle / right")):
        user.tab_to(name)
        user.replace(text)
    user.enter()
    assert "gib face  ·  left" in place.text()
    table.setFocus()
    before = len(chart_values(user))
    for text in ("0.021", "0.022", "0.023"):
        user.gauge(f"{text}\r")
    assert chart_values(user)[before:] == [
        ("gib face", "left", "0.021"), ("gib face", "middle", "0.022"), ("gib face", "right", "0.023"),
    ]  # fmt: skip

    # 4. Ten values typed by hand with Enter go to ten positions; two sent over them say what spoke there before.
    user.page("chart")
    choose(0)
    pane.panel.entry.stage.setCurrentIndex(0)  # as found: nothing is read there
    pane.panel.entry.value.setFocus()
    before = len(chart_values(user))
    for at in range(10):
        user.person(f"+0.00{at}\r")  # some limits hold on one side only, and ask for the sign
        user.bot.wait(60)
        assert len(chart_values(user)) == before + at + 1, (
            at,
            pane.panel.entry.trouble,
            user.focus(),
            place.text(),
        )
    ten = chart_values(user)[before:]
    assert [text for _test, _line, text in ten] == [f"0.00{at}" for at in range(10)]
    order = [(pane._where[key][0].name, pane._where[key][1].name) for key in table.plain.ids[:10]]
    assert [(test, line) for test, line, _text in ten] == order, "one value each, in the order of the table"
    choose(0)
    for text in ("0.031", "0.032"):
        user.gauge(f"{text}\r")
    assert [one[:2] for one in chart_values(user)[before + 10 :]] == order[:2], (
        "the very next one, read or not"
    )
    assert "It speaks in place of +0.001 mm" in user.said
    assert "which stays in the list" in user.said

    # 5. With another field in hand the gauge's digits still go to the position, and none into the field.
    before, entry = len(chart_values(user)), pane.panel.entry
    for at, field in enumerate((entry.temperature, entry.stage, entry.instrument)):
        field.setFocus()
        user.gauge(f"+0.04{at}\r")
    assert [text for *_where, text in chart_values(user)[before:]] == ["0.040", "0.041", "0.042"]
    assert len({one[:2] for one in chart_values(user)[before:]}) == 3
    assert pane.panel.entry.temperature.text() == ""
    assert pane.panel.entry.stage.currentText() == "as found"


def test_the_five_faults_on_the_run_in(hands: Hands, shop: Shop) -> None:
    user, desk = hands, hands.frame.desk
    lay_out_run(desk.store, shop.machine, 50, 400)
    page = user.page("run-in")
    assert isinstance(page, RunInPage)
    page.show_view(1)
    pane, table, place = page.steps, page.steps.table, page.steps.strip.place

    def choose(at: int) -> str:
        user.click_item(table, table.model().index(at, 0))
        name = table.plain.text(at)[0]
        assert place.text().startswith(f"{name}  ·  {pane.bearing.currentText()}"), place.text()
        return str(name)

    def minute(text: str) -> None:
        pane.minute.setFocus()
        user.replace(text)

    names = [pane.bearing.itemText(at) for at in range(pane.bearing.count())]
    assert len(names) > 1

    # 1. A temperature stands on a step. The step is let go, and the page left: what is sent waits.
    first = choose(0)
    minute("5")
    table.setFocus()
    user.gauge("31.5\r")
    assert warmth(user) == [(first, names[0], 5, 31.5)]
    user.bot.mouseClick(
        table.viewport(),
        Qt.MouseButton.LeftButton,
        CTRL,
        table.visualRect(table.model().index(0, 0)).center(),
    )
    assert place.text() == "Choose a row"
    user.gauge("32.5\r")
    user.page("plan")
    user.gauge("33.5\r")
    assert waiting(user) == ["32.5", "33.5"]
    assert warmth(user) == [(first, names[0], 5, 31.5)]

    # 2. Another step chosen is the one that takes them, the next bearing the second.
    user.page("run-in")
    second = choose(1)
    pane.bearing.setEditText(names[0])
    minute("10")
    table.setFocus()
    user.press(Qt.Key.Key_0, AWAY)
    user.press(Qt.Key.Key_0, AWAY)
    assert warmth(user)[1:] == [(second, names[0], 10, 32.5), (second, names[1], 10, 33.5)]
    assert waiting(user) == []

    # 3. Every bearing in turn from the first on; behind the last one the minute is asked for, and nothing is guessed.
    choose(1)
    pane.bearing.setEditText(names[0])
    minute("20")
    table.setFocus()
    before = len(warmth(user))
    for at in range(len(names)):
        user.gauge(f"{34 + at}.5\r")
    assert warmth(user)[before:] == [(second, name, 20, 34.5 + at) for at, name in enumerate(names)]
    assert place.text().endswith("type the minute")
    user.gauge("39.5\r")
    assert len(warmth(user)) == before + len(names), "without a minute it is stored nowhere"
    assert pane.celsius.text() == "39.5"
    assert pane.trouble.isVisible()
    user.ctrl(Qt.Key.Key_A)

    # 4. Ten typed by hand with Enter, two bearings a minute or more: none over another; twice at one minute is told.
    pane.celsius.clear()
    before, sent = len(warmth(user)), 0
    while sent < 10:
        if not pane.minute.text():
            minute(str(30 + sent))
        pane.celsius.setFocus()
        user.person(f"{40 + sent / 2:g}\r")
        sent += 1
        user.bot.waitUntil(lambda there=before + sent: len(warmth(user)) == there, timeout=2000)
    ten = warmth(user)[before:]
    assert [celsius for *_where, celsius in ten] == [40 + at / 2 for at in range(10)]
    assert len({one[:3] for one in ten}) == 10, "ten values on ten places"
    pane.bearing.setEditText(names[0])
    minute("20")
    table.setFocus()
    user.gauge("36.5\r")
    assert "34.5 °C stands there too; Ctrl+Z takes the new one back." in user.said

    # 5. With another control in hand the gauge's digits go to the step; none into the box. So do two quick ones,
    # of which the second stayed in the list of steps: 38 was stored as 3.
    pane.bearing.setEditText(names[0])
    minute("50")
    table.setFocus()
    user.gauge("38\r")
    assert warmth(user)[-1] == (second, names[0], 50, 38)
    pane.bearing.setEditText(names[0])
    minute("60")
    before = len(warmth(user))
    pane.slowest.setFocus()
    user.gauge("41.5\r")
    pane.buttons["store"].setFocus()
    user.gauge("42.5\r")
    assert [(one[1], one[3]) for one in warmth(user)[before:]] == [(names[0], 41.5), (names[1], 42.5)]
    assert pane.slowest.text() == ""
