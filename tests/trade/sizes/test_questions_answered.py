"""Every reading a question offers is taken by the reader that asked: a button is never refused for what it says."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rebuild.errors import Ambiguous
from rebuild.trade.fits.wanted import parse_wanted
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.sizes.amounts import parse_celsius, parse_hours, parse_minutes, parse_torque
from rebuild.trade.sizes.number import read_number, read_whole
from rebuild.trade.sizes.quantity import parse_length, parse_repeats
from rebuild.trade.tapers.angles import parse_angle

Reader = Callable[[str], object]


@pytest.mark.parametrize(
    ("read", "text", "offered"),
    [
        (lambda text: read_number(text, "Load", "kg"), "1,500", ("1.500 kg", "1500 kg")),
        (lambda text: read_number(text, "Load", "kg"), "1,500 kg", ("1.500 kg", "1500 kg")),
        (read_whole, "1,000", ("1", "1000")),
        (read_whole, "1,200", ("1200",)),
        (parse_torque, "1,200 lb-in", ("1.200 lb-in", "1200 lb-in")),
        (parse_torque, "40-45 ft-lb", ("40 ft-lb", "45 ft-lb")),
        (parse_length, "1,250", ("1.250 mm", "1250 mm")),
        (parse_repeats, "1,250; 1,252 in", ("1.250; 1.252 in", "1250; 1252 in")),
        (parse_spec, "1,250 ±0.01", ("1.250 ±0.01", "1250 ±0.01")),
        (parse_spec, "1,250-1,300", ("1.250-1.300", "1250-1300")),
        (lambda text: parse_spec(text, "in"), "11/4 ±0.01", ("1-1/4 in ±0.01", "2.75 in ±0.01")),
        (lambda text: parse_spec(text, "in"), "25 H7", ("25 mm H7", "25 in H7")),
        (lambda text: parse_spec(text, "in"), "1.75-1.74", ("1.74 to 1.75",)),
        (parse_wanted, "0,020-1,250", ("0,020-1.250", "0,020-1250")),
        (lambda text: parse_wanted(text, "in"), "1 H7/g6", ("1 mm H7/g6", "1 in H7/g6")),
        (lambda text: parse_wanted(text, "in"), "25 H7/g6", ("25 mm H7/g6",)),
        (parse_minutes, "1 h 1,500", ("1 h 1.500", "1 h 1500")),
        (parse_minutes, "1.5", ("1.5 min", "1.5 h")),
        (parse_hours, "90", ("90 min", "90 h")),
        (parse_celsius, "1,500 C", ("1.500 C", "1500 C")),
        (parse_celsius, "68", ("68 C", "68 F")),
        (parse_angle, "14,500", ("14.500 °", "14500 °")),
    ],
)
def test_every_reading_offered_is_taken(read: Reader, text: str, offered: tuple[str, ...]) -> None:
    with pytest.raises(Ambiguous) as question:
        read(text)
    assert tuple(retyped for _, retyped in question.value.readings) == offered
    values = [read(retyped) for retyped in offered]
    assert len({repr(value) for value in values}) == len(offered), "two buttons that mean the same"


def test_without_its_unit_a_torque_is_not_asked_about_its_comma() -> None:
    with pytest.raises(Exception, match=r"Torque: “1,200” has no unit\. Type it as 25 N·m") as refusal:
        parse_torque("1,200")
    assert not isinstance(refusal.value, Ambiguous)


@pytest.mark.parametrize(
    ("text", "newton_metres"),
    [
        # Factors of NIST SP 811: 1 lbf·ft = 1.355818 N·m, 1 lbf·in = 0.1129848 N·m, 1 kgf·m = 9.80665 N·m.
        ("45 ft lbs", 45 * 1.355818),
        ("45 ft. lbs.", 45 * 1.355818),
        ("45 foot-pounds", 45 * 1.355818),
        ("60 inch pounds", 60 * 0.1129848),
        ("2-1/2 kgm", 2.5 * 9.80665),
        ("1/2 kgm", 0.5 * 9.80665),
    ],
)
def test_torques_as_shops_write_them(text: str, newton_metres: float) -> None:
    assert parse_torque(text).newton_metres == pytest.approx(newton_metres, rel=1e-6)


def test_a_time_reads_as_a_clock_has_it() -> None:
    assert (parse_minutes("1:30"), parse_hours("1:30"), parse_hours("90 min")) == (90.0, 1.5, 1.5)
    assert (parse_hours("16"), parse_hours("16.5 h")) == (16.0, 16.5)
    with pytest.raises(Ambiguous, match="long for one session"):
        parse_hours("16.5")


def test_an_angle_may_be_minutes_alone() -> None:
    assert (parse_angle("45'"), parse_angle("45 min"), parse_angle('36"')) == (0.75, 0.75, 0.01)
    assert parse_angle('1° 36"') == pytest.approx(1.01)
