"""How two sizes of a joint make a clearance: holes and shafts, threads, tapers, gears in mesh."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.trade.sizes.given import number_of


@dataclass(frozen=True, slots=True)
class Combining:
    """How two sizes make a clearance: offset + outer_sign x outer + inner_sign x inner [mm].

    ``axial`` turns a diametral clearance into play along the axis (screws) or a stand-off (tapers).
    """

    equation: str = "outer - inner"
    outer_sign: float = 1.0
    inner_sign: float = -1.0
    offset_mm: float = 0.0
    axial: float | None = None
    axial_name: str = ""


SIZES = Combining()


def thread_combining(half_angle_rad: float) -> Combining:
    """Pitch diameters of nut and screw; along the axis they shake by the difference x tan(half the flank angle).

    >>> round(thread_combining(math.radians(14.5)).axial, 4)
    0.2586
    """
    half = number_of("Half angle", half_angle_rad, above=0)
    return Combining(
        "pitch diameter of the nut - of the screw",
        axial=math.tan(half),
        axial_name="lost motion along the axis",
    )


def taper_combining(rate: float) -> Combining:
    """Gauge-line diameters of socket and plug; the plug goes deeper by the difference / taper on diameter.

    >>> round(taper_combining(0.05).axial)
    20
    """
    return Combining(
        "socket at the gauge line - plug",
        axial=1.0 / number_of("Taper", rate, above=0),
        axial_name="plug goes deeper by",
    )


def mesh_combining(module_mm: float) -> Combining:
    """Tooth thicknesses on the pitch circles at standard centres: backlash is the circular pitch less both.

    >>> round(mesh_combining(2.0).offset_mm, 4)
    6.2832
    """
    pitch = math.pi * number_of("Module", module_mm, above=0)
    return Combining(f"pitch {pitch:.4f} mm - both tooth thicknesses", -1.0, -1.0, pitch)
