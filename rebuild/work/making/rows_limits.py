"""The limits a part to be made must meet in its fits, by feature, and whether what they rest on has changed."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from sqlalchemy import Connection

from rebuild.errors import RebuildError
from rebuild.trade.fits.words import range_words
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.results.working import Working
from rebuild.words.fits import Side
from rebuild.work.fits.rows import FitRow, of_parts, rows
from rebuild.work.fits.rows_follower import limits_in
from rebuild.work.fits.rows_sides import SideRow, Wait
from rebuild.work.fits.rows_stale import Fact, read_back, written

#: The tables the lookups here ask.
READS = frozenset({"feature", "fit", "instrument", "part", "reading", "station"})


#: The name of the fit of a nut and the plug that proves it.
PROVED = "thread proved by its plug"


@dataclass(frozen=True, slots=True)
class MateLimits:
    """What one fit asks of a feature [mm]: its mate, the limits or why there are none, and what they rest on."""

    fit_id: int
    fit: str
    feature_id: int
    mate: SideRow
    wanted_text: str
    unit: str
    low_mm: float | None
    high_mm: float | None
    working: Working | None
    trouble: str
    tight: bool
    later: SideRow | None = None
    #: Whether the mate is the plug that proves this thread: it bears on the limits, and does not make them.
    proof: bool = False
    #: What is wanted between the two, in words.
    wanted_words: str = ""

    @property
    def known(self) -> bool:
        """Whether there are limits."""
        return self.low_mm is not None or self.high_mm is not None

    @property
    def wait(self) -> Wait | None:
        """Why the limits may still move."""
        return self.mate.wait

    def facts(self) -> tuple[Fact, ...]:
        """What the limits rest on."""
        side = str(self.fit_id)
        return (
            Fact(side, "feature", "", str(self.mate.feature_id), self.mate.title),
            Fact(side, "decision", "", self.mate.decision.value, self.mate.decision.value, self.mate.part),
            Fact(side, "to be", "", self.wanted_text, self.wanted_text or "nothing"),
            *(
                Fact(
                    side,
                    "reading",
                    reading.station,
                    f"{reading.reading_id}: {reading.value_mm!r}",
                    reading.words,
                )
                for mate in (self.mate, self.later)
                if mate is not None
                for reading in mate.readings
            ),
        )


def of_part(
    connection: Connection,
    part_id: int,
    *,
    allow_uncertainty: bool = False,
    rule: Rule = Rule.CONFORMANCE_95,
    limits: dict[int, InstrumentLimit] | None = None,
) -> tuple[MateLimits, ...]:
    """What every fit asks of a part in which it follows, in the order of the fits.

    Where no master is chosen the mate is taken as it, since this part is the one being made.
    """
    return by_part(connection, [part_id], {part_id: allow_uncertainty}, rule, limits).get(part_id, ())


def by_part(
    connection: Connection,
    part_ids: Collection[int],
    allow_uncertainty: dict[int, bool],
    rule: Rule = Rule.CONFORMANCE_95,
    limits: dict[int, InstrumentLimit] | None = None,
) -> dict[int, tuple[MateLimits, ...]]:
    """``of_part`` for several parts, their fits read at once."""
    found: dict[int, list[MateLimits]] = {}
    wanted = set(part_ids)
    for row in rows(connection, of_parts(connection, part_ids), rule, limits):
        for own in row.sides:
            if own.part_id not in wanted:
                continue
            mate = row.inner if own.side is Side.OUTER else row.outer
            if row.master is own.side or mate.part_id == own.part_id:
                continue
            found.setdefault(own.part_id, []).append(
                _asked(row, own, mate, allow_uncertainty.get(own.part_id, False))
            )
    return {key: tuple(listed) for key, listed in found.items()}


def _asked(row: FitRow, own: SideRow, mate: SideRow, allow: bool) -> MateLimits:
    tight = row.high_mm is not None and row.high_mm <= 0 and (row.low_mm or 0.0) < 0
    low = high = None
    working, trouble = None, ""
    try:
        found = limits_in(replace(row, master=mate.side), allow_for_uncertainty=allow)
    except RebuildError as refused:
        trouble = str(refused)
    else:
        low, high, working = found.value.low_mm, found.value.high_mm, found.working
    return MateLimits(
        row.id,
        row.title,
        own.feature_id,
        mate,
        row.wanted_text,
        row.unit,
        low,
        high,
        working,
        trouble,
        tight,
        row.later,
        row.name == PROVED,
        range_words(row.low_mm, row.high_mm, row.unit) if row.wanted_text else "",
    )


def together(asked: Sequence[MateLimits]) -> tuple[float | None, float | None, str]:
    """The limits that suit every fit of one feature, and the trouble when there are none [mm]."""
    known = [one for one in asked if one.known]
    low = max((one.low_mm for one in known if one.low_mm is not None), default=None)
    high = min((one.high_mm for one in known if one.high_mm is not None), default=None)
    if low is not None and high is not None and low > high + 1e-9:
        names = " and ".join(one.mate.title for one in known)
        return (
            None,
            None,
            f"No size suits {names} at once: true one of them up, or widen what a fit is to be.",
        )
    return low, high, ""


def signature(asked: Sequence[MateLimits]) -> str:
    """What the limits of a sheet rest on, as text to be kept with it."""
    return written([fact for one in asked for fact in one.facts()])


def since(looked: str, asked: Sequence[MateLimits]) -> tuple[str, ...]:
    """What has changed since the limits were taken, one sentence each; empty when nothing has."""
    known = [fact for one in asked for fact in one.facts()]
    if not looked or looked == written(known):
        return ()
    try:
        old = {(fact.side, fact.what, fact.where): fact for fact in read_back(looked)}
    except (ValueError, TypeError):  # a damaged cell: taking the limits again mends it
        return ("what the limits were taken from cannot be read: take them again",)
    new = {(fact.side, fact.what, fact.where): fact for fact in known}
    words: list[str] = []
    for key, fact in new.items():
        was = old.pop(key, None)
        if was is None or was.ident != fact.ident:
            words.append(_changed(fact, was, _title(fact, new)))
    for fact in old.values():
        if fact.what == "reading":
            at = f" at {fact.where}" if fact.where else ""
            words.append(f"{_title(fact, new) or 'The mate'}{at}: {fact.text} no longer speaks")
        elif fact.what == "feature":
            words.append(f"the fit with {fact.text} is gone")
    return tuple(words)


def _title(fact: Fact, known: dict[tuple[str, str, str], Fact]) -> str:
    feature = known.get((fact.side, "feature", ""))
    return feature.text if feature is not None else ""


def _changed(fact: Fact, was: Fact | None, title: str) -> str:
    before = f", was {was.text}" if was is not None else ""
    if fact.what == "reading":
        at = f" at {fact.where}" if fact.where else ""
        verb = "measured again" if was is not None else "measured"
        return f"{title}{at}: {verb} {fact.text}{before or ', not before'}"
    if fact.what == "feature":
        return f"the mate is now {fact.text}{before}" if was is not None else f"a fit with {fact.text} is new"
    if fact.what == "decision":
        return f"{fact.part} decided {fact.text}{before}"
    return f"to be with {title}: now {fact.text}{before}"
