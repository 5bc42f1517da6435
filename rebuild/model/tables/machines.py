"""Machines and their subassemblies."""

from __future__ import annotations

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_count, as_text, goes_with, maybe, one_of
from rebuild.words.machines import MachineKind, Scope


class Machines(Journaled, name="machine"):
    """One machine being brought back."""

    name: Cell[str] = as_text()
    kind: Cell[MachineKind] = one_of(MachineKind, MachineKind.OTHER)
    maker: Cell[str] = as_text("")
    model: Cell[str] = as_text("")
    serial: Cell[str] = as_text("")
    serial_where: Cell[str] = as_text("")
    stampings: Cell[str] = as_text("")
    year: Cell[str] = as_text("")
    year_basis: Cell[str] = as_text("")
    unit: Cell[str] = as_text("mm")
    capacity: Cell[str] = as_text("")
    weight: Cell[str] = as_text("")
    power_found: Cell[str] = as_text("")
    power_planned: Cell[str] = as_text("")
    scope: Cell[Scope] = one_of(Scope, Scope.REFURBISH)
    location: Cell[str] = as_text("")
    bought: Cell[str] = as_text("")
    story: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class Subassemblies(Journaled, name="subassembly"):
    """A group of parts that comes off and goes on together; may nest."""

    indexes = (("ix_subassembly_machine_position", "machine_id", "parent_id", "position"),)

    machine_id: Cell[int] = goes_with("machine")
    parent_id: Cell[int | None] = maybe(goes_with("subassembly", index=True))
    code: Cell[str] = as_text("")
    name: Cell[str] = as_text()
    scope: Cell[Scope | None] = maybe(one_of(Scope))
    manual_page: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)
