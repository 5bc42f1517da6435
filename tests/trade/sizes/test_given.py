"""Wrong things given to the library: each door says which argument, what was given, and a way out."""

from __future__ import annotations

import math
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest

from rebuild.errors import BadEntry, OutOfRange, RebuildError
from rebuild.trade.charts.entry import SignWords, read_allowed, read_deviation, read_slope
from rebuild.trade.charts.limit import allowed_over, bounds
from rebuild.trade.charts.settling import fit_creep, settling, slope_text, twist_of_ends
from rebuild.trade.figures import figure
from rebuild.trade.fits.adjuster import adjusted
from rebuild.trade.fits.b4_1 import inch_fit, parse_inch_class
from rebuild.trade.fits.combining import mesh_combining, taper_combining, thread_combining
from rebuild.trade.fits.joint import joined
from rebuild.trade.fits.named import find_fits, named_fit
from rebuild.trade.fits.now import evaluate, read_directly
from rebuild.trade.fits.to_mate import fit_to_mate
from rebuild.trade.fits.wanted import parse_wanted
from rebuild.trade.limits import iso286
from rebuild.trade.limits.instruments import instrument_limit, surface_plate_um
from rebuild.trade.limits.sizes import Role
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.limits.spec_forms import parse_deviations
from rebuild.trade.limits.t_factor import student_t
from rebuild.trade.limits.temperature import to_20C
from rebuild.trade.limits.uncertainty import InstrumentLimit, combine, reading_budget
from rebuild.trade.limits.verdict import conformance_probability, judge, judge_many, too_coarse
from rebuild.trade.results.cautions import caution, suggest
from rebuild.trade.sizes.amounts import parse_celsius, parse_minutes, parse_torque, show_minutes
from rebuild.trade.sizes.given import (
    maybe_number_of,
    number_of,
    numbers_of,
    record_of,
    text_of,
    whole_of,
    word_of,
)
from rebuild.trade.sizes.quantity import parse_length, parse_repeats
from rebuild.trade.sizes.show import exact_text, in_unit, show_length
from rebuild.trade.threads import acme, ba, metric, stub_acme, trapezoidal, unified, whitworth, wires
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.form import form
from rebuild.trade.threads.identify import identify
from rebuild.trade.threads.lookup import for_designation, limits_of
from rebuild.trade.threads.making import nut_bore, single_point
from rebuild.trade.threads.pitch import parse_pitch
from rebuild.trade.threads.series import System
from rebuild.trade.threads.sizes import lead_angle_deg
from rebuild.trade.threads.tap_drill import hole_for_percent, percent_of_thread, tap_drill
from rebuild.words.charts import LimitSign
from rebuild.words.fits import FitJoint

NO_NUMBERS = ("25 mm", "", None, True, [25.0], math.nan, math.inf, -math.inf, 1j)
NO_TEXTS = (25, 2.5, None, True, [], b"H7")

NUMBER_DOORS: dict[str, Callable[..., object]] = {
    "iso fit": lambda x: iso286.iso_fit(x, "H7", "g6"),
    "it grade": lambda x: iso286.it_grade_um(x, "7"),
    "deviations": lambda x: iso286.deviations_um(x, "H7"),
    "many deviations": lambda x: iso286.deviations_many([25, x], ["H7", "H7"]),
    "limits": lambda x: iso286.limits(x, "H7"),
    "instrument": lambda x: instrument_limit("outside micrometer 0.001", x),
    "plate": surface_plate_um,
    "t": lambda x: student_t(x, 5),
    "to 20": lambda x: to_20C(x, 20, 11.5e-6, 11.5e-6),
    "to 20, degrees": lambda x: to_20C(100, x, 11.5e-6, 11.5e-6),
    "to 20, expansion": lambda x: to_20C(100, 20, x, 11.5e-6),
    "budget": lambda x: reading_budget(InstrumentLimit("mic", 0.001, 0.004), length_mm=x),
    "repeats": lambda x: reading_budget(None, length_mm=25, repeats_mm=[25.0, x]),
    "verdict": lambda x: judge(x, 0.0, 1.0, None),
    "verdicts": lambda x: judge_many([0.5, x], [0.0, 0.0], [1.0, 1.0], [0.1, 0.1]),
    "chance": lambda x: conformance_probability(x, 0.0, 1.0, 0.1),
    "too coarse": lambda x: too_coarse(0.1, 0.0, x) if x is not None else too_coarse(0.1, 0.0, "1"),  # type: ignore[arg-type]
    "inch fit": lambda x: inch_fit(x, "RC4"),
    "named fit": lambda x: named_fit(x, "H7/g6"),
    "find fits": lambda x: find_fits(25, x, 0.04),
    "mate": lambda x: fit_to_mate(Role.HOLE, x, 0.01, 0.03),
    "thread angle": thread_combining,
    "taper": taper_combining,
    "mesh": mesh_combining,
    "unified": lambda x: unified.limits(x, 13),
    "unified tpi": lambda x: unified.limits(0.5, x),
    "acme": lambda x: acme.limits(x, 8),
    "acme starts": lambda x: acme.limits(1, 8, starts=x),
    "stub acme": lambda x: stub_acme.limits(0.25, x),
    "metric": lambda x: metric.limits(x, 1.25),
    "metric pitch": lambda x: metric.limits(8, x),
    "trapezoidal": lambda x: trapezoidal.limits(x, 3),
    "trapezoidal pitch": lambda x: trapezoidal.basic(12, x),
    "whitworth": lambda x: whitworth.limits(x, 12),
    "whitworth tpi": whitworth.tpi_for,
    "ba": ba.limits,
    "identify": lambda x: identify(x, 1.25),
    "wires": lambda x: wires.wire_sizes(System.METRIC, x),
    "over wires": lambda x: wires.over_wires(System.METRIC, x, 1.25, 0.72),
    "wire": lambda x: wires.over_wires(System.METRIC, 7.1, 1.25, x),
    "from wires": lambda x: wires.pitch_diameter(System.METRIC, x, 1.25, 0.72),
    "lead angle": lambda x: lead_angle_deg(x, 1.25),
    "percent": lambda x: percent_of_thread(6.35, 1.27, x),
    "hole": lambda x: hole_for_percent(6.35, 1.27, x),
    "slope": slope_text,
    "settling": lambda x: settling([0, 1, 4], [60, 30, x]),
    "creep": lambda x: fit_creep([0, 1, 2, 3], [4, 2, 1, x]),
    "twist": lambda x: twist_of_ends([("head", 0, 20), ("tail", 1000, x)]),
    "minutes": show_minutes,
    "exact": lambda x: exact_text(x, "mm"),
    "in unit": lambda x: in_unit(x, "in"),
}
TEXT_DOORS: dict[str, Callable[..., object]] = {
    "length": parse_length, "repeats": parse_repeats, "minutes": parse_minutes, "celsius": parse_celsius,
    "torque": parse_torque, "unit": lambda x: parse_length("1", x), "caution": caution, "step": suggest,
    "class": lambda x: iso286.limits(25, x), "hole": lambda x: iso286.iso_fit(25, x, "g6"),
    "shaft": lambda x: iso286.iso_fit(25, "H7", x), "grade": lambda x: iso286.it_grade_um(25, x),
    "typed fit": iso286.parse_typed, "parsed class": iso286.parse_class,
    "instrument": lambda x: instrument_limit(x, 20), "spec": parse_spec,
    "deviations": parse_deviations, "inch class": parse_inch_class, "fit": lambda x: named_fit(25, x),
    "wanted": parse_wanted, "designation": parse_designation, "limits of": for_designation,
    "nut bore": nut_bore, "single point": single_point, "tap drill": tap_drill, "pitch": parse_pitch,
    "thread class": lambda x: unified.limits(0.5, 13, x), "metric class": lambda x: metric.limits(8, 1.25, x),
    "slope": read_slope, "allowed": lambda x: read_allowed(x, "mm"), "topic": figure,
    "deviation": lambda x: read_deviation(x, "mm", SignWords(LimitSign.SIZE), "Test 1"),
    "shown unit": lambda x: show_length(25.4, x),
    "convention": lambda x: percent_of_thread(6.35, 1.27, 5.1, x),
}  # fmt: skip
WORD_DOORS: dict[str, Callable[..., object]] = {
    "joint": lambda x: joined(x, ["", ""]),
    "kind": lambda x: parse_wanted("0.02-0.04", kind=x),
    "side": lambda x: acme.limits(1, 8, side=x),
    "system": lambda x: wires.wire_sizes(x, 1.25),
    "form": form,
    "rule": lambda x: judge(0.5, 0.0, 1.0, None, x),
    "mate": lambda x: fit_to_mate(x, 25, 0.01, 0.03),
    "sign": lambda x: bounds(x, 0.02),
}


@pytest.mark.parametrize(
    "door",
    [
        lambda: combine("micrometer"),  # type: ignore[arg-type]
        lambda: combine([0.001]),  # type: ignore[list-item]
        lambda: evaluate([25.02], [25.0], 0.01, 0.03),  # type: ignore[list-item]
        lambda: read_directly(None, 0.01, 0.03),  # type: ignore[arg-type]
        lambda: adjusted(None, 0.01, 0.03),  # type: ignore[arg-type]
        lambda: limits_of("1/2-13 UNC"),  # type: ignore[arg-type]
        lambda: allowed_over(0.02, 300),  # type: ignore[arg-type]
        lambda: judge(0.5, 0.0, 1.0, 0.001),  # type: ignore[arg-type]
        lambda: reading_budget("micrometer", length_mm=25),  # type: ignore[arg-type]
    ],
)
def test_what_is_no_record_of_the_trade_is_refused(door: Callable[[], object]) -> None:
    with pytest.raises(BadEntry, match="and not a "):
        door()


@pytest.mark.parametrize("given", NO_NUMBERS, ids=repr)
@pytest.mark.parametrize("door", NUMBER_DOORS)
def test_what_is_no_number_is_refused_in_a_sentence(door: str, given: object) -> None:
    with pytest.raises(RebuildError) as refused:
        NUMBER_DOORS[door](given)
    assert refused.value.where
    assert refused.value.way_out or "more than zero" in str(refused.value)


@pytest.mark.parametrize("given", NO_TEXTS, ids=repr)
@pytest.mark.parametrize("door", TEXT_DOORS)
def test_what_is_no_text_is_refused_in_a_sentence(door: str, given: object) -> None:
    with pytest.raises(BadEntry, match="and not text") as refused:
        TEXT_DOORS[door](given)
    assert refused.value.where
    assert refused.value.way_out


@pytest.mark.parametrize("given", ["no such word", None, 3, True], ids=repr)
@pytest.mark.parametrize("door", WORD_DOORS)
def test_a_word_outside_its_list_is_refused_with_the_list(door: str, given: object) -> None:
    with pytest.raises(BadEntry, match="is not one of the words") as refused:
        WORD_DOORS[door](given)
    assert refused.value.way_out.startswith("Words: ")


def test_the_sentence_names_argument_value_and_way_out() -> None:
    with pytest.raises(BadEntry) as refused:
        iso286.iso_fit("25 mm", "H7", "g6")  # type: ignore[arg-type]
    assert str(refused.value) == (
        "Nominal size: “25 mm” is not a number. "
        "Give the bare number, as 25 or 12.5; read a typed size by parse_length first."
    )


@pytest.mark.parametrize("given", [25, 25.0, Decimal(25), Fraction(25)])
def test_every_sort_of_real_number_is_taken(given: float) -> None:
    assert number_of("Bore", given) == 25.0
    assert type(number_of("Bore", given)) is float
    assert iso286.deviations_um(given, "H7") == (0.0, 21.0)  # Source: ISO 286-2, hole H7 over 18 to 30 mm


def test_a_boundary_from_both_sides() -> None:
    assert number_of("Bore", 1e-300, above=0) == 1e-300
    for none in (0.0, -1e-300):
        with pytest.raises(OutOfRange, match="is not above 0"):
            number_of("Bore", none, above=0)
    assert whole_of("Starts", 1, least=1) == 1
    with pytest.raises(OutOfRange, match="less than 1"):
        whole_of("Starts", 0, least=1)
    with pytest.raises(BadEntry, match="no whole number"):
        whole_of("Starts", 1.5)


def test_too_large_for_a_float_is_said() -> None:
    with pytest.raises(BadEntry, match="too large"):
        number_of("Bore", 10**400)


def test_rows_words_and_records() -> None:
    assert list(numbers_of("Reading", iter([1, 2.5]))) == [1.0, 2.5]
    with pytest.raises(BadEntry, match="Reading 2: “x” is not a number"):
        numbers_of("Reading", [1.0, "x"])
    with pytest.raises(BadEntry, match="not a row"):
        numbers_of("Reading", "12")
    assert maybe_number_of("Low limit", None) is None
    assert text_of("Class", FitJoint.TAPER) == "taper"
    assert word_of("Joint", "taper", FitJoint) is FitJoint.TAPER
    with pytest.raises(BadEntry, match="not a InstrumentLimit"):
        record_of("Instrument", "micrometer", InstrumentLimit)


def test_a_reading_that_is_no_number_never_conforms() -> None:
    """Every comparison with nan is false, so without the door it would pass both limits."""
    with pytest.raises(BadEntry, match="Reading 2"):
        judge_many([0.5, math.nan], [0.0, 0.0], [1.0, 1.0], [0.1, 0.1])
