"""Which of the named things a few words mean: what is exactly said wins over what could be meant."""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from rebuild.errors import BadEntry
from rebuild.trade.sizes.number import read_whole

K = TypeVar("K", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Named(Generic[K]):
    """Something that can be meant: its key, code and name; ``beside`` tells it from another called alike."""

    key: K
    code: str
    name: str
    beside: str = ""

    @property
    def title(self) -> str:
        """Code and name."""
        return f"{self.code} {self.name}".strip()

    @property
    def told(self) -> str:
        """Its title, and what tells it from another called alike.

        >>> Named(1, "", "washer", "of Apron, in bag 2").told
        'washer (of Apron, in bag 2)'
        """
        return f"{self.title} ({self.beside})" if self.beside else self.title


class NotAmong(BadEntry):
    """What was said is none of the things there (and not several of them)."""


def meant(words: str, *among: Sequence[Named[K]], where: str = "Part") -> Named[K]:
    """What ``words`` mean: an exact code or name, a code said short (``hs2``), a number, or words of the name.

    Of several lists the earlier comes first, but what is said exactly in any of them comes before all else.

    Raises:
        NotAmong: nothing fits.
        BadEntry: several things fit; they are listed.

    >>> parts = [Named(1, "HS-01", "spindle"), Named(2, "HS-02", "bearing cap"), Named(3, "", "bearing cap gib")]
    >>> meant("hs2", parts).key, meant("2", parts).key, meant("bearing cap", parts).key, meant("gib", parts).key
    (2, 2, 2, 3)
    """
    for ways in ((_exactly,), (_same_code, _same_number, _same_words)):
        several: list[Named[K]] = []
        for things in among:
            found = _fitting(words, things, ways)
            if len(found) == 1:
                return found[0]
            several = found or several
        if several:
            listed = ", ".join(one.told for one in several[:5])
            more = f" and {len(several) - 5} more" if len(several) > 5 else ""
            raise BadEntry(f"could be {listed}{more}.", where=where, value=words, way_out="Type more of it.")
    raise NotAmong(
        "is none of those there.", where=where, value=words, way_out="Type its code, or words of its name."
    )


def _fitting(
    words: str, among: Sequence[Named[K]], ways: Sequence[Callable[[str, Named[K]], bool]]
) -> list[Named[K]]:
    for fits in ways:
        found = [one for one in among if fits(words, one)]
        if found:
            return found
    return []


def looks_like_a_code(words: str) -> bool:
    """Whether words are a code or a number, which a new thing is not called by.

    >>> looks_like_a_code("hs99"), looks_like_a_code("saddle clamp")
    (True, False)
    """
    return _letters_and_number(words) is not None


def named_outright(words: str, one: Named[K]) -> bool:
    """Whether words are the whole code or name of a thing, its code said short, or its number.

    >>> cover = Named(1, "HS-02", "front bearing cover")
    >>> named_outright("hs2", cover), named_outright("front bearing", cover)
    (True, False)
    """
    return any(fits(words, one) for fits in (_exactly, _same_code, _same_number))


def begins_name(words: str, one: Named[K]) -> bool:
    """Whether words are the first whole words of a longer name, as of another part's name.

    >>> cover = Named(1, "HS-02", "front bearing cover")
    >>> begins_name("Front bearing", cover), begins_name("front bear", cover), begins_name("cover", cover)
    (True, False, False)
    """
    said, name = " ".join(words.casefold().split()), " ".join(one.name.casefold().split())
    return bool(said) and name.startswith(said) and not name[len(said) : len(said) + 1].isalnum()


def _letters_and_number(code: str) -> tuple[str, int] | None:
    found = re.fullmatch(r"([a-z]*)[\s\-_.]*0*(\d+)", code.strip().lower())
    return (found[1], read_whole(found[2], "Code")) if found else None


def _exactly(words: str, one: Named[K]) -> bool:
    said = " ".join(words.casefold().split())
    return bool(said) and said in (one.code.casefold(), one.name.casefold(), one.title.casefold())


def _same_code(words: str, one: Named[K]) -> bool:
    said, its = _letters_and_number(words), _letters_and_number(one.code)
    return said is not None and said == its and said[0] != ""


def _same_number(words: str, one: Named[K]) -> bool:
    said, its = _letters_and_number(words), _letters_and_number(one.code)
    return said is not None and its is not None and said[0] == "" and said[1] == its[1]


def _same_words(words: str, one: Named[K]) -> bool:
    """Each word begins one of its words; a number is the whole number: bag 7 is not bag 70."""
    has = re.findall(r"\w+", one.title.lower())
    said = re.findall(r"\w+", words.lower())
    return bool(said) and all(any(_begins(start, word) for word in has) for start in said)


def _begins(start: str, word: str) -> bool:
    if start.isdecimal():
        return word.isdecimal() and start.lstrip("0") == word.lstrip("0")
    return word.startswith(start)
