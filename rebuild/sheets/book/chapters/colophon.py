"""With what the book was made, and from which state of the file."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild import __version__
from rebuild.sheets.book.flow import chapter_of, prose
from rebuild.sheets.book.options import BookOptions
from rebuild.work.book.rows import BookData


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """The last words."""
    as_of = f"{book.as_of:%Y-%m-%d %H:%M:%S}" if book.as_of is not None else "an empty file"
    left_out = [
        words
        for words, there in (
            ("cost", options.cost),
            ("photos", options.photos or not book.photos),
            ("the bench log", options.log),
        )
        if not there
    ]
    said = (
        f"Made by Rebuild {__version__} from the project file as it stood after its act no. "
        f"{book.bench.journal.acts} at {as_of}. The same file gives the same book, to the byte. Figures and plots "
        "are drawn as lines and can be enlarged at will."
    )
    if left_out:
        said += f" Left out by choice: {', '.join(left_out)}."
    return chapter_of("Colophon", "colophon", [prose(said)])
