"""A survey as stored, and as worked out: pure values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from rebuild.trade.geometry.flatness import PlateFlatness
from rebuild.trade.geometry.lead_error import DialError, LeadError
from rebuild.trade.geometry.steps import Heights
from rebuild.trade.geometry.straightness import Reference, Straightness
from rebuild.trade.geometry.ways import Guide, Way
from rebuild.trade.geometry.wear_effect import WayDrop
from rebuild.trade.limits.judgement import Judgement, Verdict
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.results.working import Working
from rebuild.words.readings import Stage
from rebuild.words.surveys import SurveyMethod


@dataclass(frozen=True, slots=True)
class Named:
    """The instrument a survey names. ``over_mm``: its limit is a height over this length (a level); None: a length."""

    limit: InstrumentLimit
    over_mm: float | None = None

    def per_metre(self) -> InstrumentLimit:
        """The limit of a slope, as mm of height a metre."""
        return self._times(1000.0 / (self.over_mm or 1000.0))

    def _times(self, share: float) -> InstrumentLimit:
        limit = self.limit
        return InstrumentLimit(
            limit.name,
            limit.resolution_mm * share,
            None if limit.mpe_mm is None else limit.mpe_mm * share,
            None if limit.expanded_U_mm is None else limit.expanded_U_mm * share,
            limit.k,
            limit.source,
        )


@dataclass(frozen=True, slots=True)
class LineData:
    """One line as typed: the runs by number, text and value by place."""

    id: int
    name: str
    runs: Mapping[int, tuple[tuple[str, float], ...]]


@dataclass(frozen=True, slots=True)
class SurveyData:
    """A survey as stored; ``allowed_unit`` is what its limit was typed in, and what a verdict is told in."""

    id: int
    name: str
    method: SurveyMethod
    stage: Stage
    unit: str
    division_um_per_m: float | None
    step_mm: float | None
    allowed_mm: float | None
    closure_mm: float | None
    sense: str
    height_mm: float | None
    spacing_mm: float | None
    work_mm: float | None
    before_id: int | None
    lines: tuple[LineData, ...]
    instrument: Named | None = None
    allowed_unit: str = "mm"


@dataclass(frozen=True, slots=True)
class LineResult:
    """One line worked out, or the trouble that keeps it from being.

    ``U_mm`` is the expanded uncertainty of the deviation with its factor ``k``; ``shape_words`` say a shape that is not
    allowed; ``drop`` is what this way alone does to the work where it does most.
    """

    line: LineData
    way: Way = Way.OTHER
    heights: Heights | None = None
    found: Straightness | None = None
    closure_um: float | None = None
    U_mm: float | None = None
    k: float = 2.0
    judgement: Judgement | None = None
    drop: WayDrop | None = None
    shape_words: str = ""
    trouble: str = ""
    hint: str = ""
    lead: LeadError | None = None
    dial: DialError | None = None

    @property
    def verdict(self) -> Verdict:
        """What is said of the line, its shape and what it was measured with counted."""
        return self.judgement.verdict if self.judgement is not None else Verdict.NO_SPEC


@dataclass(frozen=True, slots=True)
class Twist:
    """The level across at stations: where, its reading less the first [mm/m], the span, and the work it makes.

    ``effect_mm`` is the change of a turned diameter at each station; None without a centre height.
    """

    name: str
    at_mm: tuple[float, ...]
    off_mm_per_m: tuple[float, ...]
    span_mm_per_m: float
    U_mm_per_m: float | None
    effect_mm: tuple[float, ...] | None
    judgement: Judgement | None


@dataclass(frozen=True, slots=True)
class BothWays:
    """A front and a rear way over the same stations: change of a turned diameter at each [mm], the worst, and where."""

    front: str
    rear: str
    guide: Guide
    at_mm: tuple[float, ...]
    effect_mm: tuple[float, ...]
    worst: WayDrop
    worst_at_mm: float


@dataclass(frozen=True, slots=True)
class SurveyResult:
    """A survey worked out against one reference."""

    data: SurveyData
    reference: Reference
    lines: tuple[LineResult, ...]
    twists: tuple[Twist, ...] = ()
    both: BothWays | None = None
    plate: PlateFlatness | None = None
    trouble: str = ""
    working: Working = field(default_factory=lambda: Working("Survey"))

    @property
    def twist_mm_per_m(self) -> float | None:
        """The largest twist."""
        return max((twist.span_mm_per_m for twist in self.twists), default=None)
