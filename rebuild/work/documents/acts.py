"""Manuals: noted once their pages are read; places on a page marked and bound to what they name."""

from __future__ import annotations

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.documents import CallOut, Document, DocumentPage
from rebuild.model.records.features import Feature
from rebuild.model.records.lubrication import OilPoint
from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.words.counted import counted
from rebuild.work.documents.names import Names, NewPart
from rebuild.work.documents.rules_files import KeptDocument
from rebuild.work.records.columns import title
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.teardown.acts_named_here import make_parts


def note(store: Store, machine_id: int, kept: KeptDocument, name: str = "") -> int:
    """Note a manual whose pages were read and kept, in one act; returns its id.

    Raises:
        BadEntry: this machine has the very same manual already.
    """
    with store.act(Act.ADD_DOCUMENT, "") as tx:
        tx.get(Machine, machine_id, "machine")
        _refuse_twice(tx, machine_id, kept)
        document = Document(machine_id=machine_id, name=name.strip() or kept.name, file_name=kept.file_name)
        tx.session.add(document)
        tx.session.flush()
        tx.session.add_all(
            DocumentPage(
                document_id=document.id,
                number=number,
                label=page.label,
                sha256=page.sha256,
                ending=page.ending,
                inner=page.inner,
                width=page.width,
                height=page.height,
                words=page.words,
            )
            for number, page in enumerate(kept.pages, start=1)
        )
        tx.subject = f"{document.name}, {counted(len(kept.pages), 'page')}"
        return document.id


def _refuse_twice(tx: Tx, machine_id: int, kept: KeptDocument) -> None:
    """A manual is the same when its first page lies in the same file and it has as many pages."""
    asked = (
        select(Document)
        .join(DocumentPage, DocumentPage.document_id == Document.id)
        .where(
            Document.machine_id == machine_id,
            DocumentPage.number == 1,
            DocumentPage.sha256 == kept.pages[0].sha256,
        )
    )
    for document in tx.session.scalars(asked):
        pages = tx.session.scalars(select(DocumentPage.sha256).where(DocumentPage.document_id == document.id))
        if pages.all() == [page.sha256 for page in kept.pages]:
            raise BadEntry(
                f"is here already as “{document.name}”.",
                where="Manual",
                value=kept.file_name,
                way_out="Open that one; nothing was stored.",
            )


def mark_page(
    store: Store,
    page_id: int,
    start: tuple[float, float],
    end: tuple[float, float],
    text: str = "",
    names: Names | None = None,
    differs: str = "",
    new_part: NewPart | None = None,
) -> int:
    """Mark a place on a page, places as shares of its width and height; returns the call-out's id.

    A ``new_part`` is made in the same act and named by it.

    Raises:
        BadEntry: off the page; it says and names nothing; what it names is of another machine.
    """
    if not all(0 <= value <= 1 for value in (*start, *end)):
        raise BadEntry("lies off the page.", where="Call-out", way_out="Draw it on the page.")
    with store.act(Act.CALL_OUT, "") as tx:
        page = tx.get(DocumentPage, page_id, "page")
        row = CallOut(
            page_id=page_id,
            x=start[0],
            y=start[1],
            x2=end[0],
            y2=end[1],
            text=text.strip(),
            differs=differs.strip(),
        )
        named = _bind(tx, page, row, _made(tx, page, new_part) if new_part else names or Names())
        if not (named or row.text or row.differs):
            raise BadEntry(
                "says nothing.",
                where="Call-out",
                way_out="Type its words, name the part it shows, or say what differs from the manual here.",
            )
        tx.session.add(row)
        tx.session.flush()
        tx.subject = f"{named or row.text or row.differs} on page {page.number}"
        return row.id


def name_call_out(store: Store, call_out_id: int, names: Names, new_part: NewPart | None = None) -> None:
    """Say what a call-out names, or with none that it names nothing; a new part is made. Raises BadEntry."""
    with store.act(Act.CALL_OUT, "") as tx:
        row = tx.get(CallOut, call_out_id, "call-out")
        page = tx.get(DocumentPage, row.page_id, "page")
        named = _bind(tx, page, row, _made(tx, page, new_part) if new_part else names)
        tx.subject = f"{named or 'nothing'} on page {page.number}"


def _made(tx: Tx, page: DocumentPage, new: NewPart) -> Names:
    """A part named on a page for the first time. Raises BadEntry."""
    machine_id = tx.get(Document, page.document_id, "manual").machine_id
    refuse_other_machine(tx, machine_id, subassembly=new.subassembly_id)
    (part,) = make_parts(tx, machine_id, new.subassembly_id, [new.name])
    return Names(part_id=part.id)


def _bind(tx: Tx, page: DocumentPage, row: CallOut, names: Names) -> str:
    """Set what a call-out names; returns what that is called. Raises BadEntry."""
    machine_id = tx.get(Document, page.document_id, "manual").machine_id
    row.part_id, row.feature_id, row.oil_point_id = names.part_id, names.feature_id, names.oil_point_id
    named: Part | OilPoint
    if names.oil_point_id is not None:
        named = tx.get(OilPoint, names.oil_point_id, "oil point")
        called = f"oil point {named.number} {named.feeds}".strip()
    elif names.feature_id is not None:
        feature = tx.get(Feature, names.feature_id, "feature")
        named = tx.get(Part, feature.part_id, "part")
        row.part_id = named.id
        called = f"{title(named)}: {feature.name}"
    elif names.part_id is not None:
        named = tx.get(Part, names.part_id, "part")
        called = title(named)
    else:
        return ""
    if named.machine_id != machine_id:
        raise BadEntry(
            "belongs to another machine.", where="Names", value=called, way_out="Choose one of this machine."
        )
    return called
