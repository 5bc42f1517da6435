"""A block of data on a sheet."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.results.working import Working

Lines = list[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class DataBlock:
    """One block of data: its title, its lines (label, text), its working; or the trouble in a sentence."""

    title: str
    lines: tuple[tuple[str, str], ...]
    working: Working | None = None
    trouble: str = ""
