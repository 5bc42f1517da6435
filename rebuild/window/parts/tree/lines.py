"""The lines of the tree, prepared once: strings per column, and who lies under whom.

A node is one integer: the record's id and its kind in the two lowest bits, so that Qt's index carries
no Python object.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from enum import IntEnum

from rebuild.store.store import Store
from rebuild.words.counted import counted
from rebuild.words.decisions import Decision
from rebuild.words.parts import Identity
from rebuild.work.machines import rows_parts as part_sheet, rows_tree as tree
from rebuild.work.places.rows_off import off_parts
from rebuild.work.teardown.rows_candidates import broken_parts, lost_parts


class Kind(IntEnum):
    """What a node stands for."""

    SUBASSEMBLY = 1
    PART = 2
    BOX = 3


ROOT = 0
BOX = int(Kind.BOX)


def node_of(kind: Kind, row_id: int) -> int:
    """The node of a record."""
    return (row_id << 2) | kind


def part_node(part_id: int) -> int:
    """The node of a part."""
    return node_of(Kind.PART, part_id)


def subassembly_node(subassembly_id: int | None) -> int:
    """The node parts of a subassembly lie under; the box for None."""
    return BOX if subassembly_id is None else node_of(Kind.SUBASSEMBLY, subassembly_id)


def kind_of(node: int) -> Kind:
    """What a node stands for."""
    return Kind(node & 3)


def id_of(node: int) -> int:
    """The record's id of a node."""
    return node >> 2


@dataclass(frozen=True, slots=True)
class Line:
    """One line as shown: code and name apart, the decision as a word, the place, open steps.

    ``off`` says what of it is off the machine and where that lies; it stands behind the name where no place is shown.
    """

    code: str
    name: str
    texts: tuple[str, str, str, str]
    spoken: str
    decision: Decision | None = None
    identity: Identity | None = None
    there: str = ""
    off: str = ""


@dataclass(slots=True)
class Lines:
    """A whole tree: children by node, and the line of each node."""

    children: dict[int, list[int]]
    lines: dict[int, Line]

    def parents(self) -> dict[int, int]:
        """The node each node lies under."""
        return {child: parent for parent, listed in self.children.items() for child in listed}


def part_line(
    row: tree.PartRow, steps: int, *, off: bool = False, lost: bool = False, broken: bool = False
) -> Line:
    """The line of a part; ``off`` says that it is off the machine now, ``lost`` that nobody has it."""
    name = row.name if row.quantity == 1 else f"{row.name} ×{row.quantity}"
    unsure = "" if row.identity is Identity.CONFIRMED else row.identity.value
    shown = f"{name} ({unsure})" if unsure else name
    spoken = ", ".join(
        filter(
            None,
            (
                f"{row.code} {shown}".strip(),
                f"decision {row.decision.value}{row.there and f', {row.there}'}",
                ("missing" if lost else "broken, off the machine" if broken else "off the machine")
                if off
                else "",
                row.place and f"in {row.place}",
                f"{counted(steps, 'open step')}" if steps else "",
            ),
        )
    )
    gone = ("missing" if lost else "broken" if broken else "off") if off else ""
    lies = " · ".join(filter(None, (gone, row.place)))
    texts = (
        f"{row.code} {shown}".strip(),
        row.there or row.decision.value,
        lies,
        str(steps) if steps else "",
    )
    return Line(
        row.code,
        row.name,
        texts,
        spoken,
        row.decision,
        row.identity,
        row.there,
        lies if off or row.put_by else "",
    )


def subassembly_line(row: tree.SubassemblyRow, steps: int, parts: int, off: int = 0) -> Line:
    """The line of a subassembly; ``steps``, ``parts`` and those ``off`` the machine count what lies in it too."""
    title = f"{row.code} {row.name}".strip()
    gone = f"{off} of {parts} off" if off else ""
    told = (f"subassembly {title}", counted(parts, "part"), gone, counted(steps, "open step"))
    texts = (title, f"{parts} {_parts(parts)}", gone, str(steps) if steps else "")
    return Line(row.code, row.name, texts, ", ".join(filter(None, told)), off=gone)


def box_line(count: int) -> Line:
    """The line of the box of loose parts."""
    return Line(
        "", "Loose parts", ("Loose parts", f"{count} {_parts(count)}", "", ""), f"loose parts, {count}"
    )


def _parts(count: int) -> str:
    return "part" if count == 1 else "parts"


def read_lines(store: Store, machine_id: int | None, text: str = "") -> Lines:
    """The tree of a machine; with a filter only the parts found and what they lie in."""
    if machine_id is None:
        return Lines({ROOT: []}, {})
    with store.read() as connection:
        subassemblies = tree.subassemblies(connection, machine_id)
        parts = tree.parts(connection, machine_id)
        steps = part_sheet.open_steps(connection, machine_id)
        off = off_parts(connection, machine_id)
        lost = lost_parts(connection, machine_id) & off
        broken = broken_parts(connection, machine_id) & off
        found = part_sheet.matching_parts(connection, machine_id, text) if text.strip() else None
    if found is not None:
        parts = [row for row in parts if row.id in found]
    return _arrange(subassemblies, parts, steps, (off, lost, broken), filtered=found is not None)


def _arrange(
    subassemblies: Sequence[tree.SubassemblyRow],
    parts: Iterable[tree.PartRow],
    steps: dict[int, int],
    gone_how: tuple[Collection[int], Collection[int], Collection[int]],
    *,
    filtered: bool,
) -> Lines:
    off, lost, broken = gone_how
    children: dict[int, list[int]] = {ROOT: []}
    lines: dict[int, Line] = {}
    for part in parts:
        lines[part_node(part.id)] = part_line(
            part,
            steps.get(part.id, 0),
            off=part.id in off,
            lost=part.id in lost,
            broken=part.id in broken,
        )
        children.setdefault(subassembly_node(part.subassembly_id), []).append(part_node(part.id))
    for row in subassemblies:
        above = ROOT if row.parent_id is None else subassembly_node(row.parent_id)
        children.setdefault(above, []).append(subassembly_node(row.id))
    for row, own, held, gone in _counted(subassemblies, children, off):
        lines[subassembly_node(row.id)] = subassembly_line(row, own, held, gone)
        if filtered and not held:
            above = ROOT if row.parent_id is None else subassembly_node(row.parent_id)
            children[above].remove(subassembly_node(row.id))
    if children.get(BOX) or not filtered:
        children[ROOT].append(BOX)
        lines[BOX] = box_line(len(children.get(BOX, ())))
    shown = {child for listed in children.values() for child in listed}
    return Lines({key: listed for key, listed in children.items() if key == ROOT or key in shown}, lines)


def _counted(
    rows: Sequence[tree.SubassemblyRow], children: dict[int, list[int]], off: Collection[int]
) -> list[tuple[tree.SubassemblyRow, int, int, int]]:
    """Each subassembly with the open steps, the parts and those off the machine in it and below."""
    by_id = {row.id: row for row in rows}
    steps = {row.id: row.tasks - row.tasks_done for row in rows}
    own = {
        row.id: [
            id_of(node) for node in children.get(subassembly_node(row.id), ()) if kind_of(node) is Kind.PART
        ]
        for row in rows
    }
    parts = {key: len(listed) for key, listed in own.items()}
    gone = {key: sum(1 for part_id in listed if part_id in off) for key, listed in own.items()}
    for key in reversed(tree.order_of_subassemblies(rows)):
        above = by_id[key].parent_id
        if above in by_id:
            steps[above] += steps[key]
            parts[above] += parts[key]
            gone[above] += gone[key]
    return [(row, steps[row.id], parts[row.id], gone[row.id]) for row in rows]
