"""Search a file: the index is brought up to what is stored, asked, and made anew when it turns out damaged."""

from __future__ import annotations

from rebuild.errors import Bug, FileTrouble
from rebuild.store.store import Store
from rebuild.work.find.rows import MOST, Found, find
from rebuild.work.records.rows_settings import decimal_comma


def search(store: Store, typed: str, most: int = MOST) -> list[Found]:
    """What was typed, as ``rows.find``, in all that is stored by now.

    Raises:
        FileTrouble: the file itself cannot be read.
    """
    store.follow_words()
    comma = decimal_comma(store)
    try:
        with store.read() as connection:
            return find(connection, typed, most, decimal_comma=comma)
    except (FileTrouble, Bug):  # SQLite calls a spoiled index an error of the question
        store.follow_words(anew=True)
        with store.read() as connection:
            return find(connection, typed, most, decimal_comma=comma)
