"""Depth follows the limits: whatever the nose, the depth told leaves the pitch diameter told."""

from __future__ import annotations

from math import radians, tan

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.threads.groove import MOST_PASSES, Nose, depth_to, passes, pitch_diameter_at
from rebuild.trade.threads.into_the_bore import into_the_bore
from rebuild.trade.threads.lookup import for_designation
from rebuild.trade.threads.making import single_point
from rebuild.trade.threads.sizes import Side

INCH = 25.4


def test_half_inch_13_with_its_own_nose_is_within_the_limits() -> None:
    """Seen: the depth of the flat with the radius of the root ended 0.0055 in under, tolerance 0.0050.

    Published limits of 1/2-13 UNC-2A (ASME B1.1): pitch diameter 0.4435 to 0.4485, major 0.4876 to 0.4985. By hand,
    from the greatest major: flat P/8 = 0.0096 lies (P/2 - P/8)/(2 tan 30°) = 0.0250 below the pitch line, so
    0.0250 + 0.0250 = 0.0500; nose 0.0111 lies 0.0666 - 0.0111 x 1 - ... = 0.0222 below it, so 0.0472.
    """
    found = single_point("1/2-13 UNC-2A").value
    assert found.depth_mm / INCH == pytest.approx(0.0500, abs=0.00006)
    assert found.depth_rounded_mm / INCH == pytest.approx(0.0472, abs=0.00006)
    for depth, nose in (
        (found.depth_mm, found.nose),
        (found.depth_rounded_mm, Nose(radius_mm=found.tool_radius_mm)),
        (found.depth_most_mm, found.nose),
    ):
        left = pitch_diameter_at(found.from_mm, depth, nose, INCH / 13, 60, external=True) / INCH
        assert 0.4435 - 0.00006 <= left <= 0.4485 + 0.00006
    wrong = pitch_diameter_at(
        found.from_mm, found.depth_mm, Nose(radius_mm=found.tool_radius_mm), INCH / 13, 60, external=True
    )
    assert 0.4485 - wrong / INCH == pytest.approx(0.0055, abs=0.0001)  # what was seen


@settings(max_examples=30)
@given(
    st.sampled_from(["1-8 ACME", "7/16-10 ACME", "Tr 20x4", "M10x1.5", "1/2-13 UNC", "1/2 BSW", "2 BA"]),
    st.sampled_from(list(Side)),
    st.floats(0.0, 1.0),
    st.floats(0.02, 0.3),
    st.booleans(),
)
def test_the_depth_told_leaves_the_pitch_diameter_told(
    text: str, side: Side, share: float, nose: float, rounded: bool
) -> None:
    limits = for_designation(text, side).value
    low, high = limits.pitch_diameter.low_mm, limits.pitch_diameter.high_mm
    crest = limits.major if side is Side.EXTERNAL else limits.minor
    assert None not in (low, high)
    assert crest.low_mm is not None
    assert crest.high_mm is not None
    start = crest.low_mm + share * (crest.high_mm - crest.low_mm)
    ground = Nose(radius_mm=nose * limits.pitch_mm / 3) if rounded else Nose(flat_mm=nose * limits.pitch_mm)
    found = single_point(text, side, start_mm=start, nose=ground).value
    external = side is Side.EXTERNAL
    for depth, wanted in ((found.depth_mm, found.first_mm), (found.depth_most_mm, found.last_mm)):
        left = pitch_diameter_at(
            start, depth, ground, limits.pitch_mm, found.tool_angle_deg, external=external
        )
        assert left == pytest.approx(wanted, abs=1e-9)
    assert found.depth_mm <= found.depth_most_mm


def test_a_nut_for_a_worn_screw_is_cut_to_its_own_pitch_diameter() -> None:
    """Derived limits 0.9277 to 0.9302, bored 0.8780, flat 0.0400: by hand (0.9277 - 0.8780)/2 = 0.02485, and
    (0.0625 - 0.0400)/(2 tan 14.5°) = 0.0225/0.51724 = 0.04350; together 0.06835 in."""
    found = single_point(
        "1-8 ACME",
        "internal",
        pitch_mm=(0.9277 * INCH, 0.9302 * INCH),
        start_mm=0.8780 * INCH,
        nose=Nose(flat_mm=0.0400 * INCH),
    ).value
    assert found.depth_mm / INCH == pytest.approx(0.06835, abs=0.00006)
    assert found.depth_most_mm / INCH == pytest.approx(0.06835 + 0.00125, abs=0.00006)
    assert found.infeed_mm == pytest.approx(found.depth_mm / 0.96815, rel=1e-4)  # cos 14.5°


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match="too wide for a pitch"):
        depth_to(10.0, 9.0, Nose(flat_mm=0.8), 1.5, 60, external=True)
    with pytest.raises(BadEntry, match="does not leave room"):
        single_point("M10x1.5", "external", start_mm=8.9)
    with pytest.raises(BadEntry, match="runs backwards"):
        single_point("M10x1.5", "external", pitch_mm=(9.0, 8.9))
    assert depth_to(12.0, 9.0, Nose(), 1.5, 60, external=True) > 1.5
    with pytest.raises(OutOfRange, match=r"no thread stands so high\. Turn it"):
        depth_to(12.001, 9.0, Nose(), 1.5, 60, external=True)
    with pytest.raises(OutOfRange, match=r"no thread stands so high\. Bore it"):
        depth_to(5.999, 9.0, Nose(), 1.5, 60, external=False)
    assert len(passes(2.0, 0.01).depths_mm) == MOST_PASSES
    with pytest.raises(OutOfRange, match="takes 40,401 passes"):  # 2.01 / 0.01 = 201, squared
        passes(2.01, 0.01)


def test_passes_take_equal_areas_and_stop_before_the_end() -> None:
    found = passes(1.5, 0.25)
    areas = [b * b - a * a for a, b in zip((0.0, *found.depths_mm), found.depths_mm, strict=False)]
    assert max(areas) - min(areas) < 1e-9
    assert found.depths_mm[0] <= 0.25 + 1e-9
    assert found.depths_mm[-1] == pytest.approx(1.5)
    assert found.stop_mm == pytest.approx(1.45)


def test_the_tool_must_go_through_the_bore() -> None:
    """Bore 10, 1 deep: bar 10 - 1 - 1 = 8. Heel 4 below a root of radius 6: 6 - sqrt(36 - 16) = 1.528; atan = 20.9°."""
    found = into_the_bore(10.0, 1.0, 20.0, 2.0, 3.6).value
    assert found.bar_mm == pytest.approx(8.0)
    assert found.end_clearance_deg == pytest.approx(20.9, abs=0.05)
    assert tan(radians(found.end_clearance_deg)) * 4 == pytest.approx(6 - 20**0.5)
    with pytest.raises(OutOfRange, match="no room for a boring bar"):
        into_the_bore(2.0, 0.5, 10.0, 0.5, 3.0)
