"""What each page asks of the file when it is read again: as many statements whatever else lies in the file, and none
that walks a table that grows.

Source of the ways: SQLite's EXPLAIN QUERY PLAN, outside the project (``tests.plans``).
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from threading import get_ident

from sqlalchemy import Connection, Engine, event

from rebuild.store.store import Store
from rebuild.window.desk.live_page import LivePage
from rebuild.window.shell.frame import Frame
from rebuild.words.readings import FeatureKind
from rebuild.work.log import acts as notes
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts_features as spec
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.steps import acts as tasks
from tests.conftest import Shop
from tests.plans import plans_of

#: Tables that grow with every machine; the few of the shop itself may be walked.
GROWS = ("reading", "feature", "station", "part", "task", "link", "subassembly", "change")
#: The file's own history is of no machine; what may be anywhere in the file is looked for everywhere.
OF_THE_FILE = ("HistoryPage",)
#: The one walk known: what lies in boxes is of every machine, and no index knows what is not confirmed.
KNOWN = {("BoxesPage", "part")}
MOST_OF_A_PAGE = 70


@contextmanager
def heard() -> Iterator[list[str]]:
    """Every statement this thread sends, by any connection: what goes on beside the window is of no page."""
    said: list[str] = []
    here = get_ident()

    def hear(_connection: Connection, _cursor: object, statement: str, *_rest: object) -> None:
        if get_ident() == here:
            said.append(statement)

    event.listen(Engine, "before_cursor_execute", hear)
    try:
        yield said
    finally:
        event.remove(Engine, "before_cursor_execute", hear)


def asked(frame: Frame) -> dict[str, list[str]]:
    """What each page and each pane that reads by itself asks when it is read again as a whole, by what it is."""
    found: dict[str, list[str]] = {}
    for one in frame.findChildren(LivePage):
        with heard() as said, frame.desk.reading_together():
            one.refresh()
        found.setdefault(type(one).__name__, []).extend(said)
    return found


def another(store: Store, number: int) -> None:
    """One more machine with something of all that pages read."""
    machine = identify.add_machine(store, f"Planer {number}", {"kind": "planer"})
    bed = identify.add_subassembly(store, machine, "Bed", "BD")
    before: list[int] = []
    for place in range(3):
        part = identify.add_part(store, machine, bed, f"gib {place}", f"BD-0{place}")
        size = spec.add_feature(store, part, "thickness", FeatureKind.WIDTH, spec="12 ±0.1")
        record_reading(store, "12.02", Entry(size))
        before = [tasks.add_task(store, machine, bed, f"Scrape gib {place}", part_id=part, after=before)]
    notes.ask(store, machine, "Which way did it lie?", task_id=before[0])
    notes.log_session(store, machine, {"did": "Looked it over", "hours": "1"})


def test_no_page_asks_more_for_what_lies_in_other_machines(frame: Frame, shop: Shop) -> None:
    frame.desk.choose_machine(shop.machine)
    for page in frame.pages:
        frame.page(page.key)
    asked(frame)  # what is asked once in a session
    alone = asked(frame)
    assert len(alone) >= len(frame.pages)
    for number in range(3):
        another(frame.desk.store, number)
    assert frame.desk.machine_id == shop.machine
    asked(frame)  # the work graph reads again what was written, once for all pages
    among = asked(frame)
    counts = {key: (len(said), len(among[key])) for key, said in alone.items()}
    assert {key: two for key, two in counts.items() if two[0] != two[1]} == {}
    assert {key: two for key, two in counts.items() if two[1] > MOST_OF_A_PAGE} == {}
    walks = set()
    with frame.desk.store.read() as connection:
        for key, said in among.items():
            if key in OF_THE_FILE:
                continue
            for statement, plan in zip(said, plans_of(connection, said), strict=True):
                walks |= {
                    f"{key}: {step} in {statement[:160]}"
                    for step in plan
                    if step.startswith("SCAN")
                    and step.split()[1] in GROWS
                    and (key, step.split()[1]) not in KNOWN
                }
    assert not walks, "\n".join(sorted(walks))
