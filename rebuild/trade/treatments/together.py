"""What may go into one bath together, what it is done in, and how long: by treatment and metal.

Common practice, no source: which bath eats which metal is told in every shop (caustic eats aluminium and zinc, an
acid pickle makes a spring brittle, electrolysis takes clean iron only). What the tin says goes before these times.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from rebuild.trade.schedule.pert import ThreePoint
from rebuild.words.treatments import Treatment


class Metal(StrEnum):
    """What a part is made of, as far as a bath asks."""

    IRON = "iron and steel"
    SPRING = "springs and hardened steel"
    COPPER = "brass and bronze"
    LIGHT = "aluminium and zinc"
    SOFT = "wood, felt, leather and plastics"
    UNKNOWN = "material not noted"


_METALS = (
    (Metal.SOFT, re.compile(r"\b(wood|felt|leather|fibre|fiber|plastic|rubber|nylon|phenolic|paper|cork)", re.I)),
    (Metal.LIGHT, re.compile(
        r"\b(alumini?um|zinc|die[- ]cast|magnesium|babbitt|white metal|tin)\b|\bAl(Si|Mg|Cu|Zn)|\bEN AW", re.I)),
    (Metal.COPPER, re.compile(r"\b(brass|bronze|gunmetal|copper)\b|\bCu(Sn|Zn|Al)", re.I)),
    (Metal.SPRING, re.compile(r"\b(springs?|hardened|bearing steel|52100|100cr6|51crv4|spring steel)\b", re.I)),
    (Metal.IRON, re.compile(
        r"\b(iron|steel|semi-steel|cast|1018|1045|4140|12L14|C\d{2}E?|S\d{3})\b|\bEN-GJ|\b\d\dMnCr|\b\d\dCr", re.I)),
)  # fmt: skip


def metal_of(material: str) -> Metal:
    """Which baths a material stands, by its words; the most tender named counts.

    >>> metal_of("cast iron"), metal_of("iron, bronze bushed"), metal_of("")
    (<Metal.IRON: 'iron and steel'>, <Metal.COPPER: 'brass and bronze'>, <Metal.UNKNOWN: 'material not noted'>)
    """
    return next((metal for metal, words in _METALS if words.search(material)), Metal.UNKNOWN)


@dataclass(frozen=True, slots=True)
class Bath:
    """What it is done in, what to heed, and the topics of its cautions."""

    name: str
    heed: str = ""
    cautions: tuple[str, ...] = ()


_WASH = Bath(
    "paraffin or a neutral cleaner", "no caustic: it eats aluminium and zinc", ("solvents", "oily-rags")
)
_CAUSTIC = Bath("hot alkaline wash", "rinse and oil at once: clean iron rusts overnight", ("caustic",))
_BRUSHED = Bath("brush and cloth, no bath", "nothing that soaks in", ("solvents",))
_STRIPPER = Bath("paint stripper", "scrape wet, never sand dry", ("lead-paint", "solvents"))
_CHELATE = Bath("chelating rust bath or electrolysis", "no stainless or galvanised anodes; take it out and dry it",
                ("caustic", "electrolysis"))  # fmt: skip
_CHELATE_ONLY = Bath(
    "chelating rust bath", "no acid and no electrolysis: hardened steel turns brittle", ("caustic",)
)
_UNKNOWN = Bath(
    "brush and neutral cleaner, no bath", "note its material first: a bath may eat it", ("solvents",)
)
_COAT = Bath("coat", "", ("solvents",))
_TENDER = (Metal.SOFT, Metal.UNKNOWN)


def bath_for(treatment: Treatment, metal: Metal) -> Bath:
    """What a treatment of a metal is done in.

    >>> bath_for(Treatment.DEGREASE, Metal.LIGHT).heed
    'no caustic: it eats aluminium and zinc'
    >>> bath_for(Treatment.DERUST, Metal.COPPER).name
    'brush and cloth, no bath'
    """
    if treatment in (Treatment.PRIME, Treatment.PAINT):
        return _COAT
    if metal in _TENDER:
        return _BRUSHED if metal is Metal.SOFT else _UNKNOWN
    if treatment is Treatment.STRIP:
        return _STRIPPER
    if treatment is Treatment.DEGREASE:
        return _CAUSTIC if metal in (Metal.IRON, Metal.SPRING) else _WASH
    if metal is Metal.IRON:
        return _CHELATE
    return _CHELATE_ONLY if metal is Metal.SPRING else _BRUSHED


_HOUR, _DAY = 60.0, 24 * 60.0


@dataclass(frozen=True, slots=True)
class Window:
    """When it may go on and until when it should have [minutes]; None: no such time. Assumed until the tin is read."""

    soonest: float
    latest: float | None
    words: str


_WINDOWS = {
    Treatment.DEGREASE: Window(2 * _HOUR, _DAY, "in the wash"),
    Treatment.STRIP: Window(1 * _HOUR, _DAY, "under the stripper"),
    Treatment.DERUST: Window(12 * _HOUR, 2 * _DAY, "in the rust bath"),
    Treatment.PRIME: Window(4 * _HOUR, 3 * _DAY, "primer, recoat"),
    Treatment.PAINT: Window(_DAY, None, "paint cures"),
}
#: A baked coat: so long in the oven after half an hour of flashing off.
BAKED = Window(1.5 * _HOUR, None, "flash off 30 min, then 1 h at 80 °C to 90 °C")
#: What an oven would spoil.
NOT_BAKED = (Metal.SOFT, Metal.LIGHT, Metal.UNKNOWN)


def window_of(treatment: Treatment, *, baked: bool = False) -> Window:
    """The usual times of a bath or coat.

    >>> window_of(Treatment.DERUST).soonest, window_of(Treatment.PAINT, baked=True).soonest
    (720.0, 90.0)
    """
    return BAKED if baked else _WINDOWS[treatment]


_WORK = {
    Treatment.DEGREASE: ThreePoint(5, 15, 40),
    Treatment.STRIP: ThreePoint(10, 40, 150),
    Treatment.DERUST: ThreePoint(5, 15, 45),
    Treatment.PRIME: ThreePoint(10, 25, 60),
    Treatment.PAINT: ThreePoint(15, 30, 75),
}
_BIG = re.compile(
    r"\b(bed|base|column|knee|table|saddle|headstock|casting|housing|guard|cover|cabinet|ram)\b", re.I
)
_SMALL = re.compile(r"\b(screw|pin|nut|knob|lever|washer|handle|collar|key|plug|spring|ball|dial)s?\b", re.I)


#: What one more part takes in a bath or under a coat that is made ready for another: mixing, warming, cleaning the
#: gun and clearing away are done once. Common practice, no source.
ALONG = 0.4


def together_share(minutes: Sequence[float]) -> float:
    """How much of its time alone each part takes when they go in together: the longest whole, the others ``ALONG``.

    >>> together_share([15.0]), together_share([15.0, 15.0])
    (1.0, 0.7)
    """
    whole = sum(minutes)
    return (max(minutes) * (1 - ALONG) + whole * ALONG) / whole if whole else 1.0


def usual_work(treatment: Treatment, name: str) -> ThreePoint:
    """What a treatment of one part usually takes at the bench, by its kind and size [minutes]; always assumed.

    >>> usual_work(Treatment.STRIP, "bed").likely, usual_work(Treatment.STRIP, "clamp screw").likely
    (160.0, 20.0)
    """
    points = _WORK[treatment]
    factor = 0.5 if _SMALL.search(name) else 4.0 if _BIG.search(name) else 1.0
    return points.times(factor)
