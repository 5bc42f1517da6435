"""Kinds of things that are found: what each is called, where it lies, and the page that shows it."""

from __future__ import annotations

from dataclasses import dataclass

_PART = "trim(p.code || ' ' || p.name)"
_TO_PART = "LEFT JOIN part AS p ON p.id = t.part_id"
_TO_FEATURE = "LEFT JOIN feature AS f ON f.id = t.feature_id LEFT JOIN part AS p ON p.id = f.part_id"
_TO_SHEET = "LEFT JOIN making_sheet AS s ON s.id = t.sheet_id LEFT JOIN part AS p ON p.id = s.part_id"
_TO_REMOVAL = "LEFT JOIN removal AS r ON r.id = t.removal_id LEFT JOIN attempt AS a ON a.id = r.attempt_id"
_OFF = (
    "COALESCE((SELECT group_concat(trim(p.code || ' ' || p.name), ', ') FROM removal_part AS rp "
    "JOIN part AS p ON p.id = rp.part_id WHERE rp.removal_id = {}.id), {}.what) || ', ' || {}.how"
)
#: Where what came off lies now, else where it was put then.
_LIES_OFF = (
    "COALESCE((SELECT p.place_id FROM removal_part AS rp JOIN part AS p ON p.id = rp.part_id "
    "WHERE rp.removal_id = t.id LIMIT 1), t.place_id)"
)
#: Screws and shims lie where they were put, else where the part went.
_LIES_WITH = (
    "COALESCE(r.place_id, (SELECT p.place_id FROM removal_part AS rp JOIN part AS p ON p.id = rp.part_id "
    "WHERE rp.removal_id = r.id LIMIT 1))"
)
_OFF_T, _OFF_R = _OFF.format("t", "t", "t"), _OFF.format("r", "r", "r")


@dataclass(frozen=True, slots=True)
class Kind:
    """Rows of one table: what one is called, and in SQL over its row ``t`` how it is titled and what it belongs to.

    ``page`` shows it; ``target`` is the row chosen there. ``place`` is the id of the place it lies in.
    """

    table: str
    word: str
    page: str
    title: str
    joins: str = ""
    machine: str = "NULL"
    group: str = "NULL"
    part: str = "NULL"
    target: str = "t.id"
    feature: str = "NULL"
    station: str = "NULL"
    place: str = "NULL"


def _of_part(
    table: str,
    word: str,
    page: str,
    title: str,
    *,
    joins: str = _TO_PART,
    target: str = "t.id",
    measured: tuple[str, str] = ("NULL", "NULL"),
) -> Kind:
    titled = f"{_PART} || ': ' || {title}"
    return Kind(
        table,
        word,
        page,
        titled,
        joins,
        "p.machine_id",
        "p.subassembly_id",
        "p.id",
        target,
        *measured,
        place="p.place_id",
    )


def _of_machine(
    table: str, word: str, page: str, title: str, group: str = "NULL", part: str = "NULL"
) -> Kind:
    return Kind(table, word, page, title, "", "t.machine_id", group, part)


def _hanging(
    table: str,
    word: str,
    page: str,
    title: str,
    joins: str,
    owner: str,
    *,
    group: str = "NULL",
    part: str = "NULL",
) -> Kind:
    return Kind(table, word, page, title, joins, f"{owner}.machine_id", group, part, f"{owner}.id")


def _of_removal(table: str, title: str, joins: str = _TO_REMOVAL) -> Kind:
    return Kind(table, "removal", "teardown", f"{_OFF_R} || ': ' || {title}", joins, "a.machine_id", "a.subassembly_id",
                "NULL", "r.id", place=_LIES_WITH)  # fmt: skip


_OWN = ("t.subassembly_id", "t.part_id")
#: In the order they are listed: what one looks for most often first.
KINDS: tuple[Kind, ...] = (
    Kind("part", "part", "bench", "trim(t.code || ' ' || t.name)", "", "t.machine_id", "t.subassembly_id", "t.id",
         place="t.place_id"),
    _of_machine("subassembly", "subassembly", "bench", "trim(t.code || ' ' || t.name)", "t.id"),
    Kind("machine", "machine", "bench", "t.name", "", "t.id"),
    Kind("place", "place", "places", "CASE t.kind WHEN 'other' THEN t.name ELSE t.kind || ' ' || t.name END"),
    _of_machine("matched_set", "matched set", "sets", "t.name"),
    _of_part("feature", "feature", "bench", "t.name", measured=("t.id", "NULL")),
    _of_part("station", "feature", "bench", "f.name || ', ' || t.name", joins=_TO_FEATURE, target="f.id",
             measured=("f.id", "t.id")),
    _of_part("reading", "reading", "bench", "f.name || ' ' || t.typed || ' ' || t.unit", joins=_TO_FEATURE,
             measured=("f.id", "t.station_id")),
    Kind("unplaced", "value without a row", "bench", "t.typed || ', seen on ' || t.seen_on"),
    Kind("removal", "removal", "teardown", _OFF_T, "LEFT JOIN attempt AS a ON a.id = t.attempt_id", "a.machine_id",
         "a.subassembly_id", place=_LIES_OFF),
    _of_removal("fastener", "t.count || ' x ' || trim(t.thread || ' ' || t.head || ' ' || t.kind)"),
    _of_removal("shim_pack", "'shims ' || t.location"),
    _of_removal("shim_leaf", "'shim ' || t.thickness_text || ' ' || t.thickness_unit",
                f"LEFT JOIN shim_pack AS k ON k.id = t.pack_id {_TO_REMOVAL.replace('t.removal_id', 'k.removal_id')}"),
    Kind("attempt", "attempt", "teardown", "'attempt ' || t.number || ' ' || t.changed", "", "t.machine_id",
         "t.subassembly_id", "NULL", "NULL"),
    _hanging("step_attempt", "step", "bench", "w.title || ', attempt ' || t.number",
             "LEFT JOIN task AS w ON w.id = t.task_id", "w", group="w.subassembly_id", part="w.part_id"),
    _of_machine("override", "gone on with all the same", "run-in", "t.what || ': ' || t.reason"),
    _of_machine("control", "control", "controls", "trim(t.name || ' ' || t.does)", *_OWN),
    Kind("means", "means", "means", "t.kind || ' ' || t.name"),
    _hanging("step_means", "step", "bench", "w.title || ': ' || t.note", "LEFT JOIN task AS w ON w.id = t.task_id", "w",
             group="w.subassembly_id", part="w.part_id"),
    _of_machine("joint", "joint", "joints", "trim(t.name || ' ' || t.location)", *_OWN),
    _of_machine("task", "step", "bench", "t.title", *_OWN),
    _hanging("task_constraint", "step", "bench", "w.title || ': ' || t.detail",
             "LEFT JOIN task AS w ON w.id = t.task_id", "w", group="w.subassembly_id", part="w.part_id"),
    _hanging("task_caution", "step", "bench", "w.title || ': ' || t.topic", "LEFT JOIN task AS w ON w.id = t.task_id",
             "w", group="w.subassembly_id", part="w.part_id"),
    _hanging("link", "step", "bench", "w.title || ': ' || t.reason", "LEFT JOIN task AS w ON w.id = t.after_id", "w",
             group="w.subassembly_id", part="w.part_id"),
    _of_machine("photo", "photo", "photos", "trim(t.file_name || ' ' || t.view)", *_OWN),
    _hanging("photo_mark", "photo", "photos", "w.file_name || ': ' || t.text",
             "LEFT JOIN photo AS w ON w.id = t.photo_id", "w", group="w.subassembly_id", part="w.part_id"),
    _of_machine("question", "question", "questions", "t.text", *_OWN),
    _of_machine("document", "manual", "manuals", "t.name"),
    Kind("document_page", "manual page", "manuals", "w.name || ', page ' || t.number",
         "LEFT JOIN document AS w ON w.id = t.document_id", "w.machine_id"),
    Kind("call_out", "call-out", "manuals",
         "w.name || ', page ' || g.number || ': ' || trim(t.text || ' ' || t.differs)",
         "LEFT JOIN document_page AS g ON g.id = t.page_id LEFT JOIN document AS w ON w.id = g.document_id",
         "w.machine_id"),
    _of_part("clue", "clue", "boxes", "t.kind || ' ' || t.text", target="p.id"),
    _of_part("box_thing", "unknown thing", "boxes", "trim(t.came_in || ' ' || t.went_to)", target="p.id"),
    _of_part("merged_part", "part", "bench", "'was ' || trim(t.was_code || ' ' || t.was_name)", target="p.id"),
    _of_machine("log_entry", "session", "log", "substr(t.at, 1, 10) || ' ' || t.did"),
    _of_machine("waiting", "order", "waiting", "trim(t.what || ' ' || t.who)", *_OWN),
    Kind("camera", "camera", "photos", "t.name"),
    Kind("stock_item", "stock", "waiting", "t.name"),
    _of_machine("clock", "clock", "waiting", "t.kind || ' ' || t.what", *_OWN),
    _of_part("concession", "concession", "decide", "t.reason", target="p.id"),
    _of_part("odd_size", "odd size", "decide", "t.what", target="p.id"),
    _of_part("decision_option", "way to go", "decide", "t.decision || ' ' || t.method", target="p.id"),
    _of_part("making_sheet", "making sheet", "making", "t.why"),
    _of_part("making_dimension", "making sheet", "making", "t.name", joins=_TO_SHEET, target="s.id"),
    _of_part("making_step", "making sheet", "making", "t.what", joins=_TO_SHEET, target="s.id"),
    _of_part("making_tool", "making sheet", "making", "t.what", joins=_TO_SHEET, target="s.id"),
    _of_part("making_detail", "making sheet", "making", "t.name", joins=_TO_SHEET, target="s.id"),
    _of_part("fitting", "fit at assembly", "bench", "t.what", target="p.id"),
    _of_machine("fit", "fit", "fits", "t.name"),
    _of_machine("oil_point", "oil point", "lubrication", "t.number || ' ' || t.feeds", "NULL", "t.part_id"),
    _of_machine("survey", "survey", "survey", "t.name", "NULL", "t.part_id"),
    _hanging("survey_line", "survey", "survey", "w.name || ': ' || t.name",
             "LEFT JOIN survey AS w ON w.id = t.survey_id", "w"),
    _of_machine("chart_test", "test", "chart", "t.number || ' ' || t.name"),
    _hanging("chart_line", "test", "chart", "w.name || ': ' || t.name",
             "LEFT JOIN chart_test AS w ON w.id = t.test_id", "w"),
    _hanging("chart_reading", "test", "chart", "w.name || ': ' || t.typed || ' ' || t.note",
             "LEFT JOIN chart_line AS l ON l.id = t.line_id LEFT JOIN chart_test AS w ON w.id = l.test_id", "w"),
    _of_machine("level_reading", "level", "chart", "t.place || ' ' || t.typed"),
    _of_machine("run_look", "check", "run-in", "t.text"),
    _of_machine("run_step", "run-in step", "run-in", "t.name"),
    _hanging("run_reading", "run-in step", "run-in", "w.name || ': ' || t.bearing || ' ' || t.note",
             "LEFT JOIN run_step AS w ON w.id = t.step_id", "w"),
    _of_machine("cut_test", "cut test", "run-in", "t.kind"),
    Kind("instrument", "instrument", "instruments", "t.name"),
    Kind("wear_rule", "wear rule", "decide", "t.key"),
    Kind("day_off", "day off", "plan", "substr(t.first, 1, 10) || ' ' || t.why"),
)  # fmt: skip

#: Sizes that are found by their value: table and column. Readings are found through an index of their own.
SIZES: tuple[tuple[str, str, str], ...] = (
    ("feature", "nominal_mm", "nominal"), ("feature", "low_mm", "low limit"), ("feature", "high_mm", "high limit"),
    ("fastener", "length_mm", "length"), ("shim_leaf", "thickness_mm", "thickness"), ("odd_size", "size_mm", "size"),
    ("clue", "size_mm", "clue"),
    ("making_dimension", "nominal_mm", "size to make"), ("making_dimension", "low_mm", "low limit"),
    ("making_dimension", "high_mm", "high limit"),
)  # fmt: skip
