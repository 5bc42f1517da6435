"""Dividing and hole circles: printed examples, the worm counted hole by hole, and roots of unity."""

from __future__ import annotations

import cmath
from fractions import Fraction

from rebuild.trade.figures.dividing import CIRCLES, WHEELS
from rebuild.trade.shop.dividing import divide, divide_angle
from rebuild.trade.shop.hole_circle import hole_circle
from tests.published.conftest import Checker

PLATE = tuple(map(int, CIRCLES.split()))
SET = tuple(map(int, WHEELS.split()))


def test_printed_settings(published: Checker) -> None:
    # Source: a training text of an ordnance school: 6 divisions are 6 2/3 turns, 12 on an 18 or 26 on a 39 circle;
    # 42 divisions are 40 spaces of a 42 or 20 of a 21 circle. A school's sheet: 15 divisions, 2 turns and 18/27
    # or 24/36; 15° is 1 turn and 18/27 or 24/36.
    source = "Dividing, printed settings"
    for divisions, circles, wants in (
        (6, (18, 39), ("6 turns and 12 holes on the 18 circle", "6 turns and 26 holes on the 39 circle")),
        (42, (21, 42), ("20 holes on the 21 circle", "40 holes on the 42 circle")),
        (15, (27, 36), ("2 turns and 18 holes on the 27 circle", "2 turns and 24 holes on the 36 circle")),
    ):
        got = [one.text() for one in divide(divisions, circles).value.settings]
        for at, want in enumerate(wants):
            published.text(source, f"{divisions} on {circles[at]}", got[at], want)
    angle = {one.setting.text() for one in divide_angle(15.0, (27, 36)).value}
    published.text(
        source, "15°", angle, {"1 turn and 18 holes on the 27 circle", "1 turn and 24 holes on the 36 circle"}
    )
    # Source: the same text: 54 minutes on a circle of 20 are 2 holes.
    published.text(
        source, "54 minutes", divide_angle(0.9, (20,)).value[0].setting.text(), "2 holes on the 20 circle"
    )


def test_what_a_circle_can_do_is_counted_out(published: Checker) -> None:
    """Independent: N moves of the crank, counted in holes, must be exactly the worm's 40 turns."""
    for divisions in range(2, 101):
        for one in divide(divisions, PLATE, 40, SET).value.settings if _plain(divisions) else ():
            holes = one.turns * max(one.circle, 1) + one.holes
            published.text(
                "Dividing, holes counted",
                f"{divisions} on {one.circle}",
                divisions * holes,
                40 * max(one.circle, 1),
            )


def _plain(divisions: int) -> bool:
    return any((circle * 40) % divisions == 0 for circle in (*PLATE, 1))


def test_differentials_close_after_one_turn(published: Checker) -> None:
    """Independent: crank over plate plus the plate's own turning makes 40 turns of the worm in N moves."""
    for divisions in (
        51,
        53,
        57,
        61,
        63,
        67,
        69,
        71,
        73,
        79,
        81,
        83,
        87,
        89,
        91,
        93,
        97,
        99,
        103,
        107,
        109,
        111,
        113,
        121,
        127,
    ):
        found = divide(
            divisions, (15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49), 40, SET
        ).value
        one = found.settings[0]
        over_plate = one.turns + (Fraction(one.holes, one.circle) if one.circle else 0)
        train = Fraction(1)
        for a, b in zip(found.drivers, found.driven, strict=True):
            train *= Fraction(a, b)
        plate = 0 if not found.drivers else train if found.idler_with else -train
        published.text(
            "Differential, one turn of the spindle",
            f"{divisions}",
            divisions * over_plate + plate,
            Fraction(40),
        )


def test_hole_circles_are_roots_of_unity(published: Checker) -> None:
    for holes in (3, 4, 5, 6, 7, 8, 12):
        found = hole_circle(80.0, holes, 15.0, 120.0, -30.0).value
        start = cmath.rect(40.0, cmath.pi / 12)
        for at, hole in enumerate(found.holes):
            root = start * cmath.exp(2j * cmath.pi * at / holes) + complex(120.0, -30.0)
            published.number(
                "Hole circle, complex roots", f"{holes}: {at + 1} x", hole.x_mm, root.real, last_digit=1e-9
            )
            published.number(
                "Hole circle, complex roots", f"{holes}: {at + 1} y", hole.y_mm, root.imag, last_digit=1e-9
            )
        gap = abs(
            complex(found.holes[1].x_mm, found.holes[1].y_mm)
            - complex(found.holes[0].x_mm, found.holes[0].y_mm)
        )
        published.number("Hole circle, complex roots", f"{holes} chord", found.chord_mm, gap, last_digit=1e-9)
