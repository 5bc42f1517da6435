"""The typed texts of a figure's entries: which are given, which go together, and what each was read as."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry, RebuildError
from rebuild.trade.sizes.amount import read_amount
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.length_units import INCH_UNITS
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.show import show_both

if TYPE_CHECKING:
    pass
from rebuild.trade.results.input import Input, InputKind


class EntryTexts:
    """The typed texts of one figure's entries, by name; a missing one names its label.

    ``comma`` is how ``1,500`` is read: True decimal, False thousands, None asks. ``unit`` is that of a typed size
    without one; empty: each entry's own. A default is always in its entry's own.
    """

    def __init__(
        self, inputs: tuple[Input, ...], typed: Mapping[str, str], comma: bool | None = None, unit: str = ""
    ) -> None:
        self._inputs = {item.name: item for item in inputs}
        unknown = sorted(set(typed) - set(self._inputs))
        if unknown:
            names = ", ".join(self._inputs)
            raise BadEntry("is not an entry here.", value=unknown[0], way_out=f"Entries: {names}.")
        self._typed = dict(typed)
        self.comma = comma
        self._unit = unit
        self._read: dict[str, str] = {}
        self._bare: dict[str, None] = {}
        self._bare_by = ""  #: what another entry makes of a bare size

    @property
    def unit(self) -> str:
        """The unit of a typed size without one, or empty: each entry's own."""
        return self._unit

    @property
    def unit_typed(self) -> str:
        """``in`` when every length, mass and rate typed is of the inch system, by its entry's own unit if bare."""
        units = set()
        for name, text in self._typed.items():
            item = self._inputs[name]
            if not text_of(item.label, text).strip():
                continue
            try:
                if item.kind is InputKind.AMOUNT:
                    units.add(read_amount(text, item.quantity, item.unit, item.label).unit == item.inch_unit)
                if item.kind is not InputKind.LENGTH:
                    continue
                units.add(parse_length(text, item.unit or "mm", decimal_comma=self.comma).unit in INCH_UNITS)
            except RebuildError:
                continue  # told when the entry itself is read
        return "in" if units == {True} else "mm"

    @property
    def read(self) -> tuple[tuple[str, str], ...]:
        """Every size and number asked for, by label, as it was read."""
        return tuple((self._inputs[name].label, said) for name, said in self._read.items())

    @property
    def bare(self) -> tuple[str, ...]:
        """The units that sizes typed without one were taken in, each once."""
        return tuple(self._bare)

    def text(self, name: str) -> str:
        """The typed text, or the default; raises BadEntry when required and empty."""
        item = self._inputs[name]
        typed = text_of(item.label, self._typed.get(name, "")).strip() or item.default
        if not typed and item.required:
            raise BadEntry("is not filled in.", where=item.label, way_out=item.help or "Type a value.")
        return typed

    def given(self, name: str) -> bool:
        """Whether anything is typed or defaulted for this entry."""
        return bool(self._typed.get(name, "").strip() or self._inputs[name].default)

    def typed(self, name: str) -> bool:
        """Whether anything is typed for this entry."""
        return bool(self._typed.get(name, "").strip())

    def together(self, *names: str) -> bool:
        """Whether all of some entries are typed; raises BadEntry for one without the others."""
        given = [name for name in names if self.given(name)]
        if given and len(given) < len(names):
            missing = next(name for name in names if name not in given)
            raise BadEntry(
                f"is empty, and it goes with “{self._inputs[given[0]].label}”.",
                where=self._inputs[missing].label,
                way_out="Fill in both, or neither." if len(names) == 2 else "Fill in all of them, or none.",
            )
        return bool(given)

    def echo(self, name: str, *sizes: Size) -> None:
        """Say what a text was read as, for a grammar of its own."""
        self._read[name] = "; ".join(
            show_both(size.mm, "in" if size.unit in INCH_UNITS else "mm") for size in sizes
        )

    def hear(self, name: str, text: str) -> None:
        """Say what a text was read as, in words of its own."""
        self._read[name] = text
