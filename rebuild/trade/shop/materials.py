"""Materials: expansion, density, elasticity and strength, and finding one from what is typed.

The rows stand in ``assets/tables/materials.csv``. Expansion is marked as found or from memory row by
row; density, elastic constants and strengths are common handbook values from memory and say so.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import status_of, table
from rebuild.trade.results.working import Source, Status

TABLE = "materials"
_EXPANSION, _HANDBOOK = "mean thermal expansion near 20 °C", "common handbook value"


@dataclass(frozen=True, slots=True)
class Material:
    """One material at about 20 °C; strengths are of the condition named in ``note``.

    ``alpha_per_K`` is the linear coefficient near room temperature [1/K] (never a cryogenic mean);
    the ``*_range`` pairs are the spread between tables or grades where it is known.
    """

    name: str
    designation: str
    alpha_per_K: float
    density_kg_m3: float
    E_GPa: float
    nu: float
    yield_MPa: float | None
    tensile_MPa: float | None
    brittle: bool
    family: str
    sources: tuple[tuple[str, Source], ...]
    alpha_range_per_K: tuple[float, float]
    density_range_kg_m3: tuple[float, float]
    E_range_GPa: tuple[float, float]
    note: str = ""

    def source(self, of: str) -> Source:
        """The source of ``alpha``, ``density``, ``elastic`` or ``strength``.

        >>> material("bearing bronze C93200").source("alpha").status.value
        'published'
        """
        return dict(self.sources)[of]


@dataclass(frozen=True, slots=True)
class Match:
    """A material found for a typed text, and a sentence on how it was matched."""

    material: Material
    note: str


def names() -> tuple[str, ...]:
    """Every material's name, in table order.

    >>> "grey cast iron" in names()
    True
    """
    return tuple(_by_name())


@door()
def material(name: str) -> Material:
    """The material of exactly this name.

    Raises:
        BadEntry: no such name; ``find_material`` reads free text.

    >>> material("aluminium 6061").alpha_per_K
    2.36e-05
    """
    known = _by_name()
    if name not in known:
        raise BadEntry(
            "is not a material in the table.",
            where="Material",
            value=name,
            way_out=f"Known: {', '.join(known)}.",
        )
    return known[name]


@door()
def wanted(text: str, field: str = "Material") -> Match:
    """``find_material``, refusing what is not found.

    Raises:
        BadEntry: nothing in the table answers to the text.

    >>> wanted("SAE 660").material.name
    'bearing bronze C93200'
    """
    found = find_material(text)
    if found is None:
        raise BadEntry(
            "is not a material in the table, or names two of them.",
            where=field,
            value=text,
            way_out=f"Type one of: {', '.join(names())}.",
        )
    return found


@door()
def find_material(text: str) -> Match | None:
    """The material a typed name or grade stands for, with how it was matched; None when unsure.

    A grade number decides over a plain word; a grade of another standard or a near relation is said
    to be so. Two different grades in one text give None.

    >>> find_material("SAE 660").material.name
    'bearing bronze C93200'
    >>> find_material("unobtainium") is None
    True
    """
    runs = _runs(text)
    if not runs:
        return None
    for kind in ("name", "grades", "near", "words"):
        tried = ("".join(_tidy(text)),) if kind == "name" else runs
        hits = {run: _index(kind)[run] for run in tried if run in _index(kind)}
        if not hits:
            continue
        longest = max(len(run) for run in hits)
        best = {name for run, name in hits.items() if kind != "words" or len(run) == longest}
        if len(best) > 1:
            return None
        found = material(best.pop())
        return Match(found, _how(kind, text.strip(), found, _grade_left_over(text, kind)))
    return None


def _how(kind: str, typed: str, found: Material, unknown: str) -> str:
    if kind in ("name", "grades"):
        return f"“{typed}” is {found.name} ({found.designation or found.family})."
    if kind == "near":
        return f"“{typed}” is not in the table; {found.name} is its near relation."
    missing = f" Grade “{unknown}” is not in the table." if unknown else ""
    return f"“{typed}” names no known grade: taken as {found.name} ({found.designation}).{missing}"


def _grade_left_over(text: str, kind: str) -> str:
    numbered = [word for word in text.split() if any(sign.isdigit() for sign in word)]
    return " ".join(numbered) if kind == "words" else ""


def _tidy(text: str) -> list[str]:
    plain = text.lower().replace("gray", "grey").replace("aluminum", "aluminium")
    return re.findall(r"[a-z0-9]+", plain)


def _runs(text: str) -> tuple[str, ...]:
    """Every run of neighbouring words, written together: ``EN-GJL-250`` holds ``gjl250``."""
    words = _tidy(text)[:12]
    spans = ((a, b) for a in range(len(words)) for b in range(a + 1, len(words) + 1))
    return tuple(dict.fromkeys("".join(words[a:b]) for a, b in spans))


@cache
def _index(kind: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for row in table(TABLE).rows:
        for spelling in row[kind].split(";") if kind != "name" else [row["name"]]:
            key = "".join(_tidy(spelling))
            if key:
                found.setdefault(key, row["name"])
    return found


@cache
def _by_name() -> dict[str, Material]:
    return {row["name"]: _built(row) for row in table(TABLE).rows}


def _built(row: Mapping[str, str]) -> Material:
    return Material(
        name=row["name"],
        designation=row["designation"],
        alpha_per_K=float(row["alpha_1e-6_per_K"] + "e-6"),
        density_kg_m3=float(row["density_kg_m3"]),
        E_GPa=float(row["E_GPa"]),
        nu=float(row["nu"]),
        yield_MPa=float(row["yield_MPa"]) if row["yield_MPa"] else None,
        tensile_MPa=float(row["tensile_MPa"]) if row["tensile_MPa"] else None,
        brittle=row["brittle"] == "1",
        family=row["family"],
        sources=tuple(_sources(row)),
        alpha_range_per_K=_range(row, "alpha_{}", "alpha_1e-6_per_K", "e-6"),
        density_range_kg_m3=_range(row, "density_{}", "density_kg_m3"),
        E_range_GPa=_range(row, "E_{}", "E_GPa"),
        note=row["note"],
    )


def _range(row: Mapping[str, str], ends: str, middle: str, power: str = "") -> tuple[float, float]:
    low, high = (float((row[ends.format(end)] or row[middle]) + power) for end in ("low", "high"))
    return low, high


def _sources(row: Mapping[str, str]) -> Iterator[tuple[str, Source]]:
    kind, _, told = row["alpha_status"].partition(": ")
    yield "alpha", Source(f"{_EXPANSION}: {told or _HANDBOOK}", row["name"], status_of(kind))
    for what in ("density", "elastic", "strength"):
        yield what, Source(f"{_HANDBOOK} for {what}", row["name"], Status.FROM_MEMORY)
