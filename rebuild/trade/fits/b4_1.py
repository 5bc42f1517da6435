"""ANSI B4.1 inch fits on the hole basis: RC, LC, LT, LN and FN, to 19.69 in.

The table is in thousandths of an inch; results are in mm. Rows keep the status of their print.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Mapping
from functools import cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.sizes import SAME_MM, Fit, Role, SizeLimits, clearance_lines, signed
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Worked
from rebuild.trade.sizes.given import number_of, text_of

INCH_MM = 25.4
THOU_MM = 0.0254
_NAME = re.compile(r"(RC|LC|LT|LN|FN)[\s-]?(\d{1,2})", re.IGNORECASE)

#: What the standard calls each class.
USES = {
    "RC1": "close sliding", "RC2": "sliding", "RC3": "precision running", "RC4": "close running",
    "RC5": "medium running", "RC6": "medium running", "RC7": "free running", "RC8": "loose running",
    "RC9": "loose running", "FN1": "light drive", "FN2": "medium drive", "FN3": "heavy drive",
    "FN4": "force", "FN5": "force", "LC": "locational clearance", "LT": "locational transition",
    "LN": "locational interference",
}  # fmt: skip


def class_names() -> tuple[str, ...]:
    """Every class in the table's order: RC1 to FN5.

    >>> class_names()[0], class_names()[-1], len(class_names())
    ('RC1', 'FN5', 34)
    """
    return tuple(_rows())


def parse_inch_class(text: str) -> str:
    """Read ``RC4``, ``rc 4`` or ``FN-2``.

    Raises:
        BadEntry: no such class.

    >>> parse_inch_class("rc 4")
    'RC4'
    """
    match = _NAME.fullmatch(text_of("Class", text, "Type it as RC4.").strip())
    name = f"{match[1].upper()}{int(match[2])}" if match else ""
    if name not in _rows():
        raise BadEntry(
            "is no class of ANSI B4.1.",
            where="Class",
            value=text,
            way_out="Classes: RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5.",
        )
    return name


def use_of(name: str) -> str:
    """The standard's words for a class.

    Raises:
        BadEntry: no such class.

    >>> use_of("RC4"), use_of("LC3")
    ('close running', 'locational clearance')
    """
    known = parse_inch_class(name)
    return USES.get(known) or USES[known[:2]]


def inch_fit(nominal_mm: float, name: str) -> Worked[Fit]:
    """A class of ANSI B4.1 at a nominal size [mm].

    Raises:
        BadEntry: no such class.
        OutOfRange: outside the sizes the class is given for.

    >>> fit = inch_fit(25.4, "RC4").value
    >>> round(fit.min_clearance_mm / 0.0254, 3), round(fit.max_clearance_mm / 0.0254, 3)
    (0.8, 2.8)
    """
    nominal_mm, known = number_of("Nominal size", nominal_mm, finite=False), parse_inch_class(name)
    row = _row(nominal_mm, known)
    source = table("ansi_b41_fits").row_source(row)
    hole, shaft = (_limits(row, role, nominal_mm) for role in (Role.HOLE, Role.SHAFT))
    fit = Fit(known, hole, shaft)
    sheet = Sheet(f"Fit {nominal_mm / INCH_MM:.5g} in {known}, {use_of(known)}")
    sheet.read(
        "nominal size", f"{nominal_mm / INCH_MM:.6g} in, step over {row['over_in']} to {row['to_in']} in"
    )
    for side in (hole, shaft):
        zone = f"{side.role.value} {side.label}"
        sheet.table(zone, f"{signed(side.lower_mm, 'thou')} / {signed(side.upper_mm, 'thou')} thou", source)
    clearance_lines(sheet, fit, "thou")
    return Worked(fit, sheet.close())


def _row(nominal_mm: float, name: str) -> Mapping[str, str]:
    rows = _rows()[name]
    inches = nominal_mm / INCH_MM
    low, tops = float(rows[0]["over_in"]), [float(row["to_in"]) for row in rows]
    slack = SAME_MM / INCH_MM
    if not low + slack < inches <= tops[-1] + slack:
        raise OutOfRange(
            f"is outside over {low:g} to {tops[-1]:g} in, the sizes of {name} in ANSI B4.1-1967.",
            where="Nominal size",
            value=f"{inches:.5g} in",
            way_out="Take another class, or work the fit from a drawing.",
        )
    return rows[bisect_left(tops, inches - slack)]


def _limits(row: Mapping[str, str], role: Role, nominal_mm: float) -> SizeLimits:
    side = role.value
    lower, upper = (float(row[f"{side}_{end}"]) * THOU_MM for end in ("lower", "upper"))
    return SizeLimits(row[f"{side}_zone"] or row["class"], role, nominal_mm, round(lower, 9), round(upper, 9))


@cache
def _rows() -> dict[str, list[Mapping[str, str]]]:
    found: dict[str, list[Mapping[str, str]]] = {}
    for row in table("ansi_b41_fits").rows:
        found.setdefault(row["class"], []).append(row)
    return found
