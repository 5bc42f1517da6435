"""What the test chart is made of: tests, positions and readings as frozen rows, and their words."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass

from rebuild.trade.charts.entry import SignWords
from rebuild.trade.charts.geometry_tests import Limit
from rebuild.trade.charts.limit import Allowed
from rebuild.trade.limits.judgement import Judgement, Verdict
from rebuild.trade.sizes.show import show_length
from rebuild.words.charts import ChartStage, LimitSign, LimitStatus

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class ReadRow:
    """One reading of a position; ``says`` is its side in words, ``trouble`` why it cannot be judged."""

    id: int
    stage: ChartStage
    typed: str
    value_mm: float
    over_mm: float | None
    instrument: str
    temperature_c: float | None
    taken_at: dt.datetime
    adjusted: str
    note: str
    says: str
    wrong_way: str
    judgement: Judgement | None
    trouble: str

    @property
    def verdict(self) -> Verdict:
        """The verdict; undecided where the limit does not hold for the length read."""
        return self.judgement.verdict if self.judgement is not None else Verdict.UNDECIDED


@dataclass(frozen=True, slots=True)
class LineRow:
    """One position. ``found`` and ``after`` are the newest readings of each stage; ``edited``: not the list's limit."""

    id: int
    test_id: int
    key: str
    name: str
    unit: str
    words: SignWords
    limit: Allowed
    origin: str
    status: LimitStatus
    edited: bool
    listed: tuple[Limit, ...]
    readings: tuple[ReadRow, ...]

    def newest(self, stage: ChartStage) -> ReadRow | None:
        """The newest reading of a stage."""
        return next((row for row in self.readings if row.stage is stage), None)

    @property
    def found(self) -> ReadRow | None:
        """As found."""
        return self.newest(ChartStage.AS_FOUND)

    @property
    def after(self) -> ReadRow | None:
        """After the work."""
        return self.newest(ChartStage.AFTER)

    def allowed_short(self, unit: str) -> str:
        """What is allowed for a narrow column: ``0…0.02 mm / 300 mm``; ``?`` when no figure is known."""
        if self.limit.allowed_mm is None:
            return "?"
        text = self._text(unit).replace(" per ", " / ")
        return {LimitSign.EITHER: "± ", LimitSign.PLUS_ONLY: "0…", LimitSign.SIZE: "≤ "}[
            self.words.sign
        ] + text

    def _text(self, unit: str) -> str:
        if self.limit.allowed_mm is None or unit in self.limit.text.split():
            return self.limit.text
        per = f" per {show_length(self.limit.per_mm, unit, 1)}" if self.limit.per_mm else ""
        return f"{show_length(self.limit.allowed_mm, unit)}{per}"

    def allowed_words(self, unit: str) -> str:
        """What is allowed, with its side: ``0 to 0.02 mm per 300 mm, hollow only``; converted, as typed behind it."""
        if self.limit.allowed_mm is None:
            return "no figure known"
        text = self._text(unit)
        text += f" ({self.limit.text})" if text != self.limit.text else ""
        if self.words.sign is LimitSign.EITHER:
            return f"± {text}"
        if self.words.sign is LimitSign.PLUS_ONLY:
            return f"0 to {text}, {self.words.plus} only"
        return f"≤ {text}"


@dataclass(frozen=True, slots=True)
class TestRow:
    """One test with its positions, and sentences about the order it was read in."""

    __test__ = False

    id: int
    key: str
    number: str
    name: str
    sketch: str
    set_up: str
    after_id: int | None
    note: str
    lines: tuple[LineRow, ...]
    warnings: tuple[str, ...] = ()

    @property
    def called(self) -> str:
        """Number and name."""
        return f"{self.number} {self.name}".strip()


def shown_value(row: ReadRow, unit: str, own: str) -> str:
    """A reading for people: the deviation with its sign, and its side in words."""
    return f"{shown_size(row, unit, own)} {row.says}".strip()


def shown_size(row: ReadRow, unit: str, own: str) -> str:
    """A reading's deviation with its sign, to as many decimals as were typed where the unit is the same.

    ``own`` is the position's unit, that of a bare number.
    """
    typed = re.match(r"[-+ ]*\d*(?:[.,](?P<part>\d+))?\s*(?P<unit>\S*)", row.typed)
    decimals = None
    if typed is not None and (typed["unit"] or own) == unit:
        decimals = len(typed["part"] or "")
    return show_length(row.value_mm, unit, decimals, sign=bool(row.says))
