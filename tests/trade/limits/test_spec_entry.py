"""Specs as people write them, with signed limits and tolerance classes."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import Ambiguous, BadEntry, OutOfRange
from rebuild.trade.limits.spec_again import limits_mm, settled_text, specs_again
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.limits.spec_forms import parse_deviations

NONE = (None, None, None)


def limits(text: str, unit: str = "mm", **settings: bool) -> tuple[float | None, ...]:
    entry = parse_spec(text, unit, **settings)
    return tuple(None if size is None else size.mm for size in (entry.nominal, entry.low, entry.high))


@pytest.mark.parametrize(
    ("text", "unit", "wanted"),
    [
        ("", "mm", NONE),
        ("25", "mm", (25.0, None, None)),
        ("25 +0.021/0", "mm", (25.0, 25.0, 25.021)),
        ("25 +0.021/-0.000", "mm", (25.0, 25.0, 25.021)),
        ("25 0/-0.013", "mm", (25.0, 24.987, 25.0)),
        ("60 -0.010/-0.029", "mm", (60.0, 59.971, 59.99)),
        ("60 -0.029/-0.010", "mm", (60.0, 59.971, 59.99)),
        ("25 ±0.01", "mm", (25.0, 24.99, 25.01)),
        ("25 +/- 0.01", "mm", (25.0, 24.99, 25.01)),
        ("±0.01", "mm", (0.0, -0.01, 0.01)),
        ("25 ±10 µm", "mm", (25.0, 24.99, 25.01)),
        ("25 +21/0 µm", "mm", (25.0, 25.0, 25.021)),
        ("25 H7", "mm", (25.0, 25.0, 25.021)),
        ("25 g6", "mm", (25.0, 24.98, 24.993)),
        ("max 0.0004", "in", (None, None, 0.01016)),
        ("<= 0.0004", "in", (None, None, 0.01016)),
        ("0.01 max", "mm", (None, None, 0.01)),
        ("min 0.02", "mm", (None, 0.02, None)),
        ("≥ 0.02 mm", "in", (None, 0.02, None)),
        ("1.7495-1.7500", "in", (None, 44.4373, 44.45)),
        ("1.7495 to 1.7500", "in", (None, 44.4373, 44.45)),
        ("1.7495 .. 1.7500 in", "mm", (None, 44.4373, 44.45)),
        ("1-1/4 +.001/-.000", "in", (31.75, 31.75, 31.7754)),
        ("0,02 to 0,05", "mm", (None, 0.02, 0.05)),
        ("-0.01 to 0.02", "mm", (None, -0.01, 0.02)),
    ],
)
def test_forms(text: str, unit: str, wanted: tuple[float | None, ...]) -> None:
    assert limits(text, unit) == pytest.approx(wanted, abs=1e-12)


def test_a_class_names_its_standard() -> None:
    """ISO 286-2:2010, 25 H7: +21/0 µm, checked by row in tests/published."""
    entry = parse_spec("25 H7")
    assert entry.origin == "ISO 286-2:2010 H7"
    assert entry.high is not None
    assert entry.high.text == "25.021"


def test_a_limit_keeps_the_text_it_was_typed_with() -> None:
    entry = parse_spec("1.7495-1.7500", "in")
    assert entry.low is not None
    assert entry.high is not None
    assert (entry.low.text, entry.high.text, entry.high.unit) == ("1.7495", "1.7500", "in")


@pytest.mark.parametrize(
    "text", ["about that", "25 +x/0", "max", "to 25", "25 ++1/0", "H7", "25 +0.1", "1.75-1.74 mm x"]
)
def test_what_is_no_spec(text: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        parse_spec(text, "mm", "Front journal")
    assert str(refusal.value).startswith("Front journal: ")
    assert refusal.value.way_out


def test_low_above_high_is_refused() -> None:
    with pytest.raises(BadEntry, match="low limit 26 above its high limit 25"):
        parse_spec("26 to 25")


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("1.7500-1.7495", "1.7495 to 1.7500"),
        ("1.7500-1.7495 in", "1.7495 to 1.7500 in"),
        ("26 to 25", "25 to 26"),
        ("26 mm to 25 mm", "25 to 26 mm"),
    ],
)
def test_limits_typed_the_larger_first_are_offered_in_order(text: str, offered: str) -> None:
    with pytest.raises(Ambiguous, match="above its high limit") as question:
        parse_spec(text, "in")
    assert [retyped for _, retyped in question.value.readings] == [offered]
    entry = parse_spec(offered, "in")
    assert entry.low is not None
    assert entry.high is not None
    assert entry.low.mm < entry.high.mm
    assert limits("25-25") == (None, 25.0, 25.0)


@pytest.mark.parametrize("unit", ["in", "thou"])
def test_a_bare_size_with_an_iso_class_is_asked_about_where_bare_is_inches(unit: str) -> None:
    """ISO 286-2:2010, 25 H7: +21/0 µm; its sizes are millimetres, and nobody means 25 in by 25 H7."""
    with pytest.raises(Ambiguous) as question:
        parse_spec("25 H7", unit)
    assert [retyped for _, retyped in question.value.readings] == ["25 mm H7", "25 in H7"]
    assert limits("25 mm H7", unit) == pytest.approx((25.0, 25.0, 25.021))
    assert limits("25 H7 mm", unit) == pytest.approx((25.0, 25.0, 25.021))
    # 1 in lies in the step over 18 up to 30 mm too: IT7 is 21 µm.
    assert limits("1 in H7", unit) == pytest.approx((25.4, 25.4, 25.421))
    assert limits('1" H7', "mm") == pytest.approx((25.4, 25.4, 25.421))


def test_a_class_taken_as_inches_by_an_older_version_is_still_read_so() -> None:
    assert [limits_mm(entry) for entry in specs_again("1 H7", "in")] == [
        pytest.approx((1.0, 1.0, 1.01)),
        pytest.approx((25.4, 25.4, 25.421)),
    ]
    assert settled_text("1 H7", "in", (25.4, 25.4, 25.421)) == "1 in H7"
    assert settled_text("1 H7", "in", (1.0, 1.0, 1.01)) == "1 mm H7"
    assert settled_text("1 H7", "in", (2.0, 2.0, 2.01)) == "1 H7"


def test_a_class_outside_its_table_is_not_extrapolated() -> None:
    with pytest.raises(OutOfRange):
        parse_spec("9000 H7")


def test_doubtful_specs_are_asked_about() -> None:
    with pytest.raises(Ambiguous):
        parse_spec("1,250 ±0.01")
    with pytest.raises(Ambiguous):
        parse_spec("3/8 ±0.01", "mm")


def test_a_file_may_settle_the_comma() -> None:
    assert limits("1,250 ±0,010", decimal_comma=True) == pytest.approx((1.25, 1.24, 1.26))
    assert limits("1,250 ±0,010", decimal_comma=False) == pytest.approx((1250.0, 1249.99, 1250.01))
    assert limits("max 0,004", decimal_comma=False) == (None, None, 0.004)


@pytest.mark.parametrize(
    ("text", "upper", "lower"),
    [
        ("+.001/-.000", 0.0254, 0.0),
        ("-.000/+.001", 0.0254, 0.0),
        ("±.001", 0.0254, -0.0254),
        ("+0.002 -0.001", 0.0508, -0.0254),
    ],
)
def test_deviations(text: str, upper: float, lower: float) -> None:
    high, low = parse_deviations(text, "in")
    assert (high.mm, low.mm) == pytest.approx((upper, lower))


@pytest.mark.parametrize("text", ["", "0.01", "25 ±0.01", "+x/-y"])
def test_what_is_no_pair_of_deviations(text: str) -> None:
    with pytest.raises(BadEntry):
        parse_deviations(text, "in", "Deviations")


MICRONS = st.integers(-500, 500)


@given(nominal=st.integers(1, 400_000), first=MICRONS, second=MICRONS, unit=st.sampled_from(["mm", "in"]))
def test_nominal_and_deviations_in_any_order(nominal: int, first: int, second: int, unit: str) -> None:
    text = f"{nominal / 1000:.3f} {first / 1000:+.3f}/{second / 1000:+.3f}"
    factor = 1.0 if unit == "mm" else 25.4
    low, high = sorted((first, second))
    wanted = tuple(value / 1000 * factor for value in (nominal, nominal + low, nominal + high))
    assert limits(text, unit) == pytest.approx(wanted, abs=1e-8)


@given(
    low=st.integers(1, 400_000),
    width=st.integers(1, 5000),
    form=st.sampled_from(["{}-{}", "{} to {}", "{} ... {}"]),
)
def test_two_limits(low: int, width: int, form: str) -> None:
    text = form.format(f"{low / 1000:.3f}", f"{(low + width) / 1000:.3f}")
    assert limits(text) == pytest.approx((None, low / 1000, (low + width) / 1000), abs=1e-9)


@given(
    text=st.text(max_size=12) | st.text(alphabet="0123456789.,/-+ ±<>=maxintoHh7gµ½\"", max_size=16),
    unit=st.sampled_from(["mm", "in"]), comma=st.sampled_from([None, True, False]),
)  # fmt: skip
def test_any_text_is_read_or_refused(text: str, unit: str, comma: bool | None) -> None:
    try:
        entry = parse_spec(text, unit, decimal_comma=comma)
    except (BadEntry, OutOfRange):
        pass
    else:
        if entry.low is not None and entry.high is not None:
            assert entry.low.mm <= entry.high.mm


# Seen: "1.500 -0.010" was offered as 0.010 to 1.500 alone.
def test_a_size_less_a_tolerance_without_its_nought_is_offered_as_one() -> None:
    """By hand: 1.500 +0/-0.010 is 1.490 to 1.500."""
    with pytest.raises(Ambiguous) as asked:
        parse_spec("1.500 -0.010", "in")
    offered = [retyped for _words, retyped in asked.value.readings]
    assert offered == ["1.500 +0/-0.010", "0.010 to 1.500"]
    taken = parse_spec(offered[0], "in")
    assert taken.low is not None
    assert taken.high is not None
    assert (taken.low.mm, taken.high.mm) == (pytest.approx(1.490 * 25.4), pytest.approx(1.500 * 25.4))
