"""Every door a text can come in by: the fields of all records, the acts that take text, and what is only asked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from sqlalchemy import Connection

from rebuild.store.store import Store
from rebuild.words.readings import Stage
from rebuild.words.run_in import CutKind
from rebuild.work.boxes.acts import add_clue, add_thing
from rebuild.work.controls.acts import add_control, found as control_found
from rebuild.work.decisions.acts_options import set_rule
from rebuild.work.editing.acts import edit
from rebuild.work.find.rows import find
from rebuild.work.fits.acts import set_wanted
from rebuild.work.joints.acts import parse_joint, set_joints
from rebuild.work.landings.acts import keep_unplaced
from rebuild.work.log.acts import ask, log_session
from rebuild.work.machines.acts import add_machine, add_part, add_place, add_subassembly
from rebuild.work.making.acts_sizes import set_size
from rebuild.work.means.acts import add_means
from rebuild.work.plan.acts_week import add_day_off, set_week
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.acts_features import add_feature, add_instrument, add_station, set_spec
from rebuild.work.records.acts_settings import set_owner
from rebuild.work.records.field import Field
from rebuild.work.records.fields import FIELDS, RECORDS
from rebuild.work.run_in.acts import add_check, add_cut
from rebuild.work.steps.acts import add_task
from rebuild.work.surveys.acts import enter_reading
from rebuild.work.teardown.acts_fasteners import add_fastener
from rebuild.work.teardown.acts_line import say_removal
from rebuild.work.waiting.acts import add_stock
from rebuild.work.where_was_i.acts import end_session, split_hours

Try = Callable[[str], object]


@dataclass(frozen=True, slots=True)
class Door:
    """What is typed into, and a function of the text; ``read`` only reads it, as every key of an editor does."""

    name: str
    store: Try
    read: Try | None = None


def every_door(store: Store) -> list[Door]:
    """A door for every field of every record there is, and for the acts that take text."""
    with store.read() as connection:
        ids = {name: _lowest(connection, name) for name in RECORDS}
    fields = [
        Door(f"{record}.{one.name}", _editing(store, record, key, one), partial(_reading, one))
        for record, found in FIELDS.items()
        if (key := ids.get(record)) is not None
        for one in found
    ]
    return [*fields, *_acts(store, {name: key or 0 for name, key in ids.items()})]


def _lowest(connection: Connection, table: str) -> int | None:
    found = connection.exec_driver_sql(f'SELECT MIN(id) FROM "{table}"').scalar_one()
    return None if found is None else int(found)


def _editing(store: Store, record: str, key: int, one: Field) -> Try:
    return lambda text: edit(store, record, [key], {one.name: text})


def _reading(one: Field, text: str) -> None:
    """As a file of either comma, in mm or inch, reads it; the same text must be read alike twice."""
    first = one.read(text, "mm", decimal_comma=True)
    assert one.read(text, "mm", decimal_comma=True).keys() == first.keys()
    one.read(text, "in")


def _acts(store: Store, ids: dict[str, int]) -> list[Door]:
    machine, group, part, feature = ids["machine"], ids["subassembly"], ids["part"], ids["feature"]
    entry = Entry(feature, None, Stage.AS_FOUND, ids["instrument"])
    doors: dict[str, Try] = {
        "reading": lambda text: record_reading(store, text, entry),
        "reading at °C": lambda text: record_reading(
            store, "25", Entry(feature, None, Stage.AS_FOUND, None, text), confirmed=True
        ),
        "value without a row": lambda text: keep_unplaced(store, text, "the bench"),
        "survey reading": lambda text: enter_reading(store, ids["survey_line"], 0, text),
        "cut test": lambda text: add_cut(
            store, machine, next(iter(CutKind)), dict.fromkeys(("apart", "first", "second"), text)
        ),
        "spec": lambda text: set_spec(store, [feature], text),
        "wanted of a fit": lambda text: set_wanted(store, ids["fit"], text),
        "size of a sheet": lambda text: set_size(store, ids["making_dimension"], text, confirmed=True),
        "limit of a wear rule": lambda text: set_rule(store, "shaft-journal", good=text, rework=text),
        "joint": lambda text: set_joints(store, [ids["joint"]], parse_joint("snug", text)),
        "joint in words": lambda text: set_joints(store, [ids["joint"]], parse_joint(text)),
        "removal": lambda text: say_removal(store, machine, group, text),
        "fastener": lambda text: add_fastener(store, ids["removal"], text),
        "clue": lambda text: add_clue(store, part, text),
        "unknown thing": lambda text: add_thing(store, machine, text, text, text),
        "control": lambda text: add_control(store, machine, text),
        "control as found": lambda text: control_found(store, ids["control"], text, text),
        "week": lambda text: set_week(store, [text] * 7),
        "day off": lambda text: add_day_off(store, text, text, text),
        "end of a session": lambda text: end_session(store, machine, did=text, hours=text, split=text),
        "hours split": lambda text: split_hours(store, ids["log_entry"], text),
        "new machine": lambda text: add_machine(store, text),
        "new group": lambda text: add_subassembly(store, machine, text, text),
        "new part": lambda text: add_part(store, machine, group, text, text, typed={"material": text}),
        "new place": lambda text: add_place(store, text),
        "new feature": lambda text: add_feature(store, part, text, spec=text, stations=(text,)),
        "new station": lambda text: add_station(store, feature, text),
        "new instrument": lambda text: add_instrument(store, text, {"uncertainty": text}),
        "new step": lambda text: add_task(store, machine, group, text, typed={"likely_min": text}),
        "new check": lambda text: add_check(store, machine, text),
        "new means": lambda text: add_means(store, text),
        "new stock": lambda text: add_stock(store, text),
        "owner": lambda text: set_owner(store, text),
        "question": lambda text: ask(store, machine, text),
        "session": lambda text: log_session(store, machine, {"did": text, "hours": text}),
        "find": lambda text: _asked(store, text),
    }
    return [Door(name, store) for name, store in doors.items()]


def _asked(store: Store, text: str) -> None:
    with store.read() as connection:
        find(connection, text)
