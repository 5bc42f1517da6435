"""Photos on paper: scaled down, so that a page stays small, and upright as the camera was held."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

from rebuild.sheets.paper import MM
from rebuild.work.photos.rules_pictures import opened

#: The longer side of a printed photo [pixels] and the quality it is kept in.
PIXELS, QUALITY = 1100, 82


def small_jpeg(path: Path) -> bytes | None:
    """The photo as a small JPEG, turned as the camera says; None when it is missing or cannot be read."""
    from PIL import ImageOps, UnidentifiedImageError

    try:
        with opened(path) as image:
            upright = ImageOps.exif_transpose(image).convert("RGB")
            upright.thumbnail((PIXELS, PIXELS))
            kept = io.BytesIO()
            upright.save(kept, "JPEG", quality=QUALITY)
    except (OSError, UnidentifiedImageError):
        return None
    return kept.getvalue()


def picture(path: Path, wide_mm: float, high_mm: float) -> Any | None:
    """A photo to be set on a page, as large as its room lets it be; None when it cannot be read."""
    from reportlab.lib.utils import ImageReader
    from reportlab.platypus import Image

    content = small_jpeg(path)
    if content is None:
        return None
    across, high = ImageReader(io.BytesIO(content)).getSize()
    scale = min(wide_mm * MM / across, high_mm * MM / high)
    made = Image(io.BytesIO(content), across * scale, high * scale)
    made.hAlign = "LEFT"
    return made
