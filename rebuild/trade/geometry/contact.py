"""Bearing of a scraped surface: points per inch and share of contact, and what that is good for."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked

GRADES = Source("points per inch of scraped ways as told by reconditioners", status=Status.COMMON_PRACTICE)
#: Least points per square inch for each use.
USES: tuple[tuple[float, str], ...] = (
    (20.0, "fine work: precision slides and bench plates"),
    (12.0, "general machine ways"),
    (5.0, "a joint that does not slide"),
    (0.0, "rough: scrape on"),
)


@dataclass(frozen=True, slots=True)
class Contact:
    """Points per square inch, share of area in contact (None: not estimated), and what it serves."""

    points_per_in2: float
    share: float | None
    use: str


@door()
def contact(points: int, window_in2: float = 1.0, share: float | None = None) -> Worked[Contact]:
    """Judge a blued surface from points counted in a window.

    Args:
        points: blue points counted in the window.
        window_in2: area of the window [in²].
        share: estimated share of the area in contact, 0 to 1.

    Raises:
        BadEntry: a window of no area, or a share outside 0 to 1.

    >>> contact(15).value.use
    'general machine ways'
    """
    if not window_in2 > 0 or points < 0:
        raise BadEntry(
            "is not a count in a window.",
            where="Points",
            value=f"{points} in {window_in2:g} in²",
            way_out="Count the points in one square inch.",
        )
    if share is not None and not 0 <= share <= 1:
        raise BadEntry("is not a share.", where="Contact", value=f"{share:g}", way_out="Give it as 0 to 1.")
    density = points / window_in2
    use = next(words for least, words in USES if density >= least)
    sheet = Sheet("Bearing of a scraped surface")
    sheet.equation("points", f"{points} / {window_in2:g} in² = {density:.1f} per in²")
    if share is not None:
        sheet.read("share of contact", f"{share:.0%}")
    sheet.result("good for", use, GRADES)
    return Worked(Contact(density, share, use), sheet.close())
