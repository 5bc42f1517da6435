"""What a press fit's parts bear: von Mises against yield, or tension against the strength of brittle iron."""

from __future__ import annotations

from rebuild.errors import OutOfRange
from rebuild.trade.joints.lame import LAME, Elastic, HubStress, ShaftStress
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status
from rebuild.trade.sizes.own_load import stress_said
from rebuild.trade.sizes.own_unit import own_unit

BRITTLE = Source("Brittle iron", "greatest tension against tensile strength", Status.COMMON_PRACTICE)
CRUSHING = Source("Grey iron in compression", "about 3 times its tensile strength", Status.FROM_MEMORY)
VON_MISES = Source("von Mises stress against yield", "", Status.COMPUTED)


@door()
def hub_share(sheet: Sheet, part: str, hub: Elastic, stress: HubStress) -> float | None:
    """Hub stress over its strength, told in the sheet; None when the strength is not known.

    >>> from rebuild.trade.joints.lame import hub_stress
    >>> steel = Elastic(210_000, 0.3, yield_MPa=300.0)
    >>> round(hub_share(Sheet("Hub"), "hub", steel, hub_stress(51.1875, 50, 80)), 3)  # 149.15 of 300 MPa
    0.497
    """
    if hub.brittle:
        sheet.equation(
            f"{part}, greatest tension at its bore", f"hoop {stress_said(stress.hoop_bore, 2)}", LAME
        )
        return _use(sheet, part, stress.hoop_bore, hub.tensile_MPa, "tensile strength", BRITTLE)
    sheet.equation(
        f"{part} at its bore",
        f"hoop {stress_said(stress.hoop_bore, 2)}, radial {stress_said(stress.radial_bore, 2)}, von Mises "
        f"{stress_said(stress.von_mises_bore, 2)}; hoop outside {stress_said(stress.hoop_outside, 2)}",
        LAME,
    )
    return _use(sheet, part, stress.von_mises_bore, hub.yield_MPa, "yield", VON_MISES)


@door()
def shaft_share(sheet: Sheet, part: str, shaft: Elastic, stress: ShaftStress) -> float | None:
    """Shaft stress over its strength; grey iron is judged by its crushing strength.

    >>> from rebuild.trade.joints.lame import shaft_stress
    >>> steel = Elastic(210_000, 0.3, yield_MPa=300.0)
    >>> shaft_share(Sheet("Shaft"), "shaft", steel, shaft_stress(60.0, 50))  # a solid one bears the pressure
    0.2
    """
    sheet.equation(
        part,
        f"hoop at the joint {stress_said(stress.hoop_joint, 2)}, at its bore or centre "
        f"{stress_said(stress.hoop_bore, 2)}",
        LAME,
    )
    if shaft.brittle:
        crush = 3.0 * shaft.tensile_MPa if shaft.tensile_MPa else None
        return _use(sheet, part, stress.von_mises, crush, "crushing strength", CRUSHING)
    return _use(sheet, part, stress.von_mises, shaft.yield_MPa, "yield", VON_MISES)


def _use(
    sheet: Sheet, part: str, stress: float, strength: float | None, name: str, source: Source
) -> float | None:
    if strength is None:
        sheet.note(f"The {part}'s {name} is not known: its stress is not judged.")
        return None
    sheet.result(
        f"{part} use",
        f"{stress_said(stress)} of {stress_said(strength, 0)} {name} = {stress / strength:.0%}",
        source,
    )
    return stress / strength


@door()
def largest_mm(
    full_mm: float, left_mm: float, shrink: bool, hub_use: float | None, shaft_use: float | None
) -> float | None:
    """The interference [mm] at which the weaker part reaches its strength; None when unknown.

    >>> largest_mm(0.04, 0.03, True, 0.5, 0.25), round(largest_mm(0.04, 0.03, False, 0.5, None), 3)
    (0.08, 0.07)
    >>> largest_mm(0.04, 0.03, True, None, None) is None
    True
    """
    uses = [use for use in (hub_use, shaft_use) if use is not None]
    if not uses:
        return None
    return full_mm / max(uses) if shrink else left_mm / max(uses) + (full_mm - left_mm)


Judged = tuple[tuple[str, Elastic, float | None], ...]


@door()
def beyond(judged: Judged, largest: float | None, mm: float) -> OutOfRange | None:
    """What is wrong with a fit that passes a part's strength, with the largest interference the formulas hold to.

    >>> beyond((("hub", Elastic(210_000, 0.3, 300.0), 0.9),), 0.11, 0.1) is None
    True
    >>> str(beyond((("hub", Elastic(210_000, 0.3, 300.0), 1.25),), 0.08, 0.1)).partition(" (")[0]
    'Interference: “100 µm” is too much: the hub of material as typed yields'
    """
    for part, one, use in judged:
        if use is None or use <= 1.0 or largest is None:
            continue
        what = "cracks" if one.brittle else "yields"
        limit = "strength" if one.brittle else "yield"
        return OutOfRange(
            f"is too much: the {part} of {one.name} {what} ({use:.0%} of its {limit}); the elastic "
            f"formulas hold to {_told(largest, mm)} ({one.source.cite()}).",
            where="Interference",
            value=_told(mm, largest),
            way_out="Take less interference, a thicker wall, or a stronger material.",
        )
    return None


def _told(mm: float, beside_mm: float) -> str:
    um = f"{_um(mm, beside_mm)} µm"
    return um if own_unit() == "mm" else f"{mm / 25.4:.5f} in ({um})"


def _um(mm: float, beside_mm: float) -> str:
    """In µm, below ten with decimals, and with as many as it takes to tell it from the one beside it."""
    for decimals in range(2 if min(mm, beside_mm) < 0.01 else 0, 6):
        text, other = (f"{one * 1000:.{decimals}f}" for one in (mm, beside_mm))
        if text != other:
            break
    return text
