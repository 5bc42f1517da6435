"""Which page of a manual a part, a spec or an old lubricant stands on: as it was marked, else as its note says it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import NotThere
from rebuild.model.tables.documents import CallOuts, DocumentPages, Documents
from rebuild.model.tables.features import Features
from rebuild.model.tables.lubrication import OilPoints
from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.trade.documents.cited import Cited, captions, cited, figure_and_item

#: The tables the lookups here ask.
READS = frozenset({"call_out", "document", "document_page", "feature", "oil_point", "part", "subassembly"})


@dataclass(frozen=True, slots=True)
class OnPage:
    """A page of a manual and, where one is meant, the call-out on it."""

    page_id: int
    call_out_id: int | None = None


def page_of_part(connection: Connection, part_id: int) -> OnPage:
    """Where a part is shown: its first call-out, else the figure and item noted on it. Raises NotThere."""
    marked = _marked(connection, CallOuts.part_id == part_id)
    if marked is not None:
        return marked
    row = connection.execute(select(Parts.machine_id, Parts.figure_item).where(Parts.id == part_id)).first()
    found = (
        _look_up(connection, row.machine_id, row.figure_item, figure_and_item(row.figure_item))
        if row
        else None
    )
    return found or _nowhere(row.figure_item if row else "")


def page_of_feature(connection: Connection, feature_id: int) -> OnPage:
    """Where a spec comes from: its own call-out, else the page or figure its note names. Raises NotThere."""
    marked = _marked(connection, CallOuts.feature_id == feature_id)
    if marked is not None:
        return marked
    row = connection.execute(
        select(Features.spec_note, Features.note, Parts.machine_id)
        .join(Parts, Parts.id == Features.part_id)
        .where(Features.id == feature_id)
    ).first()
    noted = f"{row.spec_note} {row.note}".strip() if row else ""
    found = _look_up(connection, row.machine_id, noted, cited(noted)) if row else None
    return found or _nowhere(noted)


def page_of_oil_point(connection: Connection, oil_point_id: int) -> OnPage:
    """Where an old lubricant is asked for: its call-out, the page its note names, else a page that has its name.

    Raises:
        NotThere: no page is known.
    """
    marked = _marked(connection, CallOuts.oil_point_id == oil_point_id)
    if marked is not None:
        return marked
    row = connection.execute(
        select(OilPoints.machine_id, OilPoints.old_oil, OilPoints.note).where(OilPoints.id == oil_point_id)
    ).first()
    if row is None:
        return _nowhere("")
    noted = f"{row.old_oil} {row.note}".strip()
    found = _look_up(connection, row.machine_id, noted, cited(noted))
    return found or _with_words(connection, row.machine_id, row.old_oil) or _nowhere(row.old_oil)


def page_of_subassembly(connection: Connection, subassembly_id: int) -> OnPage:
    """The page its manual page names. Raises NotThere."""
    row = connection.execute(
        select(Subassemblies.machine_id, Subassemblies.manual_page).where(Subassemblies.id == subassembly_id)
    ).first()
    return page_noted(connection, row.machine_id, row.manual_page) if row is not None else _nowhere("")


def page_noted(connection: Connection, machine_id: int, text: str) -> OnPage:
    """The page a note names, such as a subassembly's manual page; a bare number is a page. Raises NotThere."""
    meant = cited(text)
    if not meant and text.strip():
        meant = Cited(page=text.strip())
    return _look_up(connection, machine_id, text, meant) or _nowhere(text)


def _nowhere(noted: str) -> OnPage:
    said = f" “{noted}” names none that is here." if noted.strip() else ""
    raise NotThere(
        f"No page of a manual is known for it.{said}",
        way_out="Mark it on its page under Manuals, or note it as “p. 34” or “Fig. 12, item 4”.",
    )


def _marked(connection: Connection, which: object) -> OnPage | None:
    query = select(CallOuts.id, CallOuts.page_id).where(which).order_by(CallOuts.id)  # type: ignore[arg-type]
    row = connection.execute(query).first()
    return OnPage(row.page_id, row.id) if row is not None else None


def _look_up(connection: Connection, machine_id: int, text: str, meant: Cited) -> OnPage | None:
    """The page of what a note names; in the manual it names, when it names one."""
    if not meant:
        return None
    named = connection.execute(
        select(Documents.id, Documents.name).where(Documents.machine_id == machine_id).order_by(Documents.id)
    ).all()
    plain = text.casefold()
    ours = [row.id for row in named if row.name.casefold() in plain] or [row.id for row in named]
    page_id = _by_page(connection, ours, meant.page) if meant.page else None
    if page_id is None and meant.figure:
        page_id = _by_figure(connection, ours, meant.figure)
    if page_id is None:
        return None
    return OnPage(page_id, _item(connection, page_id, meant.item))


def _by_page(connection: Connection, documents: Sequence[int], page: str) -> int | None:
    """The page with that number printed on it; where none has, the one at that place."""
    rows = connection.execute(
        select(DocumentPages.id, DocumentPages.number, DocumentPages.label)
        .where(DocumentPages.document_id.in_(documents))
        .order_by(DocumentPages.document_id, DocumentPages.number)
    ).all()
    printed = [row.id for row in rows if row.label.casefold() == page.casefold()]
    placed = [row.id for row in rows if str(row.number) == page]
    return next(iter((*printed, *placed)), None)


def _by_figure(connection: Connection, documents: Sequence[int], figure: str) -> int | None:
    """The page whose words show the figure most plainly; of several, the one with the fewest words is the drawing."""
    rows = connection.execute(
        select(DocumentPages.id, DocumentPages.words).where(
            DocumentPages.document_id.in_(documents), DocumentPages.words.contains(figure, autoescape=True)
        )
    )
    told = [(captions(row.words, figure), -len(row.words), -row.id) for row in rows]
    best = max((one for one in told if one[0]), default=None)
    return -best[2] if best is not None else None


def _item(connection: Connection, page_id: int, item: str) -> int | None:
    if not item:
        return None
    return connection.execute(
        select(CallOuts.id).where(CallOuts.page_id == page_id, CallOuts.text == item).order_by(CallOuts.id)
    ).scalar()


def _with_words(connection: Connection, machine_id: int, words: str) -> OnPage | None:
    """The first page that has these words, one after another."""
    plain = " ".join(words.split())
    if len(plain) < _SHORTEST:
        return None
    page_id = connection.execute(
        select(DocumentPages.id)
        .join(Documents, Documents.id == DocumentPages.document_id)
        .where(Documents.machine_id == machine_id, DocumentPages.words.contains(plain, autoescape=True))
        .order_by(DocumentPages.document_id, DocumentPages.number)
    ).scalar()
    return OnPage(page_id) if page_id is not None else None


#: Shorter words stand on too many pages to say anything.
_SHORTEST = 3
