"""Parallel and taper keys: ASME B17.1 (inch) and DIN 6885-1 / ISO 773 (metric).

Depths are given the way they are measured: S across the shaft from the far side to the keyseat's floor,
T across the bore from the far side to the keyway's floor. Y is the height of the chord the key cuts off.
    Y = (D - sqrt(D² - W²)) / 2      S = D - Y - H/2      T = D - Y + H/2 + C
with C = +0.005 in for a parallel key (top clearance) and -0.020 in for a taper key (ASME B17.1).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import Table, table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said
from rebuild.trade.sizes.show import show_both

INCH_MM = 25.4
SQUARE, RECTANGULAR = "square", "rectangular"
PARALLEL, TAPER = "parallel", "taper"
TOP_CLEARANCE_MM = {PARALLEL: 0.005 * INCH_MM, TAPER: -0.020 * INCH_MM}
_CHORD = Source("ASME B17.1-1967 (R1998)", "formulas for S and T", Status.PUBLISHED)
_WIDTHS = Source("ISO 286-2", "h9, h11, N9, P9 and JS9 by width", Status.COMPUTED)
IT9_UM = ((3.0, 25.0), (6.0, 30.0), (10.0, 36.0), (18.0, 43.0), (30.0, 52.0), (50.0, 62.0), (80.0, 74.0),
          (120.0, 87.0))  # fmt: skip
IT11_UM = ((3.0, 60.0), (6.0, 75.0), (10.0, 90.0), (18.0, 110.0), (30.0, 130.0), (50.0, 160.0))


@dataclass(frozen=True, slots=True)
class Limits:
    """Low and high limit [mm]."""

    low_mm: float
    high_mm: float


@dataclass(frozen=True, slots=True)
class Key:
    """A key and its seats [mm].

    ``shaft_depth_mm`` and ``hub_depth_mm`` are measured at the key's side (inch: half the height) or as
    the standard's t1 and t2 (metric, on the centre line); ``s_mm`` and ``t_mm`` are across the diameter.
    """

    standard: str
    kind: str
    shaft_mm: float
    width_mm: float
    height_mm: float
    shaft_depth_mm: float
    hub_depth_mm: float
    s_mm: float
    t_mm: float
    key_width: Limits
    key_height: Limits
    shaft_slot: Limits
    hub_slot: Limits
    s: Limits
    t: Limits
    source: Source


@door()
def chord_mm(shaft_mm: float, width_mm: float) -> float:
    """Height Y [mm] of the chord a key of this width cuts off a round shaft.

    Raises:
        OutOfRange: the key is as wide as the shaft.

    >>> round(chord_mm(25.4, 6.35) / 25.4, 4)
    0.0159
    """
    if not 0 < width_mm < shaft_mm:
        raise OutOfRange(
            "is wider than the shaft, or not a width.",
            where="Key width",
            value=said(width_mm),
            way_out=f"The shaft is {said(shaft_mm)}.",
        )
    return (shaft_mm - math.sqrt(shaft_mm**2 - width_mm**2)) / 2.0


@door()
def depth_s_mm(shaft_mm: float, width_mm: float, height_mm: float) -> float:
    """S: from the far side of the shaft to the keyseat's floor [mm].

    >>> round(depth_s_mm(25.4, 6.35, 6.35) / 25.4, 3)
    0.859
    """
    return shaft_mm - chord_mm(shaft_mm, width_mm) - height_mm / 2.0


@door()
def depth_t_mm(shaft_mm: float, width_mm: float, height_mm: float, form: str = PARALLEL) -> float:
    """T: from the far side of the bore to the hub keyway's floor [mm] (taper: at its deep end).

    >>> round(depth_t_mm(25.4, 6.35, 6.35, "taper") / 25.4, 3)
    1.089
    """
    if form not in TOP_CLEARANCE_MM:
        raise BadEntry("is not a form of key.", where="Key", value=form, way_out="Choose parallel or taper.")
    return shaft_mm - chord_mm(shaft_mm, width_mm) + height_mm / 2.0 + TOP_CLEARANCE_MM[form]


@door()
def key_inch(shaft_mm: float, kind: str = SQUARE, form: str = PARALLEL, fit_class: str = "1") -> Worked[Key]:
    """The ASME B17.1 key for a shaft, with keyseat depths S and T and the widths of class 1 or 2.

    Class 1 is a side clearance fit from bar stock, class 2 a tighter one from key stock.

    Raises:
        OutOfRange: the shaft is outside 5/16 to 6 1/2 in, or no such key in the table.

    >>> round(key_inch(25.4).value.s_mm / 25.4, 3)
    0.859
    """
    found = table("keys_b17_1")
    row = _row_for(found, shaft_mm / INCH_MM, "in", "Shaft")
    width = float(row["width_in"]) * INCH_MM
    column = {SQUARE: "square_in", RECTANGULAR: "rect_in"}.get(kind)
    if column is None or not row[column]:
        raise OutOfRange(
            "key is not in the table for this shaft.",
            where="Key",
            value=kind,
            way_out=f"Choose square, or rectangular above 7/16 in ({found.source.cite()}).",
        )
    height = float(row[column]) * INCH_MM
    s, t = depth_s_mm(shaft_mm, width, height), depth_t_mm(shaft_mm, width, height, form)
    fit, fit_source = _fit_row(fit_class, kind, width)
    key_w, seat_w, key_h = (
        float(fit[name]) * INCH_MM
        for name in ("key_width_tol_in", "keyseat_width_tol_in", "key_height_tol_in")
    )
    key = Key(
        "ASME B17.1",
        kind,
        shaft_mm,
        width,
        height,
        height / 2.0,
        height / 2.0 + TOP_CLEARANCE_MM[form],
        s,
        t,
        _around(width, key_w),
        _around(height, key_h),
        Limits(width, width + seat_w),
        Limits(width, width + seat_w),
        Limits(s - 0.015 * INCH_MM, s),
        Limits(t, t + 0.010 * INCH_MM),
        found.source,
    )
    sheet = Sheet(f"Key for a {show_both(shaft_mm, 'in')} shaft")
    sheet.table(
        "row",
        f"over {row['shaft_over_in']} to {row['shaft_to_in']} in: {row['width_in']} wide, "
        f"{row[column]} high ({kind})",
        found.source,
    )
    _tell_depths(sheet, key, form)
    sheet.table(
        f"widths, class {fit_class}",
        f"key {_shown(key.key_width)}, keyseats {_shown(key.shaft_slot)}",
        fit_source,
    )
    sheet.note("S is cut 0 to 0.015 in deep, T 0 to 0.010 in deep (class 1).", fit_source)
    return Worked(key, sheet.close())


@door()
def key_metric(shaft_mm: float, tight: bool = False) -> Worked[Key]:
    """The DIN 6885-1 / ISO 773 key for a shaft; ``tight`` takes P9 in both slots, else N9 and JS9.

    Raises:
        OutOfRange: the shaft is outside 6 to 500 mm.

    >>> key_metric(30).value.width_mm
    8.0
    """
    found = table("keys_din6885")
    row = _row_for(found, shaft_mm, "mm", "Shaft")
    b, h, t1, t2, plus = (float(row[name]) for name in ("b_mm", "h_mm", "t1_mm", "t2_mm", "depth_tol_mm"))
    p9 = Limits(b + float(row["P9_lower_um"]) / 1000.0, b + float(row["P9_upper_um"]) / 1000.0)
    it9 = _grade(IT9_UM, b)
    shaft_slot = p9 if tight else Limits(b - (it9 + (4.0 if b <= 3 else 0.0)) / 1000.0, b - (b <= 3) * 0.004)
    js9 = float(row["JS9_um"]) / 1000.0
    hub_slot = p9 if tight else Limits(b - js9, b + js9)
    height_um = _grade(IT9_UM, h) if b == h else _grade(IT11_UM, h)
    key = Key(
        "DIN 6885-1",
        SQUARE if b == h else RECTANGULAR,
        shaft_mm,
        b,
        h,
        t1,
        t2,
        shaft_mm - t1,
        shaft_mm + t2,
        Limits(b - it9 / 1000.0, b),
        Limits(h - height_um / 1000.0, h),
        shaft_slot,
        hub_slot,
        Limits(shaft_mm - t1 - plus, shaft_mm - t1),
        Limits(shaft_mm + t2, shaft_mm + t2 + plus),
        found.source,
    )
    sheet = Sheet(f"Key for a {shaft_mm:g} mm shaft")
    sheet.table(
        "row",
        f"over {row['shaft_over_mm']} to {row['shaft_to_mm']} mm: b x h = {b:g} x {h:g}, t1 = {t1:g}, "
        f"t2 = {t2:g}, depths +{plus:g}",
        found.source,
    )
    sheet.equation(
        "across the shaft", f"d - t1 = {num(shaft_mm):.6g} - {num(t1):.5g} = {both(shaft_mm - t1, 3)}"
    )
    sheet.equation(
        "across the bore", f"d + t2 = {num(shaft_mm):.6g} + {num(t2):.5g} = {both(shaft_mm + t2, 3)}"
    )
    names = "P9 in shaft and hub (tight)" if tight else "N9 in the shaft, JS9 in the hub (easy)"
    sheet.table(
        names,
        f"shaft {_shown(shaft_slot)}, hub {_shown(hub_slot)}, key h9 {_shown(key.key_width)}",
        _WIDTHS,
    )
    return Worked(key, sheet.close())


def _row_for(found: Table, shaft: float, unit: str, where: str) -> Mapping[str, str]:
    low_name, high_name = f"shaft_over_{unit}", f"shaft_to_{unit}"
    for index, row in enumerate(found.rows):
        low, high = float(row[low_name]), float(row[high_name])
        # The very first row is taken to include its lower end: 6 mm and 5/16 in shafts exist.
        if (low < shaft or (index == 0 and shaft >= low - 1e-9)) and shaft <= high + 1e-9:
            return row
    first, last = found.rows[0][low_name], found.rows[-1][high_name]
    raise OutOfRange(
        f"is outside the table: {first} to {last} {unit} ({found.source.cite()}).",
        where=where,
        value=f"{shaft:g} {unit}",
        way_out="Copy the old key's size, or ask for the other system.",
    )


def _fit_row(fit_class: str, kind: str, width_mm: float) -> tuple[Mapping[str, str], Source]:
    found = table("keys_b17_1_fits")
    for row in found.rows:
        inside = float(row["width_over_in"]) < width_mm / INCH_MM <= float(row["width_to_in"]) + 1e-9
        if row["fit_class"] == fit_class and row["kind"] == kind and inside:
            return row, found.row_source(row)
    raise OutOfRange(
        "is not a fit in the table for this key.",
        where="Class of fit",
        value=fit_class,
        way_out=f"Classes 1 and 2, widths to 1 1/2 in ({found.source.cite()}).",
    )


def _tell_depths(sheet: Sheet, key: Key, form: str) -> None:
    y = chord_mm(key.shaft_mm, key.width_mm) / INCH_MM
    d, h, c = key.shaft_mm / INCH_MM, key.height_mm / INCH_MM, TOP_CLEARANCE_MM[form] / INCH_MM
    sheet.equation("Y", f"(D - sqrt(D² - W²)) / 2 = {y:.4f} in", _CHORD)
    sheet.equation(
        "S", f"D - Y - H/2 = {d:.4f} - {y:.4f} - {h / 2:.4f} = {show_both(key.s_mm, 'in')}", _CHORD
    )
    sheet.equation(
        f"T ({form})",
        f"D - Y + H/2 {c:+.3f} = {d:.4f} - {y:.4f} + {h / 2:.4f} {c:+.3f} = {show_both(key.t_mm, 'in')}",
        _CHORD,
    )


def _around(size_mm: float, deviation_mm: float) -> Limits:
    return Limits(min(size_mm, size_mm + deviation_mm), max(size_mm, size_mm + deviation_mm))


def _grade(steps: tuple[tuple[float, float], ...], size_mm: float) -> float:
    return next(um for top, um in steps if size_mm <= top)


def _shown(limits: Limits) -> str:
    return f"{limits.low_mm:.3f} to {limits.high_mm:.3f} mm"
