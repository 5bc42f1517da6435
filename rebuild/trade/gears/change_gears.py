"""Change gears for a lead: every simple and compound train of a given set, best first.

Leads are exact fractions of a millimetre, so 127 teeth between inch and metric come out exact. A
train's error is shown in parts per million and over a length.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import pi

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked, Working
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.own_unit import said_range
from rebuild.trade.sizes.typed_text import plain_of, short

RULE = Source("Gear trains", "product of drivers over product of driven", Status.COMPUTED)
ROOM = Source("Stud room", "a wheel must clear the next stud by about 15 teeth", Status.COMMON_PRACTICE)
ROOM_TEETH = 15
ALIKE = 3
MOST = 60  #: wheels of a set
MOST_PPM = 20_000.0
WAYS = "Type it as 8 tpi, 1.5 mm, 1/8 in, module 1 or DP 20."
INCH = Fraction(254, 10)
WAYS_WHEELS = "Type 20-80 by 5, 127."
LONGEST_SET, FEWEST_TEETH, MOST_TEETH = 400, 10, 300
_RUN = re.compile(r"([0-9]+)(?: ?- ?([0-9]+)(?: by ([0-9]+))?)?")
_LEAD = re.compile(
    r"(?:(?P<kind>module|mod|dp) ?)?(?P<number>[0-9.,/ -]+?) ?(?P<unit>tpi|t\.p\.i\.|threads per inch|mm|in|\"|inch)?"
)
#: Leads a lathe cuts lie well inside these [mm].
LEAST_MM, MOST_MM = 0.001, 10_000


@dataclass(frozen=True, slots=True)
class Lead:
    """A screw's lead: exact [mm] and as typed."""

    mm: Fraction
    text: str


@dataclass(frozen=True, slots=True)
class Train:
    """A change-gear train: drivers over driven, in order from the spindle; error in parts per million."""

    drivers: tuple[int, ...]
    driven: tuple[int, ...]
    lead_mm: Fraction
    error_ppm: float

    @property
    def exact(self) -> bool:
        """Whether the lead is the one wanted, exactly."""
        return self.error_ppm == 0.0

    def text(self) -> str:
        """``40/127 × 50/60`` as written on a chart."""
        return " × ".join(f"{a}/{b}" for a, b in zip(self.drivers, self.driven, strict=True))


@door()
def read_lead(text: str, starts: int = 1, *, decimal_comma: bool | None = None) -> Lead:
    """A lead as typed: threads per inch, millimetres, inches, or a worm's module or DP; times starts.

    Raises:
        BadEntry: not a lead.
        Ambiguous: ``1,500 mm``.
        OutOfRange: shorter or longer than any lathe cuts.

    >>> read_lead("8 tpi").mm
    Fraction(127, 40)
    """
    match = _LEAD.fullmatch(plain_of(text, "Lead", WAYS, sort="a lead").lower())
    if match is None or not (match["kind"] or match["unit"]) or starts < 1:
        raise _no_lead(text)
    value = exact(
        match["number"],
        "Lead",
        match["unit"] or "",
        typed=text,
        decimal_comma=decimal_comma,
        lost_space=False,
        ways=WAYS,
        refusal="is not a lead.",
    )
    if value <= 0:
        raise BadEntry("is not a positive lead.", where="Lead", value=text.strip(), way_out=WAYS)
    mm = _in_mm(value, match["kind"] or match["unit"]) * starts
    if not LEAST_MM <= mm <= MOST_MM:
        raise OutOfRange(
            f"is not a lead from {said_range(LEAST_MM, MOST_MM)}.",
            where="Lead",
            value=text.strip()[:30],
            way_out=WAYS,
        )
    return Lead(mm, text.strip())


def _no_lead(text: str) -> BadEntry:
    return BadEntry("is not a lead.", where="Lead", value=text.strip(), way_out=WAYS)


def _in_mm(value: Fraction, unit: str) -> Fraction:
    if unit in ("module", "mod"):
        return value * Fraction(pi)
    if unit == "dp":
        return INCH / value * Fraction(pi)
    if unit == "mm":
        return value
    return value * INCH if unit in ("in", "inch", '"') else INCH / value


@door()
def read_wheels(text: str) -> tuple[int, ...]:
    """A set of wheels: ``20-80 by 5, 127, 40`` (a wheel named twice is there twice).

    Raises:
        BadEntry: not a list of tooth counts from 10 to 300.

    >>> read_wheels("20-35 by 5, 127")
    (20, 25, 30, 35, 127)
    """
    plain = plain_of(text, "Wheels", WAYS_WHEELS, longest=LONGEST_SET, sort="a set of wheels")
    wheels: list[int] = []
    for part in filter(None, (piece.strip() for piece in re.split(r"[,;]", plain))):
        wheels += _run_of(part, plain)
    if not 0 < len(wheels) <= MOST:
        raise _no_wheels(plain)
    return tuple(sorted(wheels))


def _run_of(part: str, typed: str) -> range:
    """``20-80 by 5``, or one wheel; its ends are looked at before it is counted out."""
    match = _RUN.fullmatch(part)
    if match is None:
        raise BadEntry("is not a list of wheels.", where="Wheels", value=short(part), way_out=WAYS_WHEELS)
    first, last, by = (
        read_whole(number, "Wheels") for number in (match[1], match[2] or match[1], match[3] or "1")
    )
    if by == 0:
        raise BadEntry("is not a list of wheels.", where="Wheels", value=part, way_out=WAYS_WHEELS)
    if not FEWEST_TEETH <= first <= MOST_TEETH or not FEWEST_TEETH <= last <= MOST_TEETH:
        raise _no_wheels(typed)
    return range(first, last + 1, by)


def _no_wheels(typed: str) -> BadEntry:
    return BadEntry(
        f"is not 1 to {MOST} wheels of {FEWEST_TEETH} to {MOST_TEETH} teeth.",
        where="Wheels",
        value=short(typed),
        way_out="Type 20-80 by 5.",
    )


@door()
def find_trains(
    wanted: Lead,
    leadscrew: Lead,
    wheels: Sequence[int],
    *,
    gearbox: Fraction = Fraction(1),
    tolerance_ppm: float = 2000.0,
    limit: int = 12,
) -> Worked[tuple[Train, ...]]:
    """Trains that cut a lead, exact ones first, then by error, then fewest wheels.

    Args:
        wanted: the lead to cut.
        leadscrew: the leadscrew's lead.
        wheels: tooth counts at hand; a count given twice may be used twice.
        gearbox: turns of the leadscrew per turn of the last wheel (fixed ratios in the machine).
        tolerance_ppm: largest error shown.
        limit: how many to give back.

    Raises:
        OutOfRange: no train of these wheels comes within the tolerance, or that is over 2 %.

    >>> trains = find_trains(read_lead("1.5 mm"), read_lead("8 tpi"), read_wheels("20-100 by 5, 127")).value
    >>> trains[0].exact, 127 in trains[0].driven
    (True, True)
    """
    if not 0.0 <= tolerance_ppm <= MOST_PPM:
        raise OutOfRange(
            f"lies outside 0 to {MOST_PPM:g} parts per million.",
            where="Error allowed",
            value=f"{tolerance_ppm:g}",
        )
    ratio = wanted.mm / leadscrew.mm / gearbox
    tol = tolerance_ppm * 1e-6
    found = _unique([*_simple(wheels, ratio, tol), *_compound(wheels, ratio, tol)])
    trains = [_train(drivers, driven, ratio, wanted) for drivers, driven in found]
    trains.sort(key=lambda train: (abs(train.error_ppm), len(train.drivers), sum(train.drivers)))
    trains = _varied(trains)
    if not trains:
        raise OutOfRange(
            f"needs a ratio of {float(ratio):.6g}; no simple or compound train of {len(wheels)} wheels comes "
            f"within {tolerance_ppm:g} parts per million.",
            where="Change gears",
            value=wanted.text,
            way_out="Add wheels (127 for inch and metric), or allow a larger error.",
        )
    return Worked(tuple(trains[:limit]), _working(wanted, leadscrew, gearbox, ratio, trains[:limit], wheels))


def _train(drivers: tuple[int, ...], driven: tuple[int, ...], ratio: Fraction, wanted: Lead) -> Train:
    got = Fraction(1)
    for a, b in zip(drivers, driven, strict=True):
        got *= Fraction(a, b)
    return Train(drivers, driven, got / ratio * wanted.mm, float(got / ratio - 1) * 1e6)


def _simple(
    wheels: Sequence[int], ratio: Fraction, tol: float
) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    wanted = float(ratio)
    for a, b, _ in _pairs(wheels):
        if abs(a / b / wanted - 1) <= tol + 1e-12:
            yield (a,), (b,)


def _compound(
    wheels: Sequence[int], ratio: Fraction, tol: float
) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Pairs whose ratios multiply to the wanted one, found by bisecting the sorted pair ratios."""
    pairs = sorted(_pairs(wheels), key=lambda pair: pair[2])
    ratios = [pair[2] for pair in pairs]
    held, wanted = Counter(wheels), float(ratio)
    for a, b, first in pairs:
        need = wanted / first
        low = bisect_left(ratios, need * (1 - tol - 1e-12))
        for c, d, second in pairs[low:]:
            if second > need * (1 + tol + 1e-12):
                break
            if _fits(a, b, c, d) and _held((a, b, c, d), held):
                yield (a, c), (b, d)


def _pairs(wheels: Sequence[int]) -> list[tuple[int, int, float]]:
    return [(a, b, a / b) for a in dict.fromkeys(wheels) for b in dict.fromkeys(wheels) if a != b]


def _fits(a: int, b: int, c: int, d: int) -> bool:
    """Each middle wheel must clear the next shaft."""
    return a + b >= c + ROOM_TEETH and c + d >= b + ROOM_TEETH


def _held(used: tuple[int, ...], held: Counter[int]) -> bool:
    return all(held[teeth] >= count for teeth, count in Counter(used).items())


def _unique(
    trains: list[tuple[tuple[int, ...], tuple[int, ...]]],
) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    """One arrangement for each set of drivers and driven."""
    first: dict[tuple[tuple[int, ...], tuple[int, ...]], tuple[tuple[int, ...], tuple[int, ...]]] = {}
    for drivers, driven in trains:
        first.setdefault((tuple(sorted(drivers)), tuple(sorted(driven))), (drivers, driven))
    return list(first.values())


def _varied(trains: list[Train]) -> list[Train]:
    """At most three trains of one ratio, so that other ratios are seen too."""
    seen: Counter[Fraction] = Counter()
    kept: list[Train] = []
    for train in trains:
        seen[train.lead_mm] += 1
        if seen[train.lead_mm] <= ALIKE:
            kept.append(train)
    return kept


def _working(
    wanted: Lead,
    leadscrew: Lead,
    gearbox: Fraction,
    ratio: Fraction,
    trains: list[Train],
    wheels: Sequence[int],
) -> Working:
    sheet = Sheet(f"Change gears for {wanted.text}")
    sheet.read("lead wanted", f"{wanted.text} = {float(wanted.mm):.6g} mm")
    sheet.read("leadscrew", f"{leadscrew.text} = {float(leadscrew.mm):.6g} mm; fixed ratio {gearbox}")
    shown = f"{ratio}" if ratio.denominator < 100_000 else f"{float(ratio):.8g}"
    sheet.equation("ratio", f"{float(wanted.mm):.6g} / {float(leadscrew.mm):.6g} / {gearbox} = {shown}", RULE)
    sheet.note("Idlers change direction only. Middle wheels must clear the next stud.", ROOM)
    needs_127 = ratio.denominator % 127 == 0 or ratio.numerator % 127 == 0
    if needs_127 and 127 not in wheels:
        sheet.note("Only a train with 127 teeth is exact between inch and metric; none is in the set.")
    for train in trains:
        off = (
            "exact"
            if train.exact
            else f"{train.error_ppm:+.0f} ppm, {train.error_ppm / 10:+.1f} µm in 100 mm"
        )
        sheet.result(train.text(), f"{float(train.lead_mm):.6g} mm, {off}")
    return sheet.close()
