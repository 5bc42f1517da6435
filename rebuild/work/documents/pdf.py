"""A PDF read by PDFium: how many pages, the words of each, a page as a picture. One thread at a time.

PDFium is not safe on two threads at once, so every use of it lies behind one lock, however many threads ask.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from threading import RLock
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry

if TYPE_CHECKING:
    from pypdfium2 import PdfDocument

_LOCK = RLock()
#: What PDFium says of a file it cannot open (FPDF_GetLastError, fpdfview.h).
_FILE, _FORMAT, _PASSWORD, _SECURITY = 2, 3, 4, 5
#: Words of one page that are kept; no printed page has more.
MOST_LETTERS = 40_000
#: A picture of a page has no more pixels, however large the sheet [pixels].
MOST_PIXELS = 12_000_000
POINTS_PER_INCH = 72.0


@dataclass(frozen=True, slots=True)
class PageRead:
    """One page of a PDF: its number in the file from 0, the number printed, size in points, and its words."""

    inner: int
    label: str
    width: float
    height: float
    words: str


@dataclass(frozen=True, slots=True)
class PagePicture:
    """A page drawn: ``width`` x ``height`` pixels of red, green, blue, a line every ``stride`` bytes."""

    width: int
    height: int
    stride: int
    pixels: bytes


class OpenPdf:
    """A PDF held open; between two questions another thread may draw from another one."""

    def __init__(self, path: Path, document: PdfDocument) -> None:
        self._path, self._document = path, document
        with _LOCK:
            self.count = len(document)

    def read(self, inner: int) -> PageRead:
        """The size and words of one page; one that is damaged has no words."""
        import pypdfium2

        with _LOCK:
            try:
                page = self._document[inner]
                width, height = page.get_size()
                label = self._document.get_page_label(inner) or ""
            except pypdfium2.PdfiumError:
                return PageRead(inner, "", 595.0, 842.0, "")
            try:
                words = page.get_textpage().get_text_range()
            except pypdfium2.PdfiumError:
                words = ""
            return PageRead(inner, _clean(label)[:40], width, height, _clean(words)[:MOST_LETTERS])

    def unlocked(self) -> bytes:
        """The whole file as it is once opened, without its password. Raises BadEntry."""
        import pypdfium2
        from pypdfium2.raw import FPDF_REMOVE_SECURITY

        made = BytesIO()
        with _LOCK:
            try:
                self._document.save(made, flags=FPDF_REMOVE_SECURITY)
            except pypdfium2.PdfiumError as trouble:
                raise _refused(
                    self._path.name, "cannot be kept without its lock.", "Print it to a new PDF."
                ) from trouble
        return made.getvalue()

    def picture(self, inner: int, width_px: int) -> PagePicture:
        """A page drawn ``width_px`` wide, or less where that would be too many pixels. Raises BadEntry."""
        import pypdfium2

        with _LOCK:
            try:
                page = self._document[inner]
                wide, high = page.get_size()
                scale = max(1, width_px) / max(1.0, wide)
                scale = min(scale, (MOST_PIXELS / max(1.0, wide * high)) ** 0.5)
                drawn = page.render(scale=scale, rev_byteorder=True)
            except (pypdfium2.PdfiumError, IndexError) as trouble:
                name = f"{self._path.name[:12]}…, page {inner + 1}"
                raise _refused(name, "cannot be drawn.", "Take the file in again.") from trouble
            return PagePicture(drawn.width, drawn.height, drawn.stride, bytes(drawn.buffer))


class Locked(BadEntry):
    """A PDF wants a password, or another one than was given."""


@contextmanager
def opened(path: Path, password: str = "") -> Iterator[OpenPdf]:
    """A PDF, to be asked for pages. Raises BadEntry when it cannot be read, Locked when it wants a password."""
    import pypdfium2

    with _LOCK:
        try:
            document = pypdfium2.PdfDocument(path, password=password or None)
        except FileNotFoundError as trouble:
            raise _refused(path.name, "is not there.", "Choose the file again.") from trouble
        except pypdfium2.PdfiumError as trouble:
            if trouble.err_code == _PASSWORD:
                raise _locked(path.name, tried=bool(password)) from trouble
            raise _refused(path.name, *_WHY.get(trouble.err_code or 0, _DAMAGED)) from trouble
    try:
        yield OpenPdf(path, document)
    finally:
        with _LOCK:
            document.close()


_DAMAGED = (
    "is not a PDF that can be read: it is damaged or cut short.",
    "Copy or download it again; or print it to a new PDF with a reader that can open it.",
)
_WHY = {
    _SECURITY: ("is locked in a way no reader here knows.", "Print it to a new PDF and take that in."),
    _FILE: ("cannot be read from where it lies.", "Copy it to this computer first."),
    _FORMAT: _DAMAGED,
}


def _refused(name: str, what: str, way_out: str) -> BadEntry:
    shown = name.encode(errors="replace").decode()
    return BadEntry(what, where="Manual", value=shown, way_out=way_out)


def _locked(name: str, *, tried: bool) -> Locked:
    what = "is not opened by that password." if tried else "is locked with a password."
    way_out = "Type its password; it is kept nowhere. Or print it to a new PDF with a reader that opens it."
    return Locked(what, where="Manual", value=name.encode(errors="replace").decode(), way_out=way_out)


def _clean(text: str) -> str:
    """Words as a file can hold them: hyphens a line was broken at are closed, half signs and noughts are left out."""
    closed = text.replace("\ufffe", "-").replace("\x02", "-").replace("\x00", "")
    whole = closed.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    return "\n".join(" ".join(line.split()) for line in whole.splitlines()).strip()


def page_picture(path: Path, inner: int, width_px: int) -> PagePicture:
    """A page of a file drawn, as ``OpenPdf.picture``. Raises BadEntry."""
    with opened(path) as document:
        return document.picture(inner, width_px)
