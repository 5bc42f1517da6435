"""What a call-out may name: every part of a machine, each spec of it, and its oil points."""

from __future__ import annotations

from sqlalchemy import Connection, select

from rebuild.model.tables.documents import DocumentPages, Documents
from rebuild.model.tables.features import Features
from rebuild.model.tables.lubrication import OilPoints
from rebuild.model.tables.parts import Parts
from rebuild.trade.documents.cited import captions, figure_and_item
from rebuild.trade.teardown.meant import Named, NotAmong, looks_like_a_code, meant
from rebuild.work.documents.names import Names
from rebuild.work.documents.rows import CallOutRow
from rebuild.work.records.rows import Choice

#: The tables the lookups here ask.
READS = frozenset({"document", "document_page", "feature", "oil_point", "part"})
#: The number of a choice is the row's own times this, plus which kind it is.
_SPREAD, _PART, _FEATURE, _OIL = 3, 0, 1, 2


def choices_named(connection: Connection, machine_id: int) -> list[Choice]:
    """Parts by code, each followed by its features, then the oil points."""
    features: dict[int, list[Choice]] = {}
    parts = connection.execute(
        select(Parts.id, Parts.code, Parts.name)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.code, Parts.name, Parts.id)
    ).all()
    listed = connection.execute(
        select(Features.id, Features.part_id, Features.name, Parts.code, Parts.name.label("part"))
        .join(Parts, Parts.id == Features.part_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Features.position, Features.id)
    )
    for row in listed:
        label = f"{row.code} {row.part}".strip() + f": {row.name}"
        features.setdefault(row.part_id, []).append(Choice(row.id * _SPREAD + _FEATURE, label))
    found: list[Choice] = []
    for part in parts:
        label = f"{part.code} {part.name}".strip()
        found.append(Choice(part.id * _SPREAD + _PART, label, (part.code, part.name)))
        found += features.get(part.id, [])
    points = connection.execute(
        select(OilPoints.id, OilPoints.number, OilPoints.feeds)
        .where(OilPoints.machine_id == machine_id)
        .order_by(OilPoints.position, OilPoints.id)
    )
    found += [
        Choice(row.id * _SPREAD + _OIL, f"oil point {row.number} {row.feeds}".strip()) for row in points
    ]
    return found


def named_by(key: int) -> Names:
    """What a choice of that number names."""
    row, kind = divmod(key, _SPREAD)
    return Names(
        row if kind == _PART else None, row if kind == _FEATURE else None, row if kind == _OIL else None
    )


def choice_of(mark: CallOutRow) -> int | None:
    """The number of the choice a call-out stands on; None when it names nothing."""
    if mark.oil_point_id is not None:
        return mark.oil_point_id * _SPREAD + _OIL
    if mark.feature_id is not None:
        return mark.feature_id * _SPREAD + _FEATURE
    return mark.part_id * _SPREAD + _PART if mark.part_id is not None else None


def said_named(connection: Connection, machine_id: int, text: str) -> Names | str:
    """What typed words name, or the name of a part nobody has listed.

    What is exactly called so comes first, whatever it is; then a part by a code said short or by the beginnings of
    words of its name; then a spec or an oil point by words of it.

    Raises:
        BadEntry: several could be meant, or it is a code that no part has.
    """
    listed = choices_named(connection, machine_id)
    parts = [
        Named(one.id, one.short[0], one.short[1]) for one in listed if one.short and one.id % _SPREAD == _PART
    ]
    others = [Named(one.id, "", one.label) for one in listed if one.id % _SPREAD != _PART]
    try:
        return named_by(meant(text, parts, others, where="Part").key)
    except NotAmong:
        if looks_like_a_code(text):
            raise
        return " ".join(text.split())


def part_of_item(connection: Connection, page_id: int, text: str) -> int | None:
    """The choice of the one part noted with this item of a figure on this page; None when none or several are."""
    page = connection.execute(
        select(DocumentPages.words, Documents.machine_id)
        .join(Documents, Documents.id == DocumentPages.document_id)
        .where(DocumentPages.id == page_id)
    ).first()
    if page is None or not text.strip():
        return None
    rows = connection.execute(
        select(Parts.id, Parts.figure_item).where(
            Parts.machine_id == page.machine_id, Parts.figure_item.contains(text.strip(), autoescape=True)
        )
    )
    found = []
    for row in rows:
        noted = figure_and_item(row.figure_item)
        here = not noted.figure or captions(page.words, noted.figure) > 0
        if noted.item.casefold() == text.strip().casefold() and here:
            found.append(row.id)
    return found[0] * _SPREAD + _PART if len(found) == 1 else None
