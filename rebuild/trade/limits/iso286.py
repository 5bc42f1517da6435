"""ISO 286-1/-2:2010 limits and fits to 500 mm, worked from the standard's rules.

Holes follow from the shafts: A to H are mirrored, K to ZC are mirrored with the Δ correction, J has its
own values. Δ = ITn - IT(n-1). Deviations are in µm, sizes in mm.
"""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.errors import BadEntry
from rebuild.trade.limits import iso286_rules as rules, iso286_tables as tables
from rebuild.trade.limits.iso286_classes import LETTERS, ToleranceClass, Typed, parse_class, parse_typed
from rebuild.trade.limits.sizes import Fit, Role, SizeLimits, clearance_lines
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import number_of, numbers_of, text_of

__all__ = ["LETTERS", "ToleranceClass", "Typed", "deviations_many", "deviations_um", "iso_fit",
           "it_grade_um", "limits", "parse_class", "parse_typed"]  # fmt: skip

RULES = Source("ISO 286-1:2010", "4.3: holes from shafts, Δ, and the exceptions under Tables 2 to 5")
COMPUTED = Source("ISO 286-1:2010", "mirror rule", Status.COMPUTED)
JS_RULE = Source("ISO 286-1", "js and JS: an odd IT of grades 7 to 11 may be rounded down")


def it_grade_um(nominal_mm: float, grade: str) -> float:
    """Standard tolerance ITn of a nominal size up to 3150 mm [µm] (ISO 286-1:2010, Table 1).

    Raises:
        OutOfRange: no such size or grade; IT01 and IT0 end at 500 mm.

    >>> it_grade_um(25, "7")
    21.0
    """
    return rules.standard_tolerance(tables.step_of(_size(nominal_mm)), text_of("Grade", grade))


def deviations_um(nominal_mm: float, tolerance_class: ToleranceClass | str) -> tuple[float, float]:
    """Lower and upper deviation of a class [µm].

    Raises:
        BadEntry: not a class.
        OutOfRange: a size, letter or grade the standard does not give.

    >>> deviations_um(25, "H7"), deviations_um(25, "g6"), deviations_um(25, "K7")
    ((0.0, 21.0), (-20.0, -7.0), (-15.0, 6.0))
    """
    named = _class(tolerance_class)
    return rules.deviations(tables.step_of(_size(nominal_mm)), named.letters, named.grade)


def deviations_many(sizes_mm: Sequence[float], classes: Sequence[str]) -> tuple[list[float], list[float]]:
    """Lower and upper deviations [µm] of many size and class pairs at once.

    Raises:
        as ``deviations_um`` for the first pair that has none.

    >>> deviations_many([25, 60], ["H7", "k6"])
    ([0.0, 2.0], [21.0, 21.0])
    """
    sizes_mm = numbers_of("Nominal size", sizes_mm)
    if isinstance(classes, str):
        raise BadEntry("is one class and not a row.", where="Classes", value=classes, way_out="Give a list.")
    lowers, uppers = [], []
    step_of, read, work = tables.step_of, parse_class, rules.deviations
    for size, text in zip(sizes_mm, classes, strict=True):
        named = read(text)
        lower, upper = work(step_of(size), named.letters, named.grade)
        lowers.append(lower)
        uppers.append(upper)
    return lowers, uppers


def limits(
    nominal_mm: float, tolerance_class: ToleranceClass | str, *, whole_js: bool = False
) -> Worked[SizeLimits]:
    """The limits of one part [mm], with the table rows and rules used.

    Args:
        nominal_mm: nominal size, over 0 to 500 mm (3150 mm for h, H, js and JS).
        whole_js: round ±IT/2 of js7 to js11 down to whole µm where IT is odd, as the standard allows.

    Raises:
        BadEntry, OutOfRange: as ``deviations_um``.

    >>> worked = limits(25, "g6")
    >>> worked.value.low_mm, worked.value.high_mm
    (24.98, 24.993)
    """
    nominal_mm, named = _size(nominal_mm), _class(tolerance_class)
    step = tables.step_of(nominal_mm)
    lower, upper = rules.deviations(step, named.letters, named.grade)
    odd_js = named.letters in ("js", "JS") and named.grade in ("7", "8", "9", "10", "11") and upper % 1
    if odd_js and whole_js:
        lower, upper = -(upper // 1), upper // 1
    size = SizeLimits(str(named), named.role, nominal_mm, lower / 1000.0, upper / 1000.0)
    sheet = Sheet(f"Limits of {nominal_mm:.6g} {named}")
    sheet.read("nominal size", f"{nominal_mm:.6g} mm, step {tables.step_text(step)}")
    it = rules.standard_tolerance(step, named.grade)
    sheet.table(f"IT{named.grade}", f"{it:g} µm", tables.grade_source())
    _explain(sheet, step, named, lower, upper)
    if odd_js:
        done = "is rounded down here" if whole_js else "may be rounded down to whole µm"
        sheet.note(f"±{it / 2:g} µm {done}.", JS_RULE)
    sheet.result("limits", f"{size.low_mm:.4f} to {size.high_mm:.4f} mm ({lower:+g} / {upper:+g} µm)")
    return Worked(size, sheet.close())


def iso_fit(nominal_mm: float, hole: str, shaft: str, *, whole_js: bool = False) -> Worked[Fit]:
    """A hole class and a shaft class of one nominal size as a fit.

    Raises:
        BadEntry: the first is no hole or the second no shaft.
        OutOfRange: as ``deviations_um``.

    >>> fit = iso_fit(25, "H7", "g6").value
    >>> fit.min_clearance_mm, fit.max_clearance_mm, fit.kind.value
    (0.007, 0.041, 'clearance fit')
    """
    for text, role in ((hole, Role.HOLE), (shaft, Role.SHAFT)):
        if parse_class(text_of("Fit", text)).role is not role:
            raise BadEntry(
                f"is not a {role.value}.", where="Fit", value=text, way_out="Capitals are holes: H7/g6."
            )
    bore, journal = limits(nominal_mm, hole, whole_js=whole_js), limits(nominal_mm, shaft, whole_js=whole_js)
    fit = Fit(f"{parse_class(hole)}/{parse_class(shaft)}", bore.value, journal.value)
    sheet = Sheet(f"Fit {nominal_mm:.6g} {fit.name}")
    sheet.take(bore.working)
    sheet.take(journal.working)
    clearance_lines(sheet, fit)
    return Worked(fit, sheet.close())


def _size(nominal_mm: float) -> float:
    return number_of("Nominal size", nominal_mm, finite=False)


def _class(given: ToleranceClass | str) -> ToleranceClass:
    return given if isinstance(given, ToleranceClass) else parse_class(given)


def _explain(sheet: Sheet, step: int, named: ToleranceClass, lower: float, upper: float) -> None:
    """The fundamental deviation and, for holes, the rule it follows from."""
    letters, grade = named.letters, named.grade
    small = letters.lower()
    it = rules.standard_tolerance(step, grade)
    if small == "js":
        sheet.equation("deviations", f"±IT{grade}/2 = ±{upper:g} µm", RULES)
        return
    above = small in rules.ABOVE_LINE
    if letters.islower():
        base = rules.shaft_base(step, letters, grade)
        sheet.table(f"{'es' if above else 'ei'} of {letters}", f"{base:+g} µm", tables.shaft_source())
        other = f"ei = es - IT = {lower:+g} µm" if above else f"ei + IT = es = {upper:+g} µm"
        sheet.equation("other deviation", other)
    elif above:
        sheet.equation(f"EI of {letters}", f"- es of {small} = {lower:+g} µm", RULES)
        sheet.equation("ES", f"EI + IT{grade} = {upper:+g} µm")
    else:
        _explain_upper(sheet, step, named, upper)
        sheet.equation("EI", f"ES - IT{grade} = {upper:+g} - {it:g} = {lower:+g} µm")
    if small == "ef" and tables.STEPS[step] in (24, 30):
        sheet.note("One print has -25 µm for ef here; EF and the mean of e and f give 28 µm.", COMPUTED)


def _explain_upper(sheet: Sheet, step: int, named: ToleranceClass, upper: float) -> None:
    letters, grade = named.letters, named.grade
    if letters == "J":
        sheet.table(f"ES of J{grade}", f"{upper:+g} µm", tables.hole_j_source())
        return
    if letters == "N" and not upper:
        sheet.equation("ES of N", "0 for grades above 8, over 3 mm", RULES)
        return
    if rules.is_m6_exception(step, letters, grade):
        sheet.equation("ES of M6", "-9 µm over 250 to 315 mm, instead of -11 by the rule", RULES)
        return
    delta = rules.delta_um(step, letters, grade)
    note = f" + Δ, Δ = IT{grade} - IT{int(grade) - 1} = {delta:g}" if delta else ""
    sheet.equation(f"ES of {letters}", f"- ei of {letters.lower()}{note}: {upper:+g} µm", RULES)
