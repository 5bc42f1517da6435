"""Figures of joints: press and shrink fits, close-in, bolts, set screws, dowels."""

from __future__ import annotations

import math

from rebuild.trade.figures import fasteners, heat
from rebuild.trade.figures.inputs import number
from rebuild.trade.joints.close_in import bore_before, bush_close_in
from rebuild.trade.joints.interference import PressFit, press_fit
from rebuild.trade.joints.lame import GIVEN, Elastic, elastic
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine, Zone
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import Sheet, Worked, Working, joined
from rebuild.trade.shop.materials import wanted
from rebuild.trade.sizes.amounts import LBF_FT_NM, LBF_N
from rebuild.trade.sizes.own_load import PSI_MPA, force_range_said, torque_said
from rebuild.trade.sizes.own_unit import own_unit

GROUP = "Joints"
_LENGTH, _TEXT, _CHOICE = InputKind.LENGTH, InputKind.TEXT, InputKind.CHOICE
#: Nothing machined is stiffer than diamond, about 1200 GPa (from memory).
STIFFEST_GPA = 1_300


def typed_material(entries: Entries, part: str) -> tuple[Elastic, Working]:
    """The elastic constants of ``part`` (an entry), overridden by ``part-E`` and ``part-nu`` if typed.

    >>> typed = Entries(material_inputs("hub", "Hub", "cast iron"), {"hub-E": "110", "hub-nu": "0.26"})
    >>> typed_material(typed, "hub")[0].E_MPa
    110000.0
    """
    match = wanted(entries.text(part), part.capitalize())
    found = elastic(match.material)
    sheet = Sheet(part)
    sheet.read(part, match.note)
    if match.material.note:
        sheet.note(match.material.note)
    stiff, poisson = f"{part}-E", f"{part}-nu"
    if entries.given(stiff) or entries.given(poisson):
        found = Elastic(
            entries.number(stiff) * 1000.0 if entries.given(stiff) else found.E_MPa,
            entries.number(poisson) if entries.given(poisson) else found.nu,
            found.yield_MPa,
            found.tensile_MPa,
            found.brittle,
            found.name,
            source=GIVEN,
        )
    return found, sheet.close()


def _press_fit(entries: Entries) -> Figured:
    hub, hub_said = typed_material(entries, "hub")
    shaft, shaft_said = typed_material(entries, "shaft")
    tight = _one_fit(entries, hub, shaft, entries.mm("interference"))
    parts = [hub_said, shaft_said, tight.working]
    answers = list(_fit_answers(tight.value))
    if entries.given("least"):
        loose = _one_fit(entries, hub, shaft, entries.mm("least"))
        parts.append(loose.working)
        answers.append(_torque("torque at the least interference", loose.value.torque_Nm))
        answers.append(_force("force at the least interference", loose.value.force_N))
    title = tight.working.title
    working = joined(title, parts)
    most = entries.mm("interference")
    least = entries.mm("least") if entries.given("least") else most
    zones = (Zone("hole", 0.0, 0.0, "hole"), Zone("shaft", min(least, most), max(least, most), "shaft"))
    return Figured(tuple(answers), working, zones=zones, cautions=working.cautions())


def _one_fit(entries: Entries, hub: Elastic, shaft: Elastic, interference_mm: float) -> Worked[PressFit]:
    return press_fit(
        entries.mm("diameter"),
        interference_mm,
        entries.mm("length"),
        entries.mm("hub-outer") if entries.given("hub-outer") else math.inf,
        hub,
        shaft,
        shaft_bore_mm=entries.mm("shaft-bore") if entries.given("shaft-bore") else 0.0,
        friction=entries.number("friction"),
        hub_rz_um=entries.number("hub-rz"),
        shaft_rz_um=entries.number("shaft-rz"),
        shrink=entries.choice("assembly") == "shrunk",
    )


def _fit_answers(fit: PressFit) -> tuple[Answer, ...]:
    low, high = fit.force_range_N
    weak, strong = fit.torque_range_Nm
    largest = (
        Answer("largest interference the parts bear", fit.largest_mm, "mm", 4)
        if fit.largest_mm is not None
        else Answer("largest interference the parts bear", "not known", note="no strength in the table")
    )
    return (
        Answer("interference after roughness", fit.effective_mm, "mm", 4),
        _stress("pressure", fit.pressure_MPa, 2),
        _force("press force", fit.force_N, force_range_said(low, high)),
        _torque("torque it holds", fit.torque_Nm, f"{torque_said(weak, 0)} to {torque_said(strong, 0)}"),
        _stress("hub hoop stress at its bore", fit.hub.hoop_bore),
        _stress("hub von Mises at its bore", fit.hub.von_mises_bore),
        _stress("shaft hoop stress at the joint", fit.shaft.hoop_joint),
        _stress("shaft hoop stress at its bore or centre", fit.shaft.hoop_bore),
        Answer("hub grows outside by", fit.outside_growth_mm, "mm", 4),
        Answer("shaft's bore closes by", fit.bore_closing_mm, "mm", 4),
        largest,
    )


def _stress(label: str, MPa: float, decimals: int = 1) -> Answer:
    if own_unit() == "mm":
        return Answer(label, MPa, "MPa", decimals)
    return Answer(label, MPa / PSI_MPA, "psi", 0, f"{MPa:.{decimals}f} MPa")


def _force(label: str, N: float, also: str = "") -> Answer:
    if own_unit() == "mm":
        return Answer(label, N / 1000.0, "kN", 2, also)
    return Answer(label, N / LBF_N, "lbf", 0, "; ".join(filter(None, (f"{N / 1000:.2f} kN", also))))


def _torque(label: str, Nm: float, also: str = "") -> Answer:
    if own_unit() == "mm":
        return Answer(label, Nm, "N·m", 1, also)
    return Answer(label, Nm / LBF_FT_NM, "lbf·ft", 1, "; ".join(filter(None, (f"{Nm:.1f} N·m", also))))


def _close_in(entries: Entries) -> Figured:
    bush, bush_said = typed_material(entries, "bush")
    housing, housing_said = typed_material(entries, "housing")
    found = bush_close_in(
        entries.mm("diameter"),
        entries.mm("interference"),
        entries.mm("bush-bore"),
        entries.mm("length"),
        bush,
        housing,
        housing_outer_mm=entries.mm("housing-outer") if entries.given("housing-outer") else math.inf,
        friction=entries.number("friction"),
        housing_rz_um=entries.number("housing-rz"),
        bush_rz_um=entries.number("bush-rz"),
    )
    before = bore_before(entries.mm("bush-bore"), found.value.close_in_mm)
    answers = (
        Answer("the bore closes by", found.value.close_in_mm, "mm", 4),
        Answer("at most, by the trade's rule", found.value.most_mm, "mm", 4),
        Answer("share of the interference", found.value.share * 100.0, "%", 0, "the trade's rule takes 100"),
        Answer("bore after pressing", found.value.bore_after_mm, "mm", 4),
        Answer("bore before, to finish at the typed bore", before, "mm", 4),
        _force("press force", found.value.force_N),
    )
    spec = SpecLine("bush bore before pressing", before, None, None, "Lamé close-in, computed")
    working = joined(found.working.title, (bush_said, housing_said, found.working))
    return Figured(answers, working, (spec,), cautions=working.cautions())


def material_inputs(part: str, label: str, default: str) -> tuple[Input, ...]:
    """The entries of one part's material: what it is, and E and Poisson's ratio to override."""
    return (
        Input(part, label, _TEXT, default, help="e.g. cast iron, SAE 660, 4140, C45"),
        number(f"{part}-E", f"{label}: E, if known", unit="GPa", required=False, above=0, most=STIFFEST_GPA),
        number(f"{part}-nu", f"{label}: Poisson's ratio, if known", required=False, least=0, most=0.5),
    )


def _rough(name: str, label: str) -> Input:
    return number(name, label, "0", unit="µm", least=0, most=1000, note="Rz; turned 6 to 16, ground 1.6 to 4")


FIGURES: tuple[Figure, ...] = (
    Figure(
        "press-fit",
        "Press fit",
        GROUP,
        (
            Input("diameter", "Joint diameter", _LENGTH, "", "mm"),
            Input("interference", "Interference on diameter (the most)", _LENGTH, "", "mm"),
            Input("least", "The least interference", _LENGTH, "", "mm", required=False),
            Input("length", "Length of the fit", _LENGTH, "", "mm"),
            Input("hub-outer", "Hub outside", _LENGTH, "", "mm", required=False, help="empty: a casting"),
            Input("shaft-bore", "Shaft bore", _LENGTH, "", "mm", required=False, help="empty: solid"),
            *material_inputs("hub", "Hub", "steel"),
            *material_inputs("shaft", "Shaft", "steel"),
            Input("assembly", "Assembly", _CHOICE, "pressed", choices=("pressed", "shrunk")),
            number("friction", "Friction", "0.12", least=0, most=2),
            _rough("hub-rz", "Roughness Rz of the hub"),
            _rough("shaft-rz", "Roughness Rz of the shaft"),
        ),
        _press_fit,
        {
            "diameter": "50",
            "interference": "0.04",
            "length": "40",
            "hub-outer": "80",
            "hub": "C45",
            "shaft": "C45",
        },
        "Pressure, press force, torque and stresses after Lamé; refused beyond the material.",
    ),
    Figure(
        "bush-close-in",
        "Close-in of a pressed bush",
        GROUP,
        (
            Input("diameter", "Housing bore", _LENGTH, "", "mm"),
            Input("interference", "Interference on diameter", _LENGTH, "", "mm"),
            Input("bush-bore", "Bush bore", _LENGTH, "", "mm"),
            Input("length", "Length", _LENGTH, "", "mm"),
            Input(
                "housing-outer", "Housing outside", _LENGTH, "", "mm", required=False, help="empty: a casting"
            ),
            *material_inputs("bush", "Bush", "SAE 660"),
            *material_inputs("housing", "Housing", "cast iron"),
            number("friction", "Friction", "0.10", least=0, most=2),
            _rough("housing-rz", "Roughness Rz of the housing"),
            _rough("bush-rz", "Roughness Rz of the bush"),
        ),
        _close_in,
        {
            "diameter": "0.8128 in",
            "interference": "0.001 in",
            "bush-bore": "0.6257 in",
            "length": "1 in",
            "bush": "SAE 660",
            "housing": "cast iron",
        },
        "How much the bore closes, and what to bore before pressing.",
    ),
    *heat.FIGURES,
    *fasteners.FIGURES,
)
