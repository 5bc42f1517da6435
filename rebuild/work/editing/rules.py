"""Which rule settles a record of each table whose fields were just typed."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from rebuild.model.records.record import Record
from rebuild.store.tx import Tx
from rebuild.work.charts.rules import chart_line, chart_test
from rebuild.work.controls.rules import control
from rebuild.work.joints.rules import joint
from rebuild.work.log.rules import question
from rebuild.work.lubrication.rules import oil_point
from rebuild.work.machines.rules import part
from rebuild.work.making.rules_details import fitting, making_detail
from rebuild.work.readings.rules import feature, instrument, reading, station
from rebuild.work.run_in.rules import cut_test, run_look, run_step
from rebuild.work.steps.rules import link, task
from rebuild.work.waiting.rules import clock, waiting

RULES: dict[str, Callable[..., None]] = {
    "part": part,
    "feature": feature,
    "station": station,
    "instrument": instrument,
    "reading": reading,
    "task": task,
    "link": link,
    "joint": joint,
    "clock": clock,
    "control": control,
    "waiting": waiting,
    "chart_test": chart_test,
    "chart_line": chart_line,
    "oil_point": oil_point,
    "cut_test": cut_test,
    "run_look": run_look,
    "run_step": run_step,
    "question": question,
    "making_detail": making_detail,
    "fitting": fitting,
}


def make_sound(tx: Tx, row: Record, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """Settle a record whose fields ``typed`` were just set; ``before`` holds its columns until then.

    Raises:
        BadEntry: the record as a whole cannot stand like this.
    """
    rule = RULES.get(row.table_name)
    if rule is not None:
        rule(tx, row, before, typed)
