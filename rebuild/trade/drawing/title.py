"""The title strip under a drawing: what it is, of what, how finished, at what scale, and what holds without limits."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.drawing.laid import scale_words

_UNITS = {"in": "inches", "mm": "mm"}


@dataclass(frozen=True, slots=True)
class Title:
    """What a drawing says of itself; an empty text is left to be written by hand."""

    part: str
    material: str
    finish: str
    quantity: int
    issue: str
    #: What holds for sizes without limits of their own, in the unit of the sheet.
    general: str

    def cells(self, scale: float, unit: str) -> tuple[tuple[str, str], ...]:
        """Label and text of each cell, from left to right.

        >>> Title("AP-12 bush", "SAE 660", "", 1, "attempt 1", "ISO 2768-m").cells(2.0, "mm")[3:6]
        (('quantity', '1'), ('scale', '2:1'), ('sizes in', 'mm'))
        """
        return (
            ("part", self.part),
            ("material", self.material),
            ("finish", self.finish),
            ("quantity", str(self.quantity)),
            ("scale", scale_words(scale)),
            ("sizes in", _UNITS[unit]),
            ("without limits", self.general),
            ("issue", self.issue),
        )


#: The strip's two rows: share of its width each cell takes, in the order of ``cells``.
ROWS = ((0.36, 0.30, 0.34), (0.08, 0.09, 0.10, 0.44, 0.29))
