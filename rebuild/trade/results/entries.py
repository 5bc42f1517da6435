"""The typed entries of a figure, read by kind: sizes, numbers, amounts, counts and choices."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rebuild.errors import Ambiguous, BadEntry, OutOfRange, RebuildError
from rebuild.trade.sizes.amount import in_amount_unit, read_amount
from rebuild.trade.sizes.number import range_words, read_number
from rebuild.trade.sizes.product import read_product
from rebuild.trade.sizes.quantity import Size, is_bare, parse_length

if TYPE_CHECKING:
    pass
from rebuild.trade.results.entry_texts import EntryTexts
from rebuild.trade.results.input import Input


class Entries(EntryTexts):
    """The typed entries of one figure, read by kind; a missing or bad one names its label."""

    def size(self, name: str) -> Size:
        """A length as typed; below nought only where a minus has a meaning."""
        item = self._inputs[name]
        size = self._length(name, self.text(name))
        if size.mm < 0 and not item.signed:
            raise OutOfRange(
                "is below nought, and this size cannot be.",
                where=item.label,
                value=size.text,
                way_out="Type it without the minus.",
            )
        self.echo(name, size)
        return size

    def sizes(self, name: str, mark: str = ";") -> tuple[Size, ...]:
        """Several lengths in one text, with ``mark`` between them; what was read is echoed."""
        sizes = tuple(
            self._length(name, part) for part in self.text(name).replace("×", "x").split(mark) if part.strip()
        )
        if not sizes:
            raise BadEntry("is not filled in.", where=self._inputs[name].label, way_out="Type a size.")
        self.echo(name, *sizes)
        return sizes

    def product(self, name: str) -> tuple[Size, ...]:
        """Lengths multiplied out in one text, as ``2 x 3 in``; what was read is echoed."""
        item, text = self._inputs[name], self.text(name)
        typed = bool(self._typed.get(name, "").strip())
        unit = (self._unit or self._bare_by if typed else "") or item.unit or "mm"
        sizes = read_product(text, unit, item.label, decimal_comma=self.comma)
        if typed and all(is_bare(part) for part in text.replace("×", "x").split("x")):
            self._bare[unit] = None
        self.echo(name, *sizes)
        return sizes

    def length_in(self, name: str, part: str) -> Size:
        """One length within a text of a grammar of its own."""
        return self._length(name, part)

    def _length(self, name: str, text: str) -> Size:
        item = self._inputs[name]
        typed = bool(self._typed.get(name, "").strip())
        unit = (self._unit or self._bare_by if typed else "") or item.unit or "mm"
        size = parse_length(text, unit=unit, field=item.label, decimal_comma=self.comma)
        if typed and size.mm and is_bare(text):
            self._bare[unit] = None
        return size

    def bare_in(self, unit: str) -> None:
        """From here on a bare size is in this unit where nobody says which: another entry settles it."""
        self._bare_by = unit

    def mm(self, name: str) -> float:
        """A length in mm."""
        return self.size(name).mm

    def number(self, name: str, unit: str = "") -> float:
        """A plain number (decimal point or comma), within the entry's range and of a size that belongs to a shop.

        ``unit`` is the one chosen beside it, where it is not always the entry's own; it may be typed too.

        Raises:
            BadEntry, Ambiguous: as ``read_number``.
            OutOfRange: outside the entry's range, or so large or small that it can only be a slip.
        """
        item, typed = self._inputs[name], self.text(name)
        unit = unit or item.unit
        number = read_number(
            typed,
            item.label,
            unit,
            decimal_comma=self.comma,
            above=item.above,
            at_least=item.least,
            at_most=item.most,
            of_a_shop=True,
        )
        self._read[name] = f"{number:.12g} {unit}".strip()
        return number

    def amount(self, name: str) -> float:
        """A mass, force or rate in the entry's own unit, within its range; what was read is echoed in its unit."""
        item, typed = self._inputs[name], self.text(name)
        bare = item.unit_here(self._unit) if self.typed(name) else item.unit
        value = self.amount_in(name, typed, bare)
        if self.typed(name):
            self._ask_if_mixed(item, typed, bare)
        return value

    def _ask_if_mixed(self, item: Input, text: str, bare: str) -> None:
        """A bare number beside one with another unit may be of either. Raises Ambiguous."""
        mine = read_amount(text, item.quantity, item.unit, item.label, bare=bare, decimal_comma=self.comma)
        if not mine.bare or not mine.value:
            return
        for name, other in self._inputs.items():
            if other is item or other.quantity != item.quantity or not self.typed(name):
                continue
            try:
                beside = read_amount(
                    self._typed[name], other.quantity, other.unit, other.label, decimal_comma=self.comma
                )
            except RebuildError:
                continue  # told when that entry itself is read
            if not beside.bare and beside.unit != bare:
                raise mixed_units(item.label, mine.text, beside.unit, bare)

    def amount_in(self, name: str, part: str, bare: str = "") -> float:
        """One amount within a text of a grammar of its own."""
        item = self._inputs[name]
        bare = bare or item.unit_here(self._unit)
        found = read_amount(part, item.quantity, item.unit, item.label, bare=bare, decimal_comma=self.comma)
        low = (item.above is not None and not found.value > item.above) or (
            item.least is not None and found.value < item.least
        )
        if low or (item.most is not None and found.value > item.most):
            raise OutOfRange(
                f"is {range_words(item.above, item.least, item.most, item.unit)}.",
                where=item.label,
                value=found.text,
                way_out=f"It was read as {found.value:.6g} {item.unit}; check the number and its unit.",
            )
        other = next((unit for unit in (item.unit, item.inch_unit) if unit and unit != found.unit), "")
        said = in_amount_unit(found.value, item.quantity, item.unit, found.unit)
        also = in_amount_unit(found.value, item.quantity, item.unit, other) if other else 0.0
        self._read[name] = f"{said:.6g} {found.unit}" + (f" ({also:.4g} {other})" if other else "")
        if found.bare and self.typed(name):
            self._bare[found.unit] = None
        return found.value

    def whole(self, name: str) -> int:
        """A whole number."""
        value = self._inputs[name].whole(self.text(name), decimal_comma=self.comma)
        self._read[name] = f"{value}"
        return value

    def choice(self, name: str) -> str:
        """One of the listed choices."""
        item = self._inputs[name]
        return item.one_of(self.text(name), item.choices)


def mixed_units(field: str, text: str, beside: str, bare: str) -> Ambiguous:
    """The question of a number without a unit beside one in ``beside``, where it would be read in ``bare``.

    >>> print(mixed_units("Second", "220", "lb", "kg"))
    Second: “220” has no unit, and one beside it is in lb. Type 220 lb (like the one beside it) or 220 kg (in kg).
    """
    return Ambiguous(
        f"has no unit, and one beside it is in {beside}.",
        where=field,
        value=text,
        readings=(("like the one beside it", f"{text} {beside}"), (f"in {bare}", f"{text} {bare}")),
    )
