"""The usual cautions of the trade, by topic, and which ones a step's words call for.

The texts live in ``assets/cautions.toml``. Each carries its source with its status and says to whom
it defers: local codes and licensed practice stand above anything printed here. Proposing from words
errs on the side of showing one too many; it never decides that a step is safe.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from rebuild.errors import BadEntry
from rebuild.trade.results.tables import assets_folder, status_of
from rebuild.trade.results.working import Sheet, Source, Status
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.own_temperature import temperatures_own


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: what can hurt, the text to show on the step, and to whom it defers."""

    topic: str
    title: str
    text: str
    source: Source
    defer_to: str

    def line(self) -> str:
        """Title, text and deference as one paragraph, for a sheet or a working; temperatures as who asks says them."""
        return temperatures_own(f"{self.title}: {self.text} Defers to: {self.defer_to}")


_UNKNOWN = Source("the file", "a caution of another program or version", Status.FROM_MEMORY)


@dataclass(frozen=True, slots=True)
class _Entry:
    caution: Caution
    words: tuple[str, ...]
    unless: tuple[str, ...]


def topics() -> tuple[str, ...]:
    """Every topic, in the order of the file (hardest to undo first).

    >>> "slings" in topics(), "no such" in topics()
    (True, False)
    """
    return tuple(_entries())


def caution(topic: str) -> Caution:
    """The caution of one topic.

    Raises:
        BadEntry: no such topic; the message lists them.

    >>> caution("slings").source.status.value
    'published'
    """
    entry = _entries().get(text_of("Caution", topic))
    if entry is None:
        raise BadEntry(
            "is not a caution.", where="Caution", value=topic, way_out=f"Topics: {', '.join(topics())}."
        )
    return entry.caution


def stored_caution(topic: str) -> Caution:
    """The caution of a topic as a file holds it; a topic this program does not know is shown by its own words.

    >>> stored_caution("slings") == caution("slings"), stored_caution("lasers").title
    (True, 'lasers')
    """
    entry = _entries().get(topic)
    if entry is not None:
        return entry.caution
    words = "This file names it; this program does not know it. Find out what is meant before the work."
    return Caution(topic, topic, words, _UNKNOWN, "whoever wrote it into the file")


def suggest(text: str) -> tuple[str, ...]:
    """Topics whose words occur in ``text`` (a step's title or note), in the order of the file.

    >>> suggest("Press bush out of apron")
    ('press',)
    >>> suggest("Measure spindle lift with a 75 lb bar")
    ()
    """
    plain = " ".join(text_of("Step", text).lower().replace("-", " ").split())
    return tuple(topic for topic, entry in _entries().items() if _calls_for(entry, plain))


def _calls_for(entry: _Entry, plain: str) -> bool:
    # Most topics' words are nowhere in a title; to find that out costs a hundredth of making their pattern.
    if not any(_bare(word) in plain for word in entry.words):
        return False
    left = _pattern(entry.unless).sub(" ", plain) if entry.unless else plain
    return _pattern(entry.words).search(left) is not None


def attach(sheet: Sheet, *wanted: str) -> None:
    """Add the cautions of the ``wanted`` topics to a working, each with its source.

    >>> sheet = Sheet("Press out a bush")
    >>> attach(sheet, "press")
    >>> [step.kind.value for step in sheet.close().steps]
    ['caution']
    """
    for topic in wanted:
        found = caution(topic)
        sheet.caution(found.line(), found.source)


@cache
def _entries() -> dict[str, _Entry]:
    raw = tomllib.loads((assets_folder() / "cautions.toml").read_text(encoding="utf-8"))
    return {item["topic"]: _entry(item) for item in raw["caution"]}


def _entry(item: Mapping[str, str | list[str]]) -> _Entry:
    source = Source(str(item["source"]), str(item.get("where", "")), status_of(str(item["status"])))
    shown = Caution(str(item["topic"]), str(item["title"]), str(item["text"]), source, str(item["defer_to"]))
    return _Entry(shown, tuple(item["words"]), tuple(item.get("unless", ())))


def _bare(word: str) -> str:
    return word.lower().replace("-", " ").rstrip("*")


@cache
def _pattern(words: tuple[str, ...]) -> re.Pattern[str]:
    """Whole words; a trailing star takes any ending; a hyphen counts as a space. Made when first searched."""
    parts = [re.escape(_bare(word)) + (r"\w*" if word.endswith("*") else "") for word in words]
    return re.compile(rf"(?<!\w)(?:{'|'.join(parts)})(?!\w)")
