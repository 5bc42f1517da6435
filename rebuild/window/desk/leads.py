"""Where a link leads: the page that shows a row, with that row chosen and in view."""

from __future__ import annotations

from typing import Protocol, runtime_checkable

from PySide6.QtWidgets import QWidget

from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk

#: The page that shows the rows of a table.
PAGE_OF = {
    "task": "bench", "part": "bench", "feature": "bench", "task_constraint": "bench", "fit": "fits",
    "making_sheet": "making", "making_tool": "making",
    "waiting": "waiting", "clock": "waiting", "question": "questions", "joint": "joints",
    "log_entry": "log", "oil_point": "lubrication", "means": "means", "run_look": "run-in",
    "control": "controls", "document": "manuals", "document_page": "manuals", "call_out": "manuals", "photo": "photos",
    "batch": "waiting", "override": "run-in", "run_step": "run-in", "attempt": "teardown",
}  # fmt: skip


#: The tables whose rows are seen in the list of steps.
STEP_TABLES = ("task", "task_constraint", "task_caution", "link", "step_means")


@runtime_checkable
class ShowsPages(Protocol):
    """A window that says by its key which page is seen; empty on the start page."""

    @property
    def page_shown(self) -> str: ...


@runtime_checkable
class HasPages(ShowsPages, Protocol):
    """A window that turns to a page by its key and hands it out."""

    def page(self, key: str) -> QWidget:
        """The widget of a page, shown."""


@runtime_checkable
class ShowsTopics(Protocol):
    """A page of things to look up by topic."""

    @property
    def topic_shown(self) -> str:
        """The one shown; empty where none is."""

    def choose_topic(self, topic: str) -> None:
        """Show one of them."""


@runtime_checkable
class ShowsRows(Protocol):
    """A page that can stand on one row of a table."""

    def show_row(self, table: str, row_id: int) -> None:
        """Choose the row and bring it into view."""


@runtime_checkable
class HasPanes(Protocol):
    """A page with panes that F6 goes round."""

    def panes(self) -> list[QWidget]: ...


@runtime_checkable
class HasSurfaces(Protocol):
    """A page with several lists, which says in which of them a row of a table stands."""

    def surface_of(self, table: str, *, measured: bool) -> QWidget | None:
        """The widget that takes the keys for it; ``measured``: a feature or one of its readings is meant."""


def follow(
    desk: Desk, ref: Ref, *, part_id: int | None = None, subassembly_id: int | None = None, page: str = ""
) -> None:
    """Turn to the very row: at the bench it becomes the selection, elsewhere its page stands on it.

    ``page`` is another page than the one that usually shows such rows.
    """
    if ref.table == "task":
        desk.choose(subassembly_id=subassembly_id, task_ids=(ref.id,), part_ids=())
    elif ref.table == "part":
        # A step that was in hand before is not what the link is about.
        desk.choose(part_ids=(ref.id,), key=None, task_ids=())
    elif ref.table == "feature":
        desk.choose(part_ids=(part_id,) if part_id is not None else (), key=(ref.id, 0))
    page = page or PAGE_OF.get(ref.table, "bench")
    desk.page_asked.emit(page)
    desk.row_asked.emit(page, ref.table, ref.id)


def follow_to_field(desk: Desk, part_id: int, field: str) -> None:
    """Turn to a part at the bench, the caret in one of its fields; without a field to the list of its features."""
    follow(desk, Ref("part", part_id))
    desk.field_asked.emit(field)
