"""Cautions: the usual one is proposed at the step, carries its source, and always defers."""

from __future__ import annotations

import sys
from subprocess import run

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry
from rebuild.trade.results.cautions import attach, caution, suggest, topics
from rebuild.trade.results.working import Sheet, Status, StepKind

STEPS = {
    "Lift headstock off the bed": "lifting",
    "Sling the bed in two places": "slings",
    "Release clutch spring": "stored-energy",
    "Connect mains lead": "mains",
    "Bleed motor capacitor": "capacitor",
    "Paint stripping, base casting": "lead-paint",
    "Strip the paint from the base": "lead-paint",
    "Remove asbestos clutch linings": "asbestos",
    "Degrease saddle with solvent": "solvents",
    "Blow out oil ways with compressed air": "compressed-air",
    "Chill the sleeve in dry ice": "dry-ice",
    "Warm hub in the oven": "heating",
    "Press bush into apron": "press",
    "Drive out taper pin with hardened punch and hammer": "hardened-hammer",
    "Mount new grinding wheel": "grinding-wheel",
    "Free nut with the torch": "torch",
    "Repour babbitt, rear bearing": "babbitt",
    "Lower the knee, nut out": "heavy-drop",
    "Electrolysis bath for the gib": "electrolysis",
    "Set spindle preload": "preload",
    "Cool in liquid nitrogen": "liquid-nitrogen",
    "Open old transformer": "pcb",
    "Fit belts and guards": "guards",
}


@pytest.mark.parametrize(("title", "topic"), STEPS.items())
def test_a_step_calls_for_its_caution(title: str, topic: str) -> None:
    assert topic in suggest(title)


@pytest.mark.parametrize(
    "title",
    [
        "Measure spindle lift with a bar",
        "Photograph data plate",
        "Record gib setting",
        "Turn bush AP-12",
        "Compress the list of parts",
        "Pressure angle of the gear",
        "Fit spring washers",
        "",
    ],
)
def test_harmless_words_call_for_none(title: str) -> None:
    assert suggest(title) == ()


def test_every_caution_defers_and_has_a_source() -> None:
    for topic in topics():
        shown = caution(topic)
        assert shown.topic == topic
        assert len(shown.defer_to) > 10
        assert shown.source.name
        assert 60 < len(shown.text) < 420, topic
        assert shown.source.status is not Status.COMPUTED


def test_every_caution_can_be_proposed_by_some_step() -> None:
    texts = "; ".join([*STEPS, "oily rags", "caustic bath", "chlorinated", "hydraulic line", "unplug",
                       "drain the sump", "quench", "wire wheel", "chuck", "gear oil", "wet clutch",
                       "emery", "freezer"])  # fmt: skip
    assert set(suggest(texts)) == set(topics())


def test_trap_g_the_sling_angle_says_from_where() -> None:
    assert "from the horizontal" in caution("slings").text


def test_trap_g_the_15_minute_carbon_dioxide_value_is_not_called_a_legal_limit() -> None:
    source = caution("dry-ice").source
    assert "not an OSHA limit" in source.where
    assert "30 000" not in caution("dry-ice").text


def test_trap_g_pcb_has_three_categories() -> None:
    text = caution("pcb").text
    assert "capacitor" in text
    assert "50 to 500 ppm" in text
    assert "transformers have rules of their own" in text


def test_trap_g_30_psi_is_static_with_the_nozzle_blocked() -> None:
    assert "static with the nozzle blocked" in caution("compressed-air").text


def test_an_unknown_topic_is_a_sentence() -> None:
    with pytest.raises(BadEntry, match=r"“bees” is not a caution\. Topics: lifting"):
        caution("bees")


def test_attached_cautions_carry_their_source() -> None:
    sheet = Sheet("Press a bush")
    attach(sheet, "press", "hardened-hammer")
    steps = sheet.close().steps
    assert [step.kind for step in steps] == [StepKind.CAUTION, StepKind.CAUTION]
    assert steps[0].source is not None
    assert "Defers to" in steps[0].text


@given(st.text(max_size=80))
def test_suggesting_never_fails_and_gives_known_topics(text: str) -> None:
    assert set(suggest(text)) <= set(topics())


@given(st.sampled_from(sorted(STEPS)), st.text(alphabet="abc ,.-", max_size=12))
def test_more_words_never_take_a_caution_away(title: str, more: str) -> None:
    assert STEPS[title] in suggest(f"{title} {more}")
    assert STEPS[title] in suggest(title.upper())


def test_importing_is_light() -> None:
    code = "import rebuild.trade.results.cautions, sys; print('numpy' in sys.modules, 'pint' in sys.modules)"
    done = run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "False"]
