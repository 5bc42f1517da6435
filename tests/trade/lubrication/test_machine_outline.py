"""Each kind of machine has the outline of that kind, told by what only it has."""

from __future__ import annotations

import pytest

from rebuild.trade.drawing.sketch import Drawing, Stroke, Weight
from rebuild.trade.lubrication.machine_outline import HEIGHT, WIDTH, outline
from rebuild.words.machines import MachineKind

DRAWN = [
    MachineKind.LATHE,
    MachineKind.SHAPER,
    MachineKind.MILL,
    MachineKind.SURFACE_GRINDER,
    MachineKind.PLANER,
    MachineKind.DRILL,
]


def span(stroke: Stroke) -> tuple[float, float]:
    xs, ys = zip(*stroke.points, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def rounds(drawing: Drawing) -> list[float]:
    """The widths of what is round."""
    return sorted(
        span(one)[0]
        for one in drawing.strokes
        if len(one.points) > 12 and abs(span(one)[0] - span(one)[1]) < 1
    )


def axes(drawing: Drawing) -> list[str]:
    """How the centre lines lie."""
    lines = [span(one) for one in drawing.strokes if one.weight is Weight.CENTRE]
    return ["lying" if wide > high else "upright" for wide, high in lines]


def test_each_kind_that_is_drawn_has_an_outline_of_its_own() -> None:
    drawn = [outline(kind) for kind in DRAWN]
    plain = outline("a kind nobody drew")
    assert all(one.strokes != plain.strokes for one in drawn)
    assert len({one.strokes for one in drawn}) == len(DRAWN)


@pytest.mark.parametrize("kind", [kind for kind in MachineKind if kind not in DRAWN])
def test_any_other_kind_gets_the_plain_frame(kind: MachineKind) -> None:
    assert outline(kind).strokes == outline("a kind nobody drew").strokes


def test_what_only_it_has_tells_the_kind() -> None:
    lathe, shaper, mill, grinder, planer, drill = map(outline, DRAWN)
    assert axes(lathe) == ["lying"], "the line of centres"
    assert axes(mill) == ["upright"], "the quill"
    assert axes(drill) == ["upright"], "the quill"
    assert max(rounds(drill)) < max(rounds(shaper)), "the hub of the feed lever"
    assert axes(shaper) == axes(grinder) == axes(planer) == []
    assert max(rounds(shaper)) == pytest.approx(68, abs=1), "the bull wheel"
    assert max(rounds(grinder)) == pytest.approx(44, abs=1), "the grinding wheel"
    assert rounds(planer) == [], "a bridge over a table and nothing round"


@pytest.mark.parametrize("kind", list(MachineKind))
def test_nothing_is_drawn_off_the_map(kind: MachineKind) -> None:
    for stroke in outline(kind).strokes:
        for x, y in stroke.points:
            assert 0 <= x <= WIDTH
            assert 0 <= y <= HEIGHT
