"""Leaders cross no dimension and no other words: plain geometry on every shape, with details on it."""

from __future__ import annotations

import math

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.drawing.detail import Detail
from rebuild.trade.drawing.details import with_details
from rebuild.trade.drawing.ink import Arc, Drawing, Layer, Line
from rebuild.trade.drawing.laid import Laid, block
from rebuild.trade.drawing.lay_out import best_fit
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.drawing.shapes import draw
from rebuild.trade.drawing.thread_shown import ThreadShown
from rebuild.words.making_details import DetailKind

K = DetailKind


def m(size: float, low: float | None = None, high: float | None = None) -> Measure:
    return Measure("size", size, low, high)


def made(shape: str, sizes: dict[str, float], thread: ThreadShown | None = None) -> Drawing:
    return draw(shape, {role: Measure(role, size) for role, size in sizes.items()}, "mm", thread)


SHAFT = {"diameter 1": 20.0, "length 1": 60.0, "diameter 2": 16.0, "length 2": 40.0, "diameter 3": 12.0,
         "length 3": 30.0, "end chamfer": 1.0}  # fmt: skip
COLLAR = {"outside diameter": 40.0, "bore": 20.0, "width": 18.0, "chamfer": 0.5}
SCREW = {"thread diameter": 20.0, "thread length": 120.0, "journal diameter": 15.0, "journal length": 25.0}
NUT = {"body diameter": 36.0, "bore": 16.5, "length": 40.0, "flange diameter": 60.0, "flange thickness": 8.0,
       "flange hole": 5.5, "hole circle": 48.0}  # fmt: skip
GEAR = {
    "outside diameter": 55.0,
    "bore": 16.0,
    "face width": 20.0,
    "pitch diameter": 52.0,
    "root diameter": 47.0,
}
PLACED = [
    Detail(K.CROSS_HOLE, "oil hole", m(25.0, 24.8, 25.2), m(4.0), None, around_deg=0.0),
    Detail(K.CROSS_HOLE, "pin hole", m(12.0), m(5.0, 5.0, 5.012), None, around_deg=90.0),
    Detail(K.SPOT, "spot", m(70.0), m(6.0), m(1.5), around_deg=0.0),
    Detail(K.FLAT, "flat", m(105.0), None, m(1.0), m(15.0)),
    Detail(K.KEYWAY, "keyway", m(35.0), m(6.0, 5.97, 6.0), m(3.5, 3.5, 3.6), m(20.0)),
    Detail(K.SPLINE, "serration", m(85.0), None, m(1.0), m(10.0), count=24),
]
DRAWINGS = {
    "shaft": made("stepped shaft", SHAFT),
    "shaft with all on it": with_details(made("stepped shaft", SHAFT), PLACED),
    "collar": with_details(
        made("collar", COLLAR),
        [
            Detail(K.SPOT, "spot", m(9.0), m(6.0), m(1.0)),
            Detail(K.HOLES_ON_CIRCLE, "pin holes", None, m(4.0), m(8.0), None, 30.0, m(30.0), 3),
        ],
    ),
    "screw": with_details(
        made("screw", SCREW, ThreadShown("Tr 20x4", 20.0, 15.5)),
        [
            Detail(K.OIL_GROOVE, "groove", m(12.0), m(2.0), m(1.0)),
            Detail(K.ANGLE, "centre", m(145.0), around_deg=60.0),
        ],
    ),
    "nut": with_details(
        made("nut", NUT, ThreadShown("Tr 20x4", 20.5, 16.5)),
        [Detail(K.CROSS_HOLE, "oil", m(24.0), m(3.0), m(8.0))],
    ),
    "gear": made("gear", GEAR),
}


def meets(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> bool:
    """Independent of the layout's own test: the point where two lines meet, by Cramer's rule, inside both."""
    det = (b[0] - a[0]) * (c[1] - d[1]) - (b[1] - a[1]) * (c[0] - d[0])
    if abs(det) < 1e-12:
        return False
    s = ((c[0] - a[0]) * (c[1] - d[1]) - (c[1] - a[1]) * (c[0] - d[0])) / det
    t = ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / det
    return 1e-6 < s < 1 - 1e-6 and 1e-6 < t < 1 - 1e-6


def crossed(laid: Laid) -> list[str]:
    found = []
    for leader in laid.leaders:
        for run in laid.runs:
            if run.layer is Layer.DIMENSION:
                for c, d in zip(run.points, run.points[1:], strict=False):
                    if meets(leader.start, leader.at, c, d):
                        found.append(f"{leader.words.lines[0]} meets a dimension")
        for words in laid.words:
            if words is leader.words:
                continue
            left, bottom, right, top = block(words, laid.style)
            for part in range(1, 50):
                x = leader.start[0] + (leader.at[0] - leader.start[0]) * part / 50
                y = leader.start[1] + (leader.at[1] - leader.start[1]) * part / 50
                if left < x < right and bottom < y < top:
                    found.append(f"{leader.words.lines[0]} runs through {words.lines[0]}")
                    break
    return found


@pytest.mark.parametrize("name", DRAWINGS)
@pytest.mark.parametrize("room", [(180.0, 110.0), (120.0, 90.0)])
def test_no_leader_crosses_a_dimension(name: str, room: tuple[float, float]) -> None:
    laid = best_fit(DRAWINGS[name], *room, "mm")
    assert len(laid.leaders) == len(DRAWINGS[name].notes)
    assert crossed(laid) == []


def test_no_extension_line_runs_through_words() -> None:
    """Seen: a long note under a narrow collar stood across both extension lines of its width."""
    drawing = with_details(
        made("collar", {**COLLAR, "width": 10.0}),
        [
            Detail(
                K.CROSS_HOLE,
                "pin hole, drilled under a taper pin no. 2",
                m(5.0),
                m(4.0),
                None,
                around_deg=0.0,
            )
        ],
    )
    laid = best_fit(drawing, 120.0, 90.0, "mm")
    through = [
        words.lines[0]
        for words in laid.words
        for run in laid.runs
        if run.layer is Layer.DIMENSION
        for (x, low), (other, high) in [(min(run.points), max(run.points))]
        for left, bottom, right, top in [block(words, laid.style)]
        if x == other and left < x < right and min(low, high) < top and bottom < max(low, high)
    ]
    assert through == []
    assert len(laid.leaders) == len(drawing.notes)


def test_details_stand_where_they_are_told() -> None:
    drawing = DRAWINGS["shaft with all on it"]
    for one in drawing.dimensions:
        assert one.measured_mm == pytest.approx(one.measure.at_mm), one.role
    # By hand: the 4 mm hole at 25 mm up through the 20 mm step: hidden lines x = 23 and 27, y from 10 to -10.
    hidden = {s.points() for s in drawing.strokes if isinstance(s, Line) and s.layer is Layer.HIDDEN}
    assert ((23.0, 10.0), (23.0, -10.0)) in hidden
    assert ((27.0, 10.0), (27.0, -10.0)) in hidden
    # The flat at 105 over 15 mm on the 12 mm step, 1 deep: its floor at y = 5.
    assert any(s.points() == ((105.0, 5.0), (120.0, 5.0)) for s in drawing.strokes if isinstance(s, Line))
    told = [note.lines for note in drawing.notes]
    assert ("keyway: keyway 5.970 to 6.000 wide", "3.500 to 3.600 deep, 20 long, 0° round") in told


def test_holes_stand_evenly_on_their_circle() -> None:
    # Three on Ø30, the first 30° from the top, clockwise: by hand centres at 60°, -60° and 180° from the right.
    drawing = DRAWINGS["collar"]
    rings = [s for s in drawing.strokes if isinstance(s, Arc) and s.radius == 2.0]
    circle = next(s for s in drawing.strokes if isinstance(s, Arc) and s.radius == 15.0)
    turns = sorted(
        round(math.degrees(math.atan2(s.centre[1] - circle.centre[1], s.centre[0] - circle.centre[0]))) % 360
        for s in rings
    )
    assert turns == [60, 180, 300]
    assert {round(math.dist(s.centre, circle.centre), 9) for s in rings} == {15.0}


def test_teeth_are_not_cut_and_stand_in_thin_and_chain_lines() -> None:
    """ISO 2203: in section the teeth are left open down to the root, the pitch line is a chain line."""
    drawing = DRAWINGS["gear"]
    assert max(y for region in drawing.regions for _x, y in region.loop) == 23.5
    assert drawing.bounds[3] >= 27.5
    layers = {
        round(abs(s.a[1]), 3): s.layer
        for s in drawing.strokes
        if isinstance(s, Line) and s.a[1] == s.b[1] and abs(s.a[1]) > 20
    }
    assert layers == {27.5: Layer.OUTLINE, 26.0: Layer.CENTRE, 23.5: Layer.OUTLINE}


@pytest.mark.parametrize(
    ("detail", "sentence"),
    [
        (Detail(K.CROSS_HOLE, "oil", m(131.0), m(4.0)), "beyond the part"),
        (Detail(K.CROSS_HOLE, "oil", m(25.0)), "oil, diameter: is not given yet"),
        (Detail(K.CROSS_HOLE, "oil", m(25.0), m(4.0), m(20.1)), "deeper than the part"),
        (Detail(K.FLAT, "flat", m(120.0), None, m(1.0), m(11.0)), "beyond the part"),
        (Detail(K.KEYWAY, "key", m(10.0), m(6.0), None, m(10.0)), "key, depth: is not given yet"),
        (
            Detail(K.HOLES_ON_CIRCLE, "holes", None, m(4.0), None, None, 0.0, m(16.1), 4),
            "does not fit on the part",
        ),
    ],
)
def test_what_cannot_be_is_refused(detail: Detail, sentence: str) -> None:
    with pytest.raises(BadEntry, match=sentence):
        with_details(made("stepped shaft", SHAFT), [detail])


def test_at_the_very_end_it_fits() -> None:
    end = [
        Detail(K.CROSS_HOLE, "oil", m(130.0), m(2.0)),
        Detail(K.CROSS_HOLE, "deep", m(25.0), m(4.0), m(20.0)),
    ]
    assert len(with_details(made("stepped shaft", SHAFT), end).notes) == 3
