"""Ask the index: what was typed becomes a question of whole words and beginnings of words, never of operators."""

from __future__ import annotations

import sqlite3
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.store.find.columns import SPREAD, WordTable

#: Around the words that were found, in what is shown of a row.
OPEN, CLOSE = "\x02", "\x03"
#: A number of fewer digits is only itself: bag 7 is not bag 70.
_WHOLE_DIGITS = 3
#: So many are looked at to put the best first; a common beginning of a word has far more.
RANKED = 400


@dataclass(frozen=True, slots=True)
class Hit:
    """A row with all the words asked for; in ``around`` the found ones stand between OPEN and CLOSE."""

    table: str
    row: int
    around: str


def tokens(text: str) -> list[str]:
    """The words of a text as the index has them: letters, digits and private signs, small, without marks.

    >>> tokens("HS-02 Lagerdeckel für Größe")
    ['hs', '02', 'lagerdeckel', 'fur', 'große']
    """
    plain = unicodedata.normalize("NFKD", text)
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter)).lower()
    spaced = "".join(letter if unicodedata.category(letter)[0] in "LN" else " " for letter in plain)
    return spaced.split()


def question(typed: str) -> str:
    """What is asked of the index: every word typed, each as the beginning of a word; one with a hyphen as a phrase.

    >>> question('bag 7 "AND (thrust')
    '"bag"* AND "7" AND "and"* AND "thrust"*'
    """
    asked: list[str] = []
    for word in typed.split():
        parts = tokens(word)
        if parts:
            last = parts[-1]
            star = "" if last.isdigit() and len(last) < _WHOLE_DIGITS else "*"
            asked.append(f'"{" ".join(parts)}"{star}')
    return " AND ".join(asked)


def hits(raw: sqlite3.Connection, tables: Sequence[WordTable], typed: str, most: int) -> list[Hit]:
    """Rows with all the words typed, those that say them in fewest words first among the first found."""
    asked = question(typed)
    if not asked:
        return []
    named = {table.number: table.name for table in tables}
    rows = raw.execute(
        "SELECT rowid, around FROM (SELECT rowid, length(words) AS long, "
        f"snippet(find_words, 0, '{OPEN}', '{CLOSE}', '…', 14) AS around FROM find_words "
        "WHERE find_words MATCH ? LIMIT ?) ORDER BY long, rowid LIMIT ?",
        (asked, RANKED, most),
    )
    return [
        Hit(named[key % SPREAD], key // SPREAD, " ".join(around.split()))
        for key, around in rows
        if key % SPREAD in named
    ]
