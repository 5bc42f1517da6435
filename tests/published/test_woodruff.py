"""Woodruff keys against a textbook's table of B17.2, the rule behind it, and DIN 6888 with the length it prints."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.trade.joints.woodruff import identify_woodruff, woodruff, woodruff_keys, woodruff_seat
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]
IN = 25.4
RULE = "Woodruff seats, by rule"


def _number(width: float, diameter: float) -> str:
    return f"{round(width * 32)}{round(diameter * 8):02d}"


def test_inch_keys_as_a_textbook_prints_them(published: Checker, reference: Rows) -> None:
    source = "ASME B17.2, a textbook's table 7-7"
    for row in reference("woodruff_textbook_in"):
        w, d = float(row["width"]), float(row["diameter"])
        key = woodruff(_number(w, d))
        for label, got in (
            ("height", key.height_mm),
            ("shaft_depth", key.shaft_depth_mm),
            ("hub_depth", key.hub_depth_mm),
        ):
            published.number(source, f"{key.name} {label}", got / IN, float(row[label]), last_digit=1e-4)
        published.text(source, f"{key.name} width", round(key.width_mm / IN, 6), round(w, 6))


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


def test_metric_keys_as_din_6888_prints_them(published: Checker, reference: Rows) -> None:
    source = "DIN 6888:1956, public scan"
    for row in reference("woodruff_din6888_mm"):
        key = woodruff(f"{row['width']} x {row['height']}")
        for label, got in (
            ("diameter", key.diameter_mm),
            ("t1", key.shaft_depth_mm),
            ("t2", key.hub_depth_mm),
            ("length", key.length_mm),
        ):
            published.number(source, f"{key.name} {label}", got, float(row[label]), last_digit=0.01)
        seat = woodruff_seat(key, 4 * key.diameter_mm).value
        both = seat.across_bore_mm - seat.across_shaft_mm
        published.number(RULE, f"{key.name} room over the key", both - key.height_mm, 0.2, last_digit=0.2)


def test_every_key_is_known_again_by_its_own_sizes(published: Checker) -> None:
    for key in woodruff_keys():
        found = identify_woodruff(key.width_mm, key.diameter_mm, key.height_mm).value[0]
        published.text("Woodruff keys read back", key.name, found.name, key.name)
