"""Two papers with other limits never carry the same issue. Common practice of drawing offices, no source."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from pypdf import PdfReader

from rebuild.sheets.making_sheet import heading, title_of, write_making_sheet
from rebuild.words.making import MakingProgress
from rebuild.work.making import acts as making, acts_sizes as making_sizes
from tests.support import refuses
from tests.work.making.test_thread_sheets import Screwed, screwed  # noqa: F401

EARLY, LATE = dt.datetime(2026, 12, 1, 3, 59), dt.datetime(2026, 12, 1, 4, 20)


# Seen: released and printed 0.4790 to 0.4819, refreshed, printed 0.4770 to 0.4799: only the printed time differed.
def test_other_limits_are_another_issue(screwed: Screwed, tmp_path: Path) -> None:  # noqa: F811
    store = screwed.store
    screwed.read("0.9257")
    sheet = screwed.sheet()
    screwed.give_all(sheet)
    assert "not issued" in heading(screwed.page(sheet)).right[0]
    making.release(store, sheet, at=EARLY)
    first = screwed.page(sheet)
    assert "issue 1" in heading(first).right[0]
    assert "issue 1 of 1 Dec 2026, 03:59" in heading(first).foot
    was = screwed.size(sheet, "pitch diameter").words
    assert was == "0.9277 to 0.9302 in"  # 0.9257 + 0.0020 to 0.9257 + 0.0045, by hand

    screwed.read("0.9237", sure=True)
    changed = making.refresh(store, sheet, at=LATE)
    assert "was 0.9277 to 0.9302 in, is 0.9257 to 0.9282 in" in changed[0]
    found = screwed.page(sheet)
    assert found.course.progress is MakingProgress.DRAFT, "it asks to be released again"
    assert "draft of issue 2" in heading(found).right[0]
    with refuses(store, "is draft"):
        making.begin(store, sheet)
    making.release(store, sheet, at=LATE)
    again = screwed.page(sheet)
    assert "issue 2" in heading(again).right[0]
    assert "issue 2" in title_of(again).issue
    assert "replaces issue 1 of 1 Dec 2026, 03:59: " in again.course.issue.replaces
    assert "was 0.9277 to 0.9302 in" in again.course.issue.replaces
    write_making_sheet(again, tmp_path / "nut.pdf")
    paper = " ".join(page.extract_text() for page in PdfReader(tmp_path / "nut.pdf").pages)
    assert "Issue 2, replaces issue 1 of 1 Dec 2026, 03:59" in " ".join(paper.split())
    # ISO 2768-1 m: 0.3 mm over 30 to 120 mm is 0.0118 in, in the shop 0.011.
    assert "to 4.724 ±0.011" in " ".join(paper.split())
    assert again.drawing.drawn is not None
    assert any("pitch dia. 0.9257 to 0.9282 in" in " ".join(note.lines) for note in again.drawing.drawn.notes)
    store.undo()
    assert screwed.page(sheet).course.issue.number == 1

    making.release(store, sheet, at=LATE)
    assert making.refresh(store, sheet, at=LATE) == ()
    assert screwed.page(sheet).course.progress is MakingProgress.RELEASED, "nothing changed, nothing to ask"
    making.begin(store, sheet, sure=True)
    making_sizes.set_size(store, screwed.size(sheet, "body diameter").id, "1.490-1.492")
    cut = screwed.page(sheet).course
    assert cut.progress is MakingProgress.BEING_MADE
    assert cut.issue.number == 3, "work that is begun goes on, on a new issue"
    assert "body diameter was 1.4980 to 1.5000 in" in cut.issue.replaces
