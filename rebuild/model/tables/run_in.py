"""The first run: steps with their speeds, bearing temperatures, cut tests, and what is looked at before power."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_number,
    as_text,
    as_yes,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.charts import ChartStage, LimitStatus
from rebuild.words.run_in import CutKind, LookWhen, RunState


class RunSteps(Journaled, name="run_step"):
    """One step of the run-in: a speed, for so long, up to a bearing temperature [°C] of stated origin."""

    indexes = (("ix_run_step_machine_position", "machine_id", "position"),)

    machine_id: Cell[int] = goes_with("machine")
    name: Cell[str] = as_text()
    speed_rpm: Cell[float | None] = maybe(as_number())
    planned_min: Cell[float | None] = maybe(as_number())
    limit_c: Cell[float | None] = maybe(as_number())
    limit_origin: Cell[str] = as_text("")
    limit_status: Cell[LimitStatus] = one_of(LimitStatus, LimitStatus.OWN)
    state: Cell[RunState] = one_of(RunState, RunState.TO_RUN)
    ambient_c: Cell[float | None] = maybe(as_number())
    started_at: Cell[dt.datetime | None] = maybe(as_moment())
    noise: Cell[str] = as_text("")
    oil_seen: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class RunReadings(Journaled, name="run_reading"):
    """The temperature of one bearing so many minutes into a step."""

    indexes = (("ix_run_reading_step_bearing", "step_id", "bearing", "minute"),)

    step_id: Cell[int] = goes_with("run_step")
    bearing: Cell[str] = as_text()
    minute: Cell[float] = as_number()
    celsius: Cell[float] = as_number()
    note: Cell[str] = as_text("")


class CutTests(Journaled, name="cut_test"):
    """A test piece: two collars turned at one setting, or a faced disc.

    Two collars: ``first`` near the spindle, ``second`` at the free end, ``apart`` between them.
    Facing: ``first`` is the hollow (minus: proud in the middle), ``apart`` the diameter faced.
    """

    indexes = (("ix_cut_test_machine_at", "machine_id", "taken_at"),)

    machine_id: Cell[int] = goes_with("machine")
    kind: Cell[CutKind] = one_of(CutKind)
    stage: Cell[ChartStage] = one_of(ChartStage, ChartStage.AFTER)
    unit: Cell[str] = as_text("mm")
    first_text: Cell[str | None] = maybe(as_text())
    first_unit: Cell[str | None] = maybe(as_text())
    first_mm: Cell[float | None] = maybe(as_number())
    second_text: Cell[str | None] = maybe(as_text())
    second_unit: Cell[str | None] = maybe(as_text())
    second_mm: Cell[float | None] = maybe(as_number())
    apart_text: Cell[str | None] = maybe(as_text())
    apart_unit: Cell[str | None] = maybe(as_text())
    apart_mm: Cell[float | None] = maybe(as_number())
    allowed_text: Cell[str | None] = maybe(as_text())
    allowed_unit: Cell[str | None] = maybe(as_text())
    allowed_mm: Cell[float | None] = maybe(as_number())
    allowed_over_text: Cell[str | None] = maybe(as_text())
    allowed_over_unit: Cell[str | None] = maybe(as_text())
    allowed_over_mm: Cell[float | None] = maybe(as_number())
    allowed_origin: Cell[str] = as_text("")
    allowed_status: Cell[LimitStatus] = one_of(LimitStatus, LimitStatus.OWN)
    instrument_id: Cell[int | None] = points_at("instrument", index=True)
    temperature_c: Cell[float | None] = maybe(as_number())
    taken_at: Cell[dt.datetime] = as_moment()
    adjusted: Cell[str] = as_text("")
    note: Cell[str] = as_text("")


class RunLooks(Journaled, name="run_look"):
    """Something looked at by hand before power, or left to licensed practice; ``topic`` is its caution."""

    indexes = (("ix_run_look_machine_position", "machine_id", "position"),)

    machine_id: Cell[int] = goes_with("machine")
    due: Cell[LookWhen] = one_of(LookWhen, LookWhen.BEFORE_POWER)
    text: Cell[str] = as_text()
    topic: Cell[str] = as_text("")
    licensed: Cell[bool] = as_yes(False)
    done_at: Cell[dt.datetime | None] = maybe(as_moment())
    done_by: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)
