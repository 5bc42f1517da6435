"""Batches: what can go into one bath, or under one coat, together now; what lies there already; what is held and why.

What is ready is asked of the work graph; here it is only put together.
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.waiting import Clocks
from rebuild.trade.schedule.graph import Node
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.trade.treatments.together import NOT_BAKED, Bath, Window, bath_for, metal_of, window_of
from rebuild.trade.waiting.clock import read_clock
from rebuild.words.counted import counted
from rebuild.words.readings import FeatureKind
from rebuild.words.steps import TaskState
from rebuild.words.treatments import COATED, Treatment
from rebuild.work.plan import rows_graph
from rebuild.work.plan.facts import PartFact
from rebuild.work.plan.laying import Slot, slot_of
from rebuild.work.plan.rows_graph import Work, work_graph
from rebuild.work.plan.rows_input import rank_of
from rebuild.work.plan.treatments_in_work import goes_with, part_and_treatment

#: The tables the lookups here ask.
READS = rows_graph.READS | {"clock", "feature", "part"}
#: Faces a coat must not reach.
_MASKED = (
    FeatureKind.BORE, FeatureKind.OUTSIDE_DIAMETER, FeatureKind.FLAT, FeatureKind.STRAIGHTNESS, FeatureKind.WAY,
    FeatureKind.TAPER, FeatureKind.THREAD, FeatureKind.KEYWAY,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Member:
    """One part of a batch: the key of its work, ready or with what holds it; ``masks`` are its faces to cover.

    ``minutes`` are the likely ones; ``task_id`` is its step when it has one.
    """

    key: int
    part_id: int
    part: str
    minutes: float
    assumed: bool
    masks: tuple[str, ...] = ()
    held: str = ""
    task_id: int | None = None
    clock: str = ""


@dataclass(frozen=True, slots=True)
class Batch:
    """What goes together: the treatment, what it is done in or with, who is ready, who waits, who lies in it now."""

    treatment: Treatment
    what: str
    bath: Bath
    window: Window
    ready: tuple[Member, ...]
    held: tuple[Member, ...]
    inside: tuple[Member, ...]
    bakes: bool = False

    @property
    def coat(self) -> bool:
        """Whether it is a coat, not a bath."""
        return self.treatment in COATED

    @property
    def minutes(self) -> float:
        """The likely work of all that is ready [minutes]."""
        return sum(one.minutes for one in self.ready)

    @property
    def words(self) -> str:
        """In one line: what, how many, how long, all assumed unless said."""
        said = [f"{self.treatment.value.capitalize()}: {self.what}"]
        if self.ready:
            assumed = " (assumed)" if any(one.assumed for one in self.ready) else ""
            said.append(f"{counted(len(self.ready), 'part')}, {show_minutes(self.minutes)} of work{assumed}")
        if self.inside:
            said.append(f"{len(self.inside)} {'drying' if self.coat else 'in it'} now")
        if self.held:
            said.append(f"{len(self.held)} held")
        return "; ".join(said)

    @property
    def times(self) -> str:
        """How long it lies or dries, as assumed until the tin is read."""
        latest = f", out by {show_minutes(self.window.latest)}" if self.window.latest is not None else ""
        if self.coat and self.window.latest is not None:
            latest = f" to {show_minutes(self.window.latest)}"
        return f"{self.window.words}: from {show_minutes(self.window.soonest)}{latest} (assumed; the tin goes before)"


def batches(connection: Connection, machine_id: int, now: dt.datetime) -> tuple[Batch, ...]:
    """Every batch of a machine in the order of the treatments, the fullest first."""
    work = work_graph(connection, machine_id, now)
    return batches_of(work, _masks(connection, machine_id), _clock_words(connection, machine_id, now))


def batches_of(work: Work, masks: dict[int, tuple[str, ...]], clocks: dict[int, str]) -> tuple[Batch, ...]:
    """The batches of some work; ``masks`` by part, ``clocks`` in words by step."""
    parts = {part.id: part for part in work.facts.parts}
    found: dict[tuple[Treatment, str], list[tuple[Member, str]]] = defaultdict(list)
    for node, part, treatment in _treated(work, parts):
        what = goes_with(treatment, part)
        holds = work.graph.held_by(node.key)
        inside = node.under_way and node.key in clocks
        member = Member(
            node.key,
            part.id,
            part.called,
            node.points.likely,
            node.assumed,
            masks.get(part.id, ()) if treatment in COATED else (),
            holds[0].sentence if holds and not inside else "",
            node.key if node.key > 0 else None,
            clocks.get(node.key, ""),
        )
        found[(treatment, what)].append((member, "inside" if inside else "held" if holds else "ready"))
    for step in work.facts.steps:
        coat, on = step.treatment, parts.get(step.part_id or 0)
        if step.state is TaskState.DONE and step.id in clocks and coat in COATED and coat and on is not None:
            drying = Member(step.id, on.id, on.called, 0.0, False, (), "", step.id, clocks[step.id])
            found[(coat, goes_with(coat, on))].append((drying, "inside"))
    order = rank_of(work).work
    places = {key: at for at, key in enumerate(order)}
    made = [_batch(treatment, what, members, parts, places) for (treatment, what), members in found.items()]
    return tuple(
        sorted(made, key=lambda one: (list(Treatment).index(one.treatment), -len(one.ready), one.what))
    )


def _treated(work: Work, parts: dict[int, PartFact]) -> Iterable[tuple[Node, PartFact, Treatment]]:
    """Open cleaning and painting of every part."""
    typed = {step.id: step.treatment for step in work.facts.steps if step.treatment is not None}
    for node in work.graph.nodes:
        if node.key < 0 and node.open:
            slot, row = slot_of(node.key)
            if slot is Slot.TREAT:
                part_id, treatment = part_and_treatment(row)
                yield node, parts[part_id], treatment
        elif node.key in typed and node.open and node.part_id in parts:
            yield node, parts[node.part_id], typed[node.key]


def _batch(
    treatment: Treatment,
    what: str,
    members: list[tuple[Member, str]],
    parts: dict[int, PartFact],
    places: dict[int, int],
) -> Batch:
    members.sort(key=lambda one: (places.get(one[0].key, len(places)), one[0].part))
    said = {name: tuple(one for one, at in members if at == name) for name in ("ready", "held", "inside")}
    metals = {metal_of(parts[one.part_id].material) for one, _ in members}
    return Batch(
        treatment,
        what,
        bath_for(treatment, next(iter(metals))),
        window_of(treatment),
        said["ready"],
        said["held"],
        said["inside"],
        treatment in COATED and metals.isdisjoint(NOT_BAKED),
    )


def _masks(connection: Connection, machine_id: int) -> dict[int, tuple[str, ...]]:
    """Faces that stay bare: every measured bore, journal, way and thread of a part."""
    rows = connection.execute(
        select(Features.part_id, Features.name)
        .join(Parts, Parts.id == Features.part_id)
        .where(Parts.machine_id == machine_id, Features.kind.in_(_MASKED))
        .order_by(Features.part_id, Features.id)
    )
    found: dict[int, list[str]] = defaultdict(list)
    for row in rows:
        found[row.part_id].append(row.name)
    return {key: tuple(dict.fromkeys(names)) for key, names in found.items()}


def _clock_words(connection: Connection, machine_id: int, now: dt.datetime) -> dict[int, str]:
    rows = connection.execute(
        select(Clocks.task_id, Clocks.kind, Clocks.started_at, Clocks.low_min, Clocks.high_min)
        .where(Clocks.machine_id == machine_id, Clocks.closed_at.is_(None), Clocks.task_id.is_not(None))
        .order_by(Clocks.id)
    )
    return {
        row.task_id or 0: read_clock(row.kind.value, row.started_at, row.low_min, row.high_min, now).words
        for row in rows
    }
