"""The test chart: each test with its set-up, what is allowed and where that comes from, as found and after."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.figures import Beside, Sketch
from rebuild.sheets.book.flow import chapter_of, prose, section, small, table, warmth
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line
from rebuild.sheets.paper import MM
from rebuild.trade.charts.set_up_sketches import sketch
from rebuild.words.charts import ChartStage
from rebuild.work.book.rows import BookData
from rebuild.work.charts.rows_tests import LineRow, ReadRow, TestRow, shown_value
from rebuild.work.records.field import show_day

_SKETCH_MM = 48.0


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """One section a test, in order."""
    content: list[Flowable] = []
    for test in book.tried.chart:
        content += section(test.called, f"chart-{test.id}", _test(test))
    if content:
        serial = book.identity.get("serial", "")
        tested = f"{book.name}, serial number {serial}. " if serial else f"{book.name}. "
        content.insert(
            0,
            prose(
                f"{tested}Many printed limits are handed on from memory. Each limit says how far it can be trusted; "
                "the words after a figure say which way it may be off."
            ),
        )
    return chapter_of("Test chart", "test-chart", content)


def _test(test: TestRow) -> list[Flowable]:
    rows: list[Line] = [_position(line) for line in test.lines]
    columns = ("Position", "Limit", "As found", "After", "Source")
    words: list[Flowable] = [small(text) for text in (test.set_up, test.note, *test.warnings) if text.strip()]
    right = [*table(columns, rows, strong=True), *words]
    drawing = sketch(test.sketch)
    if drawing is None or not right:
        return right
    return [Beside(Sketch(drawing, _SKETCH_MM * MM), right, _SKETCH_MM * MM)]


def _position(line: LineRow) -> Line:
    return (
        line.name,
        line.allowed_words(line.unit),
        _read(line, line.newest(ChartStage.AS_FOUND)),
        _read(line, line.newest(ChartStage.AFTER)),
        "\n".join(
            filter(None, (line.origin, line.status.value if line.limit.allowed_mm is not None else ""))
        ),
    )


def _read(line: LineRow, row: ReadRow | None) -> str:
    if row is None:
        return ""
    degrees = warmth(row.temperature_c)
    warm = f"{degrees} °C" if degrees else ""
    judged = row.verdict.value if row.judgement is not None else row.trouble
    said = (
        shown_value(row, line.unit, line.unit),
        judged,
        row.wrong_way,
        ", ".join(filter(None, (row.instrument, show_day(row.taken_at), warm))),
        row.adjusted and f"then: {row.adjusted}",
        row.note,
    )
    return "\n".join(filter(None, said))
