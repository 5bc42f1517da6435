"""The codes on a picture, read by a general barcode library: small first, then at full size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rebuild.errors import BadEntry
from rebuild.trade.labels.code import read_code

if TYPE_CHECKING:
    from PIL.Image import Image

#: The longer side a picture is looked at with first, and at most [pixels].
SMALL, LARGE = 1600, 3600


def codes_on(image: Image) -> tuple[str, ...]:
    """Texts of the tags on a picture, from left to right, each once; codes that are none of a tag are passed over.

    Raises:
        OSError: the picture cannot be read.
    """
    import zxingcpp

    qr = zxingcpp.BarcodeFormats([zxingcpp.BarcodeFormat.QRCode])

    image.draft("L", (LARGE, LARGE))
    grey = image.convert("L")
    grey.thumbnail((LARGE, LARGE))
    for side in (SMALL, LARGE):
        looked = grey
        if max(grey.size) > side:
            looked = grey.copy()
            looked.thumbnail((side, side))
        found = zxingcpp.read_barcodes(looked, formats=qr)
        texts = [code.text for code in sorted(found, key=lambda code: code.position.top_left.x)]
        ours = tuple(dict.fromkeys(text for text in texts if _is_ours(text)))
        if ours or max(grey.size) <= side:
            return ours
    return ()


def _is_ours(text: str) -> bool:
    try:
        read_code(text)
    except BadEntry:
        return False
    return True
