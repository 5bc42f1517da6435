"""Parts that a list would call alike: told apart by where they belong and where they lie.

A part's code tells it from others of its name. Where two have no code, a list of parts that shows both says more of
each: what is said here, and nowhere else worked out.
"""

from __future__ import annotations

from collections import defaultdict

from sqlalchemy import Connection, Row, func, select

from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.words.places import PlaceKind, lies_words

#: The tables the lookups here ask.
READS = frozenset({"part", "place", "subassembly"})


def told_apart(connection: Connection, machine_id: int) -> dict[int, str]:
    """What a list says of a part besides its name, by its id: only of those that have a name and no code in common.

    ``of AP Apron, in bag 2``; two of which even that is the same are counted: ``the 2nd of 3``.
    """
    name = func.lower(Parts.name)
    of_one_name = (
        select(name).where(Parts.machine_id == machine_id, Parts.code == "").group_by(name)
    ).having(func.count() > 1)
    rows = connection.execute(
        select(
            Parts.id,
            Parts.name,
            Subassemblies.code,
            Subassemblies.name.label("group_name"),
            Places.kind,
            Places.name.label("place"),
        )
        .outerjoin(Subassemblies, Subassemblies.id == Parts.subassembly_id)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id, Parts.code == "", name.in_(of_one_name))
        .order_by(Parts.position, Parts.id)
    )
    alike: dict[tuple[str, str], list[int]] = defaultdict(list)
    for row in rows:
        alike[row.name.casefold(), _lies(row)].append(row.id)
    return {
        key: lies if len(keys) == 1 else f"{lies}, no. {place} of {len(keys)}"
        for (_name, lies), keys in alike.items()
        for place, key in enumerate(keys, start=1)
    }


def called(code: str, name: str, beside: str = "") -> str:
    """A part in a list: code and name, and what ``told_apart`` says besides.

    >>> called("HS-01", "spindle"), called("", "washer", "of AP Apron, in bag 2")
    ('HS-01 spindle', 'washer (of AP Apron, in bag 2)')
    """
    return f"{code} {name}".strip() + (f" ({beside})" if beside else "")


def _lies(row: Row[int, str, str | None, str | None, PlaceKind | None, str | None]) -> str:
    group = f"of {row.code} {row.group_name}".replace("  ", " ") if row.group_name else "loose"
    return ", ".join(
        filter(None, (group, lies_words(row.kind, row.place or "") if row.kind is not None else ""))
    )
