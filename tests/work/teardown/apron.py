"""A small inch shop for fits: an apron casting, its bush, the shaft in it, and a cross screw with its nut."""

from __future__ import annotations

from dataclasses import dataclass, field

from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.fits import Adjuster, FitKind, Side
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.fits import acts as fits
from rebuild.work.fits.acts import FitEntry
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry


@dataclass
class Apron:
    """Ids by name; ``read`` stores a reading."""

    store: Store
    machine: int = 0
    parts: dict[str, int] = field(default_factory=dict)
    features: dict[str, int] = field(default_factory=dict)
    micrometer: int = 0
    press: int = 0
    running: int = 0
    screw_fit: int = 0

    def read(
        self, feature: str, typed: str, stage: Stage = Stage.AS_FOUND, station: int | None = None
    ) -> int:
        entry = Entry(
            self.features[feature],
            station_id=station,
            stage=stage,
            instrument_id=self.micrometer,
            temperature="20 C",
        )
        return measure.record_reading(self.store, typed, entry, confirmed=True).reading_id

    def stations(self, feature: str) -> list[int]:
        with self.store.read() as connection:
            rows = connection.exec_driver_sql(
                f"SELECT id FROM station WHERE feature_id = {self.features[feature]} ORDER BY position"
            )
            return list(rows.scalars())


PARTS = (("AP-02", "apron casting", "cast iron"), ("AP-12", "apron bush", "SAE 660"), ("AP-11", "pinion shaft", "1144"),
         ("XS-03", "cross screw", "1144"), ("XS-04", "cross nut", "SAE 660"))  # fmt: skip


def build(store: Store) -> Apron:
    """The shop with three fits: bush pressed in casting, shaft in bush, screw in nut."""
    shop = Apron(store)
    shop.machine = identify.add_machine(store, "Bench lathe", {"unit": "in"})
    for code, name, material in PARTS:
        shop.parts[code] = identify.add_part(
            store, shop.machine, None, name, code, typed={"material": material}
        )
    shop.micrometer = spec.add_instrument(
        store,
        "Micrometer 0-2",
        {"kind": "other", "unit": "in", "resolution": "0.00005", "mpe": "0.00005"},
    )
    for name, code, kind, stations, thread in (
        ("housing", "AP-02", FeatureKind.BORE, (), ""),
        ("outside", "AP-12", FeatureKind.OUTSIDE_DIAMETER, (), ""),
        ("bore", "AP-12", FeatureKind.BORE, (), ""),
        ("journal A", "AP-11", FeatureKind.OUTSIDE_DIAMETER, (), ""),
        ("screw thread", "XS-03", FeatureKind.THREAD, ("0 in", "4 in", "8 in"), "7/16-10 LH Acme"),
        ("nut thread", "XS-04", FeatureKind.THREAD, (), "7/16-10 LH Acme"),
    ):
        shop.features[name] = spec.add_feature(
            store, shop.parts[code], name, kind, unit="in", stations=stations, typed={"thread": thread}
        )
    decide.decide(store, [shop.parts["AP-02"], shop.parts["XS-03"]], Decision.REUSE)
    shop.read("housing", "0.8128")
    f = shop.features
    shop.press = fits.add_fit(
        store,
        FitEntry(
            f["housing"], f["outside"], FitKind.PRESS, wanted="0.0008-0.0012 interference", master=Side.OUTER
        ),
    )
    shop.running = fits.add_fit(
        store,
        FitEntry(
            f["bore"],
            f["journal A"],
            FitKind.RUNNING,
            wanted="0.0010-0.0015",
            master=Side.INNER,
            name="Shaft in bush",
        ),
        confirmed=True,
    )
    shop.screw_fit = fits.add_fit(
        store,
        FitEntry(
            f["nut thread"], f["screw thread"], wanted="0.002-0.006", master=Side.INNER, adjuster=Adjuster.NUT
        ),
        confirmed=True,
    )
    return shop
