"""Which tables a lookup asks: every public lookup is called on a file, and SQLite tells what it read.

A lookup is a public function of a ``rows*.py`` module that takes a connection, a store or a transaction. What
it is called with is found by the names of its parameters; the few that need more are listed in ``HAND_MADE``.
"""

from __future__ import annotations

import datetime as dt
import inspect
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from importlib import import_module
from itertools import islice, product
from pathlib import Path
from types import ModuleType
from unittest.mock import patch

from sqlalchemy import Connection, event
from sqlalchemy.pool import Pool

import rebuild.work
from rebuild.model.records.every import every_record
from rebuild.model.tables.every import whole
from rebuild.store.act import Act
from rebuild.store.changed import Changed, Rows
from rebuild.store.store import Store
from rebuild.trade.limits.verdict import Rule, Verdict
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.words.run_in import LookWhen
from rebuild.work.making import rows_as_made, rows_limits, rows_plug
from rebuild.work.plan.rows_again import Changed as RowChanged
from rebuild.work.plan.rows_tonight import Tonight
from rebuild.work.readings import rows_grid
from rebuild.work.readings.entry import Pasted
from rebuild.work.readings.rows_grid_keys import Asked
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.records.fields import FIELDS
from rebuild.work.records.rows import CHOOSERS

#: The clock the lookups are told: after everything the demo dates, so that clocks and orders have something to say.
NOW = dt.datetime(2026, 8, 1, 19, 0)
#: How many of each thing a lookup is called with; the demo's first sixty hold every kind of it.
MOST = 60
_DOORS = ("connection", "store", "tx")
Call = Callable[[], object]


def rows_modules() -> list[ModuleType]:
    """Every ``rows*.py`` of the work floor."""
    folder = Path(next(iter(rebuild.work.__path__)))
    found = sorted(folder.rglob("rows*.py"))
    return [import_module(".".join(("rebuild.work", *_dotted(path.relative_to(folder))))) for path in found]


def _dotted(path: Path) -> tuple[str, ...]:
    return path.with_suffix("").parts


def lookups(module: ModuleType) -> dict[str, Callable[..., object]]:
    """The public functions of a module that ask the file."""
    return {
        name: found
        for name, found in vars(module).items()
        if inspect.isfunction(found)
        and found.__module__ == module.__name__
        and not name.startswith("_")
        and next(iter(inspect.signature(found).parameters), "") in _DOORS
    }


class Ears:
    """Hears every table SQLite reads on any connection of this process, while a lookup runs."""

    def __init__(self) -> None:
        self.heard: set[str] = set()
        self._listening = False
        self._raw: list[sqlite3.Connection] = []
        self._names = {table.name for table in whole().sorted_tables}

    @contextmanager
    def opened(self) -> Iterator[None]:
        """Connections made within are listened to; open the store inside."""
        event.listen(Pool, "connect", self._fit)
        try:
            yield
        finally:
            event.remove(Pool, "connect", self._fit)

    @contextmanager
    def listening(self) -> Iterator[set[str]]:
        """Collects the tables read within."""
        self.heard, self._listening = set(), True
        for raw in self._raw:
            raw.set_authorizer(self._hear)  # statements prepared before are prepared anew, and so told
        try:
            yield self.heard
        finally:
            self._listening = False

    def _fit(self, raw: sqlite3.Connection, _record: object) -> None:
        self._raw.append(raw)
        raw.set_authorizer(self._hear)

    def _hear(self, action: int, table: str | None, *_more: str | None) -> int:
        if self._listening and action == sqlite3.SQLITE_READ and table is not None:
            name = table.removeprefix("j_")  # the journal's image of a table is written whenever the table is
            if name in self._names:
                self.heard.add(name)
        return sqlite3.SQLITE_OK


class Asking:
    """Calls lookups on one open file with what is in it."""

    def __init__(self, store: Store, connection: Connection) -> None:
        every_record()
        self.store = store
        self.connection = connection
        self._limits = instrument_limits(connection)
        machines = self._ids("machine")
        self._given: dict[str, Iterable[object]] = {
            "connection": (connection,),
            "store": (store,),
            "rule": tuple(Rule)[:1],
            "limits": (self._limits,),
            "now": (NOW,),
            "stage": tuple(Stage),
            "decision": tuple(Decision),
            "due": tuple(LookWhen),
            "machine_id": machines,
            "text": ("screw",),
            "wanted": ("1/4-20 screw",),
            "asked": tuple(
                Asked(machine, text=words, verdicts=verdicts, decisions=decisions, unread=unread)
                for machine in machines
                for words, verdicts, decisions, unread in (
                    ("", None, None, False),
                    ("screw", frozenset(Verdict), frozenset(Decision), True),
                )
            ),
            "tonight": (Tonight(240),),
            "order": tuple(tuple(self._keys(machine)) for machine in machines),
            "after": (None,),
            "record": tuple(FIELDS),
            "refers_to": tuple(CHOOSERS),
        }

    def calls(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """One lookup with each of what the file offers it."""
        hand_made = HAND_MADE.get(f"{lookup.__module__.removeprefix('rebuild.work.')}.{lookup.__name__}")
        if hand_made is not None:
            yield from hand_made(self, lookup)
            return
        named = [
            (name, self.offered(name))
            for name, parameter in inspect.signature(lookup).parameters.items()
            if parameter.default is inspect.Parameter.empty or name == "now"  # told the time, some ask more
        ]
        for values in islice(product(*(offered for _, offered in named)), MOST * 2):
            yield lambda values=values: lookup(  # type: ignore[misc]
                **dict(zip((name for name, _ in named), values, strict=True))
            )

    def forget_settings(self) -> None:
        """The store keeps the settings until somebody writes; forgotten, they are asked for again."""
        self.store._followed()._known_at = -1

    def offered(self, name: str) -> Iterable[object]:
        """What a parameter of that name may be given."""
        if name in self._given:
            return self._given[name]
        if name.endswith("_ids"):
            return (tuple(self._ids(name.removesuffix("_ids"))),)
        return self._ids(_TABLE_OF.get(name, name.removesuffix("_id")))

    def _ids(self, table: str) -> tuple[int, ...]:
        found = self.connection.exec_driver_sql(f'SELECT id FROM "{table}" ORDER BY id LIMIT {MOST}')
        return tuple(found.scalars())

    def _keys(self, machine: int) -> list[rows_grid.Key]:
        return rows_grid.keys(self.connection, Asked(machine), next(iter(Rule)), self._limits)

    # Hand-made calls

    def plugs(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """The demo has no plug: each name of a fit in turn stands for what proves a nut."""
        for name in self.connection.exec_driver_sql("SELECT DISTINCT name FROM fit").scalars().all():
            with patch.object(rows_plug, "PROVED", name):
                yield lambda: lookup(self.connection, self._ids("part"))
        sizes = "SELECT s.part_id, d.feature_id FROM making_dimension AS d JOIN making_sheet AS s ON s.id = d.sheet_id"
        for nut, feature in self.connection.exec_driver_sql(f"{sizes} WHERE d.feature_id IS NOT NULL").all():
            yield lambda nut=nut, feature=feature: rows_plug._band(self.connection, nut, feature)  # type: ignore[misc]

    def plugs_stale(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """As ``plugs``, of one part after the other."""
        for name in self.connection.exec_driver_sql("SELECT DISTINCT name FROM fit").scalars().all():
            with patch.object(rows_plug, "PROVED", name):
                for part in self._ids("part"):
                    yield lambda part=part: lookup(self.connection, part)  # type: ignore[misc]

    def sheet_sizes(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Every sheet, whatever its thread."""
        for sheet in self._ids("making_sheet"):
            yield lambda sheet=sheet: lookup(self.connection, sheet, "", "in")  # type: ignore[misc]

    def since(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """All the journal names of one table."""
        yield lambda: lookup(self.connection, 0, ("task",))

    def rows_changed(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """The first rows of every table a fit rests on."""
        for table in ("feature", "fit", "part", "reading"):
            changed = [RowChanged(table, key, "u") for key in self._ids(table)]
            yield lambda changed=changed: lookup(self.connection, changed)  # type: ignore[misc]

    def grid_rows(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Rows of the grid, by their keys."""
        for machine in self._ids("machine"):
            keys = self._keys(machine)
            yield lambda keys=keys: lookup(self.connection, keys, next(iter(Rule)), self._limits)  # type: ignore[misc]

    def coarse(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Every row of the grid with every instrument."""
        for machine in self._ids("machine"):
            rows = rows_grid.rows(self.connection, self._keys(machine)[:MOST], next(iter(Rule)), self._limits)
            for row, limit in product(rows, self._limits.values()):
                yield lambda row=row, limit=limit: lookup(self.connection, row, limit)  # type: ignore[misc]

    def block(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """A pasted block on the first rows of the grid."""
        from rebuild.work.readings.entry import Entry

        for machine in self._ids("machine"):
            tools = self._ids("instrument")
            tool = tools[0] if tools else None
            cells = [Pasted("25", Entry(*key, instrument_id=tool)) for key in self._keys(machine)[:9]]
            yield lambda cells=cells: lookup(self.connection, cells, None)  # type: ignore[misc]

    def fit_rows(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Every fit at once."""
        yield lambda: lookup(self.connection, self._ids("fit"))

    def replaced(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Readings of a window, and those another one added."""
        yield lambda: lookup(self.connection, [1, 2], [3, 4])

    def every_fit(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Each fit, worked out before."""
        from rebuild.work.fits.rows import rows

        for row in rows(self.connection, self._ids("fit")):
            yield lambda row=row: lookup(self.connection, row)  # type: ignore[misc]

    def touched(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """A change of everything a fit may hang on, the newest removed reading among it."""
        gone = self.connection.exec_driver_sql("SELECT row_id FROM change WHERE tbl = 'reading' AND op = 'd'")
        tables = {
            name: Rows(updated=frozenset(self._ids(name)), removed=frozenset(gone.scalars()))
            for name in ("part", "feature", "station", "reading", "fit")
        }
        yield lambda: lookup(self.connection, Changed("", tables))

    def sides(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """The ground of every feature."""
        yield lambda: lookup(self.connection, self._ids("feature"), self._limits)

    def limits_by_part(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """What the fits ask of every part."""
        yield lambda: lookup(self.connection, self._ids("part"), {})

    def sizes(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """The sizes of every sheet."""
        from sqlalchemy import select

        from rebuild.model.tables.making import MakingSheets

        rows = self.connection.execute(select(*MakingSheets.columns())).all()
        for row in rows:
            asked = rows_limits.of_part(self.connection, row.part_id)
            made = rows_as_made.values(self.connection, row.id, next(iter(Rule)))
            yield lambda row=row, asked=asked, made=made: lookup(self.connection, row, asked, made)  # type: ignore[misc]

    def mates(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """What the fits ask of each part, told as mates."""
        for part in self._ids("part"):
            asked = rows_limits.of_part(self.connection, part)
            yield lambda asked=asked: lookup(self.connection, asked, "mm")  # type: ignore[misc]

    def cards(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """One of every record."""
        for record in FIELDS:
            for key in self._ids(record)[:1] or (1,):
                yield lambda record=record, key=key: lookup(self.connection, record, key)  # type: ignore[misc]

    def histories(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """The history of one of every record."""
        for record in FIELDS:
            for key in self._ids(record)[:1] or (1,):
                yield lambda record=record, key=key: lookup(self.store, record, key)  # type: ignore[misc]

    def pairs(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Two options of one part, side by side."""
        found = self.connection.exec_driver_sql(
            "SELECT a.id, b.id FROM decision_option a JOIN decision_option b ON a.part_id = b.part_id AND a.id < b.id"
        )
        for one, other in found.all():
            yield lambda one=one, other=other: lookup(self.connection, one, other)  # type: ignore[misc]

    def put_on(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """The parts of every refit step, asked inside an act that changes nothing."""
        from rebuild.model.records.steps import Task

        with self.store.act(Act.EDIT) as tx:
            for key in self._ids("task"):
                task = tx.session.get(Task, key)
                yield lambda task=task: lookup(tx, task)  # type: ignore[misc]

    def photos(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """The photos of every machine, and those about what is chosen."""
        from rebuild.work.photos.rows import Which

        for machine, which in product(self._ids("machine"), Which):
            yield lambda machine=machine, which=which: lookup(  # type: ignore[misc]
                self.connection,
                machine,
                which,
                subassembly_id=next(iter(self._ids("subassembly")), None),
                part_ids=self._ids("part"),
                task_ids=self._ids("task"),
            )

    def things_shown(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """The photos of things of every kind."""
        for machine, record in product(self._ids("machine"), ("part", "joint", "survey", "question")):
            for key in self._ids(record)[:3]:
                yield lambda machine=machine, record=record, key=key: lookup(  # type: ignore[misc]
                    self.connection, machine, record, key
                )

    def notes(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Notes that name a page, a figure and its item, and nothing."""
        for machine, said in product(self._ids("machine"), ("p. 2", "Fig. 4, item 1", "sheet 7", "nothing")):
            yield lambda machine=machine, said=said: lookup(self.connection, machine, said)  # type: ignore[misc]

    def queried(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """A lookup that gives the query its caller executes."""
        for asked in self.offered("asked"):
            yield lambda asked=asked: self.connection.execute(lookup(self.connection, asked)).all()  # type: ignore[misc,call-overload]

    def all_closed(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Open clocks and closed ones."""
        for machine, closed in product(self._ids("machine"), (False, True)):
            yield lambda machine=machine, closed=closed: lookup(  # type: ignore[misc]
                self.connection, machine, NOW, closed=closed
            )

    def tags(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """Tags of a part, of a place, and of a part that is gone."""
        from rebuild.trade.labels.code import Code, Tagged
        from rebuild.work.labels.rows import file_mark

        mark = file_mark(self.connection)
        wanted = (
            (Tagged.PART, self._ids("part")[0]),
            (Tagged.PLACE, self._ids("place")[0]),
            (Tagged.PART, 9999),
        )
        for sort, number in wanted:
            yield lambda sort=sort, number=number: lookup(  # type: ignore[misc]
                self.connection, Code(sort, mark, number).text()
            )

    def searches(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """A word, a size, and both."""
        for typed in ("bearing", "24.98", "journal 24.98"):
            yield lambda typed=typed: lookup(self.connection, typed)  # type: ignore[misc]

    def drained(self, lookup: Callable[..., object]) -> Iterator[Call]:
        """A lookup that yields listings whose rows are read as one walks, to its end."""
        yield lambda: [list(one.rows) for one in lookup(self.connection)]  # type: ignore[attr-defined]


_TABLE_OF = {"page_id": "document_page", "option_id": "decision_option", "sheet_id": "making_sheet"}
_HandMade = Callable[[Asking, Callable[..., object]], Iterator[Call]]
HAND_MADE: dict[str, _HandMade] = {
    "landings.rows_replaced.replaced_by": Asking.replaced,
    "readings.rows_grid.rows": Asking.grid_rows,
    "readings.rows_destination.instrument_sentence": Asking.coarse,
    "readings.rows_paste_block.look_over": Asking.block,
    "fits.rows.rows": Asking.fit_rows,
    "fits.rows_touched.touched": Asking.touched,
    "fits.rows_tight.ways_in": Asking.every_fit,
    "fits.rows_sides.ground": Asking.sides,
    "making.rows_limits.by_part": Asking.limits_by_part,
    "making.rows_sheet_sizes.sizes_of": Asking.sizes,
    "making.rows_sheet_sizes.mates_of": Asking.mates,
    "records.rows.card": Asking.cards,
    "records.rows_history.history": Asking.histories,
    "decisions.rows_options.compare": Asking.pairs,
    "joints.rows_put_on.parts_put_on": Asking.put_on,
    "photos.rows.photos": Asking.photos,
    "photos.rows_shown.of_thing": Asking.things_shown,
    "documents.rows_cited.page_noted": Asking.notes,
    "labels.rows.code_meant": Asking.tags,
    "readings.rows_grid_keys.keys_query": Asking.queried,
    "waiting.rows_clocks.clocks": Asking.all_closed,
    "lists.rows_everything.everything": Asking.drained,
    "lists.rows_lists.lists": Asking.drained,
    "find.rows.find": Asking.searches,
    "making.rows_plug.plugs": Asking.plugs,
    "making.rows_plug.plug_stale": Asking.plugs_stale,
    "making.rows_owner.two_for_one": Asking.sheet_sizes,
    "plan.rows_again.changed_since": Asking.since,
    "plan.rows_again.touched_fits": Asking.rows_changed,
}
