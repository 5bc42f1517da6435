"""The blank of a part from its sizes: round stock for what is turned, bar or plate for what is not."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.roles import Role, roles
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.blanks import PARTING_MM, BlankSize, round_blank
from rebuild.trade.shop.lifting import weight_kg
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.own_load import mass_said
from rebuild.trade.sizes.show import show_both, show_length
from rebuild.words.making import PartShape

#: Left on every face of a key or strip for planing and fitting [mm].
FILED_MM = 1.5
PRACTICE = Source(
    "Blank of a filed part", "1.5 mm on every face, a saw cut at the end", Status.COMMON_PRACTICE
)
_FILED: dict[str, tuple[str, ...]] = {
    PartShape.KEY: ("width", "height", "length"),
    PartShape.GIB: ("thick end", "width", "length"),
}
#: The sizes that laid end to end make the length, where it is not one size.
_LAID_END_TO_END: dict[str, tuple[str, ...]] = {
    PartShape.SHAFT: tuple(f"length {number}" for number in range(1, 7)),
    PartShape.SCREW: ("journal length", "collar length", "thread length", "end journal length"),
    PartShape.HANDLE: ("shank length", "grip length"),
    PartShape.GEAR: ("face width", "hub length"),
    PartShape.WASHER: ("thickness",),
    PartShape.COLLAR: ("width",),
}


@door()
def blank_of(
    shape: str,
    sizes: Mapping[str, Measure],
    material: Material,
    *,
    skin: str = "bright",
    unit: str = "mm",
    pieces: int = 1,
) -> Worked[BlankSize]:
    """The blank to saw off.

    Raises:
        BadEntry: a size it needs is not given, or an unknown skin.
        OutOfRange: no stock so large.

    >>> from rebuild.trade.shop.materials import material
    >>> sizes = {"outside diameter": Measure("outside", 24.0), "length": Measure("length", 40.0)}
    >>> blank_of("bush", sizes, material("bearing bronze C93200"), skin="cast-bar").value.length_mm
    77.2
    """
    if shape in _FILED:
        return _filed(shape, sizes, material, pieces)
    diameter = finished_across(shape, sizes)
    length = finished_length(shape, sizes)
    return round_blank(diameter, length, material, pieces=pieces, skin=skin, system=unit)


def blank_words(blank: BlankSize, shape: str, unit: str) -> str:
    """What to saw off, in words.

    >>> blank_words(BlankSize(26.0, 77.2, 0.361, 0.16), PartShape.BUSH, "mm")
    'round 26.000 mm (1.0236 in), 77.20 mm (3.0394 in) long, 0.361 kg'
    >>> blank_words(BlankSize(25.4, 76.2, 0.361, 0.16, 38.1), PartShape.BUSH, "in")
    'round 1.0000 in (25.400 mm), 3.00 in (76.200 mm) long (1.50 in to hold, face and part off), 0.796 lb (0.361 kg)'
    """
    if shape in _FILED:
        return f"bar, at least {show_both(blank.stock_mm, unit)} across, {show_both(blank.length_mm, unit, 2)} long"
    length = show_both(blank.length_mm, unit, 2)
    spare = show_length(blank.spare_mm, unit, 2 if unit == "in" else 1)
    why = f" ({spare} to hold, face and part off)" if blank.spare_mm else ""
    return f"round {show_both(blank.stock_mm, unit)}, {length} long{why}, {mass_said(blank.weight_kg, unit)}"


def finished_across(shape: str, sizes: Mapping[str, Measure]) -> float:
    """The largest finished diameter; of a filed part its smaller side across [mm]. Raises BadEntry where not known.

    >>> finished_across("bush", {"outside diameter": Measure("outside diameter", None, 23.9, 24.0)})
    24.0
    >>> finished_across("nut", {"bore": Measure("bore", 10.2)})
    Traceback (most recent call last):
    rebuild.errors.BadEntry: Body diameter: is not known yet. Give it, and the blank follows.
    """
    if shape in _FILED:
        sides = [sizes[name].at_mm for name in _FILED[shape][:2] if name in sizes and sizes[name].given]
        if not sides:
            raise _not_known(_FILED[shape][0].capitalize())
        return min(sides)
    diameters = [
        sizes[role.name].high_mm or sizes[role.name].at_mm
        for role in roles(shape)
        if _is_outside(role) and role.name in sizes and sizes[role.name].given
    ]
    if not diameters:
        # A bore alone says nothing of the metal round it: a nut's blank was once smaller than its thread.
        first = next((role.name for role in roles(shape) if _is_outside(role)), "largest diameter")
        raise _not_known(first.capitalize())
    return max(diameters)


def _is_outside(role: Role) -> bool:
    """Whether a diameter bounds the part from outside."""
    inner = ("bore", "hole", "pitch diameter", "root diameter")
    return role.kind == "diameter" and not any(word in role.name for word in inner)


def finished_length(shape: str, sizes: Mapping[str, Measure]) -> float:
    """The finished length: one length, or the sum of the lengths laid end to end [mm]. Raises BadEntry.

    >>> finished_length("gear", {"face width": Measure("face width", 20.0), "hub length": Measure("hub length", 8.0)})
    28.0
    """
    parts = _LAID_END_TO_END.get(shape, ("length",))
    found = [sizes[name].at_mm for name in parts if name in sizes and sizes[name].given]
    if not found:
        raise _not_known(parts[0].capitalize())
    return sum(found)


def _filed(shape: str, sizes: Mapping[str, Measure], material: Material, pieces: int) -> Worked[BlankSize]:
    ends = []
    for name in _FILED[shape]:
        measure = sizes.get(name)
        if measure is None or not measure.given:
            raise _not_known(name.capitalize())
        ends.append(measure.at_mm)
    across, high, long = ends
    rough = (across + 2 * FILED_MM, high + 2 * FILED_MM, pieces * (long + 2 * FILED_MM + PARTING_MM))
    whole = weight_kg("flat", rough, material)
    done = weight_kg("flat", (across, high, long), material, pieces)
    sheet = Sheet("Blank of a filed part")
    sheet.read("finished", " x ".join(show_both(size, "mm") for size in ends))
    sheet.equation("rough", " x ".join(f"{size:.1f}" for size in rough) + " mm", PRACTICE)
    sheet.take(whole.working)
    blank = BlankSize(max(rough[0], rough[1]), rough[2], whole.value, done.value)
    return Worked(blank, sheet.close())


def _not_known(size: str) -> BadEntry:
    return BadEntry("is not known yet.", where=size, way_out="Give it, and the blank follows.")
