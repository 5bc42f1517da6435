"""Every "which one is it": a table that has no such thing says so first, and by how much each reading is off."""

from __future__ import annotations

import pytest

from rebuild.errors import Ambiguous, RebuildError
from rebuild.trade.figures import figure
from rebuild.trade.joints.woodruff import woodruff_keys
from rebuild.trade.results.figure_text import answers_text
from rebuild.trade.results.figured import Answer, Figured


def run(topic: str, **typed: str) -> Figured:
    return figure(topic).run({name.replace("_", "-"): text for name, text in typed.items()})


def test_an_inch_spline_is_no_metric_one() -> None:
    # Source: a public summary of SAE J499: six splines are a quarter of the large diameter wide.
    for outside, width in (("1.25 in", "0.31 in"), ("1 in", "0.25 in")):
        found = run("spline", splines="6", outside=outside, width=width)
        assert "agrees; off" in found.answers[0].note
        assert "SAE J499" in found.answers[0].note
        assert not found.specs, "limits of a metric shaft must not be offered"
        assert all("does not agree" in one.note for one in found.answers if " x " in one.label)
        assert found.answers[-1].value == "read the minor diameter too"
    exact = run("spline", splines="6", outside="1 in", width="0.25 in", minor="0.85 in")
    assert exact.answers[0].label == "6 splines 1.000 in, B"
    assert exact.answers[-1].value == "none held"
    strange = run("spline", splines="6", outside="28.2", width="6.9")
    assert strange.answers[0].label == "none agrees"
    assert "involute" in strange.answers[0].note
    assert not strange.specs
    assert "not held" in figure("spline").about or "No involute" in figure("spline").about


def test_the_fit_of_a_spline_is_told_and_not_only_offered() -> None:
    sliding, close = (
        run("spline", splines="6", outside="25.8", width="5.9", fit=fit) for fit in ("sliding", "close")
    )
    for found, words in ((sliding, "ISO 14 shaft, d10"), (close, "ISO 14 shaft, f9")):
        text = answers_text(found, working=False)
        assert words in text
        assert "spline width" in text
    # Source: ISO 286-2:2010, 6 mm: d10 is -30 to -78 µm, f9 -10 to -40 µm.
    assert "5.9220 to 5.9700 mm" in answers_text(sliding, working=False)
    assert "5.9600 to 5.9900 mm" in answers_text(close, working=False)


def test_what_can_be_taken_is_told() -> None:
    for topic in (
        "woodruff",
        "spline",
        "ring-groove",
        "t-slot",
        "hole-circle",
        "general-tolerance",
        "dovetail",
    ):
        asked = figure(topic)
        found = asked.run(asked.example)
        text = answers_text(found, working=False)
        for spec in found.specs:
            assert spec.low_mm is not None
            shown = [answer.value for answer in found.answers if isinstance(answer.value, float)]
            if any(one.label == "allowed either way" for one in found.answers):
                assert spec.nominal_mm is not None
                assert any(abs(spec.nominal_mm - mm) < 1e-9 for mm in shown) or spec.label == "pitch circle"
                continue
            assert f"{spec.low_mm:.4f}" in text or any(abs(spec.low_mm - mm) < 1e-9 for mm in shown), (
                topic,
                spec,
            )


def test_no_wider_woodruff_key_is_said_of_the_table_only() -> None:
    # Source: a handbook's public page of ASME B17.2: of 3/4 in circles there are 406, 506, 606 and 806.
    assert _worn("606", "0.195 in", "or a wider key").value == "No. 806"
    assert {key.number for key in woodruff_keys()} >= {"403", "707", "806", "709", "1212"}
    last = _worn("806", "0.26 in")
    assert last.value == "a stepped key"
    assert "in this table" in last.note
    assert "ASME" in last.note
    assert "3/8 x 1-1/2 in" in last.note


def _worn(key: str, worn: str, label: str = "for the worn seat") -> Answer:
    found = run("woodruff", key=key, shaft="1 in", worn=worn)
    return next(answer for answer in found.answers if answer.label == label)


def test_a_woodruff_key_by_either_two_readings_and_the_one_that_is_off() -> None:
    both = run("identify-woodruff", width="0.125 in", diameter="0.372 in")
    assert both.answers[0].label == "No. 403"
    assert both.unit == "in", "typed in inches, answered in inches"
    assert "0.1250 in wide" in str(both.answers[0].value)
    off = run("identify-woodruff", width="0.125 in", diameter="0.40 in")
    assert off.answers[0].label == "none agrees"
    assert any("diameter +0.0250 in" in answer.note for answer in off.answers)
    with pytest.raises(RebuildError) as refused:
        run("identify-woodruff", width="0.125 in", diameter="0.9 in")
    assert "0.9 in" in str(refused.value)
    assert "is off by width" in str(refused.value)


def test_the_seat_of_a_woodruff_key_has_its_width() -> None:
    found = run("woodruff", key="606", shaft="1 in")
    text = answers_text(found, working=False)
    assert "seat width, low" in text
    assert "0.1863 in" in text
    assert "from memory" in text
    assert {spec.label for spec in found.specs} == {
        "across the shaft",
        "across the bore",
        "seat width in the shaft",
    }


def test_a_closed_inch_bearing_has_its_own_width() -> None:
    # Source: from memory, as the table: closed R bearings are wider; R8 5/16, R12 7/16, R6 9/32 in.
    known = {"R8-2RS": 5 / 16, "R8ZZ": 5 / 16, "R12-2RS C3": 7 / 16, "R6 2Z": 9 / 32, "R8": 1 / 4}
    for stamped, wide in known.items():
        found = run("bearing", stamped=stamped)
        width = next(answer for answer in found.answers if answer.label == "width")
        assert width.value == pytest.approx(wide * 25.4, abs=0.001), stamped
        assert "wide" in width.note
    assert next(a for a in run("bearing", stamped="6203-2RS").answers if a.label == "width").value == 12.0
    with pytest.raises(RebuildError, match="is closed, and the table has only the open one's width"):
        run("bearing", stamped="R3ZZ")


def test_a_bearing_that_does_not_fit_is_not_named_as_if_it_did() -> None:
    found = run("bearing", bore="17", outside="41.5", width="12.6")
    assert found.answers[0].label == "none agrees"
    assert "does not agree; off: bore" in found.answers[1].note


def test_one_diameter_does_not_tell_a_taper() -> None:
    found = run("identify-taper", large="0.475", apart="0.998")
    assert (found.answers[0].label, found.answers[0].value) == ("one diameter", "is not enough")
    assert "agrees;" not in " ".join(answer.note for answer in found.answers).replace("does not agree;", "")
    # Source: ISO 239's scope, a public page: B12 is the part of Morse 1 nearest its large end (0.475 in).
    short = next(answer for answer in found.answers if answer.value == "Chuck B 12")
    assert "12.065" in short.note
    assert run("taper", taper="B12").answers[0].value == pytest.approx(0.475 * 25.4, abs=1e-3)


def test_an_exact_gauge_diameter_comes_before_a_near_sum_of_both_ends() -> None:
    found = run("identify-taper", large="0.475", small="0.425", apart="0.998")
    names = [answer.value for answer in found.answers]
    assert names.index("Morse 1") < names.index("Jarno 4")
    jarno = next(answer for answer in found.answers if answer.value == "Jarno 4")
    assert "its gauge line is 0.5 in beyond the larger reading, off the piece" in jarno.note


def test_every_pipe_thread_within_one_of_the_count_is_told_with_its_misfit() -> None:
    found = run("identify-pipe", outside="0.405in", tpi="28")
    names = [answer.label for answer in found.answers]
    # Source: ASME B1.20.1: 1/8 NPT is 0.405 in over the pipe, 27 threads to the inch.
    assert names[0] == "none agrees"
    assert names[1] == "1/8 NPT"
    assert {"G 1/8", "R 1/8"} < set(names)
    assert "off: outside 0.0000 in, pitch -0.0013 in" in found.answers[1].note
    bare = run("identify-pipe", outside="0.405in")
    assert bare.answers[0].label == "1/8 NPT"
    assert bare.answers[0].note.startswith("agrees")
    assert bare.answers[-1].value == "count the threads"


def test_a_helical_gear_is_not_a_stub_spur_gear() -> None:
    found = run("identify-gear", teeth="24", outside="1.7545 in")
    assert found.answers[0].label == "none agrees"
    assert not any(answer.note.startswith("agrees") for answer in found.answers)
    assert any(
        answer.label == "or a helical gear" and "DP 16" in str(answer.value) for answer in found.answers
    )
    # Source: geometry: 24 teeth of DP 16 at β are 24/16 / cos β + 2/16 over their tips.
    spur = run("identify-gear", teeth="32", outside="59.5")
    assert spur.answers[0].note.startswith("agrees")
    assert not any(answer.label == "or a helical gear" for answer in spur.answers)


def test_a_rack_off_by_more_than_its_run_is_good_to_does_not_agree() -> None:
    # Source: geometry: 50 pitches of DP 14 are 50 π 25.4 / 14 = 284.99 mm.
    assert run("identify-rack", run="285.0", pitches="50").answers[0].note.startswith("agrees")
    off = run("identify-rack", run="286.0", pitches="50")
    assert off.answers[0].label == "none agrees"
    assert "run +1.0" in off.answers[1].note


def test_a_bare_mass_beside_one_in_pounds_is_asked_about() -> None:
    with pytest.raises(Ambiguous, match="has no unit, and one beside it is in lb") as asked:
        run("centre-of-mass", first="660 lb", second="220", between="48 in")
    assert [text for _, text in asked.value.readings] == ["220 lb", "220 kg"]
    with pytest.raises(Ambiguous, match="beside it is in lb") as asked:
        run("pieces-centre", pieces="400 lb @ 10 in; 130 @ 28 in")
    assert asked.value.readings[0][1] == "400 lb @ 10 in; 130 lb @ 28 in"
    # Source: moments about the first: 220 × 48 / 880 = 12 in.
    plain = run("centre-of-mass", first="660 lb", second="220 lb", between="48 in")
    assert plain.answers[0].value == pytest.approx(12 * 25.4)


def test_what_one_diameter_tells_and_a_taper_too_short() -> None:
    # Source: Morse 2 has 0.700 in at its gauge line.
    alone = run("identify-taper", large=".7 in")
    assert alone.answers[0].value == "is not enough"
    assert "Morse 2" in [one.value for one in alone.answers]
    # Source: DIN 238: B12 is 12.065 mm at its large end and 18.5 mm long, Morse 1 cut short: 1:20.047.
    short = run("identify-taper", large="12.065 mm", small="9.571 mm", apart="50 mm")
    (b12,) = [one.note for one in short.answers if one.value == "Chuck B 12"]
    assert "too short: it ends at 11.14 mm" in b12
    (morse,) = [one.note for one in short.answers if one.value == "Morse 2"]
    assert "not made at this diameter" in morse, "its small end is larger than the larger reading"


def test_what_was_assumed_is_said() -> None:
    crank = run("dividing", divisions="6")
    assert [one.label for one in crank.answers][:2] == ["crank", "or"]
    taken = next(one for one in crank.answers if one.label == "of the circles")
    assert str(taken.value).startswith("24 25 28")
    coils = run("spring", wire="2", outside="18", coils="10")
    assert "ends taken as" in next(one.note for one in coils.answers if one.label == "active coils")
    with pytest.raises(Ambiguous, match="weighs under 5 g") as asked:
        run("weight", shape="round", sizes="2 x 36")
    assert asked.value.readings[0][1] == "2 x 36 in"
