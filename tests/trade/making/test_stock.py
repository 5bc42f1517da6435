"""A short piece: how it is held, what the steps say, and when nothing is left to hold. Common practice, no source."""

from __future__ import annotations

from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.steps import propose_steps
from rebuild.trade.making.stock import Stock, Way, got_out_of, length_to_hold, stock_trouble, way_of

INCH = 25.4
NUT = {
    "body diameter": Measure("body diameter", 1.0 * INCH),
    "length": Measure("length", 1.25 * INCH),
    "bore": Measure("bore", 0.396 * INCH),
}


# Seen: a nut from 1-1/4 across, 1.5 long was "one piece between centres, none with a grip in the chuck".
def test_what_is_bored_through_is_turned_round_and_never_between_centres() -> None:
    piece = Stock(1.25 * INCH, 1.5 * INCH, "sawn")
    assert stock_trouble("nut", NUT, piece, "in") == ""
    told = got_out_of("nut", NUT, piece, "in")
    assert "turned round" in told
    assert "between centres" not in told
    steps = [step.what for step in propose_steps("nut", NUT, None, "in", way=way_of("nut", NUT, piece))]
    assert not any("Part off" in what for what in steps)
    assert any(what.startswith("Turn it round; face the second end to {length}") for what in steps)
    usual = [step.what for step in propose_steps("nut", NUT, None, "in")]
    assert any("Part off" in what for what in usual)
    assert len(usual) == len(steps)


def test_solid_short_work_still_goes_between_centres_and_filed_work_in_the_vice() -> None:
    shaft = {"length 1": Measure("length 1", 100.0), "diameter 1": Measure("diameter 1", 20.0)}
    assert way_of("stepped shaft", shaft, Stock(22.0, 103.0)) is Way.CENTRES
    key = {name: Measure(name, size) for name, size in (("width", 6.0), ("height", 6.0), ("length", 20.0))}
    assert "vice" in got_out_of("key", key, Stock(8.0, 25.0), "mm")


def test_too_short_to_hold_is_refused_with_the_length_that_would_do() -> None:
    """A collar 6 mm wide of 30 mm bar: two grips of 10 mm are 20; 8 mm sawn leaves nothing, 20 mm just does."""
    collar = {"outside diameter": Measure("outside diameter", 28.0), "width": Measure("width", 6.0)}
    said = stock_trouble("collar", collar, Stock(30.0, 8.0, "sawn"), "mm")
    assert "nothing is left to hold" in said
    assert length_to_hold("collar", collar, Stock(30.0, 8.0, "sawn")) == 20.0
    assert "20.000 mm" in said
    assert stock_trouble("collar", collar, Stock(30.0, 19.9, "sawn"), "mm")
    assert stock_trouble("collar", collar, Stock(30.0, 20.0, "sawn"), "mm") == ""
