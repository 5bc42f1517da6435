"""Drawings: every shape measures what its sizes say, at any scale; what cannot be is refused in a sentence."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import BadEntry
from rebuild.trade.drawing.hatch import hatch_lines
from rebuild.trade.drawing.ink import Arc, Drawing, Line
from rebuild.trade.drawing.laid import STYLE, block, scale_words
from rebuild.trade.drawing.lay_out import best_fit, lay_out
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.drawing.shapes import draw, drawable
from rebuild.trade.making.derive import thread_shown

SAMPLES: dict[str, tuple[dict[str, object], str]] = {
    "bush": ({"outside diameter": (20.66, 20.68), "bore": (15.89, 15.91), "length": 32.0, "lead chamfer": 0.8,
              "flange diameter": 28.0, "flange thickness": 4.0, "oil hole": 3.0, "oil hole position": 16.0,
              "bore before pressing": (15.5, 15.63)}, ""),
    "stepped shaft": ({"diameter 1": (15.98, 16.0), "length 1": 25.0, "diameter 2": (24.97, 24.98),
                       "length 2": 60.0, "diameter 3": 12.0, "length 3": 20.0, "end chamfer": 1.0,
                       "keyseat width": (7.96, 8.0), "keyseat length": 25.0, "keyseat from left end": 40.0,
                       "thread length": 15.0}, "M12"),
    "nut": ({"body diameter": (31.7, 31.75), "bore": (22.225, 22.385), "length": (38.0, 38.2),
             "flange diameter": 50.8, "flange thickness": 8.0, "hole circle": 41.0, "flange hole": 5.5,
             "number of holes": 4.0}, "1-8 LH ACME"),
    "screw": ({"thread diameter": (15.6, 15.875), "thread length": 200.0, "journal diameter": (12.68, 12.7),
               "journal length": 40.0, "collar diameter": 24.0, "collar length": 8.0, "end chamfer": 1.0},
              "5/8-8 ACME"),
    "pin": ({"diameter": (7.99, 8.0), "length": 30.0, "chamfer": 0.5}, ""),
    "taper pin": ({"big end": 6.35, "small end": 5.69, "length": 31.75}, ""),
    "collar": ({"outside diameter": 30.0, "bore": (16.0, 16.018), "width": 12.0, "chamfer": 0.5,
                "set screw hole": 5.0}, ""),
    "washer": ({"outside diameter": 30.0, "bore": 16.5, "thickness": (2.95, 3.0)}, ""),
    "spacer": ({"outside diameter": 30.0, "bore": 16.5, "length": (20.0, 20.02), "chamfer": 0.5}, ""),
    "handle": ({"shank diameter": 9.5, "shank length": 20.0, "neck diameter": 9.0, "belly diameter": 18.0,
                "end diameter": 8.0, "grip length": 70.0}, "3/8-16 UNC"),
    "key": ({"width": (6.3, 6.35), "height": (6.3, 6.35), "length": 32.0, "hub width": 7.0,
             "lower height": 3.2, "end radius": 3.0}, ""),
    "gib strip": ({"length": 200.0, "width": 18.0, "thick end": 7.0, "thin end": 4.5, "dovetail angle": 55.0}, ""),
    "gear": ({"outside diameter": (54.9, 55.03), "bore": (16.0, 16.02), "face width": 15.0,
              "pitch diameter": 50.8, "root diameter": 46.0, "hub diameter": 28.0, "hub length": 10.0}, ""),
}  # fmt: skip


def sizes(given_sizes: dict[str, object]) -> dict[str, Measure]:
    return {
        name: Measure(name, None, *value) if isinstance(value, tuple) else Measure(name, float(str(value)))
        for name, value in given_sizes.items()
    }


def drawn(shape: str) -> Drawing:
    given_sizes, thread = SAMPLES[shape]
    return draw(shape, sizes(given_sizes), "mm", thread_shown(thread, shape))


def test_every_shape_has_a_sample() -> None:
    assert set(SAMPLES) == set(drawable())


@pytest.mark.parametrize("shape", SAMPLES)
def test_dimensions_measure_what_the_sheet_says(shape: str) -> None:
    given_sizes, _ = SAMPLES[shape]
    wanted = sizes(given_sizes)
    drawing = drawn(shape)
    assert drawing.dimensions
    for dimension in drawing.dimensions:
        assert dimension.measured_mm == pytest.approx(dimension.measure.at_mm, abs=1e-9), dimension.role
        if dimension.role in wanted:
            assert dimension.measure == wanted[dimension.role]


@pytest.mark.parametrize("shape", SAMPLES)
def test_a_dimension_stands_on_the_geometry(shape: str) -> None:
    """Both ends of a diameter or height lie on an end of some stroke, or on a circle's reach."""
    drawing = drawn(shape)
    heights = {round(y, 6) for stroke in drawing.strokes for _, y in stroke.points()}
    breadths = {round(x, 6) for stroke in drawing.strokes for x, _ in stroke.points()}
    for dimension in drawing.dimensions:
        ends = (dimension.a, dimension.b)
        for x, y in ends:
            if dimension.upright:
                assert round(y, 6) in heights, (shape, dimension.role)
            else:
                assert round(x, 6) in breadths, (shape, dimension.role)


@pytest.mark.parametrize("shape", SAMPLES)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_it_is_laid_out_inside_the_paper_given(shape: str, unit: str) -> None:
    laid = best_fit(drawn(shape), 180.0, 110.0, unit)
    left, bottom, right, top = laid.bounds
    assert right - left <= 180.0
    assert top - bottom <= 110.0
    assert {placed.dimension.role for placed in laid.placed} == {one.role for one in drawn(shape).dimensions}


@pytest.mark.parametrize("shape", SAMPLES)
def test_words_do_not_run_into_each_other(shape: str) -> None:
    laid = best_fit(drawn(shape), 180.0, 110.0, "mm")
    blocks = [(words, block(words, laid.style)) for words in laid.words]
    for place, (one, a) in enumerate(blocks):
        for other, b in blocks[place + 1 :]:
            apart = a[2] <= b[0] + 1e-6 or b[2] <= a[0] + 1e-6 or a[3] <= b[1] + 1e-6 or b[3] <= a[1] + 1e-6
            assert apart, (shape, one.lines, other.lines)


def test_a_section_is_hatched_and_a_solid_is_not() -> None:
    assert len(drawn("collar").regions) == 2
    assert drawn("pin").regions == ()


def test_hatching_stays_inside_its_outline() -> None:
    loop = [(0.0, 0.0), (30.0, 0.0), (30.0, 5.0), (10.0, 5.0), (10.0, 12.0), (0.0, 12.0)]
    strokes = hatch_lines(loop, 2.0)
    assert strokes
    for a, b in strokes:
        for t in (0.02, 0.5, 0.98):
            x, y = a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])
            assert 0 <= x <= 30
            assert 0 <= y <= 12
            assert x <= 10.01 or y <= 5.01, (x, y)
        assert math.isclose(abs(b[1] - a[1]), abs(b[0] - a[0]), rel_tol=1e-6)


@given(
    outside=st.floats(6, 120), wall=st.floats(0.6, 2.5), length=st.floats(3, 200), half=st.floats(0.002, 0.05)
)
@settings(max_examples=60, deadline=None)
def test_any_bush_agrees_with_its_sizes(outside: float, wall: float, length: float, half: float) -> None:
    bore = outside - 2 * wall
    made = draw(
        "bush",
        {
            "outside diameter": Measure("outside diameter", None, outside - half, outside + half),
            "bore": Measure("bore", None, bore - half, bore + half),
            "length": Measure("length", length),
        },
    )
    assert made.dimension("outside diameter").measured_mm == pytest.approx(outside, abs=1e-6)
    assert made.dimension("bore").measured_mm == pytest.approx(bore, abs=1e-6)
    assert made.dimension("length").measured_mm == length
    left, bottom, right, top = made.bounds
    assert top - bottom == pytest.approx(outside, abs=1e-6)
    assert right - left >= length


def test_the_scale_is_told_as_drawings_do() -> None:
    assert [scale_words(scale) for scale in (5.0, 2.0, 1.0, 0.5, 0.4, 0.1)] == [
        "5:1",
        "2:1",
        "1:1",
        "1:2",
        "1:2.5",
        "1:10",
    ]


def test_twice_the_scale_is_twice_the_outline_and_the_same_words() -> None:
    one, two = (lay_out(drawn("pin"), scale, "mm", STYLE) for scale in (1.0, 2.0))
    wide = [
        max(x for x, _ in run.points) - min(x for x, _ in run.points) for run in (one.runs[0], two.runs[0])
    ]
    assert wide[1] == pytest.approx(2 * wide[0])
    assert [words.lines for words in one.words] == [words.lines for words in two.words]


def test_a_handle_swells_level_at_its_belly() -> None:
    arcs = [stroke for stroke in drawn("handle").strokes if isinstance(stroke, Arc)]
    assert len(arcs) == 4
    top = max(y for arc in arcs for _, y in arc.points())
    assert top == pytest.approx(9.0)


@pytest.mark.parametrize(
    ("shape", "change", "thread", "said"),
    [
        ("bush", {"bore": (20.3, 20.4)}, "", "leaves a wall of"),
        ("bush", {"flange thickness": 40.0}, "", "longer than the length"),
        ("bush", {"length": -3.0}, "", "not above zero"),
        ("nut", {"body diameter": 25.0}, "1-8 ACME", "bigger than the blank"),
        ("nut", {}, "", "Thread: is not given yet"),
        ("nut", {"hole circle": 49.0}, "1-8 ACME", "does not fit on the flange"),
        ("screw", {"thread diameter": 12.0}, "5/8-8 ACME", "bigger than the thread diameter"),
        ("stepped shaft", {"keyseat from left end": 100.0}, "", "longer than the shaft"),
        ("stepped shaft", {"diameter 3": 8.0}, "M12", "bigger than the diameter 3"),
        ("taper pin", {"small end": 7.0}, "", "not smaller than the big end"),
        ("handle", {"neck diameter": 20.0}, "", "thicker than the belly"),
        ("gib strip", {"thin end": 9.0}, "", "thicker than the thick end"),
        ("gib strip", {"dovetail angle": 12.0}, "", "not between 30 and 90"),
        ("key", {"lower height": 9.0}, "", "not below the whole height"),
        ("gear", {"bore": 54.5, "hub diameter": 54.8}, "", "leaves a wall of"),
    ],
)
def test_what_cannot_be_is_refused(shape: str, change: dict[str, object], thread: str, said: str) -> None:
    given_sizes, _ = SAMPLES[shape]
    with pytest.raises(BadEntry, match=said) as refused:
        draw(shape, sizes({**given_sizes, **change}), "mm", thread_shown(thread, shape))
    assert refused.value.where


def test_a_missing_size_is_named() -> None:
    with pytest.raises(BadEntry, match="Length: is not given yet"):
        draw("pin", sizes({"diameter": 8.0}))
    with pytest.raises(BadEntry, match="has no drawing here"):
        draw("casting", {})


def test_a_step_key_shows_both_widths() -> None:
    drawing = drawn("key")
    lines = [stroke for stroke in drawing.strokes if isinstance(stroke, Line)]
    assert drawing.dimension("hub width").measured_mm == 7.0
    assert drawing.dimension("width").measured_mm == pytest.approx(6.325)
    assert any(math.isclose(line.a[1], 3.2 - 6.325 / 2) for line in lines)
