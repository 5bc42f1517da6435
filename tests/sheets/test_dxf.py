"""Drawings as DXF: clean to the library's own auditor, and every dimension measured again from the geometry."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from ezdxf import recover

from rebuild.errors import FileTrouble
from rebuild.sheets.dxf import LAYERS, write_dxf
from rebuild.trade.drawing.ink import Layer
from rebuild.trade.drawing.shapes import drawable
from rebuild.work.making.rows_sheet_lists import SheetPage
from tests.trade.drawing.test_drawing import drawn


def read_back(path: Path) -> Any:
    document, auditor = recover.readfile(path)
    assert auditor.errors == []
    assert auditor.fixes == []
    return document


def shown_text(dimension: Any) -> str:
    """What the dimension's own picture says."""
    return "".join(
        entity.plain_text() for entity in dimension.virtual_entities() if entity.dxftype() == "MTEXT"
    )


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("shape", drawable())
def test_every_shape_is_clean_and_measures_itself(shape: str, unit: str, tmp_path: Path) -> None:
    drawing = drawn(shape)
    target = tmp_path / "part.dxf"
    write_dxf(drawing, target, unit, title=shape)
    document = read_back(target)
    scale = 25.4 if unit == "in" else 1.0
    assert document.header["$INSUNITS"] == (1 if unit == "in" else 4)
    found = sorted(entity.get_measurement() for entity in document.modelspace().query("DIMENSION"))
    wanted = sorted(one.measure.at_mm / scale for one in drawing.dimensions)
    assert found == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("shape", drawable())
def test_dimension_points_lie_on_the_drawn_geometry(shape: str, tmp_path: Path) -> None:
    """Measured from lines, arcs and circles of the file, not from our own numbers."""
    target = tmp_path / "part.dxf"
    write_dxf(drawn(shape), target, "mm")
    space = read_back(target).modelspace()
    xs: set[float] = set()
    ys: set[float] = set()
    for line in space.query("LINE"):
        for end in (line.dxf.start, line.dxf.end):
            xs.add(round(end.x, 5))
            ys.add(round(end.y, 5))
    for arc in space.query("ARC CIRCLE"):
        centre, radius = arc.dxf.center, arc.dxf.radius
        xs |= {round(centre.x - radius, 5), round(centre.x + radius, 5)}
        ys |= {round(centre.y - radius, 5), round(centre.y + radius, 5)}
    for dimension in space.query("DIMENSION"):
        upright = dimension.dxf.angle == 90
        for point in (dimension.dxf.defpoint2, dimension.dxf.defpoint3):
            assert round(point.y, 5) in ys if upright else round(point.x, 5) in xs


def test_limits_are_the_dimensions_own_tolerance(page: SheetPage, tmp_path: Path) -> None:
    assert page.drawing.drawn is not None
    target = tmp_path / "bush.dxf"
    write_dxf(page.drawing.drawn, target, "in", title=page.head.part)
    document = read_back(target)
    by_size = {round(one.get_measurement(), 5): one for one in document.modelspace().query("DIMENSION")}
    outside = by_size[0.8138]
    assert outside.dxf.text == "%%c<>"
    override = outside.override()
    assert override.get("dimlim") == 1
    assert (override.get("dimtp"), override.get("dimtm")) == pytest.approx((0.0002, 0.0002))
    assert (
        shown_text(outside) == "Ø0.8140^0.8136" or shown_text(outside).replace("\n", "^") == "Ø0.8140^0.8136"
    )
    length = by_size[1.25]
    assert length.override().get("dimtol") == 1
    assert "1.25±0.01" in shown_text(length)


def test_layers_carry_their_line_types(tmp_path: Path) -> None:
    target = tmp_path / "nut.dxf"
    write_dxf(drawn("nut"), target, "mm")
    document = read_back(target)
    for layer, (_colour, line_type, _weight) in LAYERS.items():
        assert document.layers.get(layer.value.upper()).dxf.linetype == line_type
    used = {entity.dxf.layer for entity in document.modelspace()}
    assert {
        Layer.OUTLINE.value.upper(),
        Layer.CENTRE.value.upper(),
        Layer.HATCH.value.upper(),
        Layer.THREAD.value.upper(),
        Layer.DIMENSION.value.upper(),
    } <= used
    assert {hatch.dxf.pattern_name for hatch in document.modelspace().query("HATCH")} == {"ANSI31"}


def test_it_carries_the_title_and_the_unit(tmp_path: Path) -> None:
    target = tmp_path / "pin.dxf"
    write_dxf(drawn("pin"), target, "in", title="AP-12 pin")
    words = " ".join(text.dxf.text for text in read_back(target).modelspace().query("TEXT"))
    assert "AP-12 pin" in words
    assert "drawn 1:1 in inches" in words


def test_a_folder_that_is_not_there_is_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(FileTrouble, match="cannot be written"):
        write_dxf(drawn("pin"), tmp_path / "nowhere" / "pin.dxf")
