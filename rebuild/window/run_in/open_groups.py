"""The checklist before power, at first power and after: open and done, in the groups it is walked through in."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rebuild.words.run_in import LookWhen
from rebuild.work.power.rows import Stands
from rebuild.work.run_in.rows import CheckRow

#: The groups in the order they are walked through.
LIST, JOINTS, OIL, ELECTRICAL, GUARDS, PARTS, CONTROLS, BY_HAND, OTHERS, FIRST, AFTER = (
    "Checklist", "Joints", "Oil", "Electrical", "Guards", "Parts", "Controls", "Turned by hand", "Further checks",
    "At first power", "After the run-in",
)  # fmt: skip
GROUPS = (LIST, JOINTS, OIL, ELECTRICAL, GUARDS, PARTS, CONTROLS, BY_HAND, OTHERS, FIRST, AFTER)
_OF_SORT = {"list": LIST, "part": PARTS, "joint": JOINTS, "oil": OIL, "control": CONTROLS}
_OF_TOPIC = {
    "mains": ELECTRICAL, "capacitor": ELECTRICAL, "lockout": ELECTRICAL,
    "guards": GUARDS, "chuck": GUARDS, "grinding-wheel": GUARDS,
}  # fmt: skip
_LATER = {LookWhen.FIRST_POWER: FIRST, LookWhen.AFTER_RUN: AFTER}
#: The table of the rows of each sort that stands before power.
_TABLES = {"joint": "joint", "oil": "oil_point", "part": "part", "control": "control"}


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the checklist: a check, or something that stands elsewhere and is closed there.

    ``done_at`` and ``by`` are of a check; ``page``, ``table`` and ``target`` are where anything else is seen to.
    """

    group: str
    text: str
    done_at: dt.datetime | None = None
    by: str = ""
    check: CheckRow | None = None
    page: str = ""
    target: int = 0
    table: str = ""

    @property
    def done(self) -> bool:
        """Whether it is done."""
        return self.done_at is not None


def group_of(row: CheckRow) -> str:
    """The group of a check: when it is due, the caution that sits on it, else its first words."""
    if row.due in _LATER:
        return _LATER[row.due]
    if row.licensed:
        return ELECTRICAL
    if row.topic in _OF_TOPIC:
        return _OF_TOPIC[row.topic]
    if row.text.startswith("Oil"):
        return OIL
    return BY_HAND if "hand" in row.text or "barred" in row.text else OTHERS


def checklist(
    standing: Sequence[Stands], checks: Mapping[int, CheckRow], again: Sequence[Stands]
) -> list[Item]:
    """All of it by groups, in a group what is open first. ``again`` are the joints to recheck after the run-in."""
    items = [
        Item(_OF_SORT[one.sort], one.text, page=one.page, target=one.target, table=_TABLES.get(one.sort, ""))
        for one in standing
        if one.sort in _OF_SORT
    ]
    for row in checks.values():
        hands = row.done_by or ("licensed hands" if row.licensed else "")
        items.append(Item(group_of(row), row.text, row.done_at, hands, row, target=row.id))
    items += [
        Item(AFTER, f"{one.text}: recheck its torque", page=one.page, target=one.target, table="joint")
        for one in again
    ]
    return sorted(items, key=lambda item: (GROUPS.index(item.group), item.done))


def named(items: Sequence[Item]) -> list[str]:
    """The word in the first column of each line: a group, with how much of it is open, on its first line only."""
    words = []
    open_in = Counter(item.group for item in items if not item.done)
    for at, item in enumerate(items):
        begins = at == 0 or items[at - 1].group != item.group
        left = open_in[item.group]
        words.append(f"{item.group} ({left} open)" if begins and left else item.group if begins else "")
    return words
