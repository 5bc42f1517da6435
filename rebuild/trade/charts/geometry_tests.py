"""Geometry tests by kind of machine, each position with its signed limit, origin and status.

The tests live in ``assets/geometry_tests.toml``. Most figures are one maker's record or practice without a source;
they say so wherever they are shown, and a machine's own chart may replace any of them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from rebuild.trade.results.tables import assets_folder
from rebuild.trade.results.working import Source, Status
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.show import show_typed
from rebuild.words.charts import LimitLength, LimitSign, LimitStatus
from rebuild.words.machines import MachineKind

#: What the working calls a limit's status. The two lists differ: a limit is typed, never computed, and a line of
#: working knows no single record.
STATUSES = {
    LimitStatus.PUBLISHED: Status.PUBLISHED,
    LimitStatus.ONE_RECORD: Status.COMMON_PRACTICE,
    LimitStatus.PRACTICE: Status.COMMON_PRACTICE,
    LimitStatus.MEMORY: Status.FROM_MEMORY,
    LimitStatus.OWN: Status.JUDGEMENT,
}


@dataclass(frozen=True, slots=True)
class Limit:
    """What is allowed: a size over a length, with where it comes from. ``allowed`` None: no figure known."""

    allowed: Size | None
    per: Size | None
    along: LimitLength
    origin: str
    status: LimitStatus

    def text(self) -> str:
        """As typed: ``0.02 mm per 300 mm``."""
        return limit_text(self.allowed, self.per)


@dataclass(frozen=True, slots=True)
class Position:
    """One position of a test. ``others`` are further values for it, to choose from."""

    key: str
    name: str
    unit: str
    sign: LimitSign
    plus: str
    minus: str
    limit: Limit
    others: tuple[Limit, ...] = ()


@dataclass(frozen=True, slots=True)
class GeometryTest:
    """One test: its set-up in words, its sketch, its positions, and what must be right before it."""

    key: str
    kind: MachineKind
    number: str
    name: str
    sketch: str
    set_up: str
    after: str
    lines: tuple[Position, ...]


def library(kind: str) -> tuple[GeometryTest, ...]:
    """The tests of a kind of machine, in order; none for a kind without any.

    >>> len(library("lathe")), sum(len(test.lines) for test in library("lathe"))
    (14, 22)
    """
    return tuple(test for test in _all().values() if test.kind == kind)


def library_test(key: str) -> GeometryTest | None:
    """The library's test of a key, or None for the owner's own.

    >>> library_test("no such") is None, library_test(library("lathe")[0].key) is library("lathe")[0]
    (True, True)
    """
    return _all().get(key)


def library_line(test_key: str, line_key: str) -> Position | None:
    """The library's position of a test, or None.

    >>> bed = library("lathe")[0]
    >>> library_line(bed.key, bed.lines[0].key) is bed.lines[0], library_line(bed.key, "no such")
    (True, None)
    """
    test = library_test(test_key)
    return next((line for line in test.lines if line.key == line_key), None) if test else None


def limit_text(allowed: Size | None, per: Size | None) -> str:
    """A limit in words; empty when no figure is known.

    >>> limit_text(parse_length("0.02 mm"), parse_length("300 mm"))
    '0.02 mm per 300 mm'
    """
    if allowed is None:
        return ""
    text = show_typed(allowed, allowed.unit)
    return f"{text} per {show_typed(per, per.unit)}" if per is not None else text


def limit_source(origin: str, status: LimitStatus) -> Source:
    """A limit's origin as the source of a line of working; one maker's record says so in words.

    >>> limit_source("inspection record", LimitStatus.ONE_RECORD).cite()
    "inspection record: one maker's record (common practice, no source)"
    """
    words = f"{origin}: {status}" if status is LimitStatus.ONE_RECORD else origin
    return Source(words or "as entered", status=STATUSES[status])


@cache
def _all() -> dict[str, GeometryTest]:
    raw = tomllib.loads((assets_folder() / "geometry_tests.toml").read_text(encoding="utf-8"))
    return {row["key"]: _test(row, raw["source"]) for row in raw["test"]}


def _test(row: Mapping[str, Any], sources: Mapping[str, Mapping[str, str]]) -> GeometryTest:
    return GeometryTest(
        row["key"],
        MachineKind(row["kind"]),
        row["number"],
        row["name"],
        row["sketch"],
        row["set_up"],
        row.get("after", ""),
        tuple(_line(line, sources) for line in row["lines"]),
    )


def _line(row: Mapping[str, Any], sources: Mapping[str, Mapping[str, str]]) -> Position:
    limit = _limit(row, sources)
    unit = row.get("unit") or (limit.allowed.unit if limit.allowed is not None else "in")
    along = row.get("along", LimitLength.FIXED)
    others = tuple(_limit({"along": along, **other}, sources) for other in row.get("other", ()))
    return Position(
        row["key"],
        row["name"],
        unit,
        LimitSign(row["sign"]),
        row.get("plus", ""),
        row.get("minus", ""),
        limit,
        others,
    )


def _limit(row: Mapping[str, Any], sources: Mapping[str, Mapping[str, str]]) -> Limit:
    source = sources[row["source"]]
    unit = row.get("unit", "mm")
    return Limit(
        parse_length(row["allowed"], unit) if row["allowed"] else None,
        parse_length(row["per"], unit) if row.get("per") else None,
        LimitLength(row.get("along", LimitLength.FIXED)),
        source["origin"],
        LimitStatus(source["status"]),
    )
