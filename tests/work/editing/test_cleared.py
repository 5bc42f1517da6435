"""A number a record always has is not cleared in silence: refused in a sentence, the old one stays, and is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sqlalchemy import inspect
from sqlalchemy.orm import Session, make_transient_to_detached
from sqlalchemy.orm.attributes import set_committed_value

from rebuild.errors import Ambiguous, BadEntry
from rebuild.work.editing import acts as edit
from rebuild.work.readings.acts_features import add_instrument
from rebuild.work.records.acts_settings import set_decimal_comma
from rebuild.work.records.columns import set_columns
from rebuild.work.records.field import FieldKind
from rebuild.work.records.fields import FIELDS, RECORDS
from rebuild.work.records.rows import card

if TYPE_CHECKING:
    from tests.conftest import Shop

NUMBERS = (FieldKind.NUMBER, FieldKind.WHOLE, FieldKind.CELSIUS, FieldKind.MINUTES, FieldKind.HOURS)


def _always_there() -> set[tuple[str, str]]:
    return {
        (record, field.name)
        for record, fields in FIELDS.items()
        for field in fields
        if field.kind in NUMBERS and not inspect(RECORDS[record]).columns[field.name].nullable
    }


def test_the_numbers_a_record_always_has() -> None:
    """The nine that once showed empty while the old value stayed, and those that came since."""
    assert _always_there() == {
        ("part", "quantity"), ("instrument", "coverage_k"), ("making_sheet", "quantity"), ("fastener", "count"),
        ("joint", "count"), ("waiting", "quantity"), ("hours_spent", "hours"), ("run_reading", "minute"),
        ("run_reading", "celsius"), ("making_detail", "count"), ("making_detail", "around_deg"),
    }  # fmt: skip


@pytest.mark.parametrize(("record", "name"), sorted(_always_there()))
def test_clearing_one_is_refused_with_its_label(record: str, name: str) -> None:
    field = next(one for one in FIELDS[record] if one.name == name)
    row = RECORDS[record](id=1)
    make_transient_to_detached(row)
    Session().add(row)
    set_committed_value(row, name, 3.0)
    with pytest.raises(BadEntry) as refusal:
        set_columns(row, {name: None})
    shown = field.show({name: 3.0})
    assert str(refusal.value) == f"{field.label}: is empty. Type a number. {shown} stays until then."
    assert getattr(row, name) == 3.0


def test_the_old_number_stays_and_nothing_is_written(shop: Shop) -> None:
    edit.edit(shop.store, "part", [shop.cap], {"quantity": "3"})
    before = shop.store.undo_label()
    with pytest.raises(BadEntry) as refusal:
        edit.edit(shop.store, "part", [shop.cap], {"quantity": " ", "material": "GG-25"})
    assert str(refusal.value) == "Quantity: is empty. Type a number. 3 stays until then."
    with shop.store.read() as connection:
        fields = card(connection, "part", shop.cap).fields
    assert fields["quantity"] == "3"
    assert fields["material"] != "GG-25"
    assert shop.store.undo_label() == before


def test_a_new_record_may_leave_it_to_what_is_usual(shop: Shop) -> None:
    made = add_instrument(shop.store, "new caliper", {"coverage_k": ""})
    with shop.store.read() as connection:
        assert card(connection, "instrument", made).fields["coverage_k"] == "2"


def test_a_cost_with_a_doubtful_comma_is_asked_about(shop: Shop) -> None:
    with pytest.raises(Ambiguous) as question:
        edit.edit(shop.store, "part", [shop.cap], {"decision_cost": "1,500"})
    assert str(question.value) == (
        "Cost: “1,500” has a comma that may mark decimals or thousands. "
        "Type 1.500 (decimal comma) or 1500 (thousands)."
    )
    with shop.store.read() as connection:
        assert card(connection, "part", shop.cap).fields["decision_cost"] == ""


@pytest.mark.parametrize(("decimal", "cost"), [(True, "1.5"), (False, "1500")])
def test_the_file_settles_a_cost_too(decimal: bool, cost: str, shop: Shop) -> None:
    set_decimal_comma(shop.store, decimal)
    edit.edit(shop.store, "part", [shop.cap], {"decision_cost": "1,500"})
    with shop.store.read() as connection:
        assert card(connection, "part", shop.cap).fields["decision_cost"] == cost
