"""The grade each process usually holds, against a public machine drawing textbook."""

from __future__ import annotations

from typing import Any

from rebuild.trade.making.process_grade import processes

SOURCE = "Machine drawing textbook, Fig. 15.2, accuracy expected of a process"
#: As printed, by grade: 11 drilling, rough turning and boring; 10 milling, slotting, planing; 8 centre lathe turning
#: and boring, reaming; 7 high quality turning, broaching, honing; 6 grinding, fine honing; 5 machine lapping.
PRINTED = {
    "drilling": (11,), "milling": (10,), "planing": (10,), "turning": (8, 7), "boring": (8,), "reaming": (8,),
    "honing": (7, 6), "grinding": (6,), "lapping": (5, 4),
}  # fmt: skip


def test_the_usual_grades_are_those_printed(published: Any) -> None:
    known = {one.name: one for one in processes()}
    assert set(known) == set(PRINTED)
    for name, grades in PRINTED.items():
        published.text(SOURCE, name, known[name].usual in grades, True)
        assert known[name].finest <= known[name].usual, "the finest is never coarser than the usual"
