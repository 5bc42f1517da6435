"""The test chart through its acts: laying out, reading, limits with origin, order, levels, and undo."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

import pytest

from rebuild.errors import Ambiguous, BadEntry, Implausible
from rebuild.trade.charts.settling import Rest
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.words.charts import ChartStage, LevelWay, LimitLength, LimitStatus
from rebuild.work.charts import acts as chart, acts_levelling as levelling
from rebuild.work.charts.rows import chart as read_chart, reading_working
from rebuild.work.charts.rows_levelling import levelling as read_levels
from rebuild.work.charts.rows_tests import LineRow, TestRow, shown_size, shown_value
from rebuild.work.checks.check import check
from rebuild.work.editing.acts import edit, remove
from rebuild.work.readings.acts_features import add_instrument
from tests.conftest import Shop
from tests.support import Contents

RULE = Rule.CONFORMANCE_95
MAY = dt.datetime(2026, 5, 1, 19)


def chart_of(shop: Shop) -> list[TestRow]:
    with shop.store.read() as connection:
        return read_chart(connection, shop.machine, RULE)


def line(shop: Shop, number: str, key: str) -> LineRow:
    return next(
        one for test in chart_of(shop) for one in test.lines if (test.number, one.key) == (number, key)
    )


@pytest.fixture
def charted(shop: Shop) -> Shop:
    chart.lay_out(shop.store, shop.machine)
    return shop


@pytest.fixture
def lever(shop: Shop) -> int:
    typed = {"kind": "test indicator", "resolution": "0.001", "mpe": "0.002"}
    return add_instrument(shop.store, "Lever indicator", typed)


def test_laying_out_twice_adds_nothing_and_one_undo_takes_it_all_back(shop: Shop) -> None:
    assert len(chart.lay_out(shop.store, shop.machine)) == 14
    assert chart.lay_out(shop.store, shop.machine) == []
    names = {test.key: test for test in chart_of(shop)}
    assert names["lathe-facing"].after_id == names["lathe-spindle-axis"].id
    shop.store.undo()
    assert chart_of(shop) == []


def test_before_and_after_stand_side_by_side_and_the_newest_speaks(charted: Shop, lever: int) -> None:
    runout = line(charted, "4", "register")
    for stage, text, day in (
        (ChartStage.AS_FOUND, "0.03", 1),
        (ChartStage.AFTER, "0.009", 5),
        (ChartStage.AFTER, "0.004", 6),
    ):
        entry = chart.Reading(stage, instrument_id=lever, temperature="18", taken_at=MAY.replace(day=day))
        chart.read_position(charted.store, runout.id, text, entry)
    now = line(charted, "4", "register")
    assert now.found is not None
    assert now.after is not None
    assert (now.found.verdict, now.after.verdict) == (Verdict.DOES_NOT, Verdict.CONFORMS)
    assert (now.after.value_mm, now.after.temperature_c, now.after.instrument) == (
        0.004,
        18.0,
        "Lever indicator",
    )
    assert len(now.readings) == 3


def test_without_an_instruments_limit_nothing_is_proven(charted: Shop) -> None:
    runout = line(charted, "4", "register")
    chart.read_position(charted.store, runout.id, "0.004")
    read = line(charted, "4", "register").after
    assert read is not None
    assert read.verdict is Verdict.UNDECIDED


def test_a_refused_reading_leaves_no_trace(charted: Shop, contents: Callable[..., Contents]) -> None:
    before = contents(charted.path)
    axis, runout = line(charted, "6", "vertical"), line(charted, "4", "register")
    for line_id, text, error in (
        (axis.id, "0.012", Ambiguous),
        (runout.id, "-0.01", BadEntry),
        (axis.id, "+0.5", Implausible),
        (runout.id, "nought", BadEntry),
    ):
        with pytest.raises(error, match="Test "):
            chart.read_position(charted.store, line_id, text)
    with pytest.raises(BadEntry, match="length"):
        chart.read_position(charted.store, axis.id, "+0.01", chart.Reading(over="-300"))
    assert contents(charted.path) == before


def test_inches_in_a_metric_row_are_held_then_taken(charted: Shop) -> None:
    """0.254 in a row of 0.01 mm is 25.4 times: a unit mixed up, until confirmed."""
    runout = line(charted, "4", "register")
    with pytest.raises(Implausible, match=r"25\.4 times"):
        chart.read_position(charted.store, runout.id, "0.254")
    chart.read_position(charted.store, runout.id, "0.254", confirmed=True)
    chart.read_position(charted.store, runout.id, "0.0002 in")
    found = [row.value_mm for row in line(charted, "4", "register").readings]
    assert sorted(found) == pytest.approx([0.00508, 0.254])


def test_another_length_scales_the_limit_and_says_so(charted: Shop, lever: int) -> None:
    axis = line(charted, "6", "vertical")
    key = chart.read_position(
        charted.store, axis.id, "+0.009", chart.Reading(over="150", instrument_id=lever)
    )
    read = line(charted, "6", "vertical").after
    assert read is not None
    assert read.judgement is not None
    assert read.judgement.high_mm == pytest.approx(0.01)
    with charted.store.read() as connection:
        text = reading_working(connection, key, RULE).text()
    assert "in proportion" in text
    assert "one maker's record" in text


def test_a_fixed_limit_read_over_another_length_is_said_not_stretched(charted: Shop) -> None:
    axis = line(charted, "6", "vertical")
    chart.set_allowed(charted.store, [axis.id], "0.02 mm per 300 mm", along=LimitLength.FIXED)
    chart.read_position(charted.store, axis.id, "+0.009", chart.Reading(over="150"))
    read = line(charted, "6", "vertical").after
    assert read is not None
    assert read.judgement is None
    assert "does not scale" in read.trouble


def test_a_level_counts_its_error_over_the_length(charted: Shop) -> None:
    level = add_instrument(
        charted.store,
        "Level",
        {"kind": "precision level", "resolution": "0.005", "mpe": "0.01", "unit": "mm"},
    )
    across = line(charted, "1", "across")
    chart.read_position(charted.store, across.id, "0.02 mm/m", chart.Reading(instrument_id=level))
    read = line(charted, "1", "across").after
    assert read is not None
    assert read.judgement is not None
    assert read.value_mm == pytest.approx(0.02)
    assert read.judgement.U_mm == pytest.approx(1.96 * (0.01**2 / 3 + 0.005**2 / 12) ** 0.5, rel=0.01)
    assert read.verdict is Verdict.CONFORMS


def test_limits_can_be_replaced_with_their_origin_and_taken_back(charted: Shop) -> None:
    axis = line(charted, "6", "vertical")
    chart.set_allowed(
        charted.store,
        [axis.id],
        "0.0004 in per 12 in",
        origin="my grinder's word",
        status=LimitStatus.PRACTICE,
    )
    changed = line(charted, "6", "vertical")
    assert changed.limit.allowed_mm == pytest.approx(0.01016)
    assert (changed.origin, changed.status, changed.edited) == (
        "my grinder's word",
        LimitStatus.PRACTICE,
        False,
    )
    chart.set_allowed(charted.store, [axis.id], "0.05 mm")
    assert line(charted, "6", "vertical").edited
    assert line(charted, "6", "vertical").status is LimitStatus.OWN
    chart.take_library_limit(charted.store, axis.id, 1)
    assert line(charted, "6", "vertical").limit.text == "0.0008 in per 12 in"
    chart.take_library_limit(charted.store, axis.id)
    assert line(charted, "6", "vertical").status is LimitStatus.ONE_RECORD
    with pytest.raises(BadEntry, match="no such value"):
        chart.take_library_limit(charted.store, axis.id, 9)
    chart.set_allowed(charted.store, [axis.id], "")
    assert line(charted, "6", "vertical").limit.allowed_mm is None


def test_an_edited_limit_forgets_whose_it_was(charted: Shop) -> None:
    axis = line(charted, "6", "vertical")
    edit(charted.store, "chart_line", [axis.id], {"allowed": "0.03"})
    assert (line(charted, "6", "vertical").origin, line(charted, "6", "vertical").status) == (
        "",
        LimitStatus.OWN,
    )
    with pytest.raises(BadEntry, match="sign belongs to the position"):
        edit(charted.store, "chart_line", [axis.id], {"allowed": "-0.03"})


def test_own_tests_with_positions_sign_and_sketch(shop: Shop) -> None:
    limit = {
        "allowed": "0.02 mm per 300 mm",
        "sign": "plus only",
        "plus_means": "high",
        "minus_means": "low",
        "origin": "own",
    }
    key = chart.add_test(
        shop.store, shop.machine, "Ram level", ("left", "right"), typed={"sketch": "square"}, limit=limit
    )
    chart.add_position(shop.store, key, "middle", {"allowed": "0.01"})
    (test,) = chart_of(shop)
    assert [one.name for one in test.lines] == ["left", "right", "middle"]
    assert test.lines[0].allowed_words("mm") == "0 to 0.02 mm per 300 mm, high only"
    assert test.lines[0].allowed_short("in") == "0…0.0008 in / 11.8 in"
    chart.read_position(shop.store, test.lines[0].id, "0.01 high")
    read = chart_of(shop)[0].lines[0].after
    assert read is not None
    assert shown_value(read, "mm", "mm") == "+0.01 mm high"
    assert shown_size(read, "in", "mm") == "+0.0004 in"
    for typed, said in (({"sketch": "cube"}, "not a sketch"), ({"after_id": "999"}, "no longer there")):
        with pytest.raises(Exception, match=said):
            chart.add_test(shop.store, shop.machine, "Odd", typed=typed)
    with pytest.raises(BadEntry, match="which way is allowed"):
        chart.add_test(shop.store, shop.machine, "Odd", limit={"allowed": "0.01", "sign": "plus only"})


def test_tests_cannot_wait_for_each_other(charted: Shop) -> None:
    bed, facing = (
        next(test for test in chart_of(charted) if test.number == number) for number in ("1", "12")
    )
    with pytest.raises(BadEntry, match="already waits for this test"):
        edit(charted.store, "chart_test", [bed.id], {"after_id": str(facing.id)})


def test_order_warnings_follow_readings_and_adjustments(charted: Shop, lever: int) -> None:
    def after(number: str, key: str, text: str, day: int, adjusted: str = "") -> None:
        entry = chart.Reading(instrument_id=lever, taken_at=MAY.replace(day=day), adjusted=adjusted)
        chart.read_position(charted.store, line(charted, number, key).id, text, entry, confirmed=True)

    def warned(number: str) -> str:
        return " ".join(next(test for test in chart_of(charted) if test.number == number).warnings)

    after("6", "vertical", "+0.008", 2)
    assert "horizontal not read" in warned("6")
    assert "has not been read after the work" in warned("6")
    after("1", "along", "0.01", 3)
    after("1", "across", "+0.01", 3)
    after("6", "vertical", "+0.008", 4)
    after("6", "horizontal", "+0.006", 4)
    assert warned("6") == ""
    entry = levelling.LevelEntry(taken_at=MAY.replace(day=5), adjusted="rear foot up")
    levelling.read_level(charted.store, charted.machine, "tailstock end", LevelWay.ACROSS, "0.05", entry)
    assert "adjusted on 2026-05-05" in warned("6")


def test_a_bed_that_still_moves_is_said_on_what_stands_on_it(charted: Shop, lever: int) -> None:
    for day, slope in ((2, "0.10"), (4, "0.06"), (7, "0.03")):
        entry = levelling.LevelEntry(taken_at=MAY.replace(day=day))
        levelling.read_level(charted.store, charted.machine, "tailstock end", LevelWay.ACROSS, slope, entry)
    entry2 = chart.Reading(instrument_id=lever, taken_at=MAY.replace(day=8))
    chart.read_position(charted.store, line(charted, "6", "vertical").id, "+0.008", entry2)
    found = next(test for test in chart_of(charted) if test.number == "6").warnings
    assert any("not settled yet: moved 0.03 mm/m in the last 3 days" in words for words in found)


def test_the_level_over_days(shop: Shop) -> None:
    def read(place: str, at: str, text: str, day: int, **more: str) -> None:
        entry = levelling.LevelEntry(
            at=at, taken_at=MAY.replace(day=day), unit="div", division="0.02 mm/m", **more
        )  # type: ignore[arg-type]
        levelling.read_level(shop.store, shop.machine, place, LevelWay.ACROSS, text, entry)

    read("headstock end", "0", "1", 1)
    read("tailstock end", "1000", "4", 1, adjusted="rear foot up")
    for day, value in ((2, "2"), (4, "1.5"), (6, "1.25"), (9, "1.2")):
        read("headstock end", "0", "1", day)
        read("tailstock end", "1000", value, day)
    with shop.store.read() as connection:
        found = read_levels(connection, shop.machine)
    head, tail = found.series
    assert head.settled.value.rest is Rest.SETTLED
    assert len(tail.current) == 4
    assert tail.rows[0].slope_um_per_m == 80
    assert found.twist is not None
    assert found.twist.value.twist_um_per_m == pytest.approx(4.0)
    unknown = levelling.LevelEntry(unit="div")
    with pytest.raises(BadEntry, match="value of one is not known"):
        levelling.read_level(shop.store, shop.machine, "tailstock end", LevelWay.ACROSS, "2", unknown)
    with pytest.raises(BadEntry, match=r"Where the level lay: .*headstock end"):
        levelling.read_level(shop.store, shop.machine, " ", LevelWay.ACROSS, "2")
    assert check(shop.path) == []


def test_removal_and_undo_bring_readings_back_exactly(
    charted: Shop, lever: int, contents: Callable[..., Contents]
) -> None:
    axis = line(charted, "6", "vertical")
    chart.read_position(charted.store, axis.id, "0.02 mm/m rising", chart.Reading(instrument_id=lever))
    before = contents(charted.path)
    remove(charted.store, "chart_test", [axis.test_id])
    charted.store.undo()
    assert contents(charted.path) == before
    assert check(charted.path) == []


def test_check_finds_a_reading_that_was_tampered_with(charted: Shop) -> None:
    key = chart.read_position(charted.store, line(charted, "4", "register").id, "0.004")
    charted.store.close()
    import sqlite3

    raw = sqlite3.connect(charted.path)
    raw.execute("UPDATE chart_reading SET value_mm = 0.04 WHERE id = ?", (key,))
    raw.commit()
    raw.close()
    assert any("does not come to the 0.04 mm" in sentence for sentence in check(charted.path))


def test_a_bar_s_sag_and_two_collars_are_taken_into_the_chart(charted: Shop, lever: int) -> None:
    """Source: beam theory by hand. A steel bar of 40 mm, 300 mm out: w L⁴ / 8EI = 2 ρ g L⁴ / (E D²)
    = 2 x 7850 x 9.80665 x 0.3⁴ / (206e9 x 0.04²) = 3.78 µm (E and ρ of the table). Collars 40.000 and 40.012 over 150:
    half the difference, 0.006, over 150 is 0.012 over 300.
    """
    upright, level = line(charted, "6", "vertical"), line(charted, "6", "horizontal")
    plain = chart.read_position(charted.store, upright.id, "0.010 rising")
    barred = chart.read_position(charted.store, upright.id, "0.010 rising, bar 40 x 300")
    rows = {row.id: row for row in line(charted, "6", "vertical").readings}
    assert rows[plain].value_mm == pytest.approx(0.010)
    assert rows[barred].value_mm == pytest.approx(0.01378, abs=2e-5)
    assert rows[barred].typed == "0.010 mm rising, bar 40 x 300 mm"
    hanging = chart.read_position(charted.store, upright.id, "0.002 falling, bar 40 x 300 mm")
    found = next(row for row in line(charted, "6", "vertical").readings if row.id == hanging)
    # As read it falls, which is not allowed; the bar alone hangs by more than that.
    assert (found.says, found.value_mm) == ("rising toward the free end", pytest.approx(0.00178, abs=2e-5))
    with charted.store.read() as connection:
        told = reading_working(connection, barred, RULE).text()
    assert "corrected: +0.0100 mm + 0.0038 mm = +0.0138 mm" in told
    turned = chart.read_position(
        charted.store, level.id, "collars 40.000 40.012 over 150", chart.Reading(instrument_id=lever)
    )
    found = next(row for row in line(charted, "6", "horizontal").readings if row.id == turned)
    assert (found.says, found.value_mm) == ("away from the tool at the free end", pytest.approx(-0.012))
    assert found.verdict is Verdict.DOES_NOT
    with charted.store.read() as connection:
        assert "two collars of one setting" in reading_working(connection, turned, RULE).text()
    for text, said in (
        ("0.010 toward, bar 40 x 300", "sag shows only where rising and falling are read"),
        ("collars 40.000 over 150", "names collars, and not two"),
    ):
        with pytest.raises(BadEntry, match=said):
            chart.read_position(charted.store, level.id, text)
    with pytest.raises(BadEntry, match="is no bar"):
        chart.read_position(charted.store, upright.id, "0.010 rising, bar of steel")
    assert check(charted.store.path) == []
