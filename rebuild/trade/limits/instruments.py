"""Error limits to start from, by kind of instrument; each shows its standard and status.

A maker's or a calibration's figure is always better: give it to ``InstrumentLimit`` directly.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.results.tables import status_of, table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import maybe_number_of, number_of, text_of
from rebuild.trade.sizes.own_unit import said, said_range

PLATE = Source("Federal Specification GGG-P-463c", "laboratory grade AA by the diagonal")
PLATE_MULTIPLE = Source("Federal Specification GGG-P-463c", "A = 2 x AA, B = 4 x AA", Status.FROM_MEMORY)
PLATE_GRADES = {"AA": 1, "A": 2, "B": 4}
#: Columns of the table a dial indicator's span may name.
SPANS = {
    "entire": "mpe_um",
    "one revolution": "one_revolution_um",
    "half revolution": "half_revolution_um",
    "tenth revolution": "tenth_revolution_um",
    "repeat": "repeat_um",
    "retrace": "retrace_um",
}


@dataclass(frozen=True, slots=True)
class DefaultLimit:
    """One row: what it holds for (size measured, travel or top of range) and its limits [mm]."""

    kind: str
    by: str
    over_mm: float
    to_mm: float
    resolution_mm: float
    spans_mm: tuple[tuple[str, float], ...]
    source: Source

    def limit(self, span: str = "entire") -> float | None:
        """The error limit over a span, or None where the standard gives none."""
        return dict(self.spans_mm).get(span)


@cache
def default_limits() -> tuple[DefaultLimit, ...]:
    """Every row of the table, in its order.

    >>> [row.limit() for row in default_limits() if row.kind == "outside micrometer 0.001"][:2]
    [0.004, 0.005]
    """
    return tuple(
        DefaultLimit(
            row["kind"],
            row["by"],
            float(row["over_mm"]),
            float(row["to_mm"]),
            float(row["resolution_um"]) / 1000.0,
            tuple((span, float(row[column]) / 1000.0) for span, column in SPANS.items() if row[column]),
            Source(
                row["standard"],
                f"{row['by']} over {row['over_mm']} to {row['to_mm']} mm",
                status_of(row["status"]),
            ),
        )
        for row in table("instruments").rows
    )


def kinds() -> tuple[str, ...]:
    """The kinds of instrument with a limit to start from.

    >>> "outside micrometer 0.001" in kinds()
    True
    """
    return tuple(dict.fromkeys(row.kind for row in default_limits()))


def instrument_limit(
    kind: str, reach_mm: float, *, resolution_mm: float | None = None, span: str = "entire"
) -> InstrumentLimit:
    """The limit to start from for one kind of instrument.

    Args:
        kind: one of ``kinds()``.
        reach_mm: the size measured, or for an indicator its travel, or the top of the range [mm].
        resolution_mm: of this instrument, where it differs from the usual one [mm].
        span: for dial indicators, one of ``SPANS``.

    Raises:
        BadEntry: no such kind or span.
        OutOfRange: the reach lies outside the rows known.

    >>> instrument_limit("outside micrometer 0.001", 60).mpe_mm
    0.005
    """
    kind, span, reach_mm = (
        text_of("Instrument", kind),
        text_of("Span", span),
        number_of("Instrument", reach_mm, finite=False),
    )
    resolution_mm = maybe_number_of("Resolution", resolution_mm)
    rows = [row for row in default_limits() if row.kind == kind]
    if not rows:
        raise BadEntry(
            "has no limit to start from.",
            where="Instrument",
            value=kind,
            way_out=f"Kinds: {', '.join(kinds())}.",
        )
    for row in rows:
        if reach_mm <= row.to_mm + 1e-9 and reach_mm >= row.over_mm:
            break
    else:
        raise OutOfRange(
            f"is outside {said_range(rows[0].over_mm, rows[-1].to_mm)}, the {row.by} of a {kind} "
            f"in {row.source.name}.",
            where="Instrument",
            value=said(reach_mm),
            way_out="Type the limit from its certificate.",
        )
    limit = row.limit(span)
    if limit is None:
        given = ", ".join(name for name, _ in row.spans_mm)
        raise BadEntry("is not given for it.", where="Span", value=span, way_out=f"Given: {given}.")
    resolution = row.resolution_mm if resolution_mm is None else resolution_mm
    return InstrumentLimit(kind, resolution, mpe_mm=limit, source=row.source)


def surface_plate_um(diagonal_mm: float, grade: str = "AA") -> Worked[float]:
    """Flatness allowed for a granite plate [µm]: 40 + D²/25 µin for grade AA, D the diagonal in inches.

    Raises:
        BadEntry: no such grade; OutOfRange: no diagonal.

    >>> round(surface_plate_um(762).value, 2)
    1.93
    """
    diagonal_mm, grade = number_of("Diagonal", diagonal_mm, finite=False), text_of("Grade", grade)
    if grade not in PLATE_GRADES:
        raise BadEntry("is no grade of plate.", where="Grade", value=grade, way_out="Use AA, A or B.")
    if not 0 < diagonal_mm <= 10_000:
        raise OutOfRange(
            "is no diagonal of a surface plate (to 10 m).",
            where="Diagonal",
            value=said(diagonal_mm),
            way_out="Measure corner to corner.",
        )
    inches = diagonal_mm / 25.4
    allowed_uin = (40.0 + inches**2 / 25.0) * PLATE_GRADES[grade]
    sheet = Sheet(f"Flatness of a grade {grade} plate")
    sheet.read("diagonal", f"{inches:.4g} in")
    sheet.equation("grade AA", f"40 + {inches:.4g}²/25 = {40.0 + inches**2 / 25.0:.1f} µin", PLATE)
    if grade != "AA":
        sheet.equation(f"grade {grade}", f"x {PLATE_GRADES[grade]} = {allowed_uin:.1f} µin", PLATE_MULTIPLE)
    return Worked(allowed_uin * 0.0254, sheet.close())
