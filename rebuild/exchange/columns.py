"""Which column of a table means what: by its heading in any of eight languages, and by what stands under it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache

from rebuild.work.lists.fields import COLUMNS, PART_OF_FEATURE, Column, What
from rebuild.work.lists.heading_words import FEATURE_WORDS, PART_WORDS, READING_WORDS, plain, tokens

Rows = Sequence[tuple[str, ...]]
_WORDS = {What.PARTS: PART_WORDS, What.READINGS: READING_WORDS, What.FEATURES: FEATURE_WORDS}
#: Words inside a longer heading that say it is something else: a price is no quantity.
_OTHERS = frozenset({
    "price", "cost", "preis", "prix", "precio", "prezzo", "prijs", "url", "link", "links", "supplier",
    "vendor", "color",
    "colour", "weight", "mass", "extended", "footprint", "package", "金額", "単価", "价格", "单价",
})  # fmt: skip
#: A code is shorter than this; what is longer is a description.
_LONGEST_CODE = 40
#: The program's own heading of it.
_CODE = plain("Code")


def mapping(what: What, heads: tuple[str, ...], rows: Rows = (), *, alone: bool = False) -> dict[int, str]:
    """Column index to the name of what it holds; a heading nobody knows is left out, no name is given twice.

    With ``alone`` columns of which no heading is known are guessed by what stands under them.
    """
    found: dict[int, str] = {}
    for known in (_exact, _also):
        for at, head in enumerate(heads):
            if at in found or not plain(head):
                continue
            name = next((one.name for one in COLUMNS[what] if known(one, plain(head))), "")
            if name and name not in found.values():
                found[at] = name
    exported = len(found) > 3 and all(
        any(_exact(one, plain(head)) for one in COLUMNS[what]) for head in heads if plain(head)
    )
    if exported or what not in _WORDS:
        return found
    return _by_words(what, heads, rows, alone=alone)


def _exact(column: Column, head: str) -> bool:
    return head == plain(column.head)


def _also(column: Column, head: str) -> bool:
    return head in {plain(word) for word in column.also}


def _by_words(what: What, heads: tuple[str, ...], rows: Rows, *, alone: bool) -> dict[int, str]:
    """Each name goes to the column whose heading says it most surely."""
    claims = sorted(
        (surety, at, name)
        for at, head in enumerate(heads)
        if plain(head)
        for name, surety in _claims(what, head)
    )
    found: dict[int, str] = {}
    for _surety, at, name in claims:
        if at not in found and name not in found.values():
            found[at] = name
    if what in (What.FEATURES, What.READINGS):
        _place_numbers(found, rows)
    if what is What.FEATURES:
        return _with_parts(heads, found, rows) if says_feature(heads) else found
    if what is not What.PARTS:
        return found
    if not found and alone:
        return _by_content_alone(heads, rows)
    return _by_content(heads, found, rows)


def says_feature(heads: Sequence[str]) -> bool:
    """Whether a heading says in so many words that features stand under it."""
    return any(
        plain(head) in _plain_words(What.FEATURES)["name"][: len(FEATURE_WORDS["name"])] for head in heads
    )


def _with_parts(heads: tuple[str, ...], found: dict[int, str], rows: Rows) -> dict[int, str]:
    """What the columns of a list of features say of the parts they are on, as in a list of parts."""
    for at, name in _by_words(What.PARTS, heads, rows, alone=False).items():
        other = PART_OF_FEATURE.get(name)
        if other is not None and at not in found and other not in found.values():
            found[at] = other
    return found


def _place_numbers(found: dict[int, str], rows: Rows) -> None:
    """A number in a list is a whole one; what stands under "No." or "Part no." of somebody's own list is a code."""
    for at, name in list(found.items()):
        cells = [row[at].strip() for row in rows if at < len(row) and row[at].strip()]
        if name in ("number", "part") and cells and not _are_numbers(cells):
            _rename(found, at, "part_code")


def _claims(what: What, head: str) -> Iterable[tuple[str, tuple[int, int]]]:
    """What a heading may mean, the surest lowest: the program's own heading, a known word, a known word within it."""
    whole, inside = plain(head), tokens(head)
    for column in COLUMNS[what]:
        if _exact(column, whole):
            yield column.name, (0, 0)
    for name, words in _plain_words(what).items():
        if whole in words:
            yield name, (1, words.index(whole))
        elif not _OTHERS & set(inside):
            at = next((at for at, word in enumerate(words) if _within(word, whole, inside)), None)
            if at is not None:
                yield name, (2, at)


@cache
def _plain_words(what: What) -> dict[str, tuple[str, ...]]:
    found = {name: tuple(plain(word) for word in words) for name, words in _WORDS[what].items()}
    for column in COLUMNS[what]:
        more = tuple(plain(word) for word in column.also)
        found[column.name] = (*found.get(column.name, ()), *(word for word in more if word))
    return found


def _within(word: str, whole: str, inside: list[str]) -> bool:
    """Whether a known word is one word of a longer heading; signs of East Asia stand without spaces."""
    if word.isascii():
        return len(word) >= 3 and word in inside
    return len(word) >= 2 and word in whole


# By what stands under it


def _by_content(heads: tuple[str, ...], found: dict[int, str], rows: Rows) -> dict[int, str]:
    """Running numbers are no code, a part number that comes twice is the maker's, a name is made of words."""
    cells = {at: [row[at].strip() for row in rows if at < len(row) and row[at].strip()] for at in found}
    of = {name: at for at, name in found.items()}
    if "name" in of and _are_numbers(cells[of["name"]]):
        _rename(found, of["name"], "figure_item")
    elif "name" in of and "code" not in of and not _are_words(cells[of["name"]]):
        _rename(found, of["name"], "code")
    if "name" not in found.values():
        worded = [at for at, name in found.items() if name in _MAY_BE_NAMES and _are_words(cells[at])]
        if worded:
            _rename(found, min(worded, key=lambda at: _MAY_BE_NAMES.index(found[at])), "name")
    code = next((at for at, name in found.items() if name == "code"), None)
    if code is not None:
        _place_code(found, code, cells[code], heads[code])
    if "name" in found.values():
        rest = next((at for at, head in enumerate(heads) if at not in found and _describes(head)), None)
        if rest is not None and "note" not in found.values():
            found[rest] = "note"
    return found


def _by_content_alone(heads: tuple[str, ...], rows: Rows) -> dict[int, str]:
    """Columns nobody headed: the wordiest is the name, small whole numbers are how many, short unlike words a code."""
    cells = {at: [row[at].strip() for row in rows if row[at].strip()] for at in range(len(heads))}
    found: dict[int, str] = {}
    worded = [at for at, texts in cells.items() if _are_words(texts)]
    if worded:
        found[max(worded, key=lambda at: sum(map(len, cells[at])) / len(cells[at]))] = "name"
    for at, texts in cells.items():
        if at in found or not texts:
            continue
        if "quantity" not in found.values() and all(re.fullmatch(r"\d{1,4}\s*[x×]?", one) for one in texts):
            found[at] = "quantity"
        elif "code" not in found.values() and _are_codes(texts):
            found[at] = "code"
    return found if "name" in found.values() or "code" in found.values() else {}


def _are_codes(texts: list[str]) -> bool:
    short = all(len(one) <= _LONGEST_CODE and re.search(r"\d", one) and " " not in one for one in texts)
    return short and len(set(texts)) == len(texts)


_MAY_BE_NAMES = ("code", "figure_item", "note", "material", "group_name")


def _place_code(found: dict[int, str], at: int, cells: list[str], head: str) -> None:
    """A column headed Code in so many words stays the code whatever comes twice: each such row is said and mended.

    So does one whose numbers would otherwise be dropped, because another column is the maker's number.
    """
    if _are_numbers(cells) and cells == [str(number) for number in range(1, len(cells) + 1)]:
        _rename(found, at, "figure_item")
    elif any(len(cell) > _LONGEST_CODE for cell in cells) or (
        len(set(cells)) < len(cells) and plain(head) != _CODE and "maker_number" not in found.values()
    ):
        _rename(found, at, "maker_number")


def _rename(found: dict[int, str], at: int, name: str) -> None:
    """Give a column another meaning, unless one has it already: then none."""
    del found[at]
    if name not in found.values():
        found[at] = name


def _are_numbers(cells: list[str]) -> bool:
    return bool(cells) and all(re.fullmatch(r"[\d.]+", cell) for cell in cells)


def _are_words(cells: list[str]) -> bool:
    return sum(bool(re.search(r"[^\W\d_]{3}|[^\x00-\x7f]{2}", cell)) for cell in cells) * 2 > len(cells) > 0


def _describes(head: str) -> bool:
    return any(word in _DESCRIBING for word in (plain(head), *tokens(head)))


_DESCRIBING = frozenset(
    plain(word)
    for word in (
        "description", "Beschreibung", "descripción", "descrizione", "omschrijving", "specification", "value",
        "comment",
        "仕様", "规格", "描述",
    )
)  # fmt: skip
