"""Sources of heat and cold a home shop has, and how hot each kind of part may be made."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Source


@dataclass(frozen=True, slots=True)
class Medium:
    """A source of heat or cold: the temperature a part reaches in it [°C] and the cautions it needs."""

    name: str
    temperature_C: float
    kind: str
    cautions: tuple[str, ...]
    note: str
    source: Source


def media() -> tuple[Medium, ...]:
    """Freezer, dry ice, liquid nitrogen, boiling water, bearing heater, kitchen oven.

    >>> [one.name for one in media() if one.temperature_C < -50]
    ['dry ice', 'liquid nitrogen']
    """
    found = table("cold_and_heat")
    return tuple(
        Medium(
            row["name"],
            float(row["temperature_C"]),
            row["kind"],
            tuple(row["cautions"].split(";")),
            row["note"],
            found.row_source(row),
        )
        for row in found.rows
    )


@door()
def medium(name: str) -> Medium:
    """One medium by name.

    Raises:
        BadEntry: no such medium; the message lists them.

    >>> medium("dry ice").temperature_C
    -78.5
    """
    known = {one.name: one for one in media()}
    if name not in known:
        raise BadEntry(
            "is not a source of heat or cold here.",
            where="Medium",
            value=name,
            way_out=f"Choose {', '.join(known)}.",
        )
    return known[name]


@door()
def heat_limit(kind: str) -> tuple[float, Source]:
    """How hot a kind of part may get [°C].

    Raises:
        BadEntry: no such kind; the message lists them.

    >>> heat_limit("rolling bearing")[0]
    120.0
    """
    found = table("heat_limits")
    for row in found.rows:
        if row["kind"] == kind:
            own = found.row_source(row)
            return float(row["limit_C"]), Source(own.name, row["why"], own.status)
    kinds = ", ".join(row["kind"] for row in found.rows)
    raise BadEntry(
        "is not a kind of part here.", where="Kind of part", value=kind, way_out=f"Choose {kinds}."
    )


def heat_kinds() -> tuple[str, ...]:
    """The kinds of part ``heat_limit`` knows.

    >>> "rolling bearing" in heat_kinds()
    True
    """
    return tuple(row["kind"] for row in table("heat_limits").rows)
