"""The steps and tools of a making sheet, edited after they were proposed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.making import MakingSheet, MakingStep, MakingTool
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.words.making import MakingProgress
from rebuild.work.making.rules import called, open_sheet
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.records.wall_clock import now

#: The history names a size by its name, without the braces that tie a step to it.
_BARE = str.maketrans("", "", "{}")


def add_step(store: Store, sheet_id: int, what: str, *, after_id: int | None = None) -> int:
    """A new step, after another one or last; returns its id. Raises BadEntry."""
    columns = read_typed("making_step", {"what": what})
    with store.act(Act.CHANGE_SHEET, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        steps = _steps(tx, sheet_id)
        places = [step.id for step in steps]
        at = places.index(after_id) + 1 if after_id in places else len(steps)
        made = MakingStep(sheet_id=sheet_id, position=at)
        set_columns(made, columns)
        tx.session.add(made)
        _number([*steps[:at], made, *steps[at:]])
        tx.session.flush()
        tx.subject = f"of {called(tx, sheet)}: step “{made.what.translate(_BARE)}”"
        return made.id


def move_step(store: Store, step_id: int, by: int) -> None:
    """Move a step up (-1) or down (+1) among the others; at an end it stays."""
    with store.act(Act.REORDER, "") as tx:
        row = tx.get(MakingStep, step_id, "making step")
        sheet = open_sheet(tx, row.sheet_id)
        steps = _steps(tx, row.sheet_id)
        here = steps.index(row)
        there = max(0, min(len(steps) - 1, here + by))
        steps.insert(there, steps.pop(here))
        _number(steps)
        tx.subject = f"of the steps of {called(tx, sheet)}"


def tick_step(store: Store, step_id: int, *, done: bool = True, at: dt.datetime | None = None) -> None:
    """Say that a step is done, or not yet."""
    with store.act(Act.TICK if done else Act.UNTICK, "") as tx:
        row = tx.get(MakingStep, step_id, "making step")
        open_sheet(tx, row.sheet_id)
        row.done_at = (at or now()) if done else None
        tx.subject = row.what.translate(_BARE)


def add_tool(store: Store, sheet_id: int, what: str, why: str = "") -> int:
    """A new tool to have before starting; returns its id. Raises BadEntry."""
    columns = read_typed("making_tool", {"what": what, "why": why})
    with store.act(Act.CHANGE_SHEET, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        held = tx.session.scalars(select(MakingTool).where(MakingTool.sheet_id == sheet_id)).all()
        made = MakingTool(sheet_id=sheet_id, position=len(held))
        set_columns(made, columns)
        tx.session.add(made)
        tx.session.flush()
        tx.subject = f"of {called(tx, sheet)}: tool {made.what.translate(_BARE)}"
        return made.id


def remove_sheet(store: Store, sheet_id: int, *, sure: bool = False) -> None:
    """Remove a sheet nothing has been made by yet; a released one only when ``sure``.

    Raises:
        BadEntry: it has been begun; or it is or was released and nobody said that it should go all the same.
    """
    with store.act(Act.REMOVE, "") as tx:
        sheet = tx.get(MakingSheet, sheet_id, "making sheet")
        if sheet.progress not in (MakingProgress.DRAFT, MakingProgress.RELEASED):
            raise BadEntry(
                f"is {sheet.progress.value} and belongs to the part's story.",
                where=called(tx, sheet),
                way_out="Scrap it instead.",
            )
        released = sheet.progress is MakingProgress.RELEASED
        if (released or sheet.issue) and not sure:
            raise BadEntry(
                f"{'is released' if released else f'was released as issue {sheet.issue}'}: shall the whole sheet go?",
                where=called(tx, sheet),
                way_out="Remove it all the same if so; else leave it and begin the work.",
            )
        tx.subject = f"of making sheet {called(tx, sheet)}"
        table = MakingSheet.table
        tx.connection.execute(table.delete().where(table.c.id == sheet_id))


def _steps(tx: Tx, sheet_id: int) -> list[MakingStep]:
    return list(
        tx.session.scalars(
            select(MakingStep)
            .where(MakingStep.sheet_id == sheet_id)
            .order_by(MakingStep.position, MakingStep.id)
        )
    )


def _number(steps: Sequence[MakingStep]) -> None:
    for position, step in enumerate(steps):
        if step.position != position:
            step.position = position
