"""From readings to the follower's limits, end to end: published classes, keys, pins and threads come back."""

from __future__ import annotations

import math
from typing import Any

import pytest

from rebuild.errors import OutOfRange
from rebuild.trade.fits.follower_limits import FollowerLimits, follower_limits
from rebuild.trade.fits.joint import joined
from rebuild.trade.fits.now import evaluate
from rebuild.trade.fits.side_reading import SideReading
from rebuild.trade.fits.wanted import Wanted, parse_wanted
from rebuild.trade.limits.uncertainty import combine
from rebuild.trade.limits.verdict import Rule
from rebuild.trade.threads import acme
from rebuild.words.fits import FitJoint

IN = 25.4
EXACT = combine([]).value


def as_read(*sizes_mm: float) -> list[SideReading]:
    return [SideReading(f"place {n}", None, size, EXACT) for n, size in enumerate(sizes_mm)]


def follower(readings: list[SideReading], wanted: Wanted, *, master_is_outer: bool) -> FollowerLimits:
    low = wanted.low.mm if wanted.low else None
    high = wanted.high.mm if wanted.high else None
    return follower_limits(readings, master_is_outer, low, high).value


def test_a_mate_at_its_class_limits_gives_back_the_published_class_of_the_other(
    published: Any, reference: Any
) -> None:
    # Source: limits printed in catalogues and ISO 286-2:1988 Cor.1, exact to their 0.5 µm. The mate is read at
    # both ends of its own class (H7 from the IT grades of the same standard), so the fit's range returns the other.
    source = "ISO 286: follower of a mate read at its limits"
    for row in reference("iso286_published_limit_checks_um"):
        size, cls = float(row["nominal_mm"]), row["class"]
        hole = cls[0].isupper()
        name, mate = (
            (f"{cls}/h6", (-_it(reference, size, 6), 0.0))
            if hole
            else (f"H7/{cls}", (0.0, _it(reference, size, 7)))
        )
        try:
            wanted = parse_wanted(name, kind="push", nominal_mm=size)
        except OutOfRange as trouble:
            published.not_covered(source, f"{size:g} {name}", str(trouble)[:60])
            continue
        found = follower(as_read(*(size + end for end in mate)), wanted, master_is_outer=not hole)
        assert found.low_mm is not None
        assert found.high_mm is not None
        for end, got in (("lower_um", found.low_mm), ("upper_um", found.high_mm)):
            published.number(
                source, f"{size:g} {name} {end}", (got - size) * 1000, float(row[end]), last_digit=0.1
            )


def _it(reference: Any, size: float, grade: int) -> float:
    for row in reference("iso286_it_grades_um"):
        if float(row["over_mm"]) < size <= float(row["to_incl_mm"]):
            return float(row[f"IT{grade}"]) / 1000
    raise AssertionError(size)


def test_a_key_made_to_its_keyway_as_read_is_the_standards_key(published: Any, reference: Any) -> None:
    # Source: DIN 6885-1 P9 keyways as printed; the key is h9: 0 to -IT9. Whole µm.
    source = "DIN 6885-1: key h9 to a keyway read at its P9 limits"
    for row in reference("din6885_1_parallel_keys_mm"):
        if not row["P9_upper_um"]:
            published.not_covered(source, row["b"], "no P9 limits printed for this width")
            continue
        width = float(row["b"])
        keyway = as_read(*(width + float(row[f"P9_{end}_um"]) / 1000 for end in ("upper", "lower")))
        found = follower(keyway, parse_wanted("P9/h9", kind="push", nominal_mm=width), master_is_outer=True)
        assert found.low_mm is not None
        assert found.high_mm is not None
        published.number(source, f"{width:g} high", (found.high_mm - width) * 1000, 0.0, last_digit=0.1)
        want = -_it(reference, width, 9) * 1000
        published.number(source, f"{width:g} low", (found.low_mm - width) * 1000, want, last_digit=0.1)


def test_dowel_pins_in_their_suggested_holes_always_hold(published: Any, reference: Any) -> None:
    # Source: ASME B18.8.2 pins and suggested holes, 4 decimals of an inch.
    source = "ASME B18.8.2: pin read in hole read"
    for row in reference("dowel_pins_b18_8_2_in"):
        if not row["suggested_hole_max"]:
            published.not_covered(source, row["nominal"], "no hole suggested for this size")
            continue
        holes = as_read(*(float(row[f"suggested_hole_{end}"]) * IN for end in ("max", "min")))
        pins = [
            SideReading(f"pin {n}", None, float(row[f"std_{end}"]) * IN, EXACT)
            for n, end in enumerate(("max", "min"))
        ]
        now = evaluate(holes, pins, None, 0.0, rule=Rule.SIMPLE, unit="in")
        assert now is not None
        published.text(source, f"{row['nominal']} verdict", now.verdict.value, "conforms")
        tightest = float(row["suggested_hole_min"]) - float(row["std_max"])
        loosest = float(row["suggested_hole_max"]) - float(row["std_min"])
        for name, got, want in (("tightest", now.least, tightest), ("loosest", now.most, loosest)):
            published.number(source, f"{row['nominal']} {name}", got.value_mm / IN, want, last_digit=1e-6)


def test_a_trapezoidal_nut_to_a_screw_read_at_its_high_limit_starts_at_basic(
    published: Any, reference: Any
) -> None:
    # Source: 7e limits of one table, basic pitch diameters D2 of another; µm. The least clearance of 7H/7e is |es|.
    source = "Trapezoidal 7e screw as read: least pitch diameter of the nut"
    basic = {
        (row["d"], row["P"]): float(row["d2=D2"]) for row in reference("trapezoidal_basic_dimensions_mm")
    }
    for row in reference("trapezoidal_7e_limits_mm"):
        want = basic.get((row["d"], row["P"]))
        if want is None:
            published.not_covered(source, row["thread"], "not among the basic dimensions printed")
            continue
        wanted = parse_wanted(f"min {-float(row['es_um'])} µm", kind="thread")
        found = follower(as_read(float(row["pd_max"])), wanted, master_is_outer=False)
        assert found.low_mm is not None
        published.number(source, row["thread"], found.low_mm, want, last_digit=0.001)
        assert found.high_mm is None


def test_an_acme_nut_to_a_screw_read_at_its_high_limit_starts_at_basic(
    published: Any, reference: Any
) -> None:
    # Source: ASME B1.5 basic pitch diameters and allowances as printed, 4 decimals of an inch. The screw is read at
    # this program's 2G high limit; its allowance is the printed one.
    source = "ASME B1.5 2G screw as read: least pitch diameter of the nut"
    allowances = [row for row in reference("acme_pitch_dia_allowances_in") if row["class"] == "2G"]
    for row in reference("acme_basic_data_in"):
        major, tpi = float(row["D"]), float(row["tpi"])
        allowance = next(
            float(a["allowance_published"])
            for a in allowances
            if float(a["over_in"]) < major <= float(a["to_incl_in"])
        )
        screw = acme.limits(major, tpi, "2G").value.pitch_diameter.high
        assert screw is not None
        wanted = parse_wanted(f"min {allowance}", "in", kind="thread")
        found = follower(as_read(float(screw) * IN), wanted, master_is_outer=False)
        assert found.low_mm is not None
        published.number(
            source,
            f"{major:g}-{tpi:g}",
            found.low_mm / IN,
            float(row["D2_pub"]),
            last_digit=1e-4,
            why="allowance and pitch diameter are each rounded to 4 decimals",
        )


def test_the_worked_specimen_of_a_bush(published: Any) -> None:
    # Source: a worked specimen of the trade's notes (common practice, not a standard), 4 decimals of an inch.
    source = "Worked specimen of a bush and shaft (common practice)"
    press = parse_wanted("0.0008-0.0012 interference", "in", kind="press")
    outside = follower(as_read(0.8128 * IN), press, master_is_outer=True)
    running = parse_wanted("0.0010-0.0015", "in", kind="running")
    bore = follower(as_read(0.6247 * IN), running, master_is_outer=False)
    for name, got, want in (
        ("outside low", outside.low_mm, 0.8136),
        ("outside high", outside.high_mm, 0.8140),
        ("finished bore low", bore.low_mm, 0.6257),
        ("finished bore high", bore.high_mm, 0.6262),
    ):
        assert got is not None
        published.number(source, name, got / IN, want, last_digit=1e-4)


def test_the_worn_screw_of_the_notes(published: Any) -> None:
    # Source: lost motion 0.038 in mid-travel and 0.014 in at the outer end: 0.024 in is the screw's own wear.
    source = "Worn feed screw: what a nut cannot take up (common practice)"
    from rebuild.trade.fits.adjuster import adjusted
    from rebuild.trade.fits.now import read_directly

    read = [
        SideReading("mid-travel", None, 0.038 * IN, EXACT),
        SideReading("outer end", None, 0.014 * IN, EXACT),
    ]
    now = read_directly(read, None, 0.010 * IN, unit="in")
    assert now is not None
    published.number(source, "loss", adjusted(now, None, 0.010 * IN).remains_mm / IN, 0.024, last_digit=0.001)


@pytest.mark.parametrize(("joint", "texts", "angle"), [(FitJoint.NUT_AND_SCREW, ("7/16-10 Acme", ""), 14.5),
                                                       (FitJoint.NUT_AND_SCREW, ("", "Tr 20x4"), 15.0),
                                                       (FitJoint.NUT_AND_SCREW, ("M20x2.5", ""), 30.0)])  # fmt: skip
def test_play_along_a_screw_is_the_difference_times_the_tangent_of_its_flank(
    joint: FitJoint, texts: tuple[str, str], angle: float
) -> None:
    # Source: thread thickness at one diameter changes by the pitch diameter x tan(half the flank angle): geometry.
    way = joined(joint, texts).combining
    assert way is not None
    assert way.axial == pytest.approx(math.tan(math.radians(angle)), rel=1e-9)
