"""Whether a fit is as it was when last looked at, and in words what has changed since.

What was known is kept with the fit as a list of facts. Comparing lists is all it takes, so nothing has to be
told to a fit when a reading or a decision changes, undo included.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.trade.fits.side_reading import SideReading
from rebuild.work.fits.rows_sides import SideRow

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()

GAP = "clearance"


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing known of a side: what it is about, which version of it (``ident``), and how it reads.

    ``part`` names the part a decision is about; it is said, never kept.
    """

    side: str
    what: str
    where: str
    ident: str
    text: str
    part: str = ""


def facts(outer: SideRow, inner: SideRow, gap: SideRow | None) -> tuple[Fact, ...]:
    """What is known of both sides now, and of the clearance where it is read directly."""
    found: list[Fact] = []
    for row in (outer, inner):
        side = row.side.value
        found += [
            Fact(side, "feature", "", str(row.feature_id), row.title),
            Fact(side, "decision", "", row.decision.value, row.decision.value, row.part),
            Fact(side, "spec", "", row.spec_text, row.spec_text or "none"),
            *_readings(side, row.readings),
        ]
    if gap is not None:
        found += [Fact(GAP, "feature", "", str(gap.feature_id), gap.title), *_readings(GAP, gap.readings)]
    return tuple(found)


def _readings(side: str, readings: Sequence[SideReading]) -> list[Fact]:
    return [
        Fact(side, "reading", reading.station, f"{reading.reading_id}: {reading.value_mm!r}", reading.words)
        for reading in readings
    ]


def written(known: Sequence[Fact]) -> str:
    """The facts as text, to be kept with the fit."""
    rows = [[fact.side, fact.what, fact.where, fact.ident, fact.text] for fact in known]
    return json.dumps(rows, ensure_ascii=False, separators=(",", ":"))


def read_back(text: str) -> tuple[Fact, ...]:
    """The facts a fit was last looked at with; none when it never was."""
    return tuple(Fact(*row) for row in json.loads(text)) if text else ()


def changes(looked: str, known: Sequence[Fact]) -> tuple[str, ...]:
    """What has changed since, one sentence each; empty when the fit is as it was looked at."""
    if not looked:
        return ("has not been looked at yet",)
    if looked == written(known):
        return ()
    try:
        before = read_back(looked)
    except (ValueError, TypeError):  # a damaged cell: ``check`` names it, looking again mends it
        return ("what it was last looked at with cannot be read: look at it again",)
    old = {(fact.side, fact.what, fact.where): fact for fact in before}
    new = {(fact.side, fact.what, fact.where): fact for fact in known}
    words: list[str] = []
    for side in dict.fromkeys(fact.side for fact in (*before, *known)):
        title = next((fact.text for fact in known if (fact.side, fact.what) == (side, "feature")), side)
        words += _plain_changes(side, title, old, new)
        words += _reading_changes(side, title, before, known)
    return tuple(words)


_Facts = dict[tuple[str, str, str], Fact]


def _plain_changes(side: str, title: str, old: _Facts, new: _Facts) -> list[str]:
    words = []
    for what in ("feature", "decision", "spec"):
        was, now = old.get((side, what, "")), new.get((side, what, ""))
        if (was is None and now is None) or (was and now and was.ident == now.ident):
            continue
        before, after = was.text if was else "none", now.text if now else "none"
        if what == "feature":
            words.append(f"the {side} side is now {after}, was {before}")
        elif what == "decision":
            words.append(f"{now.part if now else title} decided {after}, was {before}")
        else:
            words.append(f"{title}: limits now {after}, were {before}")
    return words


def _reading_changes(side: str, title: str, before: Sequence[Fact], known: Sequence[Fact]) -> list[str]:
    old = {f.where: f for f in before if f.side == side and f.what == "reading"}
    new = {f.where: f for f in known if f.side == side and f.what == "reading"}
    words = []
    for where, fact in new.items():
        was = old.pop(where, None)
        if was is not None and was.ident == fact.ident:
            continue
        place = f" at {where}" if where else ""
        if was is not None:
            words.append(f"{title}{place}: measured again {fact.text}, was {was.text}")
        elif old and not any(other in new for other in old):
            past = "; ".join(f"{f.text}{' at ' + f.where if f.where else ''}" for f in old.values())
            words.append(f"{title}{place}: measured again {fact.text}, was {past}")
            old.clear()
        else:
            words.append(f"{title}{place}: measured {fact.text}, not before")
    for where, fact in old.items():
        words.append(f"{title}{' at ' + where if where else ''}: {fact.text} no longer speaks")
    return words
