"""Every row of the ISO 286 reference files through the rules, and the tables against the formulas."""

from __future__ import annotations

import math
import re

import pytest

from rebuild.trade.limits import iso286, iso286_tables as tables

SOURCE = "ISO 286-1/-2:2010"


def test_printed_limits(published, reference):
    # Source: limits printed in catalogues, a handbook and ISO 286-2:1988 Cor.1, whole or half µm: exact.
    for row in reference("iso286_published_limit_checks_um"):
        lower, upper = iso286.deviations_um(float(row["nominal_mm"]), row["class"])
        name = f"{row['nominal_mm']} {row['class']}"
        published.number(f"{SOURCE}: printed limits", name, lower, float(row["lower_um"]), last_digit=0.1)
        published.number(f"{SOURCE}: printed limits", name, upper, float(row["upper_um"]), last_digit=0.1)


def test_grades(published, reference):
    for row in reference("iso286_it_grades_um"):
        middle = (float(row["over_mm"]) + float(row["to_incl_mm"])) / 2
        for column, text in row.items():
            if column.startswith("IT") and text:
                for size in (middle, float(row["to_incl_mm"])):
                    got = iso286.it_grade_um(size, column[2:])
                    published.number(
                        f"{SOURCE}: grades", f"{size} {column}", got, float(text), last_digit=0.1
                    )


def test_delta(published, reference):
    # Δ is seen through the difference between P and its value without Δ.
    for row in reference("iso286_delta_um"):
        size = float(row["to_incl_mm"])
        for column in ("IT3", "IT4", "IT5", "IT6", "IT7"):
            with_delta = iso286.deviations_um(size, f"P{column[2:]}")[1]
            without = iso286.deviations_um(size, "P8")[1]
            published.number(
                f"{SOURCE}: Δ", f"{size} {column}", with_delta - without, float(row[column]), last_digit=0.1
            )
        eighth = iso286.deviations_um(size, "N8")[1] + iso286.deviations_um(size, "n8")[0]
        published.number(f"{SOURCE}: Δ", f"{size} IT8", eighth, float(row["IT8"]), last_digit=0.1)


SHAFT_GRADES = {
    "j5-6": ("5", "6"),
    "j7": ("7",),
    "j8": ("8",),
    "k4-7": ("4", "5", "6", "7"),
    "k<=3,>7": ("3", "8"),
}


def test_shaft_fundamental_deviations(published, reference):
    for row in reference("iso286_shaft_fundamental_deviations_um"):
        for column, text in row.items():
            if column in ("over_mm", "to_incl_mm", "note") or not text:
                continue
            name = f"to {row['to_incl_mm']} {column}"
            if column == "ef" and "do not use" in row["note"]:
                published.not_covered(f"{SOURCE}: shafts", name, "ef -25 conflicts with EF +28; -28 is used")
                continue
            letters = re.match(r"[a-z]+", column)[0]
            for grade in SHAFT_GRADES.get(column, ("7",)):
                lower, upper = iso286.deviations_um(float(row["to_incl_mm"]), f"{letters}{grade}")
                got = upper if letters in iso286.LETTERS[:11] else lower
                published.number(f"{SOURCE}: shafts", name, got, float(text), last_digit=0.1)


def test_hole_fundamental_deviations(published, reference):
    for row in reference("iso286_hole_fundamental_deviations_um"):
        size = float(row["to_incl_mm"])
        for column, text in row.items():
            if column in ("over_mm", "to_incl_mm", "note") or not text:
                continue
            letters, want = re.match(r"[A-Z]+", column)[0], float(text)
            if re.fullmatch(r"J[678]", column):
                got = iso286.deviations_um(size, column)[1]
            elif letters.lower() in iso286.LETTERS[:11]:
                got = iso286.deviations_um(size, f"{letters}9")[0]
            elif "<=8" in column:
                delta = 0.0 if size <= 3 else iso286.it_grade_um(size, "8") - iso286.it_grade_um(size, "7")
                got = iso286.deviations_um(size, f"{letters}8")[1] - delta
            else:
                got = iso286.deviations_um(size, f"{letters}9")[1]
            published.number(f"{SOURCE}: holes", f"to {size} {column}", got, want, last_digit=0.1)


def _formulas(low: float, top: float, step_mean: float, it: dict[str, float]) -> dict[str, float]:
    sub = math.sqrt(low * top)
    return {
        "a": -(265 + 1.3 * sub if top <= 120 else 3.5 * sub),
        "b": -(140 + 0.85 * sub if top <= 160 else 1.8 * sub),
        "d": -16 * step_mean**0.44,
        "e": -11 * step_mean**0.41,
        "f": -5.5 * step_mean**0.41,
        "g": -2.5 * step_mean**0.34,
        "k": 0.6 * step_mean ** (1 / 3),
        "m": it["7"] - it["6"],
        "n": 5 * step_mean**0.34,
        "p": it["7"] + 2.5,
        "u": it["7"] + sub,
        "x": it["7"] + 1.6 * sub,
        "z": it["7"] + 2.5 * sub,
        "za": it["8"] + 3.15 * sub,
        "zb": it["9"] + 4 * sub,
        "zc": it["10"] + 5 * sub,
    }


@pytest.mark.parametrize("step", range(7, 26))
def test_tables_follow_the_standards_formulas(step):
    # Source: ISO 286-1:1988, 1.4 and Annex A, formulas for fundamental deviations, recalled; the tables round
    # them, so 5 % or 2 µm. Over 24 mm, where rounding to preferred numbers no longer hides a slip.
    main = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
    low, top = tables.STEPS[step - 1], tables.STEPS[step]
    above = next(index for index, edge in enumerate(main) if top <= edge)
    mean = math.sqrt(main[above - 1] * main[above])
    row = tables.shafts()[step]
    for letters, want in _formulas(low, top, mean, tables.grades()[step]).items():
        assert row[letters] == pytest.approx(want, rel=0.05, abs=2.0), letters


@pytest.mark.parametrize("step", range(2, 26))
def test_grades_follow_the_tolerance_factor(step):
    # Source: ISO 286-1, i = 0.45·∛D + 0.001·D and IT5..IT18 = 7i..2500i, rounded: 6 % or 1 µm.
    main = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
    above = next(index for index, edge in enumerate(main) if tables.STEPS[step] <= edge)
    mean = math.sqrt(main[above - 1] * main[above])
    factor = 0.45 * mean ** (1 / 3) + 0.001 * mean
    multiples = (7, 10, 16, 25, 40, 64, 100, 160, 250, 400, 640, 1000, 1600, 2500)
    for grade, multiple in zip(range(5, 19), multiples, strict=True):
        assert tables.grades()[step][str(grade)] == pytest.approx(multiple * factor, rel=0.06, abs=1.0)
