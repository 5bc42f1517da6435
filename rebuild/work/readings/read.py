"""A typed reading on its row as it was read: its repeats, what was read, and the value it stands for."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.sizes.quantity import Size, parse_repeats
from rebuild.trade.sizes.reread import mean_and_spread
from rebuild.trade.threads.taken import HowTaken, pitch_diameter_of, read_how, split_taken
from rebuild.words.readings import FeatureKind
from rebuild.work.readings.rules_instrument import Asked


@dataclass(frozen=True, slots=True)
class Place:
    """What is known of the row a value lands on: its unit, label, kind, name, thread and limits [mm]."""

    unit: str
    label: str
    kind: FeatureKind
    feature: str
    thread: str
    part_id: int
    nominal_mm: float | None
    low_mm: float | None
    high_mm: float | None

    def as_asked(self, typed: str) -> Asked:
        """What a question about a value names."""
        return Asked(self.label, typed.strip(), self.unit)


@dataclass(frozen=True, slots=True)
class Read:
    """A value as read. ``value_mm`` is what it stands for; ``read_mm`` what was read, where that is another."""

    typed: str
    sizes: tuple[Size, ...]
    value_mm: float
    spread_mm: float | None
    how: HowTaken | None
    thread: str
    read_mm: float | None

    @property
    def unit(self) -> str:
        """The unit of every repeat."""
        return self.sizes[0].unit

    @property
    def behind(self) -> str:
        """How it was taken, as it is written behind the number; empty when nothing is said."""
        return f" {self.how.words}" if self.how is not None else ""


def read_value(typed: str, place: Place, comma: bool | None, how: str = "", unit: str = "") -> Read:
    """Read a typed value and how it was taken; what stands behind the number goes before ``how``.

    A bare number is in ``unit`` (empty: the row's own).

    Raises:
        BadEntry, Ambiguous: the text cannot be taken, units are mixed, or a way of measuring threads is said of
            something else.
    """
    number, behind = split_taken(typed)
    sizes = parse_repeats(number, unit or place.unit, place.label, decimal_comma=comma)
    if len({size.unit for size in sizes}) > 1:
        raise BadEntry(
            "mixes units among its repeats.",
            where=place.label,
            value=typed.strip(),
            way_out="Type every repeat in the same unit.",
        )
    mean, spread = mean_and_spread(sizes)
    if place.kind is not FeatureKind.THREAD:
        if behind:
            raise BadEntry(
                f"is no thread, but “{behind}” says how a thread is measured.",
                where=place.label,
                value=typed.strip(),
                way_out="Type the number alone, or make the feature's kind a thread.",
            )
        return Read(number, sizes, mean, spread, None, "", None)
    taken = read_how(behind or how, unit or place.unit, comma)
    if taken is None or taken.wire is None:
        return Read(number, sizes, mean, spread, taken, "", None)
    value = pitch_diameter_of(mean, taken, place.thread, place.label).value
    return Read(number, sizes, value, spread, taken, place.thread, mean)


def columns_of(read: Read) -> dict[str, object]:
    """What a reading's row keeps of it."""
    return {
        "typed": read.typed,
        "unit": read.unit,
        "value_mm": read.value_mm,
        "repeats": len(read.sizes),
        "spread_mm": read.spread_mm,
        "how": read.how.words if read.how is not None else None,
        "thread": read.thread or None,
        "read_mm": read.read_mm,
    }


def typed_again(typed: str, how: str | None) -> str:
    """A stored reading as it is typed again: the number, and how it was taken behind it.

    >>> typed_again("1.0064", "over 0.0645 in wires"), typed_again("24.98", None)
    ('1.0064 over 0.0645 in wires', '24.98')
    """
    return f"{typed} {how}" if how else typed
