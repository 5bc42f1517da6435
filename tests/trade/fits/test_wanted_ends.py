"""Which ends a wanted range may have, for fits that hold and fits that run, each limit from both sides."""

from __future__ import annotations

import pytest

from rebuild.errors import Ambiguous, BadEntry, Implausible
from rebuild.trade.fits.wanted import parse_wanted, refuse_mixed_units
from rebuild.words.fits import FitKind

TIGHT = [FitKind.PRESS, FitKind.SHRINK]
CLEAR = [FitKind.RUNNING, FitKind.SLIDING, FitKind.THREAD, FitKind.MESH]


@pytest.mark.parametrize("kind", TIGHT)
@pytest.mark.parametrize("text", ["min -0.03", "-0.03 to +0.001", "max 0.001 clear", "0.01-0.03 clear"])
def test_a_fit_that_holds_has_no_end_open_to_clearance(kind: FitKind, text: str) -> None:
    with pytest.raises(BadEntry, match=f"a {kind.value} fit holds by interference alone") as refusal:
        parse_wanted(text, kind=kind)
    assert refusal.value.way_out.startswith("Type it as 0.01-0.03 interference")


@pytest.mark.parametrize("kind", TIGHT)
@pytest.mark.parametrize(
    ("text", "low", "high"),
    [("-0.03 to 0", -0.03, 0.0), ("max -0.01", None, -0.01), ("0.01-0.03 interference", -0.03, -0.01)],
)
def test_a_fit_that_holds_may_end_at_nothing(
    kind: FitKind, text: str, low: float | None, high: float
) -> None:
    wanted = parse_wanted(text, kind=kind)
    assert ((wanted.low.mm if wanted.low else None), wanted.high and wanted.high.mm) == (low, high)


@pytest.mark.parametrize("kind", CLEAR)
def test_a_fit_that_runs_begins_at_nothing_or_more(kind: FitKind) -> None:
    assert parse_wanted("0-0.02", kind=kind).low is not None
    assert parse_wanted("max 0.02", kind=kind).low is None
    for text in ("-0.001 to 0.02", "min -0.001", "max -0.001"):
        with pytest.raises(BadEntry, match=f"a {kind.value} fit cannot work with an interference"):
            parse_wanted(text, kind=kind)


def test_a_push_fit_may_be_either() -> None:
    wanted = parse_wanted("-0.01 to 0.01", kind=FitKind.PUSH)
    assert (wanted.low and wanted.low.mm, wanted.high and wanted.high.mm) == (-0.01, 0.01)


@pytest.mark.parametrize("kind", TIGHT)
def test_two_bare_numbers_of_a_fit_that_holds_are_asked_about(kind: FitKind) -> None:
    with pytest.raises(Ambiguous, match="may be the interference of this"):
        parse_wanted("0.01-0.03", kind=kind)


def test_a_range_is_doubted_above_three_hundredths_of_the_size() -> None:
    refuse_mixed_units(parse_wanted("0-0.75"), 25.0, "0-0.75", "mm")
    with pytest.raises(Implausible, match="is 3% of the size"):
        refuse_mixed_units(parse_wanted("0-0.76"), 25.0, "0-0.76", "mm")
    refuse_mixed_units(parse_wanted("0-0.76"), None, "0-0.76", "mm")
