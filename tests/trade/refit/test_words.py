"""Words of a refit step."""

from __future__ import annotations

from rebuild.trade.refit.words import CameOff, refit_note, refit_title, wants_help


def test_a_refit_step_says_what_the_hands_ask_for() -> None:
    off = CameOff("HS-02 cap", "unscrewed", orientation="stamp 1 to the front", fasteners=["4 × 3/8-16 screw"],
                  shims=["left: 0.0090 in"], place="bag 3", hard="took two people")  # fmt: skip
    assert refit_title(off) == "Refit HS-02 cap"
    assert refit_note(off).splitlines() == [
        "Lay in: bag 3", "Came off unscrewed", "Sat: stamp 1 to the front", "Shims left: 0.0090 in",
        "Holds: 4 × 3/8-16 screw", "Hard: took two people",
    ]  # fmt: skip
    assert wants_help(off) == "two people"
