"""A drawing as a DXF file: true size in the sheet's unit, layers by sort of line, real dimension entities.

Every dimension measures the geometry; its limits are the dimension's own tolerance, not a typed text.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.errors import FileTrouble
from rebuild.trade.drawing.ink import Arc, Drawing, Layer, Line, Point
from rebuild.trade.drawing.laid import Laid, Placed, block, scale_words
from rebuild.trade.drawing.lay_out import best_fit
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.drawing.title import ROWS, Title
from rebuild.trade.limits.inward import limit_number
from rebuild.trade.sizes.show import DECIMALS, in_unit

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Modelspace

#: Colour number, line type and line weight [0.01 mm] of each layer.
LAYERS: dict[Layer, tuple[int, str, int]] = {
    Layer.OUTLINE: (7, "CONTINUOUS", 50),
    Layer.HIDDEN: (8, "DASHED", 25),
    Layer.CENTRE: (8, "CENTER", 18),
    Layer.THREAD: (7, "CONTINUOUS", 18),
    Layer.HATCH: (8, "CONTINUOUS", 13),
    Layer.DIMENSION: (7, "CONTINUOUS", 18),
    Layer.NOTE: (7, "CONTINUOUS", 18),
}
_INSUNITS = {"in": 1, "mm": 4}
#: Spacing of the standard's steel hatch at scale 1, in each unit.
_ANSI31 = {"in": 0.125, "mm": 3.175}
#: The paper the words are sized for [mm].
PAPER_MM = (180.0, 120.0)
STYLE = "SHEET"


def write_dxf(
    drawing: Drawing, target: Path, unit: str = "mm", *, title: str = "", strip: Title | None = None
) -> None:
    """Write a drawing; the file opens in any CAD program.

    Args:
        unit: of the file, ``mm`` or ``in``.
        title: written under the drawing.
        strip: what the title strip says; without one the title stands alone.

    Raises:
        FileTrouble: it cannot be written there.
    """
    from ezdxf.filemanagement import new
    from ezdxf.units import IN, MM

    document = new("R2010", setup=True)
    document.units = IN if unit == "in" else MM
    document.header["$MEASUREMENT"] = 0 if unit == "in" else 1
    document.header["$INSUNITS"] = _INSUNITS[unit]
    for layer, (colour, line_type, weight) in LAYERS.items():
        document.layers.add(layer.value.upper(), color=colour, linetype=line_type, lineweight=weight)
    laid = best_fit(drawing, *PAPER_MM, unit)
    pen = _Pen(document.modelspace(), document, laid, unit)
    document.header["$LTSCALE"] = 1.25 * pen.text_height
    pen.strokes(drawing)
    for placed in laid.placed:
        pen.dimension(placed)
    for note in drawing.notes:
        pen.note(note.at, note.lines)
    pen.title(drawing, title)
    if strip is not None:
        pen.strip(strip)
    try:
        document.saveas(target)
    except OSError as trouble:
        raise FileTrouble(
            f"the drawing cannot be written: {trouble.strerror}.",
            where=target.name,
            way_out="Choose another folder, or close the program that shows it.",
        ) from trouble


class _Pen:
    """Writes into a model space, in the file's unit."""

    def __init__(self, space: Modelspace, document: Document, laid: Laid, unit: str) -> None:
        self._space = space
        self._laid = laid
        self._unit = unit
        self._text = laid.style.text / laid.scale
        self._make_style(document)

    def _make_style(self, document: Document) -> None:
        made = document.dimstyles.duplicate_entry("EZDXF", STYLE)
        size = self._in(self._text)
        for name, value in (
            ("dimtxt", size),
            ("dimasz", 0.75 * size),
            ("dimexe", 0.4 * size),
            ("dimexo", 0.4 * size),
            ("dimgap", 0.3 * size),
            ("dimtad", 1),
            ("dimtih", 0),
            ("dimtoh", 0),
            ("dimscale", 1.0),
            ("dimlfac", 1.0),
            ("dimdec", DECIMALS[self._unit]),
            ("dimtdec", DECIMALS[self._unit]),
            ("dimzin", 0),
            ("dimtzin", 0),
            ("dimblk", ""),
            ("dimtsz", 0),
            ("dimclrd", 256),
            ("dimclre", 256),
            ("dimclrt", 256),
            ("dimtxsty", "OpenSans"),
            ("dimtfac", 1.0),
            ("dimtofl", 1),
            ("dimtix", 1),
            ("dimdsep", ord(".")),
        ):
            made.dxf.set(name, value)
        made.dxf.discard("dimrnd")

    @property
    def text_height(self) -> float:
        """The height of its words, in the file's unit."""
        return self._in(self._text)

    def _in(self, mm: float) -> float:
        return in_unit(mm, self._unit)

    def _at(self, point: Point) -> Point:
        return self._in(point[0]), self._in(point[1])

    def strokes(self, drawing: Drawing) -> None:
        """Outlines, centre lines, threads and hatching."""
        for stroke in drawing.strokes:
            attributes = {"layer": stroke.layer.value.upper()}
            if isinstance(stroke, Line):
                self._space.add_line(self._at(stroke.a), self._at(stroke.b), dxfattribs=attributes)
            else:
                self._arc(stroke, attributes)
        for region in drawing.regions:
            hatch = self._space.add_hatch(dxfattribs={"layer": Layer.HATCH.value.upper()})
            spacing = self._in(self._laid.style.hatch / self._laid.scale)
            hatch.set_pattern_fill("ANSI31", scale=spacing / _ANSI31[self._unit])
            hatch.paths.add_polyline_path([self._at(point) for point in region.loop], is_closed=True)

    def _arc(self, arc: Arc, attributes: dict[str, Any]) -> None:
        centre, radius = self._at(arc.centre), self._in(arc.radius)
        if arc.whole:
            self._space.add_circle(centre, radius, dxfattribs=attributes)
        else:
            self._space.add_arc(centre, radius, arc.start_deg, arc.end_deg, dxfattribs=attributes)

    def dimension(self, placed: Placed) -> None:
        """A dimension entity on the two points it measures."""
        one = placed.dimension
        scale = self._laid.scale
        at = placed.line_at / scale
        base = self._at((at, one.a[1]) if one.upright else (one.a[0], at))
        # What is measured stands for <>: a diameter sign or brackets about it, never a typed number.
        words = "(<>)" if one.role.startswith("(") else "%%c<>" if one.diameter else "<>"
        made = self._space.add_linear_dim(
            base=base,
            p1=self._at(one.a),
            p2=self._at(one.b),
            angle=90 if one.upright else 0,
            dimstyle=STYLE,
            text=words,
            text_rotation=0,
            override=self._tolerance(one.measure),
            dxfattribs={"layer": Layer.DIMENSION.value.upper()},
        )
        made.set_location(self._at(self._middle(placed)), leader=False, relative=False)
        made.render()
        if one.diameter:
            _mark_diameter(made.dimension)

    def _middle(self, placed: Placed) -> Point:
        """The middle of a dimension's words [mm]."""
        words = next(words for words in self._laid.words if words.at == placed.text_at)
        left, bottom, right, top = block(words, self._laid.style)
        beside = {"left": 0.6, "right": -0.6}.get(words.anchor, 0.0) * self._laid.style.text
        return ((left + right) / 2 + beside) / self._laid.scale, (bottom + top) / 2 / self._laid.scale

    def _tolerance(self, measure: Measure) -> dict[str, Any]:
        """The limits as the dimension's own: both limits, or an even tolerance, or none."""
        if measure.low_mm is None or measure.high_mm is None:
            return {"dimzin": 8}
        half = self._in(measure.high_mm - measure.low_mm) / 2
        even = measure.plus_minus_mm is not None
        places = DECIMALS[self._unit] + (0 if even else _more(measure, self._unit))
        return {
            "dimlim": 0 if even else 1,
            "dimtol": 1 if even else 0,
            "dimtp": half,
            "dimtm": half,
            "dimdec": places,
            "dimtdec": places,
            "dimzin": 8 if even else 0,
            "dimtzin": 8 if even else 0,
        }

    def note(self, at: Point, lines: tuple[str, ...]) -> None:
        """Words on a leader, where the layout put them."""
        leader = next((one for one in self._laid.leaders if one.words.lines == lines), None)
        if leader is None:
            return
        scale = self._laid.scale
        spot = (leader.words.at[0] / scale, leader.words.at[1] / scale)
        attributes = {"layer": Layer.NOTE.value.upper(), "style": "OpenSans"}
        near = (leader.start[0] / scale, leader.start[1] / scale)
        self._space.add_leader(
            [self._at(at), self._at(near)], dimstyle=STYLE, dxfattribs={"layer": attributes["layer"]}
        )
        text = self._space.add_mtext(
            "\\P".join(_plain(line) for line in lines),
            dxfattribs={**attributes, "char_height": self._in(self._text), "attachment_point": 5},
        )
        text.set_location(self._at(spot))

    def title(self, drawing: Drawing, title: str) -> None:
        """Title, unit and scale under everything."""
        left, bottom, _, _ = (value / self._laid.scale for value in self._laid.bounds)
        unit = "inches" if self._unit == "in" else "mm"
        words = f"{title or drawing.title}   drawn 1:1 in {unit}; on paper {scale_words(self._laid.scale)}"
        self._space.add_text(
            _plain(words),
            height=self._in(self._text),
            dxfattribs={
                "layer": Layer.NOTE.value.upper(),
                "style": "OpenSans",
                "insert": self._at((left, bottom - 3 * self._text)),
            },
        )

    def strip(self, title: Title) -> None:
        """The title strip under the title: ruled cells, a label and a text in each."""
        left, bottom, right, _ = (value / self._laid.scale for value in self._laid.bounds)
        text = self._text
        wide, top = max(right - left, 60 * text), bottom - 5 * text
        cells = iter(title.cells(self._laid.scale, self._unit))
        for number, shares in enumerate(ROWS):
            above = top - number * 3.4 * text
            self._row(left, above, [(next(cells), share * wide) for share in shares])

    def _row(self, x: float, top: float, cells: Sequence[tuple[tuple[str, str], float]]) -> None:
        text, layer = self._text, Layer.NOTE.value.upper()
        foot = top - 3.4 * text
        for (label, words), wide in cells:
            end = x + wide
            corners = [(x, top), (end, top), (end, foot), (x, foot)]
            self._space.add_lwpolyline(
                [self._at(one) for one in corners], close=True, dxfattribs={"layer": layer}
            )
            small = min(0.8 * text, 1.4 * (end - x) / max(len(words), 1))
            for said, height, y in ((label, 0.5 * text, top - 0.9 * text), (words, small, foot + 0.6 * text)):
                self._space.add_text(
                    _plain(said),
                    height=self._in(height),
                    dxfattribs={"layer": layer, "style": "OpenSans", "insert": self._at((x + 0.3 * text, y))},
                )
            x = end


def _mark_diameter(dimension: Any) -> None:
    """Both limits with their Ø in the picture of the dimension; programs that draw it anew take it from its text."""
    for text in dimension.get_geometry_block().query("MTEXT"):
        if "%%c" not in text.text and "Ø" not in text.text:
            text.text = f"Ø{text.text}"


def _more(measure: Measure, unit: str) -> int:
    """One more decimal where the middle of the limits or a limit needs it."""
    ends = [end for end in (measure.low_mm, measure.high_mm) if end is not None]
    return max(len(limit_number(end, unit).split(".")[1]) for end in ends) - DECIMALS[unit]


def _plain(text: str) -> str:
    """Signs a CAD text file writes in its own way."""
    return text.replace("Ø", "%%c").replace("±", "%%p").replace("°", "%%d")
