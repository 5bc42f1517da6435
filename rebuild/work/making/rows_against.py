"""What stands against accepting a made part: a size beyond its limits, one never read, one undecided."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.trade.limits.inward import limit_number
from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.making.roles import role
from rebuild.words.making import LimitsFrom
from rebuild.work.making.rows_as_made import MadeValue
from rebuild.work.making.rows_sheet_lists import SheetPage, SizeRow, StepRow

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()

#: Binary dust on a limit [mm].
_LINE_MM = 1e-9
#: Gone once the bush is in: nobody can read it on the finished part.
_ON_THE_WAY = "bore before pressing"
_ASKED = (LimitsFrom.MATE, LimitsFrom.SPEC)


class How(enum.Enum):
    """In which way a size does not simply conform."""

    OUTSIDE = "outside"
    UNREAD = "unread"
    UNSURE = "unsure"


@dataclass(frozen=True, slots=True)
class Against:
    """One size: its ``limits`` and what it ``read`` in words, and by how much it is ``off``."""

    how: How
    name: str
    feature_id: int | None
    limits: str
    read: str
    off: str
    sentence: str

    @property
    def line(self) -> str:
        """``bore: 0.6257 to 0.6262 in, reads 0.6267 in, 0.0005 in over``."""
        told = f"reads {self.read}" if self.read else self.sentence
        return ", ".join(filter(None, (f"{self.name}: {self.limits}", told, self.off)))


def against(page: SheetPage) -> tuple[Against, ...]:
    """Every size with limits that does not conform, in the order of the sheet.

    A size whose reading lies beyond a limit is outside, whatever its uncertainty. One that nothing measures is
    taken as made when the operation naming it is ticked, or all of them where none does.
    """
    found = [_of_size(page, size) for size in page.sizes]
    return tuple(one for one in found if one is not None)


def _of_size(page: SheetPage, size: SizeRow) -> Against | None:
    if size.measure.low_mm is None and size.measure.high_mm is None:
        return None
    beyond = [value for value in size.made if _over_mm(size, value) or value.verdict is Verdict.DOES_NOT]
    if beyond:
        worst = max(beyond, key=lambda value: abs(_over_mm(size, value)))
        return _told(How.OUTSIDE, size, worst, page.head.unit)
    unsure = next((value for value in size.made if value.verdict is Verdict.UNDECIDED), None)
    if unsure is not None:
        return _told(How.UNSURE, size, unsure, page.head.unit)
    if size.made or not _to_be_known(page, size):
        return None
    return Against(How.UNREAD, size.name, size.feature_id, size.words, "", "", "never read")


def _over_mm(size: SizeRow, value: MadeValue) -> float:
    """How far a value lies over (+) or under (-) its limits [mm]; 0 within them."""
    low, high = size.measure.low_mm, size.measure.high_mm
    if high is not None and value.value_mm > high + _LINE_MM:
        return value.value_mm - high
    if low is not None and value.value_mm < low - _LINE_MM:
        return value.value_mm - low
    return 0.0


def _told(how: How, size: SizeRow, value: MadeValue, unit: str) -> Against:
    over = _over_mm(size, value)
    off = ""
    if over:
        off = f"{limit_number(abs(over), unit)} {unit} {'over' if over > 0 else 'under'}"
    elif how is How.UNSURE:
        off = "undecided"
    return Against(how, size.name, size.feature_id, size.words, value.words, off, value.sentence)


def _to_be_known(page: SheetPage, size: SizeRow) -> bool:
    kind = role(page.head.shape.value, size.role)
    if size.role == _ON_THE_WAY or (kind is not None and not kind.is_length):
        return False
    if size.measured_with or (size.feature_id is not None and size.limits_from in _ASKED):
        return True
    return not _worked(page.steps, size)


def _worked(steps: Sequence[StepRow], size: SizeRow) -> bool:
    """Whether the operations that make a size are ticked."""
    named = [step for step in steps if f"{{{size.role or size.name}}}" in step.text] or list(steps)
    return bool(named) and all(step.done_at is not None for step in named)
