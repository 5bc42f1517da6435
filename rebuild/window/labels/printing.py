"""Print a page for the shop of what is chosen: one click, a name for the PDF, done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.exchange.sheet_saving import save_sheet

if TYPE_CHECKING:
    from rebuild.sheets.pages.printed import Wanted

PAPER = "paper"


def wanted_now(desk: Desk) -> Wanted:
    """What the choice in the window stands for, on the paper of this file."""
    from rebuild.sheets.pages.printed import Wanted
    from rebuild.sheets.paper import paper

    chosen = desk.selection
    return Wanted(
        desk.machine_id or 0,
        chosen.subassembly_id,
        chosen.part_ids,
        on=paper(desk.store.setting(PAPER, "A4")),
    )


def print_of(desk: Desk, parent: QWidget, key: str, wanted: Wanted | None = None) -> Path | None:
    """Ask where the page goes and write it; None when the user thought better of it, or it could not be."""
    from rebuild.sheets.pages.printed import printed_named

    if desk.machine_id is None:
        return None
    what, mine = printed_named(key), wanted or wanted_now(desk)
    return save_sheet(parent, desk, what.name, lambda path: what.write(desk.store, mine, path))


def print_day(desk: Desk, window: QWidget) -> Path | None:
    """Tonight's steps."""
    return print_of(desk, window, "day")


def print_measuring(desk: Desk, window: QWidget) -> Path | None:
    """Blank boxes for every feature of the chosen subassembly."""
    return print_of(desk, window, "measuring", replace(wanted_now(desk), part_ids=()))


def print_measuring_part(desk: Desk, window: QWidget) -> Path | None:
    """Blank boxes for every feature of the chosen parts alone."""
    return print_of(desk, window, "measuring")


def print_walk(desk: Desk, window: QWidget) -> Path | None:
    """Every joint not final."""
    return print_of(desk, window, "walk")


def print_to_buy(desk: Desk, window: QWidget) -> Path | None:
    """What is to be bought, and what is on order from whom."""
    return print_of(desk, window, "buy")


def print_removals(desk: Desk, window: QWidget) -> Path | None:
    """What came off the chosen subassembly."""
    return print_of(desk, window, "removals")


def print_rebuilt(desk: Desk, window: QWidget) -> Path | None:
    """The chosen subassembly as found and now."""
    return print_of(desk, window, "rebuilt")


def print_trays(desk: Desk, window: QWidget) -> Path | None:
    """What lies in every place, a page each."""
    return print_of(desk, window, "tray")


def print_tray(desk: Desk, parent: QWidget, place_ids: Sequence[int]) -> Path | None:
    """What lies in the chosen places, a page each."""
    return print_of(desk, parent, "tray", replace(wanted_now(desk), place_ids=tuple(place_ids)))


def print_question(desk: Desk, parent: QWidget, question_id: int) -> Path | None:
    """One question with sizes and photos, to be sent."""
    return print_of(desk, parent, "question", replace(wanted_now(desk), question_id=question_id))


def print_survey(desk: Desk, parent: QWidget, survey_id: int) -> Path | None:
    """The blank sheet of one survey."""
    return print_of(desk, parent, "survey", replace(wanted_now(desk), survey_id=survey_id))
