"""Search a file: the index is brought up to what is stored, asked, and made anew when it turns out damaged."""

from __future__ import annotations

import time

from rebuild.errors import Bug, FileTrouble
from rebuild.store.store import Store
from rebuild.work.find.rows import MOST, Found, find
from rebuild.work.records.rows_settings import decimal_comma


def search(store: Store, typed: str, most: int = MOST, *, within_s: float | None = None) -> list[Found]:
    """What was typed, as ``rows.find``, in all that is stored by now.

    With ``within_s`` [s] no longer is spent on bringing the index up first: where ``Store.words_behind`` is not 0 after
    it, more may be found later.

    Raises:
        FileTrouble: the file itself cannot be read.
    """
    if within_s is None:
        store.follow_words()
    else:
        _follow_within(store, within_s)
    comma = decimal_comma(store)
    try:
        with store.read() as connection:
            return find(connection, typed, most, decimal_comma=comma)
    except (FileTrouble, Bug):  # SQLite calls a spoiled index an error of the question
        store.follow_words(anew=True)
        with store.read() as connection:
            return find(connection, typed, most, decimal_comma=comma)


def _follow_within(store: Store, seconds: float) -> None:
    until = time.monotonic() + seconds
    while store.follow_some_words() < 1 and time.monotonic() < until:
        pass
