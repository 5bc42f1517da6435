"""General tolerances of sizes nothing is asked of (ISO 2768-1, all four classes), and bare standard tolerances (IT)."""

from __future__ import annotations

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.iso286 import it_grade_um
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Worked
from rebuild.trade.sizes.own_unit import said

CLASSES = ("m", "f", "c", "v")
NAMES = {"f": "fine", "m": "medium", "c": "coarse", "v": "very coarse"}
IT = Source("ISO 286-1:2010", "Table 1")


@door()
def general_tolerance(size_mm: float, tolerance_class: str = "m") -> Worked[float]:
    """The general tolerance (±) of a length [mm].

    Raises:
        BadEntry: no class of f, m, c, v.
        OutOfRange: a size the class has no value for.

    >>> general_tolerance(40.0).value, general_tolerance(40.0, "c").value
    (0.3, 0.8)
    """
    if tolerance_class not in NAMES:
        raise BadEntry("is no class.", where="Class", value=tolerance_class, way_out="Choose f, m, c or v.")
    found = table("iso2768_lengths")
    rows = [row for row in found.rows if row["class"] == tolerance_class]
    for at, row in enumerate(rows):
        low, high = float(row["over_mm"]), float(row["to_mm"])
        if (low < size_mm or (at == 0 and size_mm >= low)) and size_mm <= high:
            sheet = Sheet(f"General tolerance, class {tolerance_class} ({NAMES[tolerance_class]})")
            tolerance = float(row["tolerance_mm"])
            sheet.table(
                f"over {row['over_mm']} to {row['to_mm']} mm", f"± {tolerance:g} mm", found.row_source(row)
            )
            sheet.note("For sizes nothing hangs on; a size that fits a mate gets limits of its own.")
            return Worked(tolerance, sheet.close())
    raise OutOfRange(
        f"has no value in class {tolerance_class}: it goes from {rows[0]['over_mm']} to {rows[-1]['to_mm']} mm.",
        where="Size",
        value=said(size_mm),
        way_out="Type limits of its own, or another class.",
    )


@door()
def edge_tolerance(size_mm: float, tolerance_class: str = "m") -> Worked[float]:
    """The general tolerance (±) of an outside radius or a chamfer's height [mm].

    Raises:
        BadEntry: no class of f, m, c, v.
        OutOfRange: below 0.5 mm.

    >>> edge_tolerance(2.0).value, edge_tolerance(8.0, "c").value
    (0.2, 2.0)
    """
    return _of_table("iso2768_broken_edges", "tolerance_mm", "mm", size_mm, tolerance_class)


@door()
def angle_tolerance(shorter_side_mm: float, tolerance_class: str = "m") -> Worked[float]:
    """The general tolerance (±) of an angle [minutes] by its shorter side [mm].

    Raises:
        BadEntry: no class of f, m, c, v.
        OutOfRange: a side not above nought.

    >>> angle_tolerance(40.0).value, angle_tolerance(40.0, "v").value
    (30.0, 120.0)
    """
    return _of_table("iso2768_angles", "tolerance_min", "minutes", shorter_side_mm, tolerance_class)


def _of_table(name: str, column: str, unit: str, size_mm: float, tolerance_class: str) -> Worked[float]:
    if tolerance_class not in NAMES:
        raise BadEntry("is no class.", where="Class", value=tolerance_class, way_out="Choose f, m, c or v.")
    found = table(name)
    for row in found.rows:
        low, high = float(row["over_mm"]), float(row["to_mm"])
        begins = low == 0.5 and size_mm == low
        if row["class"] == tolerance_class and (low < size_mm <= high or begins):
            sheet = Sheet(f"General tolerance, class {tolerance_class} ({NAMES[tolerance_class]})")
            sheet.table(f"over {low:g} mm", f"± {row[column]} {unit}", found.row_source(row))
            return Worked(float(row[column]), sheet.close())
    raise OutOfRange(
        f"has no value in class {tolerance_class}.",
        where="Size",
        value=said(size_mm),
        way_out="Type limits of its own.",
    )


@door()
def standard_tolerance(size_mm: float, grade: str) -> Worked[float]:
    """A bare standard tolerance IT of a size [mm].

    Raises:
        BadEntry, OutOfRange: as ``it_grade_um``.

    >>> standard_tolerance(25.0, "7").value
    0.021
    """
    width = it_grade_um(size_mm, grade.upper().removeprefix("IT").strip())
    sheet = Sheet("Standard tolerance")
    sheet.table(f"IT{grade.upper().removeprefix('IT').strip()} of {size_mm:g} mm", f"{width:g} µm", IT)
    sheet.note("A width only: it says nothing of where it lies about the size.")
    return Worked(width / 1000.0, sheet.close())
