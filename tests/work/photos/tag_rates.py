"""How often the code of a photographed tag is read: ``python -m tests.work.photos.tag_rates 40``.

Tags printed by the program, seen from a slant up to 9 % of the picture at each corner and turned up to 40 degrees,
out of focus and grainy, kept as JPEG; read by zxing-cpp as photos taken in are. The counts are of one seed.
"""

from __future__ import annotations

import random
import sys
import tempfile
from pathlib import Path

from rebuild.store.store import Store
from rebuild.work.photos.codes import codes_on
from tests.work.photos.test_tags_and_time import photographed, tag_picture
from tests.work.teardown.apron import build

#: Blur [pixels] and grain of each condition, the tag 600 pixels across in a picture of 1600 x 1200.
CONDITIONS = (("sharp", 0.4, 4.0), ("a little soft", 1.2, 12.0), ("soft", 2.5, 20.0), ("shaken", 4.0, 30.0))


def main() -> int:
    """Print the rate of each condition."""
    trials = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    with tempfile.TemporaryDirectory() as folder:
        shop = build(Store.create(Path(folder) / "tags.rebuild"))
        tag = tag_picture(shop, "AP-12", Path(folder))
        shop.store.close()
    for name, blur, noise in CONDITIONS:
        rnd = random.Random(14)
        read = sum(bool(codes_on(photographed(tag, rnd, blur=blur, noise=noise))) for _ in range(trials))
        print(f"{name}: blur {blur} px, grain {noise:g}: {read} of {trials} read", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
