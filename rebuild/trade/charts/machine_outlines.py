"""The parts of a machine that set-up sketches share: bed, headstock, tailstock, carriage, table, head, and a travel."""

from __future__ import annotations

from rebuild.trade.drawing.sketch import Pad, Weight

#: Of a sketch; its y runs down.
WIDTH, HEIGHT = 200.0, 104.0
#: How high the spindle's axis and the top of the ways lie in it.
AXIS = 40.0
WAYS = 78.0


def bed(pad: Pad, left: float = 8, right: float = 192) -> None:
    """A bed on its feet, between two places."""
    pad.box(left, WAYS, right - left, 5)
    pad.box(left + 3, WAYS + 5, right - left - 6, 12)
    for x in (left + 8, right - 26):
        pad.line((x, WAYS + 17), (x - 3, 100), (x + 21, 100), (x + 18, WAYS + 17))
    pad.line((2, 100), (198, 100), weight=Weight.THIN)


def headstock(pad: Pad) -> None:
    """A headstock with the axis of its spindle."""
    pad.shape((12, WAYS), (12, 26), (18, 20), (46, 20), (52, 26), (52, WAYS))
    pad.box(52, AXIS - 8, 7, 16)
    pad.line((6, AXIS), (196, AXIS), weight=Weight.CENTRE)


def tailstock(pad: Pad, quill: float = 10.0) -> None:
    """A tailstock, its quill so far out."""
    pad.shape((150, WAYS), (150, 62), (156, 52), (156, 30), (186, 30), (186, 52), (190, 62), (190, WAYS))
    pad.box(156 - quill, AXIS - 5, quill, 10)


def carriage(pad: Pad, x: float, width: float = 34.0) -> None:
    """A carriage that begins at ``x``."""
    pad.box(x, WAYS - 8, width, 8)
    pad.line(
        (x + 3, WAYS),
        (x + 3, WAYS + 14),
        (x + width - 3, WAYS + 14),
        (x + width - 3, WAYS),
        weight=Weight.THIN,
    )


def bar(pad: Pad, left: float = 59.0, right: float = 140.0) -> None:
    """A test bar on the axis."""
    pad.box(left, AXIS - 4, right - left, 8)


def stand(pad: Pad, x: float, y: float) -> None:
    """A post from the carriage to the indicator's stem."""
    pad.line((x, WAYS - 8), (x, y), weight=Weight.THIN)


def travel(pad: Pad, x1: float, x2: float, y: float) -> None:
    """An arrow both ways: what moves from one place to the other."""
    middle = (x1 + x2) / 2
    pad.arrow((middle, y), (x2, y))
    pad.arrow((middle, y), (x1, y))


def turn(pad: Pad, x: float, y: float, r: float = 9.0) -> None:
    """The arrow of a turn about the axis."""
    pad.arc(x, y, r, 200, 340, Weight.THIN)
    pad.arrow((x + r * 0.80, y - r * 0.60), (x + r * 0.98, y - r * 0.22))


def table(pad: Pad, y: float = 78.0) -> None:
    """A milling table with three slots."""
    pad.box(14, y, 172, 12)
    for x in (50.0, 100.0, 150.0):
        pad.line(
            (x - 3, y),
            (x - 3, y + 4),
            (x - 5, y + 4),
            (x - 5, y + 8),
            (x + 5, y + 8),
            (x + 5, y + 4),
            (x + 3, y + 4),
            (x + 3, y),
        )
    pad.line((14, y + 12), (30, y + 22), weight=Weight.THIN)
    pad.line((186, y + 12), (170, y + 22), weight=Weight.THIN)


def head(pad: Pad, x: float = 100.0) -> None:
    """The head of a milling machine over the table."""
    pad.box(x - 14, 4, 28, 22)
    pad.box(x - 6, 26, 12, 8)
    pad.line((x, 2), (x, 98), weight=Weight.CENTRE)
