"""What a call-out on a page of a manual names."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Names:
    """What a call-out names: a part, one of its features (whose spec stands there), or an oil point; at most one."""

    part_id: int | None = None
    feature_id: int | None = None
    oil_point_id: int | None = None


@dataclass(frozen=True, slots=True)
class NewPart:
    """A part named on a page before anybody listed it, and the subassembly it is made in (None: loose parts)."""

    name: str
    subassembly_id: int | None = None
