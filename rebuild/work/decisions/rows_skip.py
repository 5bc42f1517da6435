"""If I skip this: what leaving a part as it is costs, from its fits, readings, surveys and the test chart."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from sqlalchemy import Connection, Row, select

from rebuild.errors import NotThere
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.surveys import Surveys
from rebuild.trade.geometry.straightness import Reference
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.results.working import Worked
from rebuild.trade.schedule.hazards import suspected
from rebuild.trade.wear.skipped import Beyond, Costs, LooseFit, Skipped, if_skipped
from rebuild.words.stations import at_station
from rebuild.words.steps import TaskState
from rebuild.work.charts import rows as charts
from rebuild.work.decisions import rows_proposals
from rebuild.work.decisions.rows_proposals import part_facts
from rebuild.work.fits import rows as fits
from rebuild.work.fits.rows import FitRow
from rebuild.work.surveys import rows as surveys
from rebuild.work.surveys.worked import work_out

#: The tables the lookups here ask.
READS = (charts.READS | fits.READS | rows_proposals.READS | surveys.READS) - {
    "decision_option", "place", "wear_rule",
}  # fmt: skip
#: Words that name what a test of the chart tests, each with other words for it.
_TESTED = (
    ("spindle", "headstock", "nose", "socket"), ("bed", "ways", "way"), ("carriage", "saddle"),
    ("tailstock", "quill"), ("slide", "cross", "compound"), ("table",), ("knee",), ("column",), ("ram",),
    ("leadscrew",),
)  # fmt: skip
_WORD = re.compile(r"[a-z]+")
_FIRST_CLAUSE = re.compile(r"[,(;].*")


def if_part_skipped(
    connection: Connection, part_id: int, rule: Rule = Rule.CONFORMANCE_95
) -> Worked[Skipped]:
    """What leaving a part as it is costs, with its working. Raises NotThere."""
    part = connection.execute(
        select(Parts.id, Parts.code, Parts.name, Parts.machine_id, Parts.material, Parts.condition, Parts.note)
        .where(Parts.id == part_id)
    ).first()  # fmt: skip
    if part is None:
        raise NotThere(f"The part no. {part_id} is no longer there.", way_out="It may have been removed.")
    called = f"{part.code} {part.name}".strip()
    rows = fits.rows(connection, fits.of_parts(connection, [part_id]), rule)
    named = (part.name, *(side.part for row in rows for side in row.sides))
    beyond = [
        *_features(connection, part_id, rule),
        *_surveyed(connection, part_id, part.machine_id, rule),
        *_charted(connection, part.machine_id, named, rule),
    ]
    return if_skipped(called, _loose(rows), beyond, _risks(connection, part))


def _loose(rows: Iterable[FitRow]) -> list[LooseFit]:
    return [
        LooseFit(
            row.title,
            row.joint,
            row.kind,
            row.unit,
            row.now.verdict,
            row.now.most.value_mm,
            row.now.least.value_mm,
            row.low_mm,
            row.high_mm,
            row.now.combining.axial,
        )
        for row in rows
        if row.now is not None and row.now.verdict in (Verdict.DOES_NOT, Verdict.UNDECIDED)
    ]


def _features(connection: Connection, part_id: int, rule: Rule) -> Iterator[Beyond]:
    """Features out of their own limits, by the reading farthest out."""
    for feature in part_facts(connection, part_id, rule).features:
        if feature.verdict not in (Verdict.DOES_NOT, Verdict.UNDECIDED):
            continue
        out = [
            (abs(value - limit), station, value, limit)
            for station, value in feature.readings
            for limit, sign in ((feature.high_mm, 1), (feature.low_mm, -1))
            if limit is not None and (value - limit) * sign > 0
        ]
        if out:
            _, station, value, limit = max(out)
            at = at_station(station)
            yield Beyond(Costs.SIZE, f"{feature.name}{at}", feature.unit, value, limit)


def _surveyed(connection: Connection, part_id: int, machine_id: int, rule: Rule) -> Iterator[Beyond]:
    """Ways of the part surveyed out of what is allowed, in the newest survey of each (none that another follows)."""
    mine = [row for row in surveys.surveys(connection, machine_id) if row.part_id == part_id]
    followed = set(
        connection.execute(select(Surveys.before_id).where(Surveys.machine_id == machine_id)).scalars()
    )
    for row in mine:
        if row.id in followed:
            continue
        data = surveys.survey_data(connection, row.id)
        for line in work_out(data, Reference.MINIMUM_ZONE, rule).lines:
            found, allowed = line.found, data.allowed_mm
            if found is not None and allowed is not None and found.deviation_mm > allowed:
                drop = line.drop.diameter_error_mm if line.drop is not None else None
                where = f"{data.name}, {line.line.name}"
                yield Beyond(Costs.ACCURACY, where, "mm", found.deviation_mm, allowed, drop)


def _charted(connection: Connection, machine_id: int, named: Iterable[str], rule: Rule) -> Iterator[Beyond]:
    """Positions of the chart that test what the part, or one it fits with, is called, by the newest reading."""
    own = _tested_by(" ".join(_noun(name) for name in named))
    for test in charts.chart(connection, machine_id, rule) if own else ():
        if not own & _tested_by(test.name):
            continue
        for line in test.lines:
            read = line.after or line.found
            if read is not None and read.judgement is not None and read.verdict is Verdict.DOES_NOT:
                off = read.judgement.high_mm if read.value_mm > 0 else read.judgement.low_mm
                if off is not None:
                    says = f" {read.says}" if read.says else ""
                    where = f"test {test.number} {test.name}, {line.name},{says}"
                    allowed = line.allowed_words(line.unit)
                    yield Beyond(
                        Costs.ACCURACY, where, line.unit, abs(read.value_mm), abs(off), allowed=allowed
                    )


def _noun(name: str) -> str:
    """What a part is: the last word of its name, a spindle sheave being a sheave."""
    words = _WORD.findall(_FIRST_CLAUSE.sub("", name.lower()))
    return words[-1] if words else ""


def _tested_by(text: str) -> set[str]:
    words = set(_WORD.findall(text.lower()))
    return {group[0] for group in _TESTED if words.intersection(group)}


def _risks(connection: Connection, part: Row[int, str, str, int, str, str, str]) -> list[str]:
    about = "; ".join(filter(None, (part.name, part.material, part.condition, part.note)))
    found = [f"it may hold {hazard.word}, and stays in the machine" for hazard in suspected(about)]
    found += [
        f"it is {words}, and stays so" for key, words in rows_proposals.not_whole(connection, part.machine_id)
        if key == part.id
    ]  # fmt: skip
    closed_in = connection.execute(
        select(Tasks.title)
        .where(
            Tasks.part_id == part.id,
            Tasks.irreversible.is_(True),
            Tasks.state.in_([TaskState.OPEN, TaskState.UNDER_WAY]),
        )
        .order_by(Tasks.position, Tasks.id)
    ).scalars()
    return found + [f"after “{title}” it cannot be reached again" for title in closed_in]
