"""One entry a figure asks for: its kind, its unit and its range."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from rebuild.trade.results.asked import Asked

if TYPE_CHECKING:
    pass


class InputKind(StrEnum):
    """How an entry is typed and checked."""

    LENGTH = "length"  # any size quantity.parse_length takes
    NUMBER = "number"  # a plain number in the input's unit
    WHOLE = "whole number"
    AMOUNT = "amount"  # a mass, force or rate with its unit: sizes.amount
    CHOICE = "choice"
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class Input(Asked):
    """One entry of a figure: ``name`` is the command-line word, ``label`` what the page shows."""

    kind: InputKind
    default: str = ""
    unit: str = (
        ""  # for LENGTH: of a bare number (mm or in); for TEXT: of a bare size in it; NUMBER: shown only
    )
    choices: tuple[str, ...] = ()
    required: bool = field(default=True, kw_only=True)
    signed: bool = field(default=False, kw_only=True)  # for LENGTH: a minus has a meaning here
    quantity: str = field(default="", kw_only=True)  # for AMOUNT: which, of sizes.unit_tables
    inch_unit: str = field(default="", kw_only=True)  # for AMOUNT: of a bare number on an inch machine
    above: float | None = field(default=None, kw_only=True)  # the range of a NUMBER, in words when missed
    least: float | None = field(default=None, kw_only=True)
    most: float | None = field(default=None, kw_only=True)

    def unit_here(self, machine: str) -> str:
        """The unit of a bare number on a machine of this unit; empty: on none."""
        if self.kind is InputKind.AMOUNT:
            return self.inch_unit if machine == "in" and self.inch_unit else self.unit
        return machine or self.unit
