"""Set screws: seating torque, what they hold, two on one hub, and the second one hidden on top.

Holding power is of a cup point on a plain steel shaft; other points and a hard shaft change it. Two screws
do not hold twice: it depends where they stand.
"""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.amounts import LBF_IN_NM
from rebuild.trade.sizes.own_unit import both, said
from rebuild.words.teardown import FastenerPoint

#: Holding power of a point against the cup point's.
POINTS = {
    FastenerPoint.CUP.value: 1.0, "knurled cup": 1.0, FastenerPoint.CONE.value: 1.07, FastenerPoint.FLAT.value: 0.92,
    FastenerPoint.DOG.value: 0.92, FastenerPoint.OVAL.value: 0.90,
}  # fmt: skip
#: Two screws against one.
PAIRS = {
    "one": 1.0,
    "two in line along the shaft": 2.0,
    "two at 60 degrees": 1.75,
    "two at 90 degrees": 1.6,
    "two at 180 degrees": 1.3,
    "one on top of the other": 1.0,
}
POINT_SOURCE = Source("Points of set screws", "against a cup point, public chart", Status.PUBLISHED)
PAIR_SOURCE = Source("Two set screws", "share of one screw's hold by their angle", Status.FROM_MEMORY)
HARD_SHAFT_LOSS = 0.85
SHAFT_SHARE = Source("Screw about half the shaft's diameter, at most", "", Status.COMMON_PRACTICE)
STACKED = Source("Double set screw", "the upper one locks the lower one", Status.COMMON_PRACTICE)


@dataclass(frozen=True, slots=True)
class SetScrew:
    """One size: diameter [mm], seating torque [N·m], axial holding power [N] or None when not known."""

    size: str
    d_mm: float
    seating_Nm: float
    holding_N: float | None


@dataclass(frozen=True, slots=True)
class Hold:
    """What the screw or screws hold: axially [N] and as torque on the shaft [N·m]."""

    seating_Nm: float
    axial_N: float
    torque_Nm: float


def set_screws() -> tuple[SetScrew, ...]:
    """Every size in the table.

    >>> next(one.d_mm for one in set_screws() if one.size == "1/4")
    6.35
    """
    return tuple(
        SetScrew(
            row["size"],
            float(row["d_mm"]),
            float(row["seating_Nm"]),
            float(row["holding_N"]) if row["holding_N"] else None,
        )
        for row in table("set_screws").rows
    )


@door()
def set_screw(size: str) -> SetScrew:
    """One set screw by size: ``1/4``, ``#10``, ``M6``; a pitch after it is passed over.

    Raises:
        OutOfRange: not in the table; lists the sizes.

    >>> round(set_screw("5/16-18").seating_Nm, 2)
    18.64
    """
    plain = size.strip().upper().replace("NO.", "#").replace(" ", "")
    head = plain.split("X")[0] if plain.startswith("M") else plain.split("-")[0]
    for one in set_screws():
        if one.size in (head, f"#{head}"):
            return one
    found = table("set_screws").source
    raise OutOfRange(
        "is not a set screw in the table.",
        where="Set screw",
        value=size,
        way_out=f"Sizes: {', '.join(one.size for one in set_screws())} ({found.cite()}).",
    )


@door()
def hold(
    screw: SetScrew,
    shaft_mm: float,
    point: str = FastenerPoint.CUP,
    pair: str = "one",
    hard_shaft: bool = False,
) -> Worked[Hold]:
    """What set screws hold on a shaft of this diameter, seated at the full torque.

    A metric size takes its holding power from the inch screw of nearest size, by diameter squared.

    Raises:
        BadEntry: an unknown point or arrangement, or no shaft.
        OutOfRange: the screw is larger than the shaft bears.

    >>> round(hold(set_screw("1/4"), 12.7).value.torque_Nm, 1)
    28.2
    """
    for name, choices, value in (("Point", POINTS, point), ("Arrangement", PAIRS, pair)):
        if value not in choices:
            raise BadEntry("is not known.", where=name, value=value, way_out=f"Choose {', '.join(choices)}.")
    if not screw.d_mm < shaft_mm:
        raise OutOfRange(
            f"is not larger than the screw's {said(screw.d_mm)} ({SHAFT_SHARE.cite()}).",
            where="Shaft",
            value=both(shaft_mm),
            way_out="Take a screw of about half the shaft's diameter, or a pin.",
        )
    sheet = Sheet(f"Set screw {screw.size} on a {both(shaft_mm)} shaft")
    source = table("set_screws").source
    single = _single_N(sheet, screw, source)
    factor = POINTS[point] * PAIRS[pair] * (HARD_SHAFT_LOSS if hard_shaft else 1.0)
    axial = single * factor
    torque = axial * shaft_mm / 2000.0
    sheet.table(
        "seating torque", f"{screw.seating_Nm:.2f} N·m ({screw.seating_Nm / LBF_IN_NM:.0f} lbf·in)", source
    )
    sheet.table("point", f"{point}: x {POINTS[point]:g}", POINT_SOURCE)
    sheet.table("arrangement", f"{pair}: x {PAIRS[pair]:g}", PAIR_SOURCE)
    if hard_shaft:
        sheet.note(
            f"The shaft is within 10 HRC of the screw: x {HARD_SHAFT_LOSS:g}, the point cannot bite.",
            POINT_SOURCE,
        )
    sheet.equation("holds", f"{single:.0f} x {factor:.3f} = {axial:.0f} N along the shaft")
    sheet.equation("torque", f"{axial:.0f} N x {shaft_mm / 2:g} mm = {torque:.2f} N·m")
    sheet.note(
        "Take a factor of 1.5 to 2 for a steady load, 4 to 8 where it shakes or reverses.", POINT_SOURCE
    )
    _stacked(sheet, pair)
    if screw.d_mm > 0.55 * shaft_mm:
        sheet.note("The screw is more than about half the shaft: the shaft is weakened.", SHAFT_SHARE)
    sheet.note(
        "File a flat or drill a dimple where the point lands, so that the burr does not lock the hub on."
    )
    return Worked(Hold(screw.seating_Nm, axial, torque), sheet.close())


def _single_N(sheet: Sheet, screw: SetScrew, source: Source) -> float:
    if screw.holding_N is not None:
        sheet.table("axial hold, cup point", f"{screw.holding_N:.0f} N", source)
        return screw.holding_N
    known = [one for one in set_screws() if one.holding_N is not None]
    near = min(known, key=lambda one: abs(one.d_mm - screw.d_mm))
    value = (near.holding_N or 0.0) * min(1.0, (screw.d_mm / near.d_mm) ** 2)
    sheet.table(
        "axial hold, cup point", f"{value:.0f} N, from the {near.size} screw by diameter squared", source
    )
    return value


def _stacked(sheet: Sheet, pair: str) -> None:
    if pair == "one on top of the other":
        sheet.note(
            "The upper screw only locks the lower: hold the lower from turning while the upper is run down.",
            STACKED,
        )
        sheet.note("Write it on the removal log: the next hand will take the hub for seized.", STACKED)
    else:
        sheet.note(
            "Before pulling a hub that will not move, look for a second screw under the first.", STACKED
        )
