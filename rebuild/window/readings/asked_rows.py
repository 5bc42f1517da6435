"""Which rows the grid asks for: the machine, what is chosen on it, how far the filter reaches, the order."""

from __future__ import annotations

from rebuild.window.desk.desk import Desk
from rebuild.window.readings.filters import FilterBar, Reach
from rebuild.window.readings.headings import Headings
from rebuild.work.machines.rows_tree import subassemblies, with_descendants
from rebuild.work.readings.rows_grid import Asked


class AskedRows:
    """Reads the selection, the filters and the headings; what lies in a subassembly is kept."""

    def __init__(self, desk: Desk, filters: FilterBar, headings: Headings) -> None:
        self._desk, self._filters, self._headings = desk, filters, headings
        self._groups: dict[int, frozenset[int]] = {}

    def forget(self) -> None:
        """What lies in a subassembly may be another now."""
        self._groups.clear()

    def asked(self) -> Asked | None:
        """The rows wanted now; None without a machine."""
        machine_id = self._desk.machine_id
        if machine_id is None or not self._desk.is_open:
            return None
        chosen = self._desk.selection
        reach = self._filters.reach.currentData()
        parts = frozenset(chosen.part_ids) if reach is Reach.PARTS and chosen.part_ids else None
        within = None
        if reach is not Reach.MACHINE and parts is None and chosen.subassembly_id is not None:
            within = self._within(machine_id, chosen.subassembly_id)
        asked = Asked(
            machine_id, within, parts, sort=self._headings.sort, descending=self._headings.descending
        )
        return self._filters.apply(asked)

    def _within(self, machine_id: int, subassembly_id: int) -> frozenset[int]:
        """A subassembly and all that lies in it; kept, because every step of the entry line asks."""
        if subassembly_id not in self._groups:
            with self._desk.store.read() as connection:
                inside = with_descendants(subassemblies(connection, machine_id), subassembly_id)
            self._groups[subassembly_id] = frozenset(inside)
        return self._groups[subassembly_id]
