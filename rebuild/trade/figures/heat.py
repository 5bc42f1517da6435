"""Figures of shrink fits and of heat and cold (gathered by ``joints``)."""

from __future__ import annotations

from rebuild.trade.joints import thermal
from rebuild.trade.joints.contraction import ROOM_C
from rebuild.trade.joints.heat_sources import heat_kinds, media
from rebuild.trade.joints.time_window import window_s
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import Sheet, Worked, joined
from rebuild.trade.shop.materials import Material, wanted

GROUP = "Joints"
_LENGTH, _TEXT, _CHOICE = InputKind.LENGTH, InputKind.TEXT, InputKind.CHOICE
NOT_CHILLED = "not chilled"


def _shrink_fit(entries: Entries) -> Figured:
    hub, shaft = wanted(entries.text("hub"), "Hub"), wanted(entries.text("shaft"), "Shaft")
    sheet = Sheet("Materials")
    sheet.read("hub", hub.note)
    sheet.read("shaft", shaft.note)
    cold = entries.choice("cold")
    diameter, interference = entries.mm("diameter"), entries.mm("interference")
    found = thermal.assemble(
        diameter,
        interference,
        hub.material,
        shaft.material,
        clearance_mm=entries.mm("clearance") if entries.given("clearance") else None,
        cold="" if cold == NOT_CHILLED else cold,
        hub_kind=entries.choice("hub-kind"),
    )
    value = found.value
    answers = [
        Answer("hub temperature", value.hub_C, "°C", 1, f"{value.hub_C * 1.8 + 32:.0f} °F"),
        Answer("shaft temperature", value.shaft_C, "°C", 1),
        Answer("hub grows by", value.hub_growth_mm, "mm", 4),
        Answer("shaft shrinks by", abs(value.shaft_change_mm), "mm", 4),
        Answer("the hub bears", value.limit_C, "°C", 0, "" if value.within_limit else "the hub is too hot"),
    ]
    lasts = _window(entries, hub.material, value, diameter, interference)
    parts = [sheet.close(), found.working]
    if lasts is not None:
        short, long = lasts.value
        answers.append(Answer("time to assemble, short", short, "s", 0, "still air, estimate"))
        answers.append(Answer("time to assemble, long", long, "s", 0))
        parts.append(lasts.working)
    working = joined(found.working.title, parts)
    return Figured(tuple(answers), working, cautions=working.cautions())


def _window(
    entries: Entries, hub: Material, found: thermal.Assembly, diameter_mm: float, interference_mm: float
) -> Worked[tuple[float, float]] | None:
    """How long until the cooling hub touches the shaft; None when no hub size is typed or it is cold."""
    touch = thermal.hub_temperature(
        diameter_mm, interference_mm + found.shaft_change_mm, 0.0, hub.alpha_per_K
    )
    if not entries.given("hub-outer") or not ROOM_C < touch < found.hub_C:
        return None
    length = entries.mm("length") if entries.given("length") else diameter_mm
    return window_s(hub, entries.mm("hub-outer"), diameter_mm, length, found.hub_C, touch)


def _cold_and_heat(entries: Entries) -> Figured:
    match = wanted(entries.text("material"))
    found = thermal.what_each_gives(entries.mm("diameter"), match.material)
    sheet = Sheet("Material")
    sheet.read("material", match.note)
    answers = tuple(
        Answer(
            f"{given.medium.name}, {given.medium.temperature_C:g} °C",
            given.change_mm,
            "mm",
            4,
            f"a constant coefficient would say {given.constant_mm * 1000:.1f} µm",
        )
        for given in found.value
    )
    working = joined(found.working.title, (sheet.close(), found.working))
    return Figured(answers, working, cautions=working.cautions())


FIGURES: tuple[Figure, ...] = (
    Figure(
        "shrink-fit",
        "Shrink fit: temperatures",
        GROUP,
        (
            Input("diameter", "Joint diameter", _LENGTH, "", "mm"),
            Input("interference", "Interference on diameter", _LENGTH, "", "mm"),
            Input("clearance", "Clearance wanted", _LENGTH, unit="mm", required=False, help="empty: d/1000"),
            Input("hub", "Hub", _TEXT, "steel"),
            Input("shaft", "Shaft", _TEXT, "steel"),
            Input(
                "cold",
                "Shaft chilled in",
                _CHOICE,
                NOT_CHILLED,
                choices=(NOT_CHILLED, *(one.name for one in media() if one.kind == "cold")),
            ),
            Input("hub-kind", "The hub is a", _CHOICE, heat_kinds()[0], choices=heat_kinds()),
            Input("hub-outer", "Hub outside, for the time", _LENGTH, unit="mm", required=False),
            Input("length", "Hub length, for the time", _LENGTH, unit="mm", required=False),
        ),
        _shrink_fit,
        {"diameter": "50", "interference": "0.04", "hub": "steel", "hub-outer": "80", "length": "40"},
        "Temperature of the hub, with or without chilling the shaft, what it bears, and for how long.",
    ),
    Figure(
        "cold-and-heat",
        "What freezer, dry ice, nitrogen and oven give",
        GROUP,
        (
            Input("diameter", "Diameter", _LENGTH, "", "mm"),
            Input("material", "Material", _TEXT, "", help="e.g. SAE 660, steel, cast iron"),
        ),
        _cold_and_heat,
        {"diameter": "50", "material": "steel"},
        "The real change of a diameter, with the contraction integrated in the cold.",
    ),
)
