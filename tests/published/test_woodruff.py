"""Woodruff keys by the rule behind B17.2's table, and by the length DIN 6888 prints."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rebuild.trade.joints.woodruff import woodruff, woodruff_keys, woodruff_seat
from rebuild.trade.joints.woodruff_identify import identify_woodruff
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]
IN = 25.4
RULE = "Woodruff seats, by rule"


def _number(width: float, diameter: float) -> str:
    return f"{round(width * 32)}{round(diameter * 8):02d}"


def test_inch_keys_as_a_textbook_prints_them(reference: Rows) -> None:
    """Typed from the same page as ours, so it is not counted; what proves the rows is the rule below."""
    for row in reference("woodruff_textbook_in"):
        w, d = float(row["width"]), float(row["diameter"])
        key = woodruff(_number(w, d))
        assert key.width_mm / IN == pytest.approx(w)
        assert key.height_mm / IN == pytest.approx(float(row["height"]))
        assert key.shaft_depth_mm / IN == pytest.approx(float(row["shaft_depth"]))
        assert key.hub_depth_mm / IN == pytest.approx(float(row["hub_depth"]))


def test_inch_seats_follow_the_rule_of_the_standard(published: Checker, reference: Rows) -> None:
    """Height D/2 - e; shaft depth (D/2 - e) - W/2 - 0.005 in; hub depth W/2 + 0.006 in: another way to each number."""
    for row in reference("woodruff_textbook_in"):
        w, d, e = (float(row[name]) for name in ("width", "diameter", "offset"))
        key = woodruff(_number(w, d))
        high = d / 2 - e
        why = "the table's heights are rounded up to thousandths, the seats' to 0.0005"
        published.number(RULE, f"{key.name} height", key.height_mm / IN, high, last_digit=2e-3, why=why)
        published.number(
            RULE, f"{key.name} shaft", key.shaft_depth_mm / IN, high - w / 2 - 0.005, last_digit=1e-3, why=why
        )
        published.number(
            RULE, f"{key.name} hub", key.hub_depth_mm / IN, w / 2 + 0.006, last_digit=2e-4, why=why
        )


def test_keys_of_a_second_textbook(published: Checker) -> None:
    """Rows the first textbook has not are by rule in our table; a second one prints one of them."""
    # Source: a machine elements textbook, table 11-3 (ASME B17.2-1967), public preview: height least, depths [in].
    for number, height, shaft, hub in (
        ("202", 0.104, 0.0728, 0.0372),
        ("204", 0.200, 0.1668, 0.0372),
        ("406", 0.310, 0.2455, 0.0685),
        ("608", 0.435, 0.3393, 0.0997),
        ("810", 0.544, 0.4170, 0.1310),
        ("1210", 0.544, 0.3545, 0.1935),
    ):
        key = woodruff(number)
        source = "ASME B17.2, a second textbook"
        published.number(
            source, f"{number} height", key.height_mm / IN, height, last_digit=5e-3, why="it prints the least"
        )
        published.number(source, f"{number} shaft", key.shaft_depth_mm / IN, shaft, last_digit=1e-4)
        published.number(source, f"{number} hub", key.hub_depth_mm / IN, hub, last_digit=1e-4)


def test_metric_keys_by_the_length_din_6888_prints(published: Checker, reference: Rows) -> None:
    """Height and circle give the length the standard prints beside them; the depths are typed from the same scan."""
    for row in reference("woodruff_din6888_mm"):
        key = woodruff(f"{row['width']} x {row['height']}")
        assert (key.shaft_depth_mm, key.hub_depth_mm) == (float(row["t1"]), float(row["t2"]))
        published.number(
            "DIN 6888:1956, length", key.name, key.length_mm, float(row["length"]), last_digit=0.01
        )
        seat = woodruff_seat(key, 4 * key.diameter_mm).value
        both = seat.across_bore_mm - seat.across_shaft_mm
        published.number(RULE, f"{key.name} room over the key", both - key.height_mm, 0.2, last_digit=0.2)


def test_every_key_is_known_again_by_its_own_sizes() -> None:
    for key in woodruff_keys():
        assert identify_woodruff(key.width_mm, key.diameter_mm, key.height_mm).value[0].key.name == key.name
