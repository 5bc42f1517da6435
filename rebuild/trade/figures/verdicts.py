"""Figures of measuring: a verdict with its uncertainty, a budget, and the correction to 20 °C."""

from __future__ import annotations

import math

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.figures.inputs import number
from rebuild.trade.limits.instruments import instrument_limit, kinds
from rebuild.trade.limits.uncertainty import AS_ENTERED, Budget, InstrumentLimit, reading_budget, to_20C
from rebuild.trade.limits.verdict import Judgement, Rule, judge
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine, Zone
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import Worked, joined
from rebuild.trade.shop import materials
from rebuild.trade.sizes.amounts import ABSOLUTE_ZERO_C as COLDEST_C, HOTTEST_C
from rebuild.trade.sizes.length_units import INCH_UNITS
from rebuild.trade.sizes.number import read_number

GROUP = "Measuring"
#: No solid of a shop grows more than this [1e-6/K]; softest plastics come near it (from memory).
MOST_PPM = 500.0
NONE, OWN = "none", "as typed below"
RULES = {
    "95 % conformance": Rule.CONFORMANCE_95,
    "guard band U": Rule.GUARD_U,
    "simple acceptance": Rule.SIMPLE,
}


def _verdict(entries: Entries) -> Figured:
    sizes = entries.sizes("reading")
    readings = [size.mm for size in sizes]
    value = math.fsum(readings) / len(readings)
    low = entries.mm("low") if entries.given("low") else None
    high = entries.mm("high") if entries.given("high") else None
    budget = _budget_of(entries, readings, abs(value))
    unit = "in" if sizes[-1].unit in INCH_UNITS else "mm"
    worked = judge(value, low, high, budget.value, RULES[entries.choice("rule")], unit=unit)
    judgement = worked.value
    answers = [
        Answer("verdict", judgement.verdict.value, note=judgement.sentence),
        Answer("reading", value, "mm", 4, f"mean of {len(readings)}" if len(readings) > 1 else ""),
        Answer("expanded uncertainty U", budget.value.U_mm, "mm", 4, f"k = {budget.value.k:.2f}"),
        Answer("guard band", judgement.guard_mm, "mm", 4, judgement.rule.value),
    ]
    if judgement.conformance_probability is not None:
        answers.append(Answer("chance that it conforms", 100 * judgement.conformance_probability, "%", 1))
    specs = (SpecLine("limits", None, low, high, "judgement"),) if low is not None or high is not None else ()
    working = joined("Verdict", (budget.working, worked.working))
    return Figured(tuple(answers), working, specs, _zones(judgement, value, budget.value))


def _zones(judgement: Judgement, value: float, budget: Budget) -> tuple[Zone, ...]:
    """The zone and the reading with its U, as deviations from the low limit (or the only one)."""
    low, high = judgement.low_mm, judgement.high_mm
    zero = low if low is not None else high
    if zero is None:
        return ()
    bar = Zone(
        "reading ± U",
        round(value - budget.U_mm - zero, 9),
        round(value + budget.U_mm - zero, 9),
        "reading",
    )
    reach = max(abs(value - zero), budget.U_mm) * 1.5 + 1e-3
    top = round(high - zero, 9) if high is not None else reach
    bottom = 0.0 if low is not None else -reach
    return (Zone("limits", bottom, top, "limit"), bar)


def _budget(entries: Entries) -> Figured:
    readings = [size.mm for size in entries.sizes("reading")]
    worked = _budget_of(entries, readings, abs(math.fsum(readings) / len(readings)))
    budget = worked.value
    freedom = "infinite" if math.isinf(budget.dof) else f"{budget.dof:.1f}"
    answers = [Answer(part.name, part.u_mm * 1000, "µm", 2, part.how) for part in budget.components]
    answers += [
        Answer("combined standard uncertainty u", budget.u_mm * 1000, "µm", 2),
        Answer("effective degrees of freedom", freedom),
        Answer("coverage factor k", budget.k, "", 3),
        Answer("expanded uncertainty U", budget.U_mm, "mm", 4, "" if budget.complete else "repeats only"),
    ]
    return Figured(tuple(answers), worked.working)


def _budget_of(entries: Entries, readings: list[float], length_mm: float) -> Worked[Budget]:
    return reading_budget(
        _instrument(entries, length_mm),
        repeats_mm=readings,
        temperature_C=entries.number("temperature") if entries.given("temperature") else None,
        part_alpha_per_K=_alpha(entries, "material") if entries.given("material") else None,
        length_mm=length_mm,
        temperature_known_within_K=entries.number("within"),
        k=2.0 if entries.choice("k") == "2" else None,
    )


def _instrument(entries: Entries, length_mm: float) -> InstrumentLimit | None:
    """The default of a kind, changed by what is typed; or only what is typed."""
    kind = entries.choice("instrument")
    resolution = entries.mm("resolution") if entries.given("resolution") else None
    error = entries.mm("error") if entries.given("error") else None
    if kind == NONE:
        return None
    if kind == OWN:
        if resolution is None and error is None:
            raise BadEntry("is not filled in.", where="Error limit ±", way_out="Type it, or choose a kind.")
        return InstrumentLimit("instrument", resolution or 0.0, mpe_mm=error)
    reach = entries.mm("reach") if entries.given("reach") else length_mm
    known = instrument_limit(kind, reach, resolution_mm=resolution)
    if error is None:
        return known
    return InstrumentLimit(kind, known.resolution_mm, mpe_mm=error, source=AS_ENTERED)


def _temperature(entries: Entries) -> Figured:
    length, part_C = entries.mm("length"), entries.number("part")
    scale_C = entries.number("scale") if entries.given("scale") else None
    worked = to_20C(length, part_C, _alpha(entries, "material"), _alpha(entries, "instrument"), scale_C)
    answers = (
        Answer("length at 20 °C", worked.value, "mm", 5),
        Answer("correction to subtract", (length - worked.value) * 1000, "µm", 2),
    )
    return Figured(answers, worked.working)


def _alpha(entries: Entries, name: str) -> float:
    """Expansion [1/K] of a material's name, or of a number in 1e-6 per K."""
    text, label = entries.text(name), "Expansion [1e-6/K]"
    try:
        ppm = read_number(text, label, decimal_comma=entries.comma)
    except Ambiguous:
        raise
    except BadEntry:
        if text.lstrip("+-. ")[:1].isdigit() and materials.find_material(text) is None:
            raise
        return materials.wanted(text).material.alpha_per_K
    # A number above the most may be a name made of digits, as 4140.
    grade = materials.find_material(text) if abs(ppm) > MOST_PPM else None
    if grade is not None:
        return grade.material.alpha_per_K
    return read_number(text, label, decimal_comma=entries.comma, at_least=-MOST_PPM, at_most=MOST_PPM) * 1e-6


_READING = Input("reading", "Reading", InputKind.TEXT, help="As 24.985; repeats separated by semicolons.")
_MATERIAL_HELP = "A material such as cast iron, or its expansion in 1e-6 per K such as 11.5."
_MEASURING = (
    Input("instrument", "Instrument", InputKind.CHOICE, NONE, choices=(NONE, OWN, *kinds())),
    Input("reach", "Travel or range of the instrument", InputKind.LENGTH, unit="mm", required=False,
          help="For dial indicators and inside micrometers; else the size measured."),
    Input("resolution", "Its resolution", InputKind.LENGTH, unit="mm", required=False),
    Input("error", "Its error limit ±", InputKind.LENGTH, unit="mm", required=False),
    number("temperature", "Temperature", unit="°C", required=False, least=COLDEST_C, most=HOTTEST_C),
    number("within", "Temperature known within ±", "1", unit="K", least=0, most=100),
    Input("material", "Material", InputKind.TEXT, required=False, help=_MATERIAL_HELP),
    Input("k", "Coverage factor", InputKind.CHOICE, "t for 95 %", choices=("t for 95 %", "2")),
)  # fmt: skip
_MIC = "outside micrometer 0.001"

FIGURES: tuple[Figure, ...] = (
    Figure(
        "verdict", "Does a reading conform? (ISO 14253-1)", GROUP,
        (_READING,
         Input("low", "Low limit", InputKind.LENGTH, unit="mm", required=False, signed=True),
         Input("high", "High limit", InputKind.LENGTH, unit="mm", required=False, signed=True),
         Input("rule", "Rule", InputKind.CHOICE, "95 % conformance", choices=tuple(RULES)),
         *_MEASURING),
        _verdict,
        {"reading": "24.985 mm", "low": "24.980", "high": "24.993", "instrument": _MIC, "temperature": "18",
         "material": "11.5"},
        "Conforms, does not conform or undecided, with the uncertainty of the instrument counted.",
    ),
    Figure(
        "budget", "Uncertainty of a reading (GUM)", GROUP, (_READING, *_MEASURING), _budget,
        {"reading": "24.985 mm; 24.987 mm; 24.984 mm", "instrument": _MIC, "temperature": "24", "material": "18.0"},
        "Instrument, repeats and temperature put together.",
    ),
    Figure(
        "temperature", "Length at 20 °C", GROUP,
        (Input("length", "Length as read", InputKind.LENGTH, unit="mm"),
         number("part", "Temperature of the part", unit="°C", least=COLDEST_C, most=HOTTEST_C),
         number("scale", "Temperature of the instrument", unit="°C", required=False, least=COLDEST_C, most=HOTTEST_C,
                note="Left empty: the same as the part."),
         Input("material", "Material of the part", InputKind.TEXT, help=_MATERIAL_HELP),
         Input("instrument", "Material of the instrument", InputKind.TEXT, "11.5", help=_MATERIAL_HELP)),
        _temperature, {"length": "100", "part": "25", "material": "23.6"},
        "Corrects a reading taken in a cold or warm shop.",
    ),
)  # fmt: skip
