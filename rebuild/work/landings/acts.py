"""Store a value where the landing says; move it, take it back, or keep it until there is a row for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rebuild.errors import BadEntry
from rebuild.model.records.features import Feature
from rebuild.model.records.readings import Reading, UnplacedValue
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.trade.sizes.quantity import parse_repeats
from rebuild.words.counted import counted
from rebuild.work.landings.acts_put import put_value, take_off
from rebuild.work.landings.stored import How, Stored
from rebuild.work.readings.acts import shown
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.readings.read import typed_again
from rebuild.work.readings.rules_instrument import reach_by_id
from rebuild.work.records.field import whole
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now

ACTS = {
    Surface.GRID: Act.RECORD_READING,
    Surface.SHEET: Act.RECORD_READING,
    Surface.SURVEY: Act.SURVEY_READING,
    Surface.CHART: Act.READ_CHART,
    Surface.RUN_IN: Act.READ_BEARING,
    Surface.LEVEL: Act.READ_LEVEL,
    Surface.CUT: Act.ADD_CUT_TEST,
}


def put(
    store: Store, typed: str, landing: Landing, how: How | None = None, *, confirmed: bool = False
) -> Stored:
    """Store a typed value on the landing's row, in one act.

    Raises:
        BadEntry, Ambiguous: the text cannot be taken there.
        Implausible: held until ``confirmed``.
        NotThere: the row was removed.
    """
    comma = decimal_comma(store)
    with store.act(ACTS[landing.surface]) as tx:
        return put_value(tx, typed, landing, how or How(), comma, confirmed=confirmed)


def move(store: Store, stored: Stored, landing: Landing) -> Stored:
    """Move a stored value to another row, taken as it was taken; its old row says again what it said before.

    Raises:
        NotThere: it is gone already; BadEntry, Ambiguous: it cannot be read there. Nothing is moved then.
    """
    if stored.landing == landing:
        raise BadEntry("lies on this row already.", where=landing.words, value=stored.typed)
    comma = decimal_comma(store)
    with store.act(Act.MOVE_READING) as tx:
        typed, how = _as_typed(tx, stored, landing, comma)
        take_off(tx, stored, comma)
        moved = put_value(tx, typed, landing, how, comma, confirmed=True)
        tx.subject = f"{stored.typed} from {stored.landing.words} to {landing.words}"
        return moved


def move_column(store: Store, stored: Stored, landings: Sequence[Landing]) -> Stored:
    """Move a pasted column, value by value, to other rows in one act; the old rows say again what they said.

    Raises:
        BadEntry: it lies there already, or has more values than there are rows. NotThere, Ambiguous: as ``move``.
        Nothing is moved then.
    """
    if len(landings) < len(stored.all):
        raise BadEntry(
            f"does not fit: {counted(len(stored.all), 'value')}, and from there down only "
            f"{counted(len(landings), 'row')}.",
            where=landings[0].words if landings else "The row in hand",
            value=stored.said,
            way_out="Choose a row further up.",
        )
    if landings[0] == stored.landing:
        raise BadEntry("lies on this row already.", where=stored.landing.words, value=stored.said)
    comma = decimal_comma(store)
    with store.act(Act.MOVE_READING) as tx:
        typed = [_as_typed(tx, one, to, comma) for one, to in zip(stored.all, landings, strict=False)]
        for one in stored.all:
            take_off(tx, one, comma)
        moved = [
            put_value(tx, text, to, how, comma, confirmed=True)
            for (text, how), to in zip(typed, landings, strict=False)
        ]
        tx.subject = f"{stored.said} from {stored.landing.words} to {landings[0].words}"
        return replace(moved[0], behind=tuple(moved[1:]))


def _as_typed(tx: Tx, stored: Stored, landing: Landing, comma: bool | None) -> tuple[str, How]:
    """The text as it must be typed on the other row (with its unit, where that one is in another), and how."""
    if stored.record != "reading":
        return stored.typed, stored.how
    row = tx.get(Reading, stored.id, "reading")
    how = replace(
        stored.how,
        instrument_id=row.instrument_id,
        temperature=row.temperature_text or "",
        taken_by=row.taken_by,
        taken_at=row.taken_at,
        note=row.note,
        unit="",
    )
    feature = tx.session.get(Feature, landing.feature_id) if landing.feature_id is not None else None
    own = tx.get(Feature, row.feature_id, "feature").unit
    if feature is not None and feature.unit == own:
        return typed_again(row.typed, row.how), how
    return typed_again(shown(parse_repeats(row.typed, own, decimal_comma=comma)), row.how), how


def take_back(store: Store, stored: Stored) -> None:
    """Take a stored value, or a pasted column, back, though others were stored after it.

    Raises:
        NotThere: it is gone already; BadEntry: a survey's run would have a gap.
    """
    comma = decimal_comma(store)
    with store.act(Act.TAKE_BACK) as tx:
        for one in reversed(stored.all):
            take_off(tx, one, comma)
        tx.subject = f"{stored.said} on {stored.landing.words}"


def keep_unplaced(store: Store, typed: str, seen_on: str, how: How | None = None) -> int:
    """Keep a value that came while no row was in hand; returns its id. Raises BadEntry for an empty one."""
    text, given = whole(typed), how or How()
    if not text:
        raise BadEntry("is empty.", where="Value", way_out="Send it again.")
    with store.act(Act.KEEP_UNPLACED, f"{text}, sent on {seen_on}") as tx:
        row = UnplacedValue(
            typed=text,
            sent_at=given.taken_at or now(),
            seen_on=seen_on,
            instrument_id=given.instrument_id,
            temperature_text=given.temperature.strip() or None,
            taken_by=given.taken_by,
        )
        tx.session.add(row)
        tx.session.flush()
        return row.id


def place_unplaced(
    store: Store, unplaced_id: int, landing: Landing, how: How | None = None, *, confirmed: bool = False
) -> Stored:
    """Put a waiting value on a row, with the time it was sent and the instrument in hand then.

    ``how`` gives what only the row's surface knows (a minute, a length).

    Raises:
        NotThere: it was placed already; others as ``put``. It waits on then.
    """
    comma = decimal_comma(store)
    with store.act(Act.PLACE_VALUE) as tx:
        row = tx.get(UnplacedValue, unplaced_id, "waiting value")
        taken = replace(_as_sent(tx, row, how or How()), taken_by=row.taken_by, taken_at=row.sent_at)
        tx.session.delete(row)
        return put_value(tx, row.typed, landing, taken, comma, confirmed=confirmed)


def _as_sent(tx: Tx, row: UnplacedValue, how: How) -> How:
    """With the instrument in hand when it was sent; with none then, that of the surface it is put on."""
    if row.instrument_id is None:
        return replace(how, temperature=row.temperature_text or how.temperature)
    reach = reach_by_id(tx.connection, row.instrument_id)
    return replace(
        how,
        instrument_id=row.instrument_id,
        temperature=row.temperature_text or "",
        unit=reach.unit if reach is not None else "",
    )


def throw_away(store: Store, unplaced_id: int) -> None:
    """Throw a waiting value away; undo brings it back. Raises NotThere."""
    with store.act(Act.THROW_AWAY) as tx:
        row = tx.get(UnplacedValue, unplaced_id, "waiting value")
        tx.session.delete(row)
        tx.subject = f"{row.typed}, sent on {row.seen_on}"
