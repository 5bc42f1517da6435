"""Everything printed for the shop by one name each, as the command line and the menu offer it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry
from rebuild.sheets.labels.pages import write_labels
from rebuild.sheets.pages.day_sheet import write_day_sheet
from rebuild.sheets.pages.measuring_sheet import write_measuring_sheet
from rebuild.sheets.pages.question_pack import write_question_pack
from rebuild.sheets.pages.rebuilt import write_rebuilt
from rebuild.sheets.pages.removal_log import write_removal_log
from rebuild.sheets.pages.shopping_list import write_shopping_list
from rebuild.sheets.pages.survey_sheet import write_survey_sheet
from rebuild.sheets.pages.tray_list import write_tray_list
from rebuild.sheets.pages.walk_round import write_walk_round
from rebuild.sheets.paper import A4, Paper
from rebuild.trade.labels.stock import READY, read_stock
from rebuild.words.places import PlaceKind
from rebuild.work.labels.rows import part_labels, parts_of, place_labels
from rebuild.work.places.rows import lying, places
from rebuild.work.plan.rows_tonight import Tonight
from rebuild.work.records.wall_clock import now

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from rebuild.store.store import Store


TWO_HOURS = Tonight(minutes=120)
_NO_TRAY = (PlaceKind.ON_THE_MACHINE, PlaceKind.AT_A_SHOP, PlaceKind.LENT)


class Of(Enum):
    """What a page is of, besides its machine."""

    MACHINE = "the machine"
    SUBASSEMBLY = "a subassembly"
    SUBASSEMBLY_OR_ALL = "a subassembly, or the whole machine"
    PARTS = "parts, or all of the machine"
    PLACES = "places, or all"
    SURVEY = "a survey"
    QUESTION = "a question"


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be printed; empty tuples and None are all there is."""

    machine_id: int
    subassembly_id: int | None = None
    part_ids: tuple[int, ...] = ()
    place_ids: tuple[int, ...] = ()
    survey_id: int | None = None
    question_id: int | None = None
    on: Paper = A4
    stock: str = READY[0]
    first: int = 1
    tonight: Tonight = TWO_HOURS


Write = Callable[["Store", Wanted, Path], int]


@dataclass(frozen=True, slots=True)
class Printed:
    """One thing that is printed: its word on the command line, its name, what it is of, and how it is written."""

    key: str
    name: str
    of: Of
    write: Write


def _tags(store: Store, wanted: Wanted, target: Path) -> int:
    stock = read_stock(wanted.stock)
    with store.read() as connection:
        ids = wanted.part_ids or parts_of(connection, wanted.machine_id, wanted.subassembly_id)
        labels = part_labels(connection, ids)
    return write_labels(labels, stock, target, wanted.first)


def _bags(store: Store, wanted: Wanted, target: Path) -> int:
    stock = read_stock(wanted.stock)
    with store.read() as connection:
        labels = place_labels(connection, wanted.place_ids or [row.id for row in places(connection)])
    return write_labels(labels, stock, target, wanted.first)


def _tray(store: Store, wanted: Wanted, target: Path) -> int:
    with store.read() as connection:
        ids = wanted.place_ids or _trays_of(connection, wanted.machine_id)
    return write_tray_list(store, list(ids), target, wanted.on)


def _trays_of(connection: Connection, machine_id: int) -> list[int]:
    """Where anything of a machine lies here: what is on a machine, at a shop or lent lies in no tray."""
    return [
        row.id
        for row in places(connection)
        if row.things
        and row.kind not in _NO_TRAY
        and any(one.machine_id == machine_id for one in lying(connection, row.id, now()))
    ]


def _survey(store: Store, wanted: Wanted, target: Path) -> int:
    if wanted.survey_id is None:
        raise BadEntry("is not named.", where="Survey", way_out="Name one of the machine’s surveys.")
    return write_survey_sheet(store, wanted.machine_id, wanted.survey_id, target, wanted.on)


def _question(store: Store, wanted: Wanted, target: Path) -> int:
    if wanted.question_id is None:
        raise BadEntry("is not named.", where="Question", way_out="Name one by words of it.")
    return write_question_pack(store, wanted.question_id, target, wanted.on)


def _rebuilt(store: Store, wanted: Wanted, target: Path) -> int:
    if wanted.subassembly_id is None:
        raise BadEntry(
            "is not named.", where="Subassembly", way_out="Name one of the machine’s subassemblies."
        )
    return write_rebuilt(store, wanted.machine_id, wanted.subassembly_id, target, wanted.on)


def _day(store: Store, wanted: Wanted, target: Path) -> int:
    return write_day_sheet(store, wanted.machine_id, wanted.tonight, target, wanted.on)


def _measuring(store: Store, wanted: Wanted, target: Path) -> int:
    return write_measuring_sheet(
        store, wanted.machine_id, wanted.subassembly_id, target, wanted.on, part_ids=wanted.part_ids
    )


def _removals(store: Store, wanted: Wanted, target: Path) -> int:
    return write_removal_log(store, wanted.machine_id, wanted.subassembly_id, target, wanted.on)


def _walk(store: Store, wanted: Wanted, target: Path) -> int:
    return write_walk_round(store, wanted.machine_id, target, wanted.on)


def _buy(store: Store, wanted: Wanted, target: Path) -> int:
    return write_shopping_list(store, wanted.machine_id, target, wanted.on)


PRINTED: tuple[Printed, ...] = (
    Printed("tags", "Tags", Of.PARTS, _tags),
    Printed("bags", "Bag labels", Of.PLACES, _bags),
    Printed("tray", "Tray list", Of.PLACES, _tray),
    Printed("day", "Day sheet", Of.MACHINE, _day),
    Printed("measuring", "Measuring sheet", Of.SUBASSEMBLY_OR_ALL, _measuring),
    Printed("survey", "Survey sheet", Of.SURVEY, _survey),
    Printed("walk", "Walk round", Of.MACHINE, _walk),
    Printed("buy", "To buy", Of.MACHINE, _buy),
    Printed("removals", "Removal log", Of.SUBASSEMBLY_OR_ALL, _removals),
    Printed("rebuilt", "As found to rebuilt", Of.SUBASSEMBLY, _rebuilt),
    Printed("question", "Question", Of.QUESTION, _question),
)


def printed_named(key: str) -> Printed:
    """One of them by its word. Raises BadEntry."""
    found = next((one for one in PRINTED if one.key == key.strip().lower()), None)
    if found is None:
        words = ", ".join(one.key for one in PRINTED)
        raise BadEntry(
            "is nothing that is printed.", where="Print", value=key, way_out=f"There are: {words}."
        )
    return found
