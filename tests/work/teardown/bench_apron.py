"""An apron of five parts on a bench lathe, to take off and put back."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.store.store import Store
from rebuild.words.places import PlaceKind
from rebuild.words.teardown import RemovalWay
from rebuild.work.machines import acts as identify
from rebuild.work.refit import acts as refit
from rebuild.work.steps.rows import TaskRow, tasks as task_rows
from rebuild.work.teardown import acts as teardown, rows_removals as rows

NAMES = ("apron casting", "half nuts", "worm", "feed rod bracket", "cover")


@dataclass
class Apron:
    """A machine with an apron of five parts."""

    store: Store
    machine: int
    group: int
    parts: dict[str, int]
    bag: int

    def off(self, name: str, how: RemovalWay = RemovalWay.LIFTED, **more: object) -> int:
        off = teardown.Off((self.parts[name],), how, **more)  # type: ignore[arg-type]
        return teardown.log_removal(self.store, self.machine, self.group, off)

    def steps(self) -> list[TaskRow]:
        with self.store.read() as connection:
            return task_rows(connection, self.machine, [self.group])

    def step(self, words: str) -> TaskRow:
        return next(row for row in self.steps() if words in row.title)

    def attempt(self) -> rows.AttemptRow:
        with self.store.read() as connection:
            found = rows.current_attempt(connection, self.machine, self.group)
        assert found is not None
        return found

    def log(self) -> list[rows.RemovalRow]:
        with self.store.read() as connection:
            return rows.removals(connection, self.attempt().id)


def on_the_bench(store: Store) -> Apron:
    machine = identify.add_machine(store, "Bench lathe", {"unit": "in"})
    group = identify.add_subassembly(store, machine, "Apron", "AP")
    parts = {
        name: identify.add_part(store, machine, group, name, f"AP-{place:02}")
        for place, name in enumerate(NAMES, start=1)
    }
    bag = identify.add_place(store, "4 apron screws", PlaceKind.BAG)
    return Apron(store, machine, group, parts, bag)


def drafted(apron: Apron) -> refit.Drafted:
    return refit.draft(apron.store, apron.attempt().id)


def take_all_off(apron: Apron, order: tuple[str, ...] = NAMES[::-1]) -> None:
    for name in order:
        apron.off(name)
