"""A fit as prepared strings, for the list and the panes beside it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from rebuild.trade.fits.now import FitNow, PairNow
from rebuild.trade.fits.words import deciding
from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.sizes.show import DECIMALS, show_length, show_number
from rebuild.window.ink.shapes import Shape
from rebuild.words.counted import counted
from rebuild.words.decisions import Decision
from rebuild.work.fits.rows import FitRow, FitState
from rebuild.work.fits.rows_sides import SideRow

COLUMNS = ("Fit", "State", "To be", "As found", "Now", "±", "Master → follower", "Kind")
#: Keeps a figure with its sign and unit on one line.
NO_BREAK = "\N{NO-BREAK SPACE}"

#: Gives the unit a length is shown in, from its own.
UnitFor = Callable[[str], str]

_SHAPES = {
    FitState.NO_READING: Shape.UNKNOWN,
    FitState.WAITS: Shape.WAITS,
    FitState.DOES_NOT: Shape.DOES_NOT,
    FitState.UNDECIDED: Shape.UNDECIDED,
    FitState.CONFORMS: Shape.CONFORMS,
    FitState.NO_RANGE: Shape.NO_SPEC,
}
_WORST = (
    FitState.DOES_NOT, FitState.UNDECIDED, FitState.WAITS, FitState.NO_READING, FitState.NO_RANGE, FitState.CONFORMS,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class FitLine:
    """One row of the list."""

    id: int
    state: FitState
    stale: bool
    texts: tuple[str, ...]
    shape: Shape
    tip: str
    sought: str

    @property
    def rank(self) -> int:
        """Worst first."""
        return _WORST.index(self.state)


def line_of(row: FitRow, unit_for: UnitFor) -> FitLine:
    """The strings of one fit."""
    unit = unit_for(row.unit)
    texts = (
        row.title,
        _state_words(row),
        in_unit_of(short(row.low_mm, row.high_mm, unit), unit) if row.wanted_text else "",
        _found_short(row.found, unit),
        _found_short(row.now, unit),
        show_number(deciding(row.now).budget.U_mm, unit, DECIMALS[unit] + 1) if row.now is not None else "",
        _who(row),
        row.kind.value,
    )
    tip = "\n".join([row.sentence, *(f"• {said}" for said in row.stale)])
    sought = " ".join((*texts, row.outer.title, row.inner.title)).lower()
    return FitLine(row.id, row.state, bool(row.stale), texts, _shape(row), tip, sought)


def _fails_already(row: FitRow) -> bool:
    return row.state is FitState.WAITS and row.now is not None and row.now.verdict is Verdict.DOES_NOT


def _shape(row: FitRow) -> Shape:
    return Shape.DOES_NOT if _fails_already(row) else _SHAPES[row.state]


def _state_words(row: FitRow) -> str:
    """Where it stands; that it waits never hides that what is known does not conform."""
    words = [row.state.value]
    if _fails_already(row):
        words.insert(0, FitState.DOES_NOT.value)
    return ", ".join([*words, *(["stale"] if row.stale else [])])


def short(low_mm: float | None, high_mm: float | None, unit: str) -> str:
    """A range in as few signs as can be read: ``0.0010-0.0015``, ``0.0008-0.0012 tight``, ``-0.01 to +0.02``.

    >>> short(-0.03, -0.01, "mm"), short(-0.015, 0.019, "mm"), short(None, 0.1, "mm")
    ('0.010–0.030 tight', '−0.015 to +0.019', 'max 0.100')
    """
    if low_mm is None or high_mm is None:
        end = high_mm if low_mm is None else low_mm
        return "" if end is None else f"{'max' if low_mm is None else 'min'} {_one(end, unit)}"
    if show_number(low_mm, unit) == show_number(high_mm, unit):
        return _one(low_mm, unit)
    if low_mm >= 0:
        return f"{show_number(low_mm, unit)}–{show_number(high_mm, unit)}"
    if high_mm <= 0:
        return f"{show_number(-high_mm, unit)}–{show_number(-low_mm, unit)} tight"
    return f"−{show_number(-low_mm, unit)} to +{show_number(high_mm, unit)}"


def in_unit_of(words: str, unit: str) -> str:
    """A range with its unit, which never stands on a line of its own.

    >>> in_unit_of("0.010–0.030 tight", "mm").replace(NO_BREAK, "_")
    '0.010–0.030_mm tight'
    """
    size, tight, _ = words.partition(" tight")
    return f"{size} {unit}".replace(" ", NO_BREAK) + tight


def _one(mm: float, unit: str) -> str:
    return f"{show_number(abs(mm), unit)} tight" if mm < 0 else show_number(mm, unit)


def _found_short(now: FitNow | None, unit: str) -> str:
    return "" if now is None else short(now.least.value_mm, now.most.value_mm, unit)


def _who(row: FitRow) -> str:
    master, follower = row.master_side, row.follower_side
    if master is None or follower is None:
        return "not chosen"
    return f"{_short(master)} → {_short(follower)}"


def _short(side: SideRow) -> str:
    return side.part_code or side.part_name


SIDE_COLUMNS = ("Side", "Feature", "Current reading", "Part")


def side_rows(row: FitRow) -> list[tuple[int, tuple[str, ...]]]:
    """Both sides, and the clearance where it is read directly."""
    listed: list[tuple[int, tuple[str, ...]]] = []
    for side in row.sides:
        word = side.side.value
        if row.master is not None:
            word += ", master" if side.side is row.master else ", follows"
        listed.append((side.feature_id, (word, _named(side), _speaks(side), _decided(side))))
    if row.gap is not None:
        listed.append((row.gap.feature_id, ("clearance", _named(row.gap), _speaks(row.gap), "read directly")))
    return listed


def _named(side: SideRow) -> str:
    return f"{_short(side)} {side.feature}"


def _speaks(side: SideRow) -> str:
    if not side.readings:
        return "no reading"
    if len(side.readings) == 1:
        return side.readings[0].words
    return f"{counted(len(side.readings), 'station')}: {side.stages_said}"


def _decided(side: SideRow) -> str:
    """A worn master may lead its mate before it is decided: then its reading is taken, and nothing is final of it."""
    if side.decision is Decision.OPEN and side.final:
        return f"{side.decision.value}, taken as read"
    return f"{side.decision.value}, {'final' if side.final else 'not final'}"


PAIR_COLUMNS = ("Station", "Outer", "Inner", "Clearance", "Along", "±", "Verdict")
ALONG = PAIR_COLUMNS.index("Along")


def pair_rows(now: FitNow, unit: str) -> list[tuple[int, tuple[str, ...]]]:
    """Every place of a fit; best and worst are named."""
    axial = now.combining.axial
    least, most = now.least, now.most
    rows: list[tuple[int, tuple[str, ...]]] = []
    for place, pair in enumerate(now.pairs):
        mark = (
            "" if least is most else " (tightest)" if pair is least else " (loosest)" if pair is most else ""
        )
        along = show_length(pair.value_mm * axial, unit) if axial is not None else ""
        rows.append(
            (
                place,
                (
                    (pair.station or "whole") + mark,
                    _size(pair, outer=True, unit=unit),
                    _size(pair, outer=False, unit=unit),
                    _with_unit(pair.value_mm, unit),
                    along,
                    show_number(pair.budget.U_mm, unit, DECIMALS[unit] + 1),
                    pair.judgement.verdict.value,
                ),
            )
        )
    return rows


def _with_unit(mm: float, unit: str) -> str:
    return f"{show_length(abs(mm), unit)} tight" if mm < 0 else show_length(mm, unit)


def _size(pair: PairNow, *, outer: bool, unit: str) -> str:
    if pair.inner is None:
        return "read directly" if outer else ""
    reading = pair.outer if outer else pair.inner
    return show_number(reading.value_mm, unit)
