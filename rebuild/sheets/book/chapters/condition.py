"""How the machine was found: power, worn and broken parts, what was missing or not what it should be."""

from __future__ import annotations

from dataclasses import dataclass

from reportlab.platypus import Flowable

from rebuild.sheets.book.flow import chapter_of, facts, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line, Linked
from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.sizes.show import show_length
from rebuild.words.parts import Identity, Origin
from rebuild.words.readings import Stage
from rebuild.work.book.rows import BookData
from rebuild.work.book.rows_readings import FeatureLine

#: Beyond its limits by eye alone: a reading as found outside low or high, uncertainty not counted.
_FOUND = (Stage.AS_FOUND, Stage.CLEANED)


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """What was found, before anything was done about it."""
    content = [
        *facts((("Power as found", book.identity.get("power_found", "")),)),
        *section("Parts as found", "condition-parts", _parts(book)),
        *section("Missing, strange and unknown", "condition-strange", _strange(book)),
        *section("Out of limits when first measured", "condition-worn", _worn(book)),
    ]
    return chapter_of("Condition as found", "condition", content)


def _parts(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (Linked(part.title, f"part-{part.id}"), part.condition)
        for group in book.groups
        for part in group.parts
        if part.condition.strip()
    ]
    return table(("Part", "Condition"), rows, strong=True)


def _strange(book: BookData) -> list[Flowable]:
    odd = (Origin.MISSING, Origin.EARLIER_REPAIR, Origin.DONOR, Origin.UNKNOWN)
    rows: list[Line] = [
        (
            Linked(part.title, f"part-{part.id}"),
            part.origin.value if part.origin in odd else "",
            part.identity.value if part.identity is not Identity.CONFIRMED else "",
            part.suspects,
            part.note,
        )
        for group in book.groups
        for part in group.parts
        if part.origin in odd or part.identity is not Identity.CONFIRMED
    ]
    return table(("Part", "Source", "Identity", "Suspected to be", "Note"), rows, strong=True)


def _worn(book: BookData) -> list[Flowable]:
    """What was farthest beyond its limits stands first, whatever part it is of."""
    titles = book.part_titles()
    out = [(worst, line) for line in book.features if (worst := _worst(line)) is not None]
    out.sort(key=lambda one: -one[0].beyond_mm)
    rows: list[Line] = [
        (
            Linked(titles[line.part_id], f"part-{line.part_id}"),
            line.title,
            f"{line.spec} {line.unit}".strip(),
            worst.read,
            worst.beyond,
        )
        for worst, line in out
    ]
    return table(("Part", "Feature", "Limits", "Read", "Beyond by"), rows, strong=True)


@dataclass(frozen=True, slots=True)
class _Beyond:
    """A first reading in words, and how far it lay outside its limits [mm], in words too."""

    beyond_mm: float
    read: str
    beyond: str


def _worst(line: FeatureLine) -> _Beyond | None:
    """The first reading and how far it lay outside, or None when it did not."""
    judged = line.judgement
    if judged is None or judged.verdict is Verdict.NO_SPEC:
        return None
    first = next((read for read in line.readings if read.stage in _FOUND and not read.struck), None)
    if first is None:
        return None
    low = judged.low_mm - first.value_mm if judged.low_mm is not None else 0.0
    high = first.value_mm - judged.high_mm if judged.high_mm is not None else 0.0
    beyond = max(low, high)
    if beyond <= 1e-9:
        return None
    way = "under" if low > high else "over"
    return _Beyond(beyond, first.words, f"{show_length(beyond, line.unit)} {way}")
