"""Build the book: read at one moment, chapters, one pass over the pages; with progress, and it can be stopped."""

from __future__ import annotations

import os
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import cast

from reportlab.platypus import Flowable

from rebuild import __version__
from rebuild.errors import FileTrouble
from rebuild.sheets import fonts
from rebuild.sheets.book.chapters import CHAPTERS
from rebuild.sheets.book.options import BookOptions, Cancelled, Progress
from rebuild.sheets.book.pages import BookPages, Cover
from rebuild.sheets.paper import paper
from rebuild.store.reading import reading
from rebuild.work.book.rows import BookData, read_book

Chapter = Callable[[BookData, BookOptions], list[Flowable]]

#: Shares of the whole: reading, chapters, the rest is pages.
_READ, _COMPOSED = 0.15, 0.4


def build_book(
    store_path: Path,
    machine_id: int,
    target: Path,
    options: BookOptions | None = None,
    progress: Progress | None = None,
) -> Path:
    """Write the book of one machine to ``target`` and return it; safe to run beside an open window.

    The file is written under another name and renamed when it is whole.

    Raises:
        Cancelled: ``progress`` returned False; nothing is left behind.
        NotThere: the machine is gone.
        FileTrouble: the project cannot be read, or the book not written.
    """
    chosen, tell = options or BookOptions(), _teller(progress)
    tell(0.0, "reading the file")
    with reading(store_path) as connection:
        book = read_book(connection, machine_id, store_path)
    tell(_READ, "putting the chapters together")
    story = compose(book, chosen, tell)
    unfinished = target.with_name(f"{target.name}.{os.getpid()}.part")
    try:
        write(
            book, story, chosen, unfinished, lambda share: tell(_COMPOSED + share * (1 - _COMPOSED), "pages")
        )
        unfinished.replace(target)
    except OSError as trouble:
        raise FileTrouble(
            f"the book cannot be written ({trouble.strerror}).",
            where=target.name,
            way_out="Close it where it is open, or choose another folder.",
        ) from trouble
    finally:
        unfinished.unlink(missing_ok=True)
    return target


def compose(book: BookData, options: BookOptions, tell: Callable[[float, str], None]) -> list[Flowable]:
    """The whole story: the title page, then every chapter that has something to say."""
    fonts.register()
    modules = ("title", *CHAPTERS)
    story: list[Flowable] = []
    for at, name in enumerate(modules):
        tell(_READ + (_COMPOSED - _READ) * at / len(modules), name.replace("_", " "))
        made = cast(Chapter, import_module(f"rebuild.sheets.book.chapters.{name}").chapter)
        story += made(book, options)
    return story


def write(
    book: BookData,
    story: list[Flowable],
    options: BookOptions,
    target: Path,
    told: Callable[[float], None],
) -> int:
    """Lay a story out on paper; returns how many pages it takes. Raises OSError."""
    on = paper(options.paper)
    known = ", ".join(filter(None, (book.name, book.identity.get("year", ""))))
    cover = Cover(f"{known}: the machine’s book", book.owner, book.kind.value, f"Rebuild {__version__}")
    return BookPages(target, cover, on, told).lay_out(story, cover, on)


def _teller(progress: Progress | None) -> Callable[[float, str], None]:
    def tell(share: float, words: str) -> None:
        if progress is not None and not progress(share, words):
            raise Cancelled("The book was stopped before it was whole; nothing was written.")

    return tell
