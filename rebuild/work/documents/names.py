"""What a call-out on a page of a manual names."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Names:
    """What a call-out names: a part, one of its features (whose spec stands there), or an oil point; at most one."""

    part_id: int | None = None
    feature_id: int | None = None
    oil_point_id: int | None = None
