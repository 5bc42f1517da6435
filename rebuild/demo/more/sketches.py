"""What the demo's owner would have photographed, drawn instead: marks, shim packs, which way up; taken in as photos."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.demo.built import Built, at
from rebuild.trade.results.tables import assets_folder
from rebuild.words.photos import MarkKind, PhotoPhase
from rebuild.work.editing.acts import edit
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import mark_photo
from rebuild.work.photos.acts_take import take_in

if TYPE_CHECKING:
    from PIL import ImageDraw, ImageFont

WIDTH, HEIGHT = 720, 480
PAPER, INK, PENCIL = 244, 40, 120


@dataclass(frozen=True, slots=True)
class Drawn:
    """One drawing: whose it is (machine, part code), when, what it shows, how it is drawn, its marks."""

    name: str
    machine: int
    part: str
    day: str
    phase: PhotoPhase
    proves: str
    draw: Callable[[ImageDraw.ImageDraw], None]
    marks: tuple[tuple[MarkKind, float, float, float, float, str], ...]


@cache
def _letters(size: int) -> ImageFont.FreeTypeFont:
    from PIL import ImageFont

    return ImageFont.truetype(str(assets_folder() / "fonts" / "DejaVuSansCondensed.ttf"), size)


def _word(pen: ImageDraw.ImageDraw, x: float, y: float, text: str, size: int = 22) -> None:
    pen.text((x, y), text, fill=PENCIL, font=_letters(size))


def _gib(pen: ImageDraw.ImageDraw) -> None:
    pen.rectangle((60, 200, 660, 275), outline=INK, width=4)
    pen.line((60, 255, 660, 255), fill=INK, width=2)
    for x in range(120, 640, 70):
        pen.ellipse((x - 9, 218, x + 9, 236), outline=INK, width=3)
    pen.ellipse((80, 206, 92, 218), fill=INK)
    _word(pen, 60, 150, "front")
    _word(pen, 590, 150, "rear")
    _word(pen, 200, 320, "dimples out, dot to the front")


def _shims(pen: ImageDraw.ImageDraw) -> None:
    leaves = (("0.006", 30), ("0.004", 22), ("0.002", 13), ("0.001 tin", 9), ("0.001 tin", 9))
    y = 360.0
    pen.rectangle((120, 360, 520, 430), outline=INK, width=4)
    _word(pen, 200, 380, "column")
    for text, high in leaves:
        pen.rectangle((120, y - high, 520, y), outline=INK, width=2)
        pen.line((520, y - high / 2, 560, y - high / 2), fill=PENCIL, width=1)
        _word(pen, 566, y - high / 2 - 13, text, 19)
        y -= high + 9
    pen.rectangle((120, y - 90, 520, y), outline=INK, width=4)
    _word(pen, 200, y - 62, "keeper, front end")


def _ram(pen: ImageDraw.ImageDraw) -> None:
    pen.polygon([(70, 330), (150, 210), (610, 210), (660, 250), (660, 330)], outline=INK, width=4)
    pen.line((70, 330, 660, 330), fill=INK, width=4)
    pen.line((300, 255, 420, 255), fill=INK, width=3)
    pen.polygon([(300, 255), (322, 246), (322, 264)], fill=INK)
    pen.rectangle((470, 222, 560, 240), outline=INK, width=2)
    _word(pen, 80, 360, "head end")
    _word(pen, 560, 360, "rear")


def _tubes(pen: ImageDraw.ImageDraw) -> None:
    pen.rectangle((300, 340, 420, 420), outline=INK, width=4)
    _word(pen, 318, 366, "manifold", 20)
    for number, (x, y) in enumerate(((120, 120), (290, 90), (450, 90), (600, 130)), start=1):
        start = 310 + 30 * number - 15
        pen.line((start, 340, start, 250, x, 200, x, y), fill=INK, width=3, joint="curve")
        pen.ellipse((x - 8, y - 16, x + 8, y), outline=INK, width=3)
        _word(pen, x - 6, y - 52, str(number))
    _word(pen, 40, 440, "1 left way  2 hub  3 rocker  4 right way", 20)


def _caps(pen: ImageDraw.ImageDraw) -> None:
    for left, text in ((80, "418 F"), (400, "418 R")):
        pen.arc((left, 170, left + 240, 410), 180, 360, fill=INK, width=4)
        pen.arc((left + 60, 230, left + 180, 350), 180, 360, fill=INK, width=4)
        pen.line((left, 290, left + 60, 290), fill=INK, width=4)
        pen.line((left + 180, 290, left + 240, 290), fill=INK, width=4)
        pen.text((left + 86, 186), text, fill=INK, font=_letters(24))
        for x in (left + 30, left + 210):
            pen.ellipse((x - 10, 256, x + 10, 276), outline=INK, width=2)
    _word(pen, 120, 330, "front bearing")
    _word(pen, 450, 330, "rear bearing")


def _oil_hole(pen: ImageDraw.ImageDraw) -> None:
    pen.ellipse((210, 110, 510, 410), outline=INK, width=4)
    pen.ellipse((270, 170, 450, 350), outline=INK, width=4)
    pen.line((350, 112, 350, 172), fill=INK, width=3)
    pen.line((370, 112, 370, 172), fill=INK, width=3)
    pen.line((510, 260, 450, 260), fill=INK, width=3)
    _word(pen, 520, 248, "split")
    _word(pen, 60, 420, "seen from the chuck")


def _pin(pen: ImageDraw.ImageDraw) -> None:
    pen.ellipse((140, 80, 500, 440), outline=INK, width=4)
    pen.ellipse((270, 210, 370, 310), outline=INK, width=4)
    pen.rectangle((306, 190, 334, 214), outline=INK, width=3)
    pen.ellipse((420, 180, 456, 216), outline=INK, width=4)
    _word(pen, 520, 120, "bull pin at the\nnarrow spoke")
    _word(pen, 520, 400, "key up: pin right")


DRAWN = (
    Drawn("ram gib.png", 0, "RAM-02", "2025-06-14", PhotoPhase.AS_FOUND, "which way the gib goes back", _gib,
          ((MarkKind.MATCH_MARK, 0.12, 0.52, 0.12, 0.44, "one dot"),)),
    Drawn("keeper shims.png", 0, "RAM-08", "2025-06-14", PhotoPhase.AS_FOUND, "front pack, leaf by leaf", _shims,
          ((MarkKind.LABEL, 0.06, 0.1, 0.06, 0.1, "0.014 in found"),)),
    Drawn("ram arrow.png", 0, "RAM-01", "2025-06-14", PhotoPhase.DURING, "arrow to the front on top", _ram,
          ((MarkKind.RING, 0.4, 0.48, 0.6, 0.58, ""),)),
    Drawn("oil tubes.png", 0, "", "2025-07-17", PhotoPhase.QUESTION, "tube 1 was plugged at the pump end", _tubes,
          ((MarkKind.ARROW, 0.32, 0.3, 0.2, 0.36, "plugged"),)),
    Drawn("bearing caps.png", 1, "HS-05", "2026-09-27", PhotoPhase.DURING, "stamped marks of both caps", _caps,
          ((MarkKind.MATCH_MARK, 0.18, 0.33, 0.27, 0.42, "418 F"),
           (MarkKind.MATCH_MARK, 0.62, 0.33, 0.71, 0.42, "418 R"))),
    Drawn("front bush.png", 1, "HS-02", "2026-09-27", PhotoPhase.DURING, "oil hole up, split to the front", _oil_hole,
          ((MarkKind.ARROW, 0.7, 0.12, 0.52, 0.24, "oil hole up"),)),
    Drawn("bull gear.png", 1, "HS-16", "2026-10-12", PhotoPhase.DURING, "where the pin stands to the key", _pin,
          ((MarkKind.RING, 0.56, 0.35, 0.66, 0.48, ""),)),
)  # fmt: skip


def extend(built: Built) -> None:
    """Draw them, take them in as photos of their part, and mark them; one stays in the inbox."""
    with tempfile.TemporaryDirectory() as folder:
        for drawn in DRAWN:
            _take(built, drawn, Path(folder) / drawn.name)


def _take(built: Built, drawn: Drawn, path: Path) -> None:
    from PIL import Image, ImageDraw

    image = Image.new("L", (WIDTH, HEIGHT), PAPER)
    drawn.draw(ImageDraw.Draw(image))
    image.save(path, compress_level=6)
    seconds = at(drawn.day, 15).timestamp()
    os.utime(path, (seconds, seconds))
    ids = built.machines[drawn.machine]
    about = About(part_id=ids.parts[drawn.part]) if drawn.part else None
    photo = take_in(built.store, ids.machine, [path], about, drawn.phase).added[0]
    edit(built.store, "photo", [photo], {"proves": drawn.proves, "taken_at": f"{drawn.day} 15:00"})
    for kind, x, y, x2, y2, text in drawn.marks:
        mark_photo(built.store, photo, kind, (x, y), (x2, y2), text)
