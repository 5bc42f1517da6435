"""Words read from the file without a call a cell, against the library's own column of words.

Source: SQLAlchemy's ``Enum``, whose answers and refusals are the same.
"""

from __future__ import annotations

import pytest
from sqlalchemy import Enum
from sqlalchemy.dialects.sqlite import dialect

from rebuild.model.stored import Word
from rebuild.model.tables.every import whole

SQLITE = dialect()
COLUMNS = [
    column for table in whole().tables.values() for column in table.columns if isinstance(column.type, Word)
]


def test_every_word_is_read_as_the_library_reads_it() -> None:
    assert len(COLUMNS) > 50, "the words of the trade are columns of this sort"
    for column in COLUMNS:
        assert isinstance(column.type, Word)
        ours = column.type.result_processor(SQLITE, None)
        theirs = Enum.result_processor(column.type, SQLITE, None)
        for stored in (*column.type.enums, None):
            assert ours(stored) is theirs(stored), (column, stored)


@pytest.mark.parametrize("stored", ["nobody's word", "", b"\xff", 7, 1.5])
def test_what_is_no_word_is_refused_as_the_library_refuses_it(stored: str) -> None:
    column = COLUMNS[0].type
    assert isinstance(column, Word)
    with pytest.raises(LookupError):
        Enum.result_processor(column, SQLITE, None)(stored)
    with pytest.raises(LookupError, match=f"none of the words of {column.name}"):
        column.result_processor(SQLITE, None)(stored)
