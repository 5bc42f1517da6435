"""What is known of the work of one machine, table by table: each in one or two statements, in its order."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Select, String, and_, case, exists, func, select, type_coerce

from rebuild.model.tables.features import Features
from rebuild.model.tables.fitting import Fittings
from rebuild.model.tables.log import Questions
from rebuild.model.tables.lubrication import OilPoints
from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.making import MakingSheets, MakingTools
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.readings import Readings
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import ConstraintParts, Links, TaskConstraints, Tasks
from rebuild.model.tables.teardown import RemovalParts
from rebuild.model.tables.waiting import Clocks, Waitings
from rebuild.words.fitting import asked_words
from rebuild.words.log import QuestionState
from rebuild.words.lubrication import FlowProof
from rebuild.words.readings import Stage
from rebuild.words.steps import LinkKind
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.means.rows import lacking, means
from rebuild.work.plan.facts import (
    ClockFact,
    FittingFact,
    LackFact,
    LinkFact,
    NeedFact,
    OilFact,
    OrderFact,
    PartFact,
    SheetFact,
    StepFact,
    ToolFact,
)

#: The tables the lookups here ask.
READS = frozenset(
    {
        "clock", "constraint_part", "feature", "fitting", "link", "making_sheet", "making_tool", "means", "oil_point",
        "part", "place", "question", "reading", "refit_step", "removal_part", "step_means", "subassembly", "task",
        "task_constraint", "waiting",
    }
)  # fmt: skip
#: The rows to read, or None for all of the machine.
Ids = Sequence[int] | None
NEW_STAGES = (Stage.REWORKED, Stage.AS_MADE, Stage.FITTED)


def links(connection: Connection, machine_id: int, ids: Ids = None) -> tuple[LinkFact, ...]:
    """Every link in its order. Nearly all only say what comes first: of those three numbers are read, and no words."""
    plain = and_(Links.kind == LinkKind.BEFORE, Links.reason == "")
    query = (
        select(
            Links.id,
            Links.before_id,
            Links.after_id,
            case((plain, None), else_=type_coerce(Links.kind, String)),
            case((plain, None), else_=Links.reason),
        )
        .where(Links.after_id.in_(select(Tasks.id).where(Tasks.machine_id == machine_id)))
        .order_by(Links.id)
    )
    return tuple(
        [
            LinkFact(key, before, after)
            if kind is None
            else LinkFact(key, before, after, LinkKind(kind), said)
            for key, before, after, kind, said in connection.execute(_only(query, Links.id, ids)).all()
        ]
    )


def _only(query: Select[*tuple[Any, ...]], column: Any, ids: Ids) -> Select[*tuple[Any, ...]]:
    return query if ids is None else query.where(column.in_(ids))


def questions(connection: Connection, machine_id: int) -> tuple[tuple[int, int, str], ...]:
    """Open questions that hold a step."""
    query = (
        select(Questions.id, Questions.task_id, Questions.text)
        .where(
            Questions.machine_id == machine_id,
            Questions.state == QuestionState.OPEN,
            Questions.task_id.is_not(None),
        )
        .order_by(Questions.id)
    )
    return tuple((row.id, row.task_id or 0, row.text) for row in connection.execute(query))


def tree(connection: Connection, machine_id: int) -> tuple[int, ...]:
    """Subassemblies in the order of the tree."""
    query = (
        select(Subassemblies.id)
        .where(Subassemblies.machine_id == machine_id)
        .order_by(Subassemblies.position, Subassemblies.id)
    )
    return tuple(connection.execute(query).scalars())


def steps(connection: Connection, machine_id: int, ids: Ids = None) -> tuple[StepFact, ...]:
    """Typed steps in their order."""
    query = (
        select(
            Tasks.id, Tasks.subassembly_id, Tasks.part_id, Tasks.title, Tasks.kind, Tasks.state, Tasks.low_min,
            Tasks.likely_min, Tasks.high_min, Tasks.irreversible, Tasks.place, Tasks.done_at, Tasks.treatment,
        )
        .where(Tasks.machine_id == machine_id)
        .order_by(Tasks.position, Tasks.id)
    )  # fmt: skip
    return tuple(map(StepFact._make, connection.execute(_only(query, Tasks.id, ids)).all()))


def parts(connection: Connection, machine_id: int, ids: Ids = None) -> tuple[PartFact, ...]:
    """Parts by their codes, and where each lies."""
    about = Parts.name + "; " + Parts.material + "; " + Parts.condition + "; " + Parts.note
    query = (
        select(
            Parts.id, Parts.subassembly_id, Parts.code, Parts.name, Parts.origin, Parts.decision,
            Parts.decision_reason, Parts.decision_method, Parts.decision_work_min, Parts.decision_wait_days,
            about, Places.kind, Places.name.label("place"), Parts.material, Parts.condition,
            func.coalesce(Parts.finish, ""),
        )
        .select_from(Parts)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.code, Parts.id)
    )  # fmt: skip
    return tuple(map(PartFact._make, connection.execute(_only(query, Parts.id, ids)).all()))


def puts_on(connection: Connection, machine_id: int) -> tuple[tuple[int, int], ...]:
    """Parts a refit step puts on beside its own."""
    query = (
        select(RefitSteps.task_id, RemovalParts.part_id)
        .join(RemovalParts, RemovalParts.removal_id == RefitSteps.removal_id)
        .join(Tasks, Tasks.id == RefitSteps.task_id)
        .where(Tasks.machine_id == machine_id)
    )
    return tuple((row.task_id or 0, row.part_id) for row in connection.execute(query))


def needs(
    connection: Connection, machine_id: int
) -> tuple[tuple[NeedFact, ...], tuple[tuple[int, int], ...]]:
    """What steps ask for besides order, and the parts they name."""
    own = TaskConstraints.task_id.in_(select(Tasks.id).where(Tasks.machine_id == machine_id))
    asked = connection.execute(
        select(
            TaskConstraints.id,
            TaskConstraints.task_id,
            TaskConstraints.kind,
            TaskConstraints.detail,
            TaskConstraints.rest_min,
            TaskConstraints.proved_at.is_not(None),
        )
        .where(own)
        .order_by(TaskConstraints.id)
    )
    named = connection.execute(
        select(ConstraintParts.constraint_id, ConstraintParts.part_id)
        .join(TaskConstraints, TaskConstraints.id == ConstraintParts.constraint_id)
        .where(own)
    )
    return tuple(map(NeedFact._make, asked)), tuple((row.constraint_id, row.part_id) for row in named)


def clocks(connection: Connection, machine_id: int) -> tuple[ClockFact, ...]:
    """Open baths, cures and recoat clocks of steps."""
    query = select(
        Clocks.id, Clocks.task_id, Clocks.kind, Clocks.started_at, Clocks.low_min, Clocks.high_min
    ).where(
        Clocks.machine_id == machine_id,
        Clocks.closed_at.is_(None),
        Clocks.task_id.is_not(None),
        Clocks.kind.in_([ClockKind.BATH, ClockKind.CURE, ClockKind.RECOAT]),
    )
    return tuple(map(ClockFact._make, connection.execute(query)))


def orders(connection: Connection, machine_id: int) -> tuple[OrderFact, ...]:
    """Orders, quotes and jobs sent out that have not come back."""
    query = (
        select(
            Waitings.id, Waitings.what, Waitings.kind, Waitings.part_id, Waitings.task_id, Waitings.ordered_at,
            Waitings.promised_at, Waitings.arrived_at, Waitings.inspected_at, Waitings.lead_low_days,
            Waitings.lead_likely_days, Waitings.lead_high_days,
        )
        .where(
            Waitings.machine_id == machine_id,
            Waitings.returned_at.is_(None),
            Waitings.kind.in_([WaitingKind.ORDER, WaitingKind.SENT_OUT, WaitingKind.QUOTE]),
        )
        .order_by(Waitings.id)
    )  # fmt: skip
    return tuple(map(OrderFact._make, connection.execute(query)))


def sheets(connection: Connection, machine_id: int) -> tuple[tuple[SheetFact, ...], tuple[ToolFact, ...]]:
    """Making sheets, and what their tools lack."""
    found = connection.execute(
        select(
            MakingSheets.id,
            MakingSheets.part_id,
            MakingSheets.progress,
            MakingSheets.blank_at,
            MakingSheets.attempt,
        )
        .join(Parts, Parts.id == MakingSheets.part_id)
        .where(Parts.machine_id == machine_id)
        .order_by(MakingSheets.attempt, MakingSheets.id)
    )
    lacking = connection.execute(
        select(MakingTools.id, MakingTools.sheet_id, MakingTools.what)
        .join(MakingSheets, MakingSheets.id == MakingTools.sheet_id)
        .join(Parts, Parts.id == MakingSheets.part_id)
        .where(Parts.machine_id == machine_id, MakingTools.in_hand.is_(False))
        .order_by(MakingTools.sheet_id, MakingTools.position, MakingTools.id)
    )
    return tuple(map(SheetFact._make, found)), tuple(map(ToolFact._make, lacking))


def oil(connection: Connection, machine_id: int) -> tuple[OilFact, ...]:
    """Oil points a step hides, where no oil was seen."""
    rows = connection.execute(
        select(OilPoints.id, OilPoints.task_id, OilPoints.number, OilPoints.feeds, OilPoints.proof)
        .where(
            OilPoints.machine_id == machine_id,
            OilPoints.task_id.is_not(None),
            OilPoints.proof.in_([FlowProof.NOT_PROVED, FlowProof.BLOCKED]),
        )
        .order_by(OilPoints.position, OilPoints.id)
    )
    return tuple(
        OilFact(row.id, row.task_id or 0, f"{row.number} {row.feeds}".strip(), row.proof is FlowProof.BLOCKED)
        for row in rows
    )


def parts_read(connection: Connection, machine_id: int) -> tuple[tuple[int, bool], ...]:
    """Each part with readings, and whether one is of a new stage: asked until the first is found, not counted."""
    of_part = (
        select(Readings.id)
        .select_from(Features)
        .join(Readings, Readings.feature_id == Features.id)
        .where(Features.part_id == Parts.id, Readings.struck.is_(None))
        .correlate(Parts.clause())
    )
    rows = connection.execute(
        select(Parts.id, exists(of_part.where(Readings.stage.in_(NEW_STAGES))))
        .where(Parts.machine_id == machine_id, exists(of_part))
        .order_by(Parts.id)
    )
    return tuple((row[0], bool(row[1])) for row in rows)


def lacks(connection: Connection, machine_id: int) -> tuple[LackFact, ...]:
    """What steps name and the shop has not got."""
    found = lacking(connection, machine_id)
    if not found:
        return ()
    shop = {one.id: one for one in means(connection)}
    return tuple(
        LackFact(step_id, one.ref.id, shop[one.ref.id].name, one.sentence, one.ways, shop[one.ref.id].task_id)
        for step_id, lacks in found.items()
        for one in lacks
    )


def fittings(connection: Connection, machine_id: int) -> tuple[FittingFact, ...]:
    """What is fitted at assembly and has not come out."""
    query = (
        select(*Fittings.columns())
        .join(Parts, Parts.id == Fittings.part_id)
        .where(Parts.machine_id == machine_id, Fittings.came_out == "")
        .order_by(Fittings.part_id, Fittings.position, Fittings.id)
    )
    return tuple(
        FittingFact(
            row.id,
            row.part_id,
            row.task_id,
            asked_words(row.kind, row.what, row.start, row.allowance, row.condition),
        )
        for row in connection.execute(query)
    )
