"""A sheet goes out as an issue: other limits are another issue, and a released sheet is to be released again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from contextlib import contextmanager

from rebuild.model.records.making import MakingSheet
from rebuild.store.tx import Tx
from rebuild.words.making import MakingProgress
from rebuild.work.making.measures import measure_of
from rebuild.work.making.rows_issue import (
    Issued,
    changed_since,
    issued_line,
    next_replaces,
    read_issue,
    written_issue,
)
from rebuild.work.making.rules import dimensions_of
from rebuild.work.records.wall_clock import now


def issue(tx: Tx, sheet: MakingSheet, at: dt.datetime | None = None) -> None:
    """Give a sheet its first number, or the next when its sizes are not those it went out with."""
    lines = _lines(tx, sheet)
    if sheet.issue is None:
        sheet.issue, sheet.issued_at = 1, at or now()
    else:
        changed = changed_since(read_issue(sheet.issued or ""), lines)
        if not changed:
            return
        sheet.replaces = next_replaces(sheet.issue, sheet.issued_at, changed)
        sheet.issue, sheet.issued_at = sheet.issue + 1, at or now()
    sheet.issued = written_issue(lines)


@contextmanager
def follows_issue(
    tx: Tx, sheet: MakingSheet, at: dt.datetime | None = None, *, ask: bool = False
) -> Iterator[None]:
    """Sizes changed within are the next issue. With ``ask`` a released sheet is a draft until released again.

    What the owner types he means; what a mate's new reading changes he has not seen. Work begun goes on.
    A size that had no number when it went out may have got one: nothing was cut to it, so that is not asked about.
    """
    if sheet.issue is None and sheet.progress is not MakingProgress.DRAFT:
        # Released by an older program: what stands is its first issue.
        sheet.issue, sheet.issued_at, sheet.issued = 1, sheet.looked_at, written_issue(_lines(tx, sheet))
    yield
    if sheet.issue is None or sheet.progress is MakingProgress.DRAFT:
        return
    tx.session.flush()
    if ask and sheet.progress is MakingProgress.RELEASED and _changed(tx, sheet):
        sheet.progress = MakingProgress.DRAFT
    else:
        issue(tx, sheet, at)


def not_as_issued(tx: Tx, sheet: MakingSheet) -> tuple[str, ...]:
    """What a draft has that its last issue had not; empty for one never issued."""
    if sheet.issue is None or sheet.progress is not MakingProgress.DRAFT:
        return ()
    return changed_since(read_issue(sheet.issued or ""), _lines(tx, sheet))


def _changed(tx: Tx, sheet: MakingSheet) -> tuple[str, ...]:
    return changed_since(read_issue(sheet.issued or ""), _lines(tx, sheet), given_only=True)


def _lines(tx: Tx, sheet: MakingSheet) -> list[Issued]:
    rows = dimensions_of(tx, sheet.id)
    return [issued_line(row.id, sheet.shape.value, row.role, measure_of(row), sheet.unit) for row in rows]
