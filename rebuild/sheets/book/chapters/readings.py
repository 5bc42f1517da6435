"""Every reading, as typed, by subassembly and part, with the verdict on the one that speaks; and the instruments."""

from __future__ import annotations

from itertools import groupby

from reportlab.platypus import Flowable

from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, prose, section, table, warmth
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Band, Line
from rebuild.trade.limits.spec_unit import names_unit
from rebuild.trade.sizes.show import DECIMALS, show_length
from rebuild.work.book.rows import BookData
from rebuild.work.book.rows_parts import PartPage
from rebuild.work.book.rows_readings import FeatureLine, ReadLine
from rebuild.work.records.field import show_day

_COLUMNS = (
    Column("Station", mm=19), Column("Stage", mm=14), Column("Read", mm=25), Column("With", mm=40),
    Column("On", mm=19), Column("°C", right=True, mm=6), Column("Verdict and notes"),
)  # fmt: skip


#: Keeps a figure with its sign and unit on one line.
NO_BREAK = "\N{NO-BREAK SPACE}"


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """Tables by subassembly; a reading struck out stays, with the reason."""
    by_part: dict[int, list[FeatureLine]] = {}
    for line in book.features:
        by_part.setdefault(line.part_id, []).append(line)
    content: list[Flowable] = []
    for group in book.groups:
        rows = [row for part in group.parts for row in _part(part, by_part.get(part.id, []))]
        content += section(group.title, f"readings-{group.id}", table(_COLUMNS, rows))
    content += section("Instruments", "instruments", _instruments(book))
    if content:
        content.insert(
            0,
            prose(
                f"Limits are those of the feature. Verdicts by {book.rule.value}; the uncertainty after ± is "
                "expanded (about 95 %). The current reading, the newest at the latest stage, speaks for a feature."
            ),
        )
    return chapter_of("Readings and verdicts", "readings", content)


def _part(part: PartPage, lines: list[FeatureLine]) -> list[Line]:
    if not lines:
        return []
    found: list[Line] = [Band(part.title, f"part-{part.id}")]
    for _, stations in groupby(lines, key=lambda line: line.feature_id):
        listed = list(stations)
        found.append(Band(_head(listed[0]), inner=True))
        found += [row for line in listed for row in _station(line)]
    return found


def _head(line: FeatureLine) -> str:
    """``front journal: 60 -0.010/-0.029 mm (drawing), plus is high``."""
    if not line.spec:
        return f"{line.feature}: no limits" + (f"; {line.sense}" if line.sense else "")
    origin = f" ({line.origin.value})" if line.origin is not None else ""
    unit = "" if names_unit(line.spec) else f" {line.unit}"
    return f"{line.feature}: {line.spec}{unit}{origin}" + (f"; {line.sense}" if line.sense else "")


def _station(line: FeatureLine) -> list[Line]:
    if not line.readings:
        return [(line.station, "", "not read", "", "", "", "")]
    return [
        (
            line.station if at == 0 else "",
            read.stage.value,
            f"({read.words})" if read.struck else read.words,
            read.instrument,
            show_day(read.taken_at),
            warmth(read.temperature_c),
            _verdict(line, read),
        )
        for at, read in enumerate(line.readings)
    ]


def _verdict(line: FeatureLine, read: ReadLine) -> str:
    said = [f"deleted: {read.struck}"] if read.struck else []
    judged = line.judgement
    if read.speaks and judged is not None:
        known = judged.U_mm is not None and judged.complete
        places = DECIMALS.get(line.unit, 3) + 1
        bar = f", ± {show_length(judged.U_mm or 0.0, line.unit, places)}" if known else ", ± not known"
        bar = bar.replace(" ", NO_BREAK).replace(NO_BREAK, " ", 1)
        said.append(f"{judged.verdict.value}{bar}")
    if read.by:
        said.append(f"by {read.by}")
    said.append(read.note)
    return "\n".join(filter(None, said))


def _instruments(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (
            one.name,
            one.kind.value,
            one.resolution,
            one.limit or "not known",
            one.source,
            show_day(one.calibrated_on) if one.calibrated_on is not None else "",
        )
        for one in book.instruments
    ]
    return table(
        ("Instrument", "Kind", "Reads to", "Limit of error", "Known from", "Calibrated"), rows, strong=True
    )
