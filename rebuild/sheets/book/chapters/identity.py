"""What the machine is, and how that is known."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.flow import chapter_of, facts, prose, section
from rebuild.sheets.book.options import BookOptions
from rebuild.work.book.rows import BookData

_CARD = (
    ("kind", "Kind"), ("maker", "Maker"), ("model", "Model"), ("year", "Year built"), ("capacity", "Capacity"),
    ("weight", "Weight"), ("unit", "Unit of its drawings"), ("power_planned", "Power"), ("location", "Stands at"),
    ("scope", "Scope"),
)  # fmt: skip
_EVIDENCE = (
    ("serial", "Serial number"), ("serial_where", "Stamped at"), ("stampings", "Other stampings"),
    ("year_basis", "Year known from"), ("bought", "Bought"),
)  # fmt: skip


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """Identity, the evidence for it, and the machine's story."""
    known = book.identity
    story = known.get("story", "")
    content = [
        *facts((label, known.get(name, "")) for name, label in _CARD),
        *section(
            "Evidence", "identity-evidence", facts((label, known.get(name, "")) for name, label in _EVIDENCE)
        ),
        *section("Its story", "identity-story", [prose(story)] if story.strip() else []),
    ]
    return chapter_of("Identity", "identity", content)
