"""Change gears: exact trains, the 127, nearest trains, stud room."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.gears.change_gears import Train, find_trains, read_lead, read_wheels

SET = read_wheels("20-120 by 5, 127")


def _ratio(train: Train) -> Fraction:
    got = Fraction(1)
    for a, b in zip(train.drivers, train.driven, strict=True):
        got *= Fraction(a, b)
    return got


@given(st.sampled_from((0.5, 0.75, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0)), st.sampled_from((4, 6, 8)))
def test_metric_on_an_inch_leadscrew_is_exact_with_127(lead: float, tpi: int) -> None:
    trains = find_trains(read_lead(f"{lead} mm"), read_lead(f"{tpi} tpi"), SET).value
    assert trains[0].exact
    assert 127 in trains[0].driven
    assert trains[0].lead_mm == Fraction(str(lead))


@given(st.integers(4, 40), st.sampled_from((4, 6, 8)))
def test_every_train_gives_the_lead_it_says(wanted: int, tpi: int) -> None:
    target, screw = read_lead(f"{wanted} tpi"), read_lead(f"{tpi} tpi")
    try:
        trains = find_trains(target, screw, SET).value
    except OutOfRange:
        return
    held = Counter(SET)
    for train in trains:
        assert _ratio(train) * screw.mm == train.lead_mm
        assert float(train.lead_mm / target.mm - 1) * 1e6 == pytest.approx(train.error_ppm, abs=1e-6)
        used = Counter(train.drivers + train.driven)
        assert all(held[teeth] >= count for teeth, count in used.items())
        if len(train.drivers) == 2:
            (a, c), (b, d) = train.drivers, train.driven
            assert a + b >= c + 15
            assert c + d >= b + 15


def test_best_first() -> None:
    errors = [abs(t.error_ppm) for t in find_trains(read_lead("11.5 tpi"), read_lead("8 tpi"), SET).value]
    assert errors == sorted(errors)
    assert errors[0] < 500


def test_without_127_it_says_so_and_gives_the_nearest() -> None:
    worked = find_trains(read_lead("1.5 mm"), read_lead("8 tpi"), read_wheels("20-120 by 5"))
    assert not worked.value[0].exact
    assert "Only a train with 127 teeth is exact" in worked.working.text()
    assert max(Counter(train.lead_mm for train in worked.value).values()) <= 3


def test_63_is_the_known_stand_in() -> None:
    # Source: 63 in place of 127 is common practice; 1.5 mm on 8 tpi errs by about +125 ppm in some train.
    found = find_trains(read_lead("1 mm"), read_lead("8 tpi"), read_wheels("20-100 by 5, 63")).value
    assert any(63 in train.drivers + train.driven for train in found)


def test_a_wheel_may_be_used_as_often_as_it_is_held() -> None:
    once = find_trains(read_lead("16 tpi"), read_lead("4 tpi"), read_wheels("20, 40, 80"), limit=50).value
    assert all(max(Counter(t.drivers + t.driven).values()) == 1 for t in once)
    twice = find_trains(
        read_lead("16 tpi"), read_lead("4 tpi"), read_wheels("30, 30, 60, 60"), limit=50
    ).value
    assert any(t.drivers == (30, 30) and t.driven == (60, 60) for t in twice)


def test_gearbox_ratio_counts() -> None:
    trains = find_trains(
        read_lead("8 tpi"), read_lead("8 tpi"), read_wheels("20-80 by 20"), gearbox=Fraction(1, 2)
    ).value
    assert _ratio(trains[0]) == 2


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("8 tpi", Fraction(127, 40)),
        ("1.5 mm", Fraction(3, 2)),
        ("1/8 in", Fraction(127, 40)),
        ("11-1/2 tpi", Fraction(254, 115)),
    ],
)
def test_leads_as_typed_are_exact(text: str, mm: Fraction) -> None:
    assert read_lead(text).mm == mm
    assert read_lead(text, starts=2).mm == 2 * mm


def test_worm_leads_by_module_and_dp() -> None:
    assert float(read_lead("module 1").mm) == pytest.approx(3.14159265)
    assert float(read_lead("DP 20").mm) == pytest.approx(3.98982267)


@pytest.mark.parametrize("text", ["", "8", "tpi", "0 mm", "x tpi", "1/0 in"])
def test_leads_that_cannot_be_read(text: str) -> None:
    with pytest.raises(BadEntry):
        read_lead(text)


@pytest.mark.parametrize("text", ["", "5", "20-80 by 0", "twenty", "400"])
def test_wheels_that_cannot_be_read(text: str) -> None:
    with pytest.raises(BadEntry):
        read_wheels(text)


def test_no_train_is_a_sentence() -> None:
    with pytest.raises(OutOfRange, match="parts per million"):
        find_trains(read_lead("50 mm"), read_lead("8 tpi"), read_wheels("20, 21"))


def test_an_error_that_says_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="0 to 20000"):
        find_trains(read_lead("1.5 mm"), read_lead("8 tpi"), SET, tolerance_ppm=1e6)
