"""Every part by subassembly: what it is, what was decided and why, marks, orientation, matched sets."""

from __future__ import annotations

from collections import Counter

from reportlab.platypus import Flowable

from rebuild.sheets.book.chapters.photos import of_group
from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, facts, prose, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line, Linked
from rebuild.words.counted import counted as words_of
from rebuild.words.decisions import Decision
from rebuild.words.parts import Identity, Origin
from rebuild.work.book.rows import BookData
from rebuild.work.book.rows_parts import GroupPage, PartPage
from rebuild.work.records.field import show_day, show_exact


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """Subassemblies in the order of the tree, then sets and concessions."""
    content: list[Flowable] = []
    for group in book.groups:
        content += section(
            group.title, f"group-{group.id}", [*_group(group), *of_group(book, group.id, options)]
        )
    content += section("Matched sets", "matched-sets", _sets(book))
    content += section("Concessions", "concessions", _concessions(book))
    return chapter_of("Subassemblies and parts", "parts", content)


def _group(group: GroupPage) -> list[Flowable]:
    scope = group.scope.value if group.scope is not None else ""
    head = facts((("Scope", scope), ("Manual page", group.manual_page)))
    columns = (
        Column("Part", mm=38),
        Column("Qty", right=True, mm=6),
        Column("Material", mm=21),
        Column("Decision", mm=19),
        Column("Why, and what would change it"),
        Column("Marks and which way round"),
    )
    rows: list[Line] = [
        (
            Linked(_name(part), here=f"part-{part.id}"),
            str(part.quantity),
            part.material,
            _decision(part),
            _why(part),
            _marks(part),
        )
        for part in group.parts
    ]
    counted = Counter(part.decision.value for part in group.parts)
    words = ", ".join(f"{count} {word}" for word, count in counted.items())
    lead = [prose(group.note)] if group.note.strip() else []
    if rows:
        lead.append(prose(f"{words_of(sum(counted.values()), 'part')}: {words}."))
    return [*head, *lead, *table(columns, rows, strong=True)]


def _name(part: PartPage) -> str:
    also = f"\nalso {part.other_names}" if part.other_names else ""
    spare = f"\nspare of {part.spare_of}" if part.spare_of else ""
    return f"{part.title}{also}{spare}"


def _decision(part: PartPage) -> str:
    word = part.decision.value if part.decision is not Decision.OPEN else "still to be decided"
    return f"{word}\n{show_day(part.decided_at)}" if part.decided_at is not None else word


def _why(part: PartPage) -> str:
    origin = part.origin.value if part.origin is not Origin.ORIGINAL else ""
    unsure = part.identity.value if part.identity is not Identity.CONFIRMED else ""
    lines = (
        ", ".join(filter(None, (origin, unsure, part.suspects and f"suspected {part.suspects}"))),
        part.reason,
        part.method and f"how: {part.method}",
        part.criterion and f"criterion: {part.criterion}",
        part.would_change and f"would change it: {part.would_change}",
        part.note,
    )
    return "\n".join(filter(None, lines))


def _marks(part: PartPage) -> str:
    lines = (
        part.match_mark and f"mark {part.match_mark}",
        part.orientation,
        part.matched_set and f"set: {part.matched_set}",
        part.handedness,
        part.stamped and f"stamped {part.stamped}",
        part.figure_item and f"manual {part.figure_item}",
        part.maker_number and f"no. {part.maker_number}",
        part.place and f"place: {part.place}",
    )
    return "\n".join(filter(None, lines))


def _sets(book: BookData) -> list[Flowable]:
    rows: list[Line] = [(one.name, "\n".join(one.parts), one.note) for one in book.sets]
    return table(("Set", "Parts that stay together", "Note"), rows, strong=True)


def _concessions(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (
            Linked(part.title, f"part-{part.id}"),
            one.feature,
            one.accepted,
            one.reason,
            one.by,
            show_exact(one.at) if one.at is not None else "",
        )
        for group in book.groups
        for part in group.parts
        for one in part.concessions
    ]
    return table(("Part", "Feature", "Accepted as", "Reason", "By", "On"), rows, strong=True)
