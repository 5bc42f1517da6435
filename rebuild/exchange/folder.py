"""A whole project as a folder of plain CSV and JSON with a note that says what is what."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.exchange.cells import cell_texts, to_be_looked_at
from rebuild.exchange.everything_json import Beside, JsonFile
from rebuild.exchange.note import Written, note
from rebuild.store.beside import Tell, unheard
from rebuild.store.photo_copies import copy_photos, wanted_photos
from rebuild.store.photos import photo_folder
from rebuild.store.reading import reading
from rebuild.store.unreadable import BadCell
from rebuild.work.lists.rows_everything import Listing, everything, how_many
from rebuild.work.lists.rows_lists import lists

#: By it a spreadsheet knows UTF-8.
BOM = "\N{ZERO WIDTH NO-BREAK SPACE}"
#: Rows written at a time, and between two words about how far it is.
CHUNK = 500
#: Hears how many more rows were written, and of what; may raise to stop.
Heard = Callable[[int, str], None]

RECORDS, EVERYTHING, NOTE = "records", "everything.json", "README.txt"


@dataclass(frozen=True, slots=True)
class Exported:
    """What was written: the folder, how many files and rows, photos, and cells that could not be read."""

    folder: Path
    files: int
    rows: int
    photos: int = 0
    unreadable: tuple[BadCell, ...] = ()


def export_folder(
    store_path: Path,
    target: Path,
    *,
    photos: bool = False,
    tell: Tell = unheard,
) -> Exported:
    """Write everything of a project into a new folder: lists that can be imported again, every record, one JSON file.

    Rows are written as they are read, so that a file of any size needs the same memory. ``tell`` hears how far it is
    and what is being written; False stops it, and what was written so far stays.

    Raises:
        FileTrouble: there is such a folder already with something in it, or it cannot be written.
    """
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise FileTrouble(
            "is there already and not empty.", where=target.name, way_out="Choose a new folder."
        )
    found: list[BadCell] = []
    try:
        with reading(store_path, found.extend) as connection:
            (target / RECORDS).mkdir(parents=True, exist_ok=True)
            heard = _Heard(tell, how_many(connection))
            listed = [(one, write_csv(target / f"{one.name}.csv", one, heard)) for one in lists(connection)]
            records = _records(target, everything(connection), heard)
        (target / NOTE).write_text(note(listed, records), encoding="utf-8")
        kept = _photos(store_path, target) if photos else 0
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be written ({trouble.strerror or trouble}).",
            where=target.name,
            way_out="Choose another folder.",
        ) from trouble
    written = [rows for _listing, rows in (*listed, *records)]
    return Exported(target, len(written) + 2, sum(written), kept, tuple(found))


class _Heard:
    """Counts rows as they go and tells the share of them; the lists and the records hold most rows once each."""

    def __init__(self, tell: Tell, records: int) -> None:
        self._tell, self._whole, self._done = tell, max(2 * records, 1), 0

    def __call__(self, rows: int, words: str) -> None:
        self._done += rows
        if not self._tell(min(self._done / self._whole, 1.0), words):
            raise FileTrouble(
                "was stopped.", where="Export", way_out="What was written so far is in the folder."
            )


def write_csv(
    path: Path,
    listing: Listing,
    heard: Heard = lambda _rows, _words: None,
    beside: Beside = lambda _rows: None,
) -> int:
    """One listing as CSV (UTF-8, commas, first row the headings); returns how many rows.

    ``heard`` is told how many more rows were written and the listing's word and may raise to stop; ``beside`` is
    handed the same rows. Raises OSError.
    """
    rows, count = iter(listing.rows), 0
    heard(0, listing.word)
    looked_at = to_be_looked_at(head.holds for head in listing.heads)
    with path.open("w", encoding="utf-8", newline="") as file:
        file.write(BOM)  # the codec that writes it by itself does so in Python, cell by cell
        writer = csv.writer(file)
        writer.writerow([head.words for head in listing.heads])
        while chunk := list(islice(rows, CHUNK)):
            writer.writerows([cell_texts(row, looked_at) for row in chunk])
            beside(chunk)
            count += len(chunk)
            heard(len(chunk), listing.word)
    return count


def _records(target: Path, records: Iterable[Listing], heard: Heard) -> list[Written]:
    """Every record as CSV and, in the same walk, in one JSON file, which gets its name when it is whole."""
    half = target / f"{EVERYTHING}.half"
    with half.open("w", encoding="utf-8") as file:
        whole = JsonFile(file)
        written = []
        for listing in records:
            with whole.table(listing) as beside:
                rows = write_csv(target / RECORDS / f"{listing.name}.csv", listing, heard, beside)
            written.append((listing, rows))
        whole.end()
    half.replace(target / EVERYTHING)
    return written


def _photos(store_path: Path, target: Path) -> int:
    """Photos beside the lists, under the names the records give them. Raises OSError."""
    wanted = [pair for pair in wanted_photos(store_path) if (photo_folder(store_path) / pair[0][:2]).is_dir()]
    return copy_photos(store_path, photo_folder(target / "project"), wanted)
