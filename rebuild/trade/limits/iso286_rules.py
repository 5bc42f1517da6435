"""The rules of ISO 286-1:2010 that turn a step of size, letters and a grade into two deviations [µm]."""

from __future__ import annotations

from functools import lru_cache

from rebuild.errors import OutOfRange
from rebuild.trade.limits import iso286_tables as tables
from rebuild.trade.limits.iso286_classes import LETTERS

ABOVE_LINE = frozenset(LETTERS[: LETTERS.index("h") + 1])


def standard_tolerance(step: int, grade: str) -> float:
    """ITn of one step [µm]; IT01 and IT0 end at 500 mm.

    >>> standard_tolerance(tables.step_of(25), "7"), standard_tolerance(tables.step_of(100), "6")
    (21.0, 22.0)
    """
    row = tables.grades()[step]
    if grade not in row:
        known = f"IT{grade}" in ("IT01", "IT0")
        raise OutOfRange(
            "is given to 500 mm only (ISO 286-1:2010, Table 1)." if known else "is no standard tolerance.",
            where="Grade",
            value=f"IT{grade}",
            way_out="Use IT01, IT0 or IT1 to IT18.",
        )
    return row[grade]


@lru_cache(maxsize=65536)
def deviations(step: int, letters: str, grade: str) -> tuple[float, float]:
    """Lower and upper deviation [µm] of a class in one step of size.

    >>> deviations(tables.step_of(25), "H", "7"), deviations(tables.step_of(50), "p", "6")
    ((0.0, 21.0), (26.0, 42.0))
    """
    it = standard_tolerance(step, grade)
    small = letters.lower()
    _refuse_small(step, letters, grade)
    if small == "js":
        return -it / 2.0, it / 2.0
    if letters.islower():
        base = shaft_base(step, letters, grade)
        return (base - it, base) if small in ABOVE_LINE else (base, base + it)
    if small in ABOVE_LINE:
        lower = 0.0 - shaft_base(step, small, grade)
        return lower, lower + it
    upper = hole_upper(step, letters, grade)
    return upper - it, upper


def shaft_base(step: int, letters: str, grade: str) -> float:
    """es of a to h, ei of j to zc [µm].

    >>> shaft_base(tables.step_of(25), "g", "6"), shaft_base(tables.step_of(25), "k", "6")
    (-7.0, 2.0)
    """
    if letters == "h":
        return 0.0
    row = tables.shafts()[step] if tables.STEPS[step] <= tables.LARGEST_WITH_LETTERS_MM else {}
    if letters == "k" and row and (step < 2 or grade not in ("4", "5", "6", "7")):
        return 0.0
    name = {"j5": "j6"}.get(f"j{grade}", f"j{grade}") if letters == "j" else letters
    if name not in row:
        raise _not_given(step, letters, grade)
    return row[name]


def hole_upper(step: int, letters: str, grade: str) -> float:
    """ES of the holes J to ZC [µm], by the rules of ISO 286-1.

    >>> hole_upper(tables.step_of(25), "K", "7"), hole_upper(tables.step_of(25), "P", "7")
    (6.0, -14.0)
    """
    if letters == "J":
        row = tables.holes_j()[step] if tables.STEPS[step] <= tables.LARGEST_WITH_LETTERS_MM else {}
        if f"J{grade}" not in row:
            raise _not_given(step, letters, grade)
        return row[f"J{grade}"]
    over_3, fine = step > 1, tables.GRADES.index(grade) <= tables.GRADES.index("8")
    if letters == "K" and not fine and over_3:
        raise _not_given(step, letters, grade)
    if letters == "N" and not fine and over_3:
        return 0.0
    base = 0.0 - shaft_base(step, letters.lower(), "7" if letters == "K" else grade)
    if is_m6_exception(step, letters, grade):
        return -9.0
    return base + delta_um(step, letters, grade)


def is_m6_exception(step: int, letters: str, grade: str) -> bool:
    """M6 over 250 to 315 mm, where the standard sets ES by hand.

    >>> is_m6_exception(tables.step_of(300), "M", "6"), is_m6_exception(tables.step_of(200), "M", "6")
    (True, False)
    """
    return letters == "M" and grade == "6" and tables.STEPS[step] in (280, 315)


def delta_um(step: int, letters: str, grade: str) -> float:
    """Δ = ITn - IT(n-1) [µm]: K, M, N to grade 8 and P to ZC to grade 7, above 3 mm; else 0.

    >>> delta_um(tables.step_of(25), "K", "7"), delta_um(tables.step_of(25), "P", "8")
    (8.0, 0.0)
    """
    number = tables.GRADES.index(grade) - 1
    last = 8 if letters in ("K", "M", "N") else 7
    if step <= 1 or number > last:
        return 0.0
    if number < 3:
        raise OutOfRange(
            "has no Δ: ISO 286-1:2010 gives Δ for grades 3 to 8 above 3 mm.",
            where="Class",
            value=f"{letters}{grade}",
            way_out=f"Use {letters}3 or coarser.",
        )
    row = tables.grades()[step]
    return row[grade] - row[str(number - 1)]


def _refuse_small(step: int, letters: str, grade: str) -> None:
    """Classes the standard does not use up to and including 1 mm."""
    if step > 0:
        return
    number = tables.GRADES.index(grade) - 1
    if letters.lower() in ("a", "b") or number >= 14 or (letters == "N" and number > 8):
        raise OutOfRange(
            "is not used for nominal sizes up to 1 mm (ISO 286-1:2010, notes to Tables 1 to 5).",
            where="Class",
            value=f"{letters}{grade}",
            way_out="Use c to h, or a grade of 13 or finer.",
        )


def _not_given(step: int, letters: str, grade: str) -> OutOfRange:
    """The refusal, with the range the letters do have."""
    if tables.STEPS[step] > tables.LARGEST_WITH_LETTERS_MM:
        text = "is held to 500 mm here (ISO 286-1:2010, Tables 2 to 5); above, only h, H, js and JS."
        return OutOfRange(text, where="Class", value=f"{letters}{grade}", way_out="Work it from a drawing.")
    if letters in ("j", "J"):
        given = "grades 6 to 8" if letters == "J" else "grades 5 to 7, and 8 to 3 mm"
        text, way = f"is not given: {letters} has {given}.", f"Use {letters.lower().replace('j', 'js')}."
        way = f"Use {'JS' if letters == 'J' else 'js'}{grade}."
        return OutOfRange(f"{text} (ISO 286-1:2010)", where="Class", value=f"{letters}{grade}", way_out=way)
    if letters == "K":
        text = "is not given above 3 mm: K has grades to 8 there (ISO 286-1:2010, Table 2)."
        return OutOfRange(text, where="Class", value=f"K{grade}", way_out="Use JS or M.")
    steps = [index for index, row in enumerate(tables.shafts()) if letters.lower() in row]
    low, high = (tables.STEPS[steps[0] - 1] if steps[0] else 0), tables.STEPS[steps[-1]]
    return OutOfRange(
        f"is given over {low} to {high} mm only (ISO 286-1:2010, Tables 2 to 5).",
        where="Class",
        value=f"{letters}{grade} at {tables.step_text(step)}",
        way_out="Use the neighbouring letter.",
    )
