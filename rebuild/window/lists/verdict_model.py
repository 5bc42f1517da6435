"""A table of prepared strings in which a verdict has its shape beside its word, as in the grid."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from rebuild.trade.limits.judgement import Verdict
from rebuild.window.ink.shapes import shape_for, shape_icon
from rebuild.window.lists.plain_table import AnyIndex, PlainModel

_SHAPES = {one.value: shape_for(one) for one in Verdict if one is not Verdict.NO_SPEC}


class VerdictModel(PlainModel):
    """``Verdict`` is the heading of the column; words that are no verdict stand there alone."""

    def __init__(self, headings: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(headings, parent)
        self._verdict = list(headings).index("Verdict")

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role == Qt.ItemDataRole.DecorationRole and index.isValid() and index.column() == self._verdict:
            shape = _SHAPES.get(self.text(index.row())[self._verdict])
            return shape_icon(shape) if shape is not None else None
        return super().data(index, role)
