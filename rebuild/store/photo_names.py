"""The names photos and manuals are kept under: a hash and a known ending, so that no name leads out of their folder."""

from __future__ import annotations

import re

#: Endings photos are kept under, and that of a manual.
ENDINGS = (".jpg", ".png", ".webp", ".tif", ".bmp", ".heic", ".pdf")
_HASH = re.compile(r"[0-9a-f]{64}")


def is_photo_name(sha256: object, ending: object) -> bool:
    """Whether a stored hash and ending are of the kind the program stores.

    >>> is_photo_name("0" * 64, ".jpg"), is_photo_name("../../secret", "")
    (True, False)
    """
    return isinstance(sha256, str) and bool(_HASH.fullmatch(sha256)) and ending in ENDINGS
