"""The first run: what was looked at, the run-in with its temperatures, cut tests, what stands or was gone on with."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, prose, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.pages import MARGIN_MM
from rebuild.sheets.book.plot import Axes, Curve, Plot
from rebuild.sheets.book.ruled import Line
from rebuild.sheets.paper import MM, paper
from rebuild.trade.results.cautions import caution, topics
from rebuild.work.book.rows import BookData
from rebuild.work.records.field import show_day, show_exact
from rebuild.work.run_in.rows import RunRow


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """Checks, run-in, cut tests, and what keeps it from power."""
    wide = (paper(options.paper).width_mm - 2 * MARGIN_MM) * MM
    content = [
        *section("Looked at by hand", "checks", _checks(book)),
        *section("Run-in", "run-in", _run(book, wide)),
        *section("Cut tests", "cuts", _cuts(book)),
        *section("Still open before power", "before-power", _standing(book)),
        *section("Gone on all the same", "gone-on", _gone_on(book)),
        *section("Done more than once", "attempts", _attempts(book)),
    ]
    return chapter_of("Commissioning", "commissioning", content)


def _checks(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (
            row.due.value,
            row.text,
            "by licensed practice" if row.licensed else "",
            show_exact(row.done_at) if row.done_at is not None else "not yet",
            row.done_by,
            row.note,
        )
        for row in book.tried.checks
    ]
    known = set(topics())
    said = dict.fromkeys(row.topic for row in book.tried.checks if row.topic in known)
    notes = [prose(caution(topic).line(), slanted=True) for topic in said]
    return [*table(("When", "What", "Who may", "Done", "By", "Note"), rows), *notes] if rows else []


def _run(book: BookData, wide: float) -> list[Flowable]:
    rows: list[Line] = [
        (
            row.name,
            f"{row.speed_rpm:g}" if row.speed_rpm is not None else "",
            f"{row.planned_min:g}" if row.planned_min is not None else "",
            _limit(row),
            row.state.value,
            show_exact(row.started_at) if row.started_at is not None else "",
            "\n".join(f"{course.bearing}: {course.heated.value.text}" for course in row.courses),
            "\n".join(filter(None, (row.noise, row.oil_seen, row.note))),
        )
        for row in book.tried.run
    ]
    columns = (
        "Step",
        Column("Turns or strokes a minute", right=True),
        Column("Minutes", right=True),
        "Limit",
        "State",
        "On",
        "Bearings",
        "Heard, oil seen, note",
    )
    found = table(columns, rows, strong=True)
    for row in book.tried.run:
        found += _temperatures(row, wide)
    return found


def _limit(row: RunRow) -> str:
    if row.limit_c is None:
        return ""
    origin = " ".join(filter(None, (row.limit_origin, f"({row.limit_status.value})")))
    return f"{row.limit_c:g} °C\n{origin}"


def _temperatures(row: RunRow, wide: float) -> list[Flowable]:
    curves = [
        Curve(course.bearing, course.minutes, course.celsius) for course in row.courses if course.minutes
    ]
    if not curves:
        return []
    levels = ((row.limit_c, f"limit {row.limit_c:g} °C"),) if row.limit_c is not None else ()
    axes = Axes("minutes into the step", "bearing [°C]", levels)
    return section(f"{row.name}: temperatures", f"run-{row.id}", [Plot(curves, axes, wide, 120.0)], level=3)


def _cuts(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (
            show_day(row.taken_at),
            f"{row.kind.value}, {row.stage.value}",
            row.found.text,
            "\n".join(filter(None, (row.allowed, row.origin))),
            row.judgement.verdict.value if row.judgement is not None else "",
            "\n".join(filter(None, (row.instrument, row.adjusted and f"then: {row.adjusted}", row.note))),
        )
        for row in book.tried.cuts
    ]
    return table(("On", "Test", "Found", "Limit", "Verdict", "With, and what was turned"), rows)


def _standing(book: BookData) -> list[Flowable]:
    rows: list[Line] = [(row.sort, row.text) for row in book.tried.standing]
    return table(("Sort", "What is not proved or not tight yet"), rows, strong=True)


def _gone_on(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (
            show_exact(row.at),
            f"{row.gate.value}\n{row.what}",
            row.against,
            "\n".join(filter(None, (row.reason, row.said_by))),
            f"closed {show_exact(row.closed_at)}\n{row.closed_note}" if row.closed_at is not None else "open",
        )
        for row in book.tried.gone_on
    ]
    return table(("On", "What", "What stood against it", "Why, and who", "Since"), rows, strong=True)


def _attempts(book: BookData) -> list[Flowable]:
    rows: list[Line] = [(row.title, row.words) for row in book.tried.step_attempts]
    return table(("Step", "Earlier attempts"), rows, strong=True)
