"""Which files may be taken in as photos: what each is, read whole, or the sentence why it is none.

A file may be anything: a folder, a pipe, a text, a picture cut in half by a full card, one made to fill the memory.
"""

from __future__ import annotations

import datetime as dt
import io
import struct
import warnings
import zlib
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry
from rebuild.trade.schedule.dates import in_sense

if TYPE_CHECKING:
    from PIL.Image import Image

#: Kinds of file taken in: what Pillow calls them, and the ending they are kept under.
#: An MPO is a JPEG with further pictures behind the first, which is the one shown.
KINDS = {
    "JPEG": ".jpg", "MPO": ".jpg", "PNG": ".png", "WEBP": ".webp", "TIFF": ".tif", "BMP": ".bmp", "HEIF": ".heic",
}  # fmt: skip
#: Endings such files have.
ENDINGS = (".jpg", ".jpeg", ".mpo", ".heic", ".heif", ".png", ".webp", ".tif", ".tiff", ".bmp")
#: Larger ones are no photos of a shop: the memory they need is refused before it is taken.
MOST_BYTES = 300_000_000
MOST_PIXELS = {".jpg": 170_000_000}  # read at an eighth
MOST_PIXELS_ELSE = 100_000_000
_TAKEN = (36867, 36868, 306)  # Exif DateTimeOriginal, DateTimeDigitized, DateTime
_MAKER, _MODEL = 271, 272  # Exif Make, Model
_WAY_OUT = "Take in JPEG, HEIC, PNG, WebP or TIFF."
#: What Pillow's readers let through for files that are damaged, besides its own errors (which are OSErrors).
DAMAGE = (
    ArithmeticError, AttributeError, EOFError, LookupError, MemoryError, NotImplementedError, OSError,
    RuntimeError, SyntaxError, TypeError, ValueError, struct.error, zlib.error,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Picture:
    """One file read as a photo: its bytes and kind, size in pixels, and the camera's own date if it has one.

    ``cut`` says that its end is missing; what there is of it is a photo all the same.
    """

    content: bytes
    ending: str
    file_name: str
    width: int
    height: int
    taken_at: dt.datetime | None
    file_dated: dt.datetime | None
    cut: bool
    camera: str = ""

    def note(self) -> str:
        """What must be known about it: the file's own date is not when it was taken."""
        said = []
        if self.taken_at is None and self.file_dated is not None:
            said.append(f"The camera left no date; the file is of {self.file_dated:%Y-%m-%d %H:%M}.")
        if self.cut:
            said.append("Its end is missing: the file was cut short before it was taken in.")
        return " ".join(said)


def read_picture(path: Path) -> Picture:
    """A file as a photo. Raises BadEntry when it is none."""
    content = _content(path)
    from PIL import Image

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(content), formats=formats_of(content)) as image:
                kind, (width, height) = image.format or "", image.size
                if width * height > MOST_PIXELS.get(KINDS[kind], MOST_PIXELS_ELSE):
                    raise _refused(path, f"is {width} × {height} pixels, more than any photo.")
                taken, camera = _camera_date(image), _camera_name(image)
                cut = _is_cut(image)
    except Image.DecompressionBombError as trouble:
        raise _refused(path, "claims more pixels than any photo has.") from trouble
    except DAMAGE as trouble:
        raise _refused(path, "is not a photo that can be read.") from trouble
    name = path.name.encode(errors="replace").decode()
    return Picture(content, KINDS[kind], name, width, height, taken, _file_date(path), cut, camera)


def formats_of(content: bytes) -> tuple[str, ...]:
    """What Pillow may take a file for; the reader of a phone's HEIF pictures is imported for the first of them."""
    if content[4:8] != b"ftyp":
        return tuple(kind for kind in KINDS if kind not in ("HEIF", "MPO"))  # an MPO is opened as a JPEG
    from pi_heif import register_heif_opener

    register_heif_opener()
    return ("HEIF",)


def opened(path: Path) -> Image:
    """A kept photo opened by Pillow, to be closed by the caller.

    Raises:
        OSError: it cannot be read.
    """
    from PIL import Image

    if not path.is_file():  # a pipe would be waited for
        raise OSError(0, "it is no ordinary file")
    with path.open("rb") as file:
        head = file.read(12)
    return Image.open(path, formats=formats_of(head))


def _content(path: Path) -> bytes:
    try:
        if not path.exists():
            raise _refused(path, "is not there.")
        if not path.is_file():
            raise _refused(path, "is no file with a photo.")
        if path.stat().st_size > MOST_BYTES:
            raise _refused(path, f"is larger than {MOST_BYTES // 1_000_000} MB.")
        return path.read_bytes()
    except OSError as trouble:
        raise _refused(path, f"is not a photo that can be read ({trouble.strerror}).") from trouble


def _refused(path: Path, what: str) -> BadEntry:
    name = path.name.encode(errors="replace").decode()
    return BadEntry(what, where="Photo", value=name, way_out=_WAY_OUT)


def _is_cut(image: Image) -> bool:
    """Whether the picture ends before its last line; read at an eighth of its size where the kind allows it."""
    image.draft("L", (max(1, image.width // 8), max(1, image.height // 8)))
    try:
        image.load()
    except OSError as trouble:
        if "truncated" in str(trouble) or "unrecognized data stream" in str(trouble):
            return True
        raise
    return False


def _camera_date(image: Image) -> dt.datetime | None:
    """When the camera says it was taken; a photo whose notes are damaged is a photo all the same."""
    try:
        exif = image.getexif()
        tags = dict(exif.get_ifd(0x8769)) | dict(exif)
    except DAMAGE:
        return None
    for tag in _TAKEN:
        try:
            taken = dt.datetime.strptime(str(tags.get(tag, "")), "%Y:%m:%d %H:%M:%S")  # noqa: DTZ007
        except ValueError:
            continue
        if in_sense(taken):  # a clock nobody set may tell any year
            return taken
    return None


def _camera_name(image: Image) -> str:
    """What the camera calls itself, so that its clock can be put right once."""
    try:
        exif = image.getexif()
        words = (str(exif.get(tag, "")).replace("\0", " ").strip() for tag in (_MAKER, _MODEL))
    except DAMAGE:
        return ""
    return " ".join(" ".join(filter(None, words)).split())[:80]


def _file_date(path: Path) -> dt.datetime | None:
    try:
        return dt.datetime.fromtimestamp(path.stat().st_mtime).replace(microsecond=0)  # noqa: DTZ006
    except (OSError, OverflowError, ValueError):
        return None
