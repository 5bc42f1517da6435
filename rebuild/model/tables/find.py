"""How far the index of words follows the journal."""

from __future__ import annotations

from rebuild.model.asked import Counted
from rebuild.model.cells import Cell, as_count, as_text


class FindMarks(Counted, name="find_mark"):
    """One row: the newest change of the journal the index of words knows, and which columns it was made of."""

    upto: Cell[int] = as_count(0)
    made_of: Cell[str] = as_text("")
