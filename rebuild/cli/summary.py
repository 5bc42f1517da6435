"""How far the rebuild is, printed in words or as JSON."""

from __future__ import annotations

import argparse
import sys
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.cli.exit_codes import DONE
from rebuild.cli.json_text import in_json
from rebuild.errors import RebuildError
from rebuild.window.desk.gc_pause import gc_paused

if TYPE_CHECKING:
    from rebuild.store.unreadable import BadCell
    from rebuild.work.plan.rows_summary import ShopState


def summary_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument("--json", action="store_true", help="for other programs, nothing cut")


def summary(args: argparse.Namespace) -> int:
    """Print how far the rebuild is and what comes next."""
    print_summary(args.file, as_json=args.json)
    return DONE


def print_summary(path: Path, *, as_json: bool) -> None:
    """Print the state of a file; cells that cannot be read are named beside it."""
    from rebuild.sheets.summary_text import summary_data, summary_text
    from rebuild.store.read_only_place import readable
    from rebuild.store.unreadable import in_words

    with readable(path) as file, gc_paused():
        state, unread = _summed_up(file)
    print(in_json(summary_data(state)) if as_json else summary_text(state))
    if unread:
        print(in_words(unread), file=sys.stderr)


def _summed_up(path: Path) -> tuple[ShopState, tuple[BadCell, ...]]:
    """The state of a file. It is looked over cell by cell only when reading it stumbles: that takes seconds."""
    from rebuild.cli.side_by_side import state_of_file
    from rebuild.store.store import Store
    from rebuild.work.plan.rows_summary import shop_state

    try:
        return state_of_file(path), ()
    except (RebuildError, LookupError, ValueError, TypeError):
        with closing(Store.open(path)) as store:
            return shop_state(store), store.unreadable
