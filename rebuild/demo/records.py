"""What the tables of the demo are made of: plain records, written down by the short words of ``words``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.words.decisions import Decision
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind, SpecOrigin, Stage
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind

Typed = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Reads:
    """One visit to a feature: values by station, each as typed (``-``: not taken at that station)."""

    stage: Stage
    day: str
    instrument: str
    values: tuple[str, ...]
    temperature: str
    note: str
    sure: bool
    strike: str


@dataclass(frozen=True, slots=True)
class FeatureData:
    """A feature with its spec, stations and readings."""

    name: str
    kind: FeatureKind
    spec: str
    origin: SpecOrigin | None
    stations: tuple[str, ...]
    reads: tuple[Reads, ...]
    unit: str
    typed: Typed


@dataclass(frozen=True, slots=True)
class Settled:
    """A decision, with the day it was taken; ``codes`` where it settles several parts at once."""

    decision: Decision
    day: str
    reason: str
    criterion: str = ""
    would_change: str = ""
    codes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Conceded:
    """A concession on a feature of the part."""

    feature: str
    accepted: str
    day: str
    reason: str
    by: str


@dataclass(frozen=True, slots=True)
class PartData:
    """A part with all that hangs on it; ``via`` lists (day, place) it lay in before it came to ``place``."""

    code: str
    name: str
    features: tuple[FeatureData, ...]
    place: str
    placed: str
    via: tuple[tuple[str, str], ...]
    settled: Settled | None
    conceded: tuple[Conceded, ...]
    spare_of: str
    typed: Typed


@dataclass(frozen=True, slots=True)
class Wait:
    """A link with its reason: the step named here comes first."""

    before: str
    reason: str
    kind: LinkKind


@dataclass(frozen=True, slots=True)
class Need:
    """A constraint: ``rest`` as ``24 h``, the codes of the parts it speaks of, the day it was proved."""

    kind: ConstraintKind
    detail: str
    rest: str = ""
    parts: tuple[str, ...] = ()
    proved: str = ""


@dataclass(frozen=True, slots=True)
class StepData:
    """A step; ``done`` is the day it was ticked off, ``all_the_same`` says why though something stood against it."""

    key: str
    kind: TaskKind
    title: str
    after: tuple[str, ...]
    because: tuple[Wait, ...]
    done: str
    all_the_same: str
    part: str
    measured: str
    torque: str
    done_note: str
    state: str
    needs: tuple[Need, ...]
    cautions: tuple[str, ...]
    typed: Typed


@dataclass(frozen=True, slots=True)
class Group:
    """A subassembly: its parts, its steps, and the decisions that settle several parts at once.

    ``off`` is the day its parts were put away after teardown.
    """

    code: str
    name: str
    parent: str
    off: str
    parts: tuple[PartData, ...]
    steps: tuple[StepData, ...]
    settled: tuple[Settled, ...]
    typed: Typed


@dataclass(frozen=True, slots=True)
class SetData:
    """Parts that must stay together."""

    name: str
    codes: tuple[str, ...]
    note: str


@dataclass(frozen=True, slots=True)
class AskedData:
    """A question, what it is about and holds up, and its answer if there is one."""

    text: str
    day: str
    group: str
    part: str
    holds_up: str
    where: str
    answer: str
    by: str
    answered: str
    assumed: bool


@dataclass(frozen=True, slots=True)
class Session:
    """One evening or day at the bench."""

    day: str
    typed: Typed


@dataclass(frozen=True, slots=True)
class MachineData:
    """A whole machine as the tables tell it. ``arrived`` is the day it came into the shop."""

    name: str
    arrived: str
    typed: Typed
    groups: tuple[Group, ...]
    loose: tuple[PartData, ...]
    general: tuple[StepData, ...]
    sets: tuple[SetData, ...]
    questions: tuple[AskedData, ...]
    sessions: tuple[Session, ...]


@dataclass(frozen=True, slots=True)
class PlaceData:
    """Somewhere parts lie."""

    key: str
    kind: PlaceKind
    name: str
    since: str
    note: str


@dataclass(frozen=True, slots=True)
class InstrumentData:
    """An instrument of the shop under the short name the tables use."""

    key: str
    name: str
    typed: Typed


@dataclass(frozen=True, slots=True)
class Pair:
    """Two features that run or sit together, with the wanted clearance (negative: interference), in ``unit``.

    Features are named ``code/feature``, or ``code/feature@station`` for one place along them. ``story`` is
    *worn* (outside what is wanted, still to be mended), *kept* (inside as found), *remade* (was worn, is inside
    now), *made* (only the new pair was ever measured), *pressed* (new part into its seat) or *conceded*.
    """

    name: str
    hole: str
    shaft: str
    low: float
    high: float
    unit: str
    story: str
