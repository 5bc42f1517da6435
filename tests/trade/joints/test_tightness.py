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
