"""Geometry tests: the list, deviations as typed, limits over a length, and the order of the chart."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import Ambiguous, BadEntry, OutOfRange
from rebuild.trade.charts.entry import SignWords, read_allowed, read_deviation, read_slope
from rebuild.trade.charts.geometry_tests import STATUSES, library, library_line
from rebuild.trade.charts.limit import Allowed, allowed_over, bounds, judge_deviation, wrong_way
from rebuild.trade.charts.machine_outlines import HEIGHT, WIDTH
from rebuild.trade.charts.order import ChartState, order_warnings, ring_in
from rebuild.trade.charts.set_up_sketches import sketch, sketch_names
from rebuild.trade.limits.component import Component
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.limits.uncertainty import SUM, combine
from rebuild.words.charts import LimitLength, LimitSign, LimitStatus
from rebuild.words.machines import MachineKind

RISING = SignWords(LimitSign.PLUS_ONLY, "rising toward the free end", "falling toward the free end")
TOOL = SignWords(LimitSign.PLUS_ONLY, "toward the tool at the free end", "away from the tool at the free end")
TWIST = SignWords(LimitSign.EITHER, "front high", "front low")
RUNOUT = SignWords(LimitSign.SIZE)
KINDS = ("lathe", "mill", "shaper", "surface grinder", "planer")


def test_words_of_the_trade_and_of_the_file_agree() -> None:
    assert set(STATUSES) == set(LimitStatus)
    assert set(KINDS) <= {kind.value for kind in MachineKind}


@pytest.mark.parametrize("kind", KINDS)
def test_every_listed_test_is_whole(kind: str) -> None:
    tests = library(kind)
    assert len(tests) >= 3
    keys = {test.key for test in tests}
    for test in tests:
        assert test.set_up.endswith(".")
        assert sketch(test.sketch) is not None
        assert not test.after or test.after in keys
        assert len({line.key for line in test.lines}) == len(test.lines)
        for line in test.lines:
            assert line.limit.origin
            assert line.limit.status in STATUSES
            assert line.sign is LimitSign.SIZE or (line.plus and line.minus)
            if line.limit.per is not None:
                assert line.limit.per.mm > 0
                assert line.limit.along is LimitLength.PROPORTION


def test_no_listed_limit_claims_to_be_published() -> None:
    """All come from one record, practice or memory, and must say so."""
    statuses = {
        limit.status
        for kind in KINDS
        for test in library(kind)
        for line in test.lines
        for limit in (line.limit, *line.others)
    }
    assert statuses == {"one maker's record", "common practice, no source", "from memory"}


def test_the_toolroom_limit_is_half_the_engine_lathes() -> None:
    line = library_line("lathe-spindle-axis", "vertical")
    assert line is not None
    engine, toolroom = (other.allowed for other in line.others)
    assert engine is not None
    assert toolroom is not None
    assert toolroom.mm == pytest.approx(engine.mm / 2)


@pytest.mark.parametrize(("typed", "words", "mm"), [
    ("+0.012", RISING, 0.012), ("0.012 rising", RISING, 0.012), ("0.012 falling", RISING, -0.012),
    ("−0.012", RISING, -0.012),
    ("0.0004 in rising", RISING, 0.01016), ("0.5 thou fall", RISING, -0.0127), ("0.01 toward", TOOL, 0.01),
    ("0.01 away", TOOL, -0.01), ("0,02", RUNOUT, 0.02), ("3 thou", RUNOUT, 0.0762), ("0.03", TWIST, 0.03),
    ("0.03 low", TWIST, -0.03), ("0", RISING, 0.0), ("12 µm", RUNOUT, 0.012),
])  # fmt: skip
def test_deviations_as_typed(typed: str, words: SignWords, mm: float) -> None:
    assert read_deviation(typed, "mm", words, "Test 6").mm == pytest.approx(mm, abs=1e-12)


@pytest.mark.parametrize(("typed", "words", "said"), [
    ("-0.01", RUNOUT, "without a sign"), ("-0.01 rising", RISING, "at once"),
    ("0.01 sideways", RISING, "does not know"),
    ("0.01 rising", RUNOUT, "does not know"), ("one", RISING, "Test 6"),
    ("1.5 div", TWIST, "length it was read over"),
])  # fmt: skip
def test_what_cannot_be_is_said_with_the_row_and_a_way_out(typed: str, words: SignWords, said: str) -> None:
    with pytest.raises(BadEntry, match=said) as caught:
        read_deviation(typed, "mm", words, "Test 6")
    assert caught.value.where == "Test 6"
    assert caught.value.way_out


def test_a_bare_number_is_asked_about_where_the_sign_decides() -> None:
    with pytest.raises(Ambiguous) as caught:
        read_deviation("0.0004", "in", RISING, "Test 6")
    assert caught.value.readings == (
        ("rising toward the free end", "+0.0004"),
        ("falling toward the free end", "-0.0004"),
    )
    for _meaning, retyped in caught.value.readings:
        assert abs(read_deviation(retyped, "in", RISING, "Test 6").mm) == pytest.approx(0.01016)


@given(st.floats(-500, 500), st.floats(50, 2000))
def test_a_slope_becomes_a_deviation_over_the_length(um_per_m: float, length: float) -> None:
    found = read_deviation(f"{um_per_m:+.4f} µm/m", "mm", TWIST, "Test 1", per_mm=length)
    assert found.mm == pytest.approx(round(um_per_m, 4) * length * 1e-6, abs=1e-12)


def test_divisions_need_their_value() -> None:
    assert read_slope("2 div", division_um_per_m=20) == 40
    with pytest.raises(BadEntry, match="value of one is not known"):
        read_slope("2 div")
    with pytest.raises(BadEntry, match="not a slope"):
        read_slope("0.02 mm")


@pytest.mark.parametrize(("text", "parts"), [
    ("0.02 mm per 300 mm", ("0.02 mm", "300 mm")), ("0.02 per 300 mm", ("0.02 mm", "300 mm")),
    ("≤ 0.04 mm", ("0.04 mm", "")),
    ("0.0005 in/ft", ("0.0005 in", "1 ft")), ("0.02 mm over 300 mm", ("0.02 mm", "300 mm")),
    ("±0.1 mm", ("0.1 mm", "")),
])  # fmt: skip
def test_limits_as_typed(text: str, parts: tuple[str, str]) -> None:
    assert read_allowed(text, "mm") == parts


@given(st.floats(0.001, 0.5), st.floats(10, 1000), st.floats(1, 3000))
def test_proportion_keeps_the_slope(allowed: float, per: float, over: float) -> None:
    limit = Allowed(allowed, per, LimitLength.PROPORTION, "", LimitStatus.OWN, "")
    found = allowed_over(limit, over).value
    assert found is not None
    if abs(over - per) > 0.005 * per:
        assert found / over == pytest.approx(allowed / per)


def test_a_fixed_limit_is_never_stretched() -> None:
    limit = Allowed(0.02, 300, LimitLength.FIXED, "", LimitStatus.OWN, "0.02 mm per 300 mm")
    assert allowed_over(limit, 300.5).value == 0.02
    for over in (150, 600):
        with pytest.raises(OutOfRange, match="does not scale"):
            allowed_over(limit, over)


@pytest.mark.parametrize(("sign", "value", "verdict"), [
    (LimitSign.PLUS_ONLY, 0.015, Verdict.CONFORMS), (LimitSign.PLUS_ONLY, -0.001, Verdict.DOES_NOT),
    (LimitSign.PLUS_ONLY, 0.021, Verdict.DOES_NOT),
    (LimitSign.EITHER, -0.015, Verdict.CONFORMS), (LimitSign.EITHER, -0.021, Verdict.DOES_NOT),
    (LimitSign.SIZE, 0.02, Verdict.CONFORMS),
])  # fmt: skip
def test_signed_limits(sign: LimitSign, value: float, verdict: Verdict) -> None:
    limit = Allowed(0.02, 300, LimitLength.PROPORTION, "own", LimitStatus.OWN, "0.02 mm per 300 mm")
    words = SignWords(sign, "up", "down")
    judged = judge_deviation(value, limit, words, 300, None, Rule.SIMPLE, "mm")
    assert judged.value.verdict is verdict
    assert bool(wrong_way(words, value, verdict)) is (sign is LimitSign.PLUS_ONLY and value < 0)
    assert "0.02 mm per 300 mm" in judged.working.text()


def test_near_the_sign_a_coarse_instrument_decides_nothing() -> None:
    """With u = 2 µm a reading of 1 µm rising may well be falling."""
    budget = combine([Component("u", 0.002, 1e9, "", SUM)], k=2)
    limit = Allowed(0.02, None, LimitLength.FIXED, "", LimitStatus.OWN, "0.02 mm")
    judged = judge_deviation(0.001, limit, RISING, None, budget, Rule.CONFORMANCE_95, "mm").value
    assert judged.verdict is Verdict.UNDECIDED


def test_no_figure_known_gives_no_verdict_but_the_sign_still_counts() -> None:
    limit = Allowed(None, None, LimitLength.FIXED, "", LimitStatus.OWN, "")
    assert bounds(LimitSign.SIZE, None) == (None, None)
    assert judge_deviation(0.1, limit, RUNOUT, None, None, Rule.SIMPLE, "mm").value.verdict is Verdict.NO_SPEC
    assert (
        judge_deviation(-0.1, limit, RISING, None, None, Rule.SIMPLE, "mm").value.verdict is Verdict.DOES_NOT
    )


def _state(key: int, after: int | None, day: int | None, **more: object) -> ChartState:
    read = None if day is None else dt.datetime(2026, 5, day)
    given = {"moved_at": None, "right": True, **more}
    return ChartState(key, str(key), f"test {key}", after, read, **given)  # type: ignore[arg-type]


def test_order_is_watched_down_the_whole_chain() -> None:
    found = order_warnings([_state(1, None, None), _state(2, 1, 3), _state(3, 2, 4)])
    assert set(found) == {2, 3}
    assert "has not been read" in found[3][0]


def test_moved_or_failing_before_asks_for_another_reading() -> None:
    moved = order_warnings([_state(1, None, 5, moved_at=dt.datetime(2026, 5, 9)), _state(2, 1, 6)])
    assert "adjusted on 2026-05-09" in moved[2][0]
    failing = order_warnings([_state(1, None, 5, right=False), _state(2, 1, 6)])
    assert "does not conform" in failing[2][0]
    assert order_warnings([_state(1, None, 5), _state(2, 1, 6)]) == {}


def test_an_unsettled_bed_and_a_missing_position_are_said() -> None:
    found = order_warnings([_state(1, None, 5), _state(2, 1, 6, missing=("horizontal",))], "not settled yet")
    assert found[2] == (
        "Not finished: horizontal not read; read every position before the test is judged.",
        "The level is not settled yet; read this again when it has settled.",
    )
    assert 1 not in found


def test_rings_are_seen() -> None:
    assert ring_in({1: 3, 2: 1, 3: 2}, 9, 1)
    assert not ring_in({1: None, 2: 1}, 3, 2)


@pytest.mark.parametrize("name", sketch_names())
def test_sketches_stay_on_their_field(name: str) -> None:
    drawing = sketch(name)
    assert drawing is not None
    for stroke in drawing.strokes:
        for x, y in stroke.points:
            assert -2 <= x <= WIDTH + 2, name
            assert -2 <= y <= HEIGHT + 2, name
