"""Which files may be taken in as manuals, and each read page by page; or the sentence why not."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from rebuild.errors import BadEntry, Stopped
from rebuild.store.photos import put_file, put_photo
from rebuild.work.documents.pdf import opened
from rebuild.work.photos.rules_pictures import ENDINGS as PICTURES, read_picture

#: Larger ones are refused: every backup carries the file once more.
MOST_BYTES = 400_000_000
MOST_PAGES = 5_000
PDF = ".pdf"
#: Hears how far it is (0 to 1) and a few words; False asks to stop.
Tell = Callable[[float, str], bool]


@dataclass(frozen=True, slots=True)
class KeptPage:
    """One page read: the file it lies in, which page of that from 0, its size, printed number and words."""

    sha256: str
    ending: str
    inner: int
    width: float
    height: float
    label: str
    words: str


@dataclass(frozen=True, slots=True)
class KeptDocument:
    """One manual read and kept beside the project, not yet noted."""

    file_name: str
    name: str
    pages: tuple[KeptPage, ...]

    @property
    def wordless(self) -> int:
        """How many pages have no words: pictures of print, which no search finds."""
        return sum(not page.words for page in self.pages)


def keep(project: Path, paths: Sequence[Path], tell: Tell, password: str = "") -> KeptDocument:
    """Read a PDF, or scans as the pages of one manual in their order. Notes nothing: it may run on any thread.

    A locked PDF is kept as its password opened it; the password itself is kept nowhere.

    Raises:
        Locked: it wants a password, or another one.
        BadEntry: no PDF or picture, damaged, too large, or too many pages; nothing is kept.
        FileTrouble: the folder beside the project cannot be written.
        Stopped: ``tell`` said so.
    """
    if not paths:
        raise BadEntry("is empty.", where="Manual", way_out="Choose a PDF, or the scans of its pages.")
    pdfs = [path for path in paths if path.suffix.lower() == PDF]
    if pdfs and len(paths) > 1:
        raise _refused(pdfs[0], "is a PDF among other files.", "Take each PDF in by itself, scans together.")
    for path in paths:
        _look_at(path)
    pages = _of_pdf(project, pdfs[0], tell, password) if pdfs else _of_scans(project, paths, tell)
    first = paths[0]
    return KeptDocument(_shown(first), _named(first if pdfs or len(paths) == 1 else first.parent), pages)


def _named(path: Path) -> str:
    """What a manual is called at first: its file's name without what computers put in it."""
    return " ".join(path.stem.replace("_", " ").split()).encode(errors="replace").decode()[:200] or "manual"


def _look_at(path: Path) -> None:
    if path.suffix.lower() not in (PDF, *PICTURES):
        raise _refused(
            path, "is neither a PDF nor a picture of a page.", "Print it to a PDF and take that in."
        )
    try:
        if not path.is_file():
            raise _refused(path, "is not there.", "Choose the file again.")
        size = path.stat().st_size
    except OSError as trouble:
        raise _refused(
            path, f"cannot be read ({trouble.strerror}).", "Copy it to this computer first."
        ) from trouble
    if size > MOST_BYTES:
        raise _refused(
            path,
            f"is {size / 1e6:.0f} MB, more than the {MOST_BYTES / 1e6:.0f} MB taken in: every backup would carry it.",
            "Print the chapters you need into a smaller PDF, or save it at fewer dots per inch.",
        )


def _refused(path: Path, what: str, way_out: str) -> BadEntry:
    return BadEntry(what, where="Manual", value=_shown(path), way_out=way_out)


def _shown(path: Path) -> str:
    return path.name.encode(errors="replace").decode()


def _of_pdf(project: Path, path: Path, tell: Tell, password: str) -> tuple[KeptPage, ...]:
    with opened(path, password) as document:
        count = document.count
        if not 0 < count <= MOST_PAGES:
            what = "has no page." if not count else f"has {count} pages, more than {MOST_PAGES}."
            raise _refused(path, what, "Print the part you need to a new PDF.")
        read = []
        for inner in range(count):
            if not tell(inner / count, f"Page {inner + 1} of {count}"):
                raise Stopped("Taking the manual in was stopped; nothing was stored.")
            read.append(document.read(inner))
        unlocked = document.unlocked() if password else b""
    sha256 = put_photo(project, unlocked, PDF) if password else put_file(project, path, PDF)
    return tuple(
        KeptPage(sha256, PDF, page.inner, page.width, page.height, _other(page.label, page.inner), page.words)
        for page in read
    )


def _other(label: str, inner: int) -> str:
    """The number printed on a page, where it is another than its place in the file."""
    return "" if label == str(inner + 1) else label


def _of_scans(project: Path, paths: Sequence[Path], tell: Tell) -> tuple[KeptPage, ...]:
    if len(paths) > MOST_PAGES:
        raise _refused(paths[0], f"is one of {len(paths)}, more than {MOST_PAGES}.", "Take them in in parts.")
    kept = []
    for at, path in enumerate(paths):
        if not tell(at / len(paths), f"Page {at + 1} of {len(paths)}"):
            raise Stopped("Taking the manual in was stopped; nothing was stored.")
        picture = read_picture(path)
        sha256 = put_photo(project, picture.content, picture.ending)
        kept.append(KeptPage(sha256, picture.ending, 0, picture.width, picture.height, "", ""))
    return tuple(kept)
