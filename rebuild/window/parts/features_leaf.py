"""A part's features with the reading that speaks for each, and the verdict on it in words."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_typed
from rebuild.window.desk.desk import Desk
from rebuild.window.parts.leaf import TableLeaf
from rebuild.window.readings.words import spec_from
from rebuild.work.readings import rows_grid as grid, rows_judged
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.records import rows_settings
from rebuild.work.records.rows_settings import verdict_rule


class FeaturesLeaf(TableLeaf):
    """Features, their spec, the newest reading and its verdict."""

    shows = (grid, rows_judged, rows_settings)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(
            desk,
            "Features of the part",
            ("Feature", "Station", "Kind", "Spec", "Current reading", "Stage", "Verdict", "Spec from"),
            parent,
        )
        self._keys: list[grid.Key] = []
        self.add_button("New feature…", self._add)
        self.add_button("Feature’s details…", self._edit)
        self.add_button("To the grid", self._go)
        self.add_button("Manual page", self._manual)
        self.table.doubleClicked.connect(lambda _index: self._go())
        desk.unit_changed.connect(self.look_again)

    def rows(self, part_id: int) -> list[tuple[int, tuple[str, ...]]]:
        store = self.desk.store
        rule = verdict_rule(store)
        with store.read() as connection:
            limits = instrument_limits(connection)
            asked = grid.Asked(self.desk.machine_id or 0, part_ids=frozenset((part_id,)))
            found = grid.rows(connection, grid.keys(connection, asked, rule, limits), rule, limits)
        self._keys = [row.key for row in found]
        return [(place, self._strings(row)) for place, row in enumerate(found)]

    def _strings(self, row: grid.GridRow) -> tuple[str, ...]:
        reading = row.speaking
        shown = stage = verdict = ""
        if reading is not None:
            size = Size(reading.typed, reading.unit, reading.value_mm)
            shown = show_typed(size, self.desk.unit_for(row.unit))
            stage = reading.stage.value
            verdict = row.judgement.verdict.value if row.judgement is not None else "no spec"
        return (
            row.feature,
            row.station,
            row.kind.value,
            row.spec_text,
            shown,
            stage,
            verdict,
            spec_from(row),
        )

    def _key(self) -> grid.Key | None:
        place = self.table.chosen()
        return self._keys[place] if place is not None and place < len(self._keys) else None

    def _add(self) -> None:
        if self.part_id is not None:
            from rebuild.window.forms.feature_dialog import add_feature

            add_feature(self.desk, self.window(), self.part_id)

    def _edit(self) -> None:
        key = self._key()
        if key is not None:
            from rebuild.window.forms.feature_dialog import FeatureDialog

            FeatureDialog(self.desk, key[0], self.window()).open()

    def _manual(self) -> None:
        key = self._key()
        if key is not None:
            from rebuild.window.documents.opening import open_of_feature

            open_of_feature(self.desk, key[0])

    def _go(self) -> None:
        key = self._key()
        if key is not None:
            self.desk.choose(key=key)
