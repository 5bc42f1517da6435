"""Pipe threads: NPT from the rule against two public tables, G and R against public pages and a library."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.trade.threads.pipe import (
    NPT,
    G,
    R,
    by_stand_off,
    pipe_thread,
    pipe_threads,
)
from rebuild.trade.threads.pipe_identify import identify_pipe_thread
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]
IN = 25.4


def test_npt_by_rule_against_a_public_table(published: Checker, reference: Rows) -> None:
    source = "ASME B1.20.1, a dealer's public table"
    for row in reference("npt_public_in"):
        thread = pipe_thread(NPT, row["size"]).value
        assert thread.gauge_mm is not None
        assert thread.useful_mm is not None
        published.number(source, f"{row['size']} E1", thread.pitch_diameter_mm / IN, float(row["E1"]), last_digit=1e-5,
                         why="E0 is rounded before L1/16 is added")  # fmt: skip
        published.number(
            source, f"{row['size']} L2", thread.useful_mm / IN, float(row["L2"]), last_digit=1e-4
        )
        published.number(source, f"{row['size']} L1", thread.gauge_mm / IN, float(row["L1"]), last_digit=1e-3)


def test_npt_small_end_against_a_second_chart(published: Checker, reference: Rows) -> None:
    source = "ASME B1.20.1, a supplier's chart"
    for row in reference("npt_pitch_start_in"):
        thread = pipe_thread(NPT, row["size"]).value
        assert thread.gauge_mm is not None
        small = (thread.pitch_diameter_mm - thread.gauge_mm / 16) / IN
        published.number(source, f"{row['size']} E0", small, float(row["E0"]), last_digit=1e-5)
        published.number(
            source, f"{row['size']} outside", thread.major_mm / IN, float(row["outside"]), last_digit=1e-4
        )


def test_g_and_r_against_public_pages(published: Checker, reference: Rows) -> None:
    for row in reference("bsp_public_mm"):
        for system in (G, R):
            if not any(one.system == system and one.size == row["size"] for one in pipe_threads()):
                continue
            thread = pipe_thread(system, row["size"]).value
            source = "ISO 228, ISO 7, public pages"
            published.number(source, f"{thread.name} minor", thread.minor_mm, float(row["minor"]), last_digit=0.001,
                             why="depth rounded before it is doubled")  # fmt: skip
            published.number(
                source, f"{thread.name} major", thread.major_mm, float(row["major"]), last_digit=0.001
            )


def test_g_pitch_diameters_against_a_library(published: Checker, reference: Rows) -> None:
    held = {one.size: one for one in pipe_threads() if one.system == G}
    for row in reference("library_pipe_threads_mm"):
        if row["size"] not in held:
            published.not_covered(
                "ISO 228-1 pitch diameters of a library", row["size"], "not in the two public pages"
            )
            continue
        got, want = held[row["size"]].pitch_diameter_mm, float(row["pitch_diameter"])
        published.number(
            "ISO 228-1 pitch diameters of a library",
            row["size"],
            got,
            want,
            last_digit=0.001,
            why="the library keeps the printed value",
        )


# Source: a supplier's public page of pipe fittings: hand-tight turns and length of engagement, rounded to halves.
TURNS = {
    "1/8": 4.5,
    "1/4": 4,
    "3/8": 4.5,
    "1/2": 4.5,
    "1": 4.5,
    "2": 5,
    "2 1/2": 5.5,
    "3": 6,
    "3 1/2": 6.5,
    "5": 7.5,
}


def test_hand_tight_turns(published: Checker) -> None:
    for size, turns in TURNS.items():
        thread = pipe_thread(NPT, size).value
        assert thread.gauge_mm is not None
        published.number(
            "NPT turns by hand, a supplier's page",
            size,
            thread.gauge_mm / thread.pitch_mm,
            turns,
            last_digit=0.5,
        )


def test_a_cone_of_one_in_sixteen_reads_back(published: Checker) -> None:
    """Independent: a plug of 1:16 taper cut larger by c stops c × 16 short."""
    for thread in pipe_threads():
        if thread.gauge_mm is not None:
            off = by_stand_off(thread, 16 * 0.05).value
            published.number("Cone of 1:16", thread.name, off, 0.05, last_digit=1e-9)
        again = identify_pipe_thread(thread.major_mm, thread.tpi).value
        assert thread.size in {one.thread.size for one in again if one.likeness.agrees}
