"""The making sheet as PDF: its text says what the sheet says, every size is on it, and the marks are seen."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from rebuild.errors import BadEntry, FileTrouble
from rebuild.sheets.making_sheet import STALE_MARK, WAITS_MARK, write_making_sheet
from rebuild.sheets.paper import LETTER, MM, paper
from rebuild.sheets.part_story import write_part_story
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.making.rows_sheet_lists import SheetPage
from rebuild.work.making.rows_story import part_story
from tests.sheets.conftest import PRINTED
from tests.work.teardown.apron import Apron


def texts(path: Path) -> list[str]:
    """The text of each page, spaces folded."""
    return [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]


def written(page: SheetPage, tmp_path: Path) -> list[str]:
    target = tmp_path / "sheet.pdf"
    assert write_making_sheet(page, target, printed=PRINTED) == len(PdfReader(target).pages)
    return texts(target)


def test_two_pages_with_every_size_step_tool_and_caution(page: SheetPage, tmp_path: Path) -> None:
    front, back = written(page, tmp_path)
    for size in page.sizes:
        assert size.words in front, size.name
        assert size.other_unit in front
        assert " ".join(size.source.split()) in front
    for mate in page.mates:
        assert mate.mate in front
        assert "0.8128 in" in front
        assert "Micrometer 0-2" in front
    for step in page.steps:
        assert " ".join(step.what.split()) in back
    assert back.count("STOP and measure") == sum(step.measure for step in page.steps)
    for tool in page.tools:
        assert " ".join(tool.what.split()) in back
    for caution in page.cautions:
        assert caution.title in back
        assert f"Defers to: {caution.defer_to}" in back
    assert page.blank.words in front
    assert "worn oval" in front
    assert "the old one reads 0.6450 in; make 0.6257 to 0.6262 in" in front
    assert "accepted by concession, reason" in back
    assert "printed 8 Nov 2026, 20:15 1 / 2" in front


def test_the_drawing_on_the_page_carries_the_sheets_limits(page: SheetPage, tmp_path: Path) -> None:
    front = written(page, tmp_path)[0]
    assert page.drawing.drawn is not None
    for dimension in page.drawing.drawn.dimensions:
        for line in dimension.measure.lines("in", diameter=dimension.diameter):
            assert line in front, dimension.role
    assert "Ø0.8140 Ø0.8136" in front


def test_every_sign_of_the_trade_comes_out(page: SheetPage, tmp_path: Path) -> None:
    both = " ".join(written(page, tmp_path))
    for sign in "µ±Ø°×":
        assert sign in both, sign
    assert "\N{REPLACEMENT CHARACTER}" not in both


def test_stale_and_waiting_sheets_carry_their_mark_on_every_page(
    apron: Apron, bush: int, tmp_path: Path
) -> None:
    apron.read("housing", "0.8131", Stage.CLEANED)
    with apron.store.read() as connection:
        stale = sheet_page(connection, bush)
    pages = written(stale, tmp_path)
    assert all(STALE_MARK in text for text in pages)
    assert "Refresh the sheet before cutting" in pages[0]
    assert "measured again 0.8131 in cleaned" in pages[0]
    decide.decide(apron.store, [apron.parts["AP-02"]], Decision.BUY, reason="cracked")
    from rebuild.work.making import acts as making

    making.refresh(apron.store, bush)
    with apron.store.read() as connection:
        waiting = sheet_page(connection, bush)
    pages = written(waiting, tmp_path)
    assert all(WAITS_MARK in text and STALE_MARK not in text for text in pages)
    assert "is to be bought and is not measured as made yet" in pages[0]


def test_letter_is_letter(page: SheetPage, tmp_path: Path) -> None:
    target = tmp_path / "letter.pdf"
    write_making_sheet(page, target, LETTER, printed=PRINTED)
    box = PdfReader(target).pages[0].mediabox
    assert float(box.width) == pytest.approx(215.9 * MM)
    assert float(box.height) == pytest.approx(279.4 * MM)
    assert paper("a4").name == "A4"
    with pytest.raises(BadEntry, match="Choose A4 or Letter"):
        paper("foolscap")


def test_limits_are_the_largest_words_in_the_table(page: SheetPage, tmp_path: Path) -> None:
    """Read at arm's length: limits at 14 points or more, nothing under 8."""
    target = tmp_path / "sheet.pdf"
    write_making_sheet(page, target, printed=PRINTED)
    found: list[tuple[float, str]] = []

    def hear(text: str, _cm: object, _tm: object, _font: object, size: float) -> None:
        if text.strip():
            found.append((size, text))

    PdfReader(target).pages[0].extract_text(visitor_text=hear)
    limits = [size for size, text in found if "0.8136 to 0.8140 in" in text]
    assert limits
    assert min(limits) >= 14.0
    assert min(size for size, _ in found) >= 7.0


def test_a_folder_that_is_not_there_is_a_sentence(page: SheetPage, tmp_path: Path) -> None:
    with pytest.raises(FileTrouble, match="cannot be written"):
        write_making_sheet(page, tmp_path / "nowhere" / "sheet.pdf")


def test_the_story_is_one_page(apron: Apron, bush: int, tmp_path: Path) -> None:
    target = tmp_path / "story.pdf"
    with apron.store.read() as connection:
        told = part_story(connection, apron.parts["AP-12"])
    assert write_part_story(told, target, printed=PRINTED) == 1
    (text,) = texts(target)
    for line in ("AP-12 apron bush", "0.6450 in as found", "making sheet, attempt 1", "Its fits now"):
        assert line in text
