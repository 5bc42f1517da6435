"""A machine of each kind in plain outline, seen from the front: the ground of the oil map."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from rebuild.trade.drawing.sketch import Drawing, Pad, Weight
from rebuild.words.machines import MachineKind

WIDTH, HEIGHT = 320.0, 180.0


@cache
def outline(kind: str) -> Drawing:
    """The outline of a kind of machine; one without its own gets a plain frame.

    >>> outline("lathe").width, len(outline("other").strokes) > 0
    (320.0, True)
    """
    pad = Pad(WIDTH, HEIGHT)
    pad.line((6, 172), (314, 172), weight=Weight.THIN)
    _OUTLINES.get(kind, _plain)(pad)
    return pad.drawing()


def _lathe(pad: Pad) -> None:
    pad.box(28, 104, 270, 9)
    pad.box(32, 113, 262, 15)
    pad.shape((34, 128), (34, 172), (96, 172), (90, 128))
    pad.shape((244, 128), (238, 172), (292, 172), (292, 128))
    pad.box(96, 140, 144, 7, Weight.THIN)
    pad.shape((30, 104), (30, 46), (38, 38), (92, 38), (100, 46), (100, 104))
    for x, wide, high in ((44.0, 10.0, 36.0), (54.0, 10.0, 28.0), (64.0, 10.0, 20.0)):
        pad.box(x, 64 - high / 2 + 2, wide, high, Weight.THIN)
    pad.box(100, 54, 9, 24)
    pad.shape((109, 48), (120, 48), (120, 84), (109, 84))
    pad.line((20, 66), (306, 66), weight=Weight.CENTRE)
    pad.box(34, 106, 44, 34, Weight.THIN)
    pad.box(146, 96, 58, 8)
    pad.box(152, 104, 46, 34)
    pad.arc(164, 122, 9, weight=Weight.THIN)
    pad.box(160, 86, 34, 10)
    pad.box(164, 76, 28, 10)
    pad.box(168, 62, 10, 14)
    pad.shape((248, 104), (248, 88), (254, 80), (254, 54), (286, 54), (286, 80), (290, 88), (290, 104))
    pad.box(240, 61, 14, 10)
    pad.arc(294, 66, 9, weight=Weight.THIN)
    pad.line((78, 122), (294, 122), weight=Weight.THIN)
    pad.line((78, 126), (294, 126), weight=Weight.THIN)


def _shaper(pad: Pad) -> None:
    pad.shape((112, 160), (112, 62), (238, 62), (250, 76), (250, 160))
    pad.box(96, 160, 176, 12)
    pad.shape((70, 40), (262, 40), (270, 46), (270, 62), (70, 62))
    pad.arc(186, 116, 34, weight=Weight.THIN)
    pad.arc(186, 116, 5, weight=Weight.THIN)
    pad.arc(204, 102, 5, weight=Weight.THIN)
    pad.shape((178, 158), (186, 158), (200, 66), (190, 66), weight=Weight.THIN)
    pad.shape((70, 30), (70, 70), (58, 70), (58, 30))
    pad.box(54, 64, 18, 18)
    pad.line((64, 82), (64, 92))
    pad.line((64, 30), (64, 18))
    pad.line((57, 18), (71, 18))
    pad.box(98, 70, 14, 78)
    pad.box(82, 92, 16, 40)
    pad.box(36, 98, 46, 42)
    pad.line((46, 140), (46, 172), weight=Weight.THIN)
    pad.box(40, 86, 38, 12, Weight.THIN)
    pad.arc(262, 120, 22, weight=Weight.THIN)
    pad.arc(262, 120, 14, weight=Weight.THIN)
    pad.box(268, 146, 36, 22, Weight.THIN)


def _mill(pad: Pad) -> None:
    pad.shape((176, 160), (176, 44), (232, 44), (240, 60), (240, 160))
    pad.box(84, 160, 176, 12)
    pad.box(116, 26, 124, 18)
    pad.shape((104, 14), (148, 14), (148, 66), (134, 74), (118, 74), (104, 66))
    pad.box(120, 74, 12, 12)
    pad.line((126, 8), (126, 110), weight=Weight.CENTRE)
    pad.box(44, 100, 150, 10)
    pad.arc(38, 105, 8, weight=Weight.THIN)
    pad.box(92, 110, 84, 10)
    pad.shape((98, 120), (176, 120), (176, 148), (124, 148))
    pad.box(132, 148, 9, 14, Weight.THIN)
    pad.arc(110, 134, 7, weight=Weight.THIN)


def _grinder(pad: Pad) -> None:
    pad.box(190, 20, 46, 140)
    pad.box(76, 128, 170, 44)
    pad.box(96, 116, 124, 12)
    pad.box(40, 104, 210, 12)
    pad.box(70, 96, 110, 8)
    pad.box(140, 56, 60, 24)
    pad.arc(138, 70, 22)
    pad.arc(138, 70, 4)
    pad.arc(96, 146, 12, weight=Weight.THIN)
    pad.arc(220, 40, 12, weight=Weight.THIN)


def _planer(pad: Pad) -> None:
    pad.box(20, 122, 280, 20)
    pad.box(34, 142, 252, 30)
    pad.box(50, 108, 220, 14)
    pad.box(136, 14, 24, 108)
    pad.box(126, 56, 44, 16)
    pad.box(138, 66, 16, 26)


def _drill(pad: Pad) -> None:
    pad.box(90, 162, 140, 10)
    pad.box(186, 18, 14, 144)
    pad.box(104, 100, 96, 9)
    pad.shape((128, 109), (186, 109), (186, 124))
    pad.box(112, 30, 88, 34)
    pad.box(104, 12, 130, 14, Weight.THIN)
    pad.box(206, 26, 26, 44, Weight.THIN)
    pad.box(124, 64, 16, 12)
    pad.shape((128, 76), (136, 76), (134, 88), (130, 88))
    pad.line((132, 6), (132, 98), weight=Weight.CENTRE)
    pad.arc(160, 48, 10)
    pad.line((160, 48), (138, 30), weight=Weight.THIN)
    pad.line((160, 48), (186, 60), weight=Weight.THIN)
    pad.line((160, 48), (154, 76), weight=Weight.THIN)


def _plain(pad: Pad) -> None:
    pad.box(60, 40, 200, 120)
    pad.box(80, 60, 70, 60, Weight.THIN)
    pad.box(170, 60, 70, 60, Weight.THIN)


_OUTLINES: dict[str, Callable[[Pad], None]] = {
    MachineKind.LATHE: _lathe,
    MachineKind.SHAPER: _shaper,
    MachineKind.MILL: _mill,
    MachineKind.SURFACE_GRINDER: _grinder,
    MachineKind.PLANER: _planer,
    MachineKind.DRILL: _drill,
}
