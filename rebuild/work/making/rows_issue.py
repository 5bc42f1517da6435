"""The issue of a making sheet: the number its paper carries, what it replaces, what has changed since it went out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.words import plain_words
from rebuild.work.records.field import show_exact

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Issued:
    """One size as a paper carried it."""

    id: int
    name: str
    words: str


@dataclass(frozen=True, slots=True)
class SheetIssue:
    """Number of the last release (0: none yet), when, what it replaces, and what is no longer as released."""

    number: int = 0
    of: dt.datetime | None = None
    replaces: str = ""
    changed: tuple[str, ...] = ()
    draft: bool = True

    @property
    def words(self) -> str:
        """What a paper says of itself: ``issue 2``; of a draft that it is one.

        >>> SheetIssue().words, SheetIssue(1).words, SheetIssue(1, draft=False).words
        ('draft, not issued', 'draft of issue 2', 'issue 1')
        """
        if not self.draft:
            return f"issue {self.number}"
        return f"draft of issue {self.number + 1}" if self.number else "draft, not issued"

    @property
    def dated(self) -> str:
        """The words with the minute it went out, which tells two papers apart."""
        return self.words if self.draft or self.of is None else f"{self.words} of {show_exact(self.of)}"

    @property
    def told(self) -> str:
        """What a paper says of the one before it; empty for a first issue."""
        if self.draft and self.number:
            why = f": {'; '.join(self.changed)}" if self.changed else ""
            stood = f"Issue {self.number}{_of(self.of)} no longer stands{why}"
            return f"{stood}. Release it again as issue {self.number + 1}."
        return f"Issue {self.number}, {self.replaces}." if self.replaces and not self.draft else ""


def _of(at: dt.datetime | None) -> str:
    return f" of {show_exact(at)}" if at is not None else ""


def next_replaces(number: int, at: dt.datetime | None, changed: Sequence[str]) -> str:
    """What a new issue says of the one it replaces."""
    return f"replaces issue {number}{_of(at)}: {'; '.join(changed)}"


def issued_line(key: int, shape: str, role: str, measure: Measure, unit: str) -> Issued:
    """A size as the paper carries it."""
    return Issued(key, measure.name, plain_words(shape, role, measure, unit) if measure.given else "")


def written_issue(lines: Sequence[Issued]) -> str:
    """The sizes of an issue as text to be kept."""
    return "\n".join(f"{line.id}\t{line.name}\t{line.words}" for line in lines)


def read_issue(text: str) -> tuple[Issued, ...]:
    """The sizes an issue went out with; a line that cannot be read is left out, as a size not given.

    >>> read_issue(written_issue([Issued(3, "bore", "0.5 in")]))
    (Issued(id=3, name='bore', words='0.5 in'),)
    """
    parts = (line.split("\t") for line in text.split("\n"))
    return tuple(
        Issued(int(one[0]), one[1], one[2])
        for one in parts
        if len(one) == 3 and one[0].isascii() and one[0].isdigit() and len(one[0]) < 18
    )


def changed_since(
    old: Sequence[Issued], new: Sequence[Issued], *, given_only: bool = False
) -> tuple[str, ...]:
    """What differs from an issue, a size each; ``given_only`` leaves out sizes that had no number then.

    >>> changed_since([Issued(1, "bore", "0.500 in")], [Issued(1, "bore", "0.498 in")])
    ('bore was 0.500 in, is 0.498 in',)
    """
    by_id, by_name = {one.id: one for one in old}, {one.name: one for one in old}
    told: list[str] = []
    left = list(old)
    for line in new:
        was = by_id.get(line.id) or by_name.get(line.name)
        if was in left:
            left.remove(was)
        before = was.words if was is not None else ""
        if before == line.words or (given_only and not before):
            continue
        told.append(f"{line.name} was {before or 'not given'}, is {line.words or 'not given'}")
    return (*told, *(f"{one.name} was {one.words}, is gone" for one in left if one.words))
