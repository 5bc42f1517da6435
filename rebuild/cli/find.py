"""``rebuild find FILE WORDS…``: everything of a file by any word, number, code or size."""

from __future__ import annotations

import argparse
from pathlib import Path

from rebuild.cli.exit_codes import DONE, FOUND


def arguments(parser: argparse.ArgumentParser) -> None:
    """What ``rebuild find`` takes."""
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument(
        "words", nargs="+", metavar="WORDS", help="all of them; a size as 24.98, 0.98346 in or 3/8"
    )
    parser.add_argument("--most", default="60", metavar="N", help="how many are shown; 60 unless given")


def run(args: argparse.Namespace) -> int:
    """Print what was found, one a line: kind, title, the words around, the machine; 1 when nothing was."""
    from rebuild.store.read_only_place import readable
    from rebuild.store.store import Store
    from rebuild.trade.sizes.number import read_whole
    from rebuild.work.find.acts_search import search

    typed, most = " ".join(args.words), read_whole(args.most, "--most", at_least=1, at_most=10_000)
    with readable(args.file) as file:
        store = Store.open(file)
        try:
            found = search(store, typed, most)
        finally:
            store.close()
    for one in found:
        print(" · ".join(filter(None, (f"{one.kind:<13} {one.title}", one.lies, one.around, one.machine))))
    if not found:
        print(
            f"Nothing in {args.file.name} has “{typed}”. Words are found by their beginning, sizes by value."
        )
    return DONE if found else FOUND
