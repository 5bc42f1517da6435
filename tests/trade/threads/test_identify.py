"""Identification: every standard thread finds itself, new or worn, screw or nut; twins are told; it is quick."""

from __future__ import annotations

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import BadEntry
from rebuild.trade.threads.identify import identify
from rebuild.trade.threads.lookup import for_designation
from rebuild.trade.threads.series import INCLUDED_ANGLE, System, standards

PLAIN = [
    row for row in standards() if row.series in ("UNC", "UNF", "M coarse", "BSW", "BSF", "BA", "Tr", "ACME")
]


def _finds(row, diameter: float, pitch: float, **how: object) -> bool:  # type: ignore[no-untyped-def]
    found = identify(diameter, pitch, included_deg=INCLUDED_ANGLE[row.system], **how).value.candidates  # type: ignore[arg-type]
    top = [item for item in found if item.score < 1]
    return any(
        item.system is row.system and item.nominal_mm == row.major_mm and item.pitch_mm == row.pitch_mm
        for item in top
    )


@given(st.sampled_from(PLAIN), st.floats(0, 1))
@settings(max_examples=200)
def test_a_thread_within_its_limits_is_found(row, place: float) -> None:  # type: ignore[no-untyped-def]
    band = for_designation(row.name).value.major
    assert band.low_mm is not None
    assert band.high_mm is not None
    assert _finds(row, band.low_mm + place * (band.high_mm - band.low_mm), row.pitch_mm)


@given(st.sampled_from([row for row in PLAIN if row.major_mm > 3]), st.floats(0, 0.1))
@settings(max_examples=100)
def test_a_worn_thread_is_still_found(row, wear: float) -> None:  # type: ignore[no-untyped-def]
    band = for_designation(row.name).value.major
    assert band.low_mm is not None
    assert _finds(row, band.low_mm - wear * row.pitch_mm, row.pitch_mm * 1.001, worn=True)


@given(st.sampled_from(PLAIN), st.floats(0, 1))
@settings(max_examples=100)
def test_a_nut_is_found_by_its_bore(row, place: float) -> None:  # type: ignore[no-untyped-def]
    side = "internal" if not (row.series == "M coarse" and row.pitch_mm < 0.3) else None
    if side is None:
        return
    band = for_designation(row.name, side).value.minor
    assert band.low_mm is not None
    assert band.high_mm is not None
    assert _finds(row, band.low_mm + place * (band.high_mm - band.low_mm), row.pitch_mm, internal=True)


@given(st.floats(1.5, 100), st.floats(0.02, 0.3))
def test_candidates_are_ranked_and_say_how_far_off(d: float, share: float) -> None:
    found = identify(d, share * d).value.candidates
    assert [item.score for item in found] == sorted(item.score for item in found)
    for item in found:
        assert item.pitch_off_mm == pytest.approx(share * d - item.pitch_mm)
        assert item.pitch_off_percent == pytest.approx(100 * item.pitch_off_mm / item.pitch_mm)


def test_half_inch_whitworth_against_unified() -> None:
    """1/2 BSW has 12 threads per inch, 1/2 UNC 13: near twins, and the answer says so."""
    british = identify(0.497 * 25.4, 25.4 / 12).value
    assert british.candidates[0].designation == "1/2-12 BSW"
    assert any(line.startswith("1/2-13 UNC is a near twin") for line in british.twins)
    unified = identify(0.497 * 25.4, 25.4 / 13).value
    assert unified.candidates[0].designation == "1/2-13 UNC"
    assert any(line.startswith("1/2-12 BSW is a near twin") for line in unified.twins)


def test_same_pitch_twins_differ_in_their_flanks() -> None:
    found = identify(6.3, 1.27).value
    assert found.candidates[0].designation == "1/4-20 UNC"
    assert any("1/4-20 BSW" in line and "55° against 60°" in line for line in found.twins)
    seen = identify(6.3, 1.27, included_deg=55).value
    assert seen.candidates[0].designation == "1/4-20 BSW"
    ba = identify(5.95, 1.0).value
    assert any("0 BA" in line for line in ba.twins)


def test_a_pair_no_series_has_is_named_as_special() -> None:
    found = identify(17.3, 25.4 / 11.3).value
    assert "special" in found.candidates[0].designation
    assert found.candidates[0].source.name == "Thread identification"


def test_feed_screw_of_an_odd_pair() -> None:
    found = identify(0.430 * 25.4, 2.54, included_deg=29).value
    assert found.candidates[0].system is System.ACME
    assert found.candidates[0].designation == "7/16-10 ACME"


def test_a_rough_pitch_widens_the_search() -> None:
    sharp = identify(12.6, 2.05).value.candidates
    rough = identify(12.6, 2.05, pitch_error_mm=0.1).value.candidates
    names = [item.designation for item in rough if item.score < 1]
    assert {"1/2-12 BSW", "1/2-13 UNC"} <= set(names)
    assert "1/2-12 BSW" not in [item.designation for item in sharp if item.score < 1]


@pytest.mark.parametrize(("d", "P"), [(0, 1), (10, 0), (-3, 1), (2, 3)])
def test_refusals(d: float, P: float) -> None:
    with pytest.raises(BadEntry, match=r"zero|larger than"):
        identify(d, P)
