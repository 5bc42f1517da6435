"""What an old manual's oil is today at one point: the figure found in its words, the duty's class, and doubts said."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from rebuild.errors import RebuildError
from rebuild.trade.lubrication.duties import for_duty
from rebuild.trade.lubrication.old_oil import today
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Worked

_FIGURE = re.compile(
    r"(?:(?<![\d.,])\d[\d.,]*\s*(?:sus|ssu|suv|cst|mm²/s|°\s*e|seconds?\s+(?:saybolt|redwood))"
    r"(?:\s*(?:at|@)\s*\d+(?:[.,]\d+)?\s*°?\s*[cf]\b)?)"
    r"|sae\s*(?:no\.?\s*)?\d+w?(?:\s*gear)?|agma\s*(?:no\.?\s*)?\d+a?(?:\s*(?:ep|comp))?|(?:iso\s*)?vg\s*\d+",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class OilToday:
    """``short`` for the card (``ISO VG 68, L-AN``), the grade when one is known, and what is doubtful, in words."""

    short: str
    grade: int | None
    doubt: str


@door()
def figure_in(words: str) -> str:
    """The figure inside the words of an old manual; empty when there is none.

    >>> figure_in("300 SUS at 100 F way lubricant"), figure_in("good machine oil")
    ('300 SUS at 100 F', '')
    """
    found = _FIGURE.search(" ".join(words.split()))
    return found[0] if found else ""


@lru_cache(maxsize=512)
def oil_today(old_oil: str, duty_name: str = "") -> Worked[OilToday]:
    """Today's class for an old oil on a duty; never raises: what cannot be read is said.

    >>> oil_today("300 SUS spindle oil", "central").value.short
    'ISO VG 68, L-AN'
    >>> oil_today("best winter oil").value.doubt
    'no figure in “best winter oil”: choose the oil by duty, or ask'
    """
    sheet = Sheet(f"{old_oil.strip() or 'No old oil'} today")
    if old_oil.strip():
        sheet.read("old oil, as written", old_oil.strip())
    symbols, grease = "", False
    grades: tuple[int, ...] = ()
    if duty_name:
        asked = for_duty(duty_name)
        sheet.take(asked.working)
        symbols = " or ".join(asked.value.symbols)
        grades, grease = asked.value.grades, not asked.value.grades
    if grease:
        return Worked(OilToday(f"grease, {symbols}, NLGI 2 unless the manual says", None, ""), sheet.close())
    figure = figure_in(old_oil)
    if not figure:
        return Worked(_without_figure(old_oil, symbols, grades), sheet.close())
    try:
        worked = today(figure, for_duty=duty_name)
    except RebuildError as trouble:
        sheet.note(str(trouble))
        return Worked(OilToday("", None, str(trouble)), sheet.close())
    sheet.take(worked.working)
    found = worked.value
    doubts = []
    if not found.exact:
        doubts.append(found.text)
    elif found.old.at_assumed:
        doubts.append(f"its temperature is not written; taken as {found.old.at_assumed}")
    if grades and found.usual not in grades:
        doubts.append(f"VG {found.usual} is not usual for this duty ({', '.join(map(str, grades))})")
    short = ", ".join(filter(None, (f"ISO VG {found.usual}", symbols)))
    return Worked(OilToday(short, found.usual, "; ".join(doubts)), sheet.close())


def _without_figure(old_oil: str, symbols: str, grades: tuple[int, ...]) -> OilToday:
    said = f"no figure in “{old_oil.strip()}”" if old_oil.strip() else "no old oil is written down"
    if len(grades) == 1:
        return OilToday(f"ISO VG {grades[0]}, {symbols}", grades[0], f"{said}: the duty's only grade")
    if grades:
        return OilToday(
            f"{symbols}, VG {' / '.join(map(str, grades))}", None, f"{said}: choose among the duty's grades"
        )
    return OilToday("", None, f"{said}: choose the oil by duty, or ask")
