"""ISO 286 beyond its printed rows: rules, special cases, refusals with their range, and the many-at-once call."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits import iso286
from rebuild.trade.limits.iso286_tables import GRADES, STEPS
from rebuild.trade.limits.sizes import Kind

CLASSES = [
    f"{case(letters)}{grade}" for letters in iso286.LETTERS for case in (str, str.upper) for grade in GRADES
]
sizes = st.floats(0.05, 500, allow_nan=False)


class TestSpecialCases:
    # Sources: ISO 286-1:2010 rules as worked there; K7 in 18-30 and S6 in 18-30 are its own examples of Δ.
    @pytest.mark.parametrize(
        ("size", "name", "lower", "upper"),
        [
            (25, "K7", -15, 6), (25, "S6", -44, -31), (25, "K8", -23, 10), (265, "M6", -41, -9),
            (300, "M6", -41, -9), (250, "M6", -37, -8), (25, "N9", -52, 0), (3, "N9", -29, -4),
            (3, "K8", -14, 0), (3, "K9", -25, 0), (25, "M9", -60, -8), (25, "P8", -55, -22),
            (25, "P7", -35, -14), (3, "J6", -4, 2), (25, "J8", -13, 20), (25, "js6", -6.5, 6.5),
            (25, "k3", 0, 4), (25, "k4", 2, 8), (25, "k8", 0, 33), (3, "k6", 0, 6), (2, "j8", -6, 8),
            (25, "EF8", 28, 61), (25, "ef8", -61, -28), (500, "zc11", 2600, 3000), (25, "h01", -0.6, 0),
            (1.0, "H13", 0, 140), (1000, "H7", 0, 90), (2000, "js6", -46, 46),
        ],
    )  # fmt: skip
    def test_value(self, size, name, lower, upper):
        assert iso286.deviations_um(size, name) == (lower, upper)

    def test_js_may_be_rounded_down_only_where_asked_and_odd(self):
        assert iso286.limits(25, "js7").value.upper_mm == pytest.approx(0.0105)
        assert "may be rounded" in iso286.limits(25, "js7").working.text()
        rounded = iso286.limits(25, "js7", whole_js=True).value
        assert (rounded.lower_mm, rounded.upper_mm) == (-0.010, 0.010)
        assert iso286.limits(25, "JS6", whole_js=True).value.upper_mm == pytest.approx(0.0065)
        assert iso286.limits(25, "js8", whole_js=True).value.upper_mm == pytest.approx(0.016)
        assert iso286.limits(25, "js10", whole_js=True).value.upper_mm == pytest.approx(0.042)

    def test_step_ends_belong_to_the_lower_step(self):
        assert iso286.deviations_um(30, "H7") == (0, 21)
        assert iso286.deviations_um(30.0001, "H7") == (0, 25)
        # Trap: 50 mm typed in inches comes back a whisker over 50.
        assert iso286.deviations_um(50 / 25.4 * 25.4 + 4e-15, "u6") == iso286.deviations_um(50, "u6")


class TestRefusals:
    @pytest.mark.parametrize(
        ("size", "name", "says"),
        [
            (600, "g6", "500 mm"), (0, "H7", "up to 3150 mm"), (-5, "H7", "up to 3150 mm"), (4000, "H7", "3150"),
            (float("nan"), "H7", "3150"), (600, "H01", "500 mm"), (20, "t6", "over 24 to 500 mm"),
            (12, "v6", "over 14 to 500 mm"), (18, "y7", "over 18 to 500 mm"), (60, "cd8", "over 0 to 50 mm"),
            (60, "FG8", "over 0 to 50 mm"), (25, "K9", "K has grades to 8"), (25, "J9", "J has grades 6 to 8"),
            (25, "j9", "j has grades 5 to 7"), (25, "P2", "grades 3 to 8"), (0.8, "a11", "up to 1 mm"),
            (0.8, "B11", "up to 1 mm"), (1.0, "N9", "up to 1 mm"), (1.0, "H14", "up to 1 mm"),
        ],
    )  # fmt: skip
    def test_out_of_range_names_the_range_and_the_standard(self, size, name, says):
        with pytest.raises(OutOfRange) as caught:
            iso286.limits(size, name)
        assert says in str(caught.value)
        assert "ISO 286-1:2010" in str(caught.value)

    @pytest.mark.parametrize("text", ["7H", "H", "", "Js7", "O7", "W6", "H7.5", "HH7", "25"])
    def test_not_a_class(self, text):
        with pytest.raises(BadEntry):
            iso286.parse_class(text)

    @pytest.mark.parametrize("text", ["H19", "H00", "g25"])
    def test_no_such_grade(self, text):
        with pytest.raises(OutOfRange, match="IT01"):
            iso286.parse_class(text)

    def test_sides_swapped(self):
        with pytest.raises(BadEntry, match="is not a hole"):
            iso286.iso_fit(25, "g6", "H7")
        with pytest.raises(BadEntry, match="same side"):
            iso286.parse_typed("25 H7/G6")


@pytest.mark.parametrize(
    ("text", "mm", "hole", "shaft"),
    [
        ("25 H7", 25, "H7", None), ("25H7", 25, "H7", None), ("Ø25 h6", 25, None, "h6"),
        ("1-1/4 in H7/g6", 31.75, "H7", "g6"), ("50,2 JS6", 50.2, "JS6", None), ("H7/p6", None, "H7", "p6"),
        ("25 mm H 8 / f 7", 25, "H8", "f7"), ("g6/H7", None, "H7", "g6"), ("25 H7-k6", 25, "H7", "k6"),
    ],
)  # fmt: skip
def test_typed_forms(text, mm, hole, shaft):
    typed = iso286.parse_typed(text)
    assert (typed.size.mm if typed.size else None) == mm
    assert (str(typed.hole) if typed.hole else None) == hole
    assert (str(typed.shaft) if typed.shaft else None) == shaft


# Sources: ANSI B4.2 / ISO 286 preferred fits; clearances at 25 mm as printed in handbook tables.
@pytest.mark.parametrize(
    ("name", "low", "high", "kind"),
    [
        ("H7/g6", 0.007, 0.041, Kind.CLEARANCE), ("H7/h6", 0.0, 0.034, Kind.CLEARANCE),
        ("H7/k6", -0.015, 0.019, Kind.TRANSITION), ("H7/n6", -0.028, 0.006, Kind.TRANSITION),
        ("H7/p6", -0.035, -0.001, Kind.INTERFERENCE), ("H7/s6", -0.048, -0.014, Kind.INTERFERENCE),
        ("H8/f7", 0.020, 0.074, Kind.CLEARANCE), ("H11/c11", 0.110, 0.370, Kind.CLEARANCE),
        ("U7/h6", -0.061, -0.027, Kind.INTERFERENCE),
    ],
)  # fmt: skip
def test_preferred_fits_at_25(name, low, high, kind):
    hole, shaft = name.split("/")
    fit = iso286.iso_fit(25, hole, shaft).value
    assert (fit.min_clearance_mm, fit.max_clearance_mm, fit.kind) == (low, high, kind)


def deviations_or_none(size, name):
    try:
        return iso286.deviations_um(size, name)
    except OutOfRange:
        return None


@given(size=sizes, name=st.sampled_from(CLASSES))
def test_width_is_the_grade(size, name):
    found = deviations_or_none(size, name)
    if found is not None:
        grade = iso286.parse_class(name).grade
        assert found[1] - found[0] == pytest.approx(iso286.it_grade_um(size, grade))


@given(size=sizes, letters=st.sampled_from(iso286.LETTERS[:11]), grade=st.sampled_from(GRADES))
def test_holes_a_to_h_mirror_the_shafts(size, letters, grade):
    shaft = deviations_or_none(size, f"{letters}{grade}")
    hole = deviations_or_none(size, f"{letters.upper()}{grade}")
    assert (shaft is None) == (hole is None)
    if shaft and hole:
        assert hole == (-shaft[1], -shaft[0])


@given(
    size=st.floats(3.001, 500),
    letters=st.sampled_from(["P", "R", "S", "T", "U", "V", "X", "Y", "Z", "ZA", "ZB", "ZC"]),
    grade=st.integers(3, 7),
)
def test_delta_makes_hn_pn_minus_1_like_pn_hn_minus_1(size, letters, grade):
    # The purpose of Δ in ISO 286-1: a P7 hole on an h6 shaft fits like an H7 hole on a p6 shaft.
    hole = deviations_or_none(size, f"{letters}{grade}")
    if hole is None:
        return
    basic = iso286.deviations_um(size, f"H{grade}")
    shaft = iso286.deviations_um(size, f"{letters.lower()}{grade - 1}")
    tip = iso286.deviations_um(size, f"h{grade - 1}")
    assert hole[0] - tip[1] == pytest.approx(basic[0] - shaft[1])
    assert hole[1] - tip[0] == pytest.approx(basic[1] - shaft[0])


@given(small=sizes, large=sizes, grade=st.sampled_from(GRADES[:15]))
def test_grades_grow_with_size(small, large, grade):
    small, large = sorted((small, large))
    assert iso286.it_grade_um(small, grade) <= iso286.it_grade_um(large, grade)


@given(size=sizes)
def test_grades_and_letters_are_in_order(size):
    widths = [iso286.it_grade_um(size, grade) for grade in GRADES]
    assert widths == sorted(widths)
    order = [letters for letters in iso286.LETTERS if letters not in ("j", "js")]
    bases = [
        found[1] if letters in iso286.LETTERS[:11] else found[0]
        for letters in order
        if (found := deviations_or_none(size, f"{letters}6")) is not None
    ]
    assert bases == sorted(bases)


@given(size=sizes, name=st.sampled_from(CLASSES))
def test_limits_of_size_round_trip(size, name):
    if deviations_or_none(size, name) is None:
        return
    worked = iso286.limits(size, name)
    lower, upper = iso286.deviations_um(size, name)
    assert (worked.value.low_mm - size) * 1000 == pytest.approx(lower, abs=1e-5)
    assert (worked.value.high_mm - size) * 1000 == pytest.approx(upper, abs=1e-5)
    assert worked.working.sources()


@given(pairs=st.lists(st.tuples(sizes, st.sampled_from(CLASSES)), max_size=30))
def test_many_at_once_is_one_at_a_time(pairs):
    good = [(size, name) for size, name in pairs if deviations_or_none(size, name) is not None]
    lowers, uppers = iso286.deviations_many([size for size, _ in good], [name for _, name in good])
    assert list(zip(lowers, uppers, strict=True)) == [iso286.deviations_um(*pair) for pair in good]


def test_many_at_once_refuses_what_one_refuses():
    with pytest.raises(OutOfRange, match="over 24"):
        iso286.deviations_many([25, 20], ["H7", "t6"])
    with pytest.raises(ValueError, match="shorter"):
        iso286.deviations_many([25, 20], ["H7"])


def test_every_class_answers_or_refuses_with_a_sentence():
    # All 28 letters, both sides, 20 grades, every step: never a KeyError, always limits in order.
    answered = 0
    for top in STEPS:
        for name in CLASSES:
            found = deviations_or_none(float(top), name)
            if found is not None:
                assert found[0] < found[1]
                answered += 1
    assert answered > 20_000
