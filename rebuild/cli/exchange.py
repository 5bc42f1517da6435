"""The commands that write books and exchange files: ``book``, ``export`` and ``import``."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.cli.exit_codes import DONE, FOUND
from rebuild.errors import BadEntry, FileTrouble, NotThere
from rebuild.sheets.book.options import BookOptions, file_name
from rebuild.words.counted import counted

if TYPE_CHECKING:
    from rebuild.store.unreadable import BadCell
    from rebuild.work.machines.rows_tree import MachineRow

#: Sentences about rows printed before the rest is only counted.
MOST = 40


def book_arguments(parser: argparse.ArgumentParser) -> None:
    """What ``rebuild book`` takes."""
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument("--machine", metavar="NAME", help="the machine; every machine unless given")
    parser.add_argument(
        "--to", type=Path, metavar="PATH", help="the PDF or a folder; beside the file unless given"
    )
    parser.add_argument("--cost", action="store_true", help="with prices and sums")
    parser.add_argument("--photos", action="store_true", help="with the photos")
    parser.add_argument("--without-log", action="store_true", help="without the bench log")
    parser.add_argument("--paper", default="A4", metavar="NAME", help="A4 or Letter")


def book(args: argparse.Namespace) -> int:
    """Write the book of one machine or of each."""
    from rebuild.store.read_only_place import readable

    with readable(args.file) as file:
        return _write_books(file, args)


def _write_books(file: Path, args: argparse.Namespace) -> int:
    from rebuild.sheets.book.build import build_book

    chosen = _chosen(file, args.machine)
    options = BookOptions(args.cost, args.photos, not args.without_log, args.paper)
    if len(chosen) > 1 and args.to is not None and args.to.suffix:
        raise BadEntry(
            "is one file for several machines.",
            where="--to",
            value=args.to.name,
            way_out=f"Name one with --machine ({', '.join(row.name for row in chosen)}), or give a folder.",
        )
    for row in chosen:
        target = _target(args.file, args.to, row.name)
        _make_folder(target.parent)
        print(f"Written: {build_book(file, row.id, target, options, _tell)}")
    return DONE


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be made a folder ({trouble.strerror}).",
            where=folder.name,
            way_out="Choose another folder.",
        ) from trouble


def _tell(share: float, words: str) -> bool:
    if sys.stderr.isatty():
        print(f"\r{share:4.0%} {words:<40}", end="" if share < 1 else "\n", file=sys.stderr)
    return True


def _target(file: Path, to: Path | None, name: str) -> Path:
    if to is not None and to.suffix:
        return to
    return (to or file.parent) / f"{file_name(name)}.pdf"


def _chosen(file: Path, name: str | None) -> list[MachineRow]:
    """The machines meant; the file is opened once, so that an older one is brought up to date."""
    from rebuild.store.store import Store
    from rebuild.work.machines import rows_tree as tree

    store = Store.open(file)
    try:
        with store.read() as connection:
            machines = tree.machines(connection)
    finally:
        store.close()
    if name is None and machines:
        return machines
    found = [row for row in machines if name is not None and row.name.lower() == name.strip().lower()]
    if not found:
        there = ", ".join(f"“{row.name}”" for row in machines) or "none yet"
        what = (
            f"There is no machine “{name}” in {file.name}."
            if name
            else f"There is no machine in {file.name}."
        )
        raise NotThere(what, way_out=f"There are: {there}.")
    return found


def export_arguments(parser: argparse.ArgumentParser) -> None:
    """What ``rebuild export`` takes."""
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument(
        "--to", type=Path, metavar="FOLDER", required=True, help="a new folder, or a name ending in .xlsx"
    )
    parser.add_argument("--photos", action="store_true", help="copy the photos too")


def export(args: argparse.Namespace) -> int:
    """Write everything as plain files, or the lists as a workbook."""
    from rebuild.store.read_only_place import readable

    with readable(args.file) as file:
        return _export(file, args)


def _export(file: Path, args: argparse.Namespace) -> int:
    from rebuild.store.store import Store
    from rebuild.store.unreadable import in_words

    Store.open(
        file, looked_over=False
    ).close()  # an older one is brought up to date; the export looks it over
    if args.to.suffix.lower() == ".xlsx":
        from rebuild.exchange.workbook import export_workbook

        bad: list[BadCell] = []
        rows = export_workbook(file, args.to, found=bad.extend)
        said = f"Written: {args.to}, {counted(rows, 'row')}."
    else:
        from rebuild.exchange.folder import export_folder

        made = export_folder(file, args.to, photos=args.photos, tell=_tell)
        bad = list(made.unreadable)
        photos = f", {made.photos} photos" if made.photos else ""
        count = f"{counted(made.files, 'file')} with {counted(made.rows, 'row')}{photos}"
        said = f"Written: {made.folder}, {count}. README.txt says what is what."
    if bad:
        print(in_words(bad), file=sys.stderr)
    print(said)
    return DONE


def import_arguments(parser: argparse.ArgumentParser) -> None:
    """What ``rebuild import`` takes."""
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument("table", type=Path, metavar="CSV", help="a CSV, a workbook, or an exported folder")
    parser.add_argument("--machine", metavar="NAME", help="where rows go that name no machine")
    parser.add_argument("--look", action="store_true", help="only say how each row would go; store nothing")
    parser.add_argument("--sure", action="store_true", help="take readings that look odd as they are")
    parser.add_argument(
        "--keep-bad", action="store_true", help="put rows that cannot be stored into the kept entries"
    )


def bring_in(args: argparse.Namespace) -> int:
    """Import a part list or readings."""
    from rebuild.exchange.guess import batches_of
    from rebuild.exchange.whole_in import is_whole
    from rebuild.store.store import Store
    from rebuild.work.lists import acts as importing

    if is_whole(args.table):
        return _bring_in_whole(args)
    batches = batches_of(args.table)
    machine_id = _where_to(args.file, args.machine)
    store = Store.open(args.file)
    try:
        looked = importing.look_over(store, machine_id, batches)
        bad = [row for row in looked if row.trouble and not (row.odd and args.sure)]
        for row in bad[:MOST]:
            print(f"{row.what.value}, row {row.line.number}: {row.trouble}")
        if len(bad) > MOST:
            print(f"… and {len(bad) - MOST} more rows.")
        if args.look or (bad and not args.keep_bad):
            good = len(looked) - len(bad)
            print(
                f"{args.table.name}: {good} of {counted(len(looked), 'row')} can be stored. Nothing was stored."
            )
            return FOUND if bad else DONE
        made = importing.bring_in(store, machine_id, batches, confirmed=args.sure, keep_bad=args.keep_bad)
    finally:
        store.close()
    kept = f" {counted(made.kept, 'row')} in the kept entries." if made.kept else ""
    print(f"Stored in one act: {made.words}.{kept}")
    return FOUND if made.kept else DONE


def _bring_in_whole(args: argparse.Namespace) -> int:
    """An exported folder, every table of it."""
    from rebuild.exchange.whole_in import bring_in_folder, read_whole
    from rebuild.store.store import Store

    if args.look:
        print(
            f"{args.table.name}: all {read_whole(args.table).count} rows can be stored. Nothing was stored."
        )
        return DONE
    store = Store.open(args.file)
    try:
        came = bring_in_folder(store, args.table)
    finally:
        store.close()
    photos = f" {came.photos} photos came with it." if came.photos else ""
    lacking = f" {came.lacking} photos lie nowhere in the folder." if came.lacking else ""
    print(f"Stored in one act: {came.words}.{photos}{lacking}")
    return DONE


def _where_to(file: Path, name: str | None) -> int | None:
    """The machine rows go to: the one named, or the only one there is."""
    if name is not None:
        return _chosen(file, name)[0].id
    from rebuild.store.store import Store
    from rebuild.work.machines import rows_tree as tree

    store = Store.open(file)
    try:
        with store.read() as connection:
            machines = tree.machines(connection)
    finally:
        store.close()
    return machines[0].id if len(machines) == 1 else None
