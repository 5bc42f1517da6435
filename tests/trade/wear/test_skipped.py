"""What leaving a part costs: the geometry of its joints, said as a sentence with its working.

Source: the arithmetic of clearances. Lost motion of a 29 degree thread: pitch-diameter clearance x tan 14.5 degrees
(ASME B1.5 geometry, from memory), worked by hand: 0.40 x 0.2586 = 0.103.
"""

from __future__ import annotations

import math

import pytest

from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.wear.skipped import Beyond, Costs, LooseFit, if_skipped
from rebuild.words.fits import FitJoint, FitKind

OUT = Verdict.DOES_NOT


def fit(joint: FitJoint, kind: FitKind, most: float, least: float, axial: float | None = None) -> LooseFit:
    return LooseFit("it", joint, kind, "mm", OUT, most, least, 0.01, 0.03, axial)


@pytest.mark.parametrize(
    ("given", "costs", "words"),
    [
        (fit(FitJoint.HOLE_AND_SHAFT, FitKind.RUNNING, 0.05, 0.02), Costs.ACCURACY, "can move 0.050 mm, 0.020 mm more"),
        (fit(FitJoint.SLIDE_AND_WAY, FitKind.SLIDING, 0.05, 0.02), Costs.ACCURACY, "it can rock or shift 0.050 mm"),
        (fit(FitJoint.NUT_AND_SCREW, FitKind.THREAD, 0.40, 0.02, math.tan(math.radians(14.5))), Costs.ACCURACY,
         "it turns 0.103 mm of lost motion"),
        (fit(FitJoint.GEAR_MESH, FitKind.MESH, 0.05, 0.02), Costs.ACCURACY, "0.050 mm of backlash"),
        (fit(FitJoint.HOLE_AND_SHAFT, FitKind.PRESS, 0.05, 0.02), Costs.RISK, "holds 0.020 mm less than wanted"),
        (fit(FitJoint.HOLE_AND_SHAFT, FitKind.RUNNING, 0.02, 0.002), Costs.RISK, "0.008 mm tighter than wanted"),
    ],
)  # fmt: skip
def test_a_joint_costs_what_its_geometry_says(given: LooseFit, costs: Costs, words: str) -> None:
    found = if_skipped("bush", [given], [])
    ((said, line),) = found.value.lines
    assert said is costs
    assert words in line
    assert "geometry of the joint" in found.working.text()


def test_at_its_limit_it_costs_nothing() -> None:
    assert not if_skipped("bush", [fit(FitJoint.HOLE_AND_SHAFT, FitKind.RUNNING, 0.03, 0.01)], []).value.lines


def test_risk_comes_first_and_a_way_tells_what_it_turns() -> None:
    way = Beyond(Costs.ACCURACY, "front way", "mm", 0.05, 0.02, 0.012)
    found = if_skipped("bed", [], [way], ["it may hold lead, and stays in the machine"]).value
    assert [costs for costs, _ in found.lines] == [Costs.RISK, Costs.ACCURACY]
    assert "front way reads 0.050 mm, limit 0.020 mm, which turns 0.012 mm larger there" in found.sentence
