"""What can be added, described for ``AddDialog``: machine, subassembly, part, step, and shop things."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from rebuild.trade.limits.instrument_words import instrument_in
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.record_form import fields_named
from rebuild.words.places import PlaceKind
from rebuild.words.steps import TaskKind
from rebuild.work.machines import acts as identify, rows_parts as part_sheet, rows_tree as tree
from rebuild.work.machines.rows_card import cards, unit_of
from rebuild.work.readings import acts_features as spec
from rebuild.work.records.fields import FIELDS
from rebuild.work.steps import acts as tasks

_PART_FIRST = (
    "code",
    "name",
    "quantity",
    "material",
    "origin",
    "identity",
    "suspects",
    "place_id",
    "stamped",
)
_TASK_FIRST = ("title", "kind", "part_id", "low_min", "likely_min", "high_min", "irreversible", "torque_wanted",
               "place", "tools", "note")  # fmt: skip


def new_subassembly(desk: Desk, parent: QWidget | None) -> AddDialog | None:
    """Add a subassembly to the machine."""
    return _subassembly(desk, parent, None)


def new_inner_subassembly(desk: Desk, parent: QWidget | None) -> AddDialog | None:
    """Add a subassembly inside the chosen one."""
    return _subassembly(desk, parent, desk.selection.subassembly_id)


def _subassembly(desk: Desk, parent: QWidget | None, under: int | None) -> AddDialog | None:
    machine_id = _machine(desk)
    if machine_id is None:
        return None
    return _open(
        desk,
        parent,
        Adding(
            "New subassembly",
            where_it_goes(desk, under),
            FIELDS["subassembly"],
            act=lambda typed: identify.add_subassembly(
                desk.store,
                machine_id,
                typed.pop("name", ""),
                typed.pop("code", ""),
                parent_id=under,
                typed=typed,
            ),
            after=lambda key: desk.choose(subassembly_id=key, part_ids=()),
        ),
    )


def new_part(desk: Desk, parent: QWidget | None) -> AddDialog | None:
    """Add a part to the chosen subassembly, or to the loose parts when none is chosen."""
    return _part(desk, parent, desk.selection.subassembly_id)


def new_loose_part(desk: Desk, parent: QWidget | None) -> AddDialog | None:
    """Add a part nobody has placed yet."""
    return _part(desk, parent, None)


def _part(desk: Desk, parent: QWidget | None, under: int | None) -> AddDialog | None:
    machine_id = _machine(desk)
    if machine_id is None:
        return None

    last: dict[str, str] = {}

    def add(typed: dict[str, str]) -> int:
        last["place_id"] = typed.get("place_id", "")
        return identify.add_part(
            desk.store, machine_id, under, typed.pop("name", ""), typed.pop("code", ""), typed=typed
        )

    def prefill() -> dict[str, str]:
        identity = "unknown" if under is None else "confirmed"
        return {
            "quantity": "1",
            "identity": identity,
            "origin": "original",
            "code": _free_code(desk, machine_id, under),
            **last,
        }

    further = [field for field in FIELDS["part"] if field.name not in _PART_FIRST]
    further = [field for field in further if not field.name.startswith("decision")]
    return _open(
        desk,
        parent,
        Adding(
            "New part",
            where_it_goes(desk, under),
            fields_named("part", _PART_FIRST),
            further=further,
            act=add,
            after=lambda key: desk.choose(subassembly_id=under, part_ids=(key,)),
            prefill=prefill,
        ),
    )


def new_step(desk: Desk, parent: QWidget | None) -> AddDialog | None:
    """Add a step to the chosen subassembly."""
    return _step(desk, parent, None)


def new_step_for_part(desk: Desk, parent: QWidget | None) -> AddDialog | None:
    """Add a step for the chosen part."""
    return _step(desk, parent, desk.selection.part_ids[0])


def _step(desk: Desk, parent: QWidget | None, part_id: int | None) -> AddDialog | None:
    machine_id, under = _machine(desk), desk.selection.subassembly_id
    if machine_id is None:
        return None

    def act(typed: dict[str, str]) -> int:
        kind = TaskKind(typed.pop("kind", TaskKind.OTHER.value))
        part = typed.pop("part_id", "")
        if part and not part.isdigit():
            typed["part_id"] = part
        key = int(part) if part.isdigit() else None
        return tasks.add_task(
            desk.store, machine_id, under, typed.pop("title", ""), kind, part_id=key, typed=typed
        )

    return _open(
        desk,
        parent,
        Adding(
            "New step",
            where_it_goes(desk, under),
            fields_named("task", _TASK_FIRST),
            act=act,
            after=lambda key: desk.choose(task_ids=(key,)),
            prefill=lambda: {"kind": "other", "irreversible": "no", "part_id": str(part_id or "")},
        ),
    )


def new_instrument(desk: Desk, parent: QWidget | None, after: Callable[[int], None]) -> AddDialog:
    """Add an instrument; it opens in the machine's unit, and its kind follows its name until one is chosen."""
    with desk.store.read() as connection:
        unit = unit_of(connection, desk.machine_id)
    dialog = _open(
        desk,
        parent,
        Adding(
            "New instrument",
            "Give its error limit from its certificate; or add it, then Shop, Instruments, Limit from a standard.",
            FIELDS["instrument"],
            prefill=lambda: {"coverage_k": "2", "unit": unit},
            after=after,
            act=lambda typed: spec.add_instrument(desk.store, typed.pop("name", ""), typed),
        ),
    )
    name, kind = dialog.form.boxes["name"], dialog.form.boxes["kind"]

    def read() -> None:
        found = instrument_in(name.editor.typed())
        if found is not None and not kind.is_touched:
            kind.editor.put(found.value)

    name.editor.touched.connect(read)
    return dialog


def new_place(desk: Desk, parent: QWidget | None, after: Callable[[int], None]) -> AddDialog:
    """Add a bag, tote, shelf, bath or shop."""

    def act(typed: dict[str, str]) -> int:
        kind = PlaceKind(typed.get("kind", PlaceKind.OTHER.value))
        return identify.add_place(desk.store, typed.get("name", ""), kind, typed.get("note", ""))

    return _open(
        desk,
        parent,
        Adding(
            "New place",
            "",
            fields_named("place", ("name", "kind", "note")),
            act=act,
            after=after,
            prefill=lambda: {"kind": "tote"},
        ),
    )


def join_in_set(desk: Desk, parent: QWidget | None) -> AddDialog | None:
    """Add a set of the chosen parts, which must stay together."""
    return new_matched_set(desk, parent, desk.selection.part_ids)


def new_matched_set(
    desk: Desk,
    parent: QWidget | None,
    part_ids: tuple[int, ...] = (),
    after: Callable[[int], None] | None = None,
) -> AddDialog | None:
    """Add a set of parts that must stay together."""
    machine_id = _machine(desk)
    if machine_id is None:
        return None
    with desk.store.read() as connection:
        named = part_sheet.names(connection, part_ids)
    under = f"Of: {'; '.join(named)}" if named else "Parts join it in their details, or choose them first."
    return _open(
        desk,
        parent,
        Adding(
            "New matched set",
            under,
            FIELDS["matched_set"],
            after=after or (lambda _key: None),
            again=not part_ids,
            act=lambda typed: identify.add_matched_set(
                desk.store, machine_id, typed.get("name", ""), part_ids, typed.get("note", "")
            ),
        ),
    )


def _open(desk: Desk, parent: QWidget | None, adding: Adding) -> AddDialog:
    dialog = AddDialog(desk, adding, parent)
    dialog.open()
    return dialog


def _machine(desk: Desk) -> int | None:
    if desk.machine_id is None:
        desk.say("There is no machine yet. Add one first (Ctrl+M).")
    return desk.machine_id


def where_it_goes(desk: Desk, subassembly_id: int | None) -> str:
    """What a dialog says of the place of what it adds: its subassembly, or the machine alone."""
    if desk.machine_id is None:
        return ""
    with desk.store.read() as connection:
        for row in tree.subassemblies(connection, desk.machine_id):
            if row.id == subassembly_id:
                return f"In {row.code} {row.name}".strip()
        for machine in cards(connection):
            if machine.id == desk.machine_id:
                return f"On {machine.name}, in no subassembly"
    return ""


def _free_code(desk: Desk, machine_id: int, subassembly_id: int | None) -> str:
    with desk.store.read() as connection:
        prefix = next(
            (row.code for row in tree.subassemblies(connection, machine_id) if row.id == subassembly_id), ""
        )
        return part_sheet.next_code(prefix, part_sheet.codes(connection, machine_id))
