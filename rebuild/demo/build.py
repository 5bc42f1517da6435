"""Build the demo file through the acts, as a user would; deterministic apart from the acts' own times."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from rebuild.store.store import Store

#: Raised when the demo's content changes, so that a new one is made beside an older one.
EDITION = 3
MADE_AS = "demo edition"


def build_demo(path: Path, progress: Callable[[str], None] | None = None) -> None:
    """Make a new file at ``path`` with both machines. Raises FileTrouble.

    ``progress`` hears a few words at each stage and month. A build that fails leaves a part-built file;
    ``where.ensure_demo`` builds under another name and renames, so it never leaves one.
    """
    from rebuild.demo import as_it_happened, set_up
    from rebuild.demo.built import Built
    from rebuild.demo.lathe.machine import LATHE
    from rebuild.demo.more import extend_all
    from rebuild.demo.shaper.machine import SHAPER
    from rebuild.demo.shop import INSTRUMENTS, PLACES

    told = progress or (lambda words: None)
    store = Store.create(path)
    try:
        with store.built_whole():
            built = Built(store)
            told("the shop")
            set_up.shop(built, PLACES, INSTRUMENTS)
            for machine in (SHAPER, LATHE):
                told(machine.name)
                set_up.machine(built, machine)
            as_it_happened.live(built, told)
            extend_all(built, told)
            store.set_setting(MADE_AS, str(EDITION))
    finally:
        store.close()
