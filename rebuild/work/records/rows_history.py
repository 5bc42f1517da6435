"""The history a person can read: every act, and what was ever done to one record."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from sqlalchemy import Connection, text

from rebuild.model.shadows import shadow_name
from rebuild.store.act import Act
from rebuild.store.store import Store, label
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_typed
from rebuild.words.readings import Stage
from rebuild.work.records.field import Field, FieldKind, show_day
from rebuild.work.records.fields import FIELDS, called

#: The tables the lookups here ask.
READS = frozenset(FIELDS) | {"act", "change"}


@dataclass(frozen=True, slots=True)
class PastAct:
    """One line of the history list: ``undone`` acts stay in it."""

    act_id: int
    at: dt.datetime
    label: str
    undone: bool


@dataclass(frozen=True, slots=True)
class PastChange:
    """One field of one record before and after an act."""

    at: dt.datetime
    label: str
    record: str
    field: str
    before: str
    after: str


def acts(store: Store, *, most: int = 500, find: str = "") -> list[PastAct]:
    """The newest acts first, undo and redo themselves among them; with ``find`` those whose words hold it.

    All acts of the file are looked through, however long ago; ``most`` bounds what is given back.
    """
    with store.read() as connection:
        rows = connection.execute(
            text(
                "SELECT id, at, kind, subject, undone FROM act"
                + (f" WHERE {_words()} LIKE :find ESCAPE '!'" if find.strip() else "")
                + " ORDER BY id DESC LIMIT :most"
            ),
            {"most": most, **_sought(find)},
        ).all()
    return [
        PastAct(row.id, dt.datetime.fromisoformat(row.at), label(row.kind, row.subject), bool(row.undone))
        for row in rows
    ]


@cache
def _words() -> str:
    """What ``label`` says of an act, for SQLite."""
    nouns = " ".join(f"WHEN '{act.name}' THEN '{act.value}'" for act in Act)
    return f"CASE kind {nouns} ELSE kind END || ' ' || subject"


def _sought(find: str) -> dict[str, str]:
    literal = find.strip()
    for letter in "!%_":
        literal = literal.replace(letter, f"!{letter}")
    return {"find": f"%{literal}%"} if literal else {}


def how_many(store: Store) -> int:
    """How many acts there are in all."""
    with store.read() as connection:
        return int(connection.execute(text("SELECT count(*) FROM act")).scalar_one())


def history(store: Store, record: str, row_id: int) -> list[PastChange]:
    """Everything that was ever done to one record, newest first, field by field."""
    with store.read() as connection:
        rows = _rows(connection, record, ":row", {"row": row_id})
        names = _Names(connection)
        return [change for _, row in rows for change in _changes(record, row, names)]


#: Whose history is a part's, with the ids they have or had.
_OF_A_PART = {
    "part": ":part",
    "feature": "SELECT a_id FROM j_feature WHERE a_part_id = :part",
    "reading": "SELECT a_id FROM j_reading WHERE a_feature_id IN "
    "(SELECT a_id FROM j_feature WHERE a_part_id = :part)",
    "concession": "SELECT a_id FROM j_concession WHERE a_part_id = :part",
}


def history_of_part(store: Store, part_id: int) -> list[PastChange]:
    """The history of a part with its features and readings, newest first."""
    with store.read() as connection:
        found = [
            (change_id, record, row)
            for record, ids in _OF_A_PART.items()
            for change_id, row in _rows(connection, record, ids, {"part": part_id})
        ]
        found.sort(key=lambda one: one[0], reverse=True)
        names = _Names(connection)
        return [change for _, record, row in found for change in _changes(record, row, names)]


def _rows(
    connection: Connection, record: str, ids: str, values: Mapping[str, int]
) -> list[tuple[int, dict[str, Any]]]:
    """The journal's images of the rows ``ids`` (SQL), each with its change's id, newest first."""
    rows = connection.execute(
        text(
            f"SELECT c.op, a.at, a.kind, a.subject, j.* FROM change AS c JOIN act AS a ON a.id = c.act_id "
            f"JOIN {shadow_name(record)} AS j ON j.change_id = c.id "
            f"WHERE c.tbl = :record AND c.row_id IN ({ids}) ORDER BY c.id DESC"
        ),
        {"record": record, **values},
    ).mappings()
    return [(int(row["change_id"]), dict(row)) for row in rows]


class _Names:
    """What records pointed at are called; of one removed, what it was called last."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection
        self._known: dict[tuple[str, int], str] = {}

    def of(self, record: str, row_id: int) -> str:
        """``Tote 3`` for a place, code and name for a part; ``no. 14`` where no name was ever noted."""
        if (record, row_id) not in self._known:
            self._known[record, row_id] = self._asked(record, row_id) or f"no. {row_id}"
        return self._known[record, row_id]

    def _asked(self, record: str, row_id: int) -> str:
        if record not in FIELDS:
            return ""
        shadow = f"SELECT * FROM {shadow_name(record)} WHERE a_id = :id ORDER BY change_id DESC LIMIT 1"
        for side, query in (("", f"SELECT * FROM {record} WHERE id = :id"), ("a_", shadow)):
            row = self._connection.execute(text(query), {"id": row_id}).mappings().first()
            if row is not None:
                code = row.get(f"{side}code") or ""
                return f"{code} {_name(row, side)}".strip()
        return ""


def _changes(record: str, row: Mapping[str, Any], names: _Names) -> list[PastChange]:
    at = dt.datetime.fromisoformat(row["at"])
    words = label(row["kind"], row["subject"])
    if row["op"] == "i":
        return [PastChange(at, words, called(record), "", "", _summary(record, row, "a_", names))]
    if row["op"] == "d":
        return [PastChange(at, words, called(record), "", _summary(record, row, "b_", names), "removed")]
    return [
        PastChange(at, words, called(record), field.label, before, after)
        for field in _shown_fields(record)
        if (before := _shown(field, row, "b_", names)) != (after := _shown(field, row, "a_", names))
    ]


def _shown_fields(record: str) -> tuple[Field, ...]:
    extra: dict[str, tuple[Field, ...]] = {
        "feature": (Field("spec_text", "Spec"),),
        "reading": (Field("typed", "Reading"), Field("struck", "Entry deleted because")),
    }
    return extra.get(record, ()) + FIELDS[record]


def _shown(field: Field, row: Mapping[str, Any], side: str, names: _Names) -> str:
    image = {column: row.get(side + column) for column in field.columns()}
    if field.kind is FieldKind.CHOICE:
        return "" if image[field.name] is None else str(image[field.name])
    pointed = image.get(field.name)
    if field.kind is FieldKind.REFERENCE and pointed is not None:
        return names.of(field.refers_to.replace(" ", "_"), int(pointed))
    return field.show(image)


def _summary(record: str, row: Mapping[str, Any], side: str, names: _Names) -> str:
    if record == "reading":
        return _reading(row, side, names)
    return _name(row, side) or called(record)


def _name(row: Mapping[Any, Any], side: str) -> str:
    found = (
        row.get(side + column) for column in ("name", "title", "text", "did", "reason", "topic", "detail")
    )
    return str(next(filter(None, found), ""))


def _reading(row: Mapping[str, Any], side: str, names: _Names) -> str:
    """The number with its unit, stage, instrument and day: ``64.982 mm, cleaned, Micrometer 50-75, 23 Oct 2026``."""
    typed, unit, mm = (row.get(side + column) for column in ("typed", "unit", "value_mm"))
    size = Size(str(typed), str(unit), float(mm or 0.0))
    stage, with_id = str(row.get(f"{side}stage") or ""), row.get(f"{side}instrument_id")
    if stage in Stage.__members__:
        stage = Stage[stage].value
    taken = row.get(f"{side}taken_at")
    day = show_day(dt.datetime.fromisoformat(taken)) if isinstance(taken, str) else ""
    instrument = names.of("instrument", int(with_id)) if with_id is not None else ""
    return ", ".join(filter(None, (show_typed(size, size.unit), stage, instrument, day)))
