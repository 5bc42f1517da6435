"""Whose limits a size of a sheet has: its mate's when there is one; two lines for one size that cannot both hold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.making import MakingDimensions
from rebuild.trade.making.derive import thread_name
from rebuild.trade.sizes.show import show_length
from rebuild.words.making import LimitsFrom

#: The tables the lookups here ask.
READS = frozenset({"feature", "making_dimension"})

_RANK = (LimitsFrom.MATE, LimitsFrom.OWN, LimitsFrom.SPEC)


def rank(origin: LimitsFrom) -> int:
    """The owner of a size comes first: its mate, then what was typed, a spec, and last a table.

    >>> rank(LimitsFrom.MATE) < rank(LimitsFrom.OWN) < rank(LimitsFrom.SPEC) < rank(LimitsFrom.TABLE)
    True
    """
    return _RANK.index(origin) if origin in _RANK else len(_RANK)


def is_pitch_diameter(name: str) -> bool:
    """Whether a size is the pitch diameter of the sheet's thread, by its name.

    >>> is_pitch_diameter("screw thread, pitch diameter"), is_pitch_diameter("bore")
    (True, False)
    """
    return "pitch diameter" in name.lower() or name.lower().startswith("pitch d")


def same_thread(one: str, other: str) -> bool:
    """Whether two designations can be of one thread; one that is not written can be of any.

    >>> same_thread("1/2-10 LH ACME", "1/2-10 acme lh"), same_thread("", "M6"), same_thread("M5", "M6")
    (True, True, False)
    """
    return not one.strip() or not other.strip() or thread_name(one) == thread_name(other)


@dataclass(frozen=True, slots=True)
class _Line:
    name: str
    feature_id: int | None
    low_mm: float | None
    high_mm: float | None
    pitch: bool


def two_for_one(connection: Connection, sheet_id: int, thread: str, unit: str) -> str:
    """The two lines of a sheet that are one size and cannot both hold, in a sentence; empty when there are none."""
    query = (
        select(*MakingDimensions.columns(), Features.thread.label("own_thread"))
        .outerjoin(Features, Features.id == MakingDimensions.feature_id)
        .where(MakingDimensions.sheet_id == sheet_id)
        .order_by(MakingDimensions.position, MakingDimensions.id)
    )
    lines = []
    for row in connection.execute(query):
        pitch = not row.role and is_pitch_diameter(row.name) and same_thread(row.own_thread or "", thread)
        lines.append(_Line(row.name, row.feature_id, row.low_mm, row.high_mm, pitch))
    for place, line in enumerate(lines):
        for other in lines[place + 1 :]:
            if _one_size(line, other) and _apart(line, other):
                return f"{_said(line, unit)} and {_said(other, unit)} are one size and cannot both hold"
    return ""


def _one_size(line: _Line, other: _Line) -> bool:
    return (line.feature_id is not None and line.feature_id == other.feature_id) or (
        line.pitch and other.pitch
    )


def _apart(line: _Line, other: _Line) -> bool:
    """Whether no size meets both."""
    lows = [end for end in (line.low_mm, other.low_mm) if end is not None]
    highs = [end for end in (line.high_mm, other.high_mm) if end is not None]
    return bool(lows and highs) and max(lows) > min(highs) + 1e-9


def _said(line: _Line, unit: str) -> str:
    ends: Sequence[float] = [end for end in (line.low_mm, line.high_mm) if end is not None]
    return f"{line.name} {' to '.join(show_length(end, unit) for end in ends)}"
