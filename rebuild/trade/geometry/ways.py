"""What each way does to turned work: front V, rear V, front flat, rear flat, and a V worn on one flank.

Seen along the bed from the tailstock: the apex of the front way at (0, 0), of the rear way at (B, 0), the tool H above
them. The saddle is one rigid piece, held sideways by one V only (the guide) and merely carried by the other way.

- A way worn by w square to the bed lets its side of the saddle down by w. With drops f in front and r behind the
  saddle turns by θ, sin θ = (f - r)/B: this is the same whether a V or a flat wears, because a flat lies level and a V
  worn alike on both flanks goes straight down. The tool moves out by about H (f - r)/B. So a front way makes the work
  larger where it is worn, a **rear way makes it smaller**, and equal wear of both only lowers the tool.
- Which V guides decides about what the saddle turns: the guide's apex goes straight down, the other way's foot slides
  level. The difference is of second order, and is worked out exactly here.
- A flat guides nothing, so its wear has no other effect. A V worn unlike on its flanks also moves **sideways**: flanks
  at a from the level, worn n₁ and n₂ square to themselves, meet anew (n₁ + n₂)/(2 cos a) lower and
  (n₁ - n₂)/(2 sin a) towards the flank worn more. Sideways movement s goes into the radius whole: 2 s on the diameter,
  with no lever.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import asin, cos, degrees, hypot, isfinite, radians, sin

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.geometry.wear_effect import WayDrop
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.show import show_both

GEOMETRY = Source("Geometry", "rigid saddle on two ways, guided by one V", Status.COMPUTED)


class Way(StrEnum):
    """Which way a line of a survey is."""

    FRONT_V = "front V"
    FRONT_FLAT = "front flat"
    REAR_V = "rear V"
    REAR_FLAT = "rear flat"
    SIDEWAYS = "guiding V, sideways"
    OTHER = "another"

    @property
    def front(self) -> bool:
        """Whether it carries the side of the saddle where the operator stands."""
        return self in (Way.FRONT_V, Way.FRONT_FLAT)

    @property
    def rear(self) -> bool:
        """Whether it carries the far side of the saddle."""
        return self in (Way.REAR_V, Way.REAR_FLAT)


class Guide(StrEnum):
    """Which way holds the saddle sideways."""

    FRONT = "front way"
    REAR = "rear way"


def way_named(name: str) -> Way:
    """The way a line's name speaks of; ``OTHER`` when it names none.

    >>> way_named("Front V, saddle"), way_named("rear flat"), way_named("back way"), way_named("left dovetail").value
    (<Way.FRONT_V: 'front V'>, <Way.REAR_FLAT: 'rear flat'>, <Way.REAR_FLAT: 'rear flat'>, 'another')
    """
    words = name.casefold().replace(",", " ").replace("-", " ").split()
    if any(word in ("sideways", "plan") for word in words):
        return Way.SIDEWAYS
    if "tailstock" in words:
        return Way.OTHER
    vee = any(word in ("v", "vee", "prism") for word in words)
    if "front" in words:
        return Way.FRONT_FLAT if "flat" in words and not vee else Way.FRONT_V
    if "rear" in words or "back" in words:
        return Way.REAR_V if vee else Way.REAR_FLAT
    return Way.OTHER


def guide_of(ways: tuple[Way, ...]) -> Guide:
    """Which way guides: the front V where there is one, else a rear V; the front without any V.

    >>> guide_of((Way.FRONT_FLAT, Way.REAR_V)).value, guide_of((Way.FRONT_V, Way.REAR_V)).value
    ('rear way', 'front way')
    """
    return Guide.REAR if Way.REAR_V in ways and Way.FRONT_V not in ways else Guide.FRONT


@door()
def ways_effect(
    front_mm: float,
    rear_mm: float,
    centre_height_mm: float,
    way_spacing_mm: float,
    diameter_mm: float,
    guide: Guide = Guide.FRONT,
    sideways_mm: float = 0.0,
) -> Worked[WayDrop]:
    """The error on a turned diameter where the front way lies ``front_mm`` low and the rear way ``rear_mm`` low.

    Args:
        front_mm, rear_mm: below the unworn height (negative: above it).
        centre_height_mm: spindle line above the ways, H; it stands midway between them.
        way_spacing_mm: from front to rear way, B.
        diameter_mm: the work turned there.
        guide: which way holds the saddle sideways.
        sideways_mm: how far the guide has gone to the front, away from the work.

    Raises:
        BadEntry: sizes that cannot be.
        OutOfRange: a difference over a twentieth of the way spacing, which is damage and not wear.

    >>> worn = ways_effect(0.0, 0.1, 165.0, 280.0, 40.0).value  # a rear way 0.1 mm low: 2 · 0.1 · 165/280 smaller
    >>> round(worn.diameter_error_mm, 4), round(worn.approximate_mm, 4)
    (-0.1177, -0.1179)
    """
    _check(centre_height_mm, way_spacing_mm, diameter_mm)
    H, B, apart = centre_height_mm, way_spacing_mm, front_mm - rear_mm
    if abs(apart) > B / 20:
        raise OutOfRange(
            f"is more than a twentieth of the way spacing, {B / 20:.3g} mm: damage, not wear.",
            where="Front against rear",
            value=f"{apart:g} mm",
            way_out="Look at the readings again, or mend the way first.",
        )
    tilt = asin(apart / B)
    out, down = _tool(tilt, front_mm, rear_mm, H, B, diameter_mm, guide)
    out += sideways_mm
    exact = 2 * hypot(diameter_mm / 2 + out, down) - diameter_mm
    rough = 2 * apart * H / B + 2 * sideways_mm
    found = WayDrop(exact, rough, out, down, degrees(tilt))
    return Worked(found, _working(front_mm, rear_mm, H, B, diameter_mm, guide, sideways_mm, found).close())


def _tool(
    tilt: float, front: float, rear: float, H: float, B: float, diameter: float, guide: Guide
) -> tuple[float, float]:
    """How far out to the front, and down, the tool goes: the saddle turned about the apex that guides it."""
    behind = B / 2 - diameter / 2  # where the tool stands, behind the front way
    if guide is Guide.FRONT:
        out = behind * (1 - cos(tilt)) + H * sin(tilt)
        return out, front - behind * sin(tilt) + H * (1 - cos(tilt))
    reach = B - behind
    out = H * sin(tilt) - reach * (1 - cos(tilt))
    return out, rear + reach * sin(tilt) + H * (1 - cos(tilt))


def _working(
    front: float, rear: float, H: float, B: float, d: float, guide: Guide, sideways: float, found: WayDrop
) -> Sheet:
    sheet = Sheet("Both ways and the turned diameter")
    sheet.read("drops", f"front {show_both(front, 'mm', 4)}, rear {show_both(rear, 'mm', 4)}")
    sheet.read(
        "lathe", f"centre height {show_both(H, 'mm')}, ways {show_both(B, 'mm')} apart, guided by the {guide}"
    )
    sheet.equation(
        "roughly",
        f"2 (f - r) H / B{' + 2 s' if sideways else ''} = 2 × ({front:.4g} - {rear:.4g}) × {H:.5g} / {B:.5g}"
        f"{f' + 2 × {sideways:.4g}' if sideways else ''} = {found.approximate_mm:.4f} mm",
        GEOMETRY,
    )
    sheet.equation("tilt", f"asin(({front:.4g} - {rear:.4g}) / {B:.5g}) = {found.tilt_deg:.4f}°", GEOMETRY)
    sheet.equation(
        "tool", f"moves out {found.tool_out_mm:.4f} mm and down {found.tool_down_mm:.4f} mm", GEOMETRY
    )
    sheet.equation(
        "exactly",
        f"2 √(({d / 2:.5g} + {found.tool_out_mm:.4f})² + {found.tool_down_mm:.4f}²) - {d:.5g} = "
        f"{found.diameter_error_mm:.4f} mm",
        GEOMETRY,
    )
    sheet.note("A worn front way turns larger, a worn rear way smaller; worn alike they hardly show.")
    larger = "larger" if found.diameter_error_mm >= 0 else "smaller"
    sheet.result("diameter", f"{show_both(found.diameter_error_mm, 'mm', 4)} {larger}")
    return sheet


def _check(height: float, spacing: float, diameter: float) -> None:
    for what, size in (("Centre height", height), ("Way spacing", spacing), ("Diameter", diameter)):
        if not (isfinite(size) and size > 0):
            raise BadEntry("is not above zero.", where=what, value=f"{size:g} mm", way_out="Measure it.")
    if diameter >= spacing:
        raise OutOfRange(
            "is larger than the ways are apart.",
            where="Diameter",
            value=f"{diameter:g} mm",
            way_out="Type a diameter that is turned between the ways.",
        )


@dataclass(frozen=True, slots=True)
class Flanks:
    """Where the apex of a V has gone [mm]: straight down, and towards its front flank."""

    down_mm: float
    to_front_mm: float


@door()
def worn_flanks(front_mm: float, rear_mm: float, flank_deg: float = 45.0) -> Worked[Flanks]:
    """Where a V's apex goes when its flanks wear, each square to itself.

    Args:
        front_mm, rear_mm: wear of the flank to the front and of the one to the rear.
        flank_deg: of each flank from the level; 45 for a right-angled V.

    Raises:
        OutOfRange: a flank outside 20 to 80°.

    >>> found = worn_flanks(0.02, 0.0).value
    >>> round(found.down_mm, 5), round(found.to_front_mm, 5)
    (0.01414, 0.01414)
    """
    if not 20.0 <= flank_deg <= 80.0:
        raise OutOfRange("is outside 20 to 80°.", where="Flank", value=f"{flank_deg:g}°")
    down = (front_mm + rear_mm) / (2 * cos(radians(flank_deg)))
    side = (front_mm - rear_mm) / (2 * sin(radians(flank_deg)))
    sheet = Sheet("A V worn on its flanks")
    sheet.equation(
        "down", f"({front_mm:.4g} + {rear_mm:.4g}) / (2 cos {flank_deg:g}°) = {down:.4f} mm", GEOMETRY
    )
    sheet.equation(
        "to the front", f"({front_mm:.4g} - {rear_mm:.4g}) / (2 sin {flank_deg:g}°) = {side:.4f} mm", GEOMETRY
    )
    sheet.note("Going sideways counts twice on the diameter, whatever the height of centres.")
    return Worked(Flanks(down, side), sheet.close())
