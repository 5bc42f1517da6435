"""A fit as it is entered, and what its features say of the joint and the kind when nobody else does."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.words.fits import Adjuster, FitJoint, FitKind, Side, WantedOrigin
from rebuild.words.readings import FeatureKind

_JOINT_OF = {
    FeatureKind.THREAD: FitJoint.NUT_AND_SCREW, FeatureKind.WAY: FitJoint.SLIDE_AND_WAY,
    FeatureKind.TAPER: FitJoint.TAPER, FeatureKind.GEAR: FitJoint.GEAR_MESH,
}  # fmt: skip
_KIND_OF = {
    FitJoint.NUT_AND_SCREW: FitKind.THREAD, FitJoint.SLIDE_AND_WAY: FitKind.SLIDING,
    FitJoint.TAPER: FitKind.TAPER, FitJoint.GEAR_MESH: FitKind.MESH,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class FitEntry:
    """A fit as it is entered. ``kind`` and ``joint`` are guessed from the features when None."""

    outer_id: int
    inner_id: int
    kind: FitKind | None = None
    joint: FitJoint | None = None
    wanted: str = ""
    origin: WantedOrigin | None = None
    wanted_note: str = ""
    name: str = ""
    unit: str | None = None
    master: Side | None = None
    adjuster: Adjuster = Adjuster.NONE
    gap_id: int | None = None
    outer_station_id: int | None = None
    inner_station_id: int | None = None
    note: str = ""


def joint_of(outer: FeatureKind, inner: FeatureKind) -> FitJoint:
    """What two features make together: the inner one says it first."""
    return _JOINT_OF.get(inner) or _JOINT_OF.get(outer) or FitJoint.HOLE_AND_SHAFT


def kind_of(joint: FitJoint) -> FitKind:
    """How the sides of a joint usually move: running unless it is one of its own kind."""
    return _KIND_OF.get(joint, FitKind.RUNNING)
