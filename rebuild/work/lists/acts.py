"""Bring lists in: look them over row by row, then store them in one act; a row that cannot be is kept, not lost."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from itertools import count

from rebuild.errors import BadEntry, Implausible, RebuildError, Stopped
from rebuild.store.act import Act
from rebuild.store.beside import Tell, unheard
from rebuild.store.store import Store
from rebuild.work.lists.acts_rows import Importer
from rebuild.work.lists.batch import Batch
from rebuild.work.lists.fields import What
from rebuild.work.lists.line import NOTHING, InHand, Line
from rebuild.work.lists.mending import as_kept, field_in_trouble
from rebuild.work.lists.said_comma import comma_of
from rebuild.work.records.rows_settings import decimal_comma

__all__ = ["Batch", "Brought", "Line", "Looked", "bring_in", "look_over"]


@dataclass(frozen=True, slots=True)
class Looked:
    """How one row would go: what it would become, or the sentence that stops it. ``odd`` only wants a second look.

    ``field`` is the name of the column the sentence speaks of; empty when it speaks of none.
    """

    what: What
    line: Line
    says: str
    trouble: str = ""
    odd: bool = False
    field: str = ""

    @property
    def clear(self) -> bool:
        """Nothing stops it and nothing is odd."""
        return not self.trouble


@dataclass(frozen=True, slots=True)
class Brought:
    """What came of it: rows stored by list, and how many were put into the kept entries instead."""

    stored: Mapping[What, int]
    kept: int

    @property
    def words(self) -> str:
        """``12 parts, 40 readings``."""
        return ", ".join(what.counted(count) for what, count in self.stored.items()) or "nothing"


class _OnlyLooking(Exception):
    """Ends a look so that nothing of it stays."""


def _comma(store: Store, batches: Sequence[Batch]) -> bool | None:
    """What a comma means: as the file says, else as the whole list does."""
    said = decimal_comma(store)
    return comma_of(batches) if said is None else said


def look_over(
    store: Store,
    machine_id: int | None,
    batches: Sequence[Batch],
    hand: InHand = NOTHING,
    tell: Tell = unheard,
) -> list[Looked]:
    """How every row would go, exactly as ``bring_in`` would take it; nothing is stored.

    Raises:
        Stopped: ``tell``, which hears how far it is at each row, said so.
    """
    found: list[Looked] = []
    try:
        with store.act(Act.IMPORT, "looked over") as tx:
            importer = Importer(tx, machine_id, _comma(store, batches), hand)
            found = list(_taken(importer, batches, tell, confirmed=False))
            raise _OnlyLooking
    except _OnlyLooking:
        return found


def bring_in(
    store: Store,
    machine_id: int | None,
    batches: Sequence[Batch],
    *,
    confirmed: bool = False,
    keep_bad: bool = False,
    hand: InHand = NOTHING,
    tell: Tell = unheard,
) -> Brought:
    """Store every row in one act.

    Args:
        machine_id: where rows go that name no machine; None only when each names one.
        confirmed: take readings that were held as odd.
        hand: where parts go that name no subassembly, and readings that name no part.
        keep_bad: leave out rows that cannot be stored and put what they say into the kept entries.
        tell: hears how far it is at each row; False stops it, and nothing is stored.

    Raises:
        Stopped: ``tell`` said so.
        BadEntry: a row cannot be stored (unless ``keep_bad``); nothing is stored.
    """
    with store.act(Act.IMPORT, "") as tx:
        importer = Importer(tx, machine_id, _comma(store, batches), hand)
        looked = list(_taken(importer, batches, tell, confirmed=confirmed))
        bad = [row for row in looked if row.trouble]
        if bad and not keep_bad:
            raise BadEntry(
                bad[0].trouble + (f" {len(bad) - 1} more rows have trouble too." if len(bad) > 1 else ""),
                where=f"{bad[0].what.value}, row {bad[0].line.number}",
                way_out="Mend the rows, or import the others and find these in the kept entries.",
            )
        counted = Counter(row.what for row in looked if not row.trouble)
        brought = Brought({what: counted[what] for what in What if counted[what]}, len(bad))
        tx.subject = f"of {brought.words}"
    for row in bad:
        meant_for, typed = as_kept(row.what, row.line)
        store.keep_entry(meant_for, typed, row.trouble)
    return brought


def _taken(importer: Importer, batches: Sequence[Batch], tell: Tell, *, confirmed: bool) -> Iterator[Looked]:
    whole = max(sum(len(batch.lines) for batch in batches), 1)
    rows = count()
    for batch in batches:
        for line in batch.lines:
            if not tell(next(rows) / whole, f"Reading the {batch.what.value}"):
                raise Stopped("It was stopped; nothing was stored.")
            yield _one(importer, batch.what, line, confirmed=confirmed)
        if batch.what is What.PARTS:
            importer.join_spares()


def _one(importer: Importer, what: What, line: Line, *, confirmed: bool) -> Looked:
    """One row inside a savepoint, so that what it half did goes with it; a reading writes once all of it holds."""
    once = nullcontext() if what is What.READINGS else importer.tx.session.begin_nested()
    try:
        with once:
            return Looked(what, line, importer.take(what, line, confirmed=confirmed))
    except Implausible as trouble:
        sentence = f"{trouble.where}: “{trouble.value}” {trouble.what}" if trouble.where else trouble.what
        return Looked(what, line, "", sentence, odd=True, field=field_in_trouble(what, trouble))
    except RebuildError as trouble:
        return Looked(what, line, "", str(trouble), field=field_in_trouble(what, trouble))
