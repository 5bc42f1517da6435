"""Short words the demo's tables are written in, so that a part with its readings fits on a few lines."""

from __future__ import annotations

from rebuild.demo.records import (
    AskedData,
    Conceded,
    FeatureData,
    Group,
    Need,
    PartData,
    Reads,
    Session,
    SetData,
    Settled,
    StepData,
    Wait,
)  # fmt: skip
from rebuild.words.decisions import Decision
from rebuild.words.readings import FeatureKind, SpecOrigin, Stage
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind

FOUND, CLEANED, REWORKED, MADE, FITTED = Stage
OPEN, REUSE, REWORK, REMAKE, BUY, DEFER = Decision
DRAWING, HANDBOOK, UNWORN, MATE, JUDGED = SpecOrigin

OD, BORE, WIDTH, DEPTH = (
    FeatureKind.OUTSIDE_DIAMETER, FeatureKind.BORE, FeatureKind.WIDTH, FeatureKind.DEPTH,
)  # fmt: skip
LENGTH, THREAD, TAPER, FLAT = FeatureKind.LENGTH, FeatureKind.THREAD, FeatureKind.TAPER, FeatureKind.FLAT
STRAIGHT, RUNOUT, GEAR, KEYWAY = (
    FeatureKind.STRAIGHTNESS, FeatureKind.RUNOUT, FeatureKind.GEAR, FeatureKind.KEYWAY,
)  # fmt: skip
WAY, GAP, END_PLAY, LOST, HEIGHT, OTHER = (
    FeatureKind.WAY, FeatureKind.GAP, FeatureKind.END_PLAY, FeatureKind.LOST_MOTION, FeatureKind.HEIGHT,
    FeatureKind.OTHER,
)  # fmt: skip

T = TaskKind
NEEDS = ConstraintKind
WHILE_OFF = LinkKind.WHILE_OFF
COMMON = "common practice, no source"


def read(
    stage: Stage,
    day: str,
    instrument: str,
    values: str,
    *,
    temp: str = "",
    note: str = "",
    sure: bool = False,
    strike: str = "",
) -> Reads:
    """A visit: values as typed, one per station, parted by ``|``; repeats inside one by ``;``."""
    listed = tuple(value.strip() for value in values.split("|"))
    return Reads(stage, day, instrument, listed, temp, note, sure, strike)


def feat(
    name: str,
    kind: FeatureKind,
    spec: str = "",
    origin: SpecOrigin | None = None,
    stations: str = "",
    *reads: Reads,
    unit: str = "",
    **typed: str,
) -> FeatureData:
    """A feature. Stations as ``near/mid/far``, or ``0/4/8 in``: the unit at the end holds for each."""
    return FeatureData(name, kind, spec, origin, _stations(stations), reads, unit, typed)


def _stations(text: str) -> tuple[str, ...]:
    if not text:
        return ()
    for unit in (" in", " mm"):
        if text.endswith(unit):
            return tuple(f"{name}{unit}" for name in text.removesuffix(unit).split("/"))
    return tuple(text.split("/"))


def settle(
    decision: Decision,
    day: str,
    reason: str,
    criterion: str = "",
    would_change: str = "",
    *,
    codes: str = "",
) -> Settled:
    """A decision on the part it stands with, or on the ``codes`` (parted by spaces)."""
    return Settled(decision, day, reason, criterion, would_change, tuple(codes.split()))


def accept(feature: str, accepted: str, day: str, reason: str, by: str = "owner") -> Conceded:
    """A concession on one feature."""
    return Conceded(feature, accepted, day, reason, by)


def part(
    code: str,
    name: str,
    material: str = "",
    *features: FeatureData,
    at: str = "",
    placed: str = "",
    via: tuple[tuple[str, str], ...] = (),
    settled: Settled | None = None,
    conceded: tuple[Conceded, ...] = (),
    spare_of: str = "",
    **typed: str,
) -> PartData:
    """A part: ``at`` is where it lies now, ``placed`` since when (else since the group came apart).

    ``via`` are (day, place) before that.
    """
    return PartData(
        code, name, features, at, placed, via, settled, conceded, spare_of, {"material": material, **typed}
    )


def wait(before: str, reason: str, kind: LinkKind = LinkKind.BEFORE) -> Wait:
    """A link with its reason."""
    return Wait(before, reason, kind)


def need(kind: ConstraintKind, detail: str, *, rest: str = "", parts: str = "", proved: str = "") -> Need:
    """A constraint that names a time, parts or the day it was proved; a plain one is ``(kind, detail)``."""
    return Need(kind, detail, rest, tuple(parts.split()), proved)


def step(
    key: str,
    kind: TaskKind,
    title: str,
    times: str = "",
    done: str = "",
    *,
    after: str = "",
    because: tuple[Wait, ...] = (),
    all_the_same: str = "",
    part: str = "",
    final: bool = False,
    measured: str = "",
    torque: str = "",
    done_note: str = "",
    state: str = "",
    needs: tuple[tuple[ConstraintKind, str] | Need, ...] = (),
    cautions: str = "",
    **typed: str,
) -> StepData:
    """A step. ``times`` is shortest/likely/longest; ``final`` marks what cannot be undone."""
    durations = dict(zip(("low_min", "likely_min", "high_min"), times.split("/"), strict=bool(times)))
    flags = {"irreversible": "yes"} if final else {}
    return StepData(
        key, kind, title, tuple(after.split()), because, done, all_the_same, part, measured, torque, done_note, state,
        tuple(given if isinstance(given, Need) else Need(*given) for given in needs), tuple(cautions.split()),
        {**({k: v for k, v in durations.items() if v}), **flags, **typed},
    )  # fmt: skip


def group(
    code: str,
    name: str,
    parts: tuple[PartData, ...],
    steps: tuple[StepData, ...],
    *settled: Settled,
    parent: str = "",
    off: str = "",
    **typed: str,
) -> Group:
    """A subassembly, under ``parent`` if it comes off and goes on with it."""
    return Group(code, name, parent, off, parts, steps, settled, typed)


def kept_together(name: str, codes: str, note: str = "") -> SetData:
    """A matched set."""
    return SetData(name, tuple(codes.split()), note)


def asked(
    text: str,
    day: str,
    *,
    group: str = "",
    part: str = "",
    holds_up: str = "",
    where: str = "",
    answer: str = "",
    by: str = "",
    answered: str = "",
    assumed: bool = False,
) -> AskedData:
    """A question; ``holds_up`` is the key of the step that waits for its answer."""
    return AskedData(text, day, group, part, holds_up, where, answer, by, answered, assumed)


def session(
    day: str,
    hours: str,
    celsius: str,
    did: str,
    found: str = "",
    *,
    left: str = "",
    next: str = "",
    blocked: str = "",
    mind: str = "",
) -> Session:
    """A line of the bench log."""
    typed = {
        "hours": hours, "temperature_c": f"{celsius} C", "did": did, "found": found, "left_on_bench": left,
        "next_step": next, "blocked_by": blocked, "do_not_forget": mind,
    }  # fmt: skip
    return Session(day, {name: text for name, text in typed.items() if text})
