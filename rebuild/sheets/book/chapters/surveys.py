"""Surveys of ways and plates: readings, straightness with its uncertainty, twist, flatness; before and after drawn."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.errors import RebuildError
from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.figures import Plate
from rebuild.sheets.book.flow import chapter_of, facts, prose, section, small, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.pages import MARGIN_MM
from rebuild.sheets.book.plot import Axes, Curve, Plot
from rebuild.sheets.book.ruled import Line
from rebuild.sheets.paper import MM, paper
from rebuild.trade.geometry.flatness import line_words
from rebuild.trade.geometry.steps import SlopeUnit, slope_um_per_m
from rebuild.trade.sizes.show import in_unit, show_both, show_length
from rebuild.words.surveys import SurveyMethod
from rebuild.work.book.rows import BookData, SurveyPair
from rebuild.work.surveys.data import LineResult, SurveyData, SurveyResult
from rebuild.work.surveys.stations import Column as StationColumn, stations_of
from rebuild.work.surveys.told import doubt_words, effect_words, small_words, told

#: Kept on one line.
PLUS_MINUS = "± U".replace(" ", "\N{NO-BREAK SPACE}")


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """One section a survey."""
    wide = (paper(options.paper).width_mm - 2 * MARGIN_MM) * MM
    content: list[Flowable] = []
    for pair in book.surveys:
        title = f"{pair.now.data.name}, {pair.now.data.stage.value}"
        content += section(title, f"survey-{pair.now.data.id}", _survey(pair, book.unit, wide))
    return chapter_of("Surveys of ways and plates", "surveys", content)


def _survey(pair: SurveyPair, unit: str, wide: float) -> list[Flowable]:
    now = pair.now
    found = [
        *_figure(pair, unit, wide),
        *facts(_facts(pair, unit)),
    ]  # the drawing never parts from its heading
    if now.trouble:
        found.append(prose(now.trouble))
    found += [prose(words) for words in told(now, unit)]
    found += _results(now, unit)
    found += _stations(now, unit)
    found += _readings(now.data)
    return found


def _facts(pair: SurveyPair, unit: str) -> list[tuple[str, str]]:
    now, data = pair.now, pair.now.data
    said = [
        ("Part", pair.part),
        ("Method", data.method.value),
        ("Step", show_both(data.step_mm, unit) if data.step_mm else ""),
        ("Limit", small_words(data.allowed_mm, unit) if data.allowed_mm is not None else ""),
        ("Only allowed", data.sense),
        ("Reference", now.reference.value if data.method is not SurveyMethod.ACROSS else ""),
    ]
    if now.data.instrument is not None:
        said.append(("Instrument", now.data.instrument.limit.name))
    if pair.before is not None:
        said.append(("Compared with", f"{pair.before.data.name}, {pair.before.data.stage.value}"))
    return said


def _results(now: SurveyResult, unit: str) -> list[Flowable]:
    rows = [_line(line, unit) for line in now.lines if line.found is not None]
    columns = (
        "Line",
        Column("Deviation", right=True),
        Column(PLUS_MINUS, right=True),
        "Shape",
        "Verdict",
        "Take off most",
        Column("Closure", right=True),
        "Effect on work",
    )
    troubles = [small(f"{line.line.name}: {line.trouble}") for line in now.lines if line.trouble]
    hints = [small(f"{line.line.name}: {line.hint}") for line in now.lines if line.hint]
    return [*table(columns, rows, strong=True), *troubles, *hints]


def _stations(now: SurveyResult, unit: str) -> list[Flowable]:
    """Metal to remove, twist and effect on the work, station by station."""
    held = stations_of(now)
    tiny = "µm" if unit == "mm" else "thou"
    columns = [one for one in held.columns if not one.name.endswith(", off the line")]
    names = [Column(f"{one.name} [{'mm/m' if one.slope else tiny}]", right=True) for one in columns]
    rows: list[Line] = [
        (show_length(at, unit, 0 if unit == "mm" else 2), *(_cell(one, row, tiny) for one in columns))
        for row, at in enumerate(held.at_mm)
    ]
    return table(("Station at", *names), rows, strong=True) if columns else []


def _cell(column: StationColumn, row: int, tiny: str) -> str:
    value = column.values[row]
    if value is None:
        return ""
    shown, places = (value, 3) if column.slope else (in_unit(value, tiny), 1 if tiny == "µm" else 2)
    return f"{round(shown, places) + 0.0:{'+' if column.signed else ''}.{places}f}"


def _line(line: LineResult, unit: str) -> Line:
    found, heights = line.found, line.heights
    assert found is not None
    assert heights is not None
    deepest = max(range(len(found.to_remove_mm)), key=lambda at: found.to_remove_mm[at])
    at = show_length(heights.at_mm[deepest], unit, 1 if unit == "mm" else 2)
    return (
        line.line.name,
        small_words(found.deviation_mm, unit),
        doubt_words(line, unit),
        line.shape_words or found.shape.value,
        line.verdict.value,
        f"{small_words(found.to_remove_mm[deepest], unit)} at {at}",
        f"{line.closure_um:+.1f} µm" if line.closure_um is not None else "",
        effect_words(line, unit),
    )


def _figure(pair: SurveyPair, unit: str, wide: float) -> list[Flowable]:
    tiny, along = ("µm", "mm") if unit == "mm" else ("thou", "in")
    plate = pair.now.plate
    if plate is not None:
        heights = {name: [in_unit(value, tiny) for value in line] for name, line in plate.heights_mm.items()}
        return [
            Plate(heights, wide * 0.8, 1 if unit == "mm" else 2),
            small(f"Heights above the lowest station [{tiny}]."),
        ]
    if pair.now.data.method is SurveyMethod.ACROSS:
        return _across(pair, along, wide)
    curves = [_curve(line, at, tiny, along, before=False) for at, line in enumerate(pair.now.lines)]
    if pair.before is not None:
        curves += [_curve(line, at, tiny, along, before=True) for at, line in enumerate(pair.before.lines)]
    drawn = [curve for curve in curves if curve is not None]
    if not drawn:
        return []
    axes = Axes(f"along the line [{along}]", f"from the reference line [{tiny}]")
    return [Plot(drawn, axes, wide, 150.0)]


def _curve(line: LineResult, at: int, tiny: str, along: str, *, before: bool) -> Curve | None:
    if line.heights is None or line.found is None:
        return None
    return Curve(
        f"{line_words(line.line.name)}{', before' if before else ''}",
        tuple(in_unit(value, along) for value in line.heights.at_mm),
        tuple(in_unit(value, tiny) for value in line.found.residual_mm),
        tuple(line.k * in_unit(value, tiny) for value in line.heights.u_mm),
        before,
        at,
    )


def _across(pair: SurveyPair, along: str, wide: float) -> list[Flowable]:
    """The cross level over the length, in mm/m."""
    curves = []
    for result, tail in ((pair.now, ""), (pair.before, ", before")):
        for line in result.lines if result is not None else ():
            slopes = _slopes(result.data, line) if result is not None else ()
            step = in_unit(result.data.step_mm or 1.0, along) if result is not None else 1.0
            xs = tuple(step * at for at in range(len(slopes)))
            curves.append(Curve(f"{line.line.name}{tail}", xs, slopes, faint=bool(tail), style=0))
    if not any(curve.xs for curve in curves):
        return []
    return [Plot(curves, Axes(f"along the ways [{along}]", "level across [mm/m]"), wide, 120.0)]


def _slopes(data: SurveyData, line: LineResult) -> tuple[float, ...]:
    try:
        unit = SlopeUnit(data.unit)
        return tuple(
            slope_um_per_m(value, unit, data.division_um_per_m) / 1000
            for _, value in line.line.runs.get(1, ())
        )
    except RebuildError:
        return ()


def _readings(data: SurveyData) -> list[Flowable]:
    """What was typed, run by run."""
    rows: list[Line] = [
        (
            line.name,
            "there" if run == 1 else "back" if run == 2 else str(run),
            "  ".join(text for text, _ in read),
        )
        for line in data.lines
        for run, read in sorted(line.runs.items())
    ]
    return table(("Line", "Run", f"As read [{data.unit}], in order along the line"), rows, strong=True)
