"""A whole project as a folder of plain CSV and JSON with a note that says what is what."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from rebuild import __version__
from rebuild.errors import FileTrouble
from rebuild.exchange.cells import cell_text
from rebuild.exchange.note import note
from rebuild.store import schema
from rebuild.store.photo_copies import copy_photos, wanted_photos
from rebuild.store.photos import photo_folder
from rebuild.store.reading import reading
from rebuild.work.lists.rows_everything import Listing, everything
from rebuild.work.lists.rows_lists import lists

RECORDS, EVERYTHING, NOTE = "records", "everything.json", "README.txt"


@dataclass(frozen=True, slots=True)
class Exported:
    """What was written: the folder, how many files and rows, and photos."""

    folder: Path
    files: int
    rows: int
    photos: int = 0


def export_folder(
    store_path: Path,
    target: Path,
    *,
    photos: bool = False,
    told: Callable[[str], bool] | None = None,
) -> Exported:
    """Write everything of a project into a new folder: lists that can be imported again, every record, one JSON file.

    ``told`` hears what is being written; False stops it, and what was written so far stays.

    Raises:
        FileTrouble: there is such a folder already with something in it, or it cannot be written.
    """
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise FileTrouble(
            "is there already and not empty.", where=target.name, way_out="Choose a new folder."
        )
    tell = told or (lambda words: True)
    try:
        with reading(store_path) as connection:
            (target / RECORDS).mkdir(parents=True, exist_ok=True)
            listed = lists(connection)
            written = list(_written(target, listed, tell))
            records = list(everything(connection))
            written += _written(target / RECORDS, records, tell)
        _json(target / EVERYTHING, records)
        (target / NOTE).write_text(note(listed, records), encoding="utf-8")
        kept = _photos(store_path, target) if photos else 0
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be written ({trouble.strerror or trouble}).",
            where=target.name,
            way_out="Choose another folder.",
        ) from trouble
    return Exported(target, len(written) + 2, sum(written), kept)


def _written(folder: Path, listings: Iterable[Listing], tell: Callable[[str], bool]) -> Iterable[int]:
    for listing in listings:
        if not tell(listing.word):
            raise FileTrouble(
                "was stopped.", where="Export", way_out="What was written so far is in the folder."
            )
        yield write_csv(folder / f"{listing.name}.csv", listing)


def write_csv(path: Path, listing: Listing) -> int:
    """One listing as CSV (UTF-8, commas, first row the headings); returns how many rows. Raises OSError."""
    with path.open("w", encoding="utf-8-sig", newline="") as file:
        writer = csv.writer(file)
        writer.writerow([head.words for head in listing.heads])
        writer.writerows([[cell_text(value) for value in row] for row in listing.rows])
    return len(listing.rows)


def _json(path: Path, records: Iterable[Listing]) -> None:
    tables = {
        listing.name: [
            {head.column: value for head, value in zip(listing.heads, row, strict=True)}
            for row in listing.rows
        ]
        for listing in records
    }
    whole = {
        "what": "everything of one Rebuild project",
        "schema": schema.HEAD,
        "program": __version__,
        "records": tables,
    }
    path.write_text(json.dumps(whole, ensure_ascii=False, indent=1), encoding="utf-8")


def _photos(store_path: Path, target: Path) -> int:
    """Photos beside the lists, under the names the records give them. Raises OSError."""
    wanted = [pair for pair in wanted_photos(store_path) if (photo_folder(store_path) / pair[0][:2]).is_dir()]
    return copy_photos(store_path, photo_folder(target / "project"), wanted)
