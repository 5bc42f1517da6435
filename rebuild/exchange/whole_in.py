"""An exported folder read back whole, with its photos; a list edited since then speaks for itself instead."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from rebuild.errors import FileTrouble, Stopped
from rebuild.exchange.folder import EVERYTHING
from rebuild.store import schema
from rebuild.store.beside import Tell, unheard
from rebuild.store.photo_copies import NAME_FILES, copy_photos
from rebuild.store.photo_names import is_photo_name
from rebuild.store.photos import photo_folder, photo_path
from rebuild.store.store import Store
from rebuild.work.lists.acts_whole import bring_in_whole
from rebuild.work.lists.fields import What
from rebuild.work.lists.whole import Whole, whole_of

#: No shop's export is larger [bytes].
MOST_BYTES = 1_000_000_000
#: The lists are written just before everything; a list younger than that by more [s] was edited.
_SLACK_S = 2.0
#: Of the whole way in, while there are photos: copying them waits for the disk at each.
PHOTOS_SHARE = 0.6


@dataclass(frozen=True, slots=True)
class Came:
    """What came in, in words; photos that came with it, and those that lay nowhere."""

    words: str
    photos: int
    lacking: int


def is_whole(folder: Path) -> bool:
    """Whether a folder is an export that nobody has edited since."""
    everything = folder / EVERYTHING
    if not everything.is_file():
        return False
    written = everything.stat().st_mtime
    lists = [folder / f"{what.value}.csv" for what in What]
    return all(path.stat().st_mtime <= written + _SLACK_S for path in lists if path.is_file())


def read_whole(folder: Path) -> Whole:
    """Everything an exported folder holds.

    Raises:
        FileTrouble: it cannot be read, or a newer program wrote it.
        BadEntry: a value in it is none this program stores.
    """
    path = folder / EVERYTHING
    try:
        if path.stat().st_size > MOST_BYTES:
            raise ValueError(f"more than {MOST_BYTES // 1_000_000} MB")
        said = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError) as trouble:
        raise FileTrouble(
            f"cannot be read ({' '.join(str(trouble).split())[:100]}).",
            where=path.name,
            way_out="Export again, or import one of the lists beside it.",
        ) from trouble
    return whole_of(_records(said, path))


def _records(said: Any, path: Path) -> dict[str, list[dict[str, object]]]:
    records: Any = said.get("records") if isinstance(said, dict) else None
    if not isinstance(records, dict) or not all(
        isinstance(rows, list) and all(isinstance(row, dict) for row in rows) for rows in records.values()
    ):
        raise FileTrouble("is no export of this program.", where=path.name, way_out="Choose another folder.")
    newest = str(said.get("schema", ""))
    if newest > schema.HEAD:
        raise FileTrouble(
            f"was written by a newer program (schema {newest[:12]}; this one knows up to {schema.HEAD}).",
            where=path.name,
            way_out="Import it with that one.",
        )
    return dict(records)


def bring_in_folder(store: Store, folder: Path, tell: Tell = unheard) -> Came:
    """Everything of an exported folder into the file, in one act, its photos beside it.

    Raises as ``read_whole``, and Stopped when ``tell`` said so; a photo copied by then lies there and is used when it
    comes again.
    """
    whole = read_whole(folder)
    source = folder / "project"
    named = _photos(whole)
    here = [pair for pair in named if photo_path(source, *pair).is_file()]
    of_photos = PHOTOS_SHARE if here else 0.0
    try:
        copied = copy_photos(source, photo_folder(store.path), here, partial(_go_on, tell, of_photos))
    except OSError as trouble:
        raise FileTrouble(
            f"photos could not be copied ({trouble.strerror or 'the disk reports an error'}).",
            where=folder.name,
            way_out="Nothing was stored.",
        ) from trouble
    words = bring_in_whole(store, whole, lambda share, at: tell(of_photos + (1 - of_photos) * share, at))
    return Came(words, copied, len(named) - len(here))


def _go_on(tell: Tell, whole: float, share: float) -> None:
    if not tell(whole * share, "Copying the photos"):
        raise Stopped("It was stopped; nothing was stored.")


def _photos(whole: Whole) -> list[tuple[str, str]]:
    pairs: set[tuple[str, str]] = set()
    for table in whole.tables:
        if table.name in NAME_FILES:
            sha, ending = table.columns.index("sha256"), table.columns.index("ending")
            pairs |= {(str(row[sha]), str(row[ending])) for row in table.rows}
    return sorted(pair for pair in pairs if is_photo_name(*pair))
