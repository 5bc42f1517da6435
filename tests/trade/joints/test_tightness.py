"""When a joint is final, and usual torques."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import OutOfRange
from rebuild.trade.joints import tour as joints_tour, usual_torque as joint_torque
from rebuild.trade.sizes.amounts import LBF_FT_NM


@given(
    st.sampled_from(joints_tour.TIGHT),
    st.sampled_from(joints_tour.TIGHT),
    st.sampled_from(["", "dry", "oiled"]),
)
def test_a_joint_is_final_exactly_when_it_lacks_nothing(tight: str, wanted: str, dress: str) -> None:
    final = joints_tour.is_final(tight, wanted, dress, "oiled")
    assert final == (joints_tour.unfinished(tight, wanted, dress, "oiled") == "")
    if final and tight != "pinned":
        harder = joints_tour.TIGHT[joints_tour.TIGHT.index(tight) + 1]
        assert joints_tour.is_final(harder, wanted, dress, "oiled")


# Source: usual shop torques, common practice: 1/4-20 5-8, 5/16-18 12-17, 3/8-16 20-30, 1/2-13 50-75 lb-ft
@pytest.mark.parametrize(("thread", "low", "high"), [("1/4-20", 5, 8), ("5/16", 12, 17), ("1/2-13", 50, 75)])
def test_usual_torques(thread: str, low: float, high: float) -> None:
    found = joint_torque.joint_torque(thread)
    lbft = LBF_FT_NM
    assert (found.value.low_Nm / lbft, found.value.high_Nm / lbft) == pytest.approx((low, high))
    assert "common practice" in found.working.text()


def test_a_torque_nobody_knows_is_not_made_up() -> None:
    with pytest.raises(OutOfRange, match=r"has no usual torque here\. Give its class or grade"):
        joint_torque.joint_torque("7/16-14")
    dry, oiled = joint_torque.joint_torque("M10", "8.8"), joint_torque.joint_torque("M10", "8.8", "oiled")
    assert oiled.value.low_Nm < dry.value.low_Nm


# Seen: a metric M8 without class said nothing of what is usual, and 400 N·m on it was not called absurd.
# Source: M8 coarse, stress area 36.6 mm² (ISO 898-1:2013, table 3); proof of class 12.9 970 MPa; T = K F d with
# K 0.20 dry and F three quarters of proof: 0.20 x 0.75 x 970 x 36.6 x 0.008 = 42.6 N·m.
def test_a_metric_screw_without_class_says_what_each_class_takes() -> None:
    with pytest.raises(OutOfRange, match=r"dry: 4\.6 10 N·m .*8\.8 25 N·m .*10\.9 36 N·m .*12\.9 43 N·m"):
        joint_torque.joint_torque("M8")
    most = 0.20 * 0.75 * 970.0 * 36.6e-3 * 8.0
    assert joint_torque.torque_by_class("M8")["12.9"].high_Nm == pytest.approx(most, rel=0.005)
    assert joint_torque.beyond_any_class(400.0, "M8").startswith("is far over what any class of M8")
    assert joint_torque.beyond_any_class(1.05 * most, "M8") == ""
    assert joint_torque.beyond_any_class(1.2 * most, "M8").startswith("is over what any class")
    assert joint_torque.beyond_any_class(400.0, "a strap") == ""
