"""Manuals made for tests: PDFs by reportlab, a writer that shares nothing with the reader under test."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from reportlab.lib.pagesizes import A4
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen.canvas import Canvas

PAGES = (
    ("Instruction book", "Invented lathe, 1957"),
    ("Lubrication", "Apron: Bed oil 68, daily.", "Headstock: spindle oil 10, see Fig. 12."),
    ("Fig. 12 Headstock", "14", "15", "16"),
)


def manual(path: Path, pages: Sequence[Sequence[str]] = PAGES, *, password: str = "") -> Path:
    """A PDF whose pages hold these lines."""
    locked = StandardEncryption(password) if password else None
    canvas = Canvas(str(path), pagesize=A4, encrypt=locked, invariant=1)
    for lines in pages:
        for at, line in enumerate(lines):
            canvas.drawString(72, 780 - 20 * at, line)
        canvas.showPage()
    canvas.save()
    return path
