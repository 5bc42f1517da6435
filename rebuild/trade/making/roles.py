"""The shapes of parts to be made and the sizes each is drawn from, read from ``making_shapes`` and ``making_roles``."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from rebuild.trade.results.tables import table
from rebuild.words.making import PartShape
from rebuild.words.readings import FeatureKind

#: Kinds whose number is no length.
PLAIN_KINDS = ("angle", "count")


@dataclass(frozen=True, slots=True)
class Usual:
    """What is usual for a shape: material and surface."""

    shape: str
    words: tuple[str, ...]
    material: str
    finish: str

    def finish_in(self, unit: str) -> str:
        """The usual finish, roughness first in the unit of the shop.

        >>> Usual("pin", (), "", "0.8 µm Ra (32 µin), ends chamfered").finish_in("in")
        '32 µin Ra (0.8 µm), ends chamfered'
        """
        return _ROUGH.sub(r"\2 µin Ra (\1 µm)", self.finish) if unit == "in" else self.finish


_ROUGH = re.compile(r"([\d.]+(?: to [\d.]+)?) µm Ra \(([\d.]+(?: to [\d.]+)?) µin\)")


@dataclass(frozen=True, slots=True)
class Role:
    """One size of a shape: its kind, whether a new sheet starts with it, and which features answer to it."""

    shape: str
    name: str
    kind: str
    start: bool
    features: tuple[str, ...]
    fixed_mm: float | None
    fixed_in: float | None
    measured_with: str
    note: str

    @property
    def is_length(self) -> bool:
        """Whether its number is a length."""
        return self.kind not in PLAIN_KINDS

    def fixed(self, unit: str) -> float | None:
        """A usual small size [mm], rounded in the unit of the shop."""
        if unit == "in":
            return None if self.fixed_in is None else self.fixed_in * 25.4
        return self.fixed_mm


@cache
def shapes() -> dict[str, Usual]:
    """Every shape, the more telling words first.

    >>> "bush" in shapes(), "bushing" in shapes()["bush"].words
    (True, True)
    """
    return {
        row["shape"]: Usual(row["shape"], _list(row["words"]), row["material"], row["finish"])
        for row in table("making_shapes").rows
    }


@cache
def roles(shape: str) -> tuple[Role, ...]:
    """The sizes of a shape in their order; none for ``other``.

    >>> [role.name for role in roles("washer")]
    ['outside diameter', 'bore', 'thickness']
    """
    return tuple(
        Role(
            row["shape"],
            row["role"],
            row["kind"],
            row["start"] == "1",
            _list(row["features"]),
            float(row["fixed_mm"]) if row["fixed_mm"] else None,
            float(row["fixed_in"]) if row["fixed_in"] else None,
            row["measured_with"],
            row["note"],
        )
        for row in table("making_roles").rows
        if row["shape"] == shape
    )


def role(shape: str, name: str) -> Role | None:
    """One size of a shape, or None.

    >>> role("washer", "bore").kind, role("washer", "flange") is None
    ('diameter', True)
    """
    return next((one for one in roles(shape) if one.name == name), None)


#: What a feature's name says of its kind, the more telling words first.
_SAID = (
    (r"\b(?:bore|hole|inside|internal)\b", FeatureKind.BORE),
    (r"\b(?:diameter|dia|outside)\b|[øØ⌀]", FeatureKind.OUTSIDE_DIAMETER),
    (r"\b(?:length|long)\b", FeatureKind.LENGTH),
    (r"\b(?:width|wide|thickness|thick)\b", FeatureKind.WIDTH),
    (r"\b(?:height|high)\b", FeatureKind.HEIGHT),
)


def answers(role: Role, kind: str, name: str) -> bool:
    """Whether a feature answers to a size: by its kind; where that says nothing (``other``), by its name's words.

    >>> answers(roles("pin")[0], "other", "Diameter 16 h6"), answers(roles("pin")[0], "bore", "Diameter 16 H7")
    (True, False)
    """
    if kind == FeatureKind.OTHER:
        kind = next((said for words, said in _SAID if re.search(words, name.lower())), FeatureKind.OTHER)
    return kind in role.features


def guess_shape(name: str, kinds: Iterable[str] = ()) -> PartShape:
    """The shape a part's name tells, else its kinds of feature; ``other`` when nothing does.

    The word that stands last in the name decides: a ``bush for the pinion shaft`` still is a bush, so what
    follows *for*, *of* or *in* is passed over.

    >>> [guess_shape(name).value for name in ("cross-slide nut", "bush for the pinion shaft", "pinion shaft")]
    ['nut', 'bush', 'stepped shaft']
    """
    head = re.split(r"\b(?:for|of|in|to|on|with)\b|,", name.lower())[0]
    best = (PartShape.OTHER, -1, 0)
    for shape, usual in shapes().items():
        for word in usual.words:
            for match in re.finditer(rf"\b{re.escape(word)}(?:s|es)?\b", head):
                if (match.end(), len(word)) > best[1:]:
                    best = (PartShape(shape), match.end(), len(word))
    if best[1] >= 0:
        return best[0]
    have = set(kinds)
    if FeatureKind.THREAD in have:
        return PartShape.NUT if FeatureKind.BORE in have else PartShape.SCREW
    if {FeatureKind.BORE, FeatureKind.OUTSIDE_DIAMETER} <= have:
        return PartShape.BUSH
    return PartShape.SHAFT if FeatureKind.OUTSIDE_DIAMETER in have else PartShape.OTHER


def _list(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(";") if part.strip())
