"""The editable fields of the test chart, the level, oil points and the first run."""

from __future__ import annotations

from rebuild.words.charts import ChartStage, LevelWay, LimitLength, LimitSign, LimitStatus
from rebuild.words.lubrication import FlowProof, OilPointKind
from rebuild.words.run_in import CutKind, LookWhen, RunState
from rebuild.work.records.common_fields import LONG, note
from rebuild.work.records.field import Field, FieldKind

_INSTRUMENT = Field("instrument_id", "Instrument", FieldKind.REFERENCE, refers_to="instrument")
_TEMPERATURE = Field("temperature_c", "Temperature", FieldKind.CELSIUS)
_TAKEN = Field("taken_at", "Taken", FieldKind.MOMENT, required=True, help="Type it as 2026-03-14 19:30.")
_ADJUSTED = Field("adjusted", "Adjusted afterwards", longest=400)

TRUE_AND_OILED: dict[str, tuple[Field, ...]] = {
    "chart_test": (
        Field("number", "No."),
        Field("name", "Test", required=True, help="Say what is tested."),
        Field("sketch", "Sketch"),
        Field("set_up", "Set-up", FieldKind.LONG_TEXT, longest=LONG),
        Field("after_id", "Only after", FieldKind.REFERENCE, refers_to="chart test"),
        note(),
    ),
    "chart_line": (
        Field("name", "Position"),
        Field("unit", "Unit", required=True, help="Type mm or in."),
        Field("sign", "Sign", FieldKind.CHOICE, LimitSign),
        Field("plus_means", "Plus means"),
        Field("minus_means", "Minus means"),
        Field("allowed", "Limit", FieldKind.LENGTH),
        Field("per", "Per length", FieldKind.LENGTH),
        Field("along", "Over another length", FieldKind.CHOICE, LimitLength),
        Field("origin", "Source", longest=400),
        Field("status", "Source status", FieldKind.CHOICE, LimitStatus),
    ),
    "chart_reading": (
        Field("stage", "Stage", FieldKind.CHOICE, ChartStage),
        _INSTRUMENT,
        _TEMPERATURE,
        _TAKEN,
        _ADJUSTED,
        note(),
    ),
    "level_reading": (
        Field("place", "Where the level lay", required=True, help="Say which end."),
        Field("at", "Distance along", FieldKind.LENGTH),
        Field("way", "Level lay", FieldKind.CHOICE, LevelWay),
        _INSTRUMENT,
        _TEMPERATURE,
        _TAKEN,
        _ADJUSTED,
        note(),
    ),
    "oil_point": (
        Field("number", "No.", required=True, help="Type the number on the map."),
        Field("kind", "Kind", FieldKind.CHOICE, OilPointKind),
        Field("feeds", "Feeds", required=True, help="Say what it feeds."),
        Field("path", "Path"),
        Field("old_oil", "Old oil, as written"),
        Field("duty", "Duty"),
        Field("oil", "Oil chosen"),
        Field("quantity", "Quantity"),
        Field("interval", "Interval"),
        Field("first_fill_at", "First fill", FieldKind.MOMENT),
        Field("proof", "Flow", FieldKind.CHOICE, FlowProof),
        Field("proved_at", "Seen on", FieldKind.MOMENT),
        Field("proved_note", "Seen how"),
        Field("part_id", "Part", FieldKind.REFERENCE, refers_to="part"),
        Field("task_id", "Hidden by step", FieldKind.REFERENCE, refers_to="task"),
        Field("fed_by_id", "Fed through", FieldKind.REFERENCE, refers_to="oil point"),
        Field("dose_ml", "Dose, mL a stroke", FieldKind.NUMBER, lowest=0),
        Field("delivery_ml", "Delivers, mL a stroke", FieldKind.NUMBER, lowest=0),
        note(),
    ),
    "run_step": (
        Field("name", "Step", required=True, help="Say what is run."),
        Field("speed_rpm", "Speed, a minute", FieldKind.NUMBER, lowest=0),
        Field("planned_min", "For", FieldKind.MINUTES),
        Field("limit_c", "Bearing limit", FieldKind.CELSIUS),
        Field("limit_origin", "Source", longest=400),
        Field("limit_status", "Source status", FieldKind.CHOICE, LimitStatus),
        Field("state", "State", FieldKind.CHOICE, RunState),
        Field("ambient_c", "Room", FieldKind.CELSIUS),
        Field("started_at", "Started", FieldKind.MOMENT),
        Field("noise", "Noise and feel"),
        Field("oil_seen", "Oil seen"),
        note(),
    ),
    "run_reading": (
        Field("bearing", "Bearing", required=True, help="Say which bearing."),
        Field("minute", "Minute", FieldKind.NUMBER, lowest=0),
        Field("celsius", "Temperature", FieldKind.CELSIUS),
        note(),
    ),
    "cut_test": (
        Field("kind", "Test piece", FieldKind.CHOICE, CutKind),
        Field("stage", "Stage", FieldKind.CHOICE, ChartStage),
        Field("unit", "Unit", required=True, help="Type mm or in."),
        Field("first", "Collar near the spindle, or hollow", FieldKind.LENGTH),
        Field("second", "Collar at the free end", FieldKind.LENGTH),
        Field("apart", "Length between, or diameter faced", FieldKind.LENGTH),
        Field("allowed", "Limit", FieldKind.LENGTH),
        Field("allowed_over", "Over", FieldKind.LENGTH),
        Field("allowed_origin", "Source", longest=400),
        Field("allowed_status", "Source status", FieldKind.CHOICE, LimitStatus),
        _INSTRUMENT,
        _TEMPERATURE,
        _TAKEN,
        _ADJUSTED,
        note(),
    ),
    "run_look": (
        Field("due", "When", FieldKind.CHOICE, LookWhen),
        Field("text", "What", FieldKind.LONG_TEXT, longest=LONG, required=True, help="Say what is looked at."),
        Field("topic", "Caution"),
        Field("licensed", "For licensed hands", FieldKind.YES_NO),
        Field("done_at", "Done", FieldKind.MOMENT),
        Field("done_by", "By"),
        note(),
    ),
}  # fmt: skip

TRUE_CALLED = {
    "chart_test": "geometry test", "chart_line": "position", "chart_reading": "geometry reading",
    "level_reading": "level reading", "oil_point": "oil point", "run_step": "run-in step",
    "run_reading": "bearing temperature", "cut_test": "cut test", "run_look": "look before power",
}  # fmt: skip
