"""Ask the index: what was typed becomes a question of whole words and beginnings of words, never of operators."""

from __future__ import annotations

import re
import sqlite3
import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rebuild.store.find.columns import PART, SHORT, SPREAD, WordTable

#: Letters shown before and after the first word found.
_BEFORE, _AFTER = 36, 110
_MOST_SHOWN = 240
#: A number of fewer digits is only itself: bag 7 is not bag 70.
_WHOLE_DIGITS = 3
#: So many are looked at to put the kinds in order; a common beginning of a word has far more.
RANKED = 400
_PLAIN = re.compile(r"[a-z0-9]+")


@dataclass(frozen=True, slots=True)
class Hit:
    """A row with all the words asked for, and the text around the first of them."""

    table: str
    row: int
    around: str


def tokens(text: str) -> list[str]:
    """The words of a text as the index has them: letters, digits and private signs, small, without marks.

    >>> tokens("HS-02 Lagerdeckel für Größe")
    ['hs', '02', 'lagerdeckel', 'fur', 'große']
    """
    if text.isascii():
        return _PLAIN.findall(text.lower())  # a page of a manual is long, and letter by letter takes its time
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


def hits(
    raw: sqlite3.Connection,
    tables: Sequence[WordTable],
    typed: str,
    most: int,
    order: Callable[[str], int] = lambda _table: 0,
) -> list[Hit]:
    """Rows with all the words typed: of those looked at, ``most`` in the order of their tables."""
    asked = question(typed)
    if not asked:
        return []
    named = {table.number: table.name for table in tables}
    rows = raw.execute(
        "SELECT rowid FROM find_words WHERE find_words MATCH ? LIMIT ?", (asked, max(RANKED, most))
    )
    keys = [key for (key,) in rows if key % SPREAD in named]
    keys.sort(key=lambda key: (order(named[key % SPREAD]), key))
    words = tokens(typed)
    found: list[Hit] = []
    for start in range(0, len(keys[:most]), _AT_ONCE):
        some = keys[:most][start : start + _AT_ONCE]
        marks = ", ".join("?" * len(some))
        texts = dict(
            raw.execute(f"SELECT id, c0 FROM find_words_content WHERE id IN ({marks})", some).fetchall()
        )
        found += [
            Hit(named[key % SPREAD], key // SPREAD, around(str(texts.get(key, "")), *words)) for key in some
        ]
    return found


_AT_ONCE = 400


def around(text: str, *words: str) -> str:
    """What of a row in the index says a word asked for, on one line: its columns that do, each around that word.

    A row found only by a code said short shows nothing.

    >>> around("X-01\x1fa nest of   swarf\x1fopen\x1eX1", "swarf")
    'a nest of swarf'
    """
    columns = text.partition(SHORT)[0].split(PART)
    found = [next(((column, one) for one in words if _says(column, one)), None) for column in columns]
    return " · ".join(_around(*one) for one in found if one is not None)[:_MOST_SHOWN]


def _says(text: str, word: str) -> bool:
    return any(one.startswith(word) for one in tokens(text))


def _around(text: str, word: str) -> str:
    at = re.search(rf"\b{re.escape(word)}", text, re.IGNORECASE)
    start = max(0, at.start() - _BEFORE) if at else 0
    start = text.rfind(" ", 0, start) + 1 if start else 0
    end = (at.start() if at else 0) + _AFTER
    shown = " ".join(text[start:end].split())
    return f"{'…' if start else ''}{shown}{'…' if end < len(text) else ''}"
