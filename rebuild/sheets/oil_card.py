"""The oil card on one printed page: the map with its numbers, every point, the oils to have in hand."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.sheets.paper import A4, MM, Heading, Paper, build
from rebuild.sheets.strokes_pdf import sketch_flowable
from rebuild.sheets.table import cell, dense, on_one_page
from rebuild.trade.lubrication.machine_outline import outline
from rebuild.trade.results.cautions import caution
from rebuild.words.counted import counted
from rebuild.words.lubrication import FlowProof, OilPointKind
from rebuild.work.lubrication.rows import CARRIES, OilCard, OilRow, oil_card
from rebuild.work.records.field import show_day

if TYPE_CHECKING:
    from rebuild.store.store import Store

_HEAD = ("No.", "Point", "Feeds", "Old oil", "Oil now", "Quantity", "Interval", "Flow")
_SHARES = (0.05, 0.12, 0.21, 0.13, 0.17, 0.1, 0.1, 0.12)
_MAP_SHARE = 0.62


def write_oil_card(
    store: Store, machine_id: int, target: Path, on: Paper = A4, *, printed: dt.datetime | None = None
) -> int:
    """Print the oil card of a machine; returns how many pages it took (one, unless it is very long).

    Raises:
        FileTrouble: it cannot be written there.
    """
    with store.read() as connection:
        card = oil_card(connection, machine_id)
    points = [row for row in card.rows if row.kind not in CARRIES]
    lacking = len(card.not_proved)
    mark = f"{lacking} points not proved" if lacking else ""
    heading = Heading(
        "Oil card",
        card.machine,
        (card.kind.value, f"{counted(len(points), 'point')}"),
        mark,
        f"Oil card · {card.machine}",
    )
    return on_one_page(lambda size: build(target, heading, story(card, size, on), on, printed=printed))


def story(card: OilCard, size: float, on: Paper = A4) -> list[Any]:
    """Map, table, oils and cautions, in letters of ``size`` points."""
    from reportlab.platypus import Spacer

    wide = on.inside_mm
    marks = [(row.x, row.y, row.number) for row in card.rows if row.x is not None and row.y is not None]
    shape = sketch_flowable(outline(card.kind.value), wide * _MAP_SHARE, marks)
    shape.hAlign = "CENTER"
    rows = [_cells(row) for row in card.rows if row.kind not in CARRIES]
    told: list[Any] = [
        shape,
        Spacer(0, 1.5 * MM),
        dense(_HEAD, rows, [share * wide for share in _SHARES], size),
    ]
    told.append(Spacer(0, 1.5 * MM))
    small = size - 0.4
    oils = "; ".join(f"{oil} ({count})" for oil, count in card.oils)
    told.append(cell(f"Oils to have in hand, with the points each goes to: {oils}.", small))
    told += [cell(f"▸ {found.text}", small, bold=True) for found in card.findings]
    said = caution("ep-and-bronze")
    told.append(
        cell(
            "Grades are the customary ones for the old figures; the machine's own manual decides. "
            f"{said.title}: {said.text} {said.defer_to}",
            small - 0.6,
            grey=True,
        )
    )
    return told


def _cells(row: OilRow) -> list[Any]:
    meter = row.kind is OilPointKind.METER
    quantity = f"{row.dose_ml:g} mL a stroke" if meter and row.dose_ml else row.quantity
    return [
        row.number,
        row.kind.value,
        row.feeds,
        row.old_oil,
        row.oil,
        quantity,
        row.interval,
        _flow(row),
    ]


def _flow(row: OilRow) -> str:
    """The state of its flow, short, with room to write where it is still to be seen."""
    if row.starved_by is not None:
        return f"starves behind {row.starved_by.number}"
    if row.proof is FlowProof.BLOCKED:
        return row.proof.value
    if row.lacks:
        return "seen …………"
    if row.proof is FlowProof.PROVED:
        return f"seen {show_day(row.proved_at)}" if row.proved_at is not None else "seen"
    return row.flow
