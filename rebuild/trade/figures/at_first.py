"""The example a figure begins with on a machine of one unit or the other."""

from __future__ import annotations

from rebuild.trade.limits.spec_unit import class_with_unit
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.sizes.quantity import is_bare


def at_first(shown: Figure, unit: str) -> dict[str, str]:
    """The example and the defaults, a size with its unit where that is not the one a bare size has here.

    >>> from rebuild.trade.figures import figure
    >>> at_first(figure("square"), "in")["across"], at_first(figure("square"), "mm")["across"]
    ('14 mm', '14')
    """
    example = shown.example_in(unit)
    texts = {item.name: example.get(item.name, item.default) for item in shown.inputs}
    if example is shown.inch_example:
        return texts
    return {
        item.name: in_place(texts[item.name], item, item.unit, item.unit_here(unit)) for item in shown.inputs
    }


def in_place(text: str, item: Input, own: str, here: str) -> str:
    """A text whose bare numbers are in ``own``, with that unit where a number without one is in another here.

    >>> in_place("25", Input("size", "Size", InputKind.LENGTH, unit="mm"), "mm", "in")
    '25 mm'
    """
    sized = bool(text.strip()) and item.kind in (InputKind.LENGTH, InputKind.TEXT, InputKind.AMOUNT)
    return _with_unit(text, own) if sized and item.unit and own != here else text


def _with_unit(text: str, unit: str) -> str:
    return f"{text.strip()} {unit}" if is_bare(text) else class_with_unit(text, unit)
