"""Manuals, their pages and call-outs as rows."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, func, select

from rebuild.errors import NotThere
from rebuild.model.tables.documents import CallOuts, DocumentPages, Documents
from rebuild.model.tables.features import Features
from rebuild.model.tables.lubrication import OilPoints
from rebuild.model.tables.parts import Parts
from rebuild.store.photos import photo_path

#: The tables the lookups here ask.
READS = frozenset({"call_out", "document", "document_page", "feature", "oil_point", "part"})


@dataclass(frozen=True, slots=True)
class DocumentRow:
    """One manual: how many pages it has, how many of them have words, and how many call-outs are on it."""

    id: int
    name: str
    note: str
    pages: int
    worded: int
    call_outs: int


@dataclass(frozen=True, slots=True)
class PageRow:
    """One page and where it is kept."""

    id: int
    document_id: int
    document: str
    number: int
    label: str
    sha256: str
    ending: str
    inner: int
    width: float
    height: float

    def path(self, project: Path) -> Path:
        """Where the file it lies in is kept. Raises FileTrouble."""
        return photo_path(project, self.sha256, self.ending)

    @property
    def called(self) -> str:
        """The manual and the page, with the number printed on it where that is another."""
        printed = f" (printed {self.label})" if self.label else ""
        return f"{self.document}, page {self.number}{printed}"


@dataclass(frozen=True, slots=True)
class CallOutRow:
    """One call-out: its place as shares of the page, its words, what it names, and how this machine differs."""

    id: int
    page_id: int
    x: float
    y: float
    x2: float
    y2: float
    text: str
    differs: str
    part_id: int | None
    feature_id: int | None
    oil_point_id: int | None
    subassembly_id: int | None
    named: str


def documents(connection: Connection, machine_id: int) -> list[DocumentRow]:
    """The manuals of a machine, by name."""
    marked = (
        select(func.count())
        .select_from(CallOuts)
        .join(DocumentPages, DocumentPages.id == CallOuts.page_id)
        .where(DocumentPages.document_id == Documents.id)
        .scalar_subquery()
    )
    rows = connection.execute(
        select(
            Documents.id,
            Documents.name,
            Documents.note,
            func.count(DocumentPages.id).label("pages"),
            func.count(func.nullif(DocumentPages.words, "")).label("worded"),
            marked.label("marked"),
        )
        .select_from(Documents)
        .join(DocumentPages, DocumentPages.document_id == Documents.id)
        .where(Documents.machine_id == machine_id)
        .group_by(Documents.id)
        .order_by(Documents.name, Documents.id)
    )
    return [DocumentRow(row.id, row.name, row.note, row.pages, row.worded, row.marked) for row in rows]


def _pages() -> Any:
    return (
        select(
            DocumentPages.id,
            DocumentPages.document_id,
            Documents.name,
            DocumentPages.number,
            DocumentPages.label,
            DocumentPages.sha256,
            DocumentPages.ending,
            DocumentPages.inner,
            DocumentPages.width,
            DocumentPages.height,
        )
        .select_from(DocumentPages)
        .join(Documents, Documents.id == DocumentPages.document_id)
    )


def _page(row: Any) -> PageRow:
    return PageRow(
        row.id,
        row.document_id,
        row.name,
        row.number,
        row.label,
        row.sha256,
        row.ending,
        row.inner,
        row.width,
        row.height,
    )


def page(connection: Connection, page_id: int) -> PageRow:
    """One page. Raises NotThere."""
    row = connection.execute(_pages().where(DocumentPages.id == page_id)).first()
    if row is None:
        raise NotThere(
            f"The page no. {page_id} is no longer there.", way_out="Its manual may have been removed."
        )
    return _page(row)


def pages(connection: Connection, document_id: int) -> list[PageRow]:
    """The pages of a manual in their order."""
    rows = connection.execute(
        _pages().where(DocumentPages.document_id == document_id).order_by(DocumentPages.number)
    )
    return [_page(row) for row in rows]


def _call_outs() -> Any:
    return (
        select(
            *CallOuts.columns(),
            Parts.code,
            Parts.name.label("part"),
            Parts.subassembly_id,
            Features.name.label("feature"),
            OilPoints.number.label("point"),
            OilPoints.feeds,
        )
        .select_from(CallOuts)
        .outerjoin(Parts, Parts.id == CallOuts.part_id)
        .outerjoin(Features, Features.id == CallOuts.feature_id)
        .outerjoin(OilPoints, OilPoints.id == CallOuts.oil_point_id)
        .order_by(CallOuts.id)
    )


def call_outs(connection: Connection, page_id: int) -> list[CallOutRow]:
    """The call-outs of one page, oldest first."""
    found = []
    for row in connection.execute(_call_outs().where(CallOuts.page_id == page_id)):
        part = f"{row.code or ''} {row.part or ''}".strip()
        point = f"oil point {row.point} {row.feeds}".strip() if row.point is not None else ""
        named = point or ": ".join(filter(None, (part, row.feature)))
        found.append(
            CallOutRow(
                row.id,
                row.page_id,
                row.x,
                row.y,
                row.x2,
                row.y2,
                row.text,
                row.differs,
                row.part_id,
                row.feature_id,
                row.oil_point_id,
                row.subassembly_id,
                named,
            )
        )
    return found


def pages_of_part(connection: Connection, part_id: int) -> list[tuple[PageRow, CallOutRow]]:
    """Every page with a call-out that names the part or a feature of it, each call-out once."""
    found = []
    rows = connection.execute(select(CallOuts.id, CallOuts.page_id).where(CallOuts.part_id == part_id))
    for key, page_id in rows.all():
        marked = next(one for one in call_outs(connection, page_id) if one.id == key)
        found.append((page(connection, page_id), marked))
    return sorted(found, key=lambda both: (both[0].document, both[0].number, both[1].id))


def page_of_call_out(connection: Connection, call_out_id: int) -> int:
    """The id of the page a call-out is on; 0 when it is gone."""
    query = select(CallOuts.page_id).where(CallOuts.id == call_out_id)
    return connection.execute(query).scalar() or 0
