"""As found to rebuilt, a page a subassembly: what was decided, how long it took, and each size before and now."""

from __future__ import annotations

from collections import Counter

from reportlab.platypus import Flowable

from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, prose, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line, Linked
from rebuild.trade.limits.spec_unit import names_unit
from rebuild.work.book.rows import BookData
from rebuild.work.book.rows_parts import GroupPage, PartPage
from rebuild.work.book.rows_readings import FeatureLine

_COLUMNS = (
    Column("Part", mm=38), Column("Feature", mm=42), "To be", Column("As found", mm=25), Column("Now", mm=25),
    "Verdict",
)  # fmt: skip


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """The subassemblies of which something measured as found was measured again since."""
    hours = {row.name: row.hours for row in book.bought.by_subassembly}
    by_part: dict[int, list[FeatureLine]] = {}
    for line in book.features:
        by_part.setdefault(line.part_id, []).append(line)
    content: list[Flowable] = []
    for group in book.groups:
        lines = [(part, line) for part in group.parts for line in by_part.get(part.id, ())]
        rows = [row for part, line in lines for row in _line(part, line)]
        if rows:
            said = prose(_told(group, hours.get(group.title, 0.0)))
            content += section(group.title, f"rebuilt-{group.id}", [said, *table(_COLUMNS, rows)])
    return chapter_of("As found to rebuilt", "rebuilt", content)


def _told(group: GroupPage, hours: float) -> str:
    counts = Counter(part.decision for part in group.parts)
    decided = ", ".join(f"{decision.value} {count}" for decision, count in counts.most_common())
    return f"Decided of its parts: {decided}." + (f" At the bench: {hours:g} h." if hours else "")


def _line(part: PartPage, line: FeatureLine) -> list[Line]:
    """A size read as found and again since."""
    if line.found_and_now is None:
        return []
    found, now = line.found_and_now
    verdict = line.judgement.verdict.value if line.judgement is not None else ""
    unit = "" if not line.spec or names_unit(line.spec) else f" {line.unit}"
    name = Linked(part.title, f"part-{part.id}")
    return [(name, line.title, f"{line.spec}{unit}", found.words, now.words, verdict)]
