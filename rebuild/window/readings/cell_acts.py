"""What is done from a grid cell: type, paste, copy, strike, open the working. Acts only; no widgets of its own."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Protocol

from PySide6.QtCore import QModelIndex, QPersistentModelIndex
from PySide6.QtGui import QGuiApplication

from rebuild.errors import Implausible, RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.readings.clipboard import to_cells, to_text
from rebuild.window.readings.columns import HEADINGS, Column, stage_of
from rebuild.window.readings.model import GridModel
from rebuild.window.readings.paste_landing import (
    HowTaken,
    Landed,
    entry_for,
    in_units_named,
    land,
    stages_named,
)
from rebuild.window.readings.shown import copy_text
from rebuild.window.readings.words import reading_at
from rebuild.words.counted import counted
from rebuild.words.readings import Stage
from rebuild.work.landings.stored import How, Stored, replaces
from rebuild.work.readings.entry import Pasted
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.readings.pasted import heading_lines, headings_of, unit_named, units_said
from rebuild.work.readings.rows_destination import judged_reading
from rebuild.work.readings.rows_grid import Key, ReadingRow
from rebuild.work.readings.rows_paste_block import look_over, title_of
from rebuild.work.records.rows_kept import kept_entries
from rebuild.work.records.rows_settings import decimal_comma, verdict_rule

_Index = QModelIndex | QPersistentModelIndex


class Takes(Protocol):
    """How the entry line takes a value: its landing on a row at a stage, and how it is read."""

    @property
    def how(self) -> How: ...

    def landing_on(self, key: Key, stage: Stage | None) -> Landing | None: ...


class CellActs:
    """Carries typed and pasted text from cells to the acts, and asks where the acts ask."""

    def __init__(
        self,
        desk: Desk,
        model: GridModel,
        stored: Callable[[Stored], None] = lambda _one: None,
        pasted: Callable[[Stored], None] = lambda _column: None,
    ) -> None:
        self._desk = desk
        self._model = model
        self._told, self._pasted = stored, pasted
        self.line: Takes | None = None
        self.how_taken: HowTaken = entry_for
        self._held: tuple[Key, int, str] | None = None
        self._kept: dict[tuple[Key, int], int] = {}

    # Typing

    def take(self, index: _Index, text: str, seen: str) -> bool:
        """Store what was typed into a spec or stage cell; False leaves it with its editor, sentence said.

        A reading held as implausible is stored when the same text comes again. ``seen`` is what stood in
        the cell when typing began.
        """
        if not index.isValid():
            return False
        key, column = self._model.keys[index.row()], index.column()
        try:
            self._store(key, column, text.strip(), seen)
        except Implausible as trouble:
            self._held = (key, column, text.strip())
            self._desk.say(str(trouble), Say.ASK)
            return False
        except RebuildError as trouble:
            self._desk.say(str(trouble), Say.TROUBLE)
            return False
        self._held = None
        self._settle(key, column)
        return True

    def _store(self, key: Key, column: int, text: str, seen: str) -> None:
        from rebuild.work.landings.acts import put
        from rebuild.work.readings.acts_features import set_spec

        stage = stage_of(column)
        if stage is None:
            set_spec(self._desk.store, [key[0]], text, seen=seen)
        elif text:
            confirmed = self._held == (key, column, text)
            how = self.line.how if self.line is not None else How()
            stored = put(self._desk.store, text, self._landing(key, stage), how, confirmed=confirmed)
            self._desk.remember(stored)
            self._told(stored)
            if stored.replaced:
                self._desk.say(f"{stored.typed} stored on {stored.landing.words}.{replaces(stored)}")

    def _landing(self, key: Key, stage: Stage) -> Landing:
        landing = self.line.landing_on(key, stage) if self.line is not None else None
        return landing or Landing(Surface.GRID, key, stage.value, words=stage.value)

    def park(self, index: _Index, text: str | None) -> None:
        """Keep a text in its cell that could not be stored, and in the kept entries; None gives it up."""
        if not index.isValid() or index.row() >= len(self._model.keys):
            return
        key, column = self._model.keys[index.row()], index.column()
        if text is None:
            self._settle(key, column)
            return
        self._model.keep_draft(key, column, text)
        shown = self._model.prepared_at(index.row())
        where = title_of(shown.row) if shown is not None else "a measurement"
        meant_for = f"{where}, {HEADINGS[Column(column)].title}"
        self._settle_kept(key, column)
        self._desk.attempt(lambda: self._keep(key, column, meant_for, text))

    def _keep(self, key: Key, column: int, meant_for: str, text: str) -> None:
        store = self._desk.store
        store.keep_entry(meant_for, text, "could not be stored when its cell was left")
        with store.read() as connection:
            self._kept[key, column] = kept_entries(connection)[0].id

    def _settle(self, key: Key, column: int) -> None:
        """A cell's text found its place or was given up."""
        self._model.keep_draft(key, column, None)
        self._settle_kept(key, column)

    def _settle_kept(self, key: Key, column: int) -> None:
        kept = self._kept.pop((key, column), None)
        if kept is not None:
            self._desk.attempt(lambda: self._desk.store.settle_kept(kept))

    # Clipboard

    def copy(
        self, cells: Sequence[tuple[int, int]], columns: Sequence[int], *, headings: bool = False
    ) -> None:
        """Put cells (row, column) on the clipboard, columns in the order given."""
        if not cells:
            return
        chosen = set(cells)
        wanted = [column for column in columns if any(cell[1] == column for cell in chosen)]
        lines = [[HEADINGS[Column(column)].title for column in wanted]] if headings else []
        for place in sorted({cell[0] for cell in chosen}):
            shown = self._model.shown_at(place)
            if shown is not None:
                lines.append(
                    [copy_text(shown, column) if (place, column) in chosen else "" for column in wanted]
                )
        QGuiApplication.clipboard().setText(to_text(lines))
        self._desk.say(f"{counted(len(lines) - headings, 'row')} copied.")

    def paste(self, at: _Index, columns: Sequence[int], also: Sequence[Key]) -> Landed | None:
        """Store the clipboard's block from a cell on; a block that wants a look comes back, nothing stored.

        Args:
            at: the cell in hand.
            columns: the visible columns from there on.
            also: rows whose spec cell is chosen; one pasted spec goes to all of them.
        """
        from rebuild.work.readings.acts import paste_readings

        block = to_cells(QGuiApplication.clipboard().text())
        if not block or not at.isValid():
            self._desk.say("Copy cells from a spreadsheet first, then choose the first cell here.", Say.ASK)
            return None
        keys = self._model.keys[at.row() :]
        if at.column() == Column.SPEC and all(len(line) == 1 for line in block):
            self._paste_specs([line[0] for line in block], keys, also)
            return None
        above = heading_lines(block)
        heading = headings_of(block[:above])
        units = [unit_named(text) for text in heading]
        block = [in_units_named(line, units) for line in block[above:]]
        named = stages_named(heading)
        landed = land(block, keys, columns, self.how_taken, named)
        if self._wants_a_look(landed):
            return landed
        stored = self._desk.attempt(lambda: paste_readings(self._desk.store, landed.cells))
        if stored is not None:
            self.remember_column(landed.cells, stored)
            told = " and ".join(dict.fromkeys(stage.value for stage in named if stage is not None))
            said = f"says “{told}”: there they went" if told else "was left out"
            left = f" The heading “{' '.join(heading)}” {said}{units_said(units)}." if heading else ""
            self._desk.say(
                f"{counted(len(stored), 'reading')} stored.{left} Undo takes them back in one step."
            )
        return None

    def remember_column(self, cells: Sequence[Pasted], ids: Sequence[int]) -> None:
        """A pasted column is one of the last values: moved and taken back whole, by one key."""
        kept = [cell for cell in cells if cell.typed.strip()]
        column = [
            Stored(self._landing((cell.entry.feature_id, cell.entry.station_id or 0), cell.entry.stage),
                   cell.typed.strip(), "reading", key)
            for cell, key in zip(kept, ids, strict=True)
        ]  # fmt: skip
        if column:
            whole = replace(column[0], behind=tuple(column[1:]))
            self._desk.remember(whole)
            self._pasted(whole)

    def _wants_a_look(self, landed: Landed) -> bool:
        if landed.left_over:
            return True
        comma = decimal_comma(self._desk.store)
        with self._desk.store.read() as connection:
            return not all(landing.clear for landing in look_over(connection, landed.cells, comma))

    def _paste_specs(self, texts: Sequence[str], keys: Sequence[Key], also: Sequence[Key]) -> None:
        from rebuild.work.readings.acts_features import set_spec

        store = self._desk.store
        if len(texts) == 1:
            features = list(dict.fromkeys(key[0] for key in (*keys[:1], *also)))
            self._desk.attempt(lambda: set_spec(store, features, texts[0]), f"Spec {texts[0]} pasted.")
            return
        by_feature = {key[0]: text for key, text in zip(keys, texts, strict=False)}
        for feature, text in by_feature.items():
            try:
                set_spec(store, [feature], text)
            except RebuildError as trouble:
                self._desk.say(f"{trouble} The specs above it were pasted.", Say.TROUBLE)
                return
        self._desk.say(f"Specs of {len(by_feature)} features pasted.")

    # Looking closer

    def reading_of(self, index: _Index) -> tuple[ReadingRow, Stage, str] | None:
        """The reading of a stage cell (the speaking one elsewhere), its stage and its row in words."""
        shown = self._model.shown_at(index.row()) if index.isValid() else None
        if shown is None:
            return None
        stage = stage_of(index.column())
        reading = reading_at(shown.row, stage) if stage is not None else shown.row.speaking
        return (reading, reading.stage, title_of(shown.row)) if reading is not None else None

    def open_working(self, index: _Index) -> None:
        """Show how the verdict on a cell's reading was reached."""
        found = self.reading_of(index)
        if found is None:
            self._desk.say("Nothing has been read here yet, so there is no working.")
            return
        rule = verdict_rule(self._desk.store)

        def judge() -> None:
            with self._desk.store.read() as connection:
                self._desk.ask_working(judged_reading(connection, found[0].id, rule).working)

        self._desk.attempt(judge)
