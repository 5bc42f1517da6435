"""Figures of oils: old units, old manuals, viscosity index, temperature, duties, grease."""

from __future__ import annotations

from rebuild.errors import OutOfRange
from rebuild.trade.figures.inputs import choice, figured, number, text
from rebuild.trade.lubrication.duties import duty_names, for_duty
from rebuild.trade.lubrication.grades import iso_place, nlgi
from rebuild.trade.lubrication.old_oil import today
from rebuild.trade.lubrication.viscosity import UNITS, Scale, from_cSt, to_cSt
from rebuild.trade.lubrication.viscosity_index import LEAST_INDEX, MOST_INDEX, line_of_index, viscosity_index
from rebuild.trade.lubrication.walther import D341, viscosity_at
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import Sheet, Worked, joined
from rebuild.trade.sizes.amounts import parse_celsius

GROUP = "Oil and grease"
#: What two readings may come to: beyond it one of them is wrong (common practice, no source).
LEAST_WORKED, MOST_WORKED = -200, 600


def _viscosity(entries: Entries) -> Figured:
    at_C = parse_celsius(entries.text("at"), "At temperature", decimal_comma=entries.comma)
    given = Scale(entries.choice("given"))
    first = to_cSt(entries.number("value"), given, at_C)
    second = from_cSt(first.value, Scale(entries.choice("wanted")), at_C)
    wanted = Scale(entries.choice("wanted"))
    answers = (
        Answer("kinematic viscosity", first.value, "mm²/s", 3, "the same number in cSt"),
        Answer(wanted.value, second.value, UNITS[wanted], 3),
    )
    return Figured(answers, joined(first.working.title, (first.working, second.working)))


def _old_oil(entries: Entries) -> Figured:
    duty = entries.choice("duty")
    worked = today(
        entries.text("oil"),
        index=entries.number("index"),
        for_duty="" if duty == "not said" else duty,
        decimal_comma=entries.comma,
    )
    found = worked.value
    grades = ", ".join(f"VG {grade}" for grade in found.exact) or "none: it lies between two"
    answers = (
        Answer("today", found.text),
        Answer("viscosity at 40 °C, least", found.low_40C_cSt, "mm²/s", 2),
        Answer("viscosity at 40 °C, most", found.high_40C_cSt, "mm²/s", 2),
        Answer("ISO grade", grades),
        Answer("by custom", f"VG {found.usual}", note="nearest or customary; the manual decides"),
    )
    return figured(worked, answers)


def _index(entries: Entries) -> Figured:
    worked = viscosity_index(entries.number("at-40"), entries.number("at-100"))
    found = worked.value
    if not LEAST_WORKED <= found.exact <= MOST_WORKED:
        raise OutOfRange(
            f"and the other reading come to an index of {found.whole}; "
            f"no oil is outside {LEAST_WORKED} to {MOST_WORKED}.",
            where="At 40 °C",
            value=entries.text("at-40"),
            way_out="Check both readings and their temperatures.",
        )
    answers = (
        Answer("viscosity index", found.whole),
        Answer("unrounded", found.exact, "", 2),
        Answer("L", found.L_cSt, "mm²/s", 2),
        Answer("H", found.H_cSt, "mm²/s", 2),
    )
    return figured(worked, answers)


def _at_temperature(entries: Entries) -> Figured:
    wanted_C = parse_celsius(entries.text("at"), "At temperature", decimal_comma=entries.comma)
    known_C = parse_celsius(entries.text("known-at"), "Known at", decimal_comma=entries.comma)
    known = entries.number("known")
    if entries.given("second"):
        second_C = parse_celsius(entries.text("second-at"), "Second at", decimal_comma=entries.comma)
        worked = viscosity_at(wanted_C, known_C, known, second_C, entries.number("second"))
    else:
        worked = _by_index(wanted_C, known_C, known, entries.number("index"))
    answers = [Answer("viscosity", worked.value, "mm²/s", 2, f"at {wanted_C:g} °C")]
    return figured(worked, tuple(answers))


def _by_index(wanted_C: float, known_C: float, known_cSt: float, index: float) -> Worked[float]:
    line = line_of_index(known_C, known_cSt, index)
    nu = line.viscosity_cSt(wanted_C)
    sheet = Sheet(f"Viscosity at {wanted_C:g} °C")
    sheet.read("known", f"{known_cSt:g} mm²/s at {known_C:g} °C, viscosity index {index:g}")
    at_40, at_100 = line.viscosity_cSt(40.0), line.viscosity_cSt(100.0)
    sheet.equation("line", f"{at_40:.4g} mm²/s at 40 °C and {at_100:.4g} at 100 °C give the index", D341)
    sheet.equation("log log (ν + 0.7)", f"{line.A:.5f} - {line.B:.5f} log {wanted_C + 273.15:g}", D341)
    sheet.result("viscosity", f"{nu:.4g} mm²/s at {wanted_C:g} °C")
    return Worked(nu, sheet.close())


def _grade(entries: Entries) -> Figured:
    worked = iso_place(entries.number("viscosity"))
    found = worked.value
    answers = (
        Answer("ISO VG", found.grade if found.grade is not None else "none", note=found.text),
        Answer("nearest", found.nearest, note="by ratio to the mid-point"),
    )
    return figured(worked, answers)


def _duty(entries: Entries) -> Figured:
    worked = for_duty(entries.choice("duty"))
    found = worked.value
    answers = (
        Answer("class", " or ".join(found.symbols), note=found.source.cite()),
        Answer("usual ISO VG", ", ".join(map(str, found.grades)) or "grease"),
        Answer("about", found.about),
    )
    return figured(worked, answers)


def _grease(entries: Entries) -> Figured:
    found = nlgi(entries.text("number"))
    sheet = Sheet(f"NLGI {found.number}")
    sheet.table(
        "penetration", f"{found.min_tenths} to {found.max_tenths} tenths of mm, {found.feel}", found.source
    )
    answers = (
        Answer("worked penetration, least", found.min_tenths, "0.1 mm"),
        Answer("worked penetration, most", found.max_tenths, "0.1 mm"),
        Answer("feel", found.feel),
    )
    return Figured(answers, sheet.close())


_SCALES = tuple(scale.value for scale in Scale)
_DUTY = choice("duty", "Duty", ("not said", *duty_names()))
_INDEX = number(
    "index",
    "Viscosity index",
    "95",
    note="95 is usual for straight mineral oil.",
    least=LEAST_INDEX,
    most=MOST_INDEX,
)

FIGURES: tuple[Figure, ...] = (
    Figure("old-oil", "An old manual's oil today", GROUP,
        (text("oil", "As the manual says", note="As 300 SUS at 100 °F, SAE 20, AGMA 4 or 5 °E at 50 °C."),
         _INDEX, _DUTY),
        _old_oil, {"oil": "300 SUS at 100 °F", "duty": "way"},
        "Today's ISO viscosity grade, with the gap shown where it falls between two. Names no product."),
    Figure("viscosity", "Old units of viscosity", GROUP,
        (number("value", "Reading", above=0), choice("given", "Unit", ("SUS", "cSt", "Redwood 1", "Engler")),
         text("at", "At temperature", "100 F", note="As 40 C or 100 F."), choice("wanted", "Also in", _SCALES)),
        _viscosity, {"value": "300", "wanted": "Engler"},
        "Saybolt with its temperature factor, Redwood, Engler, mm²/s."),
    Figure("viscosity-index", "Viscosity index", GROUP,
        (number("at-40", "At 40 °C", unit="mm²/s", above=0), number("at-100", "At 100 °C", unit="mm²/s", above=0)),
        _index, {"at-40": "73.3", "at-100": "8.86"}, "ASTM D2270, procedures A and B."),
    Figure("oil-at-temperature", "Viscosity at a temperature", GROUP,
        (text("at", "At temperature", "20 C"), number("known", "Known viscosity", unit="mm²/s"),
         text("known-at", "Known at", "40 C"), _INDEX,
         Input("second", "Second viscosity", InputKind.NUMBER, unit="mm²/s", required=False,
               help="In place of the index."),
         text("second-at", "Second at", "100 C")),
        _at_temperature, {"known": "68", "second": "8.7"}, "ASTM D341, from two readings or one and the index."),
    Figure("iso-vg", "ISO viscosity grade", GROUP, (number("viscosity", "Viscosity at 40 °C", unit="mm²/s"),),
        _grade, {"viscosity": "57.9"}, "The grade, or the gap it falls into."),
    Figure("oil-duty", "Oil for a duty", GROUP, (choice("duty", "Duty", duty_names()),),
        _duty, {"duty": "worm"}, "Class symbols of ISO 6743 and the usual grades."),
    Figure("grease", "Grease consistency", GROUP, (text("number", "NLGI number", "2"),),
        _grease, {"number": "2"}, "Worked penetration of an NLGI number."),
)  # fmt: skip
