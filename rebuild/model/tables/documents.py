"""Manuals: documents of a machine page by page, their files beside the project, and call-outs marked on pages."""

from __future__ import annotations

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_count, as_number, as_text, goes_with, points_at


class Documents(Journaled, name="document"):
    """A manual, a parts list or a bundle of scans, of one machine."""

    machine_id: Cell[int] = goes_with("machine", index=True)
    name: Cell[str] = as_text()
    file_name: Cell[str] = as_text("")
    note: Cell[str] = as_text("")


class DocumentPages(Journaled, name="document_page"):
    """One page: the file it is kept in, which page of that file (from 0), and the words of its text layer.

    ``number`` counts from 1 through the document; ``label`` is the number printed on the page where that differs;
    width and height are in points of 1/72 in, or pixels of a scan.
    """

    indexes = (("ix_document_page_document_number", "document_id", "number"),)

    document_id: Cell[int] = goes_with("document")
    number: Cell[int] = as_count()
    label: Cell[str] = as_text("")
    sha256: Cell[str] = as_text(index=True)
    ending: Cell[str] = as_text()
    inner: Cell[int] = as_count(0)
    width: Cell[float] = as_number()
    height: Cell[float] = as_number()
    words: Cell[str] = as_text("")


class CallOuts(Journaled, name="call_out"):
    """A place marked on a page, and what it names; places are shares of the page's width and height.

    ``differs`` says how this machine is not as the page has it.
    """

    page_id: Cell[int] = goes_with("document_page", index=True)
    part_id: Cell[int | None] = points_at("part", index=True)
    feature_id: Cell[int | None] = points_at("feature", index=True)
    oil_point_id: Cell[int | None] = points_at("oil_point", index=True)
    x: Cell[float] = as_number()
    y: Cell[float] = as_number()
    x2: Cell[float] = as_number()
    y2: Cell[float] = as_number()
    text: Cell[str] = as_text("")
    differs: Cell[str] = as_text("")
