"""What menu lines do that need only the desk and a window to stand on. Dialogs are imported when asked for."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk

Act = Callable[[Desk, QWidget], object]


def _new_machine(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.new import new_machine

    return new_machine(desk, window)


def _machine_card(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.machine_card import machine_card

    return machine_card(desk, window)


def _remove_machine(desk: Desk, window: QWidget) -> object:
    from rebuild.work.editing.acts import remove

    key = desk.machine_id or 0
    return desk.attempt(
        lambda: remove(desk.store, "machine", [key]),
        "Machine removed; Ctrl+Z brings it back with everything.",
    )


def _new_subassembly(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.new import new_subassembly

    return new_subassembly(desk, window)


def _new_inner(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.new import new_subassembly

    return new_subassembly(desk, window, desk.selection.subassembly_id)


def _new_step(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.new import new_task

    return new_task(desk, window, desk.selection.subassembly_id)


def _part_step(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.new import new_task

    return new_task(desk, window, desk.selection.subassembly_id, desk.selection.part_ids[0])


def _new_part(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.new import new_part

    return new_part(desk, window, desk.selection.subassembly_id)


def _new_loose(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.new import new_part

    return new_part(desk, window)


def _new_feature(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.feature_dialog import add_feature

    return add_feature(desk, desk.selection.part_ids[0], window)


def _decide(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.decide_dialog import decide_parts

    return decide_parts(desk, desk.selection.part_ids, window)


def _concede(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.decide_dialog import concede_part

    return concede_part(desk, desk.selection.part_ids[0], window)


def _make_sheet(desk: Desk, _window: QWidget) -> object:
    """One click: a sheet of the chosen part, shown on its page; the one it has already when not settled."""
    from rebuild.window.making.one_click import make_sheet

    return make_sheet(desk, desk.selection.part_ids[0])


def _put_away(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.put_dialog import put_parts

    return put_parts(desk, desk.selection.part_ids, window)


def _move_to(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.put_dialog import move_dialog

    return move_dialog(desk, desk.selection.part_ids, window)


def _join_set(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.new import new_matched_set

    return new_matched_set(desk, window, desk.selection.part_ids)


def _instruments(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.shop_lists import instrument_list

    return instrument_list(desk, window)


def _places(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.shop_lists import place_list

    return place_list(desk, window)


def _matched_sets(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.shop_lists import matched_set_list

    return matched_set_list(desk, window)


def _settings(desk: Desk, window: QWidget) -> object:
    from rebuild.window.forms.file_settings import FileSettings

    dialog = FileSettings(desk, window)
    dialog.open()
    return dialog


def _kept(desk: Desk, window: QWidget) -> object:
    from rebuild.window.log.kept import KeptEntries

    dialog = KeptEntries(desk, window)
    dialog.open()
    return dialog


def _back_up(desk: Desk, window: QWidget) -> object:
    from rebuild.store.photo_copies import backup_with_photos

    made = desk.attempt(lambda: backup_with_photos(desk.store.path))
    if made is not None:
        photos = f" with {made.photos} photos" if made.photos else ""
        troubles = f" {' '.join(made.troubles)}" if made.troubles else ""
        desk.say(f"Backed up and verified: {made.path.name}{photos}, beside the file.{troubles}")
    return made


def _import(desk: Desk, window: QWidget) -> object:
    from rebuild.window.exchange.import_dialog import import_tables

    return import_tables(desk, window)


def _export(desk: Desk, window: QWidget) -> object:
    from rebuild.window.exchange.export_dialog import export_project

    return export_project(desk, window)


def _limits(desk: Desk, window: QWidget) -> object:
    from rebuild.window.commands.help_sheets import limits_of_use

    return limits_of_use(window)


def _cautions(desk: Desk, window: QWidget) -> object:
    from rebuild.window.commands.help_sheets import cautions

    return cautions(window)


def _keys(desk: Desk, window: QWidget) -> object:
    from rebuild.window.commands.help_sheets import key_sheet

    return key_sheet(window)


ACTS: dict[str, Act] = {
    "new_machine": _new_machine, "machine_card": _machine_card, "remove_machine": _remove_machine,
    "new_subassembly": _new_subassembly, "new_inner": _new_inner, "new_step": _new_step, "part_step": _part_step,
    "new_part": _new_part, "new_loose": _new_loose, "new_feature": _new_feature, "decide": _decide,
    "concede": _concede, "make_sheet": _make_sheet, "put_away": _put_away, "move_to": _move_to, "join_set": _join_set,
    "instruments": _instruments, "places": _places, "matched_sets": _matched_sets, "settings": _settings,
    "kept": _kept, "import": _import, "export": _export, "back_up": _back_up,
    "limits": _limits, "cautions": _cautions, "keys": _keys,
    "undo": lambda desk, _window: desk.undo(), "redo": lambda desk, _window: desk.redo(),
}  # fmt: skip
