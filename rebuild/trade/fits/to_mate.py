"""Fit to an actual size: the mate is measured, the other part is made to it."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.fits.named import named_fit
from rebuild.trade.limits import iso286
from rebuild.trade.limits.sizes import SAME_MM, Role
from rebuild.trade.results.working import Sheet, Worked
from rebuild.trade.sizes.given import number_of, word_of
from rebuild.trade.sizes.own_unit import said


@dataclass(frozen=True, slots=True)
class Follower:
    """Limits for the part still to be made [mm]; ``aim_mm`` is the middle."""

    role: Role
    low_mm: float
    high_mm: float
    min_clearance_mm: float
    max_clearance_mm: float

    @property
    def aim_mm(self) -> float:
        """The size to aim at."""
        return round((self.low_mm + self.high_mm) / 2.0, 9)


def fit_to_mate(
    mate: Role,
    actual_mm: float,
    min_clearance_mm: float,
    max_clearance_mm: float,
    *,
    mate_U_mm: float = 0.0,
) -> Worked[Follower]:
    """Limits of the other part so that its clearance to the measured mate stays in the wanted range.

    Shaft for a bore D known to ±U: D - c_max + U to D - c_min - U; hole for a shaft d: d + c_min + U to
    d + c_max - U. The mate no longer varies, so its tolerance goes to the part being made.

    Args:
        mate: which side was measured.
        actual_mm: its size [mm].
        min_clearance_mm, max_clearance_mm: wanted clearance, negative for interference [mm].
        mate_U_mm: expanded uncertainty of the mate's size; 0 leaves the limits at full width [mm].

    Raises:
        BadEntry: the range is upside down, or U is negative.
        OutOfRange: the mate's uncertainty leaves no room.

    >>> worked = fit_to_mate(Role.HOLE, 25.013, 0.007, 0.041, mate_U_mm=0.002)
    >>> round(worked.value.low_mm, 6), round(worked.value.high_mm, 6)
    (24.974, 25.004)
    """
    mate = word_of("Mate", mate, Role)
    actual_mm = number_of("Measured mate", actual_mm)
    min_clearance_mm = number_of("Smallest clearance", min_clearance_mm)
    max_clearance_mm = number_of("Largest clearance", max_clearance_mm)
    mate_U_mm = number_of("Uncertainty of the mate", mate_U_mm)
    _refuse_bad(actual_mm, min_clearance_mm, max_clearance_mm, mate_U_mm)
    if mate is Role.HOLE:
        made = Role.SHAFT
        low, high = actual_mm - max_clearance_mm + mate_U_mm, actual_mm - min_clearance_mm - mate_U_mm
        text = ("{:.4f} - ({:+.4f}) + {:.4f}", "{:.4f} - ({:+.4f}) - {:.4f}")
        ends = (max_clearance_mm, min_clearance_mm)
    else:
        made = Role.HOLE
        low, high = actual_mm + min_clearance_mm + mate_U_mm, actual_mm + max_clearance_mm - mate_U_mm
        text = ("{:.4f} + ({:+.4f}) + {:.4f}", "{:.4f} + ({:+.4f}) - {:.4f}")
        ends = (min_clearance_mm, max_clearance_mm)
    width = high - low
    if width < -SAME_MM or (mate_U_mm and width <= SAME_MM):
        raise OutOfRange(
            f"leaves no room: the range it is to be in is {(max_clearance_mm - min_clearance_mm) * 1000:.1f} µm wide, "
            f"and the mate is known to ±{mate_U_mm * 1000:.1f} µm.",
            where="Uncertainty of the mate",
            value=f"{mate_U_mm * 1000:.1f} µm",
            way_out="Measure the mate better, or widen the clearance.",
        )
    follower = Follower(made, round(low, 9), round(high, 9), min_clearance_mm, max_clearance_mm)
    sheet = Sheet(f"{made.value.capitalize()} to suit a measured {mate.value}")
    sheet.read(f"{mate.value} as measured", f"{actual_mm:.4f} mm, known to ±{mate_U_mm * 1000:.1f} µm")
    sheet.read("wanted clearance", f"{min_clearance_mm:+.4f} to {max_clearance_mm:+.4f} mm")
    for name, form, end, size in zip(("low limit", "high limit"), text, ends, (low, high), strict=True):
        sheet.equation(name, f"{form.format(actual_mm, end, mate_U_mm)} = {size:.4f} mm")
    sheet.note(_like_grade(actual_mm, width))
    sheet.result(f"{made.value} limits", f"{low:.4f} to {high:.4f} mm, aim at {follower.aim_mm:.4f} mm")
    return Worked(follower, sheet.close())


def class_to_mate(
    mate: Role, actual_mm: float, fit_name: str, *, nominal_mm: float, mate_U_mm: float = 0.0
) -> Worked[Follower]:
    """As ``fit_to_mate``, with the clearance range of a standard fit at the nominal size.

    Raises:
        as ``fit_to_mate`` and ``named_fit``.

    >>> class_to_mate(Role.SHAFT, 24.95, "H7/g6", nominal_mm=25).value.low_mm
    24.957
    """
    fit = named_fit(nominal_mm, fit_name)
    follower = fit_to_mate(
        mate, actual_mm, fit.value.min_clearance_mm, fit.value.max_clearance_mm, mate_U_mm=mate_U_mm
    )
    sheet = Sheet(f"{follower.working.title}, as {fit.value.name}")
    sheet.take(fit.working)
    sheet.take(follower.working)
    return Worked(follower.value, sheet.close())


def _like_grade(size_mm: float, width_mm: float) -> str:
    """What standard tolerance a width comes near to, so that the maker sees how hard it is."""
    try:
        grades = [(iso286.it_grade_um(size_mm, str(number)), number) for number in range(1, 17)]
    except OutOfRange:
        return f"The limits are {width_mm * 1000:.1f} µm apart."
    reached = [number for tolerance, number in grades if tolerance <= width_mm * 1000.0 + 1e-6]
    likeness = f"as wide as IT{reached[-1]}" if reached else "finer than IT1"
    return f"The limits are {width_mm * 1000:.1f} µm apart, {likeness} at this size."


def _refuse_bad(actual_mm: float, low: float, high: float, U_mm: float) -> None:
    if not actual_mm > 0:
        raise BadEntry("is no size.", where="Measured mate", value=said(actual_mm), way_out="Measure it.")
    if not low <= high:
        raise BadEntry(
            "is more than the largest clearance.",
            where="Smallest clearance",
            value=said(low),
            way_out="Interference is negative: -0.03 to -0.01.",
        )
    if not U_mm >= 0:
        raise BadEntry("is negative.", where="Uncertainty of the mate", value=f"{U_mm:g}", way_out="Use 0.")
