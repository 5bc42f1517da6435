"""The figures a handbook is leafed through for: each example, and each refusal by its sentence."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry, OutOfRange, RebuildError
from rebuild.trade.drawing.sketch import Weight
from rebuild.trade.figures import all_figures, figure
from rebuild.trade.results.figured import Figured
from rebuild.trade.results.working import Status

#: Each topic with the group it stands in.
PROMISED = {
    "general-tolerance": "Limits and fits", "it-grade": "Limits and fits",
    "pipe-thread": "Threads", "identify-pipe": "Threads", "pipe-gauging": "Threads",
    "cone": "Tapers, pins and keys", "identify-woodruff": "Tapers, pins and keys", "woodruff": "Tapers, pins and keys",
    "clearance-hole": "Seats, grooves and slots", "t-slot": "Seats, grooves and slots",
    "ring-groove": "Seats, grooves and slots", "spline": "Seats, grooves and slots",
    "square": "Seats, grooves and slots",
    "spring": "Springs", "spring-coils": "Springs",
    "helical-gear": "Gears", "helix-from-centres": "Gears", "bevel-gears": "Gears",
    "belt": "Belts and drives", "spindle-speeds": "Belts and drives",
    "dovetail": "Ways and geometry", "dovetail-scraping": "Ways and geometry", "taper-gib": "Ways and geometry",
    "dividing": "Dividing and hole circles", "dividing-angle": "Dividing and hole circles",
    "hole-circle": "Dividing and hole circles",
    "pieces-centre": "Shop arithmetic", "convert": "Shop arithmetic",
}  # fmt: skip


def _run(topic: str, **typed: str) -> Figured:
    asked = figure(topic)
    return asked.run({**asked.example, **{name.replace("_", "-"): value for name, value in typed.items()}})


def _answer(found: Figured, label: str) -> float | int | str:
    return next(answer.value for answer in found.answers if answer.label == label)


def test_the_promised_topics_stand_in_their_groups() -> None:
    assert {topic: figure(topic).group for topic in PROMISED} == PROMISED
    groups = [one.group for one in all_figures().values()]
    blocks = [group for at, group in enumerate(groups) if at == 0 or group != groups[at - 1]]
    assert len(blocks) == len(set(blocks)), "a group is listed in two places"


@pytest.mark.parametrize("topic", sorted(PROMISED))
def test_every_example_runs_and_says_where_it_comes_from(topic: str) -> None:
    asked = figure(topic)
    found = asked.run(asked.example)
    assert found.answers
    assert found.working.sources(), "no line of the working has a source"
    assert found.cautions == found.working.cautions()
    for spec in found.specs:
        assert spec.low_mm is not None
        assert spec.high_mm is not None
        assert spec.low_mm <= spec.high_mm


#: Topic, what differs from its example, and what the sentence must say.
REFUSED = (
    ("general-tolerance", {"size": "5000"}, "has no value in class m: it goes from 0.5 to 4000 mm."),
    ("general-tolerance", {"size": "0.4"}, "it goes from 0.5 to 4000 mm."),
    ("general-tolerance", {"size": "2", "class": "v"}, "it goes from 3 to 4000 mm."),
    ("it-grade", {"grade": "IT99"}, "99"),
    ("pipe-thread", {"size": "9/16"}, "Size: “9/16” is no size of NPT. Held: 1/16, 1/8"),
    ("identify-pipe", {"outside": "24"}, "Outside: “24 mm” with 14 threads per inch is near no pipe thread held."),
    ("pipe-gauging", {"stand-off": "40"}, "is further than twice the gauge length of 8.128 mm."),
    ("cone", {"small": ""}, "Small diameter: is asked, or the taper, and not both."),
    ("cone", {"ratio": "12"}, "Small diameter: is asked, or the taper, and not both."),
    ("cone", {"small": "30"}, "Small end: “30 mm” is not below the large end of 30 mm."),
    ("cone", {"small": "", "ratio": "1"}, "Length: “60 mm” comes to a point after 30 mm."),
    ("cone", {"small": "29.99"}, "makes a taper of 1:6000, outside 1:0.2 to 1:2000."),
    ("identify-woodruff", {"diameter": "", "height": ""}, "Width: “4.75 mm” alone does not tell a key."),
    ("identify-woodruff", {"width": "30"}, "is near no key of the table (full-radius keys to 3/8 x 1-1/2 in of"),
    ("woodruff", {"key": "999"}, "Key: “999” is no key of the table. Held: 202"),
    ("woodruff", {"shaft": "8 mm"}, "Shaft: “8 mm” is too thin for No. 606"),
    ("woodruff", {"worn": "3"}, "Worn width: “3 mm” is narrower than the key of 4.7625 mm."),
    ("clearance-hole", {"bolt": "M11"}, "Bolt: “M11” is no bolt of the table. Held: 1, 1.2"),
    ("t-slot", {"throat": "16"}, "Throat: “16 mm” is no throat of the table."),
    ("ring-groove", {"size": "27"}, "Size: “27 mm” is no size of the table. Nearest: "),
    ("spline", {"splines": "7"}, "Splines: “7” splines of 25.800 mm (1.0157 in) outside and 5.900 mm"),
    ("square", {"stock": "14"}, "Stock: “14 mm” is not above the square across its flats."),
    ("spring", {"outside": "4"}, "gives an index of 1; no spring is wound outside 2.5 to 30."),
    ("spring", {"coils": "2"}, "Coils: “2” leave 0 active ones."),
    ("spring", {"moved": "50"}, "presses it solid: 60 mm free less 20 mm solid leave 40 mm."),
    ("spring-coils", {"rate": "100000"}, "needs "),
    ("helical-gear", {"helix": "60.1"}, "Helix angle: “60.1” is not above 0 and up to 60 °."),
    ("helical-gear", {"ball": "0.5"}, "Ball: “0.5 mm”"),
    ("helix-from-centres", {"centres": "59"}, "are outside 60 mm (spur) to 120 mm (60° helix)."),
    ("bevel-gears", {"shafts": "150"}, "makes one of them a crown or inside bevel"),
    ("bevel-gears", {"pinion": "5"}, "Pinion teeth: “5” is outside 6 to 500."),
    ("belt", {"centres": "249"}, "Centres: “249 mm” lets the pulleys touch; they need more than 249 mm."),
    ("belt", {"length": "2000"}, "Length of the belt: is one too many beside the centres."),
    ("belt", {"centres": "", "length": "900"}, "Length of the belt: “900 mm” is too short for these pulleys"),
    ("spindle-speeds", {"steps": "140:60"}, "Steps of the cone: “140:60” is not driver/driven."),
    ("spindle-speeds", {"steps": "140/0"}, "Steps of the cone: “0” is not above 0"),
    ("dovetail", {"roller": "30"}, "Rollers: “30 mm” touch the flank 22.5 mm up, not inside its height of 20 mm."),
    ("dovetail", {"kind": "internal", "known": "wide width", "size": "25"}, "Rollers: “10 mm” leaves no room"),
    ("dovetail", {"angle": "20"}, "Angle: “20°” is outside 30 to 85°."),
    ("dovetail-scraping", {"wanted": "67.5"}, "would need metal put on, not taken off."),
    ("taper-gib", {"taper": "9"}, "Taper, one in: “9” is outside 1:10 to 1:500."),
    ("dividing", {"divisions": "2001"}, "Divisions: “2001” is outside 1 to 2000."),
    ("dividing", {"wheels": "24 28"}, "Divisions: “127” fits no circle, and no differential with these wheels."),
    ("dividing", {"circles": "24 x"}, "Hole circles: “x” is not a whole number."),
    ("dividing-angle", {"angle": "361"}, "Angle: “361” is not above 0 and up to 360 °."),
    ("hole-circle", {"holes": "201"}, "Holes: “201” is outside 1 to 200."),
    ("pieces-centre", {"pieces": "300 at 0"}, "Pieces: “300 at 0” is not mass @ place."),
    ("pieces-centre", {"pieces": "0 @ 5"}, "Pieces: “0” is not above 0 and up to"),
    ("pieces-centre", {"pieces": ";;"}, "Pieces: are not given."),
    ("convert", {"from": "furlong"}, "From: “furlong” is no unit held. Held are length: mm"),
    ("convert", {"to": "mm"}, "To: “mm” is of length, and lbf·ft is of torque. Choose N·m"),
    ("convert", {"value": "-300", "from": "C", "to": "F"}, "Value: “-300 °C” is below absolute zero."),
)  # fmt: skip


@pytest.mark.parametrize(("topic", "differs", "said"), REFUSED)
def test_what_cannot_be_is_refused_by_its_sentence(topic: str, differs: dict[str, str], said: str) -> None:
    with pytest.raises(RebuildError) as refusal:
        _run(topic, **differs)
    assert said in str(refusal.value)
    assert isinstance(refusal.value, BadEntry | OutOfRange)


def test_a_boundary_from_both_sides() -> None:
    assert _answer(_run("general-tolerance", size="30"), "plus and minus") == 0.2
    assert _answer(_run("general-tolerance", size="30.01"), "plus and minus") == 0.3
    assert _answer(_run("general-tolerance", size="0.5"), "plus and minus") == 0.1
    assert _answer(_run("belt", centres="249.01"), "centres") == pytest.approx(249.01)
    assert _answer(_run("bevel-gears", shafts="119"), "pinion: pitch cone") == pytest.approx(30.0, abs=1.0)


def test_what_is_from_memory_says_so() -> None:
    for topic, words in (
        ("spring", "carbon steel"),
        ("woodruff", "(D - √(D² - W²)) / 2"),
        ("pipe-gauging", "one turn"),
    ):
        found = figure(topic).run(figure(topic).example)
        line = next(step for step in found.working.steps if words in step.text)
        assert line.source is not None
        assert line.source.status is Status.FROM_MEMORY


def test_inch_and_metric_typing_agree() -> None:
    inch = _run("dovetail", size="1.5748031496 in", height="0.7874015748 in", roller="0.3937007874 in")
    assert _answer(inch, "over rollers") == pytest.approx(_answer(_run("dovetail"), "over rollers"), abs=1e-5)
    assert _answer(_run("woodruff", shaft="25.4 mm"), "across the shaft") == _answer(
        _run("woodruff"), "across the shaft"
    )


def test_thin_bearings_go_by_their_short_numbers_too() -> None:
    # Source: common practice of catalogues: 6904 and 61904 are one bearing, 20 x 37 x 9.
    short, long = (figure("bearing").run({"stamped": stamped}) for stamped in ("6904 2RS", "61904-2RS"))
    assert short.answers == long.answers
    assert _answer(short, "outside") == 37.0
    with pytest.raises(RebuildError):
        figure("bearing").run({"stamped": "6999"})


def test_a_worn_seat_leads_to_the_next_key_of_its_cutter() -> None:
    assert _answer(_run("woodruff", key="404", worn="0.130 in"), "for the worn seat") == "a stepped key"
    # Source: a handbook's public page of ASME B17.2: of 3/4 in circles there are 406, 506, 606 and 806.
    seat = _run("woodruff", key="506", worn="4.2")
    assert _answer(seat, "for the worn seat") == "a stepped key"
    assert [one.value for one in seat.answers if one.label == "or a wider key"] == ["No. 606", "No. 806"]
    # Source: ASME B17.2: shaft depths 0.2143 in (606) and 0.1830 in (806), hub 0.1310 in (806).
    worn = _run("woodruff", key="606", shaft="1 in", worn=".195 in")
    wider = next(one for one in worn.answers if one.label == "or a wider key")
    assert wider.value == "No. 806"
    assert "the old floor is 0.0313 in (0.795 mm) too deep" in wider.note
    assert "the hub's keyway too" in wider.note


def test_the_other_ways_through_a_figure() -> None:
    assert _answer(_run("belt", centres="", length="2206.11"), "centres") == pytest.approx(697.0, abs=0.01)
    back = _run("dovetail", known="reading", size="67.3205")
    assert _answer(back, "narrow width") == pytest.approx(40.0, abs=1e-4)
    assert _answer(_run("pipe-thread", kind="G", size="1/2"), "drill") == 19.0
    every = _run("convert", value="1", **{"from": "in", "to": ""})
    assert {answer.label for answer in every.answers} == {"mm", "cm", "m", "µm", "thou", "tenth", "µin", "ft"}
    corner = _run("hole-circle", **{"from": "a datum", "x": "-10", "y": "5"})
    assert _answer(corner, "hole 1, x") == pytest.approx(40.0)
    pulled = _run("spring", kind="extension", initial="5", free="")
    assert _answer(pulled, "active coils") == 10.0
    assert _answer(_run("dividing", divisions="6"), "crank").startswith("6 turns and 16 holes")  # type: ignore[union-attr]
    bore = _run("ring-groove", on="bore", size="28")
    # Source: DIN 472, 28 mm: groove 29.4 +0.21.
    assert _answer(bore, "groove, low") == 29.4
    assert _answer(bore, "groove, high") == pytest.approx(29.61)


def test_what_a_picture_helps_is_drawn_within_its_sheet() -> None:
    drawings = [
        _run("dovetail"),
        _run("dovetail", kind="internal", known="wide width", size="60"),
        _run("dovetail", size="3000", height="30"),
        _run("hole-circle"),
        _run("hole-circle", holes="1"),
        _run("hole-circle", holes="200"),
        _run("belt"),
        _run("belt", way="crossed", centres="500"),
        _run("belt", driver="393", driven="105"),
        _run("woodruff"),
        _run("woodruff", key="3 x 5", shaft="12", worn=""),
    ]
    for found in drawings:
        drawing = found.drawing
        assert drawing is not None
        for stroke in drawing.strokes:
            for x, y in stroke.points:
                assert -1 <= x <= drawing.width + 1
                assert -1 <= y <= drawing.height + 1


def test_a_crossed_belt_s_straights_touch_both_pulleys() -> None:
    """Geometry: the drawn straight is a tangent, square to the radius at both its ends."""
    for way, centres in (("open", "697"), ("crossed", "500")):
        drawing = _run("belt", way=way, centres=centres).drawing
        assert drawing is not None
        straights = [one.points for one in drawing.strokes if one.weight is Weight.MARK]
        pulleys = [one.points for one in drawing.strokes if one.closed and not one.filled]
        middles = [(sum(x for x, _ in one) / len(one), sum(y for _, y in one) / len(one)) for one in pulleys]
        assert len(straights) == len(middles) == 2
        for straight in straights:
            along = (straight[1][0] - straight[0][0], straight[1][1] - straight[0][1])
            for end, middle in zip(straight, middles, strict=True):
                square = along[0] * (end[0] - middle[0]) + along[1] * (end[1] - middle[1])
                assert square == pytest.approx(0.0, abs=1e-6)


def test_a_stamped_number_is_held_against_what_was_measured() -> None:
    # Source: ISO 15, series 19: 61904 is 20 x 37 x 9; the sizes are those of 6205 (25 x 52 x 15).
    off = _run("bearing", stamped="6904", bore="25", outside="52", width="15")
    assert _answer(off, "number and sizes") == "disagree"
    told = off.answers[0].note
    for name in ("bore +5.000 mm", "outside +15.000 mm", "width +6.000 mm"):
        assert name in told
    assert "6904 is its short number" in off.answers[1].note
    near = figure("bearing").run({"stamped": "6904", "bore": "20.02"})
    assert _answer(near, "number and sizes") == "agree"
    assert figure("bearing").run({"stamped": "R 8"}).answers[0].label == "R8"
