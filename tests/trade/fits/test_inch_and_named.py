"""Inch fits, fits by name, the reverse search, fit to a measured mate, instruments."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.fits import b4_1
from rebuild.trade.fits.named import SYSTEMS, find_fits, named_fit, preferred_fits
from rebuild.trade.fits.to_mate import class_to_mate, fit_to_mate
from rebuild.trade.limits.instruments import default_limits, instrument_limit, kinds, surface_plate_um
from rebuild.trade.limits.sizes import Kind, Role
from rebuild.trade.results.working import Status

KIND_OF_SERIES = {
    "RC": {Kind.CLEARANCE}, "LC": {Kind.CLEARANCE}, "LT": {Kind.TRANSITION},
    "LN": {Kind.INTERFERENCE}, "FN": {Kind.INTERFERENCE},
}  # fmt: skip


class TestInch:
    @given(inches=st.floats(0.001, 19.69), name=st.sampled_from(b4_1.class_names()))
    def test_kind_of_each_series(self, inches, name):
        starts = {"LT3": 0.24, "LT4": 0.24, "FN3": 0.95}
        if inches <= starts.get(name, 0.0):
            return
        fit = b4_1.inch_fit(inches * 25.4, name).value
        assert fit.kind in KIND_OF_SERIES[name[:2]]
        assert fit.hole.lower_mm == 0.0

    @pytest.mark.parametrize("inches", [19.6901, 0.0, -1.0, 30.0])
    def test_out_of_range(self, inches):
        with pytest.raises(OutOfRange, match=r"0 to 19\.69 in.*ANSI B4\.1-1967"):
            b4_1.inch_fit(inches * 25.4, "RC4")

    @pytest.mark.parametrize(("name", "from_in"), [("LT3", 0.24), ("LT4", 0.24), ("FN3", 0.95)])
    def test_classes_that_start_later(self, name, from_in):
        assert b4_1.inch_fit((from_in + 0.001) * 25.4, name).value.name == name
        with pytest.raises(OutOfRange, match=f"over {from_in}"):
            b4_1.inch_fit(from_in * 25.4, name)

    @pytest.mark.parametrize("text", ["RC10", "LN4", "XX1", "RC", "", "FN0"])
    def test_no_such_class(self, text):
        with pytest.raises(BadEntry, match="RC1 to RC9"):
            b4_1.parse_inch_class(text)

    def test_step_end_typed_in_inches_belongs_to_the_lower_step(self):
        assert b4_1.inch_fit(1.19 * 25.4, "RC4").value.hole.upper_mm == pytest.approx(1.2 * 0.0254)
        assert b4_1.inch_fit(1.1901 * 25.4, "RC4").value.hole.upper_mm == pytest.approx(1.6 * 0.0254)

    def test_status_of_the_row_is_shown(self):
        found, recalled = b4_1.inch_fit(25.4, "RC4"), b4_1.inch_fit(4 * 25.4, "LC10")
        assert {source.status for source in found.working.sources()} == {Status.PUBLISHED}
        assert Status.FROM_MEMORY in {source.status for source in recalled.working.sources()}

    @given(small=st.floats(0.01, 19.69), large=st.floats(0.01, 19.69), number=st.integers(1, 9))
    def test_running_clearance_grows_with_size(self, small, large, number):
        small, large = sorted((small, large))
        first, second = (b4_1.inch_fit(size * 25.4, f"RC{number}").value for size in (small, large))
        assert first.max_clearance_mm <= second.max_clearance_mm


class TestNamed:
    def test_every_preferred_fit_works_to_500(self):
        for item in preferred_fits():
            for size in (0.5, 3, 25, 500):
                try:
                    fit = named_fit(size, item.name).value
                except OutOfRange:
                    assert size == 0.5
                    continue
                if "interference" in item.use or "drive" in item.use or item.use == "force":
                    assert fit.kind is Kind.INTERFERENCE or size <= 3
                if "running" in item.use or item.use == "sliding":
                    assert fit.kind is Kind.CLEARANCE

    def test_preferred_fits_show_that_they_are_from_memory(self):
        from rebuild.trade.results.tables import table

        assert table("iso_preferred_fits").source.status is Status.FROM_MEMORY
        assert len(preferred_fits()) == 19

    @pytest.mark.parametrize("text", ["H7", "g6", "25 H7/g6", "foo", "H7/G6"])
    def test_not_a_fit(self, text):
        with pytest.raises(BadEntry):
            named_fit(25, text)


class TestFind:
    @pytest.mark.parametrize("name", ["H7/g6", "H8/f7", "H7/p6", "H7/k6", "H11/c11", "H7/s6"])
    @pytest.mark.parametrize("size", [4.0, 25.0, 118.0, 480.0])
    def test_a_standard_range_finds_itself_first(self, name, size):
        fit = named_fit(size, name).value
        best = find_fits(size, fit.min_clearance_mm, fit.max_clearance_mm).value[0]
        assert (best.name, best.score_mm) == (name, 0.0)

    @pytest.mark.parametrize("name", ["RC4", "FN2", "LT5", "LC8"])
    def test_inch_fits_are_found_too(self, name):
        fit = named_fit(25.4, name).value
        found = find_fits(25.4, fit.min_clearance_mm, fit.max_clearance_mm, systems=("inch",)).value
        assert found[0].name == name

    @given(size=st.floats(1.5, 490), low=st.floats(-0.2, 0.2), width=st.floats(0, 0.3))
    def test_ranking_is_in_order_and_inside_means_inside(self, size, low, width):
        matches = find_fits(size, low, low + width, count=30).value
        scores = [round(match.score_mm, 7) for match in matches]
        assert scores == sorted(scores)
        for match in matches:
            fit = named_fit(size, match.name).value
            assert (match.min_clearance_mm, match.max_clearance_mm) == pytest.approx(
                (fit.min_clearance_mm, fit.max_clearance_mm)
            )
            within = low - 2e-9 <= match.min_clearance_mm and match.max_clearance_mm <= low + width + 2e-9
            assert match.inside is within

    def test_upside_down_range(self):
        with pytest.raises(BadEntry, match="Interference is negative"):
            find_fits(25, 0.05, 0.01)

    def test_too_large_for_every_table(self):
        with pytest.raises(OutOfRange, match=r"0 to 500 mm.*19\.69 in"):
            find_fits(5000, 0, 0.1, systems=("inch",))

    def test_unknown_system(self):
        with pytest.raises(BadEntry, match="hole basis"):
            find_fits(25, 0, 0.1, systems=("bicycle",))
        assert SYSTEMS == ("hole basis", "shaft basis", "inch")


class TestToMate:
    def test_shaft_for_a_worn_bore(self):
        made = class_to_mate(Role.HOLE, 25.032, "H7/g6", nominal_mm=25).value
        assert (made.role, made.low_mm, made.high_mm) == (Role.SHAFT, 24.991, 25.025)

    def test_interference_bush_for_a_bore(self):
        made = fit_to_mate(Role.HOLE, 40.0, -0.05, -0.02).value
        assert (made.low_mm, made.high_mm) == (40.02, 40.05)

    @given(
        actual=st.floats(1, 400), low=st.floats(-0.1, 0.1), width=st.floats(0.001, 0.2), share=st.floats(0, 0.49),
        mate=st.sampled_from(list(Role)), error=st.floats(-1, 1), place=st.floats(0, 1),
    )  # fmt: skip
    def test_any_part_in_its_limits_keeps_the_clearance(self, actual, low, width, share, mate, error, place):
        # Whatever the mate really is within ±U, and wherever the part lands, the clearance stays in range.
        doubt = share * width
        made = fit_to_mate(mate, actual, low, low + width, mate_U_mm=doubt).value
        true_mate = actual + error * doubt
        part = made.low_mm + place * (made.high_mm - made.low_mm)
        clearance = true_mate - part if mate is Role.HOLE else part - true_mate
        assert low - 1e-8 <= clearance <= low + width + 1e-8

    def test_uncertainty_eats_the_range(self):
        with pytest.raises(OutOfRange, match=r"34\.0 µm wide.*±20\.0 µm"):
            fit_to_mate(Role.HOLE, 25, 0.007, 0.041, mate_U_mm=0.020)

    @pytest.mark.parametrize("wrong", [(-1.0, 0.0, 0.1, 0.0), (25.0, 0.1, 0.0, 0.0), (25.0, 0.0, 0.1, -0.01)])
    def test_refusals(self, wrong):
        actual, low, high, doubt = wrong
        with pytest.raises(BadEntry):
            fit_to_mate(Role.HOLE, actual, low, high, mate_U_mm=doubt)

    def test_says_how_hard_it_is(self):
        assert "as wide as IT8" in class_to_mate(Role.HOLE, 25.0, "H7/g6", nominal_mm=25).working.text()


class TestInstruments:
    def test_every_kind_answers_over_its_whole_range(self):
        for row in default_limits():
            limit = instrument_limit(row.kind, row.to_mm)
            assert limit.mpe_mm == row.limit()
            assert limit.resolution_mm > 0
        assert set(kinds()) == {row.kind for row in default_limits()}

    def test_status_follows_the_row(self):
        assert instrument_limit("outside micrometer 0.001", 20).source.status is Status.FROM_MEMORY
        assert instrument_limit("dial indicator 0.01", 5).source.status is Status.PUBLISHED
        assert instrument_limit("steel rule", 5).source.status is Status.COMMON_PRACTICE

    def test_spans_of_a_dial_indicator(self):
        # Source: JIS B 7503:2011, 10 mm travel: entire 15, one revolution 10, repeat 3 µm.
        got = [
            instrument_limit("dial indicator 0.01", 10, span=span).mpe_mm
            for span in ("entire", "one revolution", "repeat")
        ]
        assert got == [0.015, 0.010, 0.003]

    def test_refusals(self):
        with pytest.raises(OutOfRange, match="0 to 150 mm"):
            instrument_limit("outside micrometer 0.01", 200)
        with pytest.raises(BadEntry, match="Kinds"):
            instrument_limit("yardstick", 20)
        with pytest.raises(BadEntry, match="Given: entire"):
            instrument_limit("caliper 0.02", 20, span="retrace")

    def test_surface_plate(self):
        # Source: GGG-P-463c: 24 x 36 in plate, diagonal 43.27 in: AA 115 µin (printed 100 to 120 by size).
        aa = surface_plate_um(43.27 * 25.4).value
        assert aa / 0.0254 == pytest.approx(114.9, abs=0.1)
        assert surface_plate_um(43.27 * 25.4, "B").value == pytest.approx(4 * aa)
        for wrong in (0.0, -5.0, 1e6):
            with pytest.raises(OutOfRange):
                surface_plate_um(wrong)
        with pytest.raises(BadEntry):
            surface_plate_um(500, "C")
