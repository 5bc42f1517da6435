"""A result and how it was reached: inputs as read, equation, table row, source.

Every number the program works out is a ``Worked`` value, so that any pane can open its working.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import Generic, TypeVar

T = TypeVar("T")


class Status(StrEnum):
    """How far a fact or table can be trusted; always shown beside it."""

    PUBLISHED = "published"
    COMPUTED = "computed from the rule"
    COMMON_PRACTICE = "common practice, no source"
    FROM_MEMORY = "from memory"
    JUDGEMENT = "the owner's judgement"


@dataclass(frozen=True, slots=True)
class Source:
    """Where a fact comes from: a standard with its edition, the table or clause, and its status."""

    name: str
    where: str = ""
    status: Status = Status.PUBLISHED

    def cite(self) -> str:
        """One line, e.g. ``ISO 286-1:2010, Table 1 (published)``."""
        place = f", {self.where}" if self.where else ""
        return f"{self.name}{place} ({self.status.value})"


class StepKind(StrEnum):
    """What a line of the working is."""

    INPUT = "as read"
    TABLE = "table row"
    EQUATION = "equation"
    RESULT = "result"
    NOTE = "note"
    CAUTION = "caution"


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the working: a label, the text a person checks with a pencil, and its source."""

    kind: StepKind
    label: str
    text: str
    source: Source | None = None


@dataclass(frozen=True, slots=True)
class Working:
    """The lines that lead to a result, in order."""

    title: str
    steps: tuple[Step, ...] = ()

    def sources(self) -> tuple[Source, ...]:
        """Each source once, in order of first use."""
        return tuple(dict.fromkeys(step.source for step in self.steps if step.source is not None))

    def cautions(self) -> tuple[str, ...]:
        """The cautions among the lines."""
        return tuple(step.text for step in self.steps if step.kind is StepKind.CAUTION)

    def text(self) -> str:
        """The working as plain lines, for the pane, the paper and the command line."""
        lines = [self.title]
        for step in self.steps:
            cite = f"   [{step.source.cite()}]" if step.source else ""
            label = f"{step.label}: " if step.label else ""
            lines.append(f"  {step.kind.value:<9}  {label}{step.text}{cite}")
        return "\n".join(lines)


class Worked(Generic[T]):
    """A value with its working, which may be written out when first asked for: a grid shows thousands of values.

    >>> asked = []
    >>> size = Worked(25.0, lambda: asked.append("now") or Working("A size"))
    >>> asked
    []
    >>> size.working.title, size.working.title, asked
    ('A size', 'A size', ['now'])
    """

    __slots__ = ("_working", "value")

    def __init__(self, value: T, working: Working | Callable[[], Working]) -> None:
        self.value = value
        self._working = working

    @property
    def working(self) -> Working:
        """The lines that lead to the value."""
        if not isinstance(self._working, Working):
            self._working = self._working()
        return self._working

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Worked) and (self.value, self.working) == (other.value, other.working)

    def __hash__(self) -> int:
        return hash((self.value, self.working))

    def __repr__(self) -> str:
        return f"Worked(value={self.value!r}, working={self.working!r})"


class Sheet:
    """Collects steps while a function works, then closes them into a ``Working``.

    >>> sheet = Sheet("Bore of a nut")
    >>> sheet.read("nominal D", "1 in")
    >>> sheet.equation("minor diameter", "D - P = 0.8750 in")
    >>> len(sheet.close().steps)
    2
    """

    def __init__(self, title: str) -> None:
        self._title = title
        self._steps: list[Step] = []

    def read(self, label: str, text: str, source: Source | None = None) -> None:
        """An input as it was read or typed."""
        self._steps.append(Step(StepKind.INPUT, label, text, source))

    def table(self, label: str, text: str, source: Source) -> None:
        """A row looked up; the source is required."""
        self._steps.append(Step(StepKind.TABLE, label, text, source))

    def equation(self, label: str, text: str, source: Source | None = None) -> None:
        """An equation with its numbers put in."""
        self._steps.append(Step(StepKind.EQUATION, label, text, source))

    def result(self, label: str, text: str, source: Source | None = None) -> None:
        """What came out."""
        self._steps.append(Step(StepKind.RESULT, label, text, source))

    def note(self, text: str, source: Source | None = None) -> None:
        """A remark on range, trap or doubt."""
        self._steps.append(Step(StepKind.NOTE, "", text, source))

    def caution(self, text: str, source: Source | None = None) -> None:
        """A caution where the work can hurt someone."""
        self._steps.append(Step(StepKind.CAUTION, "", text, source))

    def take(self, other: Working) -> None:
        """Append the lines of another working (a sub-result)."""
        self._steps.extend(other.steps)

    def close(self) -> Working:
        """The finished working."""
        return Working(self._title, tuple(self._steps))


def joined(title: str, workings: Iterable[Working]) -> Working:
    """Several workings as one, in order.

    >>> joined("Both", [Working("one", (Step(StepKind.NOTE, "", "first"),)), Working("two")]).steps[0].text
    'first'
    """
    return Working(title, tuple(step for working in workings for step in working.steps))
