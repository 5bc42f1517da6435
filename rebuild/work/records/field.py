"""What can be typed into a record's fields: the label, how the text is read, how it is shown again.

One description serves inline editing, the details pane, paste and import, so a field is read the
same way everywhere.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum, StrEnum
from typing import Any

from rebuild.errors import BadEntry
from rebuild.trade.geometry.slope_entry import parse_division
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.results.asked import Asked
from rebuild.trade.schedule.dates import read_built, read_moment
from rebuild.trade.sizes.amounts import (
    exact_minutes,
    parse_celsius,
    parse_hours,
    parse_minutes,
    parse_torque,
    parse_torque_band,
    show_hours,
)
from rebuild.trade.sizes.comma import settled
from rebuild.trade.sizes.exact import LARGEST
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.show import show_typed
from rebuild.work.records.wall_clock import now


class FieldKind(Enum):
    """How a field's text is read."""

    TEXT = "text"
    LONG_TEXT = "long text"
    CHOICE = "choice"
    WHOLE = "whole number"
    NUMBER = "number"
    LENGTH = "length"
    MOMENT = "date"
    YEAR = "year, or about when"
    CELSIUS = "temperature"
    MINUTES = "duration"
    HOURS = "hours"
    SLOPE = "slope"
    SPEC = "size or limits"
    TORQUE = "torque"
    TORQUE_BAND = "torque, or from and to"
    YES_NO = "yes or no"
    REFERENCE = "reference"


Columns = dict[str, object]


@dataclass(frozen=True, slots=True)
class Field(Asked):
    """One editable field of a record. ``name`` is its column (LENGTH: the stem of three columns)."""

    kind: FieldKind = FieldKind.TEXT
    choices: type[StrEnum] | None = None
    optional_choice: bool = False
    longest: int = 200
    lowest: float | None = None
    refers_to: str = ""
    #: What a SPEC may also be, in these words.
    or_words: tuple[str, ...] = ()

    def columns(self) -> tuple[str, ...]:
        """The columns this field fills."""
        if self.kind is FieldKind.LENGTH:
            return (f"{self.name}_text", f"{self.name}_unit", f"{self.name}_mm")
        return (self.name,)

    def read(self, typed: str, unit: str = "mm", *, decimal_comma: bool | None = None) -> Columns:
        """The column values of a typed text. Raises BadEntry or Ambiguous."""
        text = whole(typed)
        if not text:
            return self._empty()
        if self.kind is FieldKind.LENGTH:
            size = parse_length(text, unit, self.label, decimal_comma=decimal_comma)
            return dict(zip(self.columns(), (size.text, size.unit, size.mm), strict=True))
        return {self.name: _READERS[self.kind](self, text, decimal_comma)}

    def _empty(self) -> Columns:
        if self.required:
            raise BadEntry("is empty.", where=self.label, way_out=self.help or "Type something.")
        if self.kind in _TEXTS:
            return {self.name: ""}
        if self.kind is FieldKind.CHOICE and not self.optional_choice:
            raise BadEntry("is empty.", where=self.label, way_out=f"Choose {', '.join(self.words)}.")
        if self.kind is FieldKind.YES_NO:
            return {self.name: False}
        return dict.fromkeys(self.columns())

    @property
    def words(self) -> tuple[str, ...]:
        """The words to choose from."""
        return tuple(member.value for member in self.choices or ())

    def show(self, row: Mapping[str, Any]) -> str:
        """The text of this field for a row of column values, as it would be typed again."""
        if self.kind is FieldKind.LENGTH:
            text, unit, mm = (row.get(column) for column in self.columns())
            return "" if mm is None else show_typed(Size(str(text), str(unit), float(mm)), str(unit))
        value = row.get(self.name)
        return "" if value is None else _SHOWERS.get(self.kind, str)(value)


_TEXTS = (
    FieldKind.TEXT, FieldKind.LONG_TEXT, FieldKind.YEAR, FieldKind.TORQUE, FieldKind.TORQUE_BAND, FieldKind.SPEC,
)  # fmt: skip


def whole(text: str) -> str:
    """A text a file can hold, less outer spaces: half of a pair, or a nought, can come by way of a bad paste.

    >>> whole(" a\\x00b ")
    'ab'
    """
    return text.encode("utf-16", "surrogatepass").decode("utf-16", "replace").replace("\x00", "").strip()


def _text(field: Field, text: str, _comma: bool | None) -> str:
    if len(text) > field.longest:
        raise BadEntry(
            f"is {len(text)} characters long; {field.longest} fit.",
            where=field.label,
            value=text[:40] + "…",
            way_out="Shorten it, or put the rest in the note.",
        )
    return text


def _choice(field: Field, text: str, _comma: bool | None) -> StrEnum:
    assert field.choices is not None
    by_name = {member.name.lower(): member for member in field.choices}
    return by_name.get(text.lower()) or field.choices(field.one_of(text, field.words))


def _whole(field: Field, text: str, comma: bool | None) -> int:
    number = field.whole(text, decimal_comma=comma)
    _refuse_low(field, number, text)
    return number


def _number(field: Field, text: str, comma: bool | None) -> float:
    number = field.number(text, decimal_comma=comma)
    _refuse_low(field, number, text)
    return number


def _refuse_low(field: Field, number: float, text: str) -> None:
    if field.lowest is not None and number < field.lowest:
        raise BadEntry(
            f"is below {field.lowest:g}.",
            where=field.label,
            value=text,
            way_out=f"Type {field.lowest:g} or more.",
        )


def _moment(field: Field, text: str, _comma: bool | None) -> dt.datetime:
    return read_moment(text, field.label, now=now())


def _year(field: Field, text: str, comma: bool | None) -> str:
    return read_built(_text(field, text, comma), field.label)


def _torque(field: Field, text: str, comma: bool | None) -> str:
    """A torque is kept as it was typed, with its unit; what a comma in it means is settled first."""
    parse_torque(text, field.label, decimal_comma=comma)
    return _text(field, settled(text, comma), comma)


def _torque_band(field: Field, text: str, comma: bool | None) -> str:
    """As a torque; ``40-45 ft-lb``, as manuals print it, is kept as a band."""
    parse_torque_band(text, field.label, decimal_comma=comma)
    return _text(field, settled(text, comma), comma)


def _spec(field: Field, text: str, comma: bool | None) -> str:
    """A size or its limits, kept as typed; what a comma in it means is settled first."""
    if " ".join(text.split()).casefold() in field.or_words:
        return text
    parse_spec(text, "mm", field.label, decimal_comma=comma)
    return _text(field, settled(text, comma), comma)


def _slope(field: Field, text: str, comma: bool | None) -> float:
    """What a level is marked with, ``0.02 mm/m``; a bare number is µm/m."""
    number = parse_division(text, field.label, decimal_comma=comma)
    _refuse_low(field, number, text)
    return number


def _yes_no(field: Field, text: str, _comma: bool | None) -> bool:
    if text.lower() in ("yes", "y", "1", "true", "x"):
        return True
    if text.lower() in ("no", "n", "0", "false", "-"):
        return False
    raise BadEntry("is neither yes nor no.", where=field.label, value=text, way_out="Type yes or no.")


def _reference(field: Field, text: str, _comma: bool | None) -> int:
    """The number of a record chosen from a list; one far beyond every list stands for none."""
    if not text.lstrip("-").isdecimal():
        raise BadEntry(
            f"is not a {field.refers_to}.", where=field.label, value=text, way_out="Choose from the list."
        )
    return read_whole(text, field.label) if len(text) < len(str(LARGEST)) else 0


_READERS: dict[FieldKind, Callable[[Field, str, bool | None], object]] = {
    FieldKind.TEXT: _text,
    FieldKind.LONG_TEXT: _text,
    FieldKind.CHOICE: _choice,
    FieldKind.WHOLE: _whole,
    FieldKind.NUMBER: _number,
    FieldKind.MOMENT: _moment,
    FieldKind.YEAR: _year,
    FieldKind.CELSIUS: lambda field, text, comma: parse_celsius(text, field.label, decimal_comma=comma),
    FieldKind.MINUTES: lambda field, text, comma: parse_minutes(text, field.label, decimal_comma=comma),
    FieldKind.HOURS: lambda field, text, comma: parse_hours(text, field.label, decimal_comma=comma),
    FieldKind.SLOPE: _slope,
    FieldKind.SPEC: _spec,
    FieldKind.TORQUE: _torque,
    FieldKind.TORQUE_BAND: _torque_band,
    FieldKind.YES_NO: _yes_no,
    FieldKind.REFERENCE: _reference,
}

_SHOWERS: dict[FieldKind, Callable[[Any], str]] = {
    FieldKind.NUMBER: lambda value: f"{value:.15g}",
    FieldKind.SLOPE: lambda value: f"{value:.15g}",
    FieldKind.CELSIUS: lambda value: f"{value:.12g} C",
    FieldKind.MINUTES: exact_minutes,
    FieldKind.HOURS: show_hours,
    FieldKind.YES_NO: lambda value: "yes" if value else "no",
    FieldKind.MOMENT: lambda value: show_moment(value),
}


def show_moment(value: dt.datetime | str) -> str:
    """A moment for people, to the minute; midnight shows as the date alone."""
    moment = dt.datetime.fromisoformat(value) if isinstance(value, str) else value
    return moment.strftime("%Y-%m-%d" if (moment.hour, moment.minute) == (0, 0) else "%Y-%m-%d %H:%M")


def show_day(value: dt.datetime | dt.date) -> str:
    """A day as it is said; the exact moment is told on hover.

    >>> show_day(dt.date(2026, 3, 2))
    '2 Mar 2026'
    """
    return f"{value.day} {value:%b %Y}"


def said_moment(text: str) -> str:
    """A moment as ``show_moment`` wrote it, as it is said; other words as they are.

    >>> said_moment("2026-03-02 14:05"), said_moment("2026-03-02"), said_moment("last spring")
    ('2 Mar 2026, 14:05', '2 Mar 2026', 'last spring')
    """
    try:
        return show_exact(dt.datetime.fromisoformat(text))
    except ValueError:
        return text


def show_exact(value: dt.datetime) -> str:
    """A moment of a record on paper, where nothing can be hovered: the day as it is said, and the minute.

    >>> show_exact(dt.datetime(2026, 3, 2, 14, 5)), show_exact(dt.datetime(2026, 3, 2))
    ('2 Mar 2026, 14:05', '2 Mar 2026')
    """
    day = show_day(value)
    return day if (value.hour, value.minute) == (0, 0) else f"{day}, {value:%H:%M}"
