"""The shop the mixed acts are done in, and picking something in it to act on."""

from __future__ import annotations

from pathlib import Path

from PIL import Image

from rebuild.store.store import Store
from rebuild.words.readings import FeatureKind
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts_features as spec

PARTS = 12
PHOTOS = 40


class NothingThere(Exception):
    """There is nothing yet that this act could be done on."""


def make(path: Path) -> None:
    """A lathe with shafts and bushes to read, fit and make, and pictures to take in beside it."""
    store = Store.create(path)
    machine = identify.add_machine(store, "Lathe")
    groups = [identify.add_subassembly(store, machine, f"Group {code}", code) for code in ("HS", "AP", "CA")]
    for number in range(PARTS):
        group = groups[number % len(groups)]
        part = identify.add_part(store, machine, group, f"part {number}", f"P-{number:02}")
        kind = (FeatureKind.OUTSIDE_DIAMETER, FeatureKind.BORE)[number % 2]
        limits = ("25 -0.020/-0.041", "25 +0.021/0")[number % 2]
        spec.add_feature(store, part, f"diameter {number}", kind, spec=limits, stations=("near", "far"))
    store.close()
    pictures(path).mkdir()
    for number in range(PHOTOS):
        Image.new("RGB", (80, 60), (number * 6, 90, 255 - number)).save(pictures(path) / f"{number}.png")


def pictures(path: Path) -> Path:
    """Where the pictures to take in lie."""
    return path.with_name("pictures")


def pick(store: Store, table: str, where: str = "1", seed: int = 0) -> int:
    """The id of one row, chosen by ``seed``. Raises NothingThere."""
    with store.read() as connection:
        ids = list(
            connection.exec_driver_sql(f'SELECT id FROM "{table}" WHERE {where} ORDER BY id').scalars()
        )
    if not ids:
        raise NothingThere(table)
    return int(ids[seed % len(ids)])
