"""The form of each thread: flank angle, heights, crests and roots as multiples of the pitch."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, tan

from rebuild.errors import BadEntry
from rebuild.trade.results.working import Source, Status
from rebuild.trade.sizes.given import word_of
from rebuild.trade.threads.series import INCLUDED_ANGLE, System


@dataclass(frozen=True, slots=True)
class Form:
    """One thread form; lengths are multiples of the pitch.

    ``addendum``: pitch line to crest of the screw. ``straight``: pitch line to the end of its straight
    flank. ``screw_depth``/``nut_depth``: how deep a single-point tool goes in a sharp-cornered, clearance-free
    form. ``full_height``: depth of a "full" thread for tap-drill percentages (one side).
    """

    system: System
    included_deg: float
    addendum: float
    straight: float
    screw_depth: float
    nut_depth: float
    screw_flat: float
    nut_flat: float
    root_radius: float
    full_height: float
    source: Source

    @property
    def half_rad(self) -> float:
        """Half the included angle [rad]."""
        return radians(self.included_deg / 2)

    @property
    def best_wire(self) -> float:
        """Wire that touches at the pitch line: ``1 / (2 cos a)``."""
        return 1 / (2 * cos(self.half_rad))

    @property
    def smallest_wire(self) -> float:
        """Wire whose top is flush with the crest."""
        a = self.half_rad
        return (2 * self.addendum + 0.5 / tan(a)) / (1 + 1 / sin(a))

    @property
    def largest_wire(self) -> float:
        """Wire that touches at the outer end of the straight flank."""
        a = self.half_rad
        return (0.5 + 2 * self.straight * tan(a)) / cos(a)


def _rounded_top(addendum: float, radius: float, included_deg: float) -> float:
    return addendum - radius * (1 - sin(radians(included_deg / 2)))


def _form(
    system: System,
    addendum: float,
    depths: tuple[float, float],
    flats: tuple[float, float],
    radius: float,
    full: float,
    source: Source,
    *,
    rounded: bool = False,
) -> Form:
    angle = INCLUDED_ANGLE[system]
    straight = _rounded_top(addendum, radius, angle) if rounded else addendum
    return Form(system, angle, addendum, straight, *depths, *flats, radius, full, source)


_TAN145, _TAN15 = tan(radians(14.5)), tan(radians(15))
_ISO = Source("ISO 68-1", "basic and design profile", Status.PUBLISHED)
_UN = Source("ASME B1.1-2003", "UN and UNR forms", Status.PUBLISHED)
_ACME = Source("ASME B1.5-1997", "general purpose form", Status.PUBLISHED)
_STUB = Source("ASME B1.8-1988", "stub form", Status.PUBLISHED)
_TR = Source("ISO 2901", "basic and design profile", Status.PUBLISHED)
_BS84 = Source("BS 84:1956", "Whitworth form", Status.PUBLISHED)
_BS93 = Source("BS 93", "BA form", Status.PUBLISHED)
_ACME_FLAT, _STUB_FLAT, _TR_FLAT = 0.5 - 0.5 * _TAN145, 0.5 - 0.3 * _TAN145, 0.5 - 0.5 * _TAN15

_SIXTY = (0.32475953, (0.64951905, 0.54126588), (0.125, 0.125), 0.14433757, 0.64951905)
_BRITISH = (0.3201635, (0.640327, 0.640327), (0.0, 0.0), 0.137329, 0.640327)

FORMS: dict[System, Form] = {
    System.UNIFIED: _form(System.UNIFIED, *_SIXTY, _UN),
    System.METRIC: _form(System.METRIC, *_SIXTY, _ISO),
    System.ACME: _form(System.ACME, 0.25, (0.5, 0.5), (_ACME_FLAT, _ACME_FLAT), 0.0, 0.5, _ACME),
    System.STUB_ACME: _form(System.STUB_ACME, 0.15, (0.3, 0.3), (_STUB_FLAT, _STUB_FLAT), 0.0, 0.3, _STUB),
    System.TRAPEZOIDAL: _form(System.TRAPEZOIDAL, 0.25, (0.5, 0.5), (_TR_FLAT, _TR_FLAT), 0.0, 0.5, _TR),
    System.WHITWORTH: _form(System.WHITWORTH, *_BRITISH, _BS84, rounded=True),
    System.PIPE_PARALLEL: _form(System.PIPE_PARALLEL, *_BRITISH, _BS84, rounded=True),
    System.BA: _form(System.BA, 0.3, (0.6, 0.6), (0.0, 0.0), 0.1808346, 0.6, _BS93, rounded=True),
}


def form(system: System) -> Form:
    """The form of a system.

    Raises:
        BadEntry: no such system, or one without a form here (taper pipe).

    >>> round(form(System.ACME).best_wire, 5), round(form(System.ACME).largest_wire, 5)
    (0.51645, 0.65001)
    """
    known = word_of("Thread system", system, System)
    if known not in FORMS:
        raise BadEntry(
            "has no form carried here.",
            where="Thread system",
            value=known.value,
            way_out="Use its own standard (ASME B1.20.1).",
        )
    return FORMS[known]
