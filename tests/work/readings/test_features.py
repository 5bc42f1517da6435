"""Features with their spec and stations, and the instruments of the shop."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import text

from rebuild.errors import Ambiguous, BadEntry, NotThere, OutOfRange
from rebuild.words.readings import FeatureKind, SpecOrigin
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts_features as spec
from rebuild.work.records import acts_settings as settings
from rebuild.work.records.rows import card

if TYPE_CHECKING:
    from tests.conftest import Shop


def row(shop: Shop, table: str, key: int) -> Any:
    with shop.store.read() as connection:
        return connection.execute(text(f"SELECT * FROM {table} WHERE id = {key}")).one()


def stations(shop: Shop, feature: int) -> list[tuple[Any, ...]]:
    with shop.store.read() as connection:
        return [
            tuple(found)
            for found in connection.execute(
                text(
                    f"SELECT name, at_text, at_mm FROM station WHERE feature_id = {feature} ORDER BY position"
                )
            )
        ]


def test_a_feature_takes_the_machines_unit_unless_told(shop: Shop) -> None:
    inch = identify.add_machine(shop.store, "Shaper", {"unit": "in"})
    part = identify.add_part(shop.store, inch, None, "ram")
    assert row(shop, "feature", spec.add_feature(shop.store, part, "slot")).unit == "in"
    assert row(shop, "feature", spec.add_feature(shop.store, part, "bore", unit="mm")).unit == "mm"
    assert row(shop, "feature", shop.journal).unit == "mm"


def test_a_spec_is_kept_as_typed_and_as_limits(shop: Shop) -> None:
    found = row(shop, "feature", shop.journal)
    assert (found.spec_text, found.nominal_mm, found.low_mm, found.high_mm) == (
        "60 -0.010/-0.029",
        60.0,
        59.971,
        59.99,
    )
    assert (found.nominal_text, found.high_text, found.high_unit) == ("60", "59.99", "mm")
    assert found.spec_origin == "drawing"
    signed = row(shop, "feature", shop.lost_motion)
    assert (signed.nominal_mm, signed.low_mm, signed.high_text, signed.high_unit) == (
        None,
        None,
        "0.004",
        "in",
    )


def test_a_tolerance_class_brings_its_source(shop: Shop) -> None:
    found = row(
        shop, "feature", spec.add_feature(shop.store, shop.cap, "bore", FeatureKind.BORE, spec="25 H7")
    )
    assert (found.low_mm, found.high_mm, found.spec_origin, found.spec_note) == (
        25.0,
        25.021,
        "handbook",
        "ISO 286-2:2010 H7",
    )


def test_a_spec_set_on_several_features_is_one_act(shop: Shop) -> None:
    other = spec.add_feature(shop.store, shop.cap, "bore")
    spec.set_spec(
        shop.store, [shop.journal, other], "60 h6", SpecOrigin.JUDGEMENT, note="measured mate", sense="plus"
    )
    assert {row(shop, "feature", key).spec_text for key in (shop.journal, other)} == {"60 h6"}
    assert shop.store.undo() == "spec 60 h6 on HS-01 spindle, front journal and 1 more"
    assert row(shop, "feature", shop.journal).spec_note == ""
    spec.set_spec(shop.store, [shop.journal], "")
    cleared = row(shop, "feature", shop.journal)
    assert (cleared.nominal_mm, cleared.low_mm, cleared.high_mm, cleared.spec_origin) == (None,) * 4
    spec.set_spec(shop.store, [], "60 h6")
    assert shop.store.undo_label() == "spec none on HS-01 spindle, front journal"


@pytest.mark.parametrize(
    ("typed", "error", "said"),
    [
        ("about that", BadEntry, "“about that” is not a spec. Type it as 25"),
        ("26 to 25", BadEntry, "low limit 26 above its high limit 25"),
        ("1,250 ±0.01", Ambiguous, "Type 1.250 ±0.01 (decimal comma) or 1250 ±0.01 (thousands)."),
        ("9000 H7", OutOfRange, "9000"),
    ],
)
def test_a_spec_refused_changes_nothing(shop: Shop, typed: str, error: type[Exception], said: str) -> None:
    label = shop.store.undo_label()
    with pytest.raises(error) as refusal:
        spec.set_spec(shop.store, [shop.journal], typed)
    assert said in str(refusal.value)
    with pytest.raises(error):
        spec.add_feature(shop.store, shop.cap, "bore", spec=typed)
    assert shop.store.undo_label() == label
    assert row(shop, "feature", shop.journal).spec_text == "60 -0.010/-0.029"


def test_the_file_settles_a_doubtful_comma(shop: Shop) -> None:
    settings.set_decimal_comma(shop.store, True)
    spec.set_spec(shop.store, [shop.journal], "1,250 ±0,010")
    assert row(shop, "feature", shop.journal).high_mm == 1.26


def test_a_station_named_by_a_distance_knows_it(shop: Shop) -> None:
    key = spec.add_feature(
        shop.store, shop.cap, "way", unit="in", stations=("near", "3", "6 in", "12 o'clock")
    )
    assert stations(shop, key) == [
        ("near", None, None),
        ("3", "3", 76.2),
        ("6 in", "6 in", pytest.approx(152.4)),
        ("12 o'clock", None, None),
    ]
    spec.add_station(shop.store, key, "9")
    assert stations(shop, key)[-1][0] == "9"
    assert shop.store.undo_label() == "new station 9 on HS-02 bearing cap, way"


def test_a_station_renamed_keeps_name_and_distance_together(shop: Shop) -> None:
    key = spec.add_feature(shop.store, shop.cap, "way", unit="in", stations=("3",))
    with shop.store.read() as connection:
        station = connection.execute(text(f"SELECT id FROM station WHERE feature_id = {key}")).scalar_one()
    edit.edit(shop.store, "station", [station], {"name": "4"})
    assert stations(shop, key) == [("4", "4", pytest.approx(101.6))]
    edit.edit(shop.store, "station", [station], {"name": "tailstock end"})
    assert stations(shop, key) == [("tailstock end", None, None)]


def test_changing_the_unit_keeps_what_the_spec_means(shop: Shop) -> None:
    edit.edit(shop.store, "feature", [shop.journal], {"unit": "in"})
    found = row(shop, "feature", shop.journal)
    assert (found.unit, found.spec_text, found.high_mm) == ("in", "60 -0.010/-0.029 mm", 59.99)
    edit.edit(shop.store, "feature", [shop.journal], {"unit": "mm"})
    assert row(shop, "feature", shop.journal).spec_text == "60 -0.010/-0.029 mm"


def test_an_instrument_with_its_limits(shop: Shop) -> None:
    key = spec.add_instrument(
        shop.store,
        "Test indicator",
        {"unit": "in", "resolution": ".0001", "uncertainty": "5 tenths", "coverage_k": "2"},
    )
    found = row(shop, "instrument", key)
    assert (found.resolution_mm, found.uncertainty_mm, found.mpe_mm) == (0.00254, 0.0127, None)
    with shop.store.read() as connection:
        assert card(connection, "instrument", key).fields["resolution"] == ".0001 in"
    with pytest.raises(BadEntry, match=r"Resolution: “fine” is not a size\."):
        spec.add_instrument(shop.store, "x", {"resolution": "fine"})
    with pytest.raises(BadEntry, match=r"Its coverage factor k: “0\.5” is below 1"):
        spec.add_instrument(shop.store, "x", {"coverage_k": "0.5"})


def test_a_feature_of_a_part_that_is_gone(shop: Shop) -> None:
    with pytest.raises(NotThere, match=r"The part no\. 99"):
        spec.add_feature(shop.store, 99, "bore")
    with pytest.raises(NotThere, match=r"The feature no\. 99"):
        spec.set_spec(shop.store, [99], "25")
    with pytest.raises(NotThere, match=r"The feature no\. 99"):
        spec.add_station(shop.store, 99, "near")


def test_the_unit_behind_the_last_station_is_meant_for_all(shop: Shop) -> None:
    """Found in a trial: only the last of ``0, 6, 12 in`` had its unit, so the grid read 0, 6, 12 in."""
    key = spec.add_feature(shop.store, shop.cap, "way", unit="mm", stations=("0", "6", "12 in"))
    assert stations(shop, key) == [
        ("0 in", "0 in", 0.0),
        ("6 in", "6 in", pytest.approx(152.4)),
        ("12 in", "12 in", pytest.approx(304.8)),
    ]
