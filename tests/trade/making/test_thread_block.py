"""The thread of a nut cut to a worn screw: everything follows its limits, and no tap is offered that cuts over."""

from __future__ import annotations

import re

import pytest

from rebuild.trade.making.thread_block import ThreadAsCut, root_as_cut, thread_block
from rebuild.trade.threads.groove import Nose

INCH = 25.4
#: A nut to a worn 5/8-8 Acme screw; the standard's own pitch diameter begins at 0.5625.
WORN = ThreadAsCut(
    pitch_mm=(0.5549 * INCH, 0.5579 * INCH), suits="to suit SC-1", wanted="0.0020 to 0.0050 in clear"
)


def lines(thread: str, cut: ThreadAsCut, unit: str = "in", shape: str = "nut") -> dict[str, str]:
    return dict(thread_block(thread, shape, unit, cut).lines)


def test_the_root_and_the_run_out_groove_follow_the_limits_asked() -> None:
    """Seen: the root row stayed 0.6450 to 0.6650, the standard's, though the nut is cut to a worn screw.

    By hand: the nose that ends at 0.6450 on the standard's least pitch diameter 0.5625 (ASME B1.5: major D + 0.020)
    reaches 0.0825 over it on the diameter; 0.5549 + 0.0825 = 0.6374 and 0.5579 + 0.0825 = 0.6404.
    """
    plain, worn = lines("5/8-8 ACME", ThreadAsCut()), lines("5/8-8 ACME", WORN)
    assert plain["root (major diameter)"].startswith("0.6450 in")
    assert worn["root (major diameter)"].startswith("0.6374 in")
    assert " to 0.6404 in" in worn["root (major diameter)"]
    assert worn["root over the screw's crests"].startswith("0.0124 in")  # 0.6374 - 0.6250
    long = lines("5/8-8 ACME", ThreadAsCut(pitch_mm=WORN.pitch_mm, length_mm=1.0 * INCH))
    # The groove clears the deepest root, 0.6404, by 0.2 mm (0.0079 in).
    assert long["run-out groove, if blind"].split(" to ")[1].startswith("0.6483 in")
    found = root_as_cut("5/8-8 ACME", "nut", WORN)
    assert found is not None
    assert [round(end / INCH, 4) for end in found] == [0.6374, 0.6404]


def test_never_deeper_is_rounded_down() -> None:
    """7/16-10 LH Acme, bore 0.3375, to 0.3932: (0.3932 - 0.3375)/2 + 0.0350 = 0.06285: never 0.0629."""
    told = lines("7/16-10 LH ACME", ThreadAsCut(pitch_mm=(0.3903 * INCH, 0.3932 * INCH)))
    assert told["depth of cut"].startswith("0.0614 in")  # 0.0528 / 2 + 0.0350
    assert "never deeper than 0.0628 in" in told["that depth is"]


def test_a_root_that_would_rub_on_the_screws_crests_is_said() -> None:
    """1/2-13 cut 0.004 under: its P/8 flat ends at E + 0.6495 P = 0.4460 + 0.0500 = 0.4960, inside the screw's 0.5000.

    The flat that just clears: P/2 - tan 30 (0.5000 - 0.4460) = 0.03846 - 0.03118 = 0.0073 in.
    """
    told = lines("1/2-13 UNC", ThreadAsCut(pitch_mm=(0.4460 * INCH, 0.4480 * INCH)))[
        "root over the screw's crests"
    ]
    assert told.startswith("none: the root would rub")
    assert "no wider than 0.0073 in" in told


def test_the_core_of_a_screw_follows_too() -> None:
    cut = ThreadAsCut(pitch_mm=(0.5500 * INCH, 0.5520 * INCH), nose=Nose(flat_mm=0.0440 * INCH))
    # y = (0.0625 - 0.0440)/(2 tan 14.5°) = 0.0185/0.51724 = 0.03577; 0.5500 - 0.07153 = 0.47847, rounded inwards.
    told = lines("5/8-8 ACME", cut, shape="screw")
    assert told["core (minor diameter)"].startswith("0.4785 in")
    assert " to 0.4804 in" in told["core (minor diameter)"]


def test_a_tap_is_offered_only_where_it_cuts_no_larger() -> None:
    """Seen: `or a tap` for a nut whose limits lie below the standard's. ASME B1.5: 5/8-8 2G begins at 0.5625."""
    told = lines("5/8-8 ACME", WORN)["tap"]
    assert told.startswith("none: a standard tap cuts a pitch diameter of 0.5625 in")
    assert "at most 0.5579 in" in told
    assert lines("5/8-8 ACME", ThreadAsCut())["tap"].startswith("a standard one may finish it, 0.002 in")
    part = ThreadAsCut(pitch_mm=(0.5600 * INCH, 0.5740 * INCH))
    assert "measure what it cuts in scrap first" in lines("5/8-8 ACME", part)["tap"]
    vee = lines("1/2-13 UNC", ThreadAsCut(pitch_mm=(0.4460 * INCH, 0.4480 * INCH)))
    assert "tap drill" not in vee
    assert "tap drill" in lines("1/2-13 UNC", ThreadAsCut())


def test_the_check_says_the_clearance_wanted_and_nothing_against_it() -> None:
    told = lines("5/8-8 ACME", WORN)
    assert "without shake" not in " ".join(told.values())
    assert "with the 0.0020 to 0.0050 in clear wanted between them" in told["check"]
    assert "whole length" in lines("5/8-8 ACME", ThreadAsCut())["check"]


def test_between_balls_says_its_rule_and_is_rounded_inwards() -> None:
    told = lines("5/8-8 ACME", WORN)["between two balls"]
    assert told.endswith("with the lead angle")


def test_the_angles_are_those_of_this_nut_and_the_bore_governs() -> None:
    """9/16-6 Acme left hand, seen: the angle stayed as the standard's from one pitch diameter to another.

    By hand, lead 0.16667: atan(0.16667 / (pi 0.4770)) = 6.35°; root 0.4770 + 2 x 0.0527 = 0.5824 gives 5.20°;
    bore 0.3958 gives 7.63°; the leading flank is cleared by 3° more.
    """
    cut = ThreadAsCut(pitch_mm=(0.4770 * INCH, 0.4799 * INCH), length_mm=1.25 * INCH)
    told = lines("9/16-6 LH ACME", cut)
    assert told["lead angle"].startswith("6.35° at the pitch diameter, at the root 5.2")
    assert "at the bore 7.63°, which governs" in told["lead angle"]
    assert "leading flank 11°" in told["tool through the bore"]
    assert (
        "long for a steel bar (steel about 4, carbide 6 to 8: common practice"
        in told["tool through the bore"]
    )
    assert "from headstock to tailstock" in told["left hand"]
    assert "tailstock-side flank leads" in told["left hand"]
    assert "left hand" not in lines("9/16-6 ACME", cut)
    # 0.3958 - 0.0394 = 0.3564: 23/64 in is 0.3594 and over it, letter T is 0.3580 and over it, S is 0.3480.
    assert told["drill before boring"].startswith("letter S,")


def test_a_tap_most_of_whose_band_is_outside_is_not_offered() -> None:
    """Seen: limits 0.4770 to 0.4799 and a tap that cuts 0.4792 and up: 0.0007 of its band lies inside."""
    told = lines("9/16-6 ACME", ThreadAsCut(pitch_mm=(0.4770 * INCH, 0.4799 * INCH)))["tap"]
    assert told.startswith("not with a standard tap")
    assert "only 0.0007 in" in told
    wide = ThreadAsCut(pitch_mm=(0.4780 * INCH, 0.5000 * INCH))
    assert lines("9/16-6 ACME", wide)["tap"].startswith("a standard one may finish it")


def test_the_balls_there_are_give_their_own_gap() -> None:
    """Balls of 3/32 in for 9/16-6 Acme: gap = E + ... by the same geometry as the best ones; smaller ball, larger gap.

    Between the two the flanks say by how much: the gap of a ball d is E + P/2 / tan a - d (1 / sin a + 1), so it
    falls by (1/sin 14.5 + 1) = 4.994 for each unit of d while both touch the flanks, and by some 2 % more as
    the lead angle of 6° turns the contact round the ball.
    """
    ends = (0.4770 * INCH, 0.4799 * INCH)
    best = lines("9/16-6 ACME", ThreadAsCut(pitch_mm=ends))["between two balls"]
    mine = lines("9/16-6 ACME", ThreadAsCut(pitch_mm=ends, ball_mm=3 / 32 * INCH))
    assert mine["between two balls"].startswith("or short pins of 0.09375 in")
    assert mine["best ball"].split()[0] in best
    gaps = [float(re.search(r": ([\d.]+) in", text)[1]) for text in (best, mine["between two balls"])]  # type: ignore[index]
    size = float(mine["best ball"].split()[0])
    assert gaps[1] - gaps[0] == pytest.approx((3 / 32 - size) * -4.994, rel=0.03)
    refused = lines("9/16-6 ACME", ThreadAsCut(pitch_mm=ends, ball_mm=5 / 64 * INCH))
    assert refused["between two balls"].startswith("not with 0.07812 in")
    assert "plug to prove it" in refused
