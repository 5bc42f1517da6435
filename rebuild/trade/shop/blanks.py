"""The blank to saw off: finished size, plus cleaning up, to the next stock size; length with chucking.

Allowances are shop habit: chucking 1 to 1-1/2 in, parting 1/8 in, a little to face at each end.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import isfinite

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.lifting import weight_kg
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.own_load import mass_said
from rebuild.trade.sizes.own_unit import both, said
from rebuild.trade.sizes.show import show_both

PRACTICE = Source("Blank length", "chucking 1 to 1-1/2 in, parting 1/8 in, facing", Status.COMMON_PRACTICE)
CHUCKING_MM = 32.0
PARTING_MM = 3.2
FACING_MM = 1.0


@dataclass(frozen=True, slots=True)
class BlankSize:
    """What to saw: stock diameter and length [mm], weight of the whole blank and of what is finished [kg].

    ``spare_mm`` of the length is no part: it is held in the chuck, faced and parted off.
    """

    stock_mm: float
    length_mm: float
    weight_kg: float
    finished_kg: float
    spare_mm: float = 0.0


def skins() -> tuple[str, ...]:
    """The kinds of surface a bar may come with.

    >>> "bright" in skins()
    True
    """
    return tuple(row["skin"] for row in table("blank_allowances").rows)


@cache
def stock_sizes_mm(system: str) -> tuple[float, ...]:
    """Round stock diameters of a system, ``mm`` or ``in`` [mm].

    Raises:
        BadEntry: neither.

    >>> [round(size / 25.4, 4) for size in stock_sizes_mm("in")[:3]]
    [0.125, 0.1875, 0.25]
    """
    if system not in ("mm", "in"):
        raise BadEntry("is neither mm nor in.", where="Stock", value=system)
    scale = 25.4 if system == "in" else 1.0
    sizes: set[float] = set()
    for row in table("stock_sizes").rows:
        if row["system"] == system:
            start, end, step = (float(row[name]) for name in ("from", "to", "step"))
            sizes |= {round((start + n * step) * scale, 6) for n in range(round((end - start) / step) + 1)}
    return tuple(sorted(sizes))


@door()
def next_stock_mm(least_mm: float, system: str) -> float:
    """The smallest stock diameter not below a size [mm].

    Raises:
        OutOfRange: larger than the largest stock size held.

    >>> round(next_stock_mm(0.9 * 25.4, "in") / 25.4, 4)
    0.9375
    """
    for size in stock_sizes_mm(system):
        if size >= least_mm - 1e-6:
            return size
    largest = stock_sizes_mm(system)[-1]
    raise OutOfRange(
        f"is above {said(largest)}, the largest round held in {table('stock_sizes').source.cite()}.",
        where="Stock",
        value=said(least_mm, 4),
        way_out="Look for a ring, a plate or a casting.",
    )


@door()
def round_blank(
    diameter_mm: float,
    length_mm: float,
    material: Material,
    *,
    pieces: int = 1,
    skin: str = "bright",
    system: str = "mm",
    chucking_mm: float = CHUCKING_MM,
    parting_mm: float = PARTING_MM,
) -> Worked[BlankSize]:
    """The round blank of a turned part.

    Args:
        diameter_mm: largest finished diameter.
        length_mm: finished length of one piece.
        material: for the weight.
        pieces: made from one blank, parted off.
        skin: one of ``skins``; decides what is allowed for cleaning up.
        system: stock in ``mm`` or ``in``.
        chucking_mm: left in the chuck.
        parting_mm: width of a parting cut.

    Raises:
        BadEntry: sizes that cannot be, an unknown skin.
        OutOfRange: no stock so large.

    >>> from rebuild.trade.shop.materials import material
    >>> blank = round_blank(24.0, 40.0, material("bearing bronze C93200"), skin="cast-bar").value
    >>> blank.stock_mm, blank.length_mm
    (26.0, 77.2)
    """
    for what, size in (("Diameter", diameter_mm), ("Length", length_mm)):
        if not (isfinite(size) and size > 0):
            raise BadEntry("is not above zero.", where=what, value=said(size))
    if pieces < 1 or chucking_mm < 0 or parting_mm < 0:
        raise BadEntry("are not a number of pieces and two allowances.", where="Blank", value=str(pieces))
    allowance = _allowance(skin)
    stock = next_stock_mm(diameter_mm + allowance, system)
    one = length_mm + 2 * FACING_MM
    length = pieces * one + pieces * parting_mm + chucking_mm
    whole = weight_kg("round", (stock, length), material)
    done = weight_kg("round", (diameter_mm, length_mm), material, pieces)
    sheet = Sheet("Blank of a turned part")
    sheet.read("finished", f"{both(diameter_mm)} x {both(length_mm)}, {pieces} off")
    sheet.table("cleaning up", f"{skin}: {allowance:g} mm on the diameter", table("blank_allowances").source)
    at_least = f"at least {diameter_mm + allowance:.4g} mm"
    sheet.table("stock", f"{at_least}: next size {show_both(stock, system)}", table("stock_sizes").source)
    sheet.equation(
        "length",
        f"{pieces} × ({length_mm:g} + 2 × {FACING_MM:g} facing + {parting_mm:g} parting) + {chucking_mm:g} "
        f"chucking = {show_both(length, 'mm', 1)}",
        PRACTICE,
    )
    sheet.take(whole.working)
    sheet.result(
        "blank",
        f"{show_both(stock, system)} x {show_both(length, 'mm', 1)}, {mass_said(whole.value, system)}",
    )
    return Worked(
        BlankSize(stock, length, whole.value, done.value, length - pieces * length_mm), sheet.close()
    )


def _allowance(skin: str) -> float:
    for row in table("blank_allowances").rows:
        if row["skin"] == skin:
            return float(row["on_diameter_mm"])
    raise BadEntry("is not a skin.", where="Bar", value=skin, way_out=f"Skins: {', '.join(skins())}.")


@door()
def gear_blank_kg(outside_mm: float, bore_mm: float, face_mm: float, material: Material) -> Worked[float]:
    """Weight of a plain gear blank with its bore [kg].

    Raises:
        BadEntry: sizes that cannot be.

    >>> from rebuild.trade.shop.materials import material
    >>> round(gear_blank_kg(105.0, 20.0, 20.0, material("grey cast iron")).value, 2)
    1.19
    """
    return weight_kg("tube", (outside_mm, bore_mm, face_mm), material)
