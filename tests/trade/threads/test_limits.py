"""Limits of threads: properties every standard's rules must show, and refusals in sentences."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.working import Status
from rebuild.trade.threads import acme, ba, metric, stub_acme, trapezoidal, unified, whitworth
from rebuild.trade.threads.series import standards
from rebuild.trade.threads.sizes import Band, Side, ThreadLimits
from tests.support import trapezoidal_pitches

inch_sizes = st.sampled_from([0.19, 0.25, 0.3125, 0.4375, 0.5, 0.75, 1.0, 1.5, 2.25, 3.0])
fine_tpi = st.sampled_from([8.0, 10.0, 12.0, 16.0, 20.0, 24.0, 28.0, 32.0])


def _ordered(found: ThreadLimits) -> None:
    """Every band the right way round, and major above pitch above minor."""
    for _name, band in found.bands():
        if band.low is not None and band.high is not None:
            assert band.low < band.high
    majors, pitches, minors = (value.low for value in (found.major, found.pitch_diameter, found.minor))
    assert majors is not None
    assert pitches is not None
    assert minors is not None
    assert majors > pitches > minors > 0


def _clear(screw: ThreadLimits, nut: ThreadLimits) -> None:
    """Screw and nut of mating classes assemble: no diameter of the screw passes the nut's."""
    for mine, theirs in ((screw.major, nut.major), (screw.pitch_diameter, nut.pitch_diameter)):
        assert mine.high is not None
        assert theirs.low is not None
        assert mine.high <= theirs.low + 1e-9


@given(inch_sizes, fine_tpi)
@settings(max_examples=60)
def test_unified_classes_nest(D: float, tpi: float) -> None:
    if D - 1.3 / tpi <= 0.05:
        return
    screws = {name: unified.limits(D, tpi, name).value for name in ("1A", "2A", "3A")}
    nuts = {name: unified.limits(D, tpi, name).value for name in ("1B", "2B", "3B")}
    for found in (*screws.values(), *nuts.values()):
        _ordered(found)
    widths = [f.pitch_diameter.high - f.pitch_diameter.low for f in screws.values()]  # type: ignore[operator]
    assert widths == sorted(widths, reverse=True)
    assert screws["2A"].allowance > screws["3A"].allowance == 0
    for screw, nut in zip(screws.values(), nuts.values(), strict=True):
        _clear(screw, nut)


@given(inch_sizes, fine_tpi)
@settings(max_examples=60)
def test_unified_tolerance_grows_with_length_and_diameter(D: float, tpi: float) -> None:
    if D - 1.3 / tpi <= 0.05:
        return
    short = unified.limits(D, tpi, "2A", 5 / tpi).value.pitch_diameter
    long = unified.limits(D, tpi, "2A", 15 / tpi).value.pitch_diameter
    assert (long.high or 0) - (long.low or 0) >= (short.high or 0) - (short.low or 0)


@pytest.mark.parametrize("row", [row for row in standards() if row.series.startswith("M ")][::3])
def test_metric_sizes_all_have_limits(row) -> None:  # type: ignore[no-untyped-def]
    screw = metric.limits(row.major_mm, row.pitch_mm, "6g").value
    nut = metric.limits(row.major_mm, row.pitch_mm, "6H" if row.pitch_mm >= 0.3 else "4H").value
    _ordered(screw)
    _ordered(nut)
    _clear(screw, nut)


@given(
    st.sampled_from([(6, 1), (8, 1.25), (12, 1.75), (20, 2.5), (36, 4), (64, 6), (100, 3), (8, 0.5), (50, 1)])
)
def test_metric_positions_move_the_whole_zone(pair: tuple[float, float]) -> None:
    d, P = pair
    by_letter = {letter: metric.limits(d, P, f"6{letter}").value for letter in "efgh"}
    tops = [found.pitch_diameter.high or 0 for found in by_letter.values()]
    assert tops == sorted(tops)
    widths = {
        round((f.pitch_diameter.high or 0) - (f.pitch_diameter.low or 0), 6) for f in by_letter.values()
    }
    assert len(widths) == 1
    shift = metric.limits(d, P, "6G").value.allowance
    assert shift == pytest.approx(by_letter["g"].allowance)


@given(st.sampled_from(sorted(trapezoidal_pitches().items())))
def test_trapezoidal_sizes_and_classes(item: tuple[float, tuple[float, ...]]) -> None:
    d, pitches = item
    for P in pitches:
        for screw_class, nut_class in (("7e", "7H"), ("8e", "8H"), ("8c", "8H"), ("9c", "9H")):
            screw = trapezoidal.limits(d, P, screw_class).value
            nut = trapezoidal.limits(d, P, nut_class).value
            _ordered(screw)
            _ordered(nut)
            _clear(screw, nut)
        several = trapezoidal.limits(d, P, "7e", starts=2).value
        single = trapezoidal.limits(d, P, "7e").value
        assert (several.pitch_diameter.low or 0) < (single.pitch_diameter.low or 0)
        assert several.lead == 2 * P


@given(st.floats(0.25, 5.0), st.sampled_from([3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0]))
@settings(max_examples=80)
def test_acme_any_pair(D: float, tpi: float) -> None:
    core = D - 1.6 / tpi
    if core < 0.1:
        return
    for module in (acme, stub_acme):
        by_class = [module.limits(D, tpi, name).value for name in acme.CLASSES]
        nut = module.limits(D, tpi, "2G", side=Side.INTERNAL).value
        _ordered(nut)
        for found in by_class:
            _ordered(found)
            _clear(found, nut)
        allowances = [found.allowance for found in by_class]
        assert allowances == sorted(allowances, reverse=True)


@given(st.integers(1, 20 * 64))
@settings(max_examples=60)
def test_sizes_from_millimetres_give_the_same_limits(sixtyfourths: int) -> None:
    """Unit invariance: 7/16 in and 11.1125 mm are one size, also where a range of the standard ends."""
    D = sixtyfourths / 64
    if not 0.25 <= D <= 5:
        return
    through_mm = (D * 25.4) / 25.4
    assert acme.limits(through_mm, 16).value == acme.limits(D, 16).value
    assert unified.limits(through_mm, 16).value == unified.limits(D, 16).value
    assert whitworth.limits(through_mm, 16).value == whitworth.limits(D, 16).value


@pytest.mark.parametrize("number", range(17))
def test_ba_numbers(number: int) -> None:
    screw, nut = ba.limits(number).value, ba.limits(number, side=Side.INTERNAL).value
    close = ba.limits(number, "close").value
    _ordered(screw)
    _ordered(nut)
    _clear(screw, nut)
    _clear(close, nut)


@pytest.mark.parametrize("row", [row for row in standards() if row.series in ("BSW", "BSF")])
def test_whitworth_sizes(row) -> None:  # type: ignore[no-untyped-def]
    D, tpi = row.major_mm / 25.4, row.tpi
    for bolt, nut in (("close", "medium"), ("medium", "normal"), ("free", "normal")):
        screw = whitworth.limits(D, tpi, bolt).value
        mate = whitworth.limits(D, tpi, nut, side=Side.INTERNAL).value
        _ordered(screw)
        _ordered(mate)
        _clear(screw, mate)


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda: unified.limits(0.5, 13, "4A"), BadEntry, "1A, 2A, 3A"),
        (lambda: unified.limits(0.1, 8, "2A"), BadEntry, "no core"),
        (lambda: unified.limits(40, 8, "2A"), OutOfRange, "0.06 to 6 in"),
        (lambda: unified.limits(0.5, 13, "2A", 0), BadEntry, "Length of engagement"),
        (lambda: unified.limits(0.5, 20, "2A", 3.0), OutOfRange, "30 pitches"),
        (lambda: metric.limits(5, 6, "6g"), BadEntry, "no core"),
        (lambda: metric.limits(400, 6, "6g"), OutOfRange, "355"),
        (lambda: metric.limits(8, 1.25, "6k"), BadEntry, "class"),
        (lambda: metric.limits(8, 1.25, "6gH"), BadEntry, "class"),
        (lambda: metric.limits(3, 0.5, "8g"), BadEntry, "does not give"),
        (lambda: metric.limits(2, 0.4, "6e"), BadEntry, "does not give"),
        (lambda: metric.limits(8, 1.25, "1g"), BadEntry, "Grades"),
        (lambda: acme.limits(0.25, 3), BadEntry, "no core"),
        (lambda: acme.limits(0.5, 10, "5G"), BadEntry, "2G, 3G, 4G"),
        (lambda: acme.limits(12, 10), OutOfRange, "5.5 in"),
        (lambda: acme.limits(0.5, 10, starts=0), BadEntry, "Starts"),
        (lambda: trapezoidal.limits(20, 4.5), OutOfRange, "Pitches:"),
        (lambda: trapezoidal.limits(20, 20), BadEntry, "no core"),
        (lambda: trapezoidal.limits(20, 4, "6e"), BadEntry, "7e"),
        (lambda: whitworth.limits(0.5, 12, "normal"), BadEntry, "close, medium, free"),
        (lambda: whitworth.tpi_for(0.51), OutOfRange, "BSW"),
        (lambda: ba.limits(17), OutOfRange, "0 to 16"),
    ],
)
def test_refusals_are_sentences(call, error: type[Exception], words: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(error, match=words.replace("(", "\\(")) as caught:
        call()
    assert str(caught.value).rstrip().endswith(".")


def test_working_carries_sources_with_their_status() -> None:
    statuses = {source.status for source in whitworth.limits(0.5, 12).working.sources()}
    assert Status.FROM_MEMORY in statuses
    text = unified.limits(0.625, 11, "2A").working.text()
    assert "The printed value is used" in text
    assert "ASME B1.1" in text
    by_rule = metric.limits(8, 0.5, "6g").working.text()
    assert "is not tabulated" in by_rule


def test_band_converts() -> None:
    band = Band(0.5, None, "in")
    assert band.low_mm == 12.7
    assert band.high_mm is None
    assert Band(None, 1.0, "mm").text(2) == "at most 1.00 mm"


def test_lead_angle_of_several_starts() -> None:
    one, two = acme.limits(1, 5).value, acme.limits(1, 5, starts=2).value
    ratio = math.tan(math.radians(two.lead_angle_deg)) / math.tan(math.radians(one.lead_angle_deg))
    assert ratio == pytest.approx(2)
    assert two.lead == pytest.approx(0.4)
