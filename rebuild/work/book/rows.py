"""Everything the machine's book is made of, read at one moment and frozen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection, select

from rebuild.errors import NotThere
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.places import Places
from rebuild.model.tables.steps import TaskCautions, Tasks
from rebuild.model.tables.waiting import StockItems
from rebuild.store.settings_and_kept import settings
from rebuild.trade.geometry.straightness import Reference
from rebuild.trade.limits.judgement import Rule
from rebuild.words.machines import MachineKind
from rebuild.words.places import place_words
from rebuild.work.book.rows_history import JournalSpan, MonthLine, journal_span, months
from rebuild.work.book.rows_parts import GroupPage, SetLine, groups, matched_sets
from rebuild.work.book.rows_readings import FeatureLine, InstrumentLine, feature_lines, instruments_used
from rebuild.work.charts import rows as chart, rows_levelling as levelling
from rebuild.work.charts.rows_tests import TestRow
from rebuild.work.controls.rows import ControlRow, controls
from rebuild.work.decisions import rows_odd_sizes as odd_sizes
from rebuild.work.fits import rows as fits
from rebuild.work.gates.rows import GoneOnRow, gone_on
from rebuild.work.joints import rows as joints
from rebuild.work.log import rows as notes
from rebuild.work.lubrication import rows as oil
from rebuild.work.making import rows as making, rows_sheet as making_page
from rebuild.work.making.rows_sheet_lists import SheetPage
from rebuild.work.photos import rows as photos
from rebuild.work.power.rows import Stands, before_power
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.records.rows import card
from rebuild.work.run_in import rows as commission, rows_cuts as cuts
from rebuild.work.steps.rows_attempts import StepAttemptRow, step_attempts
from rebuild.work.surveys import rows as survey
from rebuild.work.surveys.data import SurveyResult
from rebuild.work.surveys.worked import work_out
from rebuild.work.teardown import rows_removals as removals
from rebuild.work.waiting import rows as waiting, rows_costs as costs

#: The tables the lookups here ask.
READS = frozenset({
    "act", "attempt", "camera", "chart_line", "chart_reading", "chart_test", "concession", "control", "cut_test",
    "fastener", "feature", "fit", "fitting", "hours_spent", "instrument", "joint", "level_reading", "log_entry",
    "machine", "making_detail", "making_dimension", "making_sheet", "making_step", "making_tool",
    "mark_part", "matched_set", "odd_size",
    "oil_point", "override", "part", "photo", "photo_mark", "place", "question", "reading", "refit_step", "removal",
    "removal_part", "run_look", "run_reading", "run_step", "setting", "shim_leaf", "shim_pack", "station",
    "step_attempt", "stock_item", "subassembly", "survey", "survey_line", "survey_reading", "task", "task_caution",
    "waiting",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class StockLine:
    """Something on the shelf."""

    name: str
    material: str
    sizes: str
    thread: str
    quantity: str
    place: str
    note: str


@dataclass(frozen=True, slots=True)
class TakenApart:
    """One attempt with what came off, in order."""

    attempt: removals.AttemptRow
    removals: tuple[removals.RemovalRow, ...]


@dataclass(frozen=True, slots=True)
class SurveyPair:
    """A survey, and the one it is compared with."""

    now: SurveyResult
    before: SurveyResult | None
    part: str


@dataclass(frozen=True, slots=True)
class PhotoPage:
    """A photo with its marks."""

    row: photos.PhotoRow
    marks: tuple[photos.MarkRow, ...]


@dataclass(frozen=True, slots=True)
class Bench:
    """What was asked and noted on the way."""

    log: tuple[notes.LogRow, ...]
    questions: tuple[notes.QuestionRow, ...]
    months: tuple[MonthLine, ...]
    journal: JournalSpan
    cautions: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Tried:
    """How the machine was proved: chart, level, controls, first run."""

    chart: tuple[TestRow, ...]
    levelling: levelling.Levelling
    run: tuple[commission.RunRow, ...]
    cuts: tuple[cuts.CutRow, ...]
    checks: tuple[commission.CheckRow, ...]
    standing: tuple[Stands, ...]
    gone_on: tuple[GoneOnRow, ...]
    step_attempts: tuple[StepAttemptRow, ...]
    controls: tuple[ControlRow, ...]
    control_pictures: tuple[PhotoPage, ...]


@dataclass(frozen=True, slots=True)
class Bought:
    """Orders, loans and what they came to; stock on the shelf."""

    waiting: tuple[waiting.WaitingRow, ...]
    by_subassembly: tuple[costs.CostRow, ...]
    by_decision: tuple[costs.CostRow, ...]
    stock: tuple[StockLine, ...]


@dataclass(frozen=True, slots=True)
class BookData:
    """One machine, whole. ``as_of`` is the moment of the newest act in the file, not the clock's."""

    machine_id: int
    name: str
    kind: MachineKind
    unit: str
    identity: Mapping[str, str]
    owner: str
    rule: Rule
    as_of: dt.datetime | None
    groups: tuple[GroupPage, ...]
    sets: tuple[SetLine, ...]
    features: tuple[FeatureLine, ...]
    instruments: tuple[InstrumentLine, ...]
    fits: tuple[fits.FitRow, ...]
    odd: tuple[odd_sizes.OddRow, ...]
    sheets: tuple[SheetPage, ...]
    taken_apart: tuple[TakenApart, ...]
    surveys: tuple[SurveyPair, ...]
    oil: oil.OilCard
    joints: tuple[joints.JointRow, ...]
    tried: Tried
    bought: Bought
    photos: tuple[PhotoPage, ...]
    bench: Bench
    project: Path | None

    def part_titles(self) -> dict[int, str]:
        """Each part's code and name by its id."""
        return {part.id: part.title for group in self.groups for part in group.parts}


def read_book(connection: Connection, machine_id: int, project: Path | None = None) -> BookData:
    """Everything about one machine, as it stands in this connection's view of the file. Raises NotThere.

    ``project`` says where the file lies, so that photos beside it can be found.
    """
    machine = connection.execute(
        select(Machines.name, Machines.kind, Machines.unit).where(Machines.id == machine_id)
    ).first()
    if machine is None:
        raise NotThere(f"The machine no. {machine_id} is no longer there.", way_out="Choose another.")
    kept = settings(connection)
    rule = _rule(kept.get("verdict rule", ""))
    limits = instrument_limits(connection)
    span = journal_span(connection)
    now = span.last or dt.datetime(2000, 1, 1)  # noqa: DTZ001 - wall clock; only where nothing was ever done
    in_groups = groups(connection, machine_id)
    titles = {part.id: part.title for group in in_groups for part in group.parts}
    return BookData(
        machine_id=machine_id,
        name=machine.name,
        kind=machine.kind,
        unit=machine.unit,
        identity=card(connection, "machine", machine_id).fields,
        owner=kept.get("owner", ""),
        rule=rule,
        as_of=span.last,
        groups=in_groups,
        sets=matched_sets(connection, machine_id),
        features=feature_lines(connection, machine_id, rule, limits),
        instruments=instruments_used(connection, machine_id),
        fits=tuple(fits.rows(connection, fits.fit_ids(connection, machine_id), rule, limits)),
        odd=tuple(odd_sizes.odd_sizes(connection, machine_id)),
        sheets=tuple(
            making_page.sheet_page(connection, row.id, rule)
            for row in making.sheets(connection, machine_id, rule)
        ),
        taken_apart=_taken_apart(connection, machine_id),
        surveys=_surveys(connection, machine_id, rule, titles),
        oil=oil.oil_card(connection, machine_id),
        joints=tuple(joints.joints(connection, machine_id)),
        tried=_tried(connection, machine_id, rule),
        bought=_bought(connection, machine_id, now),
        photos=tuple(
            PhotoPage(row, tuple(photos.marks(connection, row.id)))
            for row in reversed(photos.photos(connection, machine_id))
        ),
        bench=Bench(
            tuple(reversed(notes.log(connection, machine_id))),
            tuple(notes.questions(connection, machine_id)),
            months(connection, machine_id),
            span,
            _cautions(connection, machine_id),
        ),
        project=project,
    )


def _rule(stored: str) -> Rule:
    return Rule[stored] if stored in Rule.__members__ else Rule.CONFORMANCE_95


def _taken_apart(connection: Connection, machine_id: int) -> tuple[TakenApart, ...]:
    listed = reversed(removals.attempts(connection, machine_id))
    made = (TakenApart(row, tuple(removals.removals(connection, row.id))) for row in listed)
    return tuple(one for one in made if one.removals)


def _surveys(
    connection: Connection, machine_id: int, rule: Rule, titles: Mapping[int, str]
) -> tuple[SurveyPair, ...]:
    rows = survey.surveys(connection, machine_id)
    results = {
        row.id: work_out(survey.survey_data(connection, row.id), Reference.MINIMUM_ZONE, rule) for row in rows
    }
    return tuple(
        SurveyPair(results[row.id], results.get(row.before_id or 0), titles.get(row.part_id or 0, ""))
        for row in rows
    )


def _tried(connection: Connection, machine_id: int, rule: Rule) -> Tried:
    held = controls(connection, machine_id)
    return Tried(
        tuple(chart.chart(connection, machine_id, rule)),
        levelling.levelling(connection, machine_id),
        tuple(commission.run_steps(connection, machine_id)),
        tuple(reversed(cuts.cut_tests(connection, machine_id, rule))),
        tuple(commission.checks(connection, machine_id)),
        tuple(before_power(connection, machine_id)),
        tuple(gone_on(connection, machine_id)),
        tuple(step_attempts(connection, machine_id)),
        tuple(held),
        tuple(
            PhotoPage(row.photo, tuple(photos.marks(connection, row.photo.id)))
            for row in held
            if row.photo is not None
        ),
    )


def _bought(connection: Connection, machine_id: int, now: dt.datetime) -> Bought:
    stock = connection.execute(
        select(*StockItems.columns(), Places.kind.label("kind"), Places.name.label("place"))
        .outerjoin(Places, Places.id == StockItems.place_id)
        .order_by(StockItems.name, StockItems.id)
    )
    return Bought(
        tuple(waiting.waiting(connection, machine_id, now)),
        tuple(costs.by_subassembly(connection, machine_id)),
        tuple(costs.by_decision(connection, machine_id)),
        tuple(
            StockLine(
                row.name,
                row.material,
                row.sizes,
                row.thread,
                "" if row.quantity is None else f"{row.quantity:g} {row.counted_in}".strip(),
                place_words(row.kind, row.place) if row.place else "",
                row.note,
            )
            for row in stock
        ),
    )


def _cautions(connection: Connection, machine_id: int) -> tuple[tuple[str, int], ...]:
    """The caution topics on this machine's steps, with how many steps carry each."""
    topics = connection.execute(
        select(TaskCautions.topic)
        .join(Tasks, Tasks.id == TaskCautions.task_id)
        .where(Tasks.machine_id == machine_id)
    ).scalars()
    counted: dict[str, int] = {}
    for topic in topics:
        counted[topic] = counted.get(topic, 0) + 1
    return tuple(sorted(counted.items()))
