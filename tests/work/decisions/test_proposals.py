"""What is proposed for a worn part, with its working."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.work.decisions import acts_options as options, rows_proposals as proposals
from rebuild.work.readings import acts_features as spec
from tests.work.teardown.apron import Apron


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    return small_apron


def test_a_worn_journal_is_proposed_for_remaking_with_its_working(apron: Apron) -> None:
    spec.set_spec(apron.store, [apron.features["journal A"]], "0.6245-0.6250")
    apron.read("journal A", "0.6211")
    with apron.store.read() as connection:
        first = proposals.proposals(connection, apron.parts["AP-11"])[0]
        listed = proposals.to_decide(connection, apron.machine)
    assert (first.decision, first.rule_key, first.value) == ("remake", "shaft-journal", "0.0034 in")
    text = first.working.text()
    assert "good up to 0.001 in, rework up to 0.003 in" in text
    assert "common practice" in text
    assert listed[0].part_id == apron.parts["AP-11"]
    assert all(row.why == ("nothing measured, still to be decided",) for row in listed[1:])
    assert listed[0].why == ("journal A does not conform",)


def test_the_users_own_limit_is_used_and_shown_as_edited_then_taken_back(apron: Apron) -> None:
    spec.set_spec(apron.store, [apron.features["journal A"]], "0.6245-0.6250")
    apron.read("journal A", "0.6211")
    options.set_rule(apron.store, "shaft-journal", rework="0.005", note="slow shaft")
    with apron.store.read() as connection:
        found = {p.rule_key: p for p in proposals.proposals(connection, apron.parts["AP-11"])}
        rule = next(rule for rule in proposals.criteria(connection) if rule.key == "shaft-journal")
    assert found["shaft-journal"].decision == "rework"
    assert found["shaft-journal"].edited
    assert "edited; the rule's own: 0.001 in and 0.003 in" in found["shaft-journal"].working.text()
    assert rule.edited
    options.set_rule(apron.store, "shaft-journal")
    with apron.store.read() as connection:
        assert not any(rule.edited for rule in proposals.criteria(connection))
    options.set_rule(apron.store, "shaft-journal", left_out=True)
    with apron.store.read() as connection:
        keys = {p.rule_key for p in proposals.proposals(connection, apron.parts["AP-11"])}
    assert "shaft-journal" not in keys
    with pytest.raises(BadEntry, match="above the limit for rework"):
        options.set_rule(apron.store, "shaft-journal", good="0.004")


def test_the_nut_gives_way_to_the_screw_and_a_worn_screw_is_said_to_need_both(apron: Apron) -> None:
    apron.read("nut thread", "0.3900")
    for station in apron.stations("screw thread"):
        apron.read("screw thread", "0.3830", station=station)
    with apron.store.read() as connection:
        nut = proposals.proposals(connection, apron.parts["XS-04"])[0]
        screw = {p.rule_key: p for p in proposals.proposals(connection, apron.parts["XS-03"])}
    assert (nut.decision, nut.rule_key) == ("remake", "nut-before-screw")
    assert screw["nut-before-screw"].decision == "reuse"
    apron.read("screw thread", "0.3590", station=apron.stations("screw thread")[1])
    with apron.store.read() as connection:
        worst = proposals.proposals(connection, apron.parts["XS-03"])[0]
    assert (worst.decision, worst.rule_key) == ("remake", "uneven-wear")
    assert "no nut suits it everywhere" in worst.why


def test_nothing_is_proposed_without_a_reading_and_reuse_when_all_conforms(apron: Apron) -> None:
    with apron.store.read() as connection:
        assert proposals.proposals(connection, apron.parts["AP-11"]) == ()
    spec.set_spec(apron.store, [apron.features["journal A"]], "0.6245-0.6255")
    apron.read("journal A", "0.6250")
    with apron.store.read() as connection:
        (only,) = [p for p in proposals.proposals(connection, apron.parts["AP-11"]) if p.rule_key == "limits"]
    assert only.decision == "reuse"
