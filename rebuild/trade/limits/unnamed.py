"""The doubt of a reading whose instrument nobody named: wide enough for any hand instrument that reads thous."""

from __future__ import annotations

from rebuild.trade.limits.judgement import tolerance_of
from rebuild.trade.results.working import Source, Status

#: Wider than the error limit of the coarsest caliper, and a share of the size for a part warm from the hand
#: or the sun. Our judgement: the table of instruments holds it (all but the steel rule lie within).
LEAST_MM = 0.06
SHARE = 0.0002
#: What a resolution and repeats alone make of U is a lower bound, so it is counted several times.
LOWER_BOUND_TIMES = 4.0
UNNAMED = Source(
    "doubt without a known instrument", "wider than any caliper's error limit", Status.COMMON_PRACTICE
)


def unnamed_doubt(
    value_mm: float,
    low_mm: float | None = None,
    high_mm: float | None = None,
    known_U_mm: float | None = None,
) -> float:
    """How far past its limit [mm] a reading must lie to be out although no instrument with a limit is named.

    0.06 mm and 0.2 mm for each metre of size; not less than the tolerance (a wide one may be read with a rule),
    nor than four times what is known of its uncertainty.

    >>> round(unnamed_doubt(19.1, 19.05, 19.063), 4), unnamed_doubt(100.0, 99.5, 100.5)
    (0.0638, 1.0)
    """
    return max(
        LEAST_MM + SHARE * abs(value_mm),
        tolerance_of(low_mm, high_mm) or 0.0,
        LOWER_BOUND_TIMES * (known_U_mm or 0.0),
    )
