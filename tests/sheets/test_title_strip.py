"""The title strip on paper: every text whole, above the foot of its cell."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pypdf import PdfReader

from rebuild.sheets.drawing_pdf import STRIP_MM, title_strip
from rebuild.sheets.paper import MM
from rebuild.trade.drawing.title import Title
from rebuild.trade.making.limits import general_words


# Seen: the second line of a finish was written over the rule of its cell; what needed a third was cut off unsaid.
def test_a_long_text_is_whole_and_stays_above_the_foot_of_its_cell(tmp_path: Path) -> None:
    from reportlab.pdfgen.canvas import Canvas

    finish = (
        "journals 32 µin Ra (0.8 µm), the rest 125 µin Ra (3.2 µm), "
        "all corners broken, oil grooves rounded and clean, both centres left in"
    )
    title = Title(
        "CR-2 lifting shaft", "4140", finish, 1, "attempt 1, 1 Dec 2026, issue 2", general_words("in")
    )
    canvas = Canvas(str(tmp_path / "strip.pdf"))
    title_strip(canvas, title.cells(0.75, "in"), 180.0)
    canvas.save()
    feet: list[tuple[str, float]] = []
    half = STRIP_MM / 2

    def note(text: str, _cm: Any, at: list[float], _font: Any, size: float) -> None:
        if text.strip():
            feet.append((text.strip(), at[5] / MM % half - 0.22 * size / MM))

    said = PdfReader(tmp_path / "strip.pdf").pages[0].extract_text(visitor_text=note)
    words = " ".join(said.split())
    assert finish in words
    assert general_words("in") in words, "six rows of the standard"
    # A letter like g, or a bracket, hangs 0.22 of its size below the line it stands on.
    assert {text for text, above in feet if above <= 0.05} == set(), "written over the rule under it"
