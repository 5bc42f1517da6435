"""What is open before power, in the groups it is walked through in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rebuild.work.power.rows import Stands
from rebuild.work.run_in.rows import CheckRow

#: The groups in the order they are walked through.
LIST, PARTS, JOINTS, OIL, CONTROLS, BY_HAND, GUARDS, ELECTRICAL, OTHERS = (
    "Checklist", "Parts", "Joints", "Oil", "Controls", "Turned by hand", "Guards", "Electrical", "Further checks",
)  # fmt: skip
GROUPS = (LIST, PARTS, JOINTS, OIL, CONTROLS, BY_HAND, GUARDS, ELECTRICAL, OTHERS)
_OF_SORT = {"list": LIST, "part": PARTS, "joint": JOINTS, "oil": OIL, "control": CONTROLS}
_OF_TOPIC = {
    "mains": ELECTRICAL, "capacitor": ELECTRICAL, "lockout": ELECTRICAL,
    "guards": GUARDS, "chuck": GUARDS, "grinding-wheel": GUARDS,
}  # fmt: skip


def group_of(one: Stands, checks: Mapping[int, CheckRow]) -> str:
    """The group of something open; a check goes by the caution that sits on it, else by its first words."""
    if one.sort in _OF_SORT:
        return _OF_SORT[one.sort]
    row = checks.get(one.target)
    if row is not None and row.licensed:
        return ELECTRICAL
    if row is not None and row.topic in _OF_TOPIC:
        return _OF_TOPIC[row.topic]
    if one.text.startswith("Oil"):
        return OIL
    return BY_HAND if "hand" in one.text or "barred" in one.text else OTHERS


def grouped(standing: Sequence[Stands], checks: Mapping[int, CheckRow]) -> list[tuple[str, int]]:
    """The word in the first column and the place in ``standing`` of each row; a group is named on its first row."""
    rows: list[tuple[str, int]] = []
    named = [group_of(one, checks) for one in standing]
    for group in GROUPS:
        places = [at for at, name in enumerate(named) if name == group]
        rows += [(f"{group} ({len(places)})" if at == places[0] else "", at) for at in places]
    return rows
